"""What to set, told so that it can be done."""

from __future__ import annotations

import math

import pytest
from parts_riders import along, limits, parts_of, rad, rider, turnable

from app.features.parts.bench import caution, high_side, true_to, way_on_board, what_to_set
from app.features.parts.words import shortfall, trade
from app.rider.parts import Parts
from app.rider.setup import Setup, edited
from geometry import FRONT, REAR
from geometry.fitting.answer import USUAL_TERMS
from geometry.hardware.combinations import Wanted, nearest_combinations
from geometry.hardware.parts import PartsList, bearing_on_board
from geometry.hardware.reachable import reachable_stances
from geometry.hardware.stacks import Built, Setting


def built(*settings: Setting) -> Built:
    return Built(settings, 0.0, 0.0, 0.0)


def wedge_at(bearing: float, angle: float = 0.0, side: float = FRONT) -> Setting:
    on_board = bearing_on_board(rad(bearing), rad(angle), side)
    return Setting(turnable(), rad(bearing), on_board)


@pytest.mark.parametrize(
    ("bearing", "words"),
    [
        (60.0, "to the outside of the toe, 60° from straight ahead"),
        (-60.0, "to the inside of the toe, 60° from straight ahead"),
        (120.0, "to the outside of the heel, 60° from straight back"),
        (-179.0, "to the inside of the heel, 1° from straight back"),
        (22.6, "to the outside of the toe, 22.5° from straight ahead"),
        (0.2, "straight ahead, at the toe"),
        (180.0, "straight back, at the heel"),
        (-180.0, "straight back, at the heel"),
        (89.8, "straight to the outside, the little-toe side"),
        (-90.0, "straight to the inside, the big-toe side"),
    ],
)
def test_a_bearing_is_told_from_straight_ahead_or_back(bearing: float, words: str) -> None:
    assert high_side(rad(bearing)) == words


@pytest.mark.parametrize(
    ("bearing", "left", "right"),
    [
        (0.0, "12 o'clock", "12 o'clock"),
        (60.0, "10 o'clock", "2 o'clock"),
        (-60.0, "2 o'clock", "10 o'clock"),
        (90.0, "9 o'clock", "3 o'clock"),
        (180.0, "6 o'clock", "6 o'clock"),
        (15.0, "11:30 o'clock", "12:30 o'clock"),
        (65.0, "10 o'clock", "2 o'clock"),
    ],
)
def test_the_little_toe_is_at_nine_on_the_left_foot_and_at_three_on_the_right(
    bearing: float, left: str, right: str
) -> None:
    assert high_side(rad(bearing), left=True).endswith(f"({left})")
    assert high_side(rad(bearing), left=False).endswith(f"({right})")


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
        "Turn the 6° round wedge so that its high side lies to the outside of the toe, 60° from "
        "straight ahead.",
    )


def test_parts_are_told_from_the_lowest_up() -> None:
    block = Setting(along(), math.pi, math.pi)
    assert what_to_set(built(block, wedge_at(-30.0))) == (
        "Put in the 3° block with its high side straight back, at the heel.",
        "On top of it turn the 6° round wedge so that its high side lies to the inside of the "
        "toe, 30° from straight ahead.",
    )


def test_a_part_that_stays_on_the_board_is_told_by_the_board_too() -> None:
    # Rear foot at -15: the little toe points to the tail, so 60 deg outside is 75 tailward.
    (words,) = what_to_set(built(wedge_at(60.0, -15.0, REAR)), turns_with_binding=False)
    assert words.endswith(
        "60° from straight ahead; on the board that is 75° from the toe edge towards the tail."
    )


def test_standing_flat_is_told_too() -> None:
    assert what_to_set(built()) == ("Screw the binding on flat, without any part.",)


def test_the_ranked_best_for_5_deg_cant_and_3_deg_lift_is_told_as_practice_sets_it() -> None:
    # Common practice, no source: a 6 deg part turned to 60 deg.
    parts = parts_of(turnable(step=10.0), stack=1)
    wanted = Wanted(rad(3.0), rad(5.0)), Wanted(0.0, 0.0)
    best, *_ = nearest_combinations(rider(), USUAL_TERMS, parts, wanted)
    assert what_to_set(best.front)[0].endswith("of the toe, 60° from straight ahead.")
    assert shortfall(parts, best) == ""


def traded(parts: PartsList, front: tuple[float, float]) -> str:
    setup = rider()
    *_, last = reachable_stances(setup, USUAL_TERMS, parts, limits(front, (40.0, 40.0)))
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
        USUAL_TERMS,
        parts,
        limits((45.0, 45.0), (40.0, 40.0), (490.0, 510.0)),
    )
    *_, last = search
    assert last.result is not None
    assert trade(last.result, last.result.best[0]).endswith("Angles and length stay as they are.")


FOUR_HIGH = Built((wedge_at(0.0), wedge_at(90.0)), 0.0, 0.0, 18.0)


def test_parts_above_the_makers_height_come_with_a_caution() -> None:
    pair = built(), FOUR_HIGH
    assert caution(pair, Setup(parts=Parts(highest_mm=15.0))).startswith(
        "Caution: these parts raise the rear foot by 18 mm, more than the 15 mm that the makers "
    )
    assert caution(pair, Setup(parts=Parts(highest_mm=18.0))) == ""


def test_as_long_as_the_makers_height_is_not_known_a_stack_of_two_asks_for_it() -> None:
    assert caution((built(), FOUR_HIGH), Setup()).startswith("Ask the makers ")
    assert caution((built(wedge_at(0.0)), built(wedge_at(0.0))), Setup()) == ""


def test_a_sole_steeper_than_the_rider_allows_comes_with_a_caution() -> None:
    steep = Built((wedge_at(90.0),), rad(-9.5), rad(6.04), 9.0)
    held = edited(Setup(), largest_cant_deg=6.0)
    assert caution((built(), steep), held) == (
        "Caution: 9.5° of lift is more than the 9° that you allow."
    )


def test_how_true_a_sole_comes_out_is_told_beside_what_to_set() -> None:
    one = Built((wedge_at(90.0),), 0.0, rad(6.0), 9.0)
    assert true_to(one, Parts(slope_within_deg=0.3, bearing_within_deg=2.0)) == (
        "True to ±\xa00.3° of lift and ±\xa00.3° of cant."
    )
    assert true_to(built(), Parts()) == ""
