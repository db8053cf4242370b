"""Heights, thickness and volume of a wedge by hand, and impossible wishes in words."""

from __future__ import annotations

import math
import re

import numpy as np
import pytest
from refused import refused
from wedges import four_screws, rad, wedge

from app.features.wedge.units import PartLengths, rounded
from app.features.wedge.words import MILLIMETRES
from geometry import Mount
from geometry.hardware.footprint import rectangle
from geometry.hardware.screws import Screws, grid, insert_turn
from geometry.hardware.wedge import Wedge
from geometry.hardware.wedge_problems import wedge_problems
from geometry.sole import sole_of


def test_the_heights_of_a_simple_wedge_are_those_of_a_sloped_line() -> None:
    asked = wedge(lift=6.0, cant=0.0, footprint=rectangle(200.0, 100.0), smallest=4.0)
    rise = 100.0 * math.tan(rad(6.0))
    assert asked.level == pytest.approx(4.0 + rise)
    assert asked.thickest == pytest.approx(4.0 + 2.0 * rise)
    assert sorted(asked.corner_heights) == pytest.approx([4.0, 4.0, 4.0 + 2 * rise, 4.0 + 2 * rise])


def test_the_volume_of_a_simple_wedge_is_half_of_its_box_and_its_base_plate() -> None:
    asked = wedge(lift=6.0, cant=0.0, footprint=rectangle(200.0, 100.0), smallest=4.0)
    rise = 200.0 * math.tan(rad(6.0))
    assert asked.volume == pytest.approx(200.0 * 100.0 * (4.0 + 0.5 * rise))


def test_a_through_hole_takes_a_cylinder_with_a_slanted_top() -> None:
    plain = wedge(lift=6.0, cant=3.0)
    drilled = wedge(lift=6.0, cant=3.0, screws=Screws(((20.0, 10.0),), diameter=8.0))
    height = plain.height(20.0, 10.0)
    assert plain.volume - drilled.volume == pytest.approx(math.pi * 16.0 * height)


@pytest.mark.parametrize(("lift", "cant"), [(5.0, 3.0), (-5.0, 3.0), (0.0, -8.0), (9.0, 0.0)])
def test_the_lowest_place_has_the_smallest_thickness_whatever_the_slopes(
    lift: float, cant: float
) -> None:
    asked = wedge(lift, cant, rectangle(180.0, 110.0, 30.0), 2.5)
    spots = asked.footprint.outline(1e-3)
    assert np.min(asked.height(spots[:, 0], spots[:, 1])) == pytest.approx(2.5, abs=1e-3)
    assert asked.thinnest == pytest.approx(2.5)


def told(asked: Wedge) -> tuple[str, ...]:
    """Why a wedge cannot be made, in words."""
    return MILLIMETRES.reasons(wedge_problems(asked))


def test_positive_lift_raises_the_toe_and_positive_cant_the_little_toe() -> None:
    asked = wedge(lift=3.0, cant=2.0)
    assert asked.height(50.0, 0.0) > asked.level > asked.height(-50.0, 0.0)
    assert asked.height(0.0, 50.0) > asked.level > asked.height(0.0, -50.0)


def test_a_centre_height_is_kept_and_told_when_it_is_too_low() -> None:
    low = wedge(6.0, 0.0, rectangle(200.0, 100.0), 4.0, centre_height=12.0)
    assert low.level == 12.0
    (problem,) = told(low)
    assert "1.4 mm thin" in problem
    assert "centre 14.6 mm high or more" in problem
    assert not wedge_problems(wedge(6.0, 0.0, rectangle(200.0, 100.0), 4.0, centre_height=14.6))


def test_a_centre_height_that_leaves_nothing_is_told() -> None:
    (problem,) = told(wedge(6.0, 0.0, centre_height=2.0))
    assert "end in nothing" in problem


def test_a_wedge_thinner_than_its_screw_head_is_told() -> None:
    screws = four_screws(diameter=6.5, head_diameter=12.0, head_height=9.0)
    problems = told(wedge(lift=3.0, cant=6.0, screws=screws))
    assert any("too thin for the head of screw 1: nothing would be left" in p for p in problems)
    raised = wedge(lift=3.0, cant=6.0, smallest=3.0, screws=screws, centre_height=25.0)
    assert wedge_problems(raised) == ()


def test_a_thin_wedge_is_never_told_as_0_mm() -> None:
    low = wedge(6.0, 0.0, rectangle(200.0, 100.0), 4.0, centre_height=10.59)
    assert low.thinnest == pytest.approx(0.08, abs=0.005)
    (problem,) = told(low)
    assert "end in nothing" in problem


def test_what_is_left_under_a_head_is_never_told_as_0_mm() -> None:
    screws = Screws(((0.0, 0.0),), 6.5, 12.0, 3.95)
    flat = wedge(0.0, 0.0, smallest=3.0, screws=screws, centre_height=4.0)
    (problem,) = told(flat)
    assert "nothing would be left" in problem


