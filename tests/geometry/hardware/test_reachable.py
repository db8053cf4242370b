"""The best reachable stance: the same as by going through everything in full."""

from __future__ import annotations

import math

import numpy as np
import pytest
from by_hand import every_pair
from hypothesis import given, settings
from hypothesis import strategies as st
from parts_riders import across, along, limits, parts_of, rad, rider, turnable, uneven

from geometry import FRONT, REAR, Crouch, Mount, Stance, solve
from geometry.fitting.answer import USUAL_TERMS
from geometry.fitting.inputs import PostureInputs
from geometry.hardware.candidates import Candidates, StanceLimits, candidates_within
from geometry.hardware.order import Rank
from geometry.hardware.parts import PartsList
from geometry.hardware.reachable import Reachable, reachable_stances
from geometry.hardware.screening import screen_of
from geometry.hardware.stacks import pairs_allowed, sharing_allowed, stacks_of

NARROW = limits((40.0, 45.0), (35.0, 40.0), (460.0, 540.0))
ROUND = parts_of(turnable(step=60.0), stack=1)
CASES = {
    "round wedges": (rider(), ROUND, NARROW),
    "legs of their own": (uneven(), ROUND, NARROW),
    "much side give": (rider(side_give=12.0), ROUND, NARROW),
    # No stance here is the mirror image of another, which would tie with it.
    "duck": (rider(15.0, -15.0), ROUND, limits((5.0, 10.0), (-20.0, -15.0))),
    "two by two": (
        rider(),
        parts_of(along(), across(count=3), angle_step=15.0),
        limits((30.0, 45.0), (15.0, 30.0), (500.0, 500.0)),
    ),
}


def searched(setup: PostureInputs, parts: PartsList, within: StanceLimits) -> Reachable:
    *_, last = reachable_stances(setup, USUAL_TERMS, parts, within, apart=0.0)
    assert last.result is not None
    return last.result


def told(rank: Rank | None) -> tuple[float, ...]:
    """A rank as :mod:`by_hand` tells it: angles as numbers of half degrees."""
    assert rank is not None
    return (*(round(math.degrees(angle) / 0.5, 6) for angle in rank[:3]), *rank[3:7])


def best_by_hand(
    setup: PostureInputs, parts: PartsList, within: StanceLimits
) -> list[tuple[float, ...]]:
    """Rank of the best pair of stacks in every stance, best first."""
    field = candidates_within(within, parts)
    ranks = []
    for front, rear, length in zip(
        field.front_angles, field.rear_angles, field.lengths, strict=True
    ):
        bare = Stance(Mount(float(front)), Mount(float(rear)), float(length))
        own = [pair.rank for pair in every_pair(setup, parts, bare)]
        ranks += [min(own)] if own else []
    return sorted(ranks)[:10]


@pytest.mark.parametrize("case", CASES)
def test_the_search_finds_what_going_through_everything_in_full_finds(case: str) -> None:
    setup, parts, within = CASES[case]
    found = searched(setup, parts, within).best
    assert [told(reached.rank) for reached in found] == best_by_hand(setup, parts, within)


def every_pair_of(field: Candidates, angle: float, rear_angle: float, length: float) -> Stance:
    """One stance on every pair of stacks, shape (pairs, 1)."""
    front, rear = field.stacks.soles(angle, FRONT), field.stacks.soles(rear_angle, REAR)
    i, j = field.front_stacks[:, np.newaxis], field.rear_stacks[:, np.newaxis]
    return Stance(
        Mount(angle, front[0][i], front[1][i]), Mount(rear_angle, rear[0][j], rear[1][j]), length
    )


@settings(max_examples=40)
@given(
    front=st.floats(rad(-30.0), rad(90.0)),
    rear=st.floats(rad(-45.0), rad(90.0)),
    length=st.floats(300.0, 650.0),
    bend=st.floats(rad(20.0), rad(100.0)),
    turn=st.floats(rad(-25.0), rad(25.0)),
    ahead=st.floats(-40.0, 40.0),
)
def test_the_screen_never_tells_more_than_the_posture_does(
    front: float, rear: float, length: float, bend: float, turn: float, ahead: float
) -> None:
    setup = uneven()
    field = candidates_within(NARROW, parts_of(turnable(12.0, step=60.0), along(6.0)))
    front_soles, rear_soles = field.stacks.soles(front, FRONT), field.stacks.soles(rear, REAR)
    soled = Stance(
        Mount(np.array([[front]]), *(sole[np.newaxis] for sole in front_soles)),
        Mount(np.array([[rear]]), *(sole[np.newaxis] for sole in rear_soles)),
        np.array([[length]]),
    )
    crouch = Crouch(bend, turn, weight_ahead=ahead)
    screen = screen_of(setup.body, setup.boots, soled, crouch)
    asked = screen.asked(slice(None), field.front_stacks, field.rear_stacks)
    posture = solve(setup.body, setup.boots, every_pair_of(field, front, rear, length), crouch)
    there = np.asarray(posture.exists)[:, 0]
    for foot, (leg, boot) in enumerate(zip(posture.legs, setup.boots.both, strict=True)):
        off_plane = np.abs(np.asarray(leg.off_plane))[:, 0]
        off_rest = np.abs(np.asarray(leg.boot_flex) - boot.forward_lean)[:, 0]
        assert np.all((asked.off_plane[foot, 0] <= off_plane)[there])
        assert np.all((asked.off_rest[foot, 0] <= off_rest)[there])


