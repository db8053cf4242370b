"""A key of what can be asked about: its name at the left, its value at the right."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QFont, QFontMetrics, QPainter
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.drawing.theme import mixed
from app.qt.controls.switch import RingedButton
from app.qt.literal import button_text, say_about
from app.qt.painting.palette import TEXT_PX, colour, typeface
from app.qt.sizes import px, target_px
from app.qt.themes import current_theme

HEIGHT: Final = 24
PAD: Final = 8


class TopicKey(RingedButton):
    """Offers one of the numbers that have reasons."""

    ring = (1.5, 1.5, -1.5, -1.5)

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._name, self._value = name, ""
        self.setText(button_text(name))
        self.setCheckable(True)
        self.setAutoExclusive(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(name)

    def show_value(self, value: str) -> None:
        """Show what it is now."""
        if value != self._value:
            self._value = value
            say_about(self, value)
            self.update()

    def sizeHint(self) -> QSize:  # noqa: N802
        metrics = QFontMetrics(typeface(TEXT_PX, QFont.Weight.DemiBold))
        return QSize(metrics.horizontalAdvance(self._name) + px(96), target_px(HEIGHT))

    def paint_button(self, painter: QPainter) -> None:
        theme, chosen = current_theme(), self.isChecked()
        if chosen or self.underMouse():
            share = 1.0 if chosen else 0.5
            painter.fillRect(self.rect(), colour(mixed(theme.field, theme.panel, share)))
        if chosen:
            painter.fillRect(QRect(0, 0, 3, self.height()), colour(theme.ink))
        weight = QFont.Weight.Medium if chosen else QFont.Weight.Normal
        painter.setFont(typeface(TEXT_PX, weight))
        room = self.rect().adjusted(px(PAD), 0, -px(PAD), 0)
        middle = Qt.AlignmentFlag.AlignVCenter
        painter.setPen(colour(theme.ink))
        painter.drawText(room, middle | Qt.AlignmentFlag.AlignLeft, self._name)
        painter.setPen(colour(theme.ink if chosen else theme.quiet))
        painter.drawText(room, middle | Qt.AlignmentFlag.AlignRight, self._value)
