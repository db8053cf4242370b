"""The drawing of a wedge: plan with holes, two elevations, figures and the caution.

The views stand as in first-angle projection: over the plan, toes to the right,
the wedge from the right of the foot; beside that the wedge from the heel.

Figures stand bare in one unit, which the drawing names: inches for a rider who
chose them, since that is what their calliper shows, else millimetres.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from math import cos, degrees, hypot, pi, sin
from textwrap import wrap
from typing import Any

from numpy.typing import NDArray

from app.drawing.marks import Area, Dot, Label, Line, Mark, Point, Scene, Span, Window, outward
from app.features.wedge.units import PartLengths
from app.features.wedge.words import CAUTION, MILLIMETRES, Part, facts
from app.rider.inputs import FIELD
from app.words.language import tr
from app.words.sentences import spoken
from app.words.units import fixed
from geometry.hardware.plane import Spot, dot, minus
from geometry.hardware.wedge import Wedge
from geometry.hardware.wedge_problems import wedge_problems
from geometry.hardware.wedge_views import elevation

GAP = 44.0
"""Between two views (mm), with room for their dimension lines."""
SMALL_GAP = 64.0
"""Least room over the plan where the drawing is small (mm)."""
MARGIN = 30.0
"""Around all views (mm)."""
LINE = 9.0
"""Room for a line of the notes on the paper (mm): enough from 1.9 logical px to the mm on."""
STRAY = 12.0
"""How far outside the footprint a hole is still drawn (mm); beyond are other views and notes."""
LETTERS = (46, 120)
"""Letters in a line of the facts beside the plan, and of the caution under it."""


LEADING = 17.0
"""From line to line of the notes (logical px)."""
LEAST_RISE = 0.05
"""From the lowest to the highest place of a top that counts as sloped (mm)."""
ROUND = tuple((cos(0.05 * pi * i), sin(0.05 * pi * i)) for i in range(40))
"""A circle of radius 1; two dozen holes are drawn live while a mount is dragged."""


class Sheet:
    """Where the views of one wedge stand on the paper.

    In the plan the paper's x is ahead along the foot and its y to the foot's
    left, both from the binding's centre.
    """

    def __init__(
        self,
        part: Part,
        lengths: PartLengths,
        *,
        noted: bool = True,
    ) -> None:
        self.part = part
        self.lengths = lengths
        self.wedge = part.wedge
        self.hand = part.outer_side
        (self.back, low), (self.front, high) = self.wedge.footprint.bounds
        self.right, self.left = sorted((self.hand * low, self.hand * high))
        top = outward(max(self.wedge.thickest, 1.0), 10.0)
        gap = GAP if noted else self._small_gap
        self.base = self.left + gap
        end_at = self.front + (GAP if noted else 1.35 * gap) + self.left
        self.elevations = {"side": 0.0, "end": end_at}  # where the binding's centre is in each
        self.rise_at = self.front + (0.62 * GAP if noted else 0.5 * gap)
        self.facts, self.problems = _note_lines(part, lengths) if noted else ([], [])
        beside = self.left - LINE * (len(self.problems) + len(self.facts) + 2)
        self.notes_at = min(self.right - 1.3 * MARGIN, beside)
        self.window = Window(
            self.back - MARGIN,
            self.notes_at - LINE * (len(wrap(tr(CAUTION), LETTERS[1])) - 0.5),
            max(end_at - self.right + MARGIN, self.front + GAP + 100.0),
            self.base + top + 0.6 * MARGIN,
        )

    @property
    def _small_gap(self) -> float:
        """Room over the plan where the drawing is small (mm).

        Letters do not shrink with the drawing, so it grows with what shrinks it: a share
        of the height of both views, and of the width of all.
        """
        deep, long = self.left - self.right, self.front - self.back
        return max(SMALL_GAP, 0.58 * (deep + self.wedge.thickest), 0.2 * (long + deep))

    @property
    def drawn_holes(self) -> list[tuple[int, Spot]]:
        """Numbers and centres of the holes on the footprint or close to it."""
        (back, low), (front, high) = self.wedge.footprint.bounds
        return [
            (i + 1, (ahead, outer))
            for i, (ahead, outer) in enumerate(self.wedge.screws.centres)
            if back - STRAY <= ahead <= front + STRAY and low - STRAY <= outer <= high + STRAY
        ]

    @property
    def drawn_wedge(self) -> Wedge:
        """The wedge with those holes only."""
        centres = tuple(centre for _, centre in self.drawn_holes)
        return replace(self.wedge, screws=replace(self.wedge.screws, centres=centres))

    def plan(self, spot: Spot) -> Point:
        """A place of the wedge in the plan."""
        return spot[0], self.hand * spot[1]


def _note_lines(part: Part, lengths: PartLengths) -> list[list[str]]:
    """Facts and problems, broken into the lines that stand beside the plan."""
    problems = lengths.reasons(wedge_problems(part.wedge))
    told = [tr("Cannot be made: {problem}.", problem=problem) for problem in problems]
    return [_wrapped(facts(part, lengths)), _wrapped(told)]


def _wrapped(texts: Iterable[str]) -> list[str]:
    return [line for text in texts for line in wrap(text, LETTERS[0])]


def scene_wedge(part: Part, lengths: PartLengths = MILLIMETRES) -> Scene:
    """The drawing of one wedge, possible or not.

    Args:
        part: the wedge.
        lengths: writes its sizes.
    """
    sheet = Sheet(part, lengths.drawn)
    marks: list[Mark] = [*_plan(sheet), *_elevations(sheet), *_notes(sheet)]
    text = " ".join((part.title, *facts(part, sheet.lengths), tr(CAUTION)))
    return Scene("wedge", part.title, sheet.window, tuple(marks), text)


def scene_wedge_views(part: Part, *, elevations: bool, lengths: PartLengths = MILLIMETRES) -> Scene:
    """The plan, with or without the elevations, for a place too small for the notes."""
    sheet = Sheet(part, lengths.drawn, noted=False)
    marks = [*_plan(sheet), _unit_named(sheet)]
    right, top = sheet.front + GAP, sheet.left + 0.5 * MARGIN
    if elevations:
        marks += _elevations(sheet)
        right, top = sheet.window.right, sheet.window.top
    window = Window(sheet.back - MARGIN, sheet.right - MARGIN, right, top)
    text = " ".join((part.title, *facts(part, sheet.lengths)))
    return Scene("wedge.views", part.title, window, tuple(marks), text)


def _plan(sheet: Sheet) -> list[Mark]:
    wedge = sheet.wedge
    outline = [sheet.plan((a, o)) for a, o in wedge.footprint.outline().tolist()]
    marks: list[Mark] = [Area("plan", "part", tuple(outline))]
    marks += _centre_lines(sheet)
    marks += _rise(sheet)
    marks += _holes(sheet)
    marks += _corner_heights(sheet)
    marks += _plan_sizes(sheet)
    return marks


def _centre_lines(sheet: Sheet) -> list[Mark]:
    """The foot's two axes through the binding's centre, and which way is which."""
    back, front, right, left = sheet.back, sheet.front, sheet.right, sheet.left
    words = (tr("little-toe side"), tr("big-toe side"))
    above, below = words if sheet.hand > 0.0 else words[::-1]
    return [
        Line("axis.ahead", "centre", ((back - 8.0, 0.0), (front + 8.0, 0.0))),
        Line("axis.across", "centre", ((0.0, right - 3.0), (0.0, left + 3.0))),
        Label("word.toe", "word", (front, 0.0), tr("toe"), -1, (-8.0, -11.0)),
        Label("word.heel", "word", (back, 0.0), tr("heel"), 1, (8.0, -11.0)),
        Label("word.left", "word", (0.0, left), above, 0, (0.0, -15.0)),
        Label("word.right", "word", (0.0, right), below, 0, (0.0, 15.0)),
    ]


def _rise(sheet: Sheet) -> list[Mark]:
    """An arrow along which the top rises most, beside the plan."""
    wedge = sheet.wedge
    if wedge.thickest - wedge.thinnest < LEAST_RISE:
        return []
    reach, middle = 0.3 * GAP, (sheet.rise_at, 0.0)
    way = (cos(wedge.bearing), sheet.hand * sin(wedge.bearing))
    start, tip = (_along(middle, way, share * reach) for share in (-1.0, 1.0))
    side = (-way[1], way[0])
    left, right = (_along(_along(tip, way, -4.5), side, k) for k in (-1.8, 1.8))
    under = (middle[0], middle[1] - reach)
    slope = tr("up {slope}°", slope=fixed(degrees(wedge.slope), 1))
    return [
        Line("rise", "part.thin", (start, tip)),
        Line("rise.head", "part.thin", (left, tip, right)),
        Label("rise.slope", "part.word", under, slope, 0, (0.0, 14.0)),
    ]


def _along(start: Point, way: Point, distance: float) -> Point:
    return start[0] + distance * way[0], start[1] + distance * way[1]


def _holes(sheet: Sheet) -> list[Mark]:
    """Every hole with its recess and number; between the first ones of a grid their distances."""
    screws, marks = sheet.wedge.screws, list[Mark]()
    for number, centre in sheet.drawn_holes:
        if screws.sunk:
            rim = _circle(sheet, centre, screws.widest)
            marks.append(Area(f"head.{number}", "part.hole", rim))
        rim = _circle(sheet, centre, 0.5 * screws.diameter)
        marks.append(Area(f"hole.{number}", "part.hole", rim))
        marks.append(_number(sheet, number, centre))
    pairs = ((0, 1), (0, 2)) if _is_grid(screws.centres) else ()
    for i, j in pairs:
        start, end = (sheet.plan(screws.centres[k]) for k in (i, j))
        apart = sheet.lengths.size(hypot(end[0] - start[0], end[1] - start[1]))
        marks.append(Span(f"holes.{i + 1}.{j + 1}", "dimension", start, end, apart))
    return marks


def _is_grid(centres: tuple[Spot, ...]) -> bool:
    """Whether four holes stand square, so that the distances of two pairs tell all of them."""
    if len(centres) != 4:
        return False
    one, two, three, four = centres
    along, across = minus(two, one), minus(three, one)
    size, closed = hypot(*along) * hypot(*across), minus(minus(four, three), along)
    return size > 0.0 and abs(dot(along, across)) < 1e-3 * size and hypot(*closed) < 0.05


def _number(sheet: Sheet, number: int, centre: Spot) -> Mark:
    """The number of a hole, on the side of it that looks away from the binding's centre."""
    x, y = sheet.plan(centre)
    far = hypot(x, y)
    way = (x / far, y / far) if far > 1.0 else (0.6, 0.8)
    rim = _along((x, y), way, sheet.wedge.screws.widest)
    shift = (9.0 * way[0], -9.0 * way[1])
    return Label(f"hole.{number}.number", "part.word", rim, f"{number}", 0, shift)


