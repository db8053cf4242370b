"""Flat discs beside an edge: how far they reach beyond it, and when they touch the snow.

A rounded sole is the hull of four discs, one in each corner, and whatever is
farthest out or lowest on it lies on one of them.  So both questions have an
answer in closed form, whatever the tilt of the sole.
"""

from __future__ import annotations

from typing import NamedTuple, TypeAlias

from geometry.elementary import Real, Truth, atan2, cos, ratio, sin, sqrt, where
from geometry.hardware.plane import crossed
from geometry.vectors import Vector, dot, minus, plus, scaled

Seen: TypeAlias = tuple[Real, Real]
"""A vector seen along the edge: its part out across it, and its part up."""


class Disc(NamedTuple):
    """A flat disc in space.

    Attributes:
        centre: its centre (mm).
        ahead: one radius, as a vector (mm).
        outer: the radius at a right angle to it.
    """

    centre: Vector
    ahead: Vector
    outer: Vector


class Edge(NamedTuple):
    """A straight edge about which a board tips.

    Attributes:
        point: a point of it (mm).
        out: level unit vector square to it, away from the board.
    """

    point: Vector
    out: Vector


class Extreme(NamedTuple):
    """The outermost of some values, and the point that has it (mm)."""

    value: Real
    point: Vector


def picked(condition: Truth, yes: Extreme, no: Extreme) -> Extreme:
    """One extreme where a condition holds, the other elsewhere."""
    x, y, z = (where(condition, a, b) for a, b in zip(yes.point, no.point, strict=True))
    return Extreme(where(condition, yes.value, no.value), (x, y, z))


def farthest(disc: Disc, edge: Edge) -> Extreme:
    """How far a disc reaches beyond an edge (mm), negative when inside it."""
    ahead, outer = dot(disc.ahead, edge.out), dot(disc.outer, edge.out)
    reach = sqrt(ahead * ahead + outer * outer)
    # A disc of no size, or square to the way out, has its centre as far out as any point.
    share = where(reach > 0.0, ratio(1.0, reach), 0.0)
    tip = plus(scaled(disc.ahead, ahead * share), scaled(disc.outer, outer * share))
    beyond = dot(minus(disc.centre, edge.point), edge.out)
    return Extreme(beyond + reach, plus(disc.centre, tip))


def first_touch(disc: Disc, edge: Edge) -> Extreme:
    """How far a board tips about its edge until a disc touches the snow (rad).

    Snow is the plane that holds the edge; it lies against the board's base at
    angle 0.  Beyond a right angle the disc lies wholly inside the edge.  The
    answer is 0 where it touches with the board flat.

    Seen along the edge the disc is an ellipse, ``c + a cos t + b sin t``.  A
    line from the edge touches it where the point is in line with its own
    derivative: ``(c x b) cos t - (c x a) sin t = -(a x b)``.
    """
    centre = _seen(minus(disc.centre, edge.point), edge)
    a, b = _seen(disc.ahead, edge), _seen(disc.outer, edge)
    p, q, k = crossed(centre, b), crossed(centre, a), crossed(a, b)
    square = p * p + q * q
    middle, half = -atan2(q, p), atan2(sqrt(square - k * k), -k)
    one, other = (_at(disc, edge, middle + half), _at(disc, edge, middle - half))
    lower = picked(other.value < one.value, other, one)
    # No line from the edge touches a disc that surrounds it.
    flat = (k * k > square) | (lower.value < 0.0)
    return Extreme(where(flat, 0.0, lower.value), lower.point)


def _at(disc: Disc, edge: Edge, turn: Real) -> Extreme:
    """The point of a disc's rim at one angle, with its direction from the edge."""
    tip = plus(scaled(disc.ahead, cos(turn)), scaled(disc.outer, sin(turn)))
    point = plus(disc.centre, tip)
    across, up = _seen(minus(point, edge.point), edge)
    return Extreme(atan2(up, across), point)


def _seen(a: Vector, edge: Edge) -> Seen:
    return dot(a, edge.out), a[2]
