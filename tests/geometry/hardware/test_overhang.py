"""Overhang and clearance, by hand on flat mounts and point by point on sloped ones."""

from __future__ import annotations

import math

import numpy as np
import pytest
from refused import refused
from rim import beyond_edge, rad, rim

from app.words.reasons import reason_phrase
from geometry import Mount, Stance
from geometry.hardware.board import Board, BootSole, FootReach, foot_reach, reach_reasons, reaches

BOARD = Board(waist_width=250.0, plate_height=30.0)
BOOT = BootSole(length=300.0, width=100.0)
CENTRE = (250.0, 0.0, 0.0)


def front(mount: Mount, board: Board = BOARD, boot: BootSole = BOOT) -> FootReach:
    return foot_reach(board, boot, mount, 1.0, CENTRE)


def test_a_flat_boot_straight_across_overhangs_by_half_of_what_it_is_longer() -> None:
    reach = front(Mount(0.0))
    assert reach.toe_side.overhang == pytest.approx(25.0)
    assert reach.heel_side.overhang == pytest.approx(25.0)
    assert reach.clearance == pytest.approx(30.0)


def test_a_flat_boot_along_the_board_stays_inside_by_half_of_what_it_is_narrower() -> None:
    reach = front(Mount(rad(90.0)))
    assert reach.toe_side.overhang == pytest.approx(-75.0)
    assert reach.heel_side.overhang == pytest.approx(-75.0)


def test_a_boot_with_half_round_ends_at_45_degrees_reaches_as_its_end_circle_does() -> None:
    # The end circle, radius 50, stands 100 mm from the middle: 100 / sqrt 2 + 50 - 125.
    reach = front(Mount(rad(45.0)))
    assert reach.toe_side.overhang == pytest.approx(100.0 / math.sqrt(2.0) - 75.0)


def test_a_square_boot_at_45_degrees_reaches_with_its_corner() -> None:
    boot = BootSole(length=300.0, width=100.0, roundness=0.0)
    reach = front(Mount(rad(45.0)), boot=boot)
    assert reach.toe_side.overhang == pytest.approx(200.0 / math.sqrt(2.0) - 125.0)


def test_an_offset_moves_the_boot_from_one_edge_to_the_other() -> None:
    reach = front(Mount(0.0), boot=BootSole(length=300.0, width=100.0, offset=-10.0))
    assert reach.toe_side.overhang == pytest.approx(15.0)
    assert reach.heel_side.overhang == pytest.approx(35.0)


def test_a_toe_cap_overhangs_farther_than_the_sole() -> None:
    boot = BootSole(300.0, 100.0, toe_reach=12.0, heel_reach=4.0, reach_height=20.0)
    reach = front(Mount(0.0), boot=boot)
    assert reach.toe_side.overhang == pytest.approx(37.0)
    assert reach.heel_side.overhang == pytest.approx(29.0)


def test_lift_shortens_the_boot_in_plan_and_lowers_its_heel() -> None:
    reach = front(Mount(0.0, lift=rad(6.0)))
    assert reach.toe_side.overhang == pytest.approx(150.0 * math.cos(rad(6.0)) - 125.0)
    assert reach.clearance == pytest.approx(30.0 - 150.0 * math.sin(rad(6.0)))


def test_a_steep_lift_on_a_low_plate_is_told_in_words() -> None:
    assert str(reach_reasons(front(Mount(0.0, lift=rad(6.0))))) == ""
    steep = front(Mount(0.0, lift=rad(14.0)))
    assert steep.clearance < 0.0
    assert "below the top of the board" in reason_phrase(str(reach_reasons(steep)))


def test_the_edge_of_a_sidecut_is_farther_out_beside_the_bindings() -> None:
    # Sagitta of the arc at the binding, 250 mm from the waist: R - sqrt(R^2 - 250^2), less
    # what the arc's slope of 250/R shortens the way out; exact point by point below.
    radius = 10_000.0
    curved = front(Mount(0.0), Board(250.0, 30.0, sidecut_radius=radius))
    sagitta = radius - math.sqrt(radius**2 - 250.0**2)
    assert curved.toe_side.overhang == pytest.approx(25.0 - sagitta, abs=0.05)


