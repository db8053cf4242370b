"""The drawing of a wedge: plan with holes, two elevations, figures and the caution.

The views stand as in first-angle projection: over the plan, toes to the right,
the wedge from the right of the foot; beside that the wedge from the heel.
"""

from __future__ import annotations

from math import cos, degrees, hypot, pi, sin
from textwrap import wrap

from app.inputs import FIELD
from app.scenes.elevation import elevation_marks
from app.scenes.marks import Area, Dot, Label, Line, Mark, Point, Scene, Span, Window
from app.scenes.steps import outward
from app.tools.wedge_words import CAUTION, Part, facts
from app.words import plain, spoken
from geometry.hardware.plane import Spot
from geometry.hardware.wedge_problems import wedge_problems
from geometry.hardware.wedge_views import elevation

GAP = 44.0
"""Between two views (mm), with room for their dimension lines."""
APART = 76.0
"""Between the two elevations where the drawing is small (mm): letters do not shrink with it."""
MARGIN = 30.0
"""Around all views (mm)."""
LEADING = 17.0
"""From line to line of the notes (logical px)."""
LINE = 9.0
"""Room for a line of the notes on the paper (mm): enough from 1.9 logical px to the mm on."""
LEAST_RISE = 0.05
"""From the lowest to the highest place of a top that counts as sloped (mm)."""
LETTERS = (46, 120)
"""Letters in a line of the facts beside the plan, and of the caution under it."""


def scene_wedge(part: Part) -> Scene:
    """The drawing of one wedge, in mm; possible or not."""
    sheet = _Sheet(part)
    marks: list[Mark] = [*_plan(sheet), *_side(sheet), *_end(sheet), *_notes(sheet)]
    text = " ".join((part.title, *facts(part), CAUTION))
    return Scene("wedge", part.title, sheet.window, tuple(marks), text)


def scene_wedge_views(part: Part, *, elevations: bool) -> Scene:
    """The plan, with or without the elevations, for a place too small for the notes."""
    sheet = _Sheet(part, APART, noted=False)
    marks = _plan(sheet)
    right, top = sheet.front + GAP, sheet.left + 0.5 * MARGIN
    if elevations:
        marks += [*_side(sheet), *_end(sheet)]
        right, top = sheet.window.right, sheet.window.top
    window = Window(sheet.back - MARGIN, sheet.right - MARGIN, right, top)
    text = " ".join((part.title, *facts(part)))
    return Scene("wedge.views", part.title, window, tuple(marks), text)


class _Sheet:
    """Where the views of one wedge stand on the paper.

    In the plan the paper's x is ahead along the foot and its y to the foot's
    left, both from the binding's centre.
    """

    def __init__(self, part: Part, apart: float = GAP, *, noted: bool = True) -> None:
        self.part = part
        self.wedge = part.wedge
        self.hand = part.outer_side
        (self.back, low), (self.front, high) = self.wedge.footprint.bounds
        self.right, self.left = sorted((self.hand * low, self.hand * high))
        top = outward(max(self.wedge.thickest, 1.0), 10.0)
        self.base = self.left + GAP
        self.end_at = self.front + apart + self.left
        self.facts, self.problems = _note_lines(part) if noted else ([], [])
        beside = self.left - LINE * (len(self.problems) + len(self.facts) + 2)
        self.notes_at = min(self.right - 1.3 * MARGIN, beside)
        self.window = Window(
            self.back - MARGIN,
            self.notes_at - LINE * (len(wrap(CAUTION, LETTERS[1])) - 0.5),
            max(self.end_at - self.right + MARGIN, self.front + GAP + 100.0),
            self.base + top + 0.6 * MARGIN,
        )

    def plan(self, spot: Spot) -> Point:
        """A place of the wedge in the plan."""
        return spot[0], self.hand * spot[1]

    def side(self, p: Point) -> Point:
        """A point of the elevation from the foot's right."""
        return p[0], self.base + p[1]

    def end(self, p: Point) -> Point:
        """A point of the elevation from the heel."""
        return self.end_at + p[0], self.base + p[1]


