"""Outlines on paper, against independent computations."""

from __future__ import annotations

from math import cos, hypot, isclose, pi, sin

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from scipy.spatial import ConvexHull

from app.drawing.projection import View, hull, sector, tapered

coordinates = st.floats(-500.0, 500.0).map(lambda x: round(x, 3))
points = st.lists(st.tuples(coordinates, coordinates), min_size=5, max_size=40, unique=True)


def area(outline: tuple[tuple[float, float], ...]) -> float:
    following = (*outline[1:], outline[0])
    return 0.5 * abs(
        sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(outline, following, strict=True))
    )


@given(points)
def test_a_hull_has_the_area_that_scipy_finds(cloud: list[tuple[float, float]]) -> None:
    outline = hull(cloud)
    spread = np.ptp(np.asarray(cloud), axis=0)
    if len(outline) < 3 or area(outline) < 1e-6 * max(spread) ** 2 + 1e-3:
        return
    assert isclose(area(outline), ConvexHull(np.asarray(cloud)).volume, rel_tol=1e-9)


def test_a_hull_of_points_on_a_line_has_only_its_ends() -> None:
    assert len(hull([(0.0, 0.0), (1.0, 1.0), (2.0, 2.0)])) <= 3


@given(st.floats(60.0, 400.0), st.floats(0.0, 2.0 * pi), st.floats(5.0, 50.0), st.floats(5.0, 50.0))
def test_a_limb_touches_but_never_cuts_its_two_circles(
    distance: float, way: float, start_radius: float, end_radius: float
) -> None:
    end = (distance * cos(way), distance * sin(way))
    outline = tapered((0.0, 0.0), end, start_radius, end_radius)
    for x, y in outline:
        inside_start = hypot(x, y) - start_radius
        inside_end = hypot(x - end[0], y - end[1]) - end_radius
        assert min(abs(inside_start), abs(inside_end)) < 1e-9
        assert inside_start > -1e-9
        assert inside_end > -1e-9


def test_a_limb_whose_ends_fall_together_is_a_circle() -> None:
    outline = tapered((3.0, 4.0), (3.0, 5.0), 20.0, 10.0)
    assert all(isclose(hypot(x - 3.0, y - 4.0), 20.0) for x, y in outline)


def test_a_sector_keeps_its_radius_and_its_angle() -> None:
    fan = sector((1.0, 2.0, 3.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0), (0.2, 1.1), 50.0)
    apex, first, last = (np.asarray(fan[i]) for i in (0, 1, -1))
    assert isclose(float(np.linalg.norm(first - apex)), 50.0)
    turned = np.arccos(np.dot(first - apex, last - apex) / 2500.0)
    assert isclose(float(turned), 0.9, abs_tol=1e-12)


def test_a_view_shows_what_lies_towards_it_as_a_point() -> None:
    view = View(right=(0.0, 1.0, 0.0), up=(0.0, 0.0, 1.0), toward=(1.0, 0.0, 0.0))
    assert view.seen((7.0, 2.0, 3.0)) == view.seen((-7.0, 2.0, 3.0)) == (2.0, 3.0)
    assert view.nearness((7.0, 2.0, 3.0)) > view.nearness((-7.0, 2.0, 3.0))
    down = View(right=(0.0, 1.0, 0.0), up=(0.8, 0.0, 0.6), toward=(-0.6, 0.0, 0.8))
    assert isclose(down.nearness((1.0, 5.0, 2.0)), 1.0)
