"""The numbers of a reasoning: each step leads to the next, and the last to what is shown."""

from __future__ import annotations

from dataclasses import replace
from math import acos, asin, atan2, cos, degrees, hypot, radians
from random import Random

import pytest

from app.features.why.model import (
    flexed_of,
    movements_of,
    rule_of,
    solved_of,
    spacing_of,
    weight_of,
)
from app.frame import Frame, frame
from app.rider.inputs import changed
from app.rider.setup import DEMO

ENDS = ("front", "rear")


def frames(count: int) -> list[Frame]:
    """Stances of all kinds that have a posture."""
    random, made = Random(7), []
    while len(made) < count:
        inputs = changed(
            DEMO.inputs,
            front_angle_deg=random.uniform(-20.0, 70.0),
            rear_angle_deg=random.uniform(-30.0, 70.0),
            stance_length_mm=random.uniform(150.0, 620.0),
            across_spacing_mm=random.choice((0.0, random.uniform(-60.0, 120.0))),
            front_cant_deg=random.uniform(-8.0, 8.0),
            rear_cant_deg=random.uniform(-8.0, 8.0),
            front_lift_deg=random.uniform(-8.0, 8.0),
            knee_bend_deg=random.uniform(30.0, 80.0),
            hips_turned_deg=random.uniform(-20.0, 20.0),
            hip_shift_mm=random.uniform(-40.0, 40.0),
            left_knee_tracking_deg=random.uniform(-8.0, 8.0),
            right_hip_height_mm=random.uniform(840.0, 900.0),
            right_cuff_offset_deg=random.uniform(-3.0, 3.0),
        )
        shown = frame(replace(DEMO, inputs=inputs))
        if shown.settled.posture.exists:
            made.append(shown)
    return made


FRAMES = frames(25)


@pytest.mark.parametrize("shown", FRAMES)
def test_the_feet_stand_apart_by_the_sides_of_a_right_triangle(shown: Frame) -> None:
    at = spacing_of(shown)
    assert hypot(at.apart, at.ahead) == pytest.approx(hypot(at.length, at.across))
    assert at.apart == pytest.approx(shown.findings.stance.long_axes_apart_mm)
    assert at.ahead == pytest.approx(shown.findings.stance.short_axes_apart_mm)


@pytest.mark.parametrize("leg", ENDS)
@pytest.mark.parametrize("shown", FRAMES)
def test_the_rule_divides_half_the_difference_by_the_hip_height(shown: Frame, leg: str) -> None:
    rule = rule_of(shown, leg)
    assert rule.half == pytest.approx(0.5 * (rule.apart - spacing_of(shown).natural))
    assert rule.cant_deg == pytest.approx(degrees(atan2(rule.half, rule.hip)))


@pytest.mark.parametrize("leg", ENDS)
@pytest.mark.parametrize("shown", FRAMES)
def test_cuff_give_and_hip_lead_to_the_off_plane_angle(shown: Frame, leg: str) -> None:
    at, inputs = solved_of(shown, leg), shown.settled.inputs
    own, found = inputs.leg(leg), shown.findings.legs[leg]
    wide, high = inputs.neutral_spacing_mm - inputs.hip_spacing_mm, own.hip_height_mm
    cuff = degrees(atan2(0.5 * wide, high - own.ankle_height_mm)) + own.cuff_offset_deg
    assert at.cuff_deg == pytest.approx(cuff)
    assert at.fitted_deg + at.offset_deg == pytest.approx(cuff)
    assert at.hip_lean_deg == pytest.approx(degrees(atan2(-at.outward, at.up)))
    assert at.wanted_deg == pytest.approx(at.hip_lean_deg - at.cuff_deg)
    assert abs(at.given_deg) <= own.side_give_deg + 1e-9
    assert at.off_plane_deg == pytest.approx(degrees(asin(at.miss / at.thigh)), abs=1e-6)
    assert at.off_plane_deg == pytest.approx(found.off_plane_deg)
    # What boot and ankle give in full leaves nothing for the knee, and the other way round.
    left = at.wanted_deg - at.given_deg
    assert (abs(left) < 1e-6) == (abs(at.off_plane_deg) < 1e-6)
    assert left * at.off_plane_deg <= 1e-9


@pytest.mark.parametrize("leg", ENDS)
@pytest.mark.parametrize("shown", FRAMES)
def test_bend_and_flex_follow_from_the_triangle_of_the_leg(shown: Frame, leg: str) -> None:
    at, found = solved_of(shown, leg), shown.findings.legs[leg]
    shank, thigh, reach = at.shank, at.thigh_in_plane, at.reach
    bend = degrees(acos((reach**2 - shank**2 - thigh**2) / (2.0 * shank * thigh)))
    knee = degrees(acos((shank**2 + reach**2 - thigh**2) / (2.0 * shank * reach)))
    assert at.bend_deg == pytest.approx(bend)
    assert at.knee_ahead_deg == pytest.approx(knee)
    assert at.line_deg + at.knee_ahead_deg == pytest.approx(found.boot_flex_deg)
    assert 0.5 * (at.bend_deg + at.other_bend_deg) == pytest.approx(at.asked_bend_deg)
    boot = flexed_of(shown, leg)
    assert boot.left_deg == pytest.approx(min(boot.high_deg - boot.flex_deg,
                                              boot.flex_deg - boot.low_deg))  # fmt: skip


@pytest.mark.parametrize("shown", FRAMES)
def test_the_weight_is_shared_by_a_lever(shown: Frame) -> None:
    at = weight_of(shown)
    assert at.share == pytest.approx(0.5 + at.along / at.apart)


def test_a_wide_stance_spreads_the_hips() -> None:
    wide = frame(replace(DEMO, inputs=changed(DEMO.inputs, stance_length_mm=600.0)))
    spread = {each.name: each.angle_deg for each in movements_of(wide, "front")}
    usual = {each.name: each.angle_deg for each in movements_of(frame(DEMO), "front")}
    assert spread["abduction"] > usual["abduction"] > 0.0


def test_the_worked_example_of_the_rider_s_own_hand() -> None:
    """505 mm at 38 and 43 degrees, 260 mm natural, hips at 880 mm: by hand, no source."""
    rear = rule_of(frame(DEMO), "rear")
    assert rear.apart == pytest.approx(505.0 * cos(radians(38.0)))
    assert rear.apart == pytest.approx(397.9, abs=0.05)
    assert rear.cant_deg == pytest.approx(4.48, abs=0.005)
