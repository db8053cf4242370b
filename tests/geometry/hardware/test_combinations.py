"""Ranked combinations: the best of all, within what there is."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from by_hand import every_pair, sole, stacks
from fit_riders import random_setups
from hypothesis import given, settings
from hypothesis import strategies as st
from parts_riders import across, along, degrees_of, parts_of, rad, rider, turnable, uneven

from geometry.fitting.answer import USUAL_TERMS, Mounts, answer_of
from geometry.fitting.proposal import proposal_of
from geometry.hardware.combinations import (
    ALIKE,
    Combination,
    Wanted,
    combinations_for,
    nearest_combinations,
)
from geometry.hardware.parts import PartsList
from geometry.posture import PostureInputs

FLAT = Wanted(0.0, 0.0)
PARTS = parts_of(turnable(), along(), across())
SMALL = parts_of(turnable(4.0, step=45.0), along(3.0), across(2.0), stack=1)
RIDERS = {
    "demo": rider(),
    "forward": rider(60.0, 60.0),
    "duck": rider(15.0, -15.0),
    "legs of their own": uneven(),
    "straight across": rider(0.0, 0.0),
}

lifts = st.floats(rad(-8.0), rad(8.0))


def nearest(parts: PartsList, front: Wanted, rear: Wanted, most: int = 10) -> list[Combination]:
    return list(nearest_combinations(rider(), USUAL_TERMS, parts, (front, rear), most))


def needed(setup: PostureInputs, parts: PartsList, most: int = 10) -> list[Combination]:
    return list(combinations_for(setup, USUAL_TERMS, parts, most=most))


def placed(combination: Combination) -> tuple[list[tuple[str, float]], ...]:
    """The parts under each foot and their bearings in degrees."""
    return tuple(
        [(s.part.name, round(math.degrees(s.bearing), 6)) for s in foot.settings]
        for foot in (combination.front, combination.rear)
    )


def names(combination: Combination) -> tuple[list[str], ...]:
    """The parts under each foot, by slope."""
    return tuple(
        [f"{math.degrees(s.part.slope):.1f}" for s in foot.settings]
        for foot in (combination.front, combination.rear)
    )


# What the feet need


@pytest.mark.parametrize("name", RIDERS)
def test_each_choice_of_parts_has_the_best_place_that_going_through_all_finds(name: str) -> None:
    setup = RIDERS[name]
    best: dict[tuple[str, ...], tuple[float, ...]] = {}
    for pair in every_pair(setup, SMALL, setup.stance):
        parts = tuple(
            ",".join(sorted(part.name for part, _ in foot)) for foot in (pair.front, pair.rear)
        )
        best[parts] = min(best.get(parts, (math.inf,)), pair.rank)
    found = needed(setup, SMALL, most=1000)
    assert [told(each) for each in found] == sorted(best.values())


def told(found: Combination) -> tuple[float, ...]:
    """A rank as :mod:`by_hand` tells it: angles as numbers of half degrees."""
    assert found.rank is not None
    angles = (round(math.degrees(angle) / 0.5, 6) for angle in found.rank[:3])
    return (*angles, *found.rank[3:7])


@pytest.mark.parametrize("name", RIDERS)
def test_nothing_leans_against_what_its_foot_needs(name: str) -> None:
    setup = RIDERS[name]
    answer = answer_of(setup)
    for each in needed(setup, PARTS, most=1000):
        for foot, built in enumerate((each.front, each.rear)):
            for need, angle in ((answer.lift, built.lift), (answer.cant, built.cant)):
                wants = float(need[foot, 0])
                assert abs(wants) < rad(0.05) or angle * wants >= -rad(0.25) * abs(wants)


def test_a_forward_stance_gets_toe_lift_in_front_and_heel_lift_behind() -> None:
    best = needed(rider(60.0, 60.0), PARTS)[0]
    assert degrees_of(best.front.lift) == pytest.approx(6.0)
    assert degrees_of(best.rear.lift) == pytest.approx(-6.0)
    assert best.boot_past == (0.0, 0.0)


def test_like_feet_stand_on_like_parts_where_there_are_enough() -> None:
    # A thin part of which there is but one would make one foot lower.
    parts = parts_of(turnable(step=10.0), across(5.5, count=1), stack=1)
    best = needed(rider(0.0, 0.0), parts)[0]
    front, rear = placed(best)
    assert front == rear
    assert best.rank is not None
    assert not best.rank.unlike


def test_like_feet_stand_alike_even_where_unlike_parts_would_do_a_shade_better() -> None:
    # Allowed no more than four degrees, either foot could be turned another way towards it.
    wide = rider(0.0, 0.0)
    wide = wide._replace(stance=replace(wide.stance, length=600.0))
    terms = replace(USUAL_TERMS, largest_cant=rad(4.0))
    parts = parts_of(turnable(2.0, 10.0), turnable(4.5, 10.0))
    found = combinations_for(wide, terms, parts)
    for each in found:
        assert each.rank is not None
        # Unlike stacks only where one of them could not be had twice.
        twice = [all(2 * foot.count(part) <= 2 for part in foot) for foot in names(each)]
        assert not (each.rank.unlike and all(twice))
    front, rear = placed(found[0])
    assert front == rear


def test_a_foot_that_needs_no_cant_is_not_canted_for_the_sake_of_its_boot() -> None:
    terms = replace(USUAL_TERMS, largest_lift=rad(2.0))
    parts = parts_of(turnable(2.0, 10.0), turnable(4.5, 10.0))
    found = combinations_for(rider(60.0, 60.0), terms, parts)
    wanted = answer_of(rider(60.0, 60.0), terms)
    assert found
    for each in found:
        for foot, built in enumerate((each.front, each.rear)):
            low, high = wanted.low[foot, 0], wanted.high[foot, 0]
            assert low - rad(0.3) <= built.cant <= high + rad(0.3)


def test_a_foot_that_needs_none_is_not_tilted_past_the_whole_of_it_by_a_part_at_hand() -> None:
    # Lower wedges lie there; each alone would keep knee and boot where they are.
    narrow = rider(41.0, 31.0)
    narrow = narrow._replace(stance=replace(narrow.stance, length=400.0))
    parts = parts_of(across(2.0, count=4), along(2.0, count=4), across(4.5), along(4.5), stack=2)
    wanted, looked_at = proposal_of(narrow), 0
    at_rest = 0.5 * (wanted.answer.lift_low + wanted.answer.lift_high)
    for each in combinations_for(narrow, USUAL_TERMS, parts, most=1000):
        for foot, built in enumerate((each.front, each.rear)):
            for need, whole, angle in (
                (wanted.mounts.lift, at_rest, built.lift),
                (wanted.mounts.cant, wanted.answer.full, built.cant),
            ):
                if not need[foot, 0]:
                    looked_at += 1
                    towards = abs(whole[foot, 0]) if angle * whole[foot, 0] > 0.0 else 0.0
                    assert abs(angle) <= towards + rad(0.25) + 1e-9
    assert looked_at


def test_a_cant_that_trials_have_told_is_the_one_that_is_built() -> None:
    held = Mounts(np.full((2, 1), math.nan), np.radians([[4.0], [2.0]]))
    parts = parts_of(across(2.0, count=4), across(4.0), stack=2)
    best = combinations_for(rider(0.0, 0.0), USUAL_TERMS, parts, held)[0]
    assert degrees_of(best.front.cant) == pytest.approx(4.0)
    assert degrees_of(best.rear.cant) == pytest.approx(2.0)


def test_a_stance_without_any_posture_has_no_combinations() -> None:
    setup = rider()
    far = setup._replace(stance=replace(setup.stance, length=1900.0))
    assert needed(far, SMALL) == []


def test_thinned_stacks_are_tried_again_in_fine_steps(monkeypatch: pytest.MonkeyPatch) -> None:
    parts = parts_of(turnable(step=10.0), along(), stack=2)
    every = needed(rider(), parts)
    monkeypatch.setattr("geometry.hardware.candidates.FEW_ENOUGH", 20_000)
    thinned = needed(rider(), parts)
    assert told(thinned[0])[:6] == told(every[0])[:6]


def random_lists(many: int) -> list[PartsList]:
    """Parts of any slopes and thicknesses, few enough to go through by hand."""
    random = np.random.default_rng(11)
    slopes = random.uniform(1.0, 6.0, (many, 3))
    thick = random.integers(8, 24, (many, 3)) / 2.0
    counts, steps = random.integers(1, 4, (many, 3)), random.choice([60.0, 90.0, 120.0], many)
    return [
        parts_of(
            replace(turnable(slope[0], step, int(count[0])), thickness=high[0]),
            replace(along(slope[1], int(count[1])), thickness=high[1]),
            replace(across(slope[2], int(count[2])), thickness=high[2]),
            stack=1,
        )
        for slope, high, count, step in zip(slopes, thick, counts, steps, strict=True)
    ]


def test_any_riders_parts_stand_in_the_order_that_going_through_all_finds() -> None:
    # Order, nothing against the need, like stacks for like feet: all of it as told by hand.
    looked_at = 0
    for someone, parts in zip(random_setups(8, seed=5), random_lists(8), strict=True):
        setup = someone._replace(stance=replace(someone.stance, across=0.0))
        best: dict[tuple[str, ...], tuple[float, ...]] = {}
        for pair in every_pair(setup, parts, setup.stance):
            used = tuple(",".join(sorted(part.name for part, _ in foot)) for foot in pair[2:])
            best[used] = min(best.get(used, (math.inf,)), pair.rank)
        found = combinations_for(setup, USUAL_TERMS, parts, most=1000)
        assert [told(each) for each in found] == sorted(best.values())
        looked_at += len(found)
    assert looked_at > 60


# What is typed


def least_error_by_hand(parts: PartsList, lift: float, cant: float) -> float:
    """The least angle to a wanted sole over every stack, by rotations of scipy's, one by one."""
    wanted = np.array([-math.tan(lift), -math.tan(cant), 1.0])
    best = math.inf
    for stack in stacks(parts):
        made_lift, made_cant = sole(stack)
        normal = np.array([-math.tan(made_lift), -math.tan(made_cant), 1.0])
        sine = np.linalg.norm(np.cross(normal, wanted))
        best = min(best, math.atan2(sine, normal @ wanted))
    return best


