"""What to set, told so that it can be done."""

from __future__ import annotations

import math

import numpy as np
import pytest
from parts_riders import along, limits, parts_of, rad, rider, turnable

from app.features.parts.words import high_side, shortfall, trade, way_on_board, what_to_set
from geometry import FRONT, REAR
from geometry.fitting.sweep import RidingRange, riding_range
from geometry.hardware.combinations import ranked_combinations, wanted_exactly
from geometry.hardware.parts import PartsList, bearing_on_board
from geometry.hardware.reachable import reachable_stances
from geometry.hardware.stacks import Built, Setting

RANGE = RidingRange(np.radians([45.0, 70.0]), np.radians([0.0]))


def built(*settings: Setting) -> Built:
    return Built(settings, 0.0, 0.0, 0.0)


def wedge_at(bearing: float, angle: float = 0.0, side: float = FRONT) -> Setting:
    on_board = bearing_on_board(rad(bearing), rad(angle), side)
    return Setting(turnable(), rad(bearing), on_board)


@pytest.mark.parametrize(
    ("bearing", "words"),
    [
        (60.0, "60° outside the toe"),
        (-60.0, "60° inside the toe"),
        (120.0, "120° outside the toe"),
        (22.5, "22.5° outside the toe"),
        (0.0, "at the toe"),
        (180.0, "at the heel"),
        (-180.0, "at the heel"),
        (90.0, "on the little-toe side"),
        (-90.0, "on the big-toe side"),
    ],
)
def test_a_bearing_is_told_by_the_toes(bearing: float, words: str) -> None:
    assert high_side(rad(bearing)) == words


@pytest.mark.parametrize(
    ("on_board", "words"),
    [
        (0.0, "straight at the toe edge"),
        (15.0, "15° from the toe edge towards the nose"),
        (-100.0, "100° from the toe edge towards the tail"),
        (90.0, "at the nose"),
        (-90.0, "at the tail"),
        (180.0, "straight at the heel edge"),
    ],
)
def test_a_way_on_the_board_is_told_by_its_edges_and_ends(on_board: float, words: str) -> None:
    assert way_on_board(rad(on_board)) == words


def test_a_turned_part_is_told_as_the_rider_sets_it() -> None:
    assert what_to_set(built(wedge_at(60.0))) == (
        "Turn the 6° round wedge so that its high side stands 60° outside the toe.",
    )


def test_parts_are_told_from_the_lowest_up() -> None:
    block = Setting(along(), math.pi, math.pi)
    assert what_to_set(built(block, wedge_at(-30.0))) == (
        "Put in the 3° block with its high side at the heel.",
        "On top of it turn the 6° round wedge so that its high side stands 30° inside the toe.",
    )


def test_a_part_that_stays_on_the_board_is_told_by_the_board_too() -> None:
    # Rear foot at -15: the little toe points to the tail, so 60 deg outside is 75 tailward.
    (words,) = what_to_set(built(wedge_at(60.0, -15.0, REAR)), turns_with_binding=False)
    assert words.endswith(
        "60° outside the toe; on the board that is 75° from the toe edge towards the tail."
    )


def test_standing_flat_is_told_too() -> None:
    assert what_to_set(built()) == ("Mount the binding flat, without any part.",)


def test_the_ranked_best_for_5_deg_cant_and_3_deg_lift_is_told_as_practice_sets_it() -> None:
    # Common practice, no source: a 6 deg part turned to 60 deg.
    parts = parts_of(turnable(step=10.0), stack=1)
    wanted = wanted_exactly(rad(3.0), rad(5.0)), wanted_exactly(0.0, 0.0)
    best, *_ = ranked_combinations(rider(), RANGE, parts, wanted)
    assert what_to_set(best.front)[0].endswith("its high side stands 60° outside the toe.")
    assert shortfall(parts, best) == ""


def traded(parts: PartsList, front: tuple[float, float]) -> str:
    setup = rider()
    *_, last = reachable_stances(
        setup, riding_range(*setup, points=(3, 1)), parts, limits(front, (40.0, 40.0))
    )
    assert last.result is not None
    return trade(last.result, last.result.best[0])


def test_a_trade_tells_both_worsts_and_every_change() -> None:
    words = traded(parts_of(along()), (30.0, 30.0))
    assert words.startswith("Out of plane by ")
    assert " as it is, and " in words
    assert "the front angle from 45 to 30°" in words
    assert "rear angle" not in words


def test_a_trade_without_any_change_says_so() -> None:
    parts = PartsList((), 0, rad(5.0), parts_of().inserts)
    setup = rider()
    search = reachable_stances(
        setup,
        riding_range(*setup, points=(3, 1)),
        parts,
        limits((45.0, 45.0), (40.0, 40.0), (490.0, 510.0)),
    )
    *_, last = search
    assert last.result is not None
    assert trade(last.result, last.result.best[0]).endswith("Angles and length stay as they are.")
