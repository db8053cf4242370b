"""A wedge to print, as typed: which foot it is for, its footprint and its holes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from app.words.field import Field, adjustable, fields_of
from app.words.language import msgid

FEET: Final = ("front", "rear")
"""Which foot a wedge is for."""

SLOPES: Final = {
    "mounts": msgid("Lift and cant as on the binding"),
    "start": msgid("Lift and cant to begin with"),
    "typed": msgid("Lift and cant as typed"),
}
"""Where the wedge's lift and cant come from."""

HOLES: Final = {"grid": msgid("Holes in a grid"), "typed": msgid("Holes as typed")}
"""How the places of the holes are told."""


@dataclass(frozen=True, slots=True)
class WedgeInputs:
    """What a wedge is made to (mm and degrees).

    Attributes:
        foot: one of :data:`FEET`.
        slopes: where lift and cant come from, a key of :data:`SLOPES`.
        lift_deg: where they are typed, as cant_deg.
        centre_height_mm: 0 for as low as the smallest thickness allows.
        holes: how their places are told, a key of :data:`HOLES`.
        hole_spots_mm: their places where they are typed, ahead of the binding's
            centre along the foot and out to the little-toe side; kept beside a grid.
    """

    # fmt: off
    foot: str = "front"
    slopes: str = "mounts"
    lift_deg: float = adjustable(
        0.0, "wedge", "Lift", "deg", -25.0, 25.0, 0.5,
        "Slope of the wedge's top along the foot. Positive raises the toe end, negative the heel.",
    )
    cant_deg: float = adjustable(
        0.0, "wedge", "Cant", "deg", -25.0, 25.0, 0.5,
        "Slope of the wedge's top across the foot. Positive raises the little-toe side "
        "(inward), negative the big-toe side (outward).",
    )
    length_mm: float = adjustable(
        180.0, "wedge", "Length", "mm", 20.0, 400.0, 5.0,
        "Of the footprint, along the foot.",
    )
    width_mm: float = adjustable(
        110.0, "wedge", "Width", "mm", 20.0, 400.0, 5.0,
        "Of the footprint, across the foot.",
    )
    corner_radius_mm: float = adjustable(
        15.0, "wedge", "Corners", "mm", 0.0, 200.0, 1.0,
        "Radius of the footprint's corners; 0 for sharp ones.",
    )
    smallest_mm: float = adjustable(
        3.0, "wedge", "Thinnest", "mm", 0.5, 100.0, 0.5,
        "The thickness that the wedge must have everywhere.",
    )
    centre_height_mm: float = adjustable(
        0.0, "wedge", "At the centre", "mm", 0.5, 300.0, 0.5,
        "Height of the wedge over the binding's centre. Leave it empty for as low as the "
        "smallest thickness allows.", zero_allowed=True,
    )
    grid_across_mm: float = adjustable(
        40.0, "wedge", "Holes across", "mm", 0.0, 300.0, 5.0,
        "Between the screw holes, across the board, as its inserts are; 0 for a single line "
        "of holes along the board. Both 0 leaves the holes out.",
    )
    grid_along_mm: float = adjustable(
        40.0, "wedge", "Holes along", "mm", 0.0, 300.0, 5.0,
        "Between the screw holes, along the board, as its inserts are; 0 for a single line "
        "of holes across the board. Both 0 leaves the holes out.",
    )
    hole_mm: float = adjustable(
        6.5, "wedge", "Hole", "mm", 1.0, 30.0, 0.5,
        "Diameter of the screw holes.",
    )
    head_mm: float = adjustable(
        14.0, "wedge", "Screw head", "mm", 1.0, 60.0, 0.5,
        "Diameter of the recesses for the screw heads, where the heads sink in.",
    )
    head_height_mm: float = adjustable(
        0.0, "wedge", "Head sinks", "mm", 0.0, 50.0, 0.5,
        "How deep the screw heads sink into the wedge; 0 leaves them on top.",
    )
    holes: str = "grid"
    hole_spots_mm: tuple[tuple[float, float], ...] = ()
    # fmt: on


USUAL_WEDGE: Final = WedgeInputs()
"""The wedge until the rider says otherwise (engineering choices, no source; inserts 40 mm
apart are common practice, no source)."""

WEDGE_FIELDS: Final = fields_of(WedgeInputs)
"""The numbers of a wedge that can be typed."""

HOLE_SPOT: Final = Field(
    "hole_spots_mm", "wedge", "Holes as typed", "mm", -300.0, 300.0, 1.0,
    "A hole on each line: how far ahead of the binding's centre, negative behind it, and how "
    "far out to the little-toe side, negative to the big-toe side; as 20 −20. A comma between "
    "digits is a decimal sign. With no line there are no holes.",
)  # fmt: skip
"""Either number of a hole's place."""
MOST_HOLES: Final = 24
"""How many can be typed (engineering choice, no source)."""

AS_LOW_AS_CAN_BE: Final = "centre_height_mm"
"""The one that may be 0 though its range begins higher up."""
