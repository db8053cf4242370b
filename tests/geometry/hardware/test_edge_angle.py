"""The edge angle at which a boot touches snow, by hand and by turning the board."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rim import rad, rim, touching_angle

from geometry import Mount
from geometry.hardware.board import Board, BootSole, foot_reach

BOOT = BootSole(length=300.0, width=100.0)
CENTRE = (0.0, 0.0, 0.0)
EXACT = {True: 2e-5, False: 1e-3}
"""How well a dense rim and the package agree, on straight and on curved edges (rad)."""


def test_a_flat_boot_touches_where_its_height_and_its_overhang_say() -> None:
    # 25 mm beyond the edge and 30 + 10 mm above the base: atan(40 / 25).
    reach = foot_reach(Board(250.0, 30.0, 10.0), BOOT, Mount(0.0), 1.0, CENTRE)
    assert reach.toe_side.edge_angle == pytest.approx(math.atan2(40.0, 25.0))
    assert reach.heel_side.edge_angle == pytest.approx(math.atan2(40.0, 25.0))


def test_a_boot_that_stays_inside_never_touches() -> None:
    reach = foot_reach(Board(250.0, 30.0, 10.0), BOOT, Mount(rad(90.0)), 1.0, CENTRE)
    assert reach.toe_side.edge_angle == pytest.approx(math.atan2(40.0, -75.0))
    assert reach.toe_side.edge_angle > rad(90.0)


def test_a_boot_exactly_over_the_edge_touches_when_the_board_stands_upright() -> None:
    reach = foot_reach(Board(300.0, 30.0, 10.0), BOOT, Mount(0.0), 1.0, CENTRE)
    assert reach.toe_side.edge_angle == pytest.approx(rad(90.0))


def test_toe_lift_lets_the_board_tip_farther_to_the_toes_and_less_to_the_heels() -> None:
    # The toe stands 150 (cos 6, sin 6) from the binding's centre.
    board, lift = Board(250.0, 30.0, 10.0), rad(6.0)
    reach = foot_reach(board, BOOT, Mount(0.0, lift), 1.0, CENTRE)
    across, up = 150.0 * math.cos(lift), 150.0 * math.sin(lift)
    assert reach.toe_side.edge_angle == pytest.approx(math.atan2(40.0 + up, across - 125.0))
    assert reach.heel_side.edge_angle == pytest.approx(math.atan2(40.0 - up, across - 125.0))


def test_a_toe_cap_high_above_the_sole_touches_later_than_a_low_one() -> None:
    board = Board(250.0, 30.0, 10.0)
    boots = [BootSole(300.0, 100.0, toe_reach=15.0, reach_height=h) for h in (0.0, 15.0, 60.0)]
    low, middle, high = (
        foot_reach(board, b, Mount(0.0), 1.0, CENTRE).toe_side.edge_angle for b in boots
    )
    assert low == pytest.approx(math.atan2(40.0, 40.0))
    assert middle == pytest.approx(math.atan2(55.0, 40.0))
    # The cap is so high that the sole's own end touches first.
    assert high == pytest.approx(math.atan2(40.0, 25.0))


@settings(max_examples=60)
@given(
    angle=st.floats(-100.0, 100.0),
    lift=st.floats(-12.0, 12.0),
    cant=st.floats(-12.0, 12.0),
    roundness=st.floats(0.0, 1.0),
    offset=st.floats(-25.0, 25.0),
    sidecut=st.sampled_from([None, 7000.0, 14_000.0]),
    side=st.sampled_from([-1.0, 1.0]),
)
def test_the_edge_angle_agrees_with_turning_the_board_until_a_dense_rim_touches(
    angle: float, lift: float, cant: float, roundness: float, offset: float,
    sidecut: float | None, side: float,
) -> None:  # fmt: skip
    board = Board(240.0, 50.0, 10.0, sidecut, 15.0)
    boot = BootSole(310.0, 104.0, roundness, offset, 10.0, 5.0, 25.0)
    mount, centre = Mount(rad(angle), rad(lift), rad(cant)), (side * 260.0, 0.0, 0.0)
    found = foot_reach(board, boot, mount, side, centre)
    points = rim(boot, mount, side, np.array(centre))
    for way, reach in ((1.0, found.toe_side), (-1.0, found.heel_side)):
        assert reach.edge_angle == pytest.approx(
            touching_angle(points, board, way), abs=EXACT[sidecut is None]
        )


def test_the_point_that_touches_lies_on_the_snow_and_nothing_below_it() -> None:
    board, mount = Board(230.0, 50.0, 10.0), Mount(rad(20.0), rad(8.0), rad(-5.0))
    reach = foot_reach(board, BOOT, mount, 1.0, CENTRE).toe_side
    tip, base = reach.edge_angle, -60.0

    def above_snow(points: np.ndarray) -> np.ndarray:
        return math.cos(tip) * (points[..., 2] - base) - math.sin(tip) * (points[..., 1] - 115.0)

    assert above_snow(np.array(reach.touching)) == pytest.approx(0.0, abs=1e-9)
    assert above_snow(rim(BOOT, mount, 1.0, np.array(CENTRE))).min() > -1e-9


def test_a_boot_that_hangs_below_the_base_touches_with_the_board_flat() -> None:
    reach = foot_reach(Board(200.0, 5.0, 5.0), BOOT, Mount(0.0, rad(-20.0)), 1.0, CENTRE)
    assert reach.toe_side.edge_angle == 0.0
