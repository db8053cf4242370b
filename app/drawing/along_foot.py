"""One leg along its own foot, unfolded: the true off-plane angle, whatever the stance.

The thigh is swung about the knee's hinge until it stands over the shank.  A
pure hinge would then carry it on in one straight line; what it leans off that
line is the off-plane angle itself, not a projection of it.
"""

from __future__ import annotations

from math import asin, cos, radians, sin

from app.drawing.leg_marks import board_edge
from app.drawing.marks import Area, Callout, Dot, Line, Mark, Point, Scene, Window, outward
from app.drawing.projection import tapered
from app.drawing.solids import PLATE_DEPTH, SOLE_LENGTH, Figure
from app.rider.inputs import Inputs, LegInputs
from app.stance.findings import LegFinding, state_words
from app.words.language import msgid, tr

_TITLES = {"front": msgid("Front, along foot"), "rear": msgid("Rear, along foot")}
_SAID = {
    "front": msgid("Front leg, seen along its own foot: {finding}."),
    "rear": msgid("Rear leg, seen along its own foot: {finding}."),
}


def scene_along_foot(inputs: Inputs, name: str, figure: Figure, leg: LegFinding) -> Scene:
    """The inset for the "front" or the "rear" leg."""
    own = inputs.leg(name)
    paper = FootPaper(figure, own, inputs.hand if name == "front" else -inputs.hand)
    marks: list[Mark] = [board_edge(-160.0, 160.0), *paper.foot(name)]
    top = outward(inputs.highest_hip_mm + 60.0, 50.0)
    half = outward(0.32 * top, 50.0)
    window = Window(-half, -PLATE_DEPTH - 24.0, half, top)
    if figure.stands:
        marks += paper.leg(name, leg.state)
        word = leg.way or state_words(leg.state)
        callout = Callout(
            f"{name}.true_callout", f"{name}.true", 0, None, leg.state, leg.number, word
        )
        marks.append(callout)
    text = tr(_SAID[name], finding=leg.spoken)
    return Scene(f"{name}_foot", tr(_TITLES[name]), window, tuple(marks), text)


class FootPaper:
    """The plane square to the foot: right is the outer side times ``outward``."""

    def __init__(self, figure: Figure, inputs: LegInputs, outward: float) -> None:
        self.figure = figure
        self.inputs = inputs
        self.outward = outward
        self.tilt = asin(max(-1.0, min(1.0, figure.sole_axes.outer[2])))
        height = inputs.ankle_height_mm + inputs.sole_thickness_mm
        self.ankle = self.at((0.0, 0.0), height, 0.0)
        if figure.stands:
            self.knee = self.at(self.ankle, figure.shank, figure.lean)
            self.hip = self.at(self.knee, figure.thigh, figure.lean - figure.off_plane)

    def at(self, start: Point, distance: float, inward: float) -> Point:
        """A point up from another, leaned inward from the sole's normal."""
        lean = self.tilt + inward
        return (start[0] - self.outward * distance * sin(lean), start[1] + distance * cos(lean))

    def _on_sole(self, outer: float, up: float) -> Point:
        """A point beside the sole's middle and above it."""
        c, s = cos(self.tilt), sin(self.tilt)
        return (self.outward * (outer * c - up * s), outer * s + up * c)

    def foot(self, name: str) -> list[Mark]:
        """Plate, sloped part, sole and boot around the ankle."""
        half = 0.16 * SOLE_LENGTH * self.inputs.foot_length_mm
        thick = self.inputs.sole_thickness_mm
        left, right = self._on_sole(-half, 0.0), self._on_sole(half, 0.0)
        low = min(left[1], right[1])
        sole = (left, right, self._on_sole(half, thick), self._on_sole(-half, thick))
        shell = (
            self._on_sole(-half, thick), self._on_sole(half, thick),
            self._on_sole(0.8 * half, thick + 62.0), self._on_sole(-0.8 * half, thick + 62.0),
        )  # fmt: skip
        base, deep = 0.8 * half, -PLATE_DEPTH
        plate = ((-base, low), (base, low), (base, deep), (-base, deep))
        marks: list[Mark] = [Area(f"{name}.plate", "plate", plate)]
        if abs(left[1] - right[1]) > 0.5:
            wedge = (left, right, (right[0], low), (left[0], low))
            marks.append(Area(f"{name}.mount", f"{name}.mount", wedge))
        marks.append(Area(f"{name}.shell", f"{name}.boot", shell))
        marks.append(Area(f"{name}.sole", f"{name}.sole", sole))
        return marks

    def leg(self, name: str, state: str) -> list[Mark]:
        """Limb, the band of side give, the hinge plane and the wedge."""
        scale, figure, limb = self.inputs.hip_height_mm / 880.0, self.figure, f"{name}.limb.near"
        give = radians(self.inputs.side_give_deg)
        reach = figure.shank + figure.thigh
        leans = [figure.cuff_lean + give * k / 4.0 for k in range(-4, 5)]
        band = (self.ankle, *(self.at(self.ankle, reach, lean) for lean in leans))
        beyond = self.at(self.knee, figure.thigh + 50.0, figure.lean)
        leans = [figure.lean - figure.off_plane * k / 8.0 for k in range(9)]
        wedge = (self.knee, *(self.at(self.knee, figure.thigh, lean) for lean in leans))
        return [
            Area(f"{name}.shank", limb, tapered(self.ankle, self.knee, 31 * scale, 45 * scale)),
            Area(f"{name}.thigh", limb, tapered(self.knee, self.hip, 46 * scale, 64 * scale)),
            Area(f"{name}.give", f"{name}.fan", band),
            Area(f"{name}.wedge", f"wedge.{state}", wedge),
            Line(f"{name}.trace", f"trace.{state}", (self.ankle, self.knee, beyond)),
            Line(f"{name}.bones", f"{name}.bone.near", (self.ankle, self.knee, self.hip)),
            Dot(f"{name}.ankle", f"{name}.joint.near", self.ankle, 3.0),
            Dot(f"{name}.knee", f"{name}.joint.near", self.knee, 4.5),
            Dot(f"{name}.hip", "hip", self.hip, 4.5),
        ]
