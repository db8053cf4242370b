"""Slopes, bearings and stacks against rotations, a handbook table and practice."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from parts_riders import rad
from scipy.spatial.transform import Rotation

from geometry import FRONT, REAR, Mount, lift_and_cant, slope_and_bearing
from geometry.hardware.parts import (
    angle_between_soles,
    bearing_from_toe,
    bearing_on_board,
    stack_lift_and_cant,
    stack_normal,
)
from geometry.sole import sole_of

slopes = st.floats(rad(0.1), rad(20.0))
bearings = st.floats(-math.pi + 1e-6, math.pi)
angles = st.floats(rad(-90.0), rad(90.0))
sides = st.sampled_from((FRONT, REAR))
stacks = st.lists(st.tuples(slopes, bearings), min_size=1, max_size=4)


def as_rotation(stack: list[tuple[float, float]]) -> Rotation:
    """A stack by scipy: each part turns all above it about a level line of its own underside."""
    whole = Rotation.identity()
    for slope, bearing in stack:
        # Toe x, little-toe side y, up z: about the line to the right of the high side.
        whole *= Rotation.from_rotvec(slope * np.array([math.sin(bearing), -math.cos(bearing), 0]))
    return whole


@pytest.mark.parametrize(
    ("bearing", "lift", "cant"), [(60.0, 3.0, 5.0), (40.0, 4.6, 4.0), (90.0, 0.0, 6.0)]
)
def test_a_6_deg_part_turned_outward_gives_the_lift_and_cant_of_practice(
    bearing: float, lift: float, cant: float
) -> None:
    # Common practice, no source: 60 deg gives "about 5 and 3", 40 deg "about 4", 90 deg 6.
    found = stack_lift_and_cant([rad(6.0)], [rad(bearing)])
    assert found == pytest.approx((rad(lift), rad(cant)), abs=rad(0.25))


def test_a_part_turned_straight_across_gives_its_whole_slope_as_cant() -> None:
    lift, cant = stack_lift_and_cant([rad(6.0)], [rad(90.0)])
    assert (lift, cant) == pytest.approx((0.0, rad(6.0)), abs=1e-15)


@pytest.mark.parametrize("angle", [0.0, 15.0, -15.0])
@pytest.mark.parametrize("side", [FRONT, REAR])
def test_a_part_kept_at_60_deg_from_the_foot_does_the_same_at_any_binding_angle(
    angle: float, side: float
) -> None:
    # Common practice, no source: bindings at +15/-15, the part's bearing kept at 60 deg.
    on_board = bearing_on_board(rad(60.0), rad(angle), side)
    bearing = bearing_from_toe(on_board, rad(angle), side)
    lift, cant = stack_lift_and_cant([rad(6.0)], [bearing])
    assert (lift, cant) == pytest.approx(lift_and_cant(rad(6.0), rad(60.0)), abs=1e-15)


@pytest.mark.parametrize(
    ("a", "b", "c", "r"),
    [
        (6.0, 3.0, 6.698453, 63.497930),
        (20.0, 30.0, 34.313577, 32.227944),
        (30.0, 40.0, 45.526208, 34.530276),
    ],
)
def test_slope_and_bearing_are_the_compound_angles_of_the_handbook(
    a: float, b: float, c: float, r: float
) -> None:
    # Machinery's Handbook, 31st ed. 2020, p. 121: tan R = tan A / tan B, tan C = tan A / sin R.
    slope, bearing = slope_and_bearing(lift=rad(b), cant=rad(a))
    assert math.degrees(slope) == pytest.approx(c, abs=1e-6)
    assert math.degrees(bearing) == pytest.approx(r, abs=1e-6)


@pytest.mark.parametrize(
    ("a", "b", "successive", "compound"),
    [(20.0, 30.0, 35.531348, 34.313577), (30.0, 40.0, 48.439237, 45.526208)],
)
def test_stacked_parts_are_successive_rotations_and_not_compound_angles(
    a: float, b: float, successive: float, compound: float
) -> None:
    # cos C = cos A cos B for two rotations one after the other; compound as in the handbook.
    _, _, up = stack_normal([rad(b), rad(a)], [0.0, rad(90.0)])
    steepest = math.degrees(math.acos(up))
    assert steepest == pytest.approx(successive, abs=1e-6)
    assert abs(steepest - compound) > 1.0


@given(stacks)
def test_a_stack_is_the_product_of_its_rotations(stack: list[tuple[float, float]]) -> None:
    found = stack_normal([slope for slope, _ in stack], [bearing for _, bearing in stack])
    assert found == pytest.approx(as_rotation(stack).apply([0.0, 0.0, 1.0]), abs=1e-14)


@given(stacks, angles, sides)
def test_the_sole_of_a_mount_is_the_top_of_the_stack_that_gives_its_lift_and_cant(
    stack: list[tuple[float, float]], angle: float, side: float
) -> None:
    lift, cant = stack_lift_and_cant([s for s, _ in stack], [b for _, b in stack])
    if max(abs(lift), abs(cant)) > rad(60.0) or math.isnan(lift + cant):
        return
    toe, outer, up = as_rotation(stack).apply([0.0, 0.0, 1.0])
    s, c = math.sin(angle), math.cos(angle)
    on_board = (toe * s + side * outer * c, toe * c - side * outer * s, up)
    assert sole_of(Mount(angle, lift, cant), side).normal == pytest.approx(on_board, abs=1e-12)


def test_a_stack_on_its_side_has_no_lift_and_no_cant() -> None:
    lift, cant = stack_lift_and_cant([rad(45.0), rad(45.0), rad(10.0)], [0.0, 0.0, 0.0])
    assert math.isnan(lift)
    assert math.isnan(cant)


@given(slopes, bearings)
def test_slope_and_bearing_come_back_from_one_part(slope: float, bearing: float) -> None:
    found = slope_and_bearing(*stack_lift_and_cant([slope], [bearing]))
    assert found[0] == pytest.approx(slope, abs=1e-13)
    assert math.remainder(found[1] - bearing, 2.0 * math.pi) == pytest.approx(0.0, abs=1e-11)


@given(slopes, bearings)
def test_the_same_part_turned_round_on_top_makes_the_sole_flat_again(
    slope: float, bearing: float
) -> None:
    lift, cant = stack_lift_and_cant([slope, slope], [bearing, bearing + math.pi])
    assert (lift, cant) == pytest.approx((0.0, 0.0), abs=1e-14)


@given(bearings, angles, sides)
def test_a_bearing_comes_back_from_the_board(bearing: float, angle: float, side: float) -> None:
    back = bearing_from_toe(bearing_on_board(bearing, angle, side), angle, side)
    assert math.remainder(back - bearing, 2.0 * math.pi) == pytest.approx(0.0, abs=1e-12)


def test_bearings_on_the_board_turn_opposite_ways_for_the_two_feet() -> None:
    # At angle 0 the front foot's little toe points to the nose, the rear foot's to the tail.
    assert bearing_on_board(rad(90.0), 0.0, FRONT) == pytest.approx(rad(90.0))
    assert bearing_on_board(rad(90.0), 0.0, REAR) == pytest.approx(rad(-90.0))


@given(slopes, bearings, slopes, bearings)
def test_the_angle_between_two_soles_is_that_between_their_normals(
    slope: float, bearing: float, other: float, other_bearing: float
) -> None:
    one, two = as_rotation([(slope, bearing)]), as_rotation([(other, other_bearing)])
    cosine = float(np.dot(one.apply([0, 0, 1]), two.apply([0, 0, 1])))
    found = angle_between_soles(lift_and_cant(slope, bearing), lift_and_cant(other, other_bearing))
    assert math.cos(found) == pytest.approx(cosine, abs=1e-14)
