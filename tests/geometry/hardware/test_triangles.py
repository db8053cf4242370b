"""Polygons with holes, filled: the area is kept and every side is walked as it was given."""

from __future__ import annotations

from collections import Counter

import numpy as np
import pytest
from hypothesis import given, settings
from refused import refused
from wedges import stars

from geometry.hardware.footprint import Footprint, circle, rectangle
from geometry.hardware.triangles import filled


def areas(points: np.ndarray, triangles: np.ndarray) -> np.ndarray:
    a, b, c = points[triangles].transpose(1, 0, 2)
    return 0.5 * ((b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0])


def ring_area(ring: np.ndarray) -> float:
    x, y = ring.T
    return 0.5 * float((x * np.roll(y, -1) - y * np.roll(x, -1)).sum())


def free_sides(triangles: np.ndarray) -> Counter[tuple[int, int]]:
    """Sides that no second triangle walks the other way."""
    sides = Counter(
        (int(a), int(b)) for t in triangles for a, b in zip(t, np.roll(t, -1), strict=True)
    )
    return Counter({side: n for side, n in sides.items() if side[::-1] not in sides})


def ring_sides(rings: list[np.ndarray]) -> set[tuple[int, int]]:
    sides, first = set(), 0
    for ring in rings:
        count = len(ring)
        sides |= {(first + i, first + (i + 1) % count) for i in range(count)}
        first += count
    return sides


def check(outline: np.ndarray, holes: list[np.ndarray]) -> None:
    triangles = filled(outline, holes)
    points = np.concatenate((outline, *holes))
    # No triangle is as thin as a line: mm², between points that stand tenths of a mm apart.
    assert areas(points, triangles).min() > 1e-4
    assert areas(points, triangles).sum() == pytest.approx(
        sum(ring_area(ring) for ring in (outline, *holes)), rel=1e-9
    )
    free = free_sides(triangles)
    assert set(free) == ring_sides([outline, *holes])
    assert set(free.values()) == {1}


def test_a_square_becomes_two_triangles() -> None:
    check(rectangle(10.0, 10.0).outline(), [])
    assert filled(rectangle(10.0, 10.0).outline(), []).shape == (2, 3)


def test_holes_in_rows_are_left_open() -> None:
    # In line with each other and with the corners, where bridges like to touch.
    centres = [(x, y) for x in (-40.0, 0.0, 40.0) for y in (-40.0, 0.0, 40.0)]
    check(rectangle(120.0, 120.0).outline(), [circle(c, 5.0, 0.1) for c in centres])


def test_square_holes_beside_each_other_are_left_open() -> None:
    square = rectangle(8.0, 8.0).outline()[::-1]
    check(
        rectangle(60.0, 20.0).outline(),
        [square + np.array((x, 0.0)) for x in (-20.0, -10.0, 0.0, 10.0, 20.0)],
    )


@settings(max_examples=25)
@given(stars())
def test_hollow_outlines_with_holes_are_filled(footprint: Footprint) -> None:
    centres = [(x, y) for x in (-12.0, 12.0) for y in (-12.0, 12.0)]
    check(footprint.outline(0.5), [circle(c, 4.0, 0.3) for c in centres])


def test_a_hole_across_the_outline_is_refused() -> None:
    with refused("cross"):
        filled(
            rectangle(20.0, 20.0).outline(), [circle((30.0, 0.0), 4.0), circle((10.0, 0.0), 4.0)]
        )
