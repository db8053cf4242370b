"""Outlines: exact area and moments against shapes known by heart and against fine polygons."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from refused import refused
from wedges import stars

from geometry.hardware.footprint import Footprint, circle, distance_inside, rectangle

L_SHAPE = ((0.0, 0.0), (60.0, 0.0), (60.0, 20.0), (20.0, 20.0), (20.0, 60.0), (0.0, 60.0))


def shoelace(points: np.ndarray) -> tuple[float, float, float]:
    x, y = points.T
    u, v = np.roll(points, -1, axis=0).T
    piece = x * v - u * y
    return piece.sum() / 2.0, ((x + u) * piece).sum() / 6.0, ((y + v) * piece).sum() / 6.0


def test_a_rectangle_with_quarter_circles_has_the_area_known_by_heart() -> None:
    area, ahead, outer = rectangle(200.0, 100.0, 20.0).moments
    assert area == pytest.approx(200.0 * 100.0 - (4.0 - math.pi) * 20.0**2, rel=1e-14)
    assert (ahead, outer) == pytest.approx((0.0, 0.0), abs=1e-9)


def test_a_square_rounded_all_the_way_is_a_circle() -> None:
    assert rectangle(80.0, 80.0, 40.0).moments.area == pytest.approx(math.pi * 40.0**2)


def test_a_hollow_corner_is_filled_and_full_ones_are_cut() -> None:
    # Six right angles: five full, one hollow.
    area = Footprint(L_SHAPE, 5.0).moments.area
    assert area == pytest.approx(2000.0 - (5 - 1) * (1.0 - math.pi / 4.0) * 25.0)


@settings(max_examples=60)
@given(stars())
def test_area_and_moments_are_those_of_a_very_fine_outline(footprint: Footprint) -> None:
    exact = footprint.moments
    for value, fine in zip(exact, shoelace(footprint.outline(1e-5)), strict=True):
        assert value == pytest.approx(fine, abs=1e-3 * exact.area**0.5)


@settings(max_examples=60)
@given(stars(), st.floats(-1.0, 1.0), st.floats(-1.0, 1.0))
def test_the_lowest_place_of_a_plane_is_that_of_a_very_fine_outline(
    footprint: Footprint, ahead: float, outer: float
) -> None:
    fine = (footprint.outline(1e-4) @ (ahead, outer)).min()
    assert footprint.lowest((ahead, outer)) == pytest.approx(fine, abs=1e-3)


def test_a_radius_too_small_to_see_leaves_sharp_corners() -> None:
    assert rectangle(100.0, 90.0, 1e-114).moments.area == 9000.0


def test_corners_given_clockwise_are_turned_round() -> None:
    assert Footprint(L_SHAPE[::-1]).moments.area == pytest.approx(2000.0)


def test_the_outline_of_a_hole_lets_the_screw_through_and_walks_clockwise() -> None:
    around = circle((10.0, -5.0), 3.25)
    assert shoelace(around)[0] < 0.0
    sides = 0.5 * (around + np.roll(around, 1, axis=0)) - (10.0, -5.0)
    assert np.hypot(*sides.T) == pytest.approx(3.25)


def test_distance_inside_is_negative_outside() -> None:
    outline = np.array(L_SHAPE)
    assert distance_inside(outline, (10.0, 10.0)) == pytest.approx(10.0)
    assert distance_inside(outline, (30.0, 30.0)) == pytest.approx(-10.0)
    assert distance_inside(outline, (-3.0, -4.0)) == pytest.approx(-5.0)


@pytest.mark.parametrize(
    ("points", "radius", "words"),
    [
        (((0, 0), (10, 0)), 0.0, "at least 3 corners; it has 2"),
        (((0, 0), (10, 0), (10, 0), (0, 10)), 0.0, "corner 2 of the footprint is given twice"),
        (((0, 0), (10, 10), (10, 0), (0, 10)), 0.0, "side after corner 1 .* meets another"),
        (((0, 0), (10, 0), (5, 0)), 0.0, "doubles back"),
        (((0, 0), (100, 0), (100, 4), (0, 4)), 3.0, "corner radius is 3 mm; .* no room"),
        (((0, 0), (math.nan, 0), (5, 5)), 0.0, "corner of the footprint is nan"),
        (((0, 0), (5000, 0), (5, 5)), 0.0, "between -1000 and 1000 mm"),
    ],
)
def test_an_impossible_outline_is_refused_in_words(
    points: tuple[tuple[float, float], ...], radius: float, words: str
) -> None:
    with refused(words):
        Footprint(points, radius)


def test_a_radius_beyond_half_the_width_names_the_largest_one() -> None:
    with refused("on 180 by 100 mm it can be 50 mm at most"):
        rectangle(180.0, 100.0, 51.0)
