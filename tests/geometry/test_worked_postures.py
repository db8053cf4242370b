"""Postures that an independent solver worked out, and what practice knows of stances.

The numbers, their origin and their tolerance are in tests/cases/worked_postures.json.
"""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import Any

import pytest
from riders import DEMO, demo, rad, settled

from geometry import Posture, long_axes_apart, no_cant_length, short_axes_apart, straight_leg_cant

WORKED = json.loads(
    (Path(__file__).parents[1] / "cases" / "worked_postures.json").read_text(encoding="utf-8")
)
NAMES = list(WORKED["cases"])
ANGLES = ("off_plane", "knee_flexion", "boot_flex", "wanted_give")


def case(name: str) -> tuple[dict[str, Any], Posture]:
    worked = WORKED["cases"][name]
    return worked, settled(**worked["changes"])


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("angle", ANGLES)
def test_both_legs_angles_are_the_worked_ones(name: str, angle: str) -> None:
    worked, posture = case(name)
    found = [math.degrees(getattr(leg, angle)) for leg in posture.legs]
    assert found == pytest.approx(worked[angle], abs=WORKED["tolerance"])


@pytest.mark.parametrize("name", NAMES)
def test_the_pelvis_settles_where_it_was_worked_out(name: str) -> None:
    worked, posture = case(name)
    found = [posture.depth, posture.height]
    assert found == pytest.approx([worked["depth"], worked["height"]], abs=WORKED["tolerance"])


@pytest.mark.parametrize("name", NAMES)
def test_the_weight_stands_where_it_was_worked_out(name: str) -> None:
    worked, posture = case(name)
    tolerance = WORKED["tolerance_of_mass_centre"]
    assert posture.mass_centre == pytest.approx(worked["mass_centre"], abs=tolerance)


@pytest.mark.parametrize("name", NAMES)
def test_the_front_foot_s_share_follows_from_where_the_weight_was_worked_out(name: str) -> None:
    worked, posture = case(name)
    length = (DEMO | worked["changes"])["stance_length"]
    # Without an across spacing only x counts: a lever about the rear foot.
    assert posture.front_share == pytest.approx(0.5 + worked["mass_centre"][0] / length, abs=2e-5)


@pytest.mark.parametrize(("angle", "cant"), WORKED["straight_leg_cant"]["cant_at_angle"])
def test_the_straight_leg_rule_gives_the_worked_cant(angle: float, cant: float) -> None:
    body, _, stance, _ = demo(front_angle=angle, rear_angle=angle)
    found = [math.degrees(foot) for foot in straight_leg_cant(stance, body)]
    assert found == pytest.approx([cant, cant], abs=1e-3)


def test_with_two_angles_and_two_legs_the_straight_leg_rule_gives_each_foot_its_own() -> None:
    own = {"rear_hip_height": 860.0, "across_spacing": 30.0}
    body, _, stance, _ = demo(front_angle=30.0, rear_angle=-12.0, **own)
    front, rear = straight_leg_cant(stance, body)
    # By hand: the bindings are S cos(phi) + B sin(phi) apart square to each foot.
    apart = [505.0 * math.cos(rad(a)) + 30.0 * math.sin(rad(a)) for a in (30.0, -12.0)]
    assert math.tan(front) == pytest.approx((apart[0] - 260.0) / (2.0 * 880.0))
    assert math.tan(rear) == pytest.approx((apart[1] - 260.0) / (2.0 * 860.0))


# Common practice, no source: hard boots, neutral spacing 270, hip height 950,
# stance length 540.
PRACTICE = {"neutral_spacing": 270.0, "hip_height": 950.0, "stance_length": 540.0}


def practice_straight_leg_cant(angle: float) -> float:
    body, _, stance, _ = demo(**PRACTICE, front_angle=angle, rear_angle=angle)
    return math.degrees(straight_leg_cant(stance, body)[0])


def test_practice_needs_no_cant_at_60_and_60() -> None:
    body, _, stance, _ = demo(**PRACTICE, front_angle=60.0, rear_angle=60.0)
    assert no_cant_length(stance, body.neutral_spacing) == pytest.approx(540.0)
    assert short_axes_apart(stance) == pytest.approx(math.sqrt(3.0) * 270.0)
    assert practice_straight_leg_cant(60.0) == pytest.approx(0.0, abs=1e-9)


def test_practice_cants_about_8_inward_at_0_and_as_much_outward_at_90() -> None:
    assert practice_straight_leg_cant(0.0) == pytest.approx(8.0, abs=0.3)
    assert practice_straight_leg_cant(90.0) == pytest.approx(-practice_straight_leg_cant(0.0))


@pytest.mark.parametrize("angle", [45.0, 55.0, 62.0])
def test_practice_stands_1_4_to_2_2_neutral_spacings_apart(angle: float) -> None:
    # Common practice, no source: the usual ratio; so wide does the no-cant line
    # stand over the usual angles of hard boots.
    _, _, stance, _ = demo(front_angle=angle, rear_angle=angle)
    assert 1.4 <= no_cant_length(stance, 1.0) <= 2.2


# Secants, any printed table; Abramowitz & Stegun, AMS 55.
SECANTS = {15.0: 1.03527618, 45.0: 1.41421356, 55.0: 1.74344680, 60.0: 2.0, 65.0: 2.36620158}


@pytest.mark.parametrize("angle", SECANTS)
def test_the_no_cant_length_is_the_neutral_spacing_times_the_secant(angle: float) -> None:
    _, _, stance, _ = demo(front_angle=angle, rear_angle=angle)
    assert no_cant_length(stance, 1.0) == pytest.approx(SECANTS[angle], abs=5e-9)


@pytest.mark.parametrize("angle", [-30.0, 0.0, 37.0, 60.0])
def test_at_the_no_cant_length_the_long_axes_are_the_neutral_spacing_apart(angle: float) -> None:
    _, _, stance, _ = demo(front_angle=angle + 6.0, rear_angle=angle - 6.0, across_spacing=40.0)
    length = no_cant_length(stance, 250.0)
    _, _, moved, _ = demo(
        front_angle=angle + 6.0,
        rear_angle=angle - 6.0,
        across_spacing=40.0,
        stance_length=length,
    )
    assert long_axes_apart(moved) == pytest.approx(250.0)


@pytest.mark.parametrize("angle", [90.0, 120.0])
def test_feet_along_the_board_or_backward_have_no_no_cant_length(angle: float) -> None:
    _, _, stance, _ = demo(front_angle=angle, rear_angle=angle)
    assert math.isnan(no_cant_length(stance, 250.0))


def test_axes_apart_make_up_the_distance_between_the_bindings() -> None:
    _, _, stance, _ = demo(across_spacing=120.0)
    apart = math.hypot(long_axes_apart(stance), short_axes_apart(stance))
    assert apart == pytest.approx(math.hypot(505.0, 120.0))
    assert long_axes_apart(stance) == pytest.approx(
        505.0 * math.cos(rad(40.5)) + 120.0 * math.sin(rad(40.5))
    )