def test_the_height_that_a_head_asks_for_is_enough() -> None:
    screws = Screws(((-60.0, -30.0),), 6.5, 12.0, 4.0)
    (problem,) = told(wedge(screws=screws))
    needed = float(problem.split("make its centre ")[1].split(" mm")[0])
    assert wedge_problems(wedge(screws=screws, centre_height=needed)) == ()
    assert wedge_problems(wedge(screws=screws, centre_height=needed - 0.11))


@pytest.mark.parametrize(
    ("centres", "words"),
    [
        (((300.0, 0.0),), "hole 1 lies outside the footprint"),
        (((0.0, 0.0), (89.0, 0.0)), "hole 2 breaks through the outline .* in by 4.3 mm or more"),
        (((85.5, 0.0),), "hole 1 leaves 1.2 mm of wall to the outside, and it needs 2 mm"),
        (((0.0, 0.0), (5.0, 0.0)), "holes 1 and 2 .* 5 mm apart and cut each other.* need 8.5 mm"),
        (((0.0, 0.0), (7.6, 0.0)), "7.6 mm apart and leave 1.1 mm of wall between them"),
        (((9.0, 1.0), (9.0, 1.0)), "holes 1 and 2 are in the same place: leave one out"),
        (((82.0, 47.0),), "hole 1"),
    ],
)
def test_a_hole_in_an_impossible_place_is_told(
    centres: tuple[tuple[float, float], ...], words: str
) -> None:
    (problem,) = told(wedge(screws=Screws(centres)))
    assert re.search(words, problem)


def test_a_hole_moved_in_by_what_is_told_has_enough_wall() -> None:
    for place in (85.5, 89.0):
        (problem,) = told(wedge(screws=Screws(((place, 0.0),))))
        by = float(problem.split("move it in by ")[1].split(" mm")[0])
        assert wedge_problems(wedge(screws=Screws(((place - by, 0.0),)))) == ()
        assert wedge_problems(wedge(screws=Screws(((place - by + 0.11, 0.0),))))


def test_what_is_too_little_is_never_written_as_enough() -> None:
    (problem,) = told(wedge(screws=Screws(((90.0 - 3.25 - 1.99, 0.0),))))
    assert "leaves 1.9 mm of wall to the outside, and it needs 2 mm" in problem


@pytest.mark.parametrize(("toward", "expected"), [(0, 14.5), (1, 14.6), (-1, 14.5)])
def test_a_length_is_rounded_the_way_that_keeps_its_promise(toward: int, expected: float) -> None:
    assert rounded(14.52, 1, toward) == expected
    assert rounded(expected, 1, toward) == expected


def test_problems_are_written_in_the_unit_that_is_asked_for() -> None:
    (problem,) = PartLengths("in").reasons(wedge_problems(wedge(screws=Screws(((85.5, 0.0),)))))
    assert "leaves 0.049 in of wall to the outside, and it needs 0.079 in" in problem
    assert "mm" not in problem


def test_a_hole_with_just_enough_wall_is_no_problem() -> None:
    assert wedge_problems(wedge(screws=Screws(((90.0 - 3.25 - 2.0, 0.0),)))) == ()


def test_the_insert_grids_stand_where_they_are_typed() -> None:
    assert set(grid((40.0, 20.0))) == {(20.0, 10.0), (20.0, -10.0), (-20.0, 10.0), (-20.0, -10.0)}
    assert len(grid((20.0, 40.0), (5, 2))) == 10
    # A quarter turn to the little-toe side swaps the two spacings.
    turned = grid((40.0, 20.0), turned=rad(90.0))
    assert sorted(map(abs, (part for spot in turned for part in spot))) == pytest.approx(
        [10.0] * 4 + [20.0] * 4
    )
    assert turned[0] == pytest.approx((10.0, -20.0))


@pytest.mark.parametrize(("angle", "side"), [(25.0, 1.0), (-40.0, 1.0), (25.0, -1.0), (90.0, -1.0)])
def test_holes_for_the_inserts_lie_across_and_along_the_board(angle: float, side: float) -> None:
    foot = sole_of(Mount(rad(angle)), side)
    axes = np.array((foot.foot_axis[:2], foot.outer[:2]))
    first, second, third, _ = (
        np.array(grid((40.0, 20.0), turned=insert_turn(rad(angle), side))) @ axes
    )
    assert third - first == pytest.approx((0.0, 40.0), abs=1e-9)
    assert abs(second - first) == pytest.approx((20.0, 0.0), abs=1e-9)


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: wedge(lift=40.0), "lift of the wedge is 40 deg"),
        (lambda: wedge(smallest=0.0), "smallest thickness is 0 mm"),
        (lambda: wedge(cant=math.nan), "cant of the wedge is nan deg"),
        (lambda: Screws((), 6.5, 6.0, 3.0), "a screw head of 6 mm falls through a hole of 6.5 mm"),
        (lambda: Screws(((math.nan, 0.0),)), "place of a hole is nan mm"),
        (lambda: grid((0.0, 40.0)), "spacing of the holes is 0 mm"),
        (lambda: grid((40.0, 40.0), (0, 2)), "number of holes in a row is 0 holes"),
    ],
)
def test_impossible_sizes_are_refused_in_words(make: object, words: str) -> None:
    with refused(words):
        make()  # type: ignore[operator]
