"""The fewest parts that serve several set-ups, one after the other.

Parts move with their rider from board to board, and from one choice of angles to the
next: so a kit has to hold, of each sort, the most that any one of the set-ups takes.
First it is found how well every choice of parts can serve each set-up.  Then those kits
are told that serve all of them as well as can be, by how many parts have to be got, how
many there are, and how high they raise a foot at most; and last by how high all of them
stand together.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from geometry.fitting.answer import Mounts, Terms
from geometry.hardware.candidates import Candidates
from geometry.hardware.combinations import (
    Chosen,
    Combination,
    bare_stance,
    cants_off,
    combinations_on,
)
from geometry.hardware.order import Rank, steps_up
from geometry.hardware.parts import PartsList
from geometry.hardware.race import Race
from geometry.hardware.rules import rules_of
from geometry.hardware.stacks import Built, Stacks, sharing_allowed, stacks_of
from geometry.hardware.wishes import Wishes
from geometry.posture import PostureInputs
from geometry.reasons import impossible
from geometry.rows import row_keys
from geometry.stance import FRONT, REAR, Mount, Stance

SETTINGS = 4
"""Settings of each choice of parts for one foot that are tried with each of the other's."""
BEST = 5
"""Kits that are told."""
MOST_CHOICES = 5_000
"""Choices of parts for both feet that are compared, in some seconds; more are refused."""
MOST_KITS = 2_000
"""Kits that are held against each other; more are refused."""

Counts = tuple[int, ...]
"""How many of each part of a list."""


@dataclass(frozen=True, eq=False, slots=True)
class Asking:
    """One set-up that is to be served.

    Attributes:
        setup: the rider in a stance, single values all.
        terms: the riding bend, and what is allowed.
        held: lifts and cants that are known otherwise; None where none are.
    """

    setup: PostureInputs
    terms: Terms
    held: Mounts | None = None


@dataclass(frozen=True, eq=False, slots=True)
class Kit:
    """Parts that serve all set-ups, one after the other.

    Attributes:
        counts: how many of each part of the list.
        to_get: how many of each that are not there yet.
        combinations: the best that can be made of them for each set-up.
    """

    counts: Counts
    to_get: Counts
    combinations: tuple[Combination, ...]


class _Way(NamedTuple):
    """One choice of parts for a set-up, in its best setting."""

    rank: Rank
    used: Counts
    built: tuple[Built, Built]