def test_nearly_all_candidates_are_told_apart_by_the_screen() -> None:
    setup, parts, within = CASES["round wedges"]
    field = candidates_within(within, parts)
    soled = field.soled(np.arange(len(field.lengths)))
    screen = screen_of(setup.body, setup.boots, soled, Crouch(rad(60.0), rad(20.0)))
    asked = screen.asked(slice(None), field.front_stacks, field.rear_stacks)
    assert (asked.off_rest[0] != 0.0).mean() > 0.95


def test_the_present_stance_with_the_best_parts_is_told_even_outside_the_limits() -> None:
    setup, parts, _ = CASES["round wedges"]
    found = searched(setup, parts, limits((0.0, 10.0), (0.0, 10.0)))
    assert found.kept is not None
    assert found.kept.stance.front.angle == setup.stance.front.angle
    assert found.kept.stance.length == setup.stance.length
    assert sum(found.kept.boot_past) <= sum(found.present.boot_past)
    assert found.present.stance is setup.stance


def test_the_best_stances_differ_and_lie_within_the_limits() -> None:
    within = limits((30.0, 60.0), (10.0, 50.0), (440.0, 560.0), splay=(0.0, 12.0))
    best = searched(rider(), ROUND, within).best
    places = [
        tuple(np.round((np.degrees(s.front.angle), np.degrees(s.rear.angle), s.length), 6))
        for s in (reached.stance for reached in best)
    ]
    assert len(set(places)) == len(best) == 10
    for front, rear, length in places:
        assert 0.0 <= front - rear <= 12.0
        assert front in range(30, 61, 5)
        assert length in {460.0, 500.0, 540.0}


def test_what_is_built_gives_the_stance_its_lifts_and_cants() -> None:
    discs = parts_of(turnable(step=60.0), stack=1, turns_with_binding=False)
    for reached in searched(rider(), discs, NARROW).best:
        assert reached.built is not None
        for mount, built in zip(
            (reached.stance.front, reached.stance.rear), reached.built, strict=True
        ):
            assert (mount.lift, mount.cant) == (built.lift, built.cant)


def test_progress_rises_to_one_and_only_its_end_carries_a_result() -> None:
    setup, parts, within = CASES["two by two"]
    steps = list(reachable_stances(setup, USUAL_TERMS, parts, within))
    done = [step.done for step in steps]
    assert done == sorted(done)
    assert done[-1] == 1.0
    assert [step.result is not None for step in steps] == [False] * (len(steps) - 1) + [True]


def test_progress_moves_while_the_parts_for_the_present_stance_are_sought(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("geometry.hardware.candidates.AT_ONCE", 8)
    setup, parts, _ = CASES["round wedges"]
    alone = limits((45.0, 45.0), (40.0, 40.0), (500.0, 500.0))
    done = [step.done for step in reachable_stances(setup, USUAL_TERMS, parts, alone)]
    # As many stacks stand under the present stance as under the only one within the limits.
    assert sum(0.0 < each < 0.5 for each in done) > 2


def test_a_search_that_nobody_asks_on_stops(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("geometry.hardware.candidates.AT_ONCE", 64)
    setup, parts, within = CASES["round wedges"]
    search = reachable_stances(setup, USUAL_TERMS, parts, within)
    first = [next(search).done for _ in range(4)]
    assert 0.0 < first[-1] < 0.2
    search.close()
    assert list(search) == []


def test_thinned_soles_lose_little_since_the_winners_are_tried_again_finely() -> None:
    setup = rider()
    parts = parts_of(turnable(step=20.0), along(), angle_step=15.0)
    within = limits((30.0, 45.0), (15.0, 30.0), (500.0, 540.0))
    *_, last = reachable_stances(setup, USUAL_TERMS, parts, within, apart=rad(2.0))
    assert last.result is not None
    every = searched(setup, parts, within)
    assert last.result.apart == rad(2.0)
    assert last.result.searched < 0.2 * every.searched
    for thinned, exact in zip(last.result.best, every.best, strict=True):
        # What is left over is how far the feet move, in mm, and how near the answer is.
        assert told(thinned.rank)[:6] == told(exact.rank)[:6]


def test_few_candidates_are_all_tried_and_more_are_thinned(monkeypatch: pytest.MonkeyPatch) -> None:
    parts = parts_of(turnable(step=20.0), along())
    every = candidates_within(NARROW, parts)
    assert every.apart == 0.0
    monkeypatch.setattr("geometry.hardware.candidates.FEW_ENOUGH", len(every) // 4)
    thinned = candidates_within(NARROW, parts)
    assert thinned.apart > 0.0
    assert len(thinned) <= len(every) // 4


def test_pairs_of_stacks_are_counted_without_being_built() -> None:
    stacks = stacks_of(parts_of(turnable(step=60.0, count=3), along(count=1)))
    assert pairs_allowed(stacks) == int(sharing_allowed(stacks, stacks).sum())
