"""The drawings of the measuring guide show what they claim to show."""

from __future__ import annotations

import pytest

from app.drawing.marks import Area, Dot, Label, Line, Point, Scene, Span
from app.drawing.styles import style
from app.drawing.theme import LIGHT
from app.features.measuring.outlines import below, curve, ellipse
from app.features.measuring.scene import scene_measuring
from app.rider.setup import BOOT_NAMES, LEG_NAMES


def named(scene: Scene, key: str) -> object:
    return next(mark for mark in scene.marks if mark.key == key)


def dots(scene: Scene) -> list[Point]:
    return [m.at for m in scene.marks if isinstance(m, Dot) and m.role == "landmark"]


@pytest.mark.parametrize("name", LEG_NAMES + BOOT_NAMES)
def test_every_drawing_has_words_a_style_for_each_mark_and_stays_in_its_window(name: str) -> None:
    scene = scene_measuring(name)
    left, bottom, right, top = scene.window
    assert scene.text.endswith(".")
    for mark in scene.marks:
        style(LIGHT, mark.role)
        if isinstance(mark, Line | Area):
            assert all(left <= x <= right and bottom <= y <= top for x, y in mark.points), mark.key


@pytest.mark.parametrize("name", LEG_NAMES + BOOT_NAMES)
def test_every_drawing_marks_what_to_feel_for(name: str) -> None:
    landmarks = [m for m in scene_measuring(name).marks if m.role == "landmark"]
    assert landmarks or name == "neutral_spacing_mm"


@pytest.mark.parametrize("name", ["hip_height_mm", "knee_height_mm", "ankle_height_mm"])
def test_a_height_is_measured_from_the_floor_to_its_landmark(name: str) -> None:
    scene = scene_measuring(name)
    tape = named(scene, "tape")
    assert isinstance(tape, Span)
    assert tape.start[1] == 0.0
    assert tape.end[1] == dots(scene)[0][1]


def test_the_hip_joints_stand_0_72_of_the_front_points_apart() -> None:
    # Bell, Brand & Pedersen 1989, Human Movement Science 8:3-16.
    scene = scene_measuring("hip_spacing_mm")
    joints = [m.at[0] for m in scene.marks if isinstance(m, Dot) and m.role == "joint"]
    points = [x for x, _ in dots(scene)]
    assert (joints[1] - joints[0]) / (points[1] - points[0]) == pytest.approx(0.72, abs=0.01)


def test_edge_to_edge_is_drawn_as_far_as_middle_to_middle() -> None:
    scene = scene_measuring("neutral_spacing_mm")
    lengths = [m.end[0] - m.start[0] for m in scene.marks if isinstance(m, Span)]
    assert lengths == [250.0, 250.0]


def test_the_foot_is_as_long_as_the_tape_says() -> None:
    scene = scene_measuring("foot_length_mm")
    feet = [m for m in scene.marks if m.key.startswith(("foot", "toe.")) and isinstance(m, Area)]
    heights = [y for mark in feet for _, y in mark.points]
    tape = named(scene, "tape")
    assert isinstance(tape, Span)
    assert (min(heights), max(heights)) == pytest.approx((tape.start[1], tape.end[1]), abs=1.0)


def test_a_knee_that_bends_over_the_big_toe_tracks_inside() -> None:
    # A right foot from above with the toes up: its inner side is at the left.
    scene = scene_measuring("knee_tracking_deg")
    before, after = dots(scene)
    inside = named(scene, "word.inside")
    assert isinstance(inside, Label)
    assert after[0] < before[0]
    assert inside.at[0] < 0.0


def test_the_thickness_of_the_sole_is_drawn_as_the_first_reading_less_the_second() -> None:
    scene = scene_measuring("sole_thickness_mm")
    heights = {m.key: m.end[1] - m.start[1] for m in scene.marks if isinstance(m, Span)}
    assert heights["thickness"] == heights["outside"] - heights["inside"]


def test_the_lean_is_drawn_from_plumb_through_the_ankle_forward_to_the_knee() -> None:
    scene = scene_measuring("forward_lean_deg")
    plumb = named(scene, "plumb")
    ankle, knee = dots(scene)
    assert isinstance(plumb, Line)
    assert plumb.points[0] == ankle
    assert ankle[0] == plumb.points[1][0] < knee[0]


def test_a_curve_passes_through_its_points_and_a_cut_is_level() -> None:
    corners = ((0.0, 0.0), (10.0, 20.0), (30.0, 5.0))
    drawn = curve(corners)
    assert set(corners) <= set(drawn)
    assert max(y for _, y in below(ellipse((0.0, 0.0), 5.0, 9.0), 4.0)) == 4.0
