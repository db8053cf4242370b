"""Numbers on a page that are typed rather than dragged: in a row with a label, or alone."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from PySide6.QtCore import Signal

from app.qt.controls.entry_row import EntryRow
from app.qt.controls.number_field import NumberField
from app.qt.literal import show_tip
from app.qt.sizes import px
from app.session import Session
from app.words.field import Field
from app.words.lengths import IN_MM, Lengths
from app.words.scale import scale_of

NUMBER_WIDTH: Final = 66
"""Of the number field (px)."""


class TypedRow(EntryRow):
    """Shows a number of the set-up and tells what was asked for.

    A refusal is told rather than written into the row, which has no room for it.

    Args:
        session: counts the steps of a held key as one.
        field: what is typed; where it may be 0 the field may be empty.
        now: the value in force, from which steps count.
    """

    asked = Signal(str, float)
    """The number of this name shall have this value; 0 where the field was emptied."""
    told = Signal(str)
    """Why what was typed is not taken; "" when that has been read."""

    def __init__(self, session: Session, field: Field, now: Callable[[], float]) -> None:
        super().__init__(field, field_width=NUMBER_WIDTH)
        self._now = now
        if field.zero_allowed:
            self.number.allow_empty("")
        self.rescale()
        self.number.grip.grabbed.connect(session.begin_drag)
        self.number.grip.released.connect(session.end_drag)
        self.number.committed.connect(lambda value: self.asked.emit(self.name, value))
        self.number.emptied.connect(lambda: self.asked.emit(self.name, 0.0))
        self.number.stepped.connect(self._step)

    def show_value(self, value: float) -> None:
        """Show a value; nothing is reported."""
        self.number.show_value(value)

    def show_empty(self, words: str) -> None:
        """Show that nothing was typed, and what holds then."""
        self.number.show_value(None)
        self.number.setPlaceholderText(words)

    def refuse(self, typed: str, why: str, details: str = "") -> None:
        """Say that what was typed is not taken, and why."""
        super().refuse(typed, why, details)
        words = self.tr("{}: “{}” was not taken: {}.")
        self.told.emit(words.format(self.field.label, typed, details or why))

    def forget_refusal(self) -> None:
        """Take back what was told of a number that was refused."""
        show_tip(self.number)
        self.told.emit("")

    def show_refusal(self, why: str) -> None:
        """Leave the row as it is: a refusal is told."""

    def _step(self, count: int, kind: int) -> None:
        self.asked.emit(self.name, self._scale.stepped(self._now(), count, kind))


WIDTH: Final = 62


class PlainNumber(NumberField):
    """For numbers that belong to no set-up, such as a wish.

    Args:
        field: what is typed.
    """

    asked = Signal(str, float)
    """The number of this name shall have this value."""
    told = Signal(str)
    """Why what was typed is not taken; "" when that has been read."""

    def __init__(self, field: Field) -> None:
        super().__init__()
        self.field = field
        self.show_lengths(IN_MM)
        self.setFixedWidth(px(WIDTH))
        self.setAccessibleName(field.label)
        self.setObjectName(field.name)
        self.committed.connect(self._ask)
        self.stepped.connect(self._step)
        self.refused.connect(self._refuse)
        self.resumed.connect(lambda: self.told.emit(""))

    def show_lengths(self, lengths: Lengths) -> None:
        """Write and read lengths in another unit."""
        scale = scale_of(self.field, lengths)
        self.set_scale(scale)
        reach = self.tr("From {}.").format(scale.range_text)
        about = f"{self.field.help} {reach}"
        self.explain(about)
        show_tip(self, about)

    def _ask(self, value: float) -> None:
        self.told.emit("")
        self.asked.emit(self.field.name, value)

    def _step(self, count: int, kind: int) -> None:
        if self._value is not None:
            value = self._scale.stepped(self._value, count, kind)
            self.show_value(value)
            self._ask(value)

    def _refuse(self, typed: str, why: str) -> None:
        words = self.tr("{}: “{}” was not taken: {}.")
        self.told.emit(words.format(self.field.label, typed, why))
