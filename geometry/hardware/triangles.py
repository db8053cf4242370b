"""Triangles that fill a polygon with holes: ears cut off, then diagonals turned.

Holes are first joined to the outline by a bridge each, walked there and back,
which leaves one ring; then corners whose triangle holds no other corner are cut
off one after the other.  That may leave triangles as thin as a line, so each
side between two triangles is turned into the other diagonal where that makes
the sharpest angles less sharp (Lawson's flips, which end in the constrained
Delaunay triangulation).  Every corner given is used and none is added, so that
neighbouring surfaces that share a ring fit without gaps.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from geometry.hardware.plane import Spot, crossed, dot, minus, side


def filled(outline: NDArray[Any], holes: Sequence[NDArray[Any]]) -> NDArray[Any]:
    """Triangles that fill an outline around its holes.

    Args:
        outline: corners, anticlockwise, shape (n, 2).
        holes: corners of each hole, clockwise, shapes (m, 2); inside the
            outline, apart from it and from each other.

    Returns:
        Indices into the corners of outline and holes, one after the other,
        shape (t, 3), each triangle anticlockwise.

    Raises:
        ValueError: the rings cross, or go the wrong way round.
    """
    points = np.concatenate((outline, *holes))
    ring = np.arange(len(outline))
    rest = _numbered(len(outline), holes)
    # From the right: nothing then stands between a hole's rightmost corner and
    # the ring but what is in the ring already.
    rest.sort(key=lambda hole: float(points[hole, 0].max()), reverse=True)
    while rest:
        hole = rest.pop(0)
        ring = _joined(points, ring, hole, rest)
    return _plumper(points, _ears(points, ring))


def _numbered(first: int, holes: Sequence[NDArray[Any]]) -> list[NDArray[Any]]:
    """The indices of each hole's corners, counting on from the outline's."""
    numbers = []
    for hole in holes:
        numbers.append(np.arange(first, first + len(hole)))
        first += len(hole)
    return numbers


def _joined(
    points: NDArray[Any], ring: NDArray[Any], hole: NDArray[Any], rest: Sequence[NDArray[Any]]
) -> NDArray[Any]:
    """The ring with one hole bridged into it at the nearest corner in sight."""
    start = int(np.argmax(points[hole, 0]))
    tip = points[hole[start]]
    walls = [(each, np.roll(each, -1)) for each in (ring, hole, *rest)]
    first, last = (points[np.concatenate(ends)] for ends in zip(*walls, strict=True))
    for at in np.argsort(np.hypot(*(points[ring] - tip).T)):
        corner = points[ring[at]]
        if _opens(points[np.take(ring, (at - 1, at, at + 1), mode="wrap")], tip) and not _blocked(
            corner, tip, first, last
        ):
            turned = np.roll(hole, -start)
            bridge = (ring[: at + 1], turned, turned[:1], ring[at:])
            return np.concatenate(bridge)
    raise ValueError("a hole has no way to the outline: they cross")


def _opens(corner: NDArray[Any], towards: NDArray[Any]) -> bool:
    """Whether a corner (before, at, after) of the ring opens towards a point."""
    before, at, after = corner
    from_before, to_after = _side(before, at, towards) > 0.0, _side(at, after, towards) > 0.0
    if _side(before, at, after) > 0.0:
        return bool(from_before and to_after)
    return bool(from_before or to_after)


def _blocked(
    start: NDArray[Any], end: NDArray[Any], first: NDArray[Any], last: NDArray[Any]
) -> bool:
    """Whether any of many walls meets the way from one corner to another."""
    touching = [(place == other).all(axis=1) for place in (first, last) for other in (start, end)]
    apart = _side(start, end, first) * _side(start, end, last) > 0.0
    apart |= _side(first, last, start) * _side(first, last, end) > 0.0
    apart |= np.logical_or.reduce(touching)
    return not bool(apart.all())


def _ears(points: NDArray[Any], ring: NDArray[Any]) -> NDArray[Any]:
    """The triangles of one ring, cut off ear by ear."""
    triangles, at = [], 0
    while len(ring) > 3:
        at = _next_ear(points, ring, at)
        triangles.append(np.take(ring, (at - 1, at, at + 1), mode="wrap"))
        ring = np.delete(ring, at)
        # Pass on to the next corner but one, lest all triangles meet in one corner.
        at += 1
    return np.array([*triangles, ring])


def _next_ear(points: NDArray[Any], ring: NDArray[Any], start: int) -> int:
    """The first corner from a place in the ring on whose triangle can be cut off."""
    spots = points[ring]
    before, after = np.roll(spots, 1, axis=0), np.roll(spots, -1, axis=0)
    outward = _side(before, spots, after) > 0.0
    # What lies in a triangle of the ring, or on its last side, has a hollow corner there.
    hollow = spots[~outward]
    convex = np.flatnonzero(outward)
    for at in np.roll(convex, -int(np.searchsorted(convex, start))):
        if not _holds(before[at], spots[at], after[at], hollow):
            return int(at)
    raise ValueError("the outline crosses itself or one of its holes")


def _holds(a: NDArray[Any], b: NDArray[Any], c: NDArray[Any], others: NDArray[Any]) -> bool:
    """Whether a triangle holds any of many points, its own corners aside."""
    inside = (_side(a, b, others) >= 0.0) & (_side(b, c, others) >= 0.0)
    inside &= _side(c, a, others) >= 0.0
    if not inside.any():
        return False
    # Its corners come up again among the others where a bridge starts or ends.
    found = others[inside]
    own = np.logical_or.reduce([(found == corner).all(axis=1) for corner in (a, b, c)])
    return not bool(own.all())


def _plumper(points: NDArray[Any], triangles: NDArray[Any]) -> NDArray[Any]:
    """The triangles with their common sides turned as long as that helps."""
    plan: list[tuple[float, float]] = [(x, y) for x, y in points.tolist()]
    tip = {
        (a, b): c for p, q, r in triangles.tolist() for a, b, c in ((p, q, r), (q, r, p), (r, p, q))
    }
    waiting = [each for each in tip if each[::-1] in tip]
    while waiting:
        a, b = waiting.pop()
        if (a, b) not in tip or (b, a) not in tip:
            continue
        c, d = tip[a, b], tip[b, a]
        if _helps(plan[a], plan[b], plan[c], plan[d]):
            del tip[a, b], tip[b, a]
            for p, q, r in ((c, a, d), (d, b, c)):
                tip[p, q], tip[q, r], tip[r, p] = r, p, q
            waiting += [(c, a), (a, d), (d, b), (b, c)]
    # Each triangle has three sides; it is told from the one with the least start.
    return np.array([(a, b, c) for (a, b), c in tip.items() if a < b and a < c])


def _helps(a: Spot, b: Spot, c: Spot, d: Spot) -> bool:
    """Whether c-d is the better diagonal of the four corners a, d, b, c than a-b.

    It is where the angles at c and d make more than a straight angle together,
    and lies between them where both new triangles turn to the left.
    """
    ca, cb, da, db = minus(a, c), minus(b, c), minus(a, d), minus(b, d)
    sine = crossed(ca, cb) * dot(da, db) + dot(ca, cb) * crossed(db, da)
    scale = math.sqrt(dot(ca, ca) * dot(cb, cb) * dot(da, da) * dot(db, db))
    return sine < -1e-9 * scale and side(c, a, d) > 0.0 and side(d, b, c) > 0.0


def _side(a: NDArray[Any], b: NDArray[Any], c: NDArray[Any]) -> NDArray[Any]:
    """Twice the area of the triangles a, b, c; positive where they go anticlockwise."""
    ab, ac = b - a, c - a
    area: NDArray[Any] = ab[..., 0] * ac[..., 1] - ab[..., 1] * ac[..., 0]
    return area
