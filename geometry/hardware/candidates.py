"""The stances and stacks of parts that a rider can reach."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from geometry.checks import require_between
from geometry.hardware.parts import PartsList, angle_between_soles
from geometry.hardware.stacks import (
    Built,
    Stacks,
    pairs_allowed,
    sharing_allowed,
    simplest,
    stacks_of,
)
from geometry.reasons import Amount, Name, Span, impossible
from geometry.stance import FRONT, REAR, Mount, Stance

MOST_CANDIDATES = 50_000_000
"""Candidates that are gone through, in a minute or so; more are refused."""
FEW_ENOUGH = 1_500_000
"""Candidates that are gone through in some seconds; if there are more, soles are thinned."""
APARTS = tuple(math.radians(cell) for cell in (0.0, 0.25, 0.5, 1.0, 2.0))
"""How far apart soles may be thinned (rad), least first; 0 keeps all."""
FINE = APARTS[1]
"""Soles nearer than this are alike to anybody (rad): half the finest step shown."""
AT_ONCE = 16_384
"""Candidates, or soles, in one go: as many as stay in the processor's cache."""

TOGETHER = 32
"""Stances whose answers are found in one go, at most: so that progress moves."""


@dataclass(frozen=True, slots=True)
class StanceLimits:
    """What the rider is ready to stand in: least and most of each.

    Attributes:
        front_angles: binding angle of the front foot (rad).
        rear_angles: binding angle of the rear foot (rad).
        lengths: stance length (mm).
        splay: front less rear binding angle (rad).

    Raises:
        ValueError: a value is outside its possible range, or a most is below its least.
    """

    front_angles: tuple[float, float]
    rear_angles: tuple[float, float]
    lengths: tuple[float, float]
    splay: tuple[float, float] = (-math.pi, math.pi)

    def __post_init__(self) -> None:
        _require_span("front binding angle", self.front_angles, -180.0, 180.0, "deg")
        _require_span("rear binding angle", self.rear_angles, -180.0, 180.0, "deg")
        _require_span("stance length", self.lengths, 0.0, 2000.0, "mm")
        _require_span("splay", self.splay, -360.0, 360.0, "deg")


