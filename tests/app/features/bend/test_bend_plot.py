"""The diagram of the off-plane angles through the bend, by its marks."""

from __future__ import annotations

from dataclasses import replace
from math import degrees

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.drawing.marks import Dot, Label, Line, Scene
from app.drawing.styles import style
from app.drawing.theme import LIGHT
from app.features.bend.model import bend_of
from app.features.bend.scene import WIDTH, axes_for, scene_bend
from app.rider.inputs import Inputs, changed, model
from app.stance.findings import USUAL_LIMITS
from geometry import solve

NOWHERE = changed(
    Inputs(),
    stance_length_mm=800,
    across_spacing_mm=600,
    hip_height_mm=450,
    knee_height_mm=250,
)


def off_plane(inputs: Inputs) -> tuple[float, float]:
    front, rear = solve(*model(inputs)).legs
    return degrees(float(front.off_plane)), degrees(float(rear.off_plane))


def largest(inputs: Inputs) -> float:
    """The largest angle that the diagram has to show."""
    angles = bend_of(inputs).over_bend.off_plane
    return max(float(np.nanmax(np.abs(angles))), 1.4 * USUAL_LIMITS.drifting_deg)


def drawn(inputs: Inputs) -> Scene:
    return scene_bend(inputs, off_plane(inputs), USUAL_LIMITS)


@pytest.mark.parametrize("hips_turned", [0.0, 25.0])
def test_each_point_of_a_curve_is_the_posture_solved_there(hips_turned: float) -> None:
    inputs = Inputs(hips_turned_deg=hips_turned, hip_shift_mm=20.0, rear_cant_deg=3.0)
    scene = drawn(inputs)
    (height,) = {m.points[2][1] for m in scene.marks if m.key == "frame" and isinstance(m, Line)}
    axes = axes_for(largest(inputs), inputs.knee_bend_deg, height)
    for leg, name in enumerate(("front", "rear")):
        (curve,) = (m for m in scene.marks if m.key == f"{name}.curve.0" and isinstance(m, Line))
        for x, y in curve.points[::12]:
            bend = axes.deepest * x / WIDTH
            there = off_plane(replace(inputs, knee_bend_deg=bend))[leg]
            assert axes.at(bend, there) == pytest.approx((x, y), abs=1e-6)


def test_the_dots_stand_on_the_present_bend_at_the_present_angles() -> None:
    inputs = Inputs(knee_bend_deg=60.0)
    scene = drawn(inputs)
    axes = axes_for(largest(inputs), 60.0, 50.0)
    dots = {mark.key: mark.at for mark in scene.marks if isinstance(mark, Dot)}
    front, rear = off_plane(inputs)
    assert dots == {"front.now": axes.at(60.0, front), "rear.now": axes.at(60.0, rear)}


@given(st.floats(0.0, 90.0), st.floats(5.0, 110.0))
def test_the_axes_show_every_angle_and_bend_in_a_few_round_steps(
    largest: float, bend: float
) -> None:
    axes = axes_for(largest, bend, 50.0)
    assert axes.most >= largest
    assert axes.deepest >= bend
    assert 2 <= axes.most / axes.step <= 5
    assert axes.at(0.0, axes.most) == (0.0, 50.0)
    assert axes.at(axes.deepest, 0.0) == (WIDTH, 25.0)


def test_curves_stay_inside_the_frame_and_are_told_apart_without_colour() -> None:
    scene = drawn(Inputs(front_angle_deg=0.0, rear_angle_deg=0.0, stance_length_mm=600.0))
    lines = [mark for mark in scene.marks if isinstance(mark, Line) and ".curve" in mark.key]
    assert {line.role for line in lines} == {"front.curve", "rear.curve"}
    assert all(-1e-9 <= y <= 50.0 + 1e-9 for line in lines for _, y in line.points)
    assert style(LIGHT, "front.curve").dash != style(LIGHT, "rear.curve").dash
    assert {m.text for m in scene.marks if isinstance(m, Label)} >= {"front", "rear", "bow-legged"}


def test_where_nothing_settles_there_are_axes_and_no_curve() -> None:
    scene = drawn(NOWHERE)
    assert not [mark for mark in scene.marks if "curve" in mark.key or isinstance(mark, Dot)]
    assert scene.text == "No posture settles at any bend."


def test_the_words_tell_the_range_and_the_worst_of_each_knee() -> None:
    worst = np.nanmax(np.abs(bend_of(Inputs()).over_bend.off_plane[1]))
    assert f"the rear knee {worst:.1f}°" in drawn(Inputs()).text


def test_every_role_has_its_style_and_every_mark_its_own_key() -> None:
    marks = drawn(Inputs()).marks
    assert all(style(LIGHT, mark.role) for mark in marks)
    assert len({mark.key for mark in marks}) == len(marks)
