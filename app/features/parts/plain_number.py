"""A number field that stands by itself: it keeps its value and tells what was asked for."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import Signal

from app.qt.controls.number_field import NumberField
from app.words.field import Field
from app.words.lengths import IN_MM, Lengths
from app.words.scale import scale_of

WIDTH: Final = 62


class PlainNumber(NumberField):
    """For numbers that belong to no set-up, such as a wish.

    Args:
        field: what is typed.
        width: of the field (px).
    """

    asked = Signal(str, float)
    """The number of this name shall have this value."""
    told = Signal(str)
    """Why what was typed is not taken; "" when that has been read."""

    def __init__(self, field: Field, width: int = WIDTH) -> None:
        super().__init__()
        self.field = field
        self.show_lengths(IN_MM)
        self.setFixedWidth(width)
        self.setAccessibleName(field.label)
        self.committed.connect(self._ask)
        self.stepped.connect(self._step)
        self.refused.connect(self._refuse)
        self.resumed.connect(lambda: self.told.emit(""))

    def show_lengths(self, lengths: Lengths) -> None:
        """Write and read lengths in another unit."""
        self._number_scale = scale_of(self.field, lengths)
        self.set_scale(self._number_scale)
        reach = self.tr("From {}.").format(self._number_scale.range_text)
        about = f"{self.field.help} {reach}"
        self.setAccessibleDescription(about)
        self.setToolTip(f"<p>{about}</p>")

    def _ask(self, value: float) -> None:
        self.told.emit("")
        self.asked.emit(self.field.name, value)

    def _step(self, count: int, kind: int) -> None:
        if self._value is not None:
            value = self._number_scale.stepped(self._value, count, kind)
            self.show_value(value)
            self._ask(value)

    def _refuse(self, typed: str, why: str) -> None:
        words = self.tr("{}: “{}” was not taken: {}.")
        self.told.emit(words.format(self.field.label, typed, why))