@pytest.mark.parametrize(("lift", "cant"), [(2.0, 5.0), (-4.0, -1.0), (9.0, 6.0)])
def test_no_stack_comes_nearer_than_the_nearest_listed(lift: float, cant: float) -> None:
    parts = parts_of(turnable(step=60.0, count=9), along(count=9))
    found = nearest(parts, Wanted(rad(lift), rad(cant)), FLAT, most=1000)
    least = min(combination.errors[0] for combination in found)
    assert least == pytest.approx(least_error_by_hand(parts, rad(lift), rad(cant)), abs=1e-12)


@settings(max_examples=25)
@given(front=st.integers(0, 11), rear=st.integers(0, 11))
def test_a_wish_that_a_setting_meets_is_answered_with_that_setting(front: int, rear: int) -> None:
    parts = parts_of(turnable(), stack=1)
    bearings = parts.parts[0].bearings
    wishes = []
    for place in (front, rear):
        slope, bearing = rad(6.0), bearings[place]
        steepest = math.tan(slope)
        lift = math.atan(steepest * math.cos(bearing))
        wishes.append(Wanted(lift, math.atan(steepest * math.sin(bearing))))
    best = nearest(parts, *wishes)[0]
    assert best.error < 1e-12
    assert [built.settings[0].bearing for built in (best.front, best.rear)] == [
        bearings[front],
        bearings[rear],
    ]


