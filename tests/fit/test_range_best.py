"""The mounts that suit the whole bend together, against their neighbours tried one by one."""

from __future__ import annotations

import numpy as np
import pytest
from fit_riders import demo, rad

from geometry.fitting.inputs import PostureInputs
from geometry.fitting.range_best import RangeBest, range_best_steps
from geometry.fitting.smallest_mounts import canted, lifted
from geometry.fitting.steps import finished
from geometry.fitting.sweep import sweep_of
from geometry.stance import Stance

STANCES = {"forward": (43.0, 38.0), "straight": (0.0, 0.0), "duck": (15.0, -15.0)}


def range_best_of(*setup: object, **kind: float) -> RangeBest:
    return finished(range_best_steps(*setup, **kind))


def worst_off_rest(setup: PostureInputs, best: RangeBest, stance: Stance) -> list[float]:
    return [
        float(np.nanmax(np.abs(off)))
        for off in sweep_of(*setup._replace(stance=stance), best.over).off_rest
    ]


def worst_off_plane(setup: PostureInputs, best: RangeBest, stance: Stance) -> np.ndarray:
    return np.array(
        sweep_of(setup.body, setup.boots, stance, setup.crouch, best.over).worst_off_plane
    )


@pytest.mark.parametrize("angles", STANCES.values(), ids=STANCES)
def test_no_neighbouring_cant_leaves_less_off_plane(angles: tuple[float, float]) -> None:
    setup = demo(*angles)
    best = range_best_of(*setup)
    least = worst_off_plane(setup, best, best.stance)
    for leg in (0, 1):
        for step in (-1.0, -0.3, 0.3, 1.0):
            cants = np.array(best.cants)
            cants[leg] += rad(step)
            tried = worst_off_plane(setup, best, canted(best.stance, *cants.tolist()))
            assert tried[leg] > least[leg] - 1e-9


@pytest.mark.parametrize("angles", STANCES.values(), ids=STANCES)
def test_the_lifts_bring_both_boots_nearer_to_rest_or_are_none(
    angles: tuple[float, float],
) -> None:
    setup = demo(*angles)
    best = range_best_of(*setup)
    on, flat = (
        worst_off_rest(setup, best, stance)
        for stance in (best.stance, lifted(best.stance, 0.0, 0.0))
    )
    for boot, lift in enumerate(best.lifts):
        assert on[boot] < flat[boot] if lift else on[boot] <= rad(15.0)


def test_once_the_best_mounts_are_on_they_are_still_the_best() -> None:
    setup = demo()
    best = range_best_of(*setup)
    again = range_best_of(*setup._replace(stance=best.stance))
    assert [*again.cants, *again.lifts] == [*best.cants, *best.lifts]


def test_the_same_answer_comes_in_short_steps() -> None:
    setup = demo()
    steps = range_best_steps(*setup)
    for _ in range(4):
        next(steps)
    assert finished(steps).cants == range_best_of(*setup).cants


def test_where_no_leg_reaches_there_are_no_best_mounts() -> None:
    best = range_best_of(*demo(0.0, 0.0, length=2000.0))
    assert np.isnan([*best.cants, *best.lifts]).all()


def test_the_bend_alone_asks_for_less_than_the_bend_with_turning_hips() -> None:
    setup = demo()
    alone, turning = range_best_of(*setup, turn=0.0), range_best_of(*setup)
    assert alone.over.turns.tolist() == [0.0]
    for less, more in zip(alone.cants, turning.cants, strict=True):
        assert abs(less) < abs(more)


def test_the_bend_alone_may_be_one_with_hips_that_stay_turned() -> None:
    setup = demo()
    best = range_best_of(*setup, turn=0.0, turned=rad(10.0))
    least = worst_off_plane(setup, best, best.stance)
    assert best.over.turns.tolist() == [rad(10.0)]
    less = canted(best.stance, *(cant - rad(0.5) for cant in best.cants))
    assert (worst_off_plane(setup, best, less) > least + rad(0.4)).all()