@pytest.mark.parametrize("sidecut", [None, 8000.0])
def test_overhang_on_sloped_mounts_agrees_with_a_dense_rim(sidecut: float | None) -> None:
    draws = np.random.default_rng(3)
    for _ in range(40):
        board = Board(draws.uniform(180.0, 280.0), 40.0, 10.0, sidecut, draws.uniform(-40.0, 40.0))
        boot = BootSole(
            draws.uniform(240.0, 340.0), 105.0, draws.uniform(0.0, 1.0), draws.uniform(-20.0, 20.0),
            draws.uniform(0.0, 15.0), draws.uniform(0.0, 8.0), draws.uniform(0.0, 40.0),
        )  # fmt: skip
        mount = Mount(*(rad(draws.uniform(-most, most)) for most in (100.0, 15.0, 15.0)))
        side = draws.choice([-1.0, 1.0])
        found = foot_reach(board, boot, mount, side, CENTRE)
        points = rim(boot, mount, side, np.array(CENTRE))
        for way, reach in ((1.0, found.toe_side), (-1.0, found.heel_side)):
            assert reach.overhang == pytest.approx(
                beyond_edge(points, board, way).max(), abs=5e-4 if sidecut is None else 0.1
            )
        assert found.clearance == pytest.approx(40.0 + points[:, 2].min(), abs=2e-4)


def test_an_array_of_mounts_gives_what_each_mount_gives_alone() -> None:
    angles, lifts = np.linspace(-1.0, 1.5, 7)[:, None], np.linspace(-0.2, 0.2, 3)
    board = Board(230.0, 60.0, sidecut_radius=9000.0)
    stance = Stance(Mount(angles, lifts, 0.1), Mount(-angles, lifts), 520.0)
    both = reaches(board, BOOT, stance)
    alone = reaches(
        board,
        BOOT,
        Stance(Mount(angles[5, 0], lifts[0], 0.1), Mount(-angles[5, 0], lifts[0]), 520.0),
    )
    for many, one in zip(both, alone, strict=True):
        assert np.shape(many.toe_side.edge_angle) == (7, 3)
        assert many.toe_side.overhang[5, 0] == pytest.approx(one.toe_side.overhang, abs=1e-9)
        assert many.heel_side.edge_angle[5, 0] == pytest.approx(one.heel_side.edge_angle, abs=1e-12)


def test_the_rear_foot_with_the_opposite_angle_is_the_mirror_image_of_the_front_one() -> None:
    mounts = Mount(rad(30.0), rad(5.0), rad(3.0)), Mount(rad(-30.0), rad(5.0), rad(3.0))
    ahead, behind = reaches(BOARD, BOOT, Stance(*mounts, 500.0))
    assert ahead.toe_side.overhang == pytest.approx(behind.toe_side.overhang)
    assert ahead.heel_side.edge_angle == pytest.approx(behind.heel_side.edge_angle)
    assert ahead.toe_side.touching[0] == pytest.approx(-behind.toe_side.touching[0])


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: Board(5.0, 30.0), "waist width is 5 mm"),
        (lambda: Board(250.0, -1.0), "plate height is -1 mm"),
        (lambda: Board(250.0, 30.0, sidecut_radius=100.0), "side-cut radius is 100 mm"),
        (lambda: BootSole(100.0, 120.0), "wider than it is long"),
        (lambda: BootSole(300.0, 100.0, roundness=1.5), "between 0 and 1"),
        (lambda: BootSole(math.nan, 100.0), "sole length is nan mm"),
    ],
)
def test_impossible_boards_and_boots_are_refused_in_words(make: object, words: str) -> None:
    with refused(words):
        make()  # type: ignore[operator]
