"""What cannot be is told in words, and never in the middle of a search."""

from __future__ import annotations

import math
from typing import Any

import pytest
from parts_riders import across, along, limits, parts_of, rad, rider, turnable
from refused import refused

from app.features.parts.words import shortfall
from app.words.reasons import reason_phrase
from geometry.fitting.answer import USUAL_TERMS
from geometry.hardware.candidates import StanceLimits
from geometry.hardware.combinations import Wanted, combinations_for, nearest_combinations
from geometry.hardware.parts import Inserts, Kind, Part, PartsList
from geometry.hardware.reachable import Reachable, reachable_stances
from geometry.hardware.stacks import stacks_of

ANGLES = limits((30.0, 45.0), (15.0, 30.0))


def words_for(parts: PartsList, lift: float, cant: float) -> str:
    wanted = Wanted(rad(lift), rad(cant)), Wanted(0.0, 0.0)
    best, *_ = nearest_combinations(rider(), USUAL_TERMS, parts, wanted)
    return shortfall(parts, best)


def searched(parts: PartsList, within: StanceLimits = ANGLES, length: float = 500.0) -> Reachable:
    setup = rider()
    setup = setup._replace(stance=type(setup.stance)(*mounts(setup), length))
    *_, last = reachable_stances(setup, USUAL_TERMS, parts, within)
    assert last.result is not None
    return last.result


def mounts(setup: Any) -> Any:
    return setup.stance.front, setup.stance.rear


def test_an_empty_parts_list_is_told() -> None:
    assert words_for(parts_of(), 0.0, 5.0) == (
        "The parts list is empty, so both soles stay flat: add the parts that you have."
    )


def test_parts_of_which_there_are_none_are_as_good_as_no_parts() -> None:
    assert "parts list is empty" in words_for(parts_of(turnable(count=0)), 0.0, 5.0)


def test_an_empty_parts_list_that_nobody_misses_is_not_mentioned() -> None:
    assert words_for(parts_of(), 0.0, 0.0) == ""


def test_a_largest_stack_of_nothing_is_told() -> None:
    assert "The largest stack is 0" in words_for(parts_of(turnable(), stack=0), 0.0, 5.0)


def test_parts_that_do_not_come_near_are_told_with_what_is_left() -> None:
    assert words_for(parts_of(along(3.0), stack=1), 10.0, 0.0) == (
        "These parts come no nearer than 7° to what the front foot wants: add a part of another "
        "slope, or allow a larger stack."
    )


def test_parts_that_do_it_need_no_words() -> None:
    assert words_for(parts_of(along(3.0)), 3.5, 0.0) == ""


def test_a_lift_that_is_not_known_cannot_be_wanted() -> None:
    with refused("wanted lift is nan"):
        Wanted(math.nan, 0.0)


def test_a_forward_stance_without_lifts_is_told_that_its_boots_want_them() -> None:
    best, *_ = combinations_for(rider(60.0, 60.0), USUAL_TERMS, parts_of(across()))
    assert shortfall(parts_of(across()), best).startswith(
        "On none of these parts do both boots stay in range at the middle of the riding bend: "
    )


def test_cants_that_no_parts_reach_are_told() -> None:
    best, *_ = combinations_for(rider(0.0, 0.0), USUAL_TERMS, parts_of(along()))
    assert shortfall(parts_of(along()), best).startswith("No combination brings both cants ")


def test_more_stacks_than_can_be_gone_through_are_refused() -> None:
    with refused(r"more than the 1,000,000 ways.*wider step of bearing"):
        stacks_of(parts_of(turnable(step=1.0, count=3), stack=3))
    assert len(stacks_of(parts_of(turnable(step=1.0, count=2), stack=3))) == 1 + 360 + 360**2


def test_limits_between_the_steps_of_the_binding_are_told() -> None:
    with refused("no pair of binding angles in steps of 5°"):
        searched(parts_of(), limits((41.0, 44.0), (0.0, 0.0)))


def test_a_splay_that_no_angles_have_is_told() -> None:
    with refused("no pair of binding angles"):
        searched(parts_of(), limits((0.0, 10.0), (0.0, 10.0), splay=(20.0, 30.0)))


def test_a_length_that_no_inserts_allow_is_told_with_those_they_do() -> None:
    with refused("no stance length from 425 to 455 mm; they allow 420 to"):
        searched(parts_of(), limits((0.0, 10.0), (0.0, 10.0), lengths=(425.0, 455.0)))


def test_limits_the_wrong_way_round_are_told() -> None:
    with refused("least rear binding angle, 30 deg, is more than the most"):
        limits((0.0, 10.0), (30.0, 10.0))


def test_more_candidates_than_can_be_gone_through_are_refused_at_once() -> None:
    parts = parts_of(turnable(step=15.0, count=9), angle_step=1.0)
    with refused(r"there are [\d,]+ stances on parts.*set closer limits"):
        reachable_stances(rider(), USUAL_TERMS, parts, ANGLES, apart=0.0)


def test_stances_that_no_leg_reaches_leave_no_best_and_a_reason() -> None:
    inserts = Inserts(100.0, 1500.0, 1900.0)
    parts = PartsList((), 0, rad(15.0), inserts)
    found = searched(parts, limits((30.0, 45.0), (15.0, 30.0), lengths=(0.0, 2000.0)))
    assert found.best == ()
    assert reason_phrase(found.reason).startswith("no posture settles in any of them")


def test_a_present_stance_out_of_reach_does_not_stop_the_search() -> None:
    found = searched(parts_of(), length=1900.0)
    assert math.isnan(found.present.worst_off_plane)
    assert found.kept is None
    assert len(found.best) == 10


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"slope": rad(50.0)}, "slope of wedge is 50 deg; it must lie between 0.1 and 45 deg"),
        ({"slope": math.nan}, "slope of wedge is nan"),
        ({"step": rad(7.0)}, "a full turn must be a whole number of steps"),
        ({"thickness": -1.0}, "thickness of wedge is -1 mm"),
        ({"count": 1.5}, "count of wedge is 1.5; it must be a whole number from 0 to 100"),
    ],
)
def test_a_part_that_cannot_be_is_refused(changes: dict[str, Any], words: str) -> None:
    sound = {"name": "wedge", "kind": Kind.TURNABLE, "slope": rad(6.0)}
    with refused(words):
        Part(**(sound | changes))


def test_parts_that_nobody_could_tell_apart_are_refused() -> None:
    with refused("two parts are called block and slope 3°"):
        parts_of(along(), along())


def test_inserts_the_wrong_way_round_are_refused() -> None:
    with refused("longest stance length is 400 mm; it must lie between 500"):
        Inserts(20.0, 500.0, 400.0)
