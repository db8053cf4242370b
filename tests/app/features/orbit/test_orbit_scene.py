"""Both legs from any side: the same as the other views where those look, and never inside out."""

from __future__ import annotations

from math import dist

import pytest

from app.drawing.front import front_view
from app.drawing.marks import Area, Line
from app.drawing.projection import View
from app.drawing.side import side_view
from app.features.orbit.scene import (
    HOME,
    Look,
    figures_of,
    scene_orbit,
    standard_looks,
    view_of,
)
from app.frame import Frame, frame
from app.rider.inputs import DEFAULTS, Inputs, changed
from app.rider.setup import Setup

INPUTS = changed(DEFAULTS, front_lift_deg=6.0, rear_cant_deg=5.0, hips_turned_deg=12.0)
BOTH = [INPUTS, changed(INPUTS, lead_foot="right")]
EVERY_SIDE = [Look(a, e) for a in range(-180, 180, 30) for e in (-30.0, 0.0, 40.0, 90.0)]


def framed(inputs: Inputs) -> Frame:
    return frame(Setup(inputs=inputs))


def same(one: View, other: View) -> bool:
    return all(dist(a, b) < 1e-12 for a, b in zip(one, other, strict=True))


@pytest.mark.parametrize("inputs", BOTH, ids=["regular", "goofy"])
def test_the_standard_looks_are_those_of_the_other_views(inputs: Inputs) -> None:
    looks = standard_looks(inputs)
    assert same(view_of(inputs, looks["front"]), front_view(inputs, "facing"))
    assert same(view_of(inputs, looks["side"]), side_view(inputs))
    plan = View(right=(0.0, inputs.hand, 0.0), up=(1.0, 0.0, 0.0), toward=(0.0, 0.0, 1.0))
    assert same(view_of(inputs, looks["above"]), plan)


@pytest.mark.parametrize("inputs", BOTH, ids=["regular", "goofy"])
def test_a_look_neither_stretches_nor_shears(inputs: Inputs) -> None:
    for look in EVERY_SIDE:
        view = view_of(inputs, look)
        for i, one in enumerate(view):
            for j, other in enumerate(view):
                dot = sum(a * b for a, b in zip(one, other, strict=True))
                assert dot == pytest.approx(float(i == j), abs=1e-12)


def test_the_knee_line_is_seen_where_the_other_views_draw_it() -> None:
    shown = framed(INPUTS)
    figures = figures_of(shown)
    for name, key in (("front", "front"), ("side", "side")):
        scene = scene_orbit(shown, figures, standard_looks(INPUTS)[name])
        for leg in ("front", "rear"):
            here, there = (
                next(m for m in s.marks if isinstance(m, Line) and m.key == f"{leg}.bones").points
                for s in (scene, shown.scenes[key])
            )
            assert all(dist(a, b) < 1e-9 for a, b in zip(here, there, strict=True))


def test_within_a_leg_a_cuff_hides_its_shank_and_never_the_other_way_round() -> None:
    shown = framed(INPUTS)
    for look in EVERY_SIDE:
        keys = [mark.key for mark in scene_orbit(shown, figures_of(shown), look).marks]
        for leg in ("front", "rear"):
            shank, cuff = keys.index(f"{leg}.shank"), keys.index(f"{leg}.cuff")
            assert (shank < cuff) == (look.above_deg >= 0.0)
            order = [keys.index(f"{leg}.{part}") for part in ("plate", "sole", "shell")]
            assert (order == sorted(order)) == (look.above_deg >= 0.0)


def test_the_nearer_leg_is_painted_over_the_other() -> None:
    shown = framed(INPUTS)
    for look, near in ((Look(90.0, 0.0), "front"), (Look(-90.0, 0.0), "rear")):
        keys = [mark.key for mark in scene_orbit(shown, figures_of(shown), look).marks]
        far = "rear" if near == "front" else "front"
        assert keys.index(f"{near}.sole") > keys.index(f"{far}.cuff")


def test_the_board_lies_under_the_feet_from_above_and_before_them_from_below() -> None:
    shown = framed(INPUTS)
    for above, first in ((30.0, True), (-25.0, False)):
        keys = [m.key for m in scene_orbit(shown, figures_of(shown), Look(20.0, above)).marks]
        assert (keys.index("board") < keys.index("front.sole")) == first


def test_one_window_shows_all_of_it_from_every_side() -> None:
    shown = framed(INPUTS)
    sizes = set()
    for look in EVERY_SIDE:
        scene = scene_orbit(shown, figures_of(shown), look)
        sizes.add((round(scene.window.width, 6), round(scene.window.height, 6)))
        for mark in scene.marks:
            if isinstance(mark, Area) and "plane" not in mark.key and "wedge" not in mark.key:
                for x, y in mark.points:
                    assert scene.window.left <= x <= scene.window.right, (look, mark.key)
                    assert scene.window.bottom <= y <= scene.window.top, (look, mark.key)
    assert len(sizes) == 1


def test_boots_and_board_are_drawn_without_a_posture() -> None:
    shown = framed(
        changed(
            DEFAULTS,
            front_angle_deg=80.0,
            rear_angle_deg=-20.0,
            knee_bend_deg=10.0,
            stance_length_mm=700.0,
        )
    )
    keys = {mark.key for mark in scene_orbit(shown, figures_of(shown), HOME).marks}
    assert {"board", "front.sole", "rear.sole"} <= keys


def test_the_picture_is_told_in_words() -> None:
    shown = framed(INPUTS)
    text = scene_orbit(shown, figures_of(shown), HOME).text
    assert "35° round" in text
    assert all(leg.headline in text for leg in shown.findings.legs.values())