@settings(max_examples=25)
@given(front=st.tuples(lifts, lifts), rear=st.tuples(lifts, lifts))
def test_the_list_runs_from_small_errors_to_large_and_from_low_to_high(
    front: tuple[float, float], rear: tuple[float, float]
) -> None:
    found = nearest(PARTS, Wanted(*front), Wanted(*rear), most=40)
    ranks = [
        (math.floor(each.error / ALIKE), each.front.height + each.rear.height) for each in found
    ]
    assert all(earlier <= later for earlier, later in pairwise(ranks))


@settings(max_examples=25)
@given(front=st.tuples(lifts, lifts), rear=st.tuples(lifts, lifts))
def test_no_combination_uses_more_parts_than_there_are_or_comes_twice(
    front: tuple[float, float], rear: tuple[float, float]
) -> None:
    parts = parts_of(turnable(count=1), along(count=2), across(count=3))
    choices = []
    for each in nearest(parts, Wanted(*front), Wanted(*rear), most=1000):
        used = [[s.part.name for s in foot.settings] for foot in (each.front, each.rear)]
        choices.append((tuple(sorted(used[0])), tuple(sorted(used[1]))))
        assert all((used[0] + used[1]).count(part.name) <= part.count for part in parts.parts)
    assert len(set(choices)) == len(choices)


def test_a_flat_wish_needs_no_part() -> None:
    best = nearest(PARTS, FLAT, FLAT)[0]
    assert (best.front.settings, best.rear.settings, best.error) == ((), (), 0.0)


def test_the_stance_stands_on_what_is_built() -> None:
    best = nearest(PARTS, Wanted(rad(2.0), rad(4.0)), FLAT)[0]
    assert (best.stance.front.lift, best.stance.front.cant) == (best.front.lift, best.front.cant)
    assert best.stance.length == rider().stance.length
    assert best.stance.front.angle == rider().stance.front.angle
