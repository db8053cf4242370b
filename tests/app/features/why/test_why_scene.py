"""What a reasoning draws into the views."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from math import atan2, degrees, dist

import pytest

from app.drawing.marks import Area, Line, Span
from app.drawing.styles import style
from app.drawing.theme import DARK, LIGHT
from app.features.why.model import rule_of, spacing_of
from app.features.why.scene import marks_of
from app.frame import Frame, frame
from app.rider.inputs import changed
from app.rider.setup import DEMO
from app.stance.answer import answer_of
from app.stance.topics import TOPICS, Asked

EVERY = [Asked(leg, topic) for leg in ("front", "rear") for topic in TOPICS]


def standing(**changes: float | str) -> Frame:
    return frame(replace(DEMO, inputs=changed(DEMO.inputs, **changes)))


def drawn(shown: Frame, leg: str, topic: str) -> dict[str, tuple[object, ...]]:
    return dict(marks_of(shown, Asked(leg, topic), answer_of(shown.setup)))


@pytest.mark.parametrize("asked", EVERY)
@pytest.mark.parametrize("lead", ["left", "right"])
def test_each_topic_draws_something_that_every_theme_has_a_look_for(
    asked: Asked, lead: str
) -> None:
    shown = standing(lead_foot=lead)
    more = marks_of(shown, asked, answer_of(shown.setup))
    assert more
    marked = shown.marked(more)
    for key, marks in more.items():
        assert marked.scenes[key].marks[-len(marks) :] == marks
        assert marked.scenes[key].window == shown.scenes[key].window
        for mark in marks:
            assert mark.key.startswith("why.")
            assert style(LIGHT, mark.role) != style(DARK, mark.role)
    untouched = set(shown.scenes) - set(more)
    assert all(marked.scenes[key] is shown.scenes[key] for key in untouched)


@pytest.mark.parametrize(
    "changes",
    [
        {},
        {"front_angle_deg": 15.0, "rear_angle_deg": -15.0},
        {"across_spacing_mm": 150.0},
        {"lead_foot": "right"},
    ],
)
def test_the_spacing_is_a_right_triangle_to_scale(changes: dict[str, float | str]) -> None:
    shown = standing(**changes)
    at = spacing_of(shown)
    (area,) = [mark for mark in drawn(shown, "front", "spacing")["above"] if isinstance(mark, Area)]
    rear, corner, front = area.points
    assert dist(rear, corner) == pytest.approx(abs(at.ahead))
    assert dist(corner, front) == pytest.approx(abs(at.apart))
    spans = {m.key: m for m in drawn(shown, "front", "spacing")["above"] if isinstance(m, Span)}
    assert spans["why.apart"].text == shown.lengths.text(at.apart, 0)


@pytest.mark.parametrize("leg", ["front", "rear"])
def test_the_rule_is_a_triangle_with_the_cant_at_its_top(leg: str) -> None:
    shown = standing(front_angle_deg=30.0, rear_angle_deg=30.0)
    marks = drawn(shown, leg, "rule")["front"]
    (area,) = [mark for mark in marks if isinstance(mark, Area)]
    natural, foot, top = area.points
    rule = rule_of(shown, leg)
    assert top[1] - natural[1] == pytest.approx(rule.hip)
    assert abs(foot[0] - natural[0]) == pytest.approx(abs(rule.half))
    slope = degrees(atan2(abs(foot[0] - natural[0]), top[1] - natural[1]))
    assert slope == pytest.approx(rule.cant_deg)


def test_the_arc_of_the_boot_sweeps_from_the_sole_to_the_shank() -> None:
    shown = standing(front_angle_deg=0.0, rear_angle_deg=0.0)
    lines = {m.key: m.points for m in drawn(shown, "rear", "boot")["side"] if isinstance(m, Line)}
    ankle = lines["why.square"][0]
    arc = lines["why.flex"]
    start, end = ((x - ankle[0], y - ankle[1]) for x, y in (arc[0], arc[-1]))
    swept = degrees(atan2(end[0], end[1]) - atan2(start[0], start[1]))
    # The plane of the knee leans a little out of the paper.
    assert abs(swept) == pytest.approx(shown.findings.legs["rear"].boot_flex_deg, abs=0.3)
    assert all(dist(ankle, a) == pytest.approx(dist(ankle, b), rel=0.01) for a, b in pairwise(arc))


def test_without_a_posture_only_the_straight_triangles_are_drawn() -> None:
    shown = standing(stance_length_mm=800.0, knee_bend_deg=5.0)
    for topic in TOPICS:
        there = marks_of(shown, Asked("front", topic), None)
        assert bool(there) == (topic in {"spacing", "rule"})
