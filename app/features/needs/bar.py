"""A band of angles as a small drawing: from least to full, with what is set now."""

from __future__ import annotations

from math import isfinite
from typing import Final, NamedTuple

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPaintEvent, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.drawing.theme import THICK, THIN, Theme, mixed
from app.qt.painting.easel import brush, pen
from app.qt.painting.palette import SMALL_PX, colour, typeface
from app.qt.themes import current_theme

LOWEST: Final = 46
HIGHEST: Final = 66
"""Between these heights a bar takes what room there is (px)."""
WITH_FIGURES: Final = 58
"""From this height on, the line has figures."""
SPANS: Final = (5.0, 10.0, 15.0, 30.0, 60.0)
"""Angles at the ends of the line (degrees)."""
AXIS_Y: Final = 15.0
"""Where the line runs (px from the top)."""
TICK_DEG: Final = 5.0
SIGN: Final = 4.5
"""Half the width of a sign (px)."""


class Band(NamedTuple):
    """What a bar shows (degrees); nan where there is none."""

    least: float
    full: float
    now: float
    best: float


def span_of(bands: list[Band]) -> float:
    """The smallest line that holds all angles of some bands (degrees)."""
    most = max((abs(angle) for band in bands for angle in band if isfinite(angle)), default=0.0)
    return next((span for span in SPANS if span >= most - 1e-9), SPANS[-1])


class NeedBar(QWidget):
    """One band; ``ways`` name the two ends of its line, positive first."""

    def __init__(self, leg: str, ways: tuple[str, str]) -> None:
        super().__init__()
        self._leg, self._ways = leg, ways
        self._band, self._span = Band(0.0, 0.0, 0.0, 0.0), SPANS[0]
        self._stale = False
        self.setMaximumHeight(HIGHEST)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def show_band(self, band: Band, span: float, *, stale: bool) -> None:
        """Show other angles; ``stale`` when the best is that of a moment ago."""
        if (band, span, stale) != (self._band, self._span, self._stale):
            self._band, self._span, self._stale = band, span, stale
            self.update()

    def minimumSizeHint(self) -> QSize:  # noqa: N802
        """Room for the words at both ends."""
        metrics = QFontMetrics(typeface(SMALL_PX))
        words = sum(metrics.horizontalAdvance(word) for word in self._ways)
        return QSize(words + 24, LOWEST)

    def sizeHint(self) -> QSize:  # noqa: N802
        """Room for the figures too."""
        return QSize(self.minimumSizeHint().width(), HIGHEST)

    def x_of(self, angle: float) -> float:
        """Where an angle lies (px)."""
        half = 0.5 * self.width()
        return half + angle / self._span * (half - SIGN - 1.0)

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            self._paint_line(painter)
            self._paint_band(painter)
            self._paint_signs(painter)

    def _paint_line(self, painter: QPainter) -> None:
        theme = current_theme()
        painter.setPen(pen(theme.faint, THIN, ()))
        painter.drawLine(
            QPointF(self.x_of(-self._span), AXIS_Y), QPointF(self.x_of(self._span), AXIS_Y)
        )
        ticks = round(self._span / TICK_DEG)
        for i in range(-ticks, ticks + 1):
            x, length = self.x_of(i * TICK_DEG), 3.0 if i else 7.0
            painter.drawLine(QPointF(x, AXIS_Y - length), QPointF(x, AXIS_Y + length))
        painter.setFont(typeface(SMALL_PX))
        painter.setPen(colour(theme.quiet))
        if self.height() >= WITH_FIGURES:
            self._write_figures(painter)
        words = QRectF(self.rect()).adjusted(0.0, self.height() - 15.0, 0.0, 0.0)
        painter.drawText(words, int(Qt.AlignmentFlag.AlignRight), self._ways[0])
        painter.drawText(words, int(Qt.AlignmentFlag.AlignLeft), self._ways[1])

    def _write_figures(self, painter: QPainter) -> None:
        """The angles at the middle and at both ends."""
        top = AXIS_Y + 16.0
        for angle in (-self._span, 0.0, self._span):
            text = f"{abs(angle):.0f}°"
            width = painter.fontMetrics().horizontalAdvance(text)
            left = min(max(self.x_of(angle) - 0.5 * width, 0.0), self.width() - width)
            painter.drawText(QPointF(left, top + 11.0), text)

    def _paint_band(self, painter: QPainter) -> None:
        if not isfinite(self._band.least + self._band.full):
            return
        hue = current_theme().leg(self._leg)
        left, right = sorted((self.x_of(self._band.least), self.x_of(self._band.full)))
        painter.setPen(pen(hue, 1.4, ()))
        painter.setBrush(brush(mixed(hue, current_theme().panel, 0.45)))
        painter.drawRect(QRectF(left, AXIS_Y - 4.0, max(right - left, 1.0), 8.0))

    def _paint_signs(self, painter: QPainter) -> None:
        paint_now(painter, self.x_of(self._band.now), current_theme())
        if isfinite(self._band.best):
            paint_best(painter, self.x_of(self._band.best), current_theme(), faint=self._stale)


def paint_now(painter: QPainter, x: float, theme: Theme) -> None:
    """The sign of what is set: a triangle that points down on the line."""
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(brush(theme.ink))
    corners = QPointF(x - SIGN, 1.0), QPointF(x + SIGN, 1.0), QPointF(x, AXIS_Y - 4.0)
    painter.drawPolygon(QPolygonF(corners))


def paint_best(painter: QPainter, x: float, theme: Theme, *, faint: bool) -> None:
    """The sign of the whole bend's best: an open lozenge under the line."""
    painter.setPen(pen(theme.faint if faint else theme.ink, 0.7 * THICK, ()))
    painter.setBrush(brush(theme.panel))
    y, size = AXIS_Y + 5.0 + SIGN, SIGN - 0.5
    corners = QPointF(x, y - size), QPointF(x + size, y), QPointF(x, y + size), QPointF(x - size, y)
    painter.drawPolygon(QPolygonF(corners))


class BarKey(QWidget):
    """What the signs at the bars mean."""

    def __init__(self, now: str, best: str) -> None:
        super().__init__()
        self._now, self._best = now, best
        self.setFixedHeight(LOWEST)
        metrics = QFontMetrics(typeface(SMALL_PX))
        self.setMinimumWidth(16 + max(metrics.horizontalAdvance(word) for word in (now, best)))
        self.setAccessibleName(f"{now}, {best}")

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            paint_now(painter, SIGN + 0.5, current_theme())
            paint_best(painter, SIGN + 0.5, current_theme(), faint=False)
            painter.setFont(typeface(SMALL_PX))
            painter.setPen(colour(current_theme().quiet))
            painter.drawText(QPointF(16.0, 11.0), self._now)
            painter.drawText(QPointF(16.0, 29.0), self._best)