def _circle(sheet: Sheet, centre: Spot, radius: float) -> tuple[Point, ...]:
    x, y = sheet.plan(centre)
    return tuple((x + radius * c, y + radius * s) for c, s in ROUND)


def _corner_heights(sheet: Sheet) -> list[Mark]:
    """The height of the top at every corner, written outside: a hole may take the room inside."""
    marks: list[Mark] = []
    wedge = sheet.wedge
    corners = zip(wedge.footprint.corners, wedge.corner_heights, strict=True)
    for i, (corner, height) in enumerate(corners):
        at = sheet.plan(corner.vertex)
        right, up = (1.0 if part >= 0.0 else -1.0 for part in at)
        marks += [
            Dot(f"corner.{i + 1}", "part.corner", sheet.plan(corner.at(0.5)), 2.0),
            Label(f"corner.{i + 1}.height", "part.word", at, sheet.lengths.figure(height),
                  int(right), (5.0 * right, -9.0 * up)),
        ]  # fmt: skip
    return marks


def _plan_sizes(sheet: Sheet) -> list[Mark]:
    """Length and width over all."""
    back, front, right, left = sheet.back, sheet.front, sheet.right, sheet.left
    length, width = (sheet.lengths.size(each) for each in (front - back, left - right))
    return [
        Span("length", "dimension", (back, right), (front, right), length, (0.0, -1.0), 2),
        Span("width", "dimension", (back, right), (back, left), width, (-1.0, 0.0), 2),
    ]


