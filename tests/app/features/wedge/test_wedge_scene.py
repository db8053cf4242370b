"""The drawing of a wedge, by its marks."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from wedges import four_screws, solid, stars, wedge

from app.drawing.marks import Area, Label, Line, Scene, Span
from app.drawing.styles import style
from app.drawing.theme import DARK, LIGHT
from app.features.wedge.scene import scene_wedge, scene_wedge_views
from app.features.wedge.units import PartLengths
from app.features.wedge.words import CAUTION, Part, facts
from geometry.hardware.footprint import Footprint, rectangle
from geometry.hardware.screws import Screws
from geometry.hardware.wedge import Wedge
from geometry.hardware.wedge_mesh import wedge_mesh
from geometry.hardware.wedge_views import elevation


def part(asked: Wedge | None = None, foot: str = "left") -> Part:
    return Part("front", foot, asked or wedge(screws=four_screws()))


def mark(scene: Scene, key: str) -> Area | Line | Span | Label:
    (found,) = [each for each in scene.marks if each.key == key]
    return found


def texts(scene: Scene, start: str) -> str:
    return " ".join(m.text for m in scene.marks if isinstance(m, Label) and m.key.startswith(start))


def test_dimension_lines_are_as_long_as_their_figures_say() -> None:
    scene = scene_wedge(part(wedge(3.0, 6.0, rectangle(180.0, 110.0, 20.0))))
    spans = [each for each in scene.marks if isinstance(each, Span)]
    assert {"length", "width", "side.left", "end.right"} <= {span.key for span in spans}
    for span in spans:
        assert math.dist(span.start, span.end) == pytest.approx(float(span.text), abs=0.05)


def test_a_drawing_in_inches_says_so_and_is_true_to_it() -> None:
    scene = scene_wedge(part(wedge(3.0, 6.0, rectangle(180.0, 110.0, 20.0))), PartLengths("in"))
    assert "Sizes in inches; the STL and DXF files are in mm." in texts(scene, "fact.")
    for span in (each for each in scene.marks if isinstance(each, Span)):
        assert math.dist(span.start, span.end) == pytest.approx(25.4 * float(span.text), abs=0.013)


@pytest.mark.parametrize(("unit", "named"), [("mm", "mm"), ("cm", "mm"), ("in", "in")])
def test_the_small_drawing_names_its_unit(unit: str, named: str) -> None:
    scene = scene_wedge_views(part(), elevations=True, lengths=PartLengths(unit))
    assert mark(scene, "unit").text == named
    assert mark(scene, "length").text == {"mm": "180", "in": "7.087"}[named]


def test_the_distances_of_a_grid_are_drawn_and_those_of_other_holes_are_not() -> None:
    other = Screws(((50.0, 30.0), (-50.0, 30.0), (-50.0, -30.0), (50.0, -20.0)))
    for screws, drawn in ((four_screws(30.0), 2), (other, 0)):
        keys = [each.key for each in scene_wedge(part(wedge(screws=screws))).marks]
        assert sum(key.startswith("holes.") for key in keys) == drawn


def test_a_hole_far_outside_is_told_and_not_drawn_over_the_notes() -> None:
    scene = scene_wedge(part(wedge(screws=Screws(((300.0, 0.0), (20.0, 0.0))))))
    drawn = {each.key for each in scene.marks if each.key.startswith("hole")}
    assert drawn == {"hole.2", "hole.2.number"}
    assert "1 (300, 0)" in scene.text.replace("\N{NO-BREAK SPACE}", " ")
    bores = [each for each in scene.marks if each.key.startswith("side.hidden")]
    assert len(bores) == 2


def test_the_caution_stands_whole_on_the_drawing() -> None:
    scene = scene_wedge(part())
    assert texts(scene, "caution.") == CAUTION
    for words in (
        "weight",
        "Screws",
        "longer",
        "torque",
        "largest lift, cant and height",
        "makers",
    ):
        assert words in CAUTION


def test_the_facts_tell_slopes_heights_holes_and_volume() -> None:
    asked = wedge(3.0, 6.0, rectangle(180.0, 110.0, 20.0), 3.0, four_screws())
    said = " ".join(facts(part(asked)))
    rises = "6.7° at its steepest, rising 63.5° from the toe to the little-toe side"
    for words in ("3.0° toe lift", "6.0° inward cant", rises, "least 3.0", "4 holes ⌀6.5", "R20"):
        assert words in said
    assert f"Volume {asked.volume / 1000.0:.1f}\N{NO-BREAK SPACE}cm³" in said


def test_facts_of_flat_and_simple_slopes_are_said_plainly() -> None:
    assert "Flat on top." in facts(part(wedge(0.0, 0.0)))
    assert any("rising to the heel" in fact for fact in facts(part(wedge(-4.0, 0.0))))
    assert "No holes." in facts(part(wedge(2.0, 2.0)))


def test_corner_heights_stand_at_their_corners() -> None:
    asked = wedge(3.0, 6.0)
    scene = scene_wedge(part(asked))
    for i, height in enumerate(asked.corner_heights):
        assert mark(scene, f"corner.{i + 1}.height").text == f"{height:.1f}"
        at = mark(scene, f"corner.{i + 1}").at
        assert asked.height(*at) == pytest.approx(height)


def test_the_plan_of_a_right_foot_has_its_little_toe_below() -> None:
    hole = wedge(screws=Screws(((20.0, 30.0),)))
    for foot, hand in (("left", 1.0), ("right", -1.0)):
        rim = np.array(mark(scene_wedge(part(hole, foot)), "hole.1").points)
        assert rim.mean(axis=0) == pytest.approx((20.0, hand * 30.0))


def test_a_top_that_rises_towards_the_viewer_hides_its_far_edge() -> None:
    # Seen from the foot's right, a left foot's little-toe side is the far one.
    for cant, foot, role in ((6.0, "left", "part.thin"), (6.0, "right", "part.hidden")):
        assert mark(scene_wedge(part(wedge(3.0, cant), foot)), "side.rim").role == role
    assert mark(scene_wedge(part(wedge(-3.0, 6.0))), "end.rim").role == "part.hidden"


@settings(max_examples=15)
@given(
    stars(),
    st.floats(-15.0, 15.0),
    st.floats(-15.0, 15.0),
    st.sampled_from([(1.0, 0.0), (0.0, 1.0)]),
)
def test_the_silhouette_is_the_shadow_of_the_mesh(
    footprint: Footprint, lift: float, cant: float, across: tuple[float, float]
) -> None:
    asked = wedge(lift, cant, footprint)
    seen = elevation(asked, across)
    points = solid(wedge_mesh(asked, 1.0)).vertices
    right = points[:, :2] @ across
    silhouette = seen.silhouette
    assert silhouette[:2, 0] == pytest.approx((right.min(), right.max()), abs=1e-6)
    upper = silhouette[2:][::-1]
    # Behind a hollow corner the silhouette steps down: either side of it counts.
    beside = [np.interp(right + step, upper[:, 0], upper[:, 1]) for step in (-2e-6, 2e-6)]
    # No point of the solid stands out, and the highest one is on it.
    assert (points[:, 2] - np.max(beside, axis=0)).max() < 2e-2
    assert upper[:, 1].max() == pytest.approx(points[:, 2].max(), abs=1e-6)


def test_holes_and_recesses_are_drawn_hidden_up_to_their_heights() -> None:
    asked = wedge(3.0, 6.0, screws=Screws(((10.0, 5.0),), 6.5, 12.0, 4.0), centre_height=20.0)
    seen = elevation(asked, (1.0, 0.0))
    floor = asked.hole_height((10.0, 5.0))
    assert seen.bores[0, :, :, 0] == pytest.approx(np.array([[6.75, 6.75], [13.25, 13.25]]))
    assert seen.bores[0, :, 1, 1] == pytest.approx(floor)
    assert seen.heads[0, :, 0, 1] == pytest.approx(floor)
    assert seen.heads[0, 0, 1, 1] == pytest.approx(asked.height(4.0, 5.0))


def test_an_impossible_wedge_is_drawn_with_what_is_wrong() -> None:
    asked = wedge(screws=Screws(((300.0, 0.0),)))
    assert "Cannot be made: hole 1 lies outside the footprint: move it in" in texts(
        scene_wedge(part(asked)), "problem."
    )
    assert texts(scene_wedge(part()), "problem.") == ""


@pytest.mark.parametrize("theme", [LIGHT, DARK])
def test_every_mark_has_a_key_of_its_own_and_a_role_with_a_style(theme: object) -> None:
    sunk = four_screws(diameter=6.5, head_diameter=12.0, head_height=4.0)
    for asked in (wedge(screws=four_screws()), wedge(screws=sunk), wedge(0.0, 0.0)):
        scene = scene_wedge(part(asked))
        keys = [each.key for each in scene.marks]
        assert len(keys) == len(set(keys))
        assert all(style(theme, each.role) for each in scene.marks)


def test_the_window_holds_every_line_and_note() -> None:
    window = scene_wedge(part()).window
    for each in scene_wedge(part()).marks:
        points = getattr(each, "points", None) or [getattr(each, "at", None) or each.start]
        assert all(window.left < x < window.right for x, _ in points)
        assert all(window.bottom < y < window.top for _, y in points)
