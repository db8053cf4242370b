"""Which parts to put under both feet in a stance: for what its answer asks, or what is typed.

Every choice of parts for the two feet is listed once, in its best setting, and choices
stand in the order of :mod:`geometry.hardware.order`.  Where a lift and a cant are typed
for each foot, what counts first is how near the soles come to them.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from geometry.checks import require_between
from geometry.fitting.answer import Answer, Mounts, Terms
from geometry.hardware.candidates import FINE, Candidates, candidates_at
from geometry.hardware.order import STEP, Rank, steps_up
from geometry.hardware.parts import PartsList, angle_between_soles
from geometry.hardware.race import Race, Winner
from geometry.hardware.reachable import refined
from geometry.hardware.rules import Rules, rules_of
from geometry.hardware.stacks import Built, Stacks, sharing_allowed, stacks_of
from geometry.posture import PostureInputs
from geometry.rows import row_keys
from geometry.stance import FRONT, REAR, Mount, Stance

ALIKE = math.radians(0.25)
"""Errors that differ by less count as equal (rad): half the finest step shown."""
BEST = 10
"""Combinations that are listed."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """The lift and cant that one foot is to have.

    Attributes:
        lift: (rad).
        cant: (rad).

    Raises:
        ValueError: an angle is outside its possible range, or nan.
    """

    lift: float
    cant: float

    def __post_init__(self) -> None:
        require_between("wanted lift", self.lift, -60.0, 60.0, "deg")
        require_between("wanted cant", self.cant, -60.0, 60.0, "deg")

    def error(self, lift: Any, cant: Any) -> NDArray[Any]:
        """Angle between the normals of a sole and of the one wanted (rad)."""
        return np.asarray(angle_between_soles((lift, cant), (self.lift, self.cant)))


@dataclass(frozen=True, eq=False, slots=True)
class Combination:
    """Parts for both feet, and what the legs do on them over the riding bend, hips straight.

    Attributes:
        stance: the stance on them.
        front: what stands under the front foot.
        rear: what stands under the rear foot.
        errors: how far the front and the rear sole are from what is wanted (rad): their
            cants from those that keep the knee in plane, or what is built from what is
            typed, as an angle between normals.
        off_plane: largest off-plane angle of the front and of the rear leg, whatever
            its sign (rad); nan where no posture settles.
        boot_past: how far each boot is past its range at the middle of the bend (rad).
        rank: why it stands where it stands; None where lift and cant are typed.
    """

    stance: Stance
    front: Built
    rear: Built
    errors: tuple[float, float]
    off_plane: tuple[float, float]
    boot_past: tuple[float, float]
    rank: Rank | None

    @property
    def error(self) -> float:
        """The larger of the two errors (rad)."""
        return max(self.errors)


def combinations_for(
    setup: PostureInputs,
    terms: Terms,
    parts: PartsList,
    held: Mounts | None = None,
    most: int = BEST,
) -> tuple[Combination, ...]:
    """The choices of parts that do best what both feet need, best first.

    Args:
        setup: the rider in a stance, single values all; the nearer a combination is to
            its lifts and cants the better, all else equal.
        terms: the riding bend, and what is allowed.
        parts: what there is to build from.
        held: lifts and cants that are known otherwise, as from trials, shape (2, 1); nan
            where one is not.
        most: how many combinations to list.

    Returns:
        None where no posture settles at the middle of the riding bend, or on flat soles.

    Raises:
        ValueError: the parts can be stacked in too many ways.
    """
    rules, field = rules_of(setup, terms, held), candidates_at(setup.stance, parts)
    race = Race(rules, field, most, choices=_choices(field))
    for _ in race.rounds():
        pass
    winners: list[tuple[Winner, Candidates]] = [(winner, field) for winner in race.winners()]
    if field.apart > FINE:
        found = (refined(rules, race, field, each, same_parts=True) for each, _ in winners)
        winners = sorted(found, key=lambda each: each[0].rank)
    answer = race.wishes_of(0).answer
    chosen = []
    for won, source in winners:
        _, built = source.stance(won.stance, won.pair)
        chosen.append(Chosen(built, cants_off(answer, built), won.rank))
    return combinations_on(rules, chosen)


def left_by_answer(
    setup: PostureInputs, terms: Terms, held: Mounts | None = None
) -> tuple[float, float, float]:
    """What is left on just the lifts and cants to begin with, which no part has to do better.

    Arguments as in :func:`combinations_for`.

    Returns:
        The first three criteria of a :class:`geometry.hardware.order.Rank` (rad).
    """
    rules = rules_of(setup, terms, held)
    wishes = rules.wishes(bare_stance(setup.stance))
    front, rear = (
        Built((), float(wishes.begin.lift[foot, 0]), float(wishes.begin.cant[foot, 0]), 0.0)
        for foot in (0, 1)
    )
    found = rules.judged(_on(setup.stance, (front, rear)))
    cants = steps_up(np.array(cants_off(wishes.answer, (front, rear))))
    steps = rules.boots_past(found.off_rest), cants, rules.out_of_plane(found.off_plane)
    boots, cants_left, knees = (STEP * int(each.sum()) for each in steps)
    return boots, cants_left, knees


def bare_stance(stance: Stance) -> Stance:
    """A stance on flat soles, as arrays of one element."""
    front, rear, length = map(np.atleast_1d, (stance.front.angle, stance.rear.angle, stance.length))
    return Stance(Mount(front), Mount(rear), length, float(stance.across))


def nearest_combinations(
    setup: PostureInputs,
    terms: Terms,
    parts: PartsList,
    wanted: tuple[Wanted, Wanted],
    most: int = BEST,
) -> tuple[Combination, ...]:
    """The choices of parts that come nearest to a lift and a cant for each foot, best first.

    Args:
        setup: the rider in a stance, single values all; its lifts and cants do not matter.
        terms: the riding bend.
        parts: what there is to build from.
        wanted: what the front and the rear foot are to have.
        most: how many combinations to list.

    Returns:
        At least one: standing flat needs no parts.

    Raises:
        ValueError: the parts can be stacked in too many ways.
    """
    stacks, rules, stance = stacks_of(parts), rules_of(setup, terms), setup.stance
    front, rear = (
        _Foot(stacks, float(mount.angle), side, wish)
        for mount, side, wish in zip(
            (stance.front, stance.rear), (FRONT, REAR), wanted, strict=True
        )
    )
    pairs = zip(*(which[:most].tolist() for which in _pairs(stacks, front, rear)), strict=True)
    chosen = [
        Chosen((front.built(i), rear.built(j)), (float(front.error[i]), float(rear.error[j])), None)
        for i, j in pairs
    ]
    return combinations_on(rules, chosen)


def _choices(field: Candidates) -> NDArray[Any]:
    """Number of the choice of parts that each pair of stacks makes."""
    _, choice = np.unique(row_keys(field.stacks.used), return_inverse=True)
    return np.asarray(choice[field.front_stacks] * (choice.max() + 1) + choice[field.rear_stacks])


def cants_off(answer: Answer, built: tuple[Built, Built]) -> tuple[float, float]:
    """How far the cants lie outside those that keep the knees in plane (rad)."""
    front, rear = (
        abs(each.cant - _nearest(each.cant, *(float(end[foot, 0]) for end in ends)))
        for foot, (each, ends) in enumerate(
            (each, (answer.low, answer.high, answer.even)) for each in built
        )
    )
    return front, rear


def _nearest(cant: float, low: float, high: float, even: float) -> float:
    """The cant nearest to one from a low to a high end; the one between where they cross."""
    return even if low > high else min(max(cant, low), high)


class _Foot:
    """One foot on every stack."""

    def __init__(self, stacks: Stacks, angle: float, side: float, wanted: Wanted) -> None:
        self._stacks, self._angle, self._side = stacks, angle, side
        self.error = wanted.error(*stacks.soles(angle, side))
        self.best = _best_of_each_choice(stacks, self.error)

    def built(self, which: int) -> Built:
        """What stands under the foot on one of the stacks."""
        return self._stacks.built(which, self._angle, self._side)


def _best_of_each_choice(stacks: Stacks, error: NDArray[Any]) -> NDArray[Any]:
    """The best stack of every choice of parts, by its number."""
    choice = row_keys(stacks.used)
    by_error = np.lexsort((error, choice))
    _, first = np.unique(choice[by_error], return_index=True)
    return np.asarray(by_error[first])


def _pairs(
    stacks: Stacks, front_foot: _Foot, rear_foot: _Foot
) -> tuple[NDArray[Any], NDArray[Any]]:
    """Stacks under the front and the rear foot, of every pair for which the parts suffice.

    Each choice of parts in its best setting; best first.
    """
    i, j = np.nonzero(sharing_allowed(stacks.only(front_foot.best), stacks.only(rear_foot.best)))
    front, rear = front_foot.best[i], rear_foot.best[j]
    larger = np.maximum(front_foot.error[front], rear_foot.error[rear])
    both = front_foot.error[front] + rear_foot.error[rear]
    height = stacks.height[front] + stacks.height[rear]
    size = stacks.size[front] + stacks.size[rear]
    order = np.lexsort((both, larger, size, height, np.floor(larger / ALIKE)))
    return front[order], rear[order]


class Chosen(NamedTuple):
    """A combination before it is known what the legs do on it: the fields of one."""

    built: tuple[Built, Built]
    errors: tuple[float, float]
    rank: Rank | None


def combinations_on(rules: Rules, chosen: list[Chosen]) -> tuple[Combination, ...]:
    """The combinations with what the legs do on them, in the same order."""
    if not chosen:
        return ()
    stances = [_on(rules.rider.stance, each.built) for each in chosen]
    soles = np.array([[(one.lift, one.cant) for one in each.built] for each in chosen])
    (front, rear), whole = soles.transpose(1, 2, 0), rules.rider.stance
    found = rules.judged(
        replace(
            whole,
            front=Mount(whole.front.angle, front[0], front[1]),
            rear=Mount(whole.rear.angle, rear[0], rear[1]),
        )
    )
    knees, boots = found.off_plane.T.tolist(), found.boot_past.T.tolist()
    return tuple(
        Combination(stance, *each.built, each.errors, tuple(knee), tuple(boot), each.rank)
        for stance, each, knee, boot in zip(stances, chosen, knees, boots, strict=True)
    )


def _on(stance: Stance, built: tuple[Built, Built]) -> Stance:
    """A stance with what is built under its feet."""
    front, rear = (
        Mount(mount.angle, each.lift, each.cant)
        for mount, each in zip((stance.front, stance.rear), built, strict=True)
    )
    return replace(stance, front=front, rear=rear)
