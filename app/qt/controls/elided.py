"""A line of words that gives way where there is no room for it."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy

from app.qt.literal import Label, show_tip
from app.qt.sizes import is_held

LONG_WORD: Final = 12
"""By how many letters a line may end short of its room."""


class Elided(Label):
    """A line that is cut with dots where there is no room; its tool tip has the whole.

    Args:
        told: whether an audience has to read the whole: while presented it has two lines.
    """

    def __init__(self, *, told: bool = False) -> None:
        super().__init__()
        self._told = told
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)

    def tell(self, text: str) -> None:
        """Show a text, and the whole of it in the tool tip."""
        self.setText(text)
        show_tip(self, text)

    def minimumSizeHint(self) -> QSize:  # noqa: N802
        return QSize(80, super().minimumSizeHint().height() + self._more)

    def sizeHint(self) -> QSize:  # noqa: N802
        return super().sizeHint() + QSize(0, self._more)

    @property
    def _more(self) -> int:
        """Height of a second line (px); 0 where there is none."""
        return self.fontMetrics().lineSpacing() if self._told and is_held() else 0

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802
        """Paint what there is room for."""
        with QPainter(self) as painter:
            room, lines = self.contentsRect(), 2 if self._more else 1
            # Of two lines the first ends where a word does.
            short = LONG_WORD * self.fontMetrics().averageCharWidth()
            wide = room.width() * lines - (lines - 1) * short
            words = self.fontMetrics().elidedText(self.text(), Qt.TextElideMode.ElideRight, wide)
            painter.setPen(self.palette().color(self.foregroundRole()))
            wrap = Qt.TextFlag.TextWordWrap if lines > 1 else Qt.TextFlag.TextSingleLine
            painter.drawText(room, int(Qt.AlignmentFlag.AlignVCenter) | int(wrap), words)
