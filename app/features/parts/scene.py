"""The parts under both feet from above, each with its high side marked."""

from __future__ import annotations

from math import cos, degrees, radians, sin
from typing import Final

from app.drawing.marks import Area, Dot, Label, Line, Mark, Point, Scene, window_around
from app.drawing.solids import FOOTPRINT
from app.features.parts.bench import is_left
from app.rider.inputs import ENDS, Inputs
from app.words.language import msgid, tr
from app.words.sentences import plain
from geometry import FRONT, REAR
from geometry.hardware.parts import PartsList, bearing_from_toe
from geometry.hardware.stacks import Built, Setting

FOOT: Final = 250.0
"""Length of a sole as it is drawn, whoever's it is (mm)."""
APART: Final = 260.0
"""Between the middles of the two feet in the drawing (mm)."""
LARGEST: Final = 84.0
"""Radius of the lowest part (mm)."""
SMALLER: Final = 20.0
"""By how much less each next part has (mm)."""
HIGH: Final = 24.0
"""The high side is marked so far to either side (degrees)."""
RIM: Final = 128.0
"""From the middle of a foot to where the toe edge is written (mm)."""
_TITLES: Final = {"front": msgid("front"), "rear": msgid("rear")}


def scene_parts(
    built: tuple[Built, Built], inputs: Inputs, parts: PartsList, words: str = ""
) -> Scene:
    """Both feet from above, toes up, the left foot on the left.

    Args:
        built: what stands under the front and the rear foot.
        inputs: of which the foot in front and the binding angles count.
        parts: whose they are; those that keep their bearing show where the toe edge is.
        words: the same in words.
    """
    marks: list[Mark] = []
    for end, each in zip(ENDS, built, strict=True):
        foot = _Foot(end, left=is_left(inputs, end))
        marks += foot.sole()
        if not parts.turns_with_binding:
            marks += foot.toe_edge(radians(getattr(inputs, f"{end}_angle_deg")))
        for level, setting in enumerate(each.settings):
            marks += foot.part(setting, level)
        if not each.settings:
            marks.append(Label(f"{end}.flat", "part.word", foot.at(0.0, 0.0), tr("flat")))
    top = 0.5 * FOOT + 16.0
    meaning = tr("toes up; dot: high side")
    marks.append(Label("meaning", "word", (0.0, top), meaning, 0, (0.0, -9.0)))
    window = window_around(marks, 12.0, 10.0)
    return Scene("parts", tr("The parts from above"), window, tuple(marks), words)


class _Foot:
    """One foot seen from above, its toe up."""

    def __init__(self, end: str, *, left: bool) -> None:
        self._end = end
        self._side = -1.0 if left else 1.0
        self._middle = 0.5 * APART * self._side

    def at(self, bearing: float, reach: float) -> Point:
        """A point so far from the middle towards a bearing from the toe (rad)."""
        out = self._side * reach * sin(bearing)
        return self._middle + out, reach * cos(bearing)

    def sole(self) -> list[Mark]:
        """Its outline and axis, the toe up."""
        end, half = self._end, 0.5 * FOOT
        outline = tuple((self._middle + self._side * FOOT * y, FOOT * x) for x, y in FOOTPRINT)
        title = tr(_TITLES[end])
        return [
            Area(f"{end}.sole", f"{end}.sole", outline),
            Line(f"{end}.axis", f"{end}.axis", (self.at(0.0, half + 16), self.at(0.0, -half - 8))),
            Label(f"{end}.title", f"{end}.word", self.at(0.0, -half - 8), title, 0, (0.0, 11.0)),
        ]

    def toe_edge(self, angle: float) -> list[Mark]:
        """The way straight across the board, to its toe edge."""
        bearing = bearing_from_toe(0.0, angle, FRONT if self._end == "front" else REAR)
        way = tuple(self.at(bearing, reach) for reach in (-RIM, RIM))
        return [
            Line(f"{self._end}.across", "bone.edge", way),
            Label(f"{self._end}.edge", "word", way[1], tr("toe edge"), 0, (0.0, -8.0)),
        ]

    def part(self, setting: Setting, level: int) -> list[Mark]:
        """One part: its rim, its high side, and the way up to it."""
        key, radius = f"{self._end}.part{level}", LARGEST - SMALLER * level
        turned = setting.bearing
        rim = tuple(self.at(radians(10.0 * i), radius) for i in range(37))
        arc = (radians(HIGH * i / 4.0) for i in range(-4, 5))
        high = tuple(self.at(turned + each, radius) for each in arc)
        ends = (turned + radians(HIGH), turned - radians(HIGH))
        inside = tuple(self.at(end, radius - 12.0) for end in ends)
        slope = f"{plain(degrees(setting.part.slope))}°"
        beside = self.at(turned, radius)
        align = 1 if beside[0] >= self._middle else -1
        return [
            Line(f"{key}.rim", "part.thin", rim),
            Line(f"{key}.way", "part.thin", (self.at(turned, -radius), self.at(turned, radius))),
            Area(f"{key}.high", "landmark", (*high, *inside)),
            Dot(f"{key}.point", "part.corner", beside, 4.0),
            Label(f"{key}.slope", "landmark", beside, slope, align, (7.0 * align, -8.0)),
        ]
