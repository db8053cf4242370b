"""Anything the sliders can be moved to: legs keep their lengths, or a reason says why not."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given, settings
from riders import DEG, MM, demo, random_values, settled, setup_of, slider_setups, slider_values

from geometry import Posture, posture_reasons, solve, straight_leg_cant
from geometry.fitting.inputs import Setup
from geometry.joints import joint_angles

LIMBS_KEPT = 1e-6
"""What a bone may be off (mm)."""
NUMBERS = ("off_plane", "knee_flexion", "boot_flex", "wanted_give", "lean")


def numbers_of(posture: Posture) -> list[float]:
    legs = [getattr(leg, name) for leg in posture.legs for name in NUMBERS]
    points = [float(x) for leg in posture.legs for x in (*leg.knee, *leg.hip)]
    return [*legs, *points, posture.depth, posture.height]


@given(slider_setups)
@settings(max_examples=250)
def test_there_is_a_posture_or_a_reason_for_each_leg_and_never_both(setup: Setup) -> None:
    posture = solve(*setup)
    words = [str(text) for text in posture_reasons(posture)]
    if posture.exists:
        assert words == ["", ""]
        assert all(math.isfinite(number) for number in numbers_of(posture))
    else:
        assert all(words)
        assert all(math.isnan(number) for number in numbers_of(posture))


@given(slider_setups)
@settings(max_examples=250)
def test_shank_and_thigh_keep_their_lengths(setup: Setup) -> None:
    posture = solve(*setup)
    assume(posture.exists)
    for leg in posture.legs:
        assert math.dist(leg.knee, leg.ankle) == pytest.approx(setup.body.shank, abs=LIMBS_KEPT)
        assert math.dist(leg.hip, leg.knee) == pytest.approx(setup.body.thigh, abs=LIMBS_KEPT)
    apart = math.dist(posture.front.hip, posture.rear.hip)
    assert apart == pytest.approx(setup.body.hip_spacing, abs=LIMBS_KEPT)


@given(slider_setups)
@settings(max_examples=100)
def test_knees_average_the_bend_and_boots_the_lean(setup: Setup) -> None:
    posture = solve(*setup)
    assume(posture.exists)
    flexions, flexes = zip(
        *((leg.knee_flexion, leg.boot_flex) for leg in posture.legs), strict=True
    )
    assert sum(flexions) / 2 == pytest.approx(setup.crouch.knee_bend, abs=1e-9)
    assert sum(flexes) / 2 == pytest.approx(setup.boots.forward_lean, abs=1e-9)
    assert all(0.0 <= flexion < math.pi for flexion in flexions)


@given(slider_setups)
@settings(max_examples=100)
def test_the_shank_never_leans_farther_than_boot_and_ankle_give(setup: Setup) -> None:
    posture = solve(*setup)
    assume(posture.exists)
    for leg in posture.legs:
        # Read from the points alone: the shank's lean square to its hinge plane's
        # direction on the sole, less where the cuff holds it.
        shank = leg.knee - leg.ankle
        outward, up = np.dot(shank, leg.chain.outer), np.dot(shank, leg.chain.normal)
        given_way = math.atan2(-outward, up) - leg.chain.cuff
        if up > 0.0:
            assert abs(given_way) <= setup.boots.side_give + 1e-7


@given(slider_setups)
@settings(max_examples=80)
def test_the_knee_leaves_its_plane_by_the_angle_that_is_told(setup: Setup) -> None:
    posture = solve(*setup)
    assume(posture.exists)
    for leg in posture.legs:
        thigh = leg.hip - leg.knee
        sine = float(leg.hinge_axis @ thigh) / float(np.linalg.norm(thigh))
        assert math.asin(max(-1.0, min(1.0, sine))) == pytest.approx(leg.off_plane, abs=1e-6)


@given(slider_setups)
@settings(max_examples=60)
def test_joints_and_the_straight_leg_rule_answer_whenever_there_is_a_posture(setup: Setup) -> None:
    posture = solve(*setup)
    angles = joint_angles(posture)
    told = [
        getattr(joint, name)
        for leg in (angles.front, angles.rear)
        for joint in (leg.hip, leg.knee, leg.ankle)
        for name in type(joint).__slots__
    ]
    assert all(math.isfinite(angle) == posture.exists for angle in told)
    assert math.isfinite(straight_leg_cant(setup.stance, setup.body))


# Where sliders end is where arithmetic breaks first: every pair of ends once.
ENDS = [
    {name: ranges[(i >> k) & 1] for k, (name, ranges) in enumerate((MM | DEG).items())}
    for i in range(0, 1 << 22, 9973)
]


@pytest.mark.parametrize("give", [0.0, 4.0])
def test_corners_of_the_ranges_have_a_posture_or_a_reason(give: float) -> None:
    corners: dict[str, Any] = {name: np.array([end[name] for end in ENDS]) for name in ENDS[0]}
    corners["knee_height"] = np.minimum(corners["knee_height"], corners["hip_height"] - 50.0)
    corners["side_give"] = np.full(len(ENDS), give)
    posture = solve(*setup_of(corners))
    words = np.stack(posture_reasons(posture))
    assert np.array_equal(words[0] == "", posture.exists)
    assert np.array_equal(words[1] == "", posture.exists)
    assert np.array_equal(np.isfinite(posture.front.knee).all(axis=-1), posture.exists)


@pytest.mark.parametrize("seed", [1, 2])
def test_twenty_thousand_stances_at_once_keep_their_limbs(seed: int) -> None:
    setup = setup_of(random_values(20_000, seed))
    posture = solve(*setup)
    found = posture.exists
    assert 0.3 < np.mean(found) < 0.6
    for leg in posture.legs:
        thigh = np.linalg.norm(leg.hip - leg.knee, axis=-1)[found]
        assert thigh == pytest.approx(setup.body.thigh[found], abs=LIMBS_KEPT)


@given(slider_values())
@settings(max_examples=30)
def test_the_same_stance_gives_the_same_posture_every_time(values: dict[str, float]) -> None:
    once, again = solve(*setup_of(values)), solve(*setup_of(values))
    assert np.array_equal(numbers_of(once), numbers_of(again), equal_nan=True)


def test_a_hair_s_breadth_of_a_slider_moves_the_posture_by_a_hair() -> None:
    angles = np.arange(-60.0, 90.0, 0.05)
    posture = settled(front_angle=angles, rear_angle=10.0)
    assert np.all(posture.exists)
    for leg in posture.legs:
        steps = np.linalg.norm(np.diff(leg.knee, axis=0), axis=-1)
        assert steps.max() < 1.0


def test_the_demo_rider_has_a_posture_over_the_whole_range_of_binding_angles() -> None:
    angles = np.arange(-60.0, 91.0, 5.0)
    posture = settled(front_angle=angles[:, None], rear_angle=angles[None, :])
    splay = np.abs(angles[:, None] - angles[None, :])
    assert np.all(posture.exists[splay <= 90.0])


def test_an_empty_array_of_stances_gives_an_empty_answer() -> None:
    posture = solve(*demo(front_angle=np.zeros(0)))
    assert posture.front.knee.shape == (0, 3)
    assert posture_reasons(posture)[0].shape == (0,)
