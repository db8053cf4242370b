"""A row of the panel: it knows which input it is, and lights up."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QEvent, QRect, Signal
from PySide6.QtGui import QEnterEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from app.drawing.theme import mixed
from app.qt.painting.palette import colour
from app.qt.themes import current_theme

PAD: Final = 12
"""From the edge of the panel to what stands in it."""


class Row(QWidget):
    """Background of one control; lit when the drawing points at what it moves."""

    hovered = Signal(str, bool)
    """The mouse came to the row of this name, or left it."""
    focused = Signal(str, bool)
    """The keyboard came to the row of this name, or left it."""

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.name = name
        self.lit = False
        self._under_mouse = False

    def set_lit(self, lit: bool) -> None:
        """Light the row up, or not."""
        if lit != self.lit:
            self.lit = lit
            self.update()

    def enterEvent(self, event: QEnterEvent) -> None:  # noqa: N802
        super().enterEvent(event)
        self._come(True)

    def leaveEvent(self, event: QEvent) -> None:  # noqa: N802
        super().leaveEvent(event)
        self._come(False)

    def _come(self, here: bool) -> None:
        self._under_mouse = here
        self.hovered.emit(self.name, here)
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802
        with QPainter(self) as painter:
            self.paint_row(painter)

    def paint_row(self, painter: QPainter) -> None:
        """Draw the row's background; rows with more to draw add to it."""
        if not (self.lit or self._under_mouse):
            return
        theme = current_theme()
        # Towards the ground of the fields, on which words stand out more than on the panel.
        share = 1.0 if self.lit else 0.5
        painter.fillRect(self.rect(), colour(mixed(theme.field, theme.panel, share)))
        if self.lit:
            painter.fillRect(QRect(0, 0, 3, self.height()), colour(theme.ink))
