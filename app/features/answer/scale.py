"""One foot's cants as a small drawing: now, to begin with, in plane, and all of it."""

from __future__ import annotations

from math import isfinite
from typing import Final, NamedTuple

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.drawing.theme import THICK, THIN, Theme, mixed
from app.qt.painting.easel import brush, pen
from app.qt.painting.palette import SMALL_PX, colour, typeface
from app.qt.themes import current_theme
from app.words.language import tr

HEIGHT: Final = 48
"""Of the drawing (px)."""
SPANS: Final = (5.0, 10.0, 15.0, 30.0)
"""Angles at the ends of the line (degrees)."""
LINE_Y: Final = 22.0
"""Where the line runs (px from the top)."""
BAND: Final = 7.0
"""Half the height of the band of cants that keep the knee in its plane (px)."""
DOT: Final = 5.0
"""Half the size of the sign of what to begin with (px)."""
EDGE: Final = 12.0
"""Room beside the ends of the line (px)."""


class Cants(NamedTuple):
    """What a scale shows (degrees); nan where there is none.

    Attributes:
        now: on the binding.
        begin: to begin with.
        low: least cant that keeps the knee in its plane.
        high: largest that does; below the least one where none does.
        full: all of it.
    """

    now: float
    begin: float
    low: float
    high: float
    full: float


def span_of(cants: list[Cants]) -> float:
    """The smallest line that holds what counts of some scales (degrees)."""
    counts = [angle for one in cants for angle in (one.now, one.begin, one.full)]
    ends = [min(abs(end), SPANS[1]) for one in cants for end in (one.low, one.high)]
    most = max((abs(angle) for angle in (*counts, *ends) if isfinite(angle)), default=0.0)
    return next((span for span in SPANS if span >= most - 1e-9), SPANS[-1])


class CantScale(QWidget):
    """Shows cants; asks for nothing."""

    def __init__(self, leg: str) -> None:
        super().__init__()
        self._leg = leg
        self._cants, self._span = Cants(0.0, 0.0, 0.0, 0.0, 0.0), SPANS[0]
        self._label = ""
        self.setFixedHeight(HEIGHT)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_cants(self, cants: Cants, span: float, label: str) -> None:
        """Show other cants; ``label`` says what the band is."""
        if (cants, span, label) != (self._cants, self._span, self._label):
            self._cants, self._span, self._label = cants, span, label
            self.update()

    def minimumSizeHint(self) -> QSize:  # noqa: N802
        """Room for the words at both ends."""
        return QSize(200, HEIGHT)

    def x_of(self, angle: float) -> float:
        """Where an angle lies (px), inside the line at the most."""
        half = 0.5 * self.width()
        inside = min(max(angle / self._span, -1.0), 1.0)
        return half + inside * (half - EDGE)

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            theme = current_theme()
            self._paint_band(painter, theme)
            self._paint_line(painter, theme)
            self._paint_signs(painter, theme)

    def _paint_band(self, painter: QPainter, theme: Theme) -> None:
        low, high = self._cants.low, self._cants.high
        if not low <= high:
            return
        left, right = self.x_of(low), self.x_of(high)
        hue = mixed(theme.leg(self._leg), theme.panel, 0.28 if self.isEnabled() else 0.14)
        painter.fillRect(
            QRectF(left, LINE_Y - BAND, max(right - left, 1.0), 2.0 * BAND), colour(hue)
        )
        painter.setFont(typeface(SMALL_PX))
        painter.setPen(colour(theme.quiet if self.isEnabled() else theme.faint))
        width = painter.fontMetrics().horizontalAdvance(self._label)
        start = min(max(0.5 * (left + right - width), 0.0), self.width() - width)
        painter.drawText(QPointF(start, LINE_Y - BAND - 3.0), self._label)

    def _paint_line(self, painter: QPainter, theme: Theme) -> None:
        painter.setPen(pen(theme.quiet if self.isEnabled() else theme.faint, THIN, ()))
        start, end = self.x_of(-self._span), self.x_of(self._span)
        painter.drawLine(QPointF(start, LINE_Y), QPointF(end, LINE_Y))
        step = 5.0 if self._span > 5.0 else 1.0
        ticks = round(self._span / step)
        for i in range(-ticks, ticks + 1):
            x, length = self.x_of(i * step), 3.0 if i else 6.0
            painter.drawLine(QPointF(x, LINE_Y - length), QPointF(x, LINE_Y + length))
        self._paint_figures(painter)

    def _paint_figures(self, painter: QPainter) -> None:
        painter.setFont(typeface(SMALL_PX))
        figure = f"{self._span:.0f}°"
        texts = (
            (tr("{angle} outward", angle=figure), 0.0),
            ("0°", 0.5),
            (tr("{angle} inward", angle=figure), 1.0),
        )
        for text, side in texts:
            width = painter.fontMetrics().horizontalAdvance(text)
            painter.drawText(QPointF(side * (self.width() - width), HEIGHT - 3.0), text)

    def _paint_signs(self, painter: QPainter, theme: Theme) -> None:
        cants, hue = self._cants, theme.leg(self._leg) if self.isEnabled() else theme.faint
        if isfinite(cants.full):
            painter.setPen(pen(hue, 2.0 * THICK, ()))
            zero, full = self.x_of(0.0), self.x_of(cants.full)
            painter.drawLine(QPointF(zero, LINE_Y), QPointF(full, LINE_Y))
        ink = theme.ink if self.isEnabled() else theme.faint
        self._paint_now(painter, ink)
        if isfinite(cants.begin):
            painter.setPen(pen(hue, THICK, ()))
            painter.setBrush(brush(theme.field))
            painter.drawEllipse(QPointF(self.x_of(cants.begin), LINE_Y), DOT, DOT)

    def _paint_now(self, painter: QPainter, ink: str) -> None:
        """A triangle under the line that points at what is on the binding."""
        x, top = self.x_of(self._cants.now), LINE_Y + DOT + 1.0
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(brush(ink))
        corners = QPointF(x, top), QPointF(x + 4.5, top + 7.0), QPointF(x - 4.5, top + 7.0)
        painter.drawPolygon(QPolygonF(corners))
