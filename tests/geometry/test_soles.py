"""The plane on which a foot stands, read back as an inclinometer would read it."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from riders import rad

from geometry import FRONT, REAR, Mount, lift_and_cant, slope_and_bearing
from geometry.sole import Sole, sole_of

sides = st.sampled_from([FRONT, REAR])
mounts = st.builds(
    Mount,
    st.floats(rad(-60.0), rad(90.0)),
    st.floats(rad(-15.0), rad(15.0)),
    st.floats(rad(-15.0), rad(15.0)),
)


def reading(sole: Sole, bearing: tuple[float, float]) -> float:
    """What an inclinometer reads that stands upright on the sole along a plan direction.

    The rise over a run of one: the sole is the plane through the origin square
    to its normal.
    """
    x, y, z = sole.normal
    return math.atan2(-(x * bearing[0] + y * bearing[1]) / z, 1.0)


def plan_directions(mount: Mount, side: float) -> tuple[tuple[float, float], tuple[float, float]]:
    """Along the foot and to its outer side, seen from above."""
    s, c = math.sin(mount.angle), math.cos(mount.angle)
    return (s, c), (side * c, -side * s)


@given(mounts, sides)
def test_an_inclinometer_reads_back_lift_and_cant(mount: Mount, side: float) -> None:
    along, outward = plan_directions(mount, side)
    sole = sole_of(mount, side)
    assert reading(sole, along) == pytest.approx(mount.lift, abs=1e-12)
    assert reading(sole, outward) == pytest.approx(mount.cant, abs=1e-12)


@given(mounts, sides)
def test_the_soles_axes_are_square_and_of_length_one(mount: Mount, side: float) -> None:
    sole = sole_of(mount, side)
    axes = np.array([sole.foot_axis, sole.outer, sole.normal])
    assert axes @ axes.T == pytest.approx(np.eye(3), abs=1e-12)


@given(mounts, sides)
def test_foot_axis_and_outer_side_lie_where_their_names_say(mount: Mount, side: float) -> None:
    along, outward = plan_directions(mount, side)
    sole = sole_of(mount, side)
    assert np.dot(sole.foot_axis[:2], along) == pytest.approx(math.cos(mount.lift))
    assert np.dot(sole.foot_axis[:2], outward) == pytest.approx(0.0, abs=1e-12)
    assert np.dot(sole.outer[:2], outward) > 0.0
    assert sole.normal[2] > 0.0


def test_toe_lift_raises_the_toes_and_inward_cant_the_little_toe() -> None:
    sole = sole_of(Mount(0.3, rad(5.0), rad(4.0)), FRONT)
    assert sole.foot_axis[2] == pytest.approx(math.sin(rad(5.0)))
    assert sole.outer[2] > 0.0


@given(st.floats(rad(-60.0), rad(60.0)), st.floats(rad(-60.0), rad(60.0)))
def test_slope_and_bearing_lead_back_to_lift_and_cant(lift: float, cant: float) -> None:
    assert lift_and_cant(*slope_and_bearing(lift, cant)) == pytest.approx((lift, cant), abs=1e-12)


@given(st.floats(rad(0.1), rad(60.0)), st.floats(rad(-179.9), rad(179.9)))
def test_lift_and_cant_lead_back_to_slope_and_bearing(slope: float, bearing: float) -> None:
    back = slope_and_bearing(*lift_and_cant(slope, bearing))
    assert back == pytest.approx((slope, bearing), abs=1e-9)


@given(mounts, sides)
def test_the_slope_is_the_angle_between_the_sole_and_the_board(mount: Mount, side: float) -> None:
    slope, _ = slope_and_bearing(mount.lift, mount.cant)
    tilt = math.acos(min(1.0, sole_of(mount, side).normal[2]))
    # An arc cosine near one is good to 1e-8 only.
    assert slope == pytest.approx(tilt, abs=1e-7)


# Compound angles, Machinery's Handbook, 31st ed. (2020), p. 121: two slopes A and B
# square to each other make a single slope C that rises at R.
COMPOUND_ANGLES_DEG = [
    (6.0, 3.0, 6.698453, 63.497930),
    (20.0, 30.0, 34.313577, 32.227944),
    (30.0, 40.0, 45.526208, 34.530276),
]


@pytest.mark.parametrize(("a", "b", "slope", "bearing"), COMPOUND_ANGLES_DEG)
def test_lift_and_cant_compound_as_the_handbook_says(
    a: float, b: float, slope: float, bearing: float
) -> None:
    found = slope_and_bearing(lift=rad(b), cant=rad(a))
    assert found == pytest.approx((rad(slope), rad(bearing)), abs=rad(1e-6))


def test_lift_and_cant_are_not_successive_rotations() -> None:
    # Turning 20 deg and then 30 deg tilts by 35.531348 deg, not by 34.313577 (same
    # table, worked as rotations: cos C = cos A cos B).
    slope, _ = slope_and_bearing(rad(20.0), rad(30.0))
    in_turn = math.acos(math.cos(rad(20.0)) * math.cos(rad(30.0)))
    assert in_turn == pytest.approx(rad(35.531348), abs=rad(1e-6))
    assert in_turn - slope == pytest.approx(rad(1.217771), abs=rad(2e-6))


# Common practice, no source: a 6 deg part turned to these bearings from the toe
# gives about so much cant and lift (deg).
TURNED_PARTS_DEG = [(60.0, 5.0, 3.0), (40.0, 4.0, None), (90.0, 6.0, 0.0)]


@pytest.mark.parametrize(("bearing", "cant", "lift"), TURNED_PARTS_DEG)
def test_a_turned_part_gives_the_cant_and_lift_that_fitters_know(
    bearing: float, cant: float, lift: float | None
) -> None:
    found_lift, found_cant = lift_and_cant(rad(6.0), rad(bearing))
    assert found_cant == pytest.approx(rad(cant), abs=rad(0.25))
    if lift is not None:
        assert found_lift == pytest.approx(rad(lift), abs=rad(0.25))


def test_a_flat_sole_has_no_slope() -> None:
    assert slope_and_bearing(0.0, 0.0) == (0.0, 0.0)
