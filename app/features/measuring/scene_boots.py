"""Drawings beside the measuring guide of the boots: how far they lean, let go, and raise the foot.

A boot is seen from its outer side, toes to the right, or from the front; the
heel's back lies over x = -75 and the floor at y = 0 (mm, invented).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import cos, radians, sin
from typing import Final, TypeAlias

from app.drawing.marks import Area, Dot, Label, Line, Mark, Point, Span, Window
from app.features.measuring.outlines import curve
from app.words.language import tr

ANKLE: Final[Point] = (0.0, 95.0)
"""About it the shank leans, seen from the side (mm)."""
SHANK: Final = 400.0
"""From the ankle to the gap at the knee, in the drawings (mm)."""
BED, RIM = 28.0, 330.0
"""Heights of the heel's bed and of the rim (mm)."""
LEAN, FLEX, GIVE = 18.0, 15.0, 8.0
"""What the drawn boots do (deg); they give more than boots do, to be seen."""
TILT: Final = -7.0
"""How far the sole of the drawn boot hangs out of level (deg), its inner side higher."""
DOT: Final = 5.0
"""Radius of a landmark (logical px)."""

_SOLE: Final = ((-76.0, 0.0), (-76.0, 20.0), (210.0, 20.0), (214.0, 10.0), (200.0, 0.0))
_SHELL: Final = (
    (-74.0, 20.0), (-78.0, 60.0), (-66.0, 110.0), (-40.0, 138.0), (30.0, 140.0), (78.0, 106.0),
    (140.0, 84.0), (190.0, 62.0), (212.0, 36.0), (206.0, 20.0),
)  # fmt: skip
_SHAFT: Final = (
    (-62.0, -20.0), (-66.0, 60.0), (-70.0, 150.0), (-62.0, 232.0), (58.0, 226.0), (62.0, 150.0),
    (58.0, 60.0), (66.0, -6.0),
)  # fmt: skip
"""Around an upright shank, from the ankle."""
_LEG: Final = (
    (-52.0, 220.0), (-60.0, 280.0), (-46.0, 350.0), (-46.0, 430.0), (62.0, 430.0), (62.0, 380.0),
    (54.0, 300.0), (48.0, 220.0),
)  # fmt: skip
Drawing: TypeAlias = tuple[Window, list[Mark], str]
"""What of it is shown, its marks, and what it says, of any drawing of the guide."""


def _sole_thickness() -> Drawing:
    shaft = curve((*_SHELL[:3], (-70.0, 200.0), (-66.0, RIM), (70.0, 318.0), (64.0, 200.0),
                   (70.0, 130.0), *_SHELL[6:]))  # fmt: skip
    bed = ((-48.0, RIM - 2.0), (-52.0, 200.0), (-54.0, 90.0), (-56.0, BED), (60.0, BED),
           (188.0, BED + 6.0))  # fmt: skip
    marks: list[Mark] = [
        Area("boot", "body.boot", shaft),
        Area("sole", "body.sole", _SOLE),
        Line("bed", "bone.edge", bed),
        *floor(-150.0, 262.0),
        Line("rim", "projection", ((2.0, RIM), (-118.0, RIM))),
        Line("level", "projection", ((188.0, BED), (258.0, BED))),
        Span("outside", "dimension", (-112.0, 0.0), (-112.0, RIM), tr("first", "of two readings")),
        Span("inside", "dimension", (-4.0, BED), (-4.0, RIM), tr("second", "of two readings")),
        Span("thickness", "dimension", (244.0, 0.0), (244.0, BED), ""),
        Label("word", "word", (244.0, BED), tr("sole"), -1, (8.0, -22.0)),
        Dot("landmark", "landmark", (-4.0, BED), DOT),
    ]
    text = tr(
        "A boot from its outer side. From the floor to the rim outside, less from the rim to the "
        "bed inside, is the thickness of the sole at the heel."
    )
    return Window(-170.0, -30.0, 272.0, 350.0), marks, text


def _forward_lean() -> Drawing:
    marks = [*_booted(LEAN), *floor(-120.0, 240.0), *_plumb(), *_swept(0.0, LEAN, "lean")]
    marks += [
        *_landmarks(LEAN),
        Label("word", "word", _at(0.0, 300.0), tr("lean", "of a boot"), -1, (-5.0, 0.0)),
    ]
    text = tr(
        "A leg in its boot from the outer side. The angle between plumb and the line from the "
        "knob at the ankle to the gap at the knee is the forward lean."
    )
    return Window(-150.0, -14.0, 260.0, 560.0), marks, text


