"""The drawing of a wedge: plan with holes, two elevations, figures and the caution.

The views stand as in first-angle projection: over the plan, toes to the right,
the wedge from the right of the foot; beside that the wedge from the heel.

Figures stand bare in one unit, which the drawing names: inches for a rider who
chose them, since that is what their calliper shows, else millimetres.
"""

from __future__ import annotations

from math import cos, degrees, hypot, pi, sin
from textwrap import wrap

from app.drawing.marks import Area, Dot, Label, Line, Mark, Point, Scene, Span, Window
from app.features.wedge.scene_layout import GAP, LETTERS, MARGIN, Sheet, elevation_marks
from app.features.wedge.units import PartLengths
from app.features.wedge.words import CAUTION, MILLIMETRES, Part, facts
from app.rider.inputs import FIELD
from app.words.language import tr
from app.words.sentences import spoken
from app.words.units import fixed
from geometry.hardware.plane import Spot, dot, minus
from geometry.hardware.wedge_views import elevation

LEADING = 17.0
"""From line to line of the notes (logical px)."""
LEAST_RISE = 0.05
"""From the lowest to the highest place of a top that counts as sloped (mm)."""
ROUND = tuple((cos(0.05 * pi * i), sin(0.05 * pi * i)) for i in range(40))
"""A circle of radius 1; two dozen holes are drawn live while a mount is dragged."""


def scene_wedge(part: Part, lengths: PartLengths = MILLIMETRES) -> Scene:
    """The drawing of one wedge, possible or not.

    Args:
        part: the wedge.
        lengths: writes its sizes.
    """
    sheet = Sheet(part, lengths.drawn)
    marks: list[Mark] = [*_plan(sheet), *_side(sheet), *_end(sheet), *_notes(sheet)]
    text = " ".join((part.title, *facts(part, sheet.lengths), tr(CAUTION)))
    return Scene("wedge", part.title, sheet.window, tuple(marks), text)


def scene_wedge_views(part: Part, *, elevations: bool, lengths: PartLengths = MILLIMETRES) -> Scene:
    """The plan, with or without the elevations, for a place too small for the notes."""
    sheet = Sheet(part, lengths.drawn, noted=False)
    marks = [*_plan(sheet), _unit_named(sheet)]
    right, top = sheet.front + GAP, sheet.left + 0.5 * MARGIN
    if elevations:
        marks += [*_side(sheet), *_end(sheet)]
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


def _side(sheet: Sheet) -> list[Mark]:
    """The wedge from the right of the foot, over the plan."""
    lift = spoken(FIELD["front_lift_deg"], degrees(sheet.wedge.lift))
    return elevation_marks(
        "side",
        elevation(sheet.drawn_wedge, (1.0, 0.0)),
        sheet.side,
        tr("from the foot's right: {lift}", lift=lift),
        rises_away=sheet.hand * sheet.wedge.gradient[1] >= 0.0,
        figure=sheet.lengths.figure,
    )


def _end(sheet: Sheet) -> list[Mark]:
    """The wedge from the heel, beside that."""
    cant = spoken(FIELD["front_cant_deg"], degrees(sheet.wedge.cant))
    return elevation_marks(
        "end",
        elevation(sheet.drawn_wedge, (0.0, -sheet.hand)),
        sheet.end,
        tr("from the heel: {cant}", cant=cant),
        rises_away=sheet.wedge.gradient[0] >= 0.0,
        figure=sheet.lengths.figure,
    )


def _unit_named(sheet: Sheet) -> Mark:
    """Which unit the bare figures are in, beside the dimension line of the length."""
    return Label("unit", "word", (sheet.front, sheet.right), sheet.lengths.name, 1, (10.0, 36.0))


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
