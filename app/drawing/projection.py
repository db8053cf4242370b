"""From points in space to points on paper, and the outlines of simple solids."""

from __future__ import annotations

from collections.abc import Iterable
from math import atan2, ceil, cos, hypot, pi, sin, sqrt
from typing import NamedTuple, TypeAlias

from app.drawing.marks import Point

Space: TypeAlias = tuple[float, float, float]


class View(NamedTuple):
    """A way of looking: unit vectors to the right, up the paper and towards the viewer."""

    right: Space
    up: Space
    toward: Space

    def seen(self, p: Space) -> Point:
        """Where a point of space lies on the paper."""
        x, y, z = p
        r, u = self.right, self.up
        return (
            r[0] * x + r[1] * y + r[2] * z,
            u[0] * x + u[1] * y + u[2] * z,
        )

    def nearness(self, p: Space) -> float:
        """How far a point lies towards the viewer."""
        return self.toward[0] * p[0] + self.toward[1] * p[1] + self.toward[2] * p[2]

    def all_seen(self, points: Iterable[Space]) -> list[Point]:
        """Where many points lie on the paper."""
        (rx, ry, rz), (ux, uy, uz) = self.right, self.up
        return [(rx * x + ry * y + rz * z, ux * x + uy * y + uz * z) for x, y, z in points]

    def reach(self, points: Iterable[Space]) -> tuple[float, float]:
        """From where to where points lie across the paper."""
        rx, ry, rz = self.right
        across = [rx * x + ry * y + rz * z for x, y, z in points]
        return min(across), max(across)

    def outline(self, points: Iterable[Space]) -> tuple[Point, ...]:
        """The silhouette of the convex solid that has these corners."""
        return hull(self.all_seen(points))


def hull(points: list[Point]) -> tuple[Point, ...]:
    """Corners of the convex hull, counter-clockwise (monotone chain)."""
    ordered = sorted(set(points))
    if len(ordered) < 3:
        return tuple(ordered)
    first, last = ordered[0], ordered[-1]
    (x, y), (dx, dy) = first, (last[0] - first[0], last[1] - first[1])
    # A corner under the line from the first to the last can only be in the lower chain.
    under, over = [first], [first]
    for p in ordered[1:-1]:
        (under if dx * (p[1] - y) < dy * (p[0] - x) else over).append(p)
    under.append(last)
    over.append(last)
    return tuple(_chain(under)[:-1] + _chain(over[::-1])[:-1])


def _chain(ordered: list[Point]) -> list[Point]:
    """The chain that turns left all the way, from the first point to the last."""
    chain = ordered[:2]
    (ax, ay), (bx, by) = chain
    for p in ordered[2:]:
        x, y = p
        while (bx - ax) * (y - ay) - (by - ay) * (x - ax) <= 0.0:
            chain.pop()
            bx, by = ax, ay
            if len(chain) < 2:
                break
            ax, ay = chain[-2]
        chain.append(p)
        ax, ay, bx, by = bx, by, x, y
    return chain


CAP_STEPS = 7


def tapered(start: Point, end: Point, start_radius: float, end_radius: float) -> tuple[Point, ...]:
    """Outline of a limb: the hull of a circle at each end."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    distance = hypot(dx, dy)
    if distance <= abs(start_radius - end_radius):
        centre, radius = max((start, start_radius), (end, end_radius), key=lambda c: c[1])
        return circle(centre, radius)
    along = atan2(dy, dx)
    # The common tangents touch both circles at this angle from the axis.
    off = (start_radius - end_radius) / distance
    half = atan2(sqrt(1.0 - off * off), off)
    return (
        *_arc(start, start_radius, along + half, along + 2.0 * pi - half),
        *_arc(end, end_radius, along - half, along + half),
    )


def circle(centre: Point, radius: float) -> tuple[Point, ...]:
    """A circle as a polygon."""
    return tuple(_arc(centre, radius, 0.0, 2.0 * pi * (1.0 - 1.0 / 24.0), steps=23))


def _arc(
    centre: Point, radius: float, start: float, end: float, steps: int = CAP_STEPS
) -> list[Point]:
    by = (end - start) / steps
    return [
        (centre[0] + radius * cos(start + i * by), centre[1] + radius * sin(start + i * by))
        for i in range(steps + 1)
    ]


def sector(
    apex: Space, first: Space, second: Space, angles: tuple[float, float], radius: float
) -> tuple[Space, ...]:
    """A fan in space: the apex and an arc about it.

    Args:
        apex: its point.
        first: unit vector at angle zero.
        second: unit vector at a right angle.
        angles: where the arc starts and ends (rad).
        radius: of the arc (mm).
    """
    start, end = angles
    steps = max(2, ceil(abs(end - start) / 0.06))
    by = (end - start) / steps
    arc = (mixed(apex, first, second, radius, start + i * by) for i in range(steps + 1))
    return (apex, *arc)


def mixed(apex: Space, first: Space, second: Space, radius: float, angle: float) -> Space:
    """The point at an angle and a distance from an apex, in a plane."""
    c, s = radius * cos(angle), radius * sin(angle)
    return (
        apex[0] + c * first[0] + s * second[0],
        apex[1] + c * first[1] + s * second[1],
        apex[2] + c * first[2] + s * second[2],
    )


def along(start: Space, direction: Space, distance: float) -> Space:
    """A point so far from another in a direction."""
    return (
        start[0] + distance * direction[0],
        start[1] + distance * direction[1],
        start[2] + distance * direction[2],
    )
