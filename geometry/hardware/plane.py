"""Points and sides in a plane, and whether an outline crosses itself."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import TypeAlias, overload

from geometry.elementary import Real

Spot: TypeAlias = tuple[float, float]
"""A point in plan: ahead along the foot, and out to the little-toe side (mm)."""


def side(a: Spot, b: Spot, c: Spot) -> float:
    """Positive where c lies left of the way from a to b."""
    return crossed(minus(b, a), minus(c, a))


def minus(a: Spot, b: Spot) -> Spot:
    """``a - b``."""
    return a[0] - b[0], a[1] - b[1]


def dot(a: Spot, b: Spot) -> float:
    """Scalar product."""
    return a[0] * b[0] + a[1] * b[1]


@overload
def crossed(a: Spot, b: Spot) -> float: ...
@overload
def crossed(a: tuple[Real, Real], b: tuple[Real, Real]) -> Real: ...
def crossed(a: tuple[Real, Real], b: tuple[Real, Real]) -> Real:
    """Vector product: positive where b lies left of a."""
    return a[0] * b[1] - a[1] * b[0]


def unit(a: Spot) -> Spot:
    """The direction of a, with length one."""
    size = math.hypot(*a)
    return a[0] / size, a[1] / size


def threes(points: Sequence[Spot]) -> Iterator[tuple[Spot, Spot, Spot]]:
    """Every corner between its two neighbours."""
    return zip((points[-1], *points[:-1]), points, (*points[1:], points[0]), strict=True)


def require_simple(points: Sequence[Spot], name: str) -> None:
    """Refuse an outline that meets itself.

    Args:
        points: its corners, in order.
        name: what it is, in words.

    Raises:
        ValueError: names the corner at which it goes wrong.
    """
    sides = list(zip(points, (*points[1:], points[0]), strict=True))
    for i, (start, end) in enumerate(sides):
        if math.dist(start, end) < 1e-6:
            raise ValueError(f"corner {i + 1} of {name} is given twice")
    for i, (start, end) in enumerate(sides):
        for other in sides[i + 2 : len(sides) - (i == 0)]:
            if _meet(start, end, *other):
                raise ValueError(f"the side after corner {i + 1} of {name} meets another")
    for i, (before, at, after) in enumerate(threes(points)):
        back, on = unit(minus(before, at)), unit(minus(after, at))
        if dot(back, on) > 1.0 - 1e-9:
            raise ValueError(f"{name} doubles back on itself at corner {i + 1}")


def _meet(a: Spot, b: Spot, c: Spot, d: Spot) -> bool:
    """Whether the sides a-b and c-d have a point in common."""
    if min(_spread(a, b, c, d, axis) for axis in (0, 1)) < 0.0:
        return False
    across = side(a, b, c) * side(a, b, d)
    return across <= 0.0 and side(c, d, a) * side(c, d, b) <= 0.0


def _spread(a: Spot, b: Spot, c: Spot, d: Spot, axis: int) -> float:
    """How far the two sides overlap along one axis; negative for a gap."""
    top = min(max(a[axis], b[axis]), max(c[axis], d[axis]))
    return top - max(min(a[axis], b[axis]), min(c[axis], d[axis]))
