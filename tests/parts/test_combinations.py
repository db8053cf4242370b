"""Ranked combinations: the best of all, within what there is."""

from __future__ import annotations

import math
from itertools import pairwise, product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from parts_riders import across, along, parts_of, rad, rider, turnable
from scipy.spatial.transform import Rotation

from geometry.fitting.fit import fit_of
from geometry.fitting.sweep import RidingRange, sweep_of
from geometry.hardware.combinations import (
    ALIKE,
    Combination,
    Wanted,
    ranked_combinations,
    wanted_by,
    wanted_exactly,
)
from geometry.hardware.parts import PartsList

RANGE = RidingRange(np.radians([45.0, 60.0, 75.0]), np.radians([-20.0, 0.0, 20.0]))
FLAT = wanted_exactly(0.0, 0.0)
PARTS = parts_of(turnable(), along(), across())

lifts = st.floats(rad(-8.0), rad(8.0))


def ranked(parts: PartsList, front: Wanted, rear: Wanted, most: int = 10) -> list[Combination]:
    return list(ranked_combinations(rider(), RANGE, parts, (front, rear), most))


def normal_by_scipy(lift: float, cant: float) -> np.ndarray:
    normal = np.array([-math.tan(lift), -math.tan(cant), 1.0])
    return normal / np.linalg.norm(normal)


def least_error_by_hand(parts: PartsList, lift: float, cant: float) -> float:
    """The least angle to a wanted sole over every stack, by rotations of scipy's, one by one."""
    wanted, best = normal_by_scipy(lift, cant), math.inf
    placed = [(part, bearing) for part in parts.parts for bearing in part.bearings]
    for size in range(parts.largest_stack + 1):
        for stack in product(placed, repeat=size):
            turned = Rotation.identity()
            for part, b in stack:
                turned *= Rotation.from_rotvec(part.slope * np.array([np.sin(b), -np.cos(b), 0.0]))
            normal = turned.apply([0.0, 0.0, 1.0])
            best = min(best, math.atan2(np.linalg.norm(np.cross(normal, wanted)), normal @ wanted))
    return best


@pytest.mark.parametrize(("lift", "cant"), [(2.0, 5.0), (-4.0, -1.0), (9.0, 6.0)])
def test_no_stack_comes_nearer_than_the_nearest_listed(lift: float, cant: float) -> None:
    parts = parts_of(turnable(step=60.0, count=9), along(count=9))
    found = ranked(parts, wanted_exactly(rad(lift), rad(cant)), FLAT, most=1000)
    nearest = min(combination.errors[0] for combination in found)
    assert nearest == pytest.approx(least_error_by_hand(parts, rad(lift), rad(cant)), abs=1e-12)


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
        wishes.append(wanted_exactly(lift, math.atan(steepest * math.sin(bearing))))
    best = ranked(parts, *wishes)[0]
    assert best.error < 1e-12
    assert [built.settings[0].bearing for built in (best.front, best.rear)] == [
        bearings[front],
        bearings[rear],
    ]


@settings(max_examples=25)
@given(front=st.tuples(lifts, lifts), rear=st.tuples(lifts, lifts))
def test_the_list_runs_from_small_errors_to_large_and_from_few_parts_to_many(
    front: tuple[float, float], rear: tuple[float, float]
) -> None:
    found = ranked(PARTS, wanted_exactly(*front), wanted_exactly(*rear), most=40)
    ranks = [
        (math.floor(each.error / ALIKE), len(each.front.settings) + len(each.rear.settings))
        for each in found
    ]
    assert all(earlier <= later for earlier, later in pairwise(ranks))


@settings(max_examples=25)
@given(front=st.tuples(lifts, lifts), rear=st.tuples(lifts, lifts))
def test_no_combination_uses_more_parts_than_there_are_or_comes_twice(
    front: tuple[float, float], rear: tuple[float, float]
) -> None:
    parts = parts_of(turnable(count=1), along(count=2), across(count=3))
    choices = []
    for each in ranked(parts, wanted_exactly(*front), wanted_exactly(*rear), most=1000):
        used = [[s.part.name for s in foot.settings] for foot in (each.front, each.rear)]
        choices.append((tuple(sorted(used[0])), tuple(sorted(used[1]))))
        assert all((used[0] + used[1]).count(part.name) <= part.count for part in parts.parts)
    assert len(set(choices)) == len(choices)


def test_a_flat_wish_needs_no_part() -> None:
    best = ranked(PARTS, FLAT, FLAT)[0]
    assert (best.front.settings, best.rear.settings, best.error) == ((), (), 0.0)


def test_anything_within_a_band_is_no_error_and_the_start_decides() -> None:
    band = Wanted((rad(-6.0), rad(6.0)), (rad(4.0), rad(6.0)), start=(rad(3.0), rad(5.0)))
    best = ranked(parts_of(turnable(), stack=1), band, FLAT)[0]
    assert best.error == 0.0
    # 60 deg gives 3.0 lift and 5.2 cant, nearest to the start; 90 and 120 lie in the band too.
    assert best.front.settings[0].bearing == pytest.approx(rad(60.0))


def test_a_fits_least_and_full_ends_are_the_band() -> None:
    setup = rider()
    found = fit_of(*setup)
    band = wanted_by(found.rear)
    assert band.cant == (found.rear.least_cant, found.rear.full_cant)
    assert band.lift == (found.rear.least_lift, found.rear.full_lift)
    assert band.start == (found.rear.start_lift, found.rear.start_cant)


def test_the_off_plane_angles_are_those_of_the_stance_swept_over_the_range() -> None:
    setup = rider()
    for each in ranked(PARTS, wanted_exactly(rad(2.0), rad(4.0)), FLAT, most=3):
        swept = sweep_of(setup.body, setup.boots, each.stance, setup.crouch, RANGE)
        assert each.off_plane == pytest.approx(swept.worst_off_plane, abs=1e-12)


def test_the_stance_stands_on_what_is_built() -> None:
    best = ranked(PARTS, wanted_exactly(rad(2.0), rad(4.0)), FLAT)[0]
    assert (best.stance.front.lift, best.stance.front.cant) == (best.front.lift, best.front.cant)
    assert best.stance.length == rider().stance.length
    assert best.stance.front.angle == rider().stance.front.angle
