"""The field in which a cell of the parts table is typed over."""

from __future__ import annotations

from PySide6.QtCore import Signal, SignalInstance
from PySide6.QtGui import QHideEvent, QPaintEvent
from PySide6.QtWidgets import QLineEdit, QWidget

from app.features.parts.editing import COLUMNS, help_of
from app.qt.controls.draft_mark import describe, paint_edge
from app.qt.drafts import Drafted
from app.qt.literal import show_tip
from app.words.language import tr


class CellField(Drafted, QLineEdit):
    """The field in which a cell is typed over.

    Args:
        row: of the cell.
        name: of its column.
        shown: what is in force.
    """

    changed = Signal()
    """Something else is typed and not entered."""
    gone = Signal()
    """The field is closed."""

    def __init__(self, parent: QWidget, row: int, name: str, shown: str) -> None:
        super().__init__(parent)
        self.row, self.name, self._shown = row, name, shown
        self._taking = False
        self.setAutoFillBackground(True)
        self.setAccessibleName(tr(COLUMNS[name]))
        self.textEdited.connect(self._type)

    def show_text(self, text: str) -> None:
        """Show what is in force; what is being typed stays."""
        self._shown = text
        if self.draft is None and self.text() != text:
            self.setText(text)

    def take_by(self, typed: SignalInstance) -> None:
        """Tell what is typed; whoever hears of it may refuse it."""
        text, self.why, self._taking = self.draft, "", True
        typed.emit(self.row, self.name, text)
        self._taking = False
        if not self.why:
            self._mark(None)

    def refuse(self, why: str) -> None:
        """Keep what is being taken to be mended; nothing where nothing was typed."""
        if self._taking:
            self._mark(self.draft, why)

    def resume(self, text: str) -> None:
        """Let a text stand here that is not entered."""
        self.setText(text)
        self._type(text)

    def forget(self) -> None:
        """Let what is typed go."""
        self.setText(self._shown)
        self._mark(None)

    def _type(self, text: str) -> None:
        self._mark(None if text == self._shown else text)

    def _mark(self, text: str | None, why: str = "") -> None:
        self.draft, self.why = text, why
        show_tip(self, why)
        describe(self, help_of(self.name))
        self.changed.emit()
        self.update()

    def hideEvent(self, event: QHideEvent) -> None:  # noqa: N802
        """Tell when the table has closed the field; a page that is turned only covers it."""
        super().hideEvent(event)
        if self.isHidden():
            self.gone.emit()

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802
        """Show what is typed and not entered as that."""
        super().paintEvent(event)
        if self.draft is not None:
            paint_edge(self, focus=self.hasFocus(), sign=False)
