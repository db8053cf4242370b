"""The drawing of the parts from above: each high side where the words say it lies."""

from __future__ import annotations

from math import atan2, degrees, hypot

import pytest
from parts_riders import parts_of, rad, turnable

from app.drawing.marks import Dot, Line, Mark
from app.drawing.styles import style
from app.drawing.theme import LIGHT
from app.features.parts.scene import APART, LARGEST, SMALLER, scene_parts
from app.rider.inputs import DEFAULTS, changed
from geometry import FRONT
from geometry.hardware.parts import bearing_on_board
from geometry.hardware.stacks import Built, Setting

TURNS, STAYS = parts_of(turnable()), parts_of(turnable(), turns_with_binding=False)


def on(*bearings_deg: float) -> Built:
    settings = tuple(Setting(turnable(), rad(each), 0.0) for each in bearings_deg)
    return Built(settings, 0.0, 0.0, 0.0)


def mark(marks: tuple[Mark, ...], key: str) -> Mark:
    return next(each for each in marks if each.key == key)


def from_the_toe(point: tuple[float, float], middle: float) -> tuple[float, float]:
    """Clockwise from straight up (degrees), and how far from the middle (mm)."""
    x, y = point[0] - middle, point[1]
    return degrees(atan2(x, y)), hypot(x, y)


@pytest.mark.parametrize("lead", ["left", "right"])
@pytest.mark.parametrize("bearing", [-120.0, -30.0, 0.0, 60.0, 90.0, 180.0])
def test_the_little_toe_side_is_the_outer_one_of_both_feet(lead: str, bearing: float) -> None:
    inputs = changed(DEFAULTS, lead_foot=lead)
    marks = scene_parts((on(bearing), on(bearing)), inputs, TURNS).marks
    for end, left in (("front", lead == "left"), ("rear", lead == "right")):
        dot = mark(marks, f"{end}.part0.point")
        assert isinstance(dot, Dot)
        hand = -1.0 if left else 1.0
        turned, away = from_the_toe(dot.at, hand * 0.5 * APART)
        assert turned % 360.0 == pytest.approx(hand * bearing % 360.0)
        assert away == pytest.approx(LARGEST)


def test_an_upper_part_is_drawn_within_the_lower_one() -> None:
    marks = scene_parts((on(0.0, 90.0), on()), DEFAULTS, TURNS).marks
    upper = mark(marks, "front.part1.point")
    assert isinstance(upper, Dot)
    assert from_the_toe(upper.at, -0.5 * APART) == pytest.approx((-90.0, LARGEST - SMALLER))
    assert mark(marks, "rear.flat")


def test_the_toe_edge_is_shown_for_parts_that_stay_on_the_board_alone() -> None:
    pair = on(20.0), on(20.0)
    shown = scene_parts(pair, DEFAULTS, STAYS).marks
    way = mark(shown, "front.across")
    assert isinstance(way, Line)
    turned, _ = from_the_toe(way.points[1], -0.5 * APART)
    # The left foot in front is turned to the nose, on the little-toe side: so the toe edge
    # lies as far to the big-toe side, clockwise of a left toe.
    assert turned == pytest.approx(DEFAULTS.front_angle_deg)
    assert bearing_on_board(rad(-turned), rad(DEFAULTS.front_angle_deg), FRONT) == pytest.approx(0)
    assert not any("across" in each.key for each in scene_parts(pair, DEFAULTS, TURNS).marks)


def test_every_mark_has_a_style_and_a_name_of_its_own() -> None:
    marks = scene_parts((on(10.0, 20.0), on()), DEFAULTS, STAYS).marks
    assert all(style(LIGHT, each.role) for each in marks)
    assert len({each.key for each in marks}) == len(marks)
