"""Outlines with rounded corners: exact area, exact moments, and points along them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from geometry.checks import require_between
from geometry.hardware.plane import Spot, crossed, dot, minus, require_simple, threes, unit
from geometry.reasons import Amount, impossible

FINE = 0.01
"""How far a polygon may stray from the arc that it stands for (mm)."""
_SHARP = 1e-6
"""Corners rounded by less than this are sharp (mm)."""
_LEVEL = 1e-9
"""Turns below this are no corner at all (rad)."""


class Corner(NamedTuple):
    """One corner of an outline, rounded.

    Attributes:
        vertex: where its two sides would meet.
        start: where the arc leaves the side before it.
        end: where the arc meets the side after it.
        centre: of the arc; the vertex itself where nothing is rounded.
        radius: of the arc (mm), 0 where nothing is rounded.
        turn: how far the outline turns here (rad), positive to the left.
    """

    vertex: Spot
    start: Spot
    end: Spot
    centre: Spot
    radius: float
    turn: float

    def at(self, share: float) -> Spot:
        """A point of the arc: 0 at its start, 1 at its end."""
        if self.radius == 0.0:
            return self.vertex
        x, y = self.start[0] - self.centre[0], self.start[1] - self.centre[1]
        c, s = math.cos(share * self.turn), math.sin(share * self.turn)
        return self.centre[0] + c * x - s * y, self.centre[1] + s * x + c * y


class Moments(NamedTuple):
    """Area (mm²) and its two first moments about the origin (mm³)."""

    area: float
    ahead: float
    outer: float


@dataclass(frozen=True, slots=True)
class Footprint:
    """A polygon with rounded corners, its corners in anticlockwise order.

    Attributes:
        points: the corners, ahead along the foot and out to the little-toe side
            (mm); turned round on the way in where they go clockwise.
        corner_radius: of every corner (mm).

    Raises:
        ValueError: fewer than three corners, a corner given twice, sides that
            cross, or a radius that its sides have no room for.
    """

    points: tuple[Spot, ...]
    corner_radius: float = 0.0

    def __post_init__(self) -> None:
        points = tuple((float(ahead), float(outer)) for ahead, outer in self.points)
        if len(points) < 3:
            raise ValueError(f"a footprint needs at least 3 corners; it has {len(points)}")
        for ahead, outer in points:
            require_between("corner of the footprint", ahead, -1000.0, 1000.0, "mm")
            require_between("corner of the footprint", outer, -1000.0, 1000.0, "mm")
        require_between("corner radius", float(self.corner_radius), 0.0, 1000.0, "mm")
        require_simple(points, "the footprint")
        if _polygon_moments(points).area < 0.0:
            points = points[::-1]
        object.__setattr__(self, "points", points)
        object.__setattr__(self, "corner_radius", float(self.corner_radius))
        _require_room(self)
        if self.corner_radius > 0.0 and any(corner.turn < 0.0 for corner in self.corners):
            require_simple([(x, y) for x, y in self.outline(0.5).tolist()], "the rounded footprint")

    @property
    def corners(self) -> tuple[Corner, ...]:
        """The corners with their arcs."""
        return _corners(self.points, self.corner_radius)

    @property
    def moments(self) -> Moments:
        """Exact area and first moments, arcs included."""
        total = _polygon_moments(self.points)
        for corner in self.corners:
            cut = _cut_off(corner)
            total = Moments(*(a - b for a, b in zip(total, cut, strict=True)))
        return total

    def outline(self, tolerance: float = FINE) -> NDArray[Any]:
        """Points along the outline, anticlockwise, shape (n, 2); the arcs inscribed."""
        spots: list[Spot] = []
        for corner in self.corners:
            steps = _arc_steps(corner.radius, abs(corner.turn), tolerance)
            spots += [corner.at(i / steps) for i in range(steps + 1)] if steps else [corner.vertex]
        # Where two arcs meet, the end of one is the start of the next.
        ways = zip(spots, spots[1:] + spots[:1], strict=True)
        return np.array([spot for spot, after in ways if math.dist(spot, after) > 1e-9])

    def lowest(self, gradient: Spot) -> float:
        """Smallest value, on the footprint, of a plane that is 0 at the origin; exact.

        Args:
            gradient: how the plane rises, ahead and to the outer side.
        """
        return _lowest(self, gradient)

    @property
    def bounds(self) -> tuple[Spot, Spot]:
        """The least and the largest place ahead and to the outer side (mm), exact."""
        least = self.lowest((1.0, 0.0)), self.lowest((0.0, 1.0))
        return least, (-self.lowest((-1.0, 0.0)), -self.lowest((0.0, -1.0)))


def rectangle(length: float, width: float, corner_radius: float = 0.0) -> Footprint:
    """A rectangle about the binding's centre, its length along the foot (mm).

    Raises:
        ValueError: a size is outside its possible range, or the radius is more
            than half of the smaller one.
    """
    require_between("length of the wedge", length, 1.0, 1000.0, "mm")
    require_between("width of the wedge", width, 1.0, 1000.0, "mm")
    most = 0.5 * min(length, width)
    if corner_radius > most * (1.0 + 1e-12):
        raise impossible(
            "corners too round",
            radius=Amount(corner_radius, "mm"),
            length=Amount(length, "mm", bare=True),
            width=Amount(width, "mm"),
            most=Amount(most, "mm", toward=-1),
        )
    a, o = 0.5 * length, 0.5 * width
    return Footprint(((a, o), (-a, o), (-a, -o), (a, -o)), corner_radius)


def circle(centre: Spot, radius: float, tolerance: float = FINE) -> NDArray[Any]:
    """A polygon around a circle, clockwise, shape (n, 2): a screw always fits into it."""
    # Counts in multiples of eight keep a point on each axis.
    count = max(24, 8 * math.ceil(_arc_steps(radius, 2.0 * math.pi, tolerance) / 8))
    turns = np.arange(count) * (-2.0 * math.pi / count)
    around = radius / math.cos(math.pi / count)
    return np.array(centre) + around * np.stack((np.cos(turns), np.sin(turns)), axis=-1)


def distance_inside(outline: NDArray[Any], spot: Spot) -> float:
    """Distance of a point from the nearest side of a polygon (mm), negative outside it."""
    start, end = outline, np.roll(outline, -1, axis=0)
    side, to = end - start, np.array(spot) - start
    share = np.clip((side * to).sum(axis=1) / (side * side).sum(axis=1), 0.0, 1.0)
    distance = float(np.hypot(*(to - share[:, None] * side).T).min())
    over = (start[:, 1] > spot[1]) != (end[:, 1] > spot[1])
    rise = np.where(over, side[:, 1], 1.0)
    crossing = start[:, 0] + (spot[1] - start[:, 1]) * side[:, 0] / rise
    inside = np.count_nonzero(over & (crossing > spot[0])) % 2 == 1
    return distance if inside else -distance


@lru_cache(maxsize=32)
def _corners(points: tuple[Spot, ...], radius: float) -> tuple[Corner, ...]:
    """The corners with their arcs; kept, since every height of a wedge asks for them."""
    return tuple(_rounded(*three, radius) for three in threes(points))


@lru_cache(maxsize=64)
def _lowest(footprint: Footprint, gradient: Spot) -> float:
    return min(dot(gradient, spot) for spot in _extremes(footprint, gradient))


def _extremes(footprint: Footprint, gradient: Spot) -> Iterator[Spot]:
    """Points among which a plane has its lowest one."""
    steep = math.hypot(*gradient)
    for corner in footprint.corners:
        yield from (corner.start, corner.end)
        if corner.radius > 0.0 and corner.turn > 0.0 and steep > 0.0:
            down = (-gradient[0] / steep, -gradient[1] / steep)
            first = minus(corner.start, corner.centre)
            last = minus(corner.end, corner.centre)
            if crossed(first, down) >= 0.0 and crossed(down, last) >= 0.0:
                x, y = corner.centre
                yield x + corner.radius * down[0], y + corner.radius * down[1]


def _rounded(before: Spot, vertex: Spot, after: Spot, radius: float) -> Corner:
    """A corner with the arc that touches both of its sides."""
    back, on = unit(minus(before, vertex)), unit(minus(after, vertex))
    turn = math.atan2(crossed((-back[0], -back[1]), on), -dot(back, on))
    if radius < _SHARP or abs(turn) < _LEVEL:
        return Corner(vertex, vertex, vertex, vertex, 0.0, turn)
    along = radius * math.tan(0.5 * abs(turn))
    to_centre = radius / math.cos(0.5 * turn)
    way = unit((back[0] + on[0], back[1] + on[1]))
    start, end, centre = (
        (vertex[0] + distance * u[0], vertex[1] + distance * u[1])
        for distance, u in ((along, back), (along, on), (to_centre, way))
    )
    return Corner(vertex, start, end, centre, radius, turn)


def _cut_off(corner: Corner) -> Moments:
    """What rounding takes off a corner; negative where it fills a hollow one.

    It is the kite of vertex, centre and the two ends of the arc, less the
    sector; both have their centroids on the bisector.
    """
    half, radius = 0.5 * abs(corner.turn), corner.radius
    if radius == 0.0:
        return Moments(0.0, 0.0, 0.0)
    along, to_centre = radius * math.tan(half), radius / math.cos(half)
    kite, sector = radius * along, radius * radius * half
    at_kite = (along * math.sin(half) + to_centre) / 3.0
    at_sector = to_centre - 2.0 * radius * math.sin(half) / (3.0 * half)
    area = math.copysign(kite - sector, corner.turn)
    moment = math.copysign(kite * at_kite - sector * at_sector, corner.turn)
    way = unit(minus(corner.centre, corner.vertex))
    return Moments(
        area,
        area * corner.vertex[0] + moment * way[0],
        area * corner.vertex[1] + moment * way[1],
    )


def _polygon_moments(points: Sequence[Spot]) -> Moments:
    """Signed area and first moments of a polygon with sharp corners."""
    area = ahead = outer = 0.0
    for (x, y), (u, v) in zip(points, (*points[1:], points[0]), strict=True):
        piece = x * v - u * y
        area += piece / 2.0
        ahead += piece * (x + u) / 6.0
        outer += piece * (y + v) / 6.0
    return Moments(area, ahead, outer)


def _arc_steps(radius: float, turn: float, tolerance: float) -> int:
    """Chords for an arc that stray from it by no more than the tolerance."""
    if radius <= 0.0:
        return 0
    widest = 2.0 * math.acos(max(0.0, 1.0 - tolerance / radius))
    return max(1, math.ceil(turn / widest))


def _require_room(footprint: Footprint) -> None:
    """Refuse arcs that would overlap on a side between them."""
    corners = footprint.corners
    for i, (corner, after) in enumerate(zip(corners, corners[1:] + corners[:1], strict=True)):
        taken = math.dist(corner.vertex, corner.end) + math.dist(after.start, after.vertex)
        side = math.dist(corner.vertex, after.vertex)
        if taken > side * (1.0 + 1e-9):
            raise ValueError(
                f"corner radius is {footprint.corner_radius:.6g} mm; the side after corner "
                f"{i + 1} of the footprint, {side:.6g} mm long, has no room for it"
            )
