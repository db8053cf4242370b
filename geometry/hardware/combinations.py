"""Which parts come nearest to the lift and cant that each foot wants.

Every choice of parts for the two feet is listed once, in its best setting: the
order and the bearings that bring the soles nearest to what is wanted.  Errors
that are alike to a quarter of a degree count as equal: then that setting is best
which comes nearest to where to start from, and those choices come first that
take fewer parts, and of these the lower ones.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from geometry.checks import require_between
from geometry.elementary import clipped
from geometry.fitting.fit import FootFit
from geometry.fitting.sweep import RidingRange
from geometry.fitting.worst import points_of, worst_over
from geometry.hardware.parts import PartsList, angle_between_soles
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
    """The lift and cant that one foot wants: a band of each.

    Attributes:
        lift: the two ends of the band (rad); equal where just one value will do.
        cant: the same.
        start: lift and cant to prefer among those that fit the bands equally
            well (rad, rad).

    Raises:
        ValueError: an angle is outside its possible range, or nan.
    """

    lift: tuple[float, float]
    cant: tuple[float, float]
    start: tuple[float, float]

    def __post_init__(self) -> None:
        for name, angles in (("lift", (*self.lift, self.start[0])), ("cant", self.cant)):
            for angle in angles:
                require_between(f"wanted {name}", angle, -60.0, 60.0, "deg")
        require_between("wanted cant", self.start[1], -60.0, 60.0, "deg")

    def error(self, lift: Any, cant: Any) -> NDArray[Any]:
        """Angle between the normals of a sole and of the nearest one wanted (rad).

        The nearest is the one whose lift and whose cant come nearest.
        """
        nearest_lift = clipped(lift, min(self.lift), max(self.lift))
        nearest_cant = clipped(cant, min(self.cant), max(self.cant))
        return np.asarray(angle_between_soles((lift, cant), (nearest_lift, nearest_cant)))

    def from_start(self, lift: Any, cant: Any) -> NDArray[Any]:
        """Angle between the normals of a sole and of the one to prefer (rad)."""
        return np.asarray(angle_between_soles((lift, cant), self.start))


def wanted_exactly(lift: float, cant: float) -> Wanted:
    """One lift and cant and no other (rad, rad)."""
    return Wanted((lift, lift), (cant, cant), (lift, cant))


def wanted_by(foot: FootFit) -> Wanted:
    """The bands between the least and the full lift and cant of a fit, single values.

    Raises:
        ValueError: the fit has no answer.
    """
    return Wanted(
        (float(foot.least_lift), float(foot.full_lift)),
        (float(foot.least_cant), float(foot.full_cant)),
        (float(foot.start_lift), float(foot.start_cant)),
    )


@dataclass(frozen=True, eq=False, slots=True)
class Combination:
    """Parts for both feet.

    Attributes:
        stance: the stance on them.
        front: what stands under the front foot.
        rear: what stands under the rear foot.
        errors: angle between the normals of what is built and what is wanted,
            front and rear (rad).
        off_plane: largest off-plane angle of the front and of the rear leg over
            the riding range, whatever its sign (rad); nan where no posture settles.
    """

    stance: Stance
    front: Built
    rear: Built
    errors: tuple[float, float]
    off_plane: tuple[float, float]

    @property
    def error(self) -> float:
        """The larger of the two errors (rad)."""
        return max(self.errors)


def ranked_combinations(
    setup: PostureInputs,
    over: RidingRange,
    parts: PartsList,
    wanted: tuple[Wanted, Wanted],
    most: int = BEST,
) -> tuple[Combination, ...]:
    """The choices of parts that come nearest to what both feet want, best first.

    Args:
        setup: the rider in a stance, single values all; its lifts and cants do not matter.
        over: the riding range.
        parts: what there is to build from.
        wanted: what the front and the rear foot want.
        most: how many combinations to list.

    Returns:
        At least one: standing flat needs no parts.

    Raises:
        ValueError: the parts can be stacked in too many ways.
    """
    stacks = stacks_of(parts)
    feet = tuple(
        _Foot(stacks, float(mount.angle), side, wish)
        for mount, side, wish in zip(
            (setup.stance.front, setup.stance.rear), (FRONT, REAR), wanted, strict=True
        )
    )
    front, rear = (which[:most] for which in _ranked_pairs(stacks, *feet))
    stances = replace(setup.stance, front=feet[0].mounts(front), rear=feet[1].mounts(rear))
    points = points_of(setup.crouch, over)
    off_plane = worst_over(setup.body, setup.boots, stances, points).off_plane
    return tuple(
        _combination(setup.stance, feet, pair, (angles[0], angles[1]))
        for pair, angles in zip(
            zip(front.tolist(), rear.tolist(), strict=True), off_plane.T.tolist(), strict=True
        )
    )


class _Foot:
    """One foot on every stack."""

    def __init__(self, stacks: Stacks, angle: float, side: float, wanted: Wanted) -> None:
        self._stacks, self._angle, self._side = stacks, angle, side
        self._soles = stacks.soles(angle, side)
        self.error = wanted.error(*self._soles)
        self.best = _best_of_each_choice(stacks, self.error, wanted.from_start(*self._soles))

    def mounts(self, which: NDArray[Any]) -> Mount:
        """The mounts on some of the stacks."""
        return Mount(self._angle, self._soles[0][which], self._soles[1][which])

    def built(self, which: int) -> Built:
        """What stands under the foot on one of the stacks."""
        return self._stacks.built(which, self._angle, self._side)


def _best_of_each_choice(
    stacks: Stacks, error: NDArray[Any], from_start: NDArray[Any]
) -> NDArray[Any]:
    """The best stack of every choice of parts, by its number."""
    choice = row_keys(stacks.used)
    by_error = np.lexsort((from_start, np.floor(error / ALIKE), choice))
    _, first = np.unique(choice[by_error], return_index=True)
    return np.asarray(by_error[first])


def _ranked_pairs(
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
    order = np.lexsort((both, larger, height, size, np.floor(larger / ALIKE)))
    return front[order], rear[order]


def _combination(
    stance: Stance,
    feet: tuple[_Foot, ...],
    pair: tuple[int, int],
    off_plane: tuple[float, float],
) -> Combination:
    front, rear = (foot.built(which) for foot, which in zip(feet, pair, strict=True))
    on_both = replace(
        stance,
        front=replace(stance.front, lift=front.lift, cant=front.cant),
        rear=replace(stance.rear, lift=rear.lift, cant=rear.cant),
    )
    errors = float(feet[0].error[pair[0]]), float(feet[1].error[pair[1]])
    return Combination(on_both, front, rear, errors, off_plane)