@dataclass(frozen=True, eq=False, slots=True)
class Candidates:
    """Stances, each with every pair of stacks that the parts suffice for.

    Attributes:
        front_angles: binding angle of the front foot in each stance (rad), shape (n,).
        rear_angles: of the rear foot.
        lengths: stance length (mm), shape (n,).
        across: spacing of the binding centres across the board, the same for all (mm).
        stacks: the stacks, for either foot.
        front_stacks: index of the front foot's stack in each pair, shape (pairs,).
        rear_stacks: of the rear foot's.
        apart: how far apart the soles were thinned (rad); 0 where all are there.
        fine: the stacks, thinned finely at most.
    """

    front_angles: NDArray[Any]
    rear_angles: NDArray[Any]
    lengths: NDArray[Any]
    across: float
    stacks: Stacks
    front_stacks: NDArray[Any]
    rear_stacks: NDArray[Any]
    apart: float
    fine: Stacks

    def __len__(self) -> int:
        return len(self.lengths) * len(self.front_stacks)

    @property
    def size(self) -> NDArray[Any]:
        """Parts under both feet, shape (pairs,)."""
        size = self.stacks.size
        return np.asarray(size[self.front_stacks] + size[self.rear_stacks])

    @property
    def height(self) -> NDArray[Any]:
        """What the parts under the two feet add up to (mm), shape (pairs,)."""
        height = self.stacks.height
        return np.asarray(height[self.front_stacks] + height[self.rear_stacks])

    def groups(self) -> Iterator[NDArray[Any]]:
        """Numbers of the stances, in groups of :data:`AT_ONCE` soles at most or so."""
        many = len(self.lengths)
        each = max(min(AT_ONCE // (2 * len(self.stacks)), TOGETHER), 1)
        for start in range(0, many, each):
            yield np.arange(start, min(start + each, many))

    def batches(self, group: int) -> Iterator[tuple[slice, slice]]:
        """Stances of a group of some size, and pairs: :data:`AT_ONCE` candidates or so."""
        pairs = len(self.front_stacks)
        rows, columns = max(AT_ONCE // pairs, 1), min(AT_ONCE, pairs)
        for row in range(0, group, rows):
            for column in range(0, pairs, columns):
                yield slice(row, row + rows), slice(column, column + columns)

    def soled(self, which: NDArray[Any]) -> Stance:
        """Some stances with every sole there is: angles (n, 1), lifts and cants (n, stacks)."""
        front, rear = self.front_angles[which], self.rear_angles[which]
        return Stance(
            Mount(front[:, np.newaxis], *self.stacks.soles(front, FRONT)),
            Mount(rear[:, np.newaxis], *self.stacks.soles(rear, REAR)),
            self.lengths[which][:, np.newaxis],
            self.across,
        )

    def bare_of(self, which: NDArray[Any]) -> Stance:
        """Some of the stances on flat mounts, by their numbers."""
        front, rear = self.front_angles[which], self.rear_angles[which]
        return Stance(Mount(front), Mount(rear), self.lengths[which], self.across)

    def stance(self, stance: int, pair: int) -> tuple[Stance, tuple[Built, Built]]:
        """One candidate, and what stands under its front and its rear foot."""
        front, rear = float(self.front_angles[stance]), float(self.rear_angles[stance])
        under_front = self.stacks.built(int(self.front_stacks[pair]), front, FRONT)
        under_rear = self.stacks.built(int(self.rear_stacks[pair]), rear, REAR)
        reached = Stance(
            Mount(front, under_front.lift, under_front.cant),
            Mount(rear, under_rear.lift, under_rear.cant),
            float(self.lengths[stance]),
            self.across,
        )
        return reached, (under_front, under_rear)


def candidates_within(
    limits: StanceLimits, parts: PartsList, across: float = 0.0, apart: float | None = None
) -> Candidates:
    """Every stance within the limits, each with every pair of stacks.

    Args:
        limits: what the rider is ready to stand in.
        parts: what there is to build it from.
        across: spacing of the binding centres across the board (mm).
        apart: stacks whose soles differ by less in lift and cant (rad) than a
            simpler one's are left out; 0 keeps all, None as many as can be
            gone through in some seconds.

    Raises:
        ValueError: no stance lies within the limits, or too many candidates do.
    """
    front, rear = _pairs_of_angles(limits, parts.angle_step)
    lengths = np.array(_lengths(limits, parts))
    each = len(lengths)
    stances = np.repeat(front, each), np.repeat(rear, each), np.tile(lengths, len(front))
    return _candidates(stances, parts, across, apart)


def candidates_at(stance: Stance, parts: PartsList, apart: float | None = None) -> Candidates:
    """One stance, whatever its mounts slope now, with every pair of stacks.

    Raises:
        ValueError: there are too many candidates.
    """
    front, rear = np.atleast_1d(stance.front.angle), np.atleast_1d(stance.rear.angle)
    stances = front, rear, np.atleast_1d(stance.length)
    return _candidates(stances, parts, float(stance.across), apart)


def candidates_near(
    field: Candidates, stance: int, pair: int, *, same_parts: bool = False
) -> Candidates:
    """One of the stances, with the pairs of fine stacks whose soles are near those of one pair.

    Near are those in whose place thinning may have kept them.

    Args:
        field: what was thinned.
        stance: number of the stance.
        pair: number of the pair.
        same_parts: whether only stacks of the pair's own parts are meant.
    """
    which = np.array([stance])
    soled = field.soled(which)
    fine = replace(field, stacks=field.fine).soled(which)
    front = _near(fine.front, soled.front, int(field.front_stacks[pair]), field.apart)
    rear = _near(fine.rear, soled.rear, int(field.rear_stacks[pair]), field.apart)
    if same_parts:
        front = _of_parts(field, front, field.front_stacks[pair])
        rear = _of_parts(field, rear, field.rear_stacks[pair])
    i, j = np.nonzero(sharing_allowed(field.fine.only(front), field.fine.only(rear)))
    return replace(
        field,
        front_angles=field.front_angles[which],
        rear_angles=field.rear_angles[which],
        lengths=field.lengths[which],
        stacks=field.fine,
        front_stacks=front[i],
        rear_stacks=rear[j],
        apart=FINE,
    )


def _near(fine: Mount, thinned: Mount, stack: int, apart: float) -> NDArray[Any]:
    """Numbers of the fine soles within reach of one of the thinned ones."""
    lift, cant = (np.asarray(each)[0] for each in (fine.lift, fine.cant))
    own = (np.asarray(each)[0, stack] for each in (thinned.lift, thinned.cant))
    return np.flatnonzero(angle_between_soles((lift, cant), tuple(own)) <= 1.5 * apart)


def _of_parts(field: Candidates, fine: NDArray[Any], stack: int) -> NDArray[Any]:
    """Those of some fine stacks that are made of the same parts as one of the thinned ones."""
    same = (field.fine.used[fine] == field.stacks.used[stack]).all(axis=1)
    return np.asarray(fine[same])


def _candidates(
    stances: tuple[NDArray[Any], NDArray[Any], NDArray[Any]],
    parts: PartsList,
    across: float,
    apart: float | None,
) -> Candidates:
    every = stacks_of(parts)
    for each in APARTS if apart is None else (apart,):
        stacks = simplest(every, each)
        many = len(stances[0]) * pairs_allowed(stacks)
        if many <= FEW_ENOUGH:
            break
    if many > MOST_CANDIDATES:
        raise impossible("too many candidates", many=many, enough=MOST_CANDIDATES)
    front, rear = np.nonzero(sharing_allowed(stacks, stacks))
    fine = simplest(every, min(each, FINE))
    front_angles, rear_angles, lengths = stances
    return Candidates(front_angles, rear_angles, lengths, across, stacks, front, rear, each, fine)


def _pairs_of_angles(limits: StanceLimits, step: float) -> tuple[NDArray[Any], NDArray[Any]]:
    """Front and rear binding angle of every pair within the limits (rad)."""
    front, rear = np.meshgrid(
        _multiples(step, limits.front_angles), _multiples(step, limits.rear_angles), indexing="ij"
    )
    splay, close = front - rear, 1e-9
    allowed = (splay >= limits.splay[0] - close) & (splay <= limits.splay[1] + close)
    if not allowed.any():
        raise impossible("no pair of angles", step=Amount(step, "°"))
    return front[allowed], rear[allowed]


def _multiples(step: float, span: tuple[float, float]) -> NDArray[Any]:
    """The multiples of a step within a span."""
    close = 1e-9
    return np.arange(math.ceil(span[0] / step - close), math.floor(span[1] / step + close) + 1) * (
        step
    )


def _lengths(limits: StanceLimits, parts: PartsList) -> list[float]:
    """The stance lengths that both the limits and the inserts allow (mm)."""
    least, most = limits.lengths
    allowed = [length for length in parts.inserts.lengths if least - 1e-9 <= length <= most + 1e-9]
    if not allowed:
        inserts = parts.inserts
        raise impossible(
            "no stance length",
            range=Span(least, most, "mm"),
            allowed=Span(inserts.shortest, inserts.lengths[-1], "mm"),
            grid=Amount(inserts.grid, "size"),
        )
    return allowed


def _require_span(name: str, span: tuple[float, float], low: float, high: float, unit: str) -> None:
    for value in span:
        require_between(name, value, low, high, unit)
    if span[0] > span[1]:
        least, most = (Amount(end, unit) for end in span)
        raise impossible("least above most", name=Name(name), least=least, most=most)