def _elevations(sheet: Sheet) -> list[Mark]:
    """The wedge from the right of the foot, over the plan, and from the heel, beside that."""
    ahead, outer = sheet.wedge.gradient
    lift = spoken(FIELD["front_lift_deg"], degrees(sheet.wedge.lift))
    cant = spoken(FIELD["front_cant_deg"], degrees(sheet.wedge.cant))
    side = tr("from the foot's right: {lift}", lift=lift)
    end = tr("from the heel: {cant}", cant=cant)
    return [
        *_elevation(sheet, "side", (1.0, 0.0), side, rises_away=sheet.hand * outer >= 0.0),
        *_elevation(sheet, "end", (0.0, -sheet.hand), end, rises_away=ahead >= 0.0),
    ]


def _elevation(sheet: Sheet, key: str, across: Spot, title: str, *, rises_away: bool) -> list[Mark]:
    """The marks of one elevation.

    Args:
        sheet: where it stands.
        key: "side" or "end".
        across: what lies to the right in it, ahead along the foot and to the little-toe side.
        title: what stands under it.
        rises_away: whether the top is seen from there, rather than its far edge hidden.
    """
    seen, corner = elevation(sheet.drawn_wedge, across), (sheet.elevations[key], sheet.base)

    def placed(points: NDArray[Any]) -> tuple[Point, ...]:
        return tuple((x, y) for x, y in (points + corner).tolist())

    outline, rim = placed(seen.silhouette), placed(seen.rim)
    left, right, top_right, top_left = *outline[:3], outline[-1]
    heights = (sheet.lengths.figure(float(seen.silhouette[i, 1])) for i in (-1, 2))
    middle = (0.5 * (left[0] + right[0]), sheet.base)
    return [
        Area(key, "part.face", outline),
        *(
            Line(f"{key}.hidden.{i + 1}", "part.hidden", placed(line))
            for i, line in enumerate(seen.hidden)
        ),
        Line(f"{key}.rim", "part.thin" if rises_away else "part.hidden", (*rim, rim[0])),
        Line(f"{key}.outline", "part", (*outline, left)),
        Label(f"{key}.title", "word", middle, title, 0, (0.0, 24.0)),
        Span(f"{key}.left", "dimension", left, top_left, next(heights), (-1.0, 0.0), 1),
        Span(f"{key}.right", "dimension", right, top_right, next(heights), (1.0, 0.0), 1),
    ]


def _unit_named(sheet: Sheet) -> Mark:
    """Which unit the bare figures are in, beside the dimension line of the length."""
    return Label("unit", "word", (sheet.front, sheet.right), sheet.lengths.name, 1, (4.0, 36.0))


def _notes(sheet: Sheet) -> list[Mark]:
    """The facts beside the plan and the caution under it, line by line."""
    beside, under = (sheet.front + GAP, sheet.left), (sheet.back - 0.5 * MARGIN, sheet.notes_at)
    return [
        Label("title", "part.title", beside, sheet.part.title, 1, (0.0, -6.0)),
        *_lines("problem", "caution", beside, ["", *sheet.problems]),
        *_lines("fact", "part.word", beside, ["", *([""] * len(sheet.problems)), *sheet.facts]),
        *_lines("caution", "caution", under, wrap(tr(CAUTION), LETTERS[1])),
    ]


def _lines(key: str, role: str, at: Point, lines: list[str]) -> list[Mark]:
    return [
        Label(f"{key}.{i + 1}", role, at, line, 1, (0.0, LEADING * i))
        for i, line in enumerate(lines)
        if line
    ]
