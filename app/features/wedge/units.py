"""How the lengths of a wedge are written, in the unit that the rider chose.

A wedge is made to a tenth of a millimetre, so inches have three decimals here,
as on drawings in inches (common practice, no source): 0.01 in is a quarter of a
millimetre, more than a hole or a wall can bear.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Final

from app.words.field import Field
from app.words.language import msgid
from app.words.reasons import Why, reason_phrase
from app.words.scale import Scale, scale_of
from app.words.units import MM_PER_INCH, Unit, amount, figure, unit_of
from geometry.reasons import Amount, Reason

_TENTHS: Final = {"mm": 1, "cm": 2, "in": 3}
"""Decimals that tell a tenth of a millimetre, by the unit."""
_INCH_STEPS: Final = (
    (0.5, (0.002, 0.02, 0.1)),
    (1.0, (0.005, 0.05, 0.25)),
    (5.0, (0.02, 0.2, 1.0)),
)
"""Fine, plain and coarse steps in inches, by the plain step in mm."""
_CUBIC_INCHES: Final = Unit(
    "volume", "\N{NO-BREAK SPACE}in³", msgid("cubic inches"), MM_PER_INCH**3, (2, 2)
)
_CUBIC_CENTIMETRES: Final = Unit(
    "volume", "\N{NO-BREAK SPACE}cm³", msgid("cubic centimetres"), 1000.0, (1, 1)
)


def rounded(value: float, decimals: int, toward: int = 0) -> float:
    """A value with so many decimals, the nearest or the next one up or down."""
    if toward == 0:
        return round(value, decimals)
    scaled = 10.0**decimals * value
    # What is meant as 14.6 may come as 14.600000001.
    whole = math.ceil(scaled - 1e-6) if toward > 0 else math.floor(scaled + 1e-6)
    return whole / 10.0**decimals


def part_unit(length_unit: str) -> Unit:
    """The unit in which a wedge's lengths are typed, one of "mm", "cm" and "in"."""
    unit = unit_of("mm", length_unit)
    return replace(unit, decimals=(3, 3), steps=_INCH_STEPS) if length_unit == "in" else unit


def part_scale(field: Field, length_unit: str) -> Scale:
    """The scale of one of a wedge's numbers."""
    scale = scale_of(field, length_unit)
    if field.unit != "mm" or length_unit != "in":
        return scale
    fine, plain, coarse = (step * MM_PER_INCH for step in dict(_INCH_STEPS)[field.step])
    return replace(scale, unit=part_unit(length_unit), steps=(fine, plain, coarse))


def drawn_in(length_unit: str) -> str:
    """The unit of the drawing: inches for who thinks in them, else millimetres.

    A drawing has one unit, which it names, and leaves it out at each figure.
    Nobody dimensions parts in centimetres (common practice, no source).
    """
    return "in" if length_unit == "in" else "mm"


@dataclass(frozen=True, slots=True)
class Lengths:
    """Writes computed lengths of a wedge, to a tenth of a millimetre or as fine.

    Attributes:
        name: of the unit, one of "mm", "cm" and "in".
    """

    name: str = "mm"

    @property
    def unit(self) -> Unit:
        """The unit."""
        return unit_of("mm", self.name)

    @property
    def decimals(self) -> int:
        """How many stand after the point."""
        return _TENTHS[self.name]

    def figure(self, length_mm: float) -> str:
        """A computed figure, all of its decimals shown: "20.0", "0.787"."""
        return figure(length_mm, replace(self.unit, decimals=(self.decimals, self.decimals)))

    def size(self, length_mm: float) -> str:
        """A size or a place that was typed, as its field shows it: "6.5", "0.256"."""
        return figure(length_mm, part_unit(self.name))

    def amount(self, length_mm: float) -> str:
        """A computed figure with its unit: "20.0 mm"."""
        return self.figure(length_mm) + self.unit.suffix

    def reason(self, why: Why) -> str:
        """Why a wedge cannot be, in half a sentence."""
        return reason_phrase(why, written=self.written)

    def reasons(self, whys: Iterable[Reason]) -> tuple[str, ...]:
        """Every reason why it cannot."""
        return tuple(map(self.reason, whys))

    def written(self, length: Amount) -> str:
        """A length of a reason, rounded as it asks."""
        if length.toward is None:
            said = self.size(length.value)
        else:
            unit = replace(self.unit, decimals=(0, self.decimals))
            value = rounded(length.value / unit.size, self.decimals, length.toward)
            said = figure(value * unit.size, unit)
        return said if length.bare else said + self.unit.suffix

    def volume(self, volume_mm3: float) -> str:
        """A volume: in cubic inches for inches, else in cubic centimetres."""
        return amount(volume_mm3, _CUBIC_INCHES if self.name == "in" else _CUBIC_CENTIMETRES)
