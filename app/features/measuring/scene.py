"""Drawings beside the measuring guide: where the landmark is, and where the tape goes.

Bones are dashed, as edges that cannot be seen; what to feel for is the one thing
in the accent's colour.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import atan2, cos, sin
from typing import Final

from app.drawing.marks import Area, Dot, Label, Line, Mark, Point, Scene, Span, Window
from app.features.measuring.outlines import (
    BACK_OF_LEG,
    CALF_BONE,
    FRONT_OF_LEG,
    HALF_PELVIS,
    HALF_THIGH_BONE,
    KNEECAP,
    LONGEST_TOE,
    SHIN_BONE,
    SOLE_OF_FOOT,
    THIGH_BONE,
    TOES,
    below,
    curve,
    ellipse,
    mirrored,
)
from app.features.measuring.scene_boots import BOOT_DRAWINGS, DOT, Drawing, floor
from app.rider.inputs import FIELD, side_and_name
from app.words.language import msgid, tr

HIP, KNEE, ANKLE = 880.0, 490.0, 70.0
"""Heights of the landmarks in the drawings (mm)."""


def scene_measuring(name: str) -> Scene:
    """How one dimension of legs or boots is measured, by its name among the inputs.

    A left leg is measured as a right one is.

    Raises:
        KeyError: it is no such dimension.
    """
    name = side_and_name(name)[1]
    window, marks, text = _DRAWINGS[name]()
    return Scene(f"measuring.{name}", FIELD[name].label, window, tuple(marks), text)


_ANKLE_HEIGHT: Final = msgid("ankle", "in two lines"), msgid("height", "in two lines")


def _hip_height() -> Drawing:
    marks = [*_leg(1080.0), *_bones(THIGH_BONE, SHIN_BONE, CALF_BONE), *floor(-120.0, 260.0)]
    marks += _tape((0.0, HIP), 190.0, tr("hip height"))
    marks.append(Label("word", "landmark", (0.0, HIP), tr("knob"), 0, (0.0, -17.0)))
    text = tr(
        "A leg from its outer side. The tape runs from the floor up to the bony knob at the side "
        "of the hip."
    )
    return Window(-260.0, -30.0, 300.0, 1090.0), marks, text


def _knee_height() -> Drawing:
    marks = [*_leg(720.0), *_bones(THIGH_BONE, SHIN_BONE, CALF_BONE, KNEECAP, top=720.0)]
    marks += [*floor(-120.0, 240.0), *_tape((4.0, KNEE), 170.0, tr("knee height"))]
    marks.append(Label("word", "landmark", (-70.0, KNEE), tr("gap"), -1, (-6.0, 0.0)))
    text = tr(
        "A lower leg from its outer side. The tape runs from the floor up to the gap between the "
        "thigh bone and the shin bone."
    )
    return Window(-230.0, -25.0, 260.0, 730.0), marks, text


def _ankle_height() -> Drawing:
    marks = [*_leg(255.0), *_bones(SHIN_BONE, CALF_BONE, top=255.0), *floor(-85.0, 210.0)]
    marks.append(Line("knob", "landmark", ellipse((-3.0, ANKLE), 15.0, 18.0)))
    marks += _tape((-3.0, ANKLE), 196.0, "")
    marks += [
        Label(f"word.{i}", "word", (196.0, ANKLE), tr(word, "in two lines"), -1, (4.0, rise))
        for i, (word, rise) in enumerate(zip(_ANKLE_HEIGHT, (-28.0, -13.0), strict=True))
    ]
    marks.append(Label("word", "landmark", (14.0, 34.0), tr("knob"), 1, (4.0, 0.0)))
    text = tr(
        "A foot from its outer side. The ruler stands on the floor and reaches the middle of the "
        "bony knob at the ankle."
    )
    return Window(-90.0, -14.0, 215.0, 255.0), marks, text


def _hip_spacing() -> Drawing:
    pelvis = (*HALF_PELVIS, *mirrored(HALF_PELVIS)[1:-1])
    inlet = ellipse((0.0, 918.0), 62.0, 46.0)
    thighs = [HALF_THIGH_BONE, mirrored(HALF_THIGH_BONE)]
    marks: list[Mark] = [
        *(Area(f"thigh.{i}", "bone", curve(each, closed=True)) for i, each in enumerate(thighs)),
        Area("pelvis", "bone", curve(pelvis, closed=True)),
        Area("inlet", "bone.gap", inlet),
    ]
    marks += [Area(f"head.{x:+.0f}", "bone", ellipse((x, HIP), 24.0, 24.0)) for x in (-85.0, 85.0)]
    marks += _measure((-119.0, 119.0), 972.0, 1125.0, msgid("type this"))
    marks += _measure((-85.0, 85.0), HIP, 680.0, msgid("hip spacing"))
    marks += [Dot(f"point.{x:+.0f}", "landmark", (x, 972.0), DOT) for x in (-119.0, 119.0)]
    marks += [Dot(f"joint.{x:+.0f}", "joint", (x, HIP), 3.0) for x in (-85.0, 85.0)]
    text = tr(
        "A pelvis from the front. The tape runs from the front point of one hip bone to that of "
        "the other; the hip joints lie lower and closer together."
    )
    return Window(-165.0, 620.0, 165.0, 1140.0), marks, text


def _neutral_spacing() -> Drawing:
    marks: list[Mark] = [*floor(-196.0, 196.0)]
    for side in (-1.0, 1.0):
        marks += _booted_leg(side)
    marks += _measure((-178.0, 72.0), 0.0, -70.0, msgid("tape"))
    marks += _measure((-125.0, 125.0), 0.0, -150.0, msgid("natural spacing"))
    text = tr(
        "Two legs in boots from the front, standing straight. From the middle of one sole to the "
        "middle of the other is as far as from the outer edge of one to the inner edge of the "
        "other."
    )
    return Window(-198.0, -195.0, 198.0, 440.0), marks, text


def _booted_leg(side: float) -> list[Mark]:
    """One leg in its boot from the front; 1 for the one at the right."""

    def placed(points: Sequence[Point]) -> list[Point]:
        return [(side * x, y) for x, y in points]

    leg = ((82.0, 440.0), (76.0, 390.0), (78.0, 330.0), (178.0, 330.0), (180.0, 390.0),
           (168.0, 440.0))  # fmt: skip
    shaft = ((72.0, 22.0), (66.0, 60.0), (70.0, 120.0), (78.0, 200.0), (74.0, 335.0),
             (184.0, 335.0), (178.0, 200.0), (180.0, 120.0), (184.0, 60.0),
             (178.0, 22.0))  # fmt: skip
    sole = ((72.0, 0.0), (72.0, 22.0), (178.0, 22.0), (178.0, 0.0))
    which = f"{side:+.0f}"
    buckles = [
        Line(f"buckle.{which}.{y:.0f}", "body.line", tuple(placed(((84.0, y), (172.0, y + 8.0)))))
        for y in (130.0, 200.0, 280.0)
    ]
    return [
        Area(f"leg.{which}", "body", tuple(placed((*curve(leg[:3]), *curve(leg[3:]))))),
        Area(f"boot.{which}", "body.boot", tuple(placed(curve(shaft)))),
        *buckles,
        Area(f"sole.{which}", "body.sole", tuple(placed(sole))),
        Line(f"middle.{which}", "centre", ((side * 125.0, 380.0), (side * 125.0, -20.0))),
    ]


def _foot_length() -> Drawing:
    top = LONGEST_TOE
    wall = ((-62.0, -16.0), (62.0, -16.0), (62.0, 0.0), (-62.0, 0.0))
    book = ((-62.0, top), (40.0, top), (40.0, top + 18.0), (-62.0, top + 18.0))
    marks: list[Mark] = [
        *_footprint(),
        Area("wall", "body.sole", wall),
        Area("book", "body.sole", book),
        Label("word.wall", "word", (0.0, -16.0), tr("wall"), 0, (0.0, 10.0)),
        Label("word.book", "word", (-11.0, top + 18.0), tr("book"), 0, (0.0, -10.0)),
        Line("level", "projection", ((40.0, top), (84.0, top))),
        Line("floor", "projection", ((62.0, 0.0), (84.0, 0.0))),
        Span("tape", "dimension", (78.0, 0.0), (78.0, top), tr("foot length")),
        Dot("toe", "landmark", (-28.0, top), DOT),
    ]
    text = tr(
        "A foot from above, its heel against a wall and a book upright against its longest toe."
    )
    return Window(-78.0, -42.0, 92.0, top + 42.0), marks, text


def _knee_tracking() -> Drawing:
    start, end = (-2.0, 92.0), (-46.0, 226.0)
    turn, reach = atan2(start[0] - end[0], end[1] - start[1]), 112.0
    turns = [turn * i / 12 for i in range(13)]
    arc = tuple((start[0] - reach * sin(t), start[1] + reach * cos(t)) for t in turns)
    past = (end[0] - 13.0, end[1] + 40.0)
    marks: list[Mark] = [
        *_footprint(),
        Line("axis", "centre", ((0.0, -14.0), (-4.0, 285.0))),
        Line("track", "landmark", (start, past)),
        Line("angle", "body.line", arc),
        Dot("before", "landmark", start, DOT),
        Dot("after", "landmark", end, DOT),
        Label("word.before", "word", start, tr("before"), 0, (0.0, 15.0)),
        Label("word.after", "word", end, tr("bent"), -1, (-10.0, 0.0)),
        Label("word.inside", "word", (-46.0, 286.0), tr("inside", "of the toes"), 0, (0.0, -4.0)),
        Label("word.plus", "word", (-46.0, 286.0), "+", 0, (0.0, -20.0)),
        Label("word.outside", "word", (46.0, 286.0), tr("outside", "of the toes"), 0, (0.0, -4.0)),
        Label("word.minus", "word", (46.0, 286.0), "−", 0, (0.0, -20.0)),
    ]
    text = tr(
        "A foot from above with its long axis. A line leads from the place under the kneecap "
        "before the bend to the place under it after the bend; the angle between the two counts."
    )
    return Window(-92.0, -18.0, 80.0, 316.0), marks, text


def _leg(top: float) -> list[Mark]:
    """A leg from its outer side, cut off at a height."""
    outline = below((*curve(FRONT_OF_LEG), *curve(BACK_OF_LEG)), top)
    return [Area("leg", "body.fill", outline), Line("leg.edge", "body.line", outline)]


def _bones(*outlines: Sequence[Point], top: float = 1100.0) -> list[Mark]:
    """The edges of bones, as far as they lie under a height."""
    edges = (below(curve(each, closed=True), top) for each in outlines)
    return [Line(f"bone.{i}", "bone.edge", edge) for i, edge in enumerate(edges)]


def _footprint() -> list[Mark]:
    """A right foot from above, toes up."""
    toes = [Area(f"toe.{i}", "body", _upright(toe)) for i, toe in enumerate(TOES)]
    return [*toes, Area("foot", "body", _upright(curve(SOLE_OF_FOOT, closed=True)))]


def _upright(points: Sequence[Point]) -> tuple[Point, ...]:
    return tuple((-y, x) for x, y in points)


def _tape(landmark: Point, beside: float, text: str) -> list[Mark]:
    """The tape from the floor up to a landmark, drawn beside the leg."""
    return [
        Line("level", "projection", (landmark, (beside, landmark[1]))),
        Span("tape", "dimension", (beside, 0.0), (beside, landmark[1]), text),
        Dot("landmark", "landmark", landmark, DOT),
    ]


def _measure(places: tuple[float, float], y: float, at: float, text: str) -> list[Mark]:
    """A level dimension between two places at a height ``y``, drawn at the height ``at``.

    Its word, in English, stands below it, where it may be wider than the dimension.
    """
    left, right = ((x, at) for x in places)
    middle = (0.5 * sum(places), at)
    return [
        *(Line(f"{text}.{i}", "projection", ((x, y), (x, at))) for i, x in enumerate(places, 1)),
        Span(f"{text}.span", "dimension", left, right, ""),
        Label(text, "word", middle, tr(text), 0, (0.0, 11.0)),
    ]


_DRAWINGS: Final[dict[str, Callable[[], Drawing]]] = {
    "hip_height_mm": _hip_height,
    "knee_height_mm": _knee_height,
    "ankle_height_mm": _ankle_height,
    "hip_spacing_mm": _hip_spacing,
    "neutral_spacing_mm": _neutral_spacing,
    "foot_length_mm": _foot_length,
    "knee_tracking_deg": _knee_tracking,
    **BOOT_DRAWINGS,
}