def kits_for(
    asking: Sequence[Asking],
    parts: PartsList,
    owned: Counts | None = None,
    most: int = BEST,
) -> tuple[Kit, ...]:
    """The kits that serve every set-up as well as can be, those of the fewest parts first.

    Args:
        asking: the set-ups.
        parts: what there is, and what can be got; the counts say how many there can be.
        owned: how many of each are there already; all of them where None.
        most: how many kits to tell.

    Returns:
        None where in one of the set-ups no posture settles.

    Raises:
        ValueError: the parts can be stacked, or chosen, in too many ways.
    """
    stacks = stacks_of(parts)
    choices = len(np.unique(row_keys(stacks.used)))
    _require_few(choices * (choices + 1) // 2, MOST_CHOICES)
    there = tuple(part.count for part in parts.parts) if owned is None else owned
    served = [_Served(each, stacks) for each in asking]
    if not all(each.ways for each in served):
        return ()
    made = [
        (_cost(counts, there, ways), counts, ways)
        for counts in _kits([each.as_good_as_can_be for each in served])
        for ways in [tuple(each.best_within(counts) for each in served)]
    ]
    made.sort(key=lambda each: each[:2])
    return tuple(
        Kit(
            counts,
            _missing(counts, there),
            tuple(each.told(way) for each, way in zip(served, ways, strict=True)),
        )
        for _, counts, ways in made[:most]
    )


def _missing(counts: Counts, there: Counts) -> Counts:
    return tuple(max(need - have, 0) for need, have in zip(counts, there, strict=True))


def _cost(counts: Counts, there: Counts, ways: Sequence[_Way]) -> tuple[float, ...]:
    """What kits are put in order by: to get, in all, the most a foot is raised, and all heights."""
    highest = max(built.height for way in ways for built in way.built)
    heights = sum(way.rank.height for way in ways)
    return sum(_missing(counts, there)), sum(counts), round(highest, 3), round(heights, 3)


def _kits(choices: Sequence[Sequence[Counts]]) -> set[Counts]:
    """The kits that hold one choice for each set-up, none that holds another one of them."""
    kits: set[Counts] = {tuple(0 for _ in choices[0][0])}
    for some in choices:
        joined = {tuple(map(max, kit, one)) for kit in kits for one in some}
        _require_few(len(joined), MOST_KITS)
        kits = set(_smallest(joined))
    return kits


def _smallest(counts: set[Counts]) -> list[Counts]:
    """Those that hold no other one."""
    kept: list[Counts] = []
    for each in sorted(counts, key=lambda one: (sum(one), one)):
        if not any(_within(less, each) for less in kept):
            kept.append(each)
    return kept


def _require_few(many: int, enough: int) -> None:
    """Refuse to compare more than can be gone through while one waits.

    Raises:
        ImpossibleError: there are more.
    """
    if many > enough:
        raise impossible("too many choices", many=many, enough=enough)


def _within(less: Counts, more: Counts) -> bool:
    return all(one <= other for one, other in zip(less, more, strict=True))


class _Served:
    """One set-up, and how every choice of parts serves it."""

    def __init__(self, asking: Asking, stacks: Stacks) -> None:
        self._rules = rules_of(asking.setup, asking.terms, asking.held)
        bare = bare_stance(asking.setup.stance)
        wishes = self._rules.wishes(bare)
        self._answer = wishes.answer
        field, used = _few_candidates(bare, stacks, wishes)
        sums, choice = np.unique(used, axis=0, return_inverse=True)
        race = Race(self._rules, field, len(sums), choices=choice.ravel(), wishes=wishes)
        for _ in race.rounds():
            pass
        # An empty list has one column of nothing there.
        told = used[:, : len(stacks.parts.parts)].tolist()
        self.ways = [
            _Way(each.rank, tuple(told[each.pair]), field.stance(0, each.pair)[1])
            for each in race.winners()
        ]

    @property
    def as_good_as_can_be(self) -> list[Counts]:
        """The smallest choices of parts on which boots and knees do as well as on any."""
        best = self.ways[0].rank[:3]
        return _smallest({way.used for way in self.ways if way.rank[:3] == best})

    def best_within(self, counts: Counts) -> _Way:
        """The best that can be made of a kit."""
        return next(way for way in self.ways if _within(way.used, counts))

    def told(self, way: _Way) -> Combination:
        """A way with what the legs do on it."""
        errors = cants_off(self._answer, way.built)
        return combinations_on(self._rules, [Chosen(way.built, errors, way.rank)])[0]


def _few_candidates(
    bare: Stance, stacks: Stacks, wishes: Wishes
) -> tuple[Candidates, NDArray[Any]]:
    """Every choice of parts in the settings that suit one foot and the other best.

    Returns:
        The candidates, and how many of each part every pair takes, shape (pairs, parts).
    """
    angles = (np.asarray(bare.front.angle), FRONT), (np.asarray(bare.rear.angle), REAR)
    picked = [
        _picked(foot, stacks, wishes, Mount(angle[:, np.newaxis], *stacks.soles(angle, side)))
        for foot, (angle, side) in enumerate(angles)
    ]
    # No part at all stands first, as a search expects it.
    union = np.unique(np.concatenate(([0], *picked)))
    if wishes.alike.any():
        # Like stacks for like feet: whatever suits one is tried under the other too.
        picked = [np.unique(np.concatenate(picked))] * 2
    few = stacks.only(union)
    front, rear = (np.searchsorted(union, each) for each in picked)
    i, j = np.nonzero(sharing_allowed(few.only(front), few.only(rear)))
    (front_angle, _), (rear_angle, _) = angles
    length, across = np.asarray(bare.length), float(bare.across)
    field = Candidates(front_angle, rear_angle, length, across, few, front[i], rear[j], 0.0, few)
    return field, few.used[front[i]] + few.used[rear[j]]


def _picked(foot: int, stacks: Stacks, wishes: Wishes, mount: Mount) -> NDArray[Any]:
    """The stacks that suit a foot best, a few of every choice of parts, by their numbers."""
    soles = wishes.judged(foot, mount)
    lift_off = wishes.lift_off(foot, soles.lift)[0]
    by_choice = np.lexsort(
        (
            soles.from_answer[0],
            soles.cant_off[0] + steps_up(lift_off),
            soles.out[0],
            row_keys(stacks.used),
        )
    )
    choice = row_keys(stacks.used)[by_choice]
    _, first, many = np.unique(choice, return_index=True, return_counts=True)
    place = np.arange(len(choice)) - np.repeat(first, many)
    return np.asarray(by_choice[place < SETTINGS])
