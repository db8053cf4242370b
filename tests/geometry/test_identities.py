"""What must hold of every posture, whoever computes it."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given, settings
from riders import (
    demo,
    ordinary_values,
    rad,
    random_values,
    settled,
    setup_of,
    single,
    slider_setups,
    with_lengths_times,
)

from geometry import Leg, Posture, Stance, posture_reasons, solve
from geometry.fitting.inputs import Setup
from geometry.posture import wanted_gives

ANGLES = ("off_plane", "knee_flexion", "boot_flex", "wanted_give", "lean")


def angles_of(leg: Leg) -> list[float]:
    return [getattr(leg, name) for name in ANGLES]


def mirrored(setup: Setup) -> Setup:
    """The set-up seen in a mirror that stands across the board: nose and tail change places.

    The front leg becomes the rear one.  x turns round, so binding angles, the
    twist of the hips and the shift to the front leg's side change sign, and so
    does the across spacing, which counts from the rear foot to the front one.
    Lift, cant and knee tracking go with their leg.
    """
    body, boots, stance, crouch = setup
    front, rear = (replace(m, angle=-m.angle) for m in (stance.rear, stance.front))
    return Setup(
        body,
        boots,
        Stance(front, rear, stance.length, -stance.across),
        replace(crouch, hips_turned=-crouch.hips_turned, hip_shift=-crouch.hip_shift),
    )


@given(slider_setups)
@settings(max_examples=80)
def test_a_mirror_across_the_board_exchanges_the_legs(setup: Setup) -> None:
    straight, turned = solve(*setup), solve(*mirrored(setup))
    assume(straight.exists and turned.exists)
    # Two postures may exist for a stance far off; which is found is not the point.
    assume(abs(straight.height - turned.height) < 1.0)
    for leg, image in ((straight.front, turned.rear), (straight.rear, turned.front)):
        assert angles_of(image) == pytest.approx(angles_of(leg), abs=1e-6)
        assert image.knee == pytest.approx(leg.knee * [-1.0, 1.0, 1.0], abs=1e-4)


def test_a_duck_stance_bends_both_legs_alike() -> None:
    posture = settled(front_angle=15.0, rear_angle=-15.0)
    assert angles_of(posture.front) == pytest.approx(angles_of(posture.rear), abs=1e-12)
    assert posture.front.knee == pytest.approx(posture.rear.knee * [-1.0, 1.0, 1.0], abs=1e-9)


def quarter_turned(setup: Setup) -> Setup:
    """A stance side by side made into the same one along the board, facing across it."""
    body, boots, stance, crouch = setup
    front, rear = (replace(m, angle=m.angle - 0.5 * math.pi) for m in (stance.front, stance.rear))
    return Setup(body, boots, Stance(front, rear, stance.across, -stance.length), crouch)


@pytest.mark.parametrize("turn_deg", [0.0, 4.0])
def test_a_monoski_is_a_snowboard_stance_turned_by_a_quarter(turn_deg: float) -> None:
    side_by_side = demo(
        front_angle=90.0 + turn_deg, rear_angle=90.0, stance_length=30.0, across_spacing=250.0
    )
    one, other = solve(*side_by_side), solve(*quarter_turned(side_by_side))
    for leg, same in zip(one.legs, other.legs, strict=True):
        assert angles_of(same) == pytest.approx(angles_of(leg), abs=1e-9)
        # A quarter turn about the vertical takes y to -x and x to y.
        assert same.hip == pytest.approx(leg.hip[[1, 0, 2]] * [-1.0, 1.0, 1.0], abs=1e-6)


def test_a_rider_twice_as_large_on_a_board_twice_as_large_bends_alike() -> None:
    setup = demo(front_cant=3.0, hip_shift=20.0, across_spacing=15.0)
    small = solve(*setup)
    tall = solve(*with_lengths_times(setup, 1.6))
    for leg, same in zip(small.legs, tall.legs, strict=True):
        assert angles_of(same) == pytest.approx(angles_of(leg), abs=1e-9)
        assert same.knee == pytest.approx(1.6 * leg.knee, abs=1e-6)


@given(slider_setups)
@settings(max_examples=80)
def test_the_knee_is_a_pure_hinge_just_when_the_hip_lies_in_the_hinge_plane(setup: Setup) -> None:
    posture = solve(*setup)
    assume(posture.exists)
    for leg in posture.legs:
        beside = float(leg.hinge_axis @ (leg.hip - leg.ankle))
        assert beside == pytest.approx(leg.chain.links.thigh * math.sin(leg.off_plane), abs=1e-6)
        assert leg.hinge_axis @ (leg.knee - leg.ankle) == pytest.approx(0.0, abs=1e-9)


@given(slider_setups)
@settings(max_examples=80)
def test_side_give_takes_what_it_can_before_the_knee_does(setup: Setup) -> None:
    posture = solve(*setup)
    assume(posture.exists)
    give = setup.boots.side_give
    for leg in posture.legs:
        if abs(leg.wanted_give) < give:
            assert leg.off_plane == 0.0
            assert leg.lean - leg.chain.cuff == pytest.approx(leg.wanted_give, abs=1e-12)
        else:
            assert leg.lean - leg.chain.cuff == pytest.approx(
                math.copysign(give, leg.wanted_give), abs=1e-12
            )
            assert leg.off_plane * leg.wanted_give <= 0.0


def test_a_stance_too_wide_is_bow_legged_and_one_too_narrow_knock_kneed() -> None:
    wide, narrow = (
        settled(front_angle=0.0, rear_angle=0.0),
        settled(front_angle=0.0, rear_angle=0.0, stance_length=100.0),
    )
    assert all(leg.off_plane < 0.0 < leg.wanted_give for leg in wide.legs)
    assert all(leg.off_plane > 0.0 > leg.wanted_give for leg in narrow.legs)


def test_a_rider_standing_tall_at_the_neutral_spacing_needs_nothing() -> None:
    posture = settled(
        front_angle=0.0, rear_angle=0.0, stance_length=250.0, forward_lean=0.0, knee_bend=0.01
    )
    for leg in posture.legs:
        assert leg.off_plane == 0.0
        # The cuff's angle takes the leaning leg for as high as it is long.
        assert abs(leg.wanted_give) < rad(0.01)
        assert leg.hip[2] == pytest.approx(25.0 + 70.0 + math.sqrt(810.0**2 - 40.0**2), abs=0.01)


def same_posture(posture: Posture, index: int, alone: Posture) -> bool:
    """Whether one place of an array of postures is the posture solved alone."""
    if not alone.exists:
        words = [text[index] for text in posture_reasons(posture)]
        return not posture.exists[index] and words == [str(text) for text in posture_reasons(alone)]
    pairs = list(zip(posture.legs, alone.legs, strict=True))
    found = [getattr(leg, name)[index] for leg, _ in pairs for name in ANGLES]
    points = [abs(leg.knee[index] - one.knee).max() for leg, one in pairs]
    return max(points) < 1e-6 and found == pytest.approx(
        [value for _, one in pairs for value in angles_of(one)], abs=1e-9
    )


@pytest.mark.parametrize("values", [ordinary_values(150, 4), random_values(150, 5)])
def test_one_stance_alone_and_in_an_array_are_the_same(values: dict[str, np.ndarray]) -> None:
    together = solve(*setup_of(values))
    count = len(values["hip_height"])
    assert all(same_posture(together, i, solve(*single(values, i))) for i in range(count))


def test_arrays_broadcast_against_single_values_and_each_other() -> None:
    angles = np.linspace(0.0, 60.0, 5)
    lengths = np.array([[420.0], [500.0], [560.0]])
    grid = settled(front_angle=angles, stance_length=lengths)
    assert grid.front.knee.shape == (3, 5, 3)
    assert grid.front.off_plane[2, 3] == pytest.approx(
        settled(front_angle=45.0, stance_length=560.0).front.off_plane, abs=1e-9
    )


def test_whole_numbers_are_taken_as_they_come() -> None:
    posture = settled(hip_height=880, knee_height=490, stance_length=500)
    assert posture.height == settled().height


@given(slider_setups)
@settings(max_examples=60)
def test_under_the_settled_pelvis_the_boots_are_asked_what_the_posture_says(setup: Setup) -> None:
    posture = solve(*setup)
    assume(posture.exists)
    asked = wanted_gives(*setup, depth=posture.depth, height=posture.height)
    assert asked == pytest.approx((posture.front.wanted_give, posture.rear.wanted_give), abs=1e-9)


def test_a_pelvis_held_where_it_is_tells_of_many_stances_at_once() -> None:
    body, boots, stance, crouch = demo()
    lengths = np.array([400.0, 500.0, 600.0])
    many = replace(stance, length=lengths)
    at_once = wanted_gives(body, boots, many, crouch, depth=-120.0, height=816.0)
    for i, length in enumerate(lengths):
        one = replace(stance, length=length)
        alone = wanted_gives(body, boots, one, crouch, depth=-120.0, height=816.0)
        assert [side[i] for side in at_once] == pytest.approx(alone, abs=1e-12)
