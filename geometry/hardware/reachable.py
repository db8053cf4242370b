"""The best stance that a rider can reach with the parts and inserts at hand.

Every candidate, a stance with a stack of parts under either foot, has its place in the
order of :mod:`geometry.hardware.order`; see :mod:`geometry.hardware.race`.  Stances are told
apart by their angles and length: of each only the best candidate is kept, so that the
ten best are ten stances and not ten shades of one.
"""

from __future__ import annotations

from collections.abc import Generator, Iterator
from dataclasses import dataclass

from geometry.fitting.answer import Terms
from geometry.hardware.candidates import (
    FINE,
    Candidates,
    StanceLimits,
    candidates_at,
    candidates_near,
    candidates_within,
)
from geometry.hardware.order import Rank
from geometry.hardware.parts import PartsList
from geometry.hardware.race import Race, Winner
from geometry.hardware.rules import Rules, rules_of
from geometry.hardware.stacks import Built
from geometry.posture import PostureInputs
from geometry.stance import Stance

BEST = 10
"""Stances that are told."""
RACED = 0.8
"""Share of a search's time after which the best are tried again with all soles near by
(about what the shipped parts lists take)."""


@dataclass(frozen=True, eq=False, slots=True)
class Reached:
    """One stance, and how it does over the riding bend, hips straight.

    Attributes:
        stance: angles, length, and the lifts and cants of its mounts.
        built: what stands under the front and the rear foot; None for the
            present mounts, of which no parts are known.
        off_plane: largest off-plane angle of the front and of the rear leg,
            whatever its sign (rad).
        off_rest: flex of the front and of the rear boot away from rest at the middle
            of the bend, whatever its sign (rad).
        boot_past: how far each boot is past its range there (rad).
        rank: why it stands where it stands; None for the present mounts.
    """

    stance: Stance
    built: tuple[Built, Built] | None
    off_plane: tuple[float, float]
    off_rest: tuple[float, float]
    boot_past: tuple[float, float]
    rank: Rank | None

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
    setup: PostureInputs,
    terms: Terms,
    parts: PartsList,
    limits: StanceLimits,
    *,
    apart: float | None = None,
) -> Iterator[Progress]:
    """Search every candidate for those that come first in the order.

    A candidate is in the running if a posture settles at the middle of the riding bend,
    hips straight, and deeper wherever it does in the present stance; and if no lift or
    cant leans against what its stance needs, or passes what is allowed.  Depths at which
    none settles otherwise, as when a wide stance stands less tall, do not count.

    Args:
        setup: the rider in the present stance, single values all.  Its across
            spacing is kept, its hip shift holds all through the bend.
        terms: the riding bend, and what is allowed.
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
    return _progress(rules_of(setup, terms), candidates, kept)


def _progress(rules: Rules, candidates: Candidates, kept: Candidates) -> Iterator[Progress]:
    """The search itself: the present stance first, then all candidates."""
    # The present stance can have as many stacks to try as all the others together.
    home = len(kept) / (len(kept) + len(candidates))
    at_home = yield from _best_of(rules, kept, 1, (0.0, home))
    best = yield from _best_of(rules, candidates, BEST, (home, 1.0))
    result = Reachable(
        tuple(best),
        at_home[0] if at_home else None,
        _reached(rules, rules.rider.stance, None, None),
        len(candidates),
        candidates.apart,
        "" if best else "none settles",
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
            winners[i] = refined(rules, race, field, winner)
            yield Progress(raced + (end - raced) * i / len(winners))
        winners.sort(key=lambda each: each[0].rank)
    return [
        _reached(rules, *source.stance(won.stance, won.pair), won.rank) for won, source in winners
    ]


def refined(
    rules: Rules, race: Race, field: Candidates, winner: Winner, *, same_parts: bool = False
) -> tuple[Winner, Candidates]:
    """The best of a winner and of all soles near its own, and among whom it is.

    Args:
        rules: by what candidates are judged.
        race: that it has won.
        field: of that race.
        winner: who has won.
        same_parts: whether only other settings of the same parts are tried.
    """
    near = candidates_near(field, winner.stance, winner.pair, same_parts=same_parts)
    finals = Race(rules, near, 1, wishes=race.wishes_of(winner.stance))
    for _ in finals.rounds():
        pass
    better = [final for final in finals.winners() if final.rank < winner.rank]
    return (better[0], near) if better else (winner, field)


def _reached(
    rules: Rules, stance: Stance, built: tuple[Built, Built] | None, rank: Rank | None
) -> Reached:
    found = rules.judged(stance)
    off_plane, off_rest, boot_past = (
        (float(each[0, 0]), float(each[1, 0]))
        for each in (found.off_plane, found.off_rest, found.boot_past)
    )
    return Reached(stance, built, off_plane, off_rest, boot_past, rank)
