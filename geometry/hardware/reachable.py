"""The best stance that a rider can reach with the parts and inserts at hand.

Every candidate, a stance with a stack of parts under either foot, is judged by
the worst off-plane angle over the whole bend; see :mod:`geometry.hardware.race`.  Stances
are told apart by their angles and length: of each only the best candidate is
kept, so that the ten best are ten stances and not ten shades of one.
"""

from __future__ import annotations

from collections.abc import Generator, Iterator
from dataclasses import dataclass

from geometry.fitting.inputs import Setup
from geometry.fitting.sweep import RidingRange
from geometry.hardware.candidates import (
    FINE,
    Candidates,
    StanceLimits,
    candidates_at,
    candidates_near,
    candidates_within,
)
from geometry.hardware.parts import PartsList
from geometry.hardware.race import Race
from geometry.hardware.rules import Rules, rules_of
from geometry.hardware.stacks import Built
from geometry.stance import Stance

BEST = 10
"""Stances that are told."""
RACED = 0.8
"""Share of a search's time after which the best are tried again with all soles near by
(about what the shipped parts lists take)."""


@dataclass(frozen=True, eq=False, slots=True)
class Reached:
    """One stance, and how it does over the range.

    Attributes:
        stance: angles, length, and the lifts and cants of its mounts.
        built: what stands under the front and the rear foot; None for the
            present mounts, of which no parts are known.
        off_plane: largest off-plane angle of the front and of the rear leg,
            whatever its sign (rad).
        demand: the most that a leg asks of boot and knee together (rad): the
            side give and the off-plane angle, or less than the side give.
        off_rest: largest flex of either boot away from rest (rad).
    """

    stance: Stance
    built: tuple[Built, Built] | None
    off_plane: tuple[float, float]
    demand: float
    off_rest: float

    @property
    def worst_off_plane(self) -> float:
        """The larger of the two legs' off-plane angles (rad)."""
        return max(self.off_plane)


@dataclass(frozen=True, eq=False, slots=True)
class Reachable:
    """What the search found.

    Attributes:
        best: the best stances, best first; fewer than ten where fewer do.
        kept: the present angles and length with the best parts; None where no
            stack does there.
        present: the present stance on its present mounts.
        searched: how many candidates there were.
        apart: how far apart soles were thinned (rad); 0 where all were tried.
            The stances found were then tried again with all soles near by.
        reason: key of the reason why there is no best stance; empty where there is one.
    """

    best: tuple[Reached, ...]
    kept: Reached | None
    present: Reached
    searched: int
    apart: float
    reason: str


@dataclass(frozen=True, eq=False, slots=True)
class Progress:
    """How far the search is.

    Attributes:
        done: share of the candidates gone through, from 0 to 1.
        result: what was found; None until the very last progress.
    """

    done: float
    result: Reachable | None = None


def reachable_stances(
    setup: Setup,
    over: RidingRange,
    parts: PartsList,
    limits: StanceLimits,
    *,
    apart: float | None = None,
) -> Iterator[Progress]:
    """Search every candidate for the smallest worst off-plane angle over the bend.

    A candidate is in the running if the rider's own crouch settles in it, and so
    does every point of the range as deep or deeper at which the present stance
    settles; and if no boot is bent farther than its flex range allows, or farther
    than in the present stance where that is farther.  Points of the range at which
    no posture settles otherwise, as when a wide stance stands less tall, do not count.

    Args:
        setup: the rider in the present stance, single values all.  Its across
            spacing is kept, its hip shift holds all through the range.
        over: the riding range.
        parts: what there is to build from.
        limits: what the rider is ready to stand in.
        apart: soles that differ by less in lift and cant are not tried apart
            (rad); 0 tries them all, and None as many as take some seconds.

    Returns:
        Progress after each batch of candidates, some hundredths of a second's work;
        to stop the search, stop asking.  The last one carries the result.

    Raises:
        ValueError: no stance lies within the limits, or too many candidates do.
    """
    candidates = candidates_within(limits, parts, float(setup.stance.across), apart)
    kept = candidates_at(setup.stance, parts, apart)
    return _progress(rules_of(setup, over), setup.stance, candidates, kept)


def _progress(
    rules: Rules, stance: Stance, candidates: Candidates, kept: Candidates
) -> Iterator[Progress]:
    """The search itself: the present stance first, then all candidates."""
    # The present stance can have as many stacks to try as all the others together.
    home = len(kept) / (len(kept) + len(candidates))
    at_home = yield from _best_of(rules, kept, 1, (0.0, home))
    best = yield from _best_of(rules, candidates, BEST, (home, 1.0))
    present = _reached(rules, stance, None)
    reason = "" if best else "none settles"
    result = Reachable(
        tuple(best),
        at_home[0] if at_home else None,
        present,
        len(candidates),
        candidates.apart,
        reason,
    )
    yield Progress(1.0, result)


def _best_of(
    rules: Rules, field: Candidates, places: int, span: tuple[float, float]
) -> Generator[Progress, None, list[Reached]]:
    """The best stances, each with its best parts, best first; progress goes over a span."""
    refines = field.apart > FINE
    begin, end = span
    raced = begin + (end - begin) * (RACED if refines else 1.0)
    race = Race(rules, field, places)
    for done in race.rounds():
        yield Progress(begin + (raced - begin) * done)
    winners = [(winner, field) for winner in race.winners()]
    if refines:
        for i, (winner, _) in enumerate(winners):
            near = candidates_near(field, winner.stance, winner.pair)
            finals = Race(rules, near, 1)
            for _ in finals.rounds():
                yield Progress(raced + (end - raced) * i / len(winners))
            better = [(final, near) for final in finals.winners() if final.rank < winner.rank]
            winners[i] = better[0] if better else winners[i]
        winners.sort(key=lambda each: each[0].rank)
    return [_reached(rules, *source.stance(won.stance, won.pair)) for won, source in winners]


def _reached(rules: Rules, stance: Stance, built: tuple[Built, Built] | None) -> Reached:
    found = rules.worst(stance)
    front, rear = found.off_plane[:, 0].tolist()
    return Reached(stance, built, (front, rear), float(found.demand[0]), float(found.off_rest[0]))
