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

from app.words.language import msgid
from app.words.lengths import Lengths
from app.words.reasons import reason_phrase
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


@dataclass(frozen=True, slots=True)
class PartLengths(Lengths):
    """Writes and reads the lengths of a wedge, to a tenth of a millimetre or as fine."""

    def unit_of(self, kind: str) -> Unit:
        """The unit in which a wedge's numbers are typed."""
        unit = unit_of(kind, self.name)
        if kind != "mm" or self.name != "in":
            return unit
        return replace(unit, decimals=(3, 3), steps=_INCH_STEPS)

    @property
    def drawn(self) -> PartLengths:
        """Those of the drawing: inches for who thinks in them, else millimetres.

        A drawing has one unit, which it names, and leaves it out at each figure.
        Nobody dimensions parts in centimetres (common practice, no source).
        """
        return self if self.name == "in" else PartLengths()

    @property
    def decimals(self) -> int:
        """How many stand after the point."""
        return _TENTHS[self.name]

    def figure(self, length_mm: float) -> str:
        """A computed figure, all of its decimals shown: "20.0", "0.787"."""
        return figure(length_mm, replace(self.unit, decimals=(self.decimals, self.decimals)))

    def size(self, length_mm: float) -> str:
        """A size or a place that was typed, as its field shows it: "6.5", "0.256"."""
        return figure(length_mm, self.unit)

    def amount(self, length_mm: float) -> str:
        """A computed figure with its unit: "20.0 mm"."""
        return self.figure(length_mm) + self.unit.suffix

    def reasons(self, whys: Iterable[Reason]) -> tuple[str, ...]:
        """Why a wedge cannot be made, each in half a sentence."""
        return tuple(reason_phrase(why, self) for why in whys)

    def in_reason(self, length: Amount) -> str:
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
