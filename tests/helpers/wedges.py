"""Wedges that the tests share, in degrees, and their meshes in an independent library."""

from __future__ import annotations

import math

import numpy as np
import trimesh
from hypothesis import strategies as st

from geometry.hardware.footprint import Footprint, rectangle
from geometry.hardware.screws import Screws, grid
from geometry.hardware.wedge import NO_SCREWS, Wedge
from geometry.hardware.wedge_mesh import Mesh


def rad(degrees: float) -> float:
    return math.radians(degrees)


def wedge(
    lift: float = 3.0,
    cant: float = 6.0,
    footprint: Footprint | None = None,
    smallest: float = 3.0,
    screws: Screws = NO_SCREWS,
    centre_height: float | None = None,
) -> Wedge:
    outline = footprint or rectangle(180.0, 110.0, 20.0)
    return Wedge(outline, rad(lift), rad(cant), smallest, screws, centre_height)


def four_screws(turned: float = 0.0, **sizes: float) -> Screws:
    return Screws(grid((40.0, 40.0), turned=rad(turned)), **sizes)


def solid(mesh: Mesh) -> trimesh.Trimesh:
    """The mesh as it is, nothing merged or mended."""
    return trimesh.Trimesh(mesh.points, mesh.triangles, process=False)


@st.composite
def stars(draw: st.DrawFn) -> Footprint:
    """Outlines with hollow and full corners around a middle, sometimes rounded."""
    count = draw(st.integers(3, 9))
    radii = draw(st.lists(st.floats(60.0, 130.0), min_size=count, max_size=count))
    start = draw(st.floats(0.0, 6.0))
    turns = start + np.arange(count) * 2.0 * math.pi / count
    points = [(r * math.cos(t), r * math.sin(t)) for r, t in zip(radii, turns, strict=True)]
    if draw(st.booleans()):
        points.reverse()
    return Footprint(tuple(points), draw(st.sampled_from([0.0, 4.0])))


rectangles = st.builds(
    rectangle, st.floats(100.0, 240.0), st.floats(90.0, 140.0), st.floats(0.0, 45.0)
)
