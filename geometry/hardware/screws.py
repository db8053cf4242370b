"""Screw holes of one size, and the grids in which boards have their inserts."""

from __future__ import annotations

import math
from dataclasses import dataclass

from geometry.checks import require_between
from geometry.hardware.plane import Spot
from geometry.reasons import Amount, impossible


@dataclass(frozen=True, slots=True)
class Screws:
    """Holes of one size, square to the base.

    Attributes:
        centres: ahead along the foot and out to the little-toe side, from the
            binding's centre (mm).
        diameter: of the holes (mm).
        head_diameter: of the recesses for the heads (mm).
        head_height: how deep each head sinks, measured from the lowest place on
            its rim (mm); 0 for no recess.

    Raises:
        ValueError: a size is outside its possible range, or a head would fall
            through its hole.
    """

    centres: tuple[Spot, ...] = ()
    diameter: float = 6.5
    head_diameter: float = 0.0
    head_height: float = 0.0

    def __post_init__(self) -> None:
        require_between("diameter of the holes", self.diameter, 0.5, 100.0, "mm")
        require_between("diameter of the screw heads", self.head_diameter, 0.0, 200.0, "mm")
        require_between("height of the screw heads", self.head_height, 0.0, 100.0, "mm")
        for place in (part for centre in self.centres for part in centre):
            require_between("place of a hole", float(place), -1000.0, 1000.0, "mm")
        if self.head_height > 0.0 and self.head_diameter <= self.diameter:
            head, hole = Amount(self.head_diameter, "mm"), Amount(self.diameter, "mm")
            raise impossible("head falls through", head=head, hole=hole)

    @property
    def sunk(self) -> bool:
        """Whether the heads sink into the wedge."""
        return self.head_height > 0.0

    @property
    def widest(self) -> float:
        """Radius that each screw takes of the wedge (mm)."""
        return 0.5 * (self.head_diameter if self.sunk else self.diameter)


def grid(
    spacing: Spot,
    count: tuple[int, int] = (2, 2),
    *,
    turned: float = 0.0,
    middle: Spot = (0.0, 0.0),
) -> tuple[Spot, ...]:
    """Centres of holes in rows and columns, as the inserts of a board are.

    Args:
        spacing: of the holes in the grid's two directions (mm).
        count: how many in each.
        turned: from the foot's axis to the grid's first direction, positive to
            the little-toe side (rad).
        middle: of the grid, from the binding's centre (mm).

    Raises:
        ValueError: a spacing or a count is outside its possible range.
    """
    for each in spacing:
        require_between("spacing of the holes", each, 1.0, 500.0, "mm")
    for number in count:
        require_between("number of holes in a row", float(number), 1.0, 50.0, "holes")
    c, s = math.cos(turned), math.sin(turned)
    rows, columns = (
        [step * (i - 0.5 * (number - 1)) for i in range(number)]
        for step, number in zip(spacing, count, strict=True)
    )
    return tuple(
        (middle[0] + c * u - s * v, middle[1] + s * u + c * v) for u in rows for v in columns
    )


def insert_turn(binding_angle: float, side: float) -> float:
    """How far a board's inserts are turned against a foot: ``turned`` of :func:`grid` (rad).

    The grid's first direction then lies across the board and its second along it.

    Args:
        binding_angle: of the foot (rad).
        side: +1 for the front foot, -1 for the rear one.
    """
    # With f = (sin, cos) along the foot and l = side (cos, -sin) to its outer side, the
    # way across the board, (0, 1), is cos f - side sin l.
    return -side * binding_angle
