"""Every way in which the parts at hand can be stacked under one foot."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from geometry.hardware.parts import (
    Kind,
    Part,
    PartsList,
    bearing_from_toe,
    bearing_on_board,
    stack_lift_and_cant,
)
from geometry.reasons import impossible
from geometry.rows import row_keys

STEEPEST_STACK = math.radians(45.0)
"""Slopes that add up to more are not built (rad)."""
MOST_STACKS = 1_000_000
"""Stacks that are gone through; more are refused."""
NONE = -1
"""Stands in :attr:`Stacks.kinds` where there is no part."""


@dataclass(frozen=True, slots=True)
class Setting:
    """One part as it is to be set.

    Attributes:
        part: which part.
        bearing: of its high side, from the toe, positive to the little-toe side (rad).
        on_board: the same from straight across the board, positive to the nose (rad).
    """

    part: Part
    bearing: float
    on_board: float


@dataclass(frozen=True, slots=True)
class Built:
    """What stands under one foot.

    Attributes:
        settings: the parts, the lowest first; none for a flat sole.
        lift: lift of the sole (rad).
        cant: cant of the sole (rad).
        height: by which the middle of the foot is raised (mm).
    """

    settings: tuple[Setting, ...]
    lift: float
    cant: float
    height: float


def after_turning(
    built: Built, angle: Any, side: float, *, turns_with_binding: bool
) -> tuple[Any, Any]:
    """Lift and cant of a sole after its binding alone has been turned (rad, rad).

    Fixed slopes turn with the foot.  A turnable part turns along with the binding
    too, so that nothing changes for the foot, or keeps its bearing on the board.

    Args:
        built: what stands under the foot.
        angle: the new binding angle (rad), or an array of them.
        side: +1 for the front foot, -1 for the rear one.
        turns_with_binding: whether turnable parts turn along.
    """
    bearings = [
        setting.bearing
        if turns_with_binding or setting.part.kind is not Kind.TURNABLE
        else bearing_from_toe(setting.on_board, angle, side)
        for setting in built.settings
    ]
    lift, cant = stack_lift_and_cant([setting.part.slope for setting in built.settings], bearings)
    return lift + 0.0 * angle, cant + 0.0 * angle


@dataclass(frozen=True, eq=False, slots=True)
class Stacks:
    """Stacks of parts, those of fewest parts first; the very first one is no part at all.

    Attributes:
        parts: what they are made of.
        kinds: index of each part in the list, the lowest first, shape (n, largest
            stack); :data:`NONE` where there is none.
        bearings: of their high sides, the same shape: from the toe, or from
            straight across the board for a part that keeps its bearing there (rad).
        used: how many of each part, shape (n, parts).
        height: by which they raise the middle of the foot (mm), shape (n,).
    """

    parts: PartsList
    kinds: NDArray[Any]
    bearings: NDArray[Any]
    used: NDArray[Any]
    height: NDArray[Any]

    def __len__(self) -> int:
        return len(self.kinds)

    @property
    def size(self) -> NDArray[Any]:
        """How many parts, shape (n,)."""
        return np.asarray(self.used.sum(axis=1))

    def only(self, which: NDArray[Any]) -> Stacks:
        """Some of the stacks, by their indices."""
        return Stacks(
            self.parts,
            self.kinds[which],
            self.bearings[which],
            self.used[which],
            self.height[which],
        )

    def from_toe(self, angle: Any, side: float) -> NDArray[Any]:
        """Bearings of the high sides from the toe (rad), for a foot and its binding angle.

        Args:
            angle: binding angle (rad), or an array of them.
            side: +1 for the front foot, -1 for the rear one.

        Returns:
            Shape (..., n, largest stack), with the shape of the angle before it.
        """
        angles = np.asarray(angle)[..., np.newaxis, np.newaxis]
        turned: NDArray[Any] = bearing_from_toe(self.bearings, angles, side)
        return np.where(self._stays()[self.kinds], turned, self.bearings)

    def soles(self, angle: Any, side: float) -> tuple[NDArray[Any], NDArray[Any]]:
        """Lift and cant on each stack (rad, rad), each of shape (..., n).

        Arguments as in :meth:`from_toe`.
        """
        bearings = self.from_toe(angle, side)
        slopes = np.array([*(part.slope for part in self.parts.parts), 0.0])[self.kinds]
        lift, cant = stack_lift_and_cant(
            list(np.moveaxis(slopes, -1, 0)), list(np.moveaxis(bearings, -1, 0))
        )
        shape = bearings.shape[:-1]
        return np.broadcast_to(lift, shape) + 0.0, np.broadcast_to(cant, shape) + 0.0

    def built(self, index: int, angle: float, side: float) -> Built:
        """One of the stacks under a foot."""
        one = self.only(np.array([index]))
        bearings = one.from_toe(angle, side)[0].tolist()
        settings = tuple(
            Setting(self.parts.parts[kind], bearing, bearing_on_board(bearing, angle, side))
            for kind, bearing in zip(one.kinds[0], bearings, strict=True)
            if kind != NONE
        )
        lift, cant = one.soles(angle, side)
        return Built(settings, float(lift[0]), float(cant[0]), float(one.height[0]))

    def _stays(self) -> NDArray[Any]:
        """Which parts keep their bearing on the board; the last element stands for no part."""
        keeps = not self.parts.turns_with_binding
        return np.array([*(keeps and p.kind is Kind.TURNABLE for p in self.parts.parts), False])


def stacks_of(parts: PartsList) -> Stacks:
    """Every stack that the parts allow under one foot.

    Raises:
        ValueError: there are more than :data:`MOST_STACKS`.
    """
    orders, many = [], 0
    for order in _orders(parts):
        orders.append(order)
        many += math.prod(len(parts.parts[kind].bearings) for kind in order)
        if many > MOST_STACKS:
            raise impossible("too many stacks", enough=MOST_STACKS)
    each = [_stacks_in_order(parts, order) for order in orders]
    kinds, bearings = (np.concatenate(columns) for columns in zip(*each, strict=True))
    used = np.stack([(kinds == kind).sum(axis=1) for kind in range(len(parts.parts))] or [[0]], -1)
    thickness = np.array([*(part.thickness for part in parts.parts), 0.0])
    return Stacks(parts, kinds, bearings, used, thickness[kinds].sum(axis=1))


def simplest(stacks: Stacks, apart: float) -> Stacks:
    """The stacks without those whose soles hardly differ from a simpler one's.

    Soles are sorted into cells of lift and cant; each cell keeps the stack of
    fewest parts, the lowest of these.  A part that keeps its bearing on the board
    takes the sole along as the binding turns, so there the soles must agree for
    two opposite binding angles, which makes them agree for all.

    Args:
        stacks: the stacks.
        apart: size of a cell (rad); 0 keeps them all.
    """
    if apart <= 0.0:
        return stacks
    lifts, cants = stacks.soles(np.array([0.0, math.pi]), 1.0)
    cells = np.rint(np.concatenate((lifts, cants)).T / apart)
    by_simplicity = np.lexsort((stacks.height, stacks.size))
    _, first = np.unique(row_keys(cells[by_simplicity]), return_index=True)
    return stacks.only(by_simplicity[np.sort(first)])


def sharing_allowed(stacks: Stacks, other: Stacks) -> NDArray[Any]:
    """Whether the parts at hand suffice for one stack under each foot, shape (n, m)."""
    allowed = np.ones((len(stacks), len(other)), dtype=bool)
    for kind, part in enumerate(stacks.parts.parts):
        allowed &= stacks.used[:, kind, np.newaxis] + other.used[:, kind] <= part.count
    return allowed


def pairs_allowed(stacks: Stacks) -> int:
    """How many pairs of stacks, one under each foot, the parts at hand suffice for."""
    keys = row_keys(stacks.used)
    _, first, many = np.unique(keys, return_index=True, return_counts=True)
    choice = stacks.only(first)
    return int(many @ sharing_allowed(choice, choice) @ many)


def _orders(parts: PartsList) -> Iterator[tuple[int, ...]]:
    """Indices of the parts in every stack that can be built, the lowest part first."""
    orders: list[tuple[int, ...]] = [()]
    yield ()
    for _ in range(parts.largest_stack):
        # What cannot be built gets no better with another part on top.
        higher = ((*order, kind) for order in orders for kind in range(len(parts.parts)))
        orders = []
        for order in higher:
            if _can_be_built(parts, order):
                orders.append(order)
                yield order


def _can_be_built(parts: PartsList, order: tuple[int, ...]) -> bool:
    """Whether there are enough of the parts, and their slopes do not add up to too much."""
    slopes = sum(parts.parts[kind].slope for kind in order)
    enough = all(parts.parts[kind].count >= n for kind, n in Counter(order).items())
    return enough and slopes <= STEEPEST_STACK


def _stacks_in_order(parts: PartsList, order: tuple[int, ...]) -> tuple[NDArray[Any], NDArray[Any]]:
    """Kinds and bearings of all stacks of some parts in one order."""
    grids = np.meshgrid(*(parts.parts[kind].bearings for kind in order), indexing="ij")
    many = grids[0].size if grids else 1
    kinds = np.full((many, parts.largest_stack), NONE)
    bearings = np.zeros((many, parts.largest_stack))
    for place, (kind, grid) in enumerate(zip(order, grids, strict=True)):
        kinds[:, place], bearings[:, place] = kind, grid.ravel()
    return kinds, bearings
