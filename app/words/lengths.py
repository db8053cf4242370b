"""Lengths as people write them, in the unit that the rider chose."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil
from typing import Final

from app.words.language import with_decimal_mark
from app.words.units import MM_PER_INCH, Unit, amount, figure, unit_of
from geometry.reasons import Amount


@dataclass(frozen=True, slots=True)
class Lengths:
    """Writes lengths: made once of the unit chosen, and handed along with the frame.

    All lengths are given in mm.

    Attributes:
        name: of the unit, one of :data:`app.words.units.LENGTH_UNITS`.

    Raises:
        ValueError: there is no such unit.
    """

    name: str = "mm"

    def __post_init__(self) -> None:
        unit_of("mm", self.name)

    @property
    def unit(self) -> Unit:
        """The unit."""
        return self.unit_of("mm")

    def unit_of(self, kind: str) -> Unit:
        """The unit of a kind of value, as a field names it: what is no length keeps its own."""
        return unit_of(kind, self.name)

    def shown(self, value: float, kind: str) -> str:
        """A stored value of any kind with its unit, as its field shows it."""
        return amount(value, self.unit_of(kind))

    def number(self, length: float, decimals: int = 1) -> str:
        """The number alone; ``decimals`` of a millimetre are known."""
        return figure(round(length, decimals), self.unit)

    def text(self, length: float, decimals: int = 1) -> str:
        """A length with its unit, as "497 mm", "49.7 cm", "19.57 in"."""
        return self.number(length, decimals) + self.unit.suffix

    def pair(self, one: float, between: str, other: float, decimals: int = 1) -> str:
        """Two lengths with their unit once, as "497 ± 5 mm"."""
        return self.number(one, decimals) + between + self.text(other, decimals)

    def in_reason(self, length: Amount) -> str:
        """A length of a reason, with its unit unless it is to be bare."""
        if self.name == "mm":
            number = with_decimal_mark(f"{length.value:.6g}")
        else:
            number = figure(length.value, self.unit)
        return number if length.bare else number + self.unit.suffix

    def at_least(self, length: float) -> str:
        """A length rounded up as it is written: what is said is enough."""
        grain = 0.01 * MM_PER_INCH if self.name == "in" else 1.0
        return self.text(grain * ceil(length / grain), 3)

    def dimension(self, length: float) -> str:
        """A length as a dimension figure: bare in millimetres, as drawings have it."""
        if self.name == "mm":
            return self.number(length, 0)
        return _with_decimals(length, self.unit, 1)

    def roughly(self, length: float) -> str:
        """A length in a sentence: whole centimetres, or inches to a tenth."""
        if self.name == "in":
            return self.dimension(length)
        return _with_decimals(length, unit_of("mm", "cm"), 0)


IN_MM: Final = Lengths()
"""As files, the command line and the geometry have lengths."""


def _with_decimals(length: float, unit: Unit, most: int) -> str:
    return amount(length, replace(unit, decimals=(0, most)))