def _note_lines(part: Part) -> tuple[list[str], list[str]]:
    """Facts and problems, broken into the lines that stand beside the plan."""
    told = (f"Cannot be made: {problem}." for problem in wedge_problems(part.wedge))
    return (
        [line for fact in facts(part) for line in wrap(fact, LETTERS[0])],
        [line for problem in told for line in wrap(problem, LETTERS[0])],
    )


def _plan(sheet: _Sheet) -> list[Mark]:
    wedge = sheet.wedge
    outline = [sheet.plan((a, o)) for a, o in wedge.footprint.outline().tolist()]
    marks: list[Mark] = [Area("plan", "part", tuple(outline))]
    marks += _centre_lines(sheet)
    marks += _rise(sheet)
    marks += _holes(sheet)
    marks += _corner_heights(sheet)
    marks += _plan_sizes(sheet)
    return marks


def _centre_lines(sheet: _Sheet) -> list[Mark]:
    """The foot's two axes through the binding's centre, and which way is which."""
    back, front, right, left = sheet.back, sheet.front, sheet.right, sheet.left
    words = ("little-toe side", "big-toe side")
    above, below = words if sheet.hand > 0.0 else words[::-1]
    return [
        Line("axis.ahead", "centre", ((back - 8.0, 0.0), (front + 8.0, 0.0))),
        Line("axis.across", "centre", ((0.0, right - 8.0), (0.0, left + 8.0))),
        Label("word.toe", "word", (front, 0.0), "toe", -1, (-8.0, -11.0)),
        Label("word.heel", "word", (back, 0.0), "heel", 1, (8.0, -11.0)),
        Label("word.left", "word", (0.0, left), above, 1, (8.0, -13.0)),
        Label("word.right", "word", (0.0, right), below, 1, (8.0, 13.0)),
    ]


def _rise(sheet: _Sheet) -> list[Mark]:
    """An arrow along which the top rises most, beside the plan."""
    wedge = sheet.wedge
    if wedge.thickest - wedge.thinnest < LEAST_RISE:
        return []
    reach, middle = 0.3 * GAP, (sheet.front + 0.5 * GAP, 0.0)
    way = (cos(wedge.bearing), sheet.hand * sin(wedge.bearing))
    start, tip = (_along(middle, way, share * reach) for share in (-1.0, 1.0))
    side = (-way[1], way[0])
    left, right = (_along(_along(tip, way, -4.5), side, k) for k in (-1.8, 1.8))
    under, slope = (middle[0], middle[1] - reach), f"up {degrees(wedge.slope):.1f}°"
    return [
        Line("rise", "part.thin", (start, tip)),
        Line("rise.head", "part.thin", (left, tip, right)),
        Label("rise.slope", "part.word", under, slope, 0, (0.0, 14.0)),
    ]


def _along(start: Point, way: Point, distance: float) -> Point:
    return start[0] + distance * way[0], start[1] + distance * way[1]


def _holes(sheet: _Sheet) -> list[Mark]:
    """Every hole with its recess and number; between the first ones their distances."""
    screws, marks = sheet.wedge.screws, list[Mark]()
    for i, centre in enumerate(screws.centres):
        if screws.sunk:
            rim = _circle(sheet, centre, screws.widest)
            marks.append(Area(f"head.{i + 1}", "part.hole", rim))
        rim = _circle(sheet, centre, 0.5 * screws.diameter)
        marks.append(Area(f"hole.{i + 1}", "part.hole", rim))
        marks.append(_number(sheet, i))
    pairs = ((0, 1), (0, 2)) if len(screws.centres) == 4 else ()
    for i, j in pairs:
        start, end = (sheet.plan(screws.centres[k]) for k in (i, j))
        apart = hypot(end[0] - start[0], end[1] - start[1])
        marks.append(Span(f"holes.{i + 1}.{j + 1}", "dimension", start, end, plain(apart)))
    return marks


