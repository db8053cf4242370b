"""What is said of a wedge, on its drawing and in the files made of it."""

from __future__ import annotations

from math import degrees
from typing import Final, NamedTuple

from app.inputs import FIELD
from app.tools.wedge_units import Lengths
from app.words import plain, spoken
from geometry.hardware.wedge import Wedge

CAUTION: Final = (
    "Caution: this part carries the rider's weight and every landing. Whether it bears them "
    "depends on material, filling and layers, which this drawing does not know: make it solid "
    "and tough, load it hard where a break hurts nobody, and look for cracks before each ride. "
    "Screws must be longer by the height of the wedge at their hole, so that they grip their "
    "inserts as far as the maker asks, and must not reach the bottom of them; keep to the "
    "torque that the maker gives. Stay within the largest lift, cant and height that the makers "
    "of board, bindings and boots allow: beyond it what they promise ends, and so does what "
    "their bindings were tested for."
)


class Part(NamedTuple):
    """A wedge and the foot it is for.

    Attributes:
        name: "front" or "rear".
        foot: "left" or "right".
        wedge: the solid.
    """

    name: str
    foot: str
    wedge: Wedge

    @property
    def outer_side(self) -> float:
        """+1 where the little toe lies to the left of the foot's axis, -1 to its right."""
        return 1.0 if self.foot == "left" else -1.0

    @property
    def title(self) -> str:
        """What it is called."""
        return f"Wedge for the {self.name} foot ({self.foot})"


MILLIMETRES: Final = Lengths()
"""As files of a wedge have their lengths, whichever unit the rider chose."""


def facts(part: Part, lengths: Lengths = MILLIMETRES) -> tuple[str, ...]:
    """Everything about a wedge but its outline, a line for each thing.

    Args:
        part: the wedge.
        lengths: writes its sizes; the first line names their unit.
    """
    wedge, figure = part.wedge, lengths.figure
    return (
        f"{sizes_in(lengths)} Figures at the corners: height of the top there.",
        *_rounding(wedge, lengths),
        _slopes(wedge),
        f"Heights: least {figure(wedge.thinnest)}, over the binding's centre "
        f"{figure(wedge.level)}, largest {figure(wedge.thickest)}.",
        *_holes(wedge, lengths),
        f"Volume {lengths.volume(wedge.volume)}.",
    )


def sizes_in(lengths: Lengths) -> str:
    """The sentence that names the unit of bare figures."""
    if lengths == MILLIMETRES:
        return "Sizes in mm."
    return f"Sizes in {lengths.unit.word}; the STL and DXF files are in mm."


def _rounding(wedge: Wedge, lengths: Lengths) -> list[str]:
    radius = wedge.footprint.corner_radius
    return [f"Corners rounded R{lengths.size(radius)}."] if radius > 0.0 else []


def _slopes(wedge: Wedge) -> str:
    lift = spoken(FIELD["front_lift_deg"], degrees(wedge.lift))
    cant = spoken(FIELD["front_cant_deg"], degrees(wedge.cant))
    if lift == cant:
        return "Flat on top."
    return f"Along the foot {lift}, across it {cant}; {steepest(wedge)}."


def steepest(wedge: Wedge) -> str:
    """The steepest slope and where it rises to, as "6.7° at its steepest, rising ..."."""
    side = "little-toe" if wedge.bearing >= 0.0 else "big-toe"
    turn = abs(degrees(wedge.bearing))
    way = {0: "to the toe", 180: "to the heel"}.get(
        round(turn), f"{plain(turn)}° from the toe to the {side} side"
    )
    return f"{degrees(wedge.slope):.1f}° at its steepest, rising {way}"


def longer_screws(wedge: Wedge, lengths: Lengths = MILLIMETRES) -> str:
    """By how much screws must be longer, as "9.4 to 14.5"; "" where a head has no ground."""
    heights = [wedge.hole_height(centre) for centre in wedge.screws.centres]
    if not heights or min(heights) <= 0.0:
        return ""
    least, most = lengths.figure(min(heights)), lengths.figure(max(heights))
    return least if least == most else f"{least} to {most}"


def _holes(wedge: Wedge, lengths: Lengths) -> list[str]:
    """The holes, their heads, how much longer screws must be, and where they are."""
    screws, written = wedge.screws, lengths.size
    if not screws.centres:
        return ["No holes."]
    heads = (
        f", recesses ⌀{written(screws.head_diameter)} for heads {written(screws.head_height)} high"
        if screws.sunk
        else ""
    )
    count = len(screws.centres)
    holes = "1 hole" if count == 1 else f"{count} holes"
    longer = longer_screws(wedge, lengths)
    places = ", ".join(
        f"{i + 1}\N{NO-BREAK SPACE}({written(ahead)},\N{NO-BREAK SPACE}{written(outer)})"
        for i, (ahead, outer) in enumerate(screws.centres)
    )
    return [
        f"{holes} ⌀{written(screws.diameter)} square to the base{heads}"
        f"{f'; screws longer by {longer}' if longer else ''}.",
        f"Holes from the binding's centre (ahead, to the little-toe side): {places}.",
    ]
