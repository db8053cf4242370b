"""Which curve is whose: a piece of each line beside its name."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QPointF, QRectF, QSize
from PySide6.QtGui import QFontMetrics, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.drawing.theme import DASHED, LONG_DASH_DOT, SOLID, THICK, THIN
from app.qt.painting.easel import brush, pen
from app.qt.painting.palette import SMALL_PX, colour, typeface
from app.qt.themes import current_theme

SAMPLE: Final = 34
GAP: Final = 16
HEIGHT: Final = 18


class CurveKey(QWidget):
    """A sample of both curves with their dots, and of the line of the posture in hand."""

    def __init__(self, front: str, rear: str, now: str) -> None:
        super().__init__()
        self._names = (front, rear, now)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(", ".join(self._names))

    def sizeHint(self) -> QSize:  # noqa: N802
        """Room for three samples and their names."""
        metrics = QFontMetrics(typeface(SMALL_PX))
        names = sum(metrics.horizontalAdvance(name) for name in self._names)
        return QSize(names + 3 * (SAMPLE + 6) + 2 * GAP, HEIGHT)

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802
        theme, x, y = current_theme(), 0.0, 0.5 * HEIGHT
        inks = (theme.front_text, theme.rear_text, theme.quiet)
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setFont(typeface(SMALL_PX))
            for i, (name, ink) in enumerate(zip(self._names, inks, strict=True)):
                self._paint_sample(painter, i, x, y)
                painter.setPen(colour(ink))
                painter.drawText(QPointF(x + SAMPLE + 6, y + 4.5), name)
                x += SAMPLE + 6 + painter.fontMetrics().horizontalAdvance(name) + GAP

    def _paint_sample(self, painter: QPainter, i: int, x: float, y: float) -> None:
        theme = current_theme()
        hues = (theme.front, theme.rear, theme.quiet)
        painter.setPen(pen(hues[i], THICK if i < 2 else THIN, (SOLID, DASHED, LONG_DASH_DOT)[i]))
        painter.drawLine(QPointF(x, y), QPointF(x + SAMPLE, y))
        painter.setPen(pen(hues[i], THICK, ()))
        painter.setBrush(brush(theme.paper))
        dot = QRectF(x + 0.5 * SAMPLE - 4.0, y - 4.0, 8.0, 8.0)
        if i == 0:
            painter.drawEllipse(dot)
        elif i == 1:
            painter.drawRect(dot)
