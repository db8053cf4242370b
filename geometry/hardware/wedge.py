"""The solid between a flat base and a sloped sole: what a rider prints or mills.

The base is level.  Over it the top rises by ``tan(lift)`` ahead along the foot
and by ``tan(cant)`` to the little-toe side, which is the plane that
:func:`geometry.sole.sole_of` gives a mount.  Holes stand square to the base, as
the screws go into the board, and run right through; a recess takes the screw's
head below the top where one is wanted.

One wedge at a time, in floats.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from geometry.checks import require_between
from geometry.elementary import Real
from geometry.hardware.footprint import Footprint
from geometry.hardware.plane import Spot
from geometry.hardware.screws import Screws
from geometry.sole import slope_and_bearing

NO_SCREWS = Screws()
"""A wedge without holes."""
STEEPEST = 25.0
"""Largest lift or cant of a wedge (degrees; engineering choice, no source)."""


@dataclass(frozen=True, slots=True)
class Wedge:
    """A wedge as it is asked for, possible or not: see :mod:`geometry.hardware.wedge_problems`.

    Attributes:
        footprint: its outline.
        lift: slope of its top along the foot (rad), positive with the toe end up.
        cant: slope across the foot (rad), positive with the little-toe side up.
        smallest: the thickness that it must have everywhere (mm).
        screws: its holes.
        centre_height: height over the binding's centre (mm); None for as low as
            the smallest thickness allows.

    Raises:
        ValueError: a value is outside its possible range.
    """

    footprint: Footprint
    lift: float
    cant: float
    smallest: float
    screws: Screws = NO_SCREWS
    centre_height: float | None = None

    def __post_init__(self) -> None:
        require_between("lift of the wedge", self.lift, -STEEPEST, STEEPEST, "deg")
        require_between("cant of the wedge", self.cant, -STEEPEST, STEEPEST, "deg")
        require_between("smallest thickness", self.smallest, 0.1, 200.0, "mm")
        if self.centre_height is not None:
            require_between("centre height", self.centre_height, 0.1, 500.0, "mm")

    @property
    def gradient(self) -> Spot:
        """How much the top rises per mm ahead and per mm to the outer side."""
        return math.tan(self.lift), math.tan(self.cant)

    @property
    def level(self) -> float:
        """Height of the top over the binding's centre (mm)."""
        if self.centre_height is not None:
            return self.centre_height
        return self.smallest - self.footprint.lowest(self.gradient)

    @property
    def thinnest(self) -> float:
        """Least thickness (mm)."""
        return self.level + self.footprint.lowest(self.gradient)

    @property
    def thickest(self) -> float:
        """Largest thickness (mm)."""
        ahead, outer = self.gradient
        return self.level - self.footprint.lowest((-ahead, -outer))

    @property
    def slope(self) -> float:
        """Steepest slope of the top (rad)."""
        return float(slope_and_bearing(self.lift, self.cant)[0])

    @property
    def bearing(self) -> float:
        """Direction in which the top rises, from the toe to the little-toe side (rad)."""
        return float(slope_and_bearing(self.lift, self.cant)[1])

    def height(self, ahead: Real, outer: Real) -> Real:
        """Height of the top over a place, or over many (mm)."""
        rise_ahead, rise_outer = self.gradient
        return self.level + rise_ahead * ahead + rise_outer * outer

    @property
    def corner_spots(self) -> tuple[Spot, ...]:
        """The corners of the outline; a rounded one in the middle of its arc."""
        return tuple(corner.at(0.5) for corner in self.footprint.corners)

    @property
    def corner_heights(self) -> tuple[float, ...]:
        """Height of the top over each of :attr:`corner_spots` (mm)."""
        return tuple(float(self.height(*spot)) for spot in self.corner_spots)

    def hole_height(self, centre: Spot) -> float:
        """Height up to which a hole keeps its own diameter (mm): to the top or to the head."""
        top = float(self.height(*centre))
        if not self.screws.sunk:
            return top
        return top - math.tan(self.slope) * self.screws.widest - self.screws.head_height

    @property
    def volume(self) -> float:
        """Volume, exact for round corners and round holes (mm³).

        A prism under a plane has its base area times the height over the
        centroid of the base, so each piece needs its first moments only.
        """
        area, ahead, outer = self.footprint.moments
        rise_ahead, rise_outer = self.gradient
        solid = self.level * area + rise_ahead * ahead + rise_outer * outer
        return solid - sum(self._hole_volume(centre) for centre in self.screws.centres)

    def _hole_volume(self, centre: Spot) -> float:
        """What one hole and its recess take away (mm³)."""
        narrow, wide, upto = (
            0.5 * self.screws.diameter,
            self.screws.widest,
            self.hole_height(centre),
        )
        top = float(self.height(*centre))
        return math.pi * (narrow * narrow * upto + wide * wide * (top - upto))