def _flex_range() -> Drawing:
    marks = [*_booted(LEAN), *floor(-120.0, 290.0)]
    marks += _swept(LEAN - FLEX, LEAN + FLEX, "range")
    for key, angle in (("back", LEAN - FLEX), ("ahead", LEAN + FLEX)):
        marks.append(Line(key, "landmark", (ANKLE, _at(angle, SHANK + 30.0))))
    marks += [
        Line("rest", "centre", (ANKLE, _at(LEAN, SHANK + 50.0))),
        Label("word.back", "word", _at(LEAN - FLEX, SHANK + 30.0), tr("back", "of a shank"), 0,
              (-6.0, -8.0)),
        Label("word.ahead", "word", _at(LEAN + FLEX, SHANK + 30.0), tr("ahead", "of a shank"), 0,
              (8.0, -8.0)),
        Label("word.rest", "word", _at(LEAN, SHANK + 50.0), tr("rest", "of a shank"), 0,
              (2.0, -8.0)),
    ]  # fmt: skip
    text = tr(
        "A leg in its boot from the outer side, at rest, and where the shank ends pressed forward "
        "and sitting back. The smaller of the two ways counts."
    )
    return Window(-150.0, -14.0, 300.0, 590.0), marks, text


def _side_give() -> Drawing:
    marks = [*_booted_from_the_front(), *floor(-150.0, 150.0)]
    marks += _swept(-GIVE, GIVE, "give", 330.0)
    for key, angle in (("in", -GIVE), ("out", GIVE)):
        marks.append(Line(key, "landmark", (ANKLE, _at(angle, SHANK + 20.0))))
    marks += [
        Line("rest", "centre", (ANKLE, _at(0.0, SHANK + 50.0))),
        Label("word.in", "word", _at(-GIVE, SHANK + 20.0), tr("in", "of a knee"), 0, (-6.0, -8.0)),
        Label("word.out", "word", _at(GIVE, SHANK + 20.0), tr("out", "of a knee"), 0, (8.0, -8.0)),
        Label("word.rest", "word", _at(0.0, SHANK + 50.0), tr("rest", "of a shank"), 0,
              (0.0, -8.0)),
    ]  # fmt: skip
    text = tr(
        "A leg in its boot from the front, at rest, and where the shank ends moved in and out "
        "while the sole stays flat. The smaller of the two ways counts."
    )
    return Window(-170.0, -14.0, 170.0, 590.0), marks, text


def _cuff_offset() -> Drawing:
    marks = [*_booted_from_the_front(), *floor(-150.0, 150.0)]
    c, s = cos(radians(TILT)), sin(radians(TILT))
    sole = tuple((x * c, 24.0 + x * s) for x in (-90.0, 90.0))
    marks += [
        Line("rest", "centre", (ANKLE, _at(0.0, SHANK + 50.0))),
        Line("level", "projection", ((-110.0, 24.0), (110.0, 24.0))),
        Line("sole.tilted", "landmark", sole),
        Label("word.plus", "word", (-110.0, 24.0), "+", -1, (-4.0, -16.0)),
        Label("word.minus", "word", (110.0, 24.0), "−", 1, (4.0, -16.0)),
        Label("word.inner", "word", (-110.0, 24.0), tr("inner", "side of a sole"), -1, (-4.0, 0.0)),
        Label("word.outer", "word", (110.0, 24.0), tr("outer", "side of a sole"), 1, (4.0, 0.0)),
    ]
    text = tr(
        "A right leg in its boot from behind, hanging straight under its hip. How far the sole "
        "tilts out of level is the cuff offset, positive where its inner side hangs higher."
    )
    return Window(-170.0, -14.0, 170.0, 560.0), marks, text


