"""The wedge that a set-up asks for, by its numbers and words."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
import trimesh
from refused import refused

from app.features.wedge.model import (
    Slopes,
    file_name,
    measures,
    part_of,
    problems,
    slopes_of,
    with_holes,
    with_spots,
)
from app.features.wedge.units import PartLengths
from app.rider.setup import Setup, edited
from app.rider.wedge import WedgeInputs
from app.stance.answer import answer_of
from app.words.reasons import reason_phrase
from geometry.hardware.wedge_mesh import wedge_mesh
from geometry.reasons import ImpossibleError

FLAT = Slopes(0.0, 0.0)
MOUNTED = edited(
    Setup(), front_lift_deg=3.0, front_cant_deg=5.0, rear_lift_deg=-2.0, rear_cant_deg=-1.0
)


def asking(setup: Setup = MOUNTED, **wedge: float | str) -> Setup:
    return replace(setup, wedge=replace(WedgeInputs(), **wedge))


@pytest.mark.parametrize(
    ("wedge", "expected"),
    [
        ({}, (3.0, 5.0)),
        ({"foot": "rear"}, (-2.0, -1.0)),
        ({"slopes": "typed", "lift_deg": 1.0, "cant_deg": 2.0}, (1.0, 2.0)),
    ],
)
def test_lift_and_cant_are_those_of_the_mounts_or_as_typed(wedge, expected) -> None:
    assert slopes_of(asking(**wedge)) == expected


def test_the_start_values_are_those_that_are_told_of_each_binding() -> None:
    start = answer_of(MOUNTED).mounts
    assert slopes_of(asking(slopes="start")) == (start.front_lift_deg, start.front_cant_deg)
    rear = slopes_of(asking(slopes="start", foot="rear"))
    assert rear == (start.rear_lift_deg, start.rear_cant_deg)


def test_without_start_values_it_says_why() -> None:
    far = edited(Setup(), stance_length_mm=800.0, across_spacing_mm=600.0, knee_height_mm=300.0)
    far = edited(far, hip_height_mm=560.0, knee_bend_deg=5.0)
    with refused("there is nothing to begin with: the rear leg"):
        slopes_of(asking(far, slopes="start"))


@pytest.mark.parametrize(("lead", "front", "rear"), [("left", "left", "right"),
                                                     ("right", "right", "left")])  # fmt: skip
def test_the_lead_foot_is_in_front(lead: str, front: str, rear: str) -> None:
    setup = edited(Setup(), lead_foot=lead)
    assert part_of(asking(setup), FLAT).foot == front
    assert part_of(asking(setup, foot="rear"), FLAT).foot == rear


def test_the_holes_lie_as_the_inserts_do_under_a_turned_foot() -> None:
    setup = edited(Setup(), front_angle_deg=90.0)
    wedge = asking(setup, grid_across_mm=20.0, grid_along_mm=40.0)
    # The foot points to the nose: ahead of it is along the board.
    places = {
        (round(abs(a), 9), round(abs(o), 9)) for a, o in part_of(wedge, FLAT).wedge.screws.centres
    }
    assert places == {(20.0, 10.0)}


@pytest.mark.parametrize(("across", "along", "count"), [(40.0, 40.0, 4), (0.0, 40.0, 2),
                                                        (40.0, 0.0, 2), (0.0, 0.0, 0)])  # fmt: skip
def test_nothing_between_holes_leaves_one_line_or_none(
    across: float, along: float, count: int
) -> None:
    part = part_of(asking(grid_across_mm=across, grid_along_mm=along), FLAT)
    assert len(part.wedge.screws.centres) == count


def test_heights_and_volume_are_told_as_of_a_block_where_it_is_flat() -> None:
    wedge = asking(corner_radius_mm=0.0, smallest_mm=10.0, grid_across_mm=0.0, grid_along_mm=0.0)
    told = measures(part_of(wedge, FLAT))
    # 180 by 110 by 10 mm.
    assert "centre 10.0 mm" in told
    assert told.endswith("Volume 198.0\N{NO-BREAK SPACE}cm³.")


def test_each_corner_height_is_told_by_its_place() -> None:
    wedge = asking(corner_radius_mm=0.0, smallest_mm=3.0)
    told = measures(part_of(wedge, Slopes(3.0, 5.0)))
    along = 180.0 * math.tan(math.radians(3.0))
    across = 110.0 * math.tan(math.radians(5.0))
    assert f"little-toe side {3.0 + along + across:.1f} at the toe, {3.0 + across:.1f} at" in told
    assert f"big-toe side {3.0 + along:.1f} and 3.0;" in told


def test_the_centre_height_is_as_typed_or_as_low_as_the_thinnest_place_allows() -> None:
    wedge = asking(corner_radius_mm=0.0, smallest_mm=3.0)
    low = 3.0 + 90.0 * math.tan(math.radians(3.0)) + 55.0 * math.tan(math.radians(5.0))
    slopes = slopes_of(wedge)
    assert part_of(wedge, slopes).wedge.level == pytest.approx(low)
    high = replace(wedge, wedge=replace(wedge.wedge, centre_height_mm=20.0))
    assert part_of(high, slopes).wedge.level == 20.0


def test_what_cannot_be_made_is_told_a_line_for_each_reason() -> None:
    part = part_of(asking(centre_height_mm=8.0, width_mm=50.0), Slopes(3.0, 5.0))
    lines = problems(part).splitlines()
    assert any(line.startswith("The wedge would be") for line in lines)
    assert any("outside the footprint" in line or "breaks through" in line for line in lines)
    assert problems(part_of(asking(), Slopes(3.0, 5.0))) == ""


@pytest.mark.parametrize(
    ("wedge", "why"),
    [
        ({"corner_radius_mm": 60.0}, "55 mm at most"),
        ({"head_height_mm": 4.0, "head_mm": 6.0}, "falls through"),
        ({"grid_along_mm": 0.5}, "holes 0.5 mm apart are one hole: make it 0, or 1 mm or more"),
    ],
)
def test_what_cannot_even_be_meant_is_told_in_words(wedge, why) -> None:
    with refused(why):
        part_of(asking(**wedge), FLAT)


def test_typed_holes_lie_where_they_are_typed_whatever_the_binding_angle() -> None:
    spots = ((50.0, 30.0), (-50.5, 0.0), (10.0, -35.25))
    for angle in (0.0, 45.0):
        setup = with_spots(edited(MOUNTED, front_angle_deg=angle), spots)
        assert part_of(setup, FLAT).wedge.screws.centres == spots


@pytest.mark.parametrize("foot", ["front", "rear"])
def test_a_wedge_with_typed_holes_is_closed_and_has_the_volume_that_is_told(foot: str) -> None:
    spots = ((60.0, 30.0), (-60.0, 30.0), (-55.5, -40.0), (0.0, 0.0), (70.0, -20.25))
    setup = with_spots(asking(foot=foot, head_height_mm=3.0, centre_height_mm=20.0), spots)
    part = part_of(setup, slopes_of(setup))
    assert problems(part) == ""
    mesh = wedge_mesh(part.wedge, part.outer_side)
    # trimesh knows nothing of this program.
    solid = trimesh.Trimesh(mesh.points, mesh.triangles, process=False)
    assert solid.is_watertight
    assert solid.euler_number == 2 - 2 * len(spots)
    assert solid.volume == pytest.approx(part.wedge.volume, rel=1e-3)


def test_typed_holes_begin_as_those_of_the_grid_and_come_back_after_another_grid() -> None:
    setup = asking(edited(MOUNTED, front_angle_deg=30.0))
    grid, typed = part_of(setup, FLAT), with_holes(setup, "typed")
    found = part_of(typed, FLAT).wedge.screws.centres
    assert [part for spot in found for part in spot] == pytest.approx(
        [part for spot in grid.wedge.screws.centres for part in spot], abs=1e-6
    )
    mine = with_spots(typed, ((1.0, 2.0),))
    assert with_holes(with_holes(mine, "grid"), "typed") == mine


def test_no_hole_typed_leaves_the_wedge_whole() -> None:
    part = part_of(with_spots(asking(), ()), FLAT)
    assert part.wedge.screws.centres == ()
    assert problems(part) == ""


def test_of_a_grid_that_cannot_be_meant_no_typed_holes_begin() -> None:
    setup = with_holes(asking(grid_along_mm=0.5), "typed")
    assert setup.wedge.hole_spots_mm == ()
    assert problems(part_of(setup, FLAT)) == ""


@pytest.mark.parametrize(
    ("spots", "words"),
    [
        (((300.0, 0.0),), "Hole 1 lies outside the footprint: move it in or leave it out."),
        (((0.0, 0.0), (88.0, 0.0)), "Hole 2 breaks through the outline of the footprint"),
        (((86.0, 0.0),), "Hole 1 leaves 0.7 mm of wall to the outside"),
        (((0.0, 0.0), (0.0, 5.0)), "Holes 1 and 2 stand 5 mm apart and cut each other"),
        (((0.0, 0.0), (0.0, 7.0)), "and leave 0.5 mm of wall between them"),
    ],
)
def test_typed_holes_that_cannot_be_are_told(spots, words) -> None:
    assert words in problems(part_of(with_spots(asking(), spots), FLAT))


def test_figures_and_problems_are_told_in_the_unit_asked_for() -> None:
    inches = PartLengths("in")
    part = part_of(with_spots(asking(smallest_mm=25.4), ((86.0, 0.0),)), FLAT)
    assert "centre 1.000 in" in measures(part, inches)
    assert "Screws longer by 1.000 in." in measures(part, inches)
    assert "leaves 0.029 in of wall to the outside, and it needs 0.079 in" in problems(part, inches)
    assert "mm" not in measures(part, inches) + problems(part, inches)


@pytest.mark.parametrize(
    ("wedge", "why"),
    [
        ({"corner_radius_mm": 60.0}, "is 2.362 in; on 7.087 by 4.331 in it can be 2.165 in at"),
        ({"head_height_mm": 4.0, "head_mm": 6.0}, "head of 0.236 in falls through a hole of 0.25"),
    ],
)
def test_what_cannot_even_be_meant_is_told_in_the_unit_asked_for(wedge, why) -> None:
    with pytest.raises(ImpossibleError) as caught:
        part_of(asking(**wedge), FLAT)
    assert why in reason_phrase(caught.value, PartLengths("in"))


def test_a_file_is_named_for_the_foot() -> None:
    assert file_name(part_of(asking(foot="rear"), FLAT), "stl") == "wedge-rear-right.stl"
