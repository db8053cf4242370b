"""The scale of one control: its range and steps, in the unit in which it is shown.

All values are stored values (mm or degrees); the unit only decides what is
written and where the round numbers lie.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from app.words.field import Field
from app.words.language import tr
from app.words.lengths import IN_MM, Lengths
from app.words.units import DEGREES, ReadingError, Unit, amount, reading, span

FINE: Final = 0
PLAIN: Final = 1
COARSE: Final = 2


@dataclass(frozen=True, slots=True)
class Scale:
    """What a slider and a number field need to know of an input.

    Attributes:
        low: smallest value.
        high: largest value.
        steps: the fine, the plain and the coarse step.
        unit: in which the values are written.
        default: where a double-click leads, if anywhere.
    """

    low: float
    high: float
    steps: tuple[float, float, float]
    unit: Unit
    default: float | None = None

    def share(self, value: float) -> float:
        """How far along the scale a value stands, 0 at the low end and 1 at the high."""
        return (value - self.low) / (self.high - self.low)

    def clipped(self, value: float) -> float:
        """The nearest value on the scale."""
        return min(max(value, self.low), self.high)

    def snapped(self, value: float, kind: int) -> float:
        """The nearest multiple of a step that lies on the scale."""
        step = self.steps[kind]
        return self.clipped(round(round(value / step) * step, 6))

    def stepped(self, value: float, count: int, kind: int) -> float:
        """The value moved by some steps, stopped at the ends of the scale."""
        return self.clipped(round(value + count * self.steps[kind], 6))

    def text(self, value: float) -> str:
        """The value with its unit."""
        return amount(value, self.unit)

    @property
    def range_text(self) -> str:
        """The range in words."""
        return span(self.low, self.high, self.unit)

    def read(self, text: str) -> float:
        """The value that was typed.

        An end of the scale may be typed as it is written: 1.57 in is 40 mm there.

        Raises:
            ReadingError: it is no number, of the wrong kind, or off the scale.
        """
        value = reading(text, self.unit)
        end = self.clipped(value)
        if self.text(value) != self.text(end):
            raise ReadingError(tr("{range} only", range=self.range_text))
        return end


UNTOLD: Final = Scale(0.0, 1.0, (0.1, 1.0, 5.0), DEGREES)
"""On which a control stands until it is told its own."""


def scale_of(field: Field, lengths: Lengths = IN_MM, *, default: float | None = None) -> Scale:
    """The scale of an input, with lengths in the unit asked for."""
    unit = lengths.unit_of(field.unit)
    fine, plain, coarse = field.fine_step, field.step, field.coarse_step
    if field.step in dict(unit.steps):
        fine, plain, coarse = (step * unit.size for step in dict(unit.steps)[field.step])
    return Scale(field.low, field.high, (fine, plain, coarse), unit, default)
