"""The best stance that a rider can reach with the parts and inserts at hand.

Every candidate, a stance with a stack of parts under either foot, is judged by
the worst off-plane angle over the whole bend; see :mod:`geometry.race`.  Stances
are told apart by their angles and length: of each only the best candidate is
kept, so that the ten best are ten stances and not ten shades of one.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from geometry.candidates import Candidates, StanceLimits, candidates_at, candidates_within
from geometry.inputs import Setup
from geometry.parts import PartsList
from geometry.race import Race
from geometry.rules import Rules, rules_of
from geometry.stacks import Built
from geometry.stance import Stance
from geometry.sweep import RidingRange

APART = math.radians(0.25)
"""Soles that differ by less are not tried apart (rad): half the finest step shown."""
BEST = 10
"""Stances that are told."""


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
        reason: why there is no best stance; empty where there is one.
    """

    best: tuple[Reached, ...]
    kept: Reached | None
    present: Reached
    searched: int
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
    apart: float = APART,
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
            (rad); 0 tries them all.

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
    at_home = Race(rules, kept, 1)
    for _ in at_home.rounds():
        yield Progress(0.0)
    race = Race(rules, candidates, BEST)
    for done in race.rounds():
        yield Progress(done)
    best = tuple(_reached(rules, *candidates.stance(*winner)) for winner in race.winners())
    homes = [_reached(rules, *kept.stance(*winner)) for winner in at_home.winners()]
    reason = "" if best else "no posture settles in any of them without bending a boot too far"
    present = _reached(rules, stance, None)
    yield Progress(
        1.0, Reachable(best, homes[0] if homes else None, present, len(candidates), reason)
    )


def _reached(rules: Rules, stance: Stance, built: tuple[Built, Built] | None) -> Reached:
    found = rules.worst(stance)
    front, rear = found.off_plane[:, 0].tolist()
    return Reached(stance, built, (front, rear), float(found.demand[0]), float(found.off_rest[0]))
