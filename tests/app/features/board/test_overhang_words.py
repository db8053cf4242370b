"""Overhang of a set-up, in the numbers and words that the window shows."""

from __future__ import annotations

from dataclasses import replace

import pytest
from refused import refused

from app.features.board.boots_on_board import SIDES, said
from app.features.board.model import (
    flags,
    overhang_of,
    overhang_scenes,
    stand_in,
    verdict,
)
from app.rider.board import BoardInputs
from app.rider.setup import Setup, edited
from app.words.lengths import IN_MM

ACROSS = edited(Setup(), front_angle_deg=0.0, rear_angle_deg=90.0)


def on(setup: Setup = ACROSS, **sizes: float) -> Setup:
    board = BoardInputs(
        waist_width_mm=250.0,
        plate_height_mm=30.0,
        boot_sole_length_mm=300.0,
        boot_sole_width_mm=100.0,
    )
    return replace(setup, board=replace(board, **sizes))


def said_of(setup: Setup, foot: str, side: str) -> tuple[str, str]:
    return said(overhang_of(setup).boots[foot].at(SIDES[side]), IN_MM)


def test_overhang_and_edge_angle_are_said_for_each_foot_and_side() -> None:
    # By hand: 300 mm across 250 mm; 40 mm over the base and 25 mm out, atan(40 / 25) = 57.99.
    for side in SIDES:
        assert said_of(on(), "front", side) == ("25 mm over", "touches at 57°")
    assert said_of(on(), "rear", "heel side") == ("75 mm inside", "never touches")


@pytest.mark.parametrize(("wanted", "flagged"), [(57.9, False), (58.1, True)])
def test_a_boot_is_flagged_just_when_it_touches_below_the_wanted_angle(
    wanted: float, flagged: bool
) -> None:
    found = " ".join(flags(overhang_of(on(wanted_edge_deg=wanted))))
    assert ("front boot 57° toe side" in found) is flagged
    assert "rear" not in found


def test_cant_and_lift_move_the_angle_at_which_the_boot_touches() -> None:
    # By hand: 150 sin 6° = 15.7 mm up at the toe, down at the heel; 150 cos 6° − 125 = 24.2 out.
    lifted = on(edited(ACROSS, front_lift_deg=6.0))
    assert said_of(lifted, "front", "toe side")[1] == "touches at 66°"
    assert said_of(lifted, "front", "heel side")[1] == "touches at 45°"


def test_a_sole_below_the_top_of_the_board_is_told_with_the_height_that_is_missing() -> None:
    found = flags(overhang_of(on(edited(ACROSS, front_lift_deg=6.0), plate_height_mm=10.0)))
    # 150 mm behind the centre the heel is 15.7 mm lower.
    assert any("Front boot" in flag and "raise the plate by 6 mm" in flag for flag in found)


def test_what_helps_is_said_only_of_boots_that_touch_early() -> None:
    assert "clear of the snow up to 57°" in verdict(overhang_of(on(wanted_edge_deg=57.0)))
    assert "higher plate" in verdict(overhang_of(on(wanted_edge_deg=65.0)))


def test_a_sole_left_empty_follows_the_foot() -> None:
    setup = edited(Setup(), foot_length_mm=250.0)
    front, _ = overhang_of(setup).soles
    assert front.length == stand_in(setup, "boot_sole_length_mm")[0] == 280.0
    assert stand_in(setup, "boot_sole_width_mm") == (front.width, "96 mm")


def test_soles_left_empty_follow_each_its_own_foot() -> None:
    setup = edited(Setup(), left_foot_length_mm=250.0, right_foot_length_mm=240.0)
    assert [sole.length for sole in overhang_of(setup).soles] == [280.0, 269.0]
    assert stand_in(setup, "boot_sole_length_mm") == (280.0, "280 mm / 269 mm")
    typed = on(setup, boot_sole_length_mm=300.0)
    assert [sole.length for sole in overhang_of(typed).soles] == [300.0, 300.0]


def test_a_side_cut_widens_the_board_under_the_feet() -> None:
    straight, curved = overhang_of(on()), overhang_of(on(sidecut_radius_mm=8000.0))
    over = [float(each.boots["front"].reach.toe_side.overhang) for each in (straight, curved)]
    # An arc of 8 m bulges by 250² / 16000 = 3.9 mm at 250 mm from the waist.
    assert over[0] - over[1] == pytest.approx(250.0**2 / 16000.0, abs=0.1)


def test_the_drawings_say_what_the_words_say() -> None:
    scenes = overhang_scenes(overhang_of(on()))
    assert list(scenes) == ["above", "front", "rear"]
    for words in said_of(on(), "front", "toe side"):
        assert words in scenes["above"].text
        assert words in scenes["front"].text


def test_a_sole_wider_than_long_is_told_in_words() -> None:
    with refused("wider than it is long"):
        overhang_of(on(boot_sole_length_mm=120.0, boot_sole_width_mm=130.0))