def _number(sheet: _Sheet, i: int) -> Mark:
    """The number of a hole, on the side of it that looks away from the centre."""
    x, y = sheet.plan(sheet.wedge.screws.centres[i])
    far = hypot(x, y)
    way = (x / far, y / far) if far > 1.0 else (0.6, 0.8)
    rim = _along((x, y), way, sheet.wedge.screws.widest)
    return Label(
        f"hole.{i + 1}.number", "part.word", rim, f"{i + 1}", 0, (9.0 * way[0], -9.0 * way[1])
    )


def _circle(sheet: _Sheet, centre: Spot, radius: float) -> tuple[Point, ...]:
    turns = [0.05 * pi * i for i in range(40)]
    return tuple(
        sheet.plan((centre[0] + radius * cos(t), centre[1] + radius * sin(t))) for t in turns
    )


def _corner_heights(sheet: _Sheet) -> list[Mark]:
    """The height of the top at every corner, written inside it."""
    marks: list[Mark] = []
    wedge = sheet.wedge
    for i, (spot, height) in enumerate(zip(wedge.corner_spots, wedge.corner_heights, strict=True)):
        at = sheet.plan(spot)
        right, up = (1.0 if part >= 0.0 else -1.0 for part in at)
        marks += [
            Dot(f"corner.{i + 1}", "part.corner", at, 2.0),
            Label(f"corner.{i + 1}.height", "part.word", at, f"{height:.1f}", -int(right),
                  (-8.0 * right, 11.0 * up)),
        ]  # fmt: skip
    return marks


def _plan_sizes(sheet: _Sheet) -> list[Mark]:
    """Length and width over all."""
    back, front, right, left = sheet.back, sheet.front, sheet.right, sheet.left
    length, width = plain(front - back), plain(left - right)
    return [
        Span("length", "dimension", (back, right), (front, right), length, (0.0, -1.0), 3),
        Span("width", "dimension", (back, right), (back, left), width, (-1.0, 0.0), 2),
    ]


def _side(sheet: _Sheet) -> list[Mark]:
    """The wedge from the right of the foot, over the plan."""
    lift = spoken(FIELD["front_lift_deg"], degrees(sheet.wedge.lift))
    rises_away = sheet.hand * sheet.wedge.gradient[1] >= 0.0
    seen = elevation(sheet.wedge, (1.0, 0.0))
    return elevation_marks("side", seen, sheet.side, f"from the foot's right: {lift}", rises_away)


def _end(sheet: _Sheet) -> list[Mark]:
    """The wedge from the heel, beside that."""
    cant = spoken(FIELD["front_cant_deg"], degrees(sheet.wedge.cant))
    rises_away = sheet.wedge.gradient[0] >= 0.0
    seen = elevation(sheet.wedge, (0.0, -sheet.hand))
    return elevation_marks("end", seen, sheet.end, f"from the heel: {cant}", rises_away)


def _notes(sheet: _Sheet) -> list[Mark]:
    """The facts beside the plan and the caution under it, line by line."""
    beside, under = (sheet.front + GAP, sheet.left), (sheet.back - 0.5 * MARGIN, sheet.notes_at)
    return [
        Label("title", "part.title", beside, sheet.part.title, 1, (0.0, -6.0)),
        *_lines("problem", "caution", beside, ["", *sheet.problems]),
        *_lines("fact", "part.word", beside, ["", *([""] * len(sheet.problems)), *sheet.facts]),
        *_lines("caution", "caution", under, wrap(CAUTION, LETTERS[1])),
    ]


def _lines(key: str, role: str, at: Point, lines: list[str]) -> list[Mark]:
    return [
        Label(f"{key}.{i + 1}", role, at, line, 1, (0.0, LEADING * i))
        for i, line in enumerate(lines)
        if line
    ]