def _boot_ramp() -> Drawing:
    shaft = curve((*_SHELL[:3], (-70.0, 200.0), (-66.0, RIM), (70.0, 318.0), (64.0, 200.0),
                   (70.0, 130.0), *_SHELL[6:]))  # fmt: skip
    heel, ball = (-52.0, BED + 22.0), (120.0, BED + 4.0)
    marks: list[Mark] = [
        Area("boot", "body.boot", shaft),
        Area("sole", "body.sole", _SOLE),
        *floor(-150.0, 262.0),
        Line("bed", "landmark", (heel, ball)),
        Line("level", "projection", (ball, (-90.0, ball[1]))),
        Dot("heel", "landmark", heel, DOT),
        Dot("ball", "landmark", ball, DOT),
        Label("word.heel", "word", heel, tr("heel", "of a foot"), 0, (0.0, -14.0)),
        Label("word.ball", "word", ball, tr("ball", "of a foot"), 0, (0.0, -14.0)),
    ]
    text = tr(
        "An empty boot from its outer side. The slope from heel to ball of what the foot stands "
        "on inside is the boot's ramp."
    )
    return Window(-170.0, -30.0, 272.0, 350.0), marks, text


def _booted(lean: float) -> list[Mark]:
    """A boot on the floor from its outer side, its shaft and the shank leaning forward (deg)."""
    return [
        Area("leg", "body", curve(_turned(_LEG[:4], lean)) + curve(_turned(_LEG[4:], lean))),
        Area("shaft", "body.boot", curve(_turned(_SHAFT, lean), closed=True)),
        Area("shell", "body.boot", curve(_SHELL)),
        Area("sole", "body.sole", _SOLE),
    ]


def _booted_from_the_front() -> list[Mark]:
    leg = ((-52.0, 500.0), (-56.0, 420.0), (-48.0, 320.0), (48.0, 320.0), (56.0, 420.0),
           (52.0, 500.0))  # fmt: skip
    boot = ((-52.0, 20.0), (-58.0, 60.0), (-54.0, 130.0), (-50.0, 230.0), (-56.0, 325.0),
            (56.0, 325.0), (50.0, 230.0), (54.0, 130.0), (58.0, 60.0), (52.0, 20.0))  # fmt: skip
    return [
        Area("leg", "body", curve(leg[:3]) + curve(leg[3:])),
        Area("shaft", "body.boot", curve(boot)),
        Area("sole", "body.sole", ((-52.0, 0.0), (-52.0, 20.0), (52.0, 20.0), (52.0, 0.0))),
    ]


def _landmarks(lean: float) -> list[Mark]:
    """The line between knob and gap, and both as what to feel for."""
    knee = _at(lean, SHANK)
    return [
        Line("shank", "landmark", (ANKLE, _at(lean, SHANK + 30.0))),
        Dot("ankle", "landmark", ANKLE, DOT),
        Dot("knee", "landmark", knee, DOT),
        Label("word.ankle", "landmark", ANKLE, tr("knob"), 1, (8.0, 4.0)),
        Label("word.knee", "landmark", knee, tr("gap"), 1, (9.0, 4.0)),
    ]


def _plumb() -> list[Mark]:
    return [Line("plumb", "centre", (ANKLE, (ANKLE[0], ANKLE[1] + SHANK + 50.0)))]


def _swept(start: float, end: float, key: str, reach: float = 300.0) -> list[Mark]:
    """An arc about the ankle between two leans (deg)."""
    angles = [start + (end - start) * i / 12.0 for i in range(13)]
    return [Line(key, "body.line", tuple(_at(angle, reach) for angle in angles))]


def _at(lean: float, reach: float) -> Point:
    """A point of a line through the ankle that leans to the right of plumb (deg)."""
    turn = radians(lean)
    return ANKLE[0] + reach * sin(turn), ANKLE[1] + reach * cos(turn)


def _turned(points: Sequence[Point], lean: float) -> tuple[Point, ...]:
    """Points given from the ankle as the lean turns them (deg)."""
    c, s = cos(radians(lean)), sin(radians(lean))
    return tuple((ANKLE[0] + x * c + y * s, ANKLE[1] - x * s + y * c) for x, y in points)


def floor(left: float, right: float) -> list[Mark]:
    """What one stands on, from the left to the right (mm)."""
    return [Line("floor", "body.floor", ((left, 0.0), (right, 0.0)))]


BOOT_DRAWINGS: Final[dict[str, Callable[[], Drawing]]] = {
    "cuff_offset_deg": _cuff_offset,
    "forward_lean_deg": _forward_lean,
    "flex_range_deg": _flex_range,
    "side_give_deg": _side_give,
    "sole_thickness_mm": _sole_thickness,
    "boot_ramp_deg": _boot_ramp,
}
"""By name among the inputs."""
