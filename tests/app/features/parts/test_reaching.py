"""The best stance in reach, in the rider's units."""

from __future__ import annotations

from dataclasses import replace
from math import degrees

import pytest
from refused import refused

from app.features.parts.reaching import (
    KEEP,
    Count,
    count_of,
    count_words,
    depends_on,
    limits_of,
    none_words,
    ranked_stances,
    row_texts,
    search,
    stance_words,
    usual_wishes,
    why_not,
    wish_words,
    with_stance,
)
from app.features.parts.wishes import Wishes
from app.features.parts.words import trade
from app.files.parts_file import parts_opened
from app.files.resources import SHARED
from app.rider.parts import PartEntry, Parts
from app.rider.setup import Setup, edited
from app.stance.findings import Limits
from geometry.hardware.reachable import Reachable

WEDGES = Parts("Few", (PartEntry("wedge", "across", 4.0, 8.0),), largest_stack=1)
SETUP = Setup(parts=WEDGES)
NEAR = Wishes(42.0, 48.0, 36.0, 42.0, 480.0, 520.0, 0.0, 9.0)


@pytest.fixture(scope="module")
def found() -> Reachable:
    result = [step.result for step in search(SETUP, NEAR)][-1]
    assert result is not None
    return result


def test_limits_begin_round_the_present_stance() -> None:
    wishes = usual_wishes(SETUP.inputs)
    assert (wishes.front_angle_least, wishes.front_angle_most) == (34.0, 52.0)
    assert (wishes.stance_length_least, wishes.stance_length_most) == (465.0, 545.0)
    assert (wishes.splay_least, wishes.splay_most) == (0.0, 14.0)
    assert wish_words(wishes).startswith("Limits: front angle 34.0° to 52.0°, rear angle 29.0°")


def test_limits_stay_within_what_can_be_set() -> None:
    wishes = usual_wishes(edited(SETUP, front_angle_deg=88.0, stance_length_mm=10.0).inputs)
    assert wishes.front_angle_most == 90.0
    assert wishes.stance_length_least == 0.0


def test_candidates_are_counted_as_stances_times_pairs_of_stacks() -> None:
    # 42, 45, 48 by 36, 39, 42 all splayed by 0 to 9 but one pair, three lengths, and
    # nothing or a wedge either way round under each foot.
    assert count_of(SETUP, NEAR) == Count((3 * 3 - 1) * 3 * 3 * 3, 0.0)
    assert count_words(Count(1234, 0.0)) == "1,234 stances on parts to try."
    assert "in steps of 0.25°" in count_words(Count(1234, 0.25))


def test_the_best_stances_come_first_and_keeping_the_present_one_last(found: Reachable) -> None:
    places = ranked_stances(found)
    ranks = [place.reached.rank for place in places[:-1]]
    assert ranks == sorted(rank for rank in ranks if rank is not None)
    assert places[-1].title == KEEP
    assert row_texts(places[-1])[1] == "43 · 38°"
    assert row_texts(places[0])[0] == "1"


def test_what_a_stance_brings_is_told_against_keeping_the_present_one(found: Reachable) -> None:
    best = ranked_stances(found)[0]
    said = trade(found, best.reached)
    assert f"{degrees(found.present.worst_off_plane):.1f}° as it is" in said
    assert "with the best parts at the present angles and length" in said
    assert not none_words(found)


def test_a_stance_is_put_on_with_its_mounts(found: Reachable) -> None:
    best = ranked_stances(found)[0].reached
    after = with_stance(SETUP, best)
    assert stance_words(best).startswith(f"{after.inputs.front_angle_deg:g}°")
    assert after.inputs.front_cant_deg == pytest.approx(degrees(best.stance.front.cant), abs=0.005)
    assert not why_not(SETUP, best)
    assert why_not(after, best) == "It is on."


def test_the_answer_holds_for_every_stance_of_the_same_rider(found: Reachable) -> None:
    after = with_stance(SETUP, ranked_stances(found)[0].reached)
    assert depends_on(after, NEAR) == depends_on(SETUP, NEAR)
    assert depends_on(edited(SETUP, hip_height_mm=900.0), NEAR) != depends_on(SETUP, NEAR)
    assert depends_on(replace(SETUP, parts=Parts()), NEAR) != depends_on(SETUP, NEAR)
    assert depends_on(replace(SETUP, growing=True), NEAR) != depends_on(SETUP, NEAR)
    assert depends_on(SETUP, NEAR, Limits(2.0, 3.3)) != depends_on(SETUP, NEAR)


def test_limits_that_contradict_themselves_are_told_in_words() -> None:
    with refused("the least front binding angle, 50 deg, is more than"):
        limits_of(replace(NEAR, front_angle_least=50.0))


def test_lengths_that_the_inserts_do_not_allow_are_told_in_words() -> None:
    with refused("the inserts allow no stance length from 481 to 499"):
        count_of(SETUP, replace(NEAR, stance_length_least=481.0, stance_length_most=499.0))


def test_a_steep_stack_is_told_not_to_fit_on_the_mounts(found: Reachable) -> None:
    best = ranked_stances(found)[0].reached
    assert best.built is not None
    steep = replace(best.built[0], cant=best.built[0].cant + 1.0)
    assert "more than the 15° that can be set" in why_not(
        SETUP, replace(best, built=(steep, best.built[1]))
    )


def test_the_shipped_lists_can_be_counted_round_the_demo_stance() -> None:
    for name in ("parts-round-wedges.json", "parts-fixed-slopes.json", "parts-board-discs.json"):
        setup = Setup(parts=parts_opened(SHARED / name).parts)
        assert count_of(setup, usual_wishes(setup.inputs)).many > 1000
