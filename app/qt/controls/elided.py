"""A line of words that gives way where there is no room for it."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy

from app.qt.literal import Label, show_tip


class Elided(Label):
    """A line that is cut with dots where there is no room; its tool tip has the whole."""

    def __init__(self) -> None:
        super().__init__()
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)

    def tell(self, text: str) -> None:
        """Show a text, and the whole of it in the tool tip."""
        self.setText(text)
        show_tip(self, text)

    def minimumSizeHint(self) -> QSize:  # noqa: N802
        return QSize(80, super().minimumSizeHint().height())

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802
        """Paint what there is room for."""
        with QPainter(self) as painter:
            room = self.contentsRect()
            words = self.fontMetrics().elidedText(
                self.text(), Qt.TextElideMode.ElideRight, room.width()
            )
            painter.setPen(self.palette().color(self.foregroundRole()))
            painter.drawText(room, int(Qt.AlignmentFlag.AlignVCenter), words)
