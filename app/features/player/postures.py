"""The table of key postures: to be read, or typed over where the movement is one's own."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import Any, Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QToolButton, QWidget

from app.qt.controls.layout import grid_of
from app.qt.controls.typed_row import PlainNumber
from app.qt.drafts import put_away
from app.qt.literal import Label, show_tip
from app.qt.painting.palette import QUIET
from app.qt.sizes import px
from app.rider.movement import (
    POSTURE_FIELDS,
    Movement,
    time_range,
    with_posture,
    without,
)
from app.words.field import Field
from app.words.language import msgid, tr
from app.words.lengths import IN_MM, Lengths

HEADS: Final = {
    "at_s": msgid("Time"),
    "knee_bend_deg": msgid("Bend", "heading of a column"),
    "hips_turned_deg": msgid("Hips", "heading of a column"),
    "hip_shift_mm": msgid("Shift", "heading of a column"),
    "back_lean_deg": msgid("Back", "heading of a column"),
}
"""Of the columns, as short as they must be; the whole name is their tool tip."""
FEWEST: Final = 2
CELL: Final = 55
"""Width of a number (px)."""


class PostureTable(QWidget):
    """Shows key postures, a row each; asks for another movement where one is typed over."""

    asked = Signal(object)
    """This movement is wanted."""
    told = Signal(str)
    """Why what was typed is not taken; "" when that has been read."""

    def __init__(self) -> None:
        super().__init__()
        self.movement = Movement()
        self._lengths = IN_MM
        self._own = False
        self._grid = grid_of(self, (3, 2))
        self._grid.setColumnStretch(len(POSTURE_FIELDS) + 1, 1)
        self.cells: list[dict[str, PlainNumber | Label]] = []
        self.removers: list[QToolButton] = []
        for column, field in enumerate(POSTURE_FIELDS):
            context = "" if field.name == "at_s" else "heading of a column"
            head = Label(tr(HEADS[field.name], context))
            head.setForegroundRole(QUIET)
            head.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
            show_tip(head, f"{field.label}: {field.help}")
            self._grid.addWidget(head, 0, column)
            self._grid.setColumnMinimumWidth(column, CELL)

    def show_movement(self, movement: Movement, lengths: Lengths, *, own: bool) -> None:
        """Show other postures; they can be typed over where they are the rider's own."""
        if own != self._own or len(movement.postures) != len(self.cells):
            self._own = own
            self._make_rows(len(movement.postures))
        self.movement, self._lengths = movement, lengths
        for place, (cells, posture) in enumerate(zip(self.cells, movement.postures, strict=True)):
            for field in POSTURE_FIELDS:
                cell, value = cells[field.name], getattr(posture, field.name)
                if isinstance(cell, Label):
                    cell.setText(lengths.shown(value, field.unit))
                    continue
                cell.field = self._field(field, place)
                cell.show_lengths(lengths)
                cell.show_value(value)
        for remover in self.removers:
            remover.setEnabled(len(movement.postures) > FEWEST)

    def _field(self, field: Field, place: int) -> Field:
        """A field with the range that it has in a row: times keep their order."""
        if field.name != "at_s":
            return field
        low, high = time_range(self.movement, place)
        return replace(field, low=low, high=high)

    def _make_rows(self, count: int) -> None:
        for cells in self.cells:
            for cell in cells.values():
                _away(cell)
        for remover in self.removers:
            _away(remover)
        self.cells, self.removers = [], []
        for place in range(count):
            cells = {field.name: self._cell(field, place) for field in POSTURE_FIELDS}
            for column, cell in enumerate(cells.values()):
                self._grid.addWidget(cell, place + 1, column)
            self.cells.append(cells)
            if self._own:
                self._grid.addWidget(self._remover(place), place + 1, len(POSTURE_FIELDS))

    def _cell(self, field: Field, place: int) -> PlainNumber | Label:
        if not self._own:
            label = Label()
            label.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
            label.setMinimumHeight(px(20))
            return label
        number = PlainNumber(field)
        number.setFixedWidth(px(CELL))
        number.setObjectName(f"{field.name}_{place + 1}")
        name = self.tr("{}, posture {}").format(field.label, place + 1)
        number.setAccessibleName(name)
        number.asked.connect(partial(self._ask, place))
        number.told.connect(self.told)
        return number

    def _remover(self, place: int) -> QToolButton:
        button = QToolButton()
        button.setText("×")
        button.setAutoRaise(True)
        tip = self.tr("Take posture {} out").format(place + 1)
        button.setAccessibleName(tip)
        show_tip(button, tip)
        button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        button.clicked.connect(lambda: self.asked.emit(without(self.movement, place)))
        self.removers.append(button)
        return button

    def _ask(self, place: int, name: str, value: float) -> None:
        change: dict[str, Any] = {name: value}
        posture = replace(self.movement.postures[place], **change)
        self.asked.emit(with_posture(self.movement, place, posture))


def _away(widget: QWidget) -> None:
    put_away(widget)
    widget.setParent(None)
    widget.deleteLater()
