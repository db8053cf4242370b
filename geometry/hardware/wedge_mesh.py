"""A wedge as triangles: closed, seen anticlockwise from outside, its holes right through."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np
from numpy.typing import NDArray

from geometry.hardware.footprint import FINE, circle
from geometry.hardware.triangles import filled
from geometry.hardware.wedge import Wedge
from geometry.hardware.wedge_problems import require_possible


@dataclass(frozen=True, eq=False, slots=True)
class Mesh:
    """A closed surface.

    Attributes:
        points: shape (n, 3), mm: x ahead along the foot, y to its left, z up
            from the base.
        triangles: indices of points, shape (t, 3), anticlockwise from outside.
    """

    points: NDArray[Any]
    triangles: NDArray[Any]

    @property
    def corners(self) -> NDArray[Any]:
        """The three corners of each triangle, shape (t, 3, 3)."""
        corners: NDArray[Any] = self.points[self.triangles]
        return corners

    @property
    def normals(self) -> NDArray[Any]:
        """Unit vectors out of each triangle, shape (t, 3)."""
        a, b, c = self.corners.transpose(1, 0, 2)
        square = np.cross(b - a, c - a)
        normals: NDArray[Any] = square / np.linalg.norm(square, axis=1, keepdims=True)
        return normals

    @property
    def volume(self) -> float:
        """Volume inside (mm³), by the pyramids from the origin to every triangle."""
        a, b, c = self.corners.transpose(1, 0, 2)
        return float((a * np.cross(b, c)).sum() / 6.0)


def wedge_mesh(wedge: Wedge, outer_side: float, tolerance: float = FINE) -> Mesh:
    """The surface of a wedge.

    Args:
        wedge: what is asked for.
        outer_side: +1 where the little toe lies to the left of the foot's axis,
            as on a left foot, -1 on a right foot.
        tolerance: how far the surface may stray from round corners and holes (mm).

    Raises:
        ValueError: the wedge cannot be made; for every reason.
    """
    require_possible(wedge)
    narrow, wide = 0.5 * wedge.screws.diameter, wedge.screws.widest
    outline = _placed(wedge.footprint.outline(tolerance), outer_side)
    holes = [_placed(_rim(c, narrow, wide, tolerance), outer_side) for c in wedge.screws.centres]
    heads = [_placed(_rim(c, wide, wide, tolerance), outer_side) for c in wedge.screws.centres]
    surface = _Surface()
    under = [surface.ring(ring, 0.0) for ring in (outline, *holes)]
    over = [surface.ring(ring, _top(wedge, ring, outer_side)) for ring in (outline, *heads)]
    base = filled(outline, holes)
    surface.add(np.concatenate(under)[base[:, ::-1]])
    surface.add(np.concatenate(over)[filled(outline, heads) if wedge.screws.sunk else base])
    surface.wall(under[0], over[0])
    for i, centre in enumerate(wedge.screws.centres):
        rings = [under[i + 1], over[i + 1]]
        if wedge.screws.sunk:
            floor = wedge.hole_height(centre)
            rings[1:1] = [surface.ring(holes[i], floor), surface.ring(heads[i], floor)]
        for lower, upper in pairwise(rings):
            surface.wall(lower, upper)
    return surface.mesh()


def _rim(
    centre: tuple[float, float], radius: float, widest: float, tolerance: float
) -> NDArray[Any]:
    """A hole's rim with as many points as that of its head has, clockwise."""
    middle = np.array(centre)
    return middle + circle((0.0, 0.0), widest, tolerance) * (radius / widest)


def _placed(ring: NDArray[Any], outer_side: float) -> NDArray[Any]:
    """A ring from foot axes to those of the mesh; mirrored, it is walked backwards."""
    if outer_side > 0.0:
        return ring
    return ring[::-1] * (1.0, -1.0)


def _top(wedge: Wedge, ring: NDArray[Any], outer_side: float) -> NDArray[Any]:
    return np.asarray(wedge.height(ring[:, 0], outer_side * ring[:, 1]))


class _Surface:
    """Points and triangles as they come together."""

    def __init__(self) -> None:
        self._points: list[NDArray[Any]] = []
        self._triangles: list[NDArray[Any]] = []
        self._count = 0

    def ring(self, plan: NDArray[Any], height: float | NDArray[Any]) -> NDArray[Any]:
        """Add a ring of points; returns their indices."""
        heights = np.broadcast_to(height, len(plan))
        self._points.append(np.column_stack((plan, heights)))
        self._count += len(plan)
        return np.arange(self._count - len(plan), self._count)

    def add(self, triangles: NDArray[Any]) -> None:
        """Add triangles of points that are there."""
        self._triangles.append(triangles)

    def wall(self, lower: NDArray[Any], upper: NDArray[Any]) -> None:
        """Join two rings that go round with the solid on their left."""
        after, above = np.roll(lower, -1), np.roll(upper, -1)
        self.add(np.column_stack((lower, after, above)))
        self.add(np.column_stack((lower, above, upper)))

    def mesh(self) -> Mesh:
        """The finished surface."""
        return Mesh(np.concatenate(self._points), np.concatenate(self._triangles))
