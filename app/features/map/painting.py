"""How the stance map is painted, in the pixels of its view box."""

from __future__ import annotations

from typing import Any, Final, NamedTuple

import numpy as np
import pyqtgraph as pg  # type: ignore[import-untyped]
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from app.drawing.marks import Window
from app.drawing.theme import LONG_DASH_DOT, THICK, THIN, Theme, mixed
from app.features.map.labels import Box
from app.features.map.lines import MapLines
from app.qt.painting.easel import brush, pen
from app.qt.painting.palette import SMALL_PX, colour, typeface
from app.qt.themes import current_theme

GRIP: Final = 14.0
"""How near the dot a press takes hold of it (px)."""
DOT: Final = 4.5
"""Radius of the dot (px)."""


class Scale(NamedTuple):
    """From angles and ratios to the pixels of the view box."""

    extent: Window
    width: float
    height: float

    def points(self, places: NDArray[Any]) -> NDArray[Any]:
        """Rows of angle and ratio, in pixels."""
        left, bottom, right, top = self.extent
        x = (places[:, 0] - left) * self.width / (right - left)
        y = (top - places[:, 1]) * self.height / (top - bottom)
        return np.column_stack((x, y))

    def point(self, angle: float, ratio: float) -> QPointF:
        """One place."""
        x, y = self.points(np.array([[angle, ratio]]))[0]
        return QPointF(x, y)


class Word(NamedTuple):
    """Words in their place."""

    box: Box
    text: str
    strong: bool

    @property
    def area(self) -> QRectF:
        """Its box as Qt knows it."""
        return QRectF(QPointF(*self.box[:2]), QPointF(*self.box[2:]))


class Ground(pg.GraphicsObject):  # type: ignore[misc]
    """All that stays while the dot moves: kept as a picture by Qt."""

    def __init__(self, box: pg.ViewBox) -> None:
        super().__init__()
        self.setParentItem(box)
        self.setCacheMode(QGraphicsItem.CacheMode.DeviceCoordinateCache)
        self.lines: MapLines | None = None
        # Least and largest stance length over the neutral spacing that the inserts allow.
        self.inserts = (0.0, 0.0)
        self.scale = Scale(Window(0.0, 0.0, 1.0, 1.0), 1.0, 1.0)
        self.words: list[Word] = []

    def boundingRect(self) -> QRectF:  # noqa: N802
        return QRectF(0.0, 0.0, self.scale.width, self.scale.height)

    def paint(
        self, painter: QPainter, _option: QStyleOptionGraphicsItem, _widget: QWidget | None = None
    ) -> None:
        painter.setClipRect(self.boundingRect())
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        paint_inserts(painter, self.allowed(), current_theme())
        if self.lines is not None:
            self._paint_blanks(painter, self.lines)
            self._paint_lines(painter, self.lines)
        for word in self.words:
            self._paint_word(painter, word)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(pen(current_theme().faint, THIN, ()))
        painter.drawRect(self.boundingRect().adjusted(0.5, 0.5, -0.5, -0.5))

    def allowed(self) -> QRectF:
        """The band of stance lengths that the inserts allow; empty where they allow none."""
        low, high = (self.scale.point(0.0, ratio).y() for ratio in self.inserts)
        return QRectF(0.0, high, self.scale.width, max(low - high, 0.0))

    def _paint_blanks(self, painter: QPainter, lines: MapLines) -> None:
        corners = lines.blanks[:, [0, 3, 1, 2]].reshape(-1, 2)
        for left_top, right_bottom in self.scale.points(corners).reshape(-1, 2, 2):
            area = QRectF(QPointF(*left_top), QPointF(*right_bottom))
            painter.fillRect(area, brush(current_theme().paper))
            painter.fillRect(area, blank_brush(current_theme()))

    def _paint_lines(self, painter: QPainter, lines: MapLines) -> None:
        for line in lines.levels:
            plain = pen(mixed(current_theme().quiet, current_theme().paper, 0.8), THIN, ())
            painter.setPen(plain if line.cant_deg else zero_pen(current_theme()))
            for piece in line.pieces:
                painter.drawPolyline(polygon(self.scale.points(piece)))
        painter.setPen(straight_pen(current_theme()))
        painter.drawPolyline(polygon(self.scale.points(straight_of(lines))))

    def _paint_word(self, painter: QPainter, word: Word) -> None:
        painter.fillRect(word.area, brush(current_theme().paper))
        painter.setFont(typeface(SMALL_PX))
        painter.setPen(colour(current_theme().ink if word.strong else current_theme().quiet))
        painter.drawText(word.area, Qt.AlignmentFlag.AlignCenter, word.text)


def straight_of(lines: MapLines) -> NDArray[Any]:
    """The line for straight legs where it exists."""
    exists = ~np.isnan(lines.straight_leg[:, 1])
    return np.asarray(lines.straight_leg[exists])


def zero_pen(theme: Theme) -> QPen:
    """Of the line without cant."""
    return pen(theme.ink, 1.25 * THICK, ())


def straight_pen(theme: Theme) -> QPen:
    """Of the line for straight legs."""
    return pen(theme.ink, 1.4 * THIN, LONG_DASH_DOT)


def blank_brush(theme: Theme) -> QBrush:
    """Hatching where no posture settles."""
    return QBrush(QColor(theme.faint), Qt.BrushStyle.BDiagPattern)


def paint_inserts(painter: QPainter, area: QRectF, theme: Theme) -> None:
    """The band of stances that the inserts allow, or a sample of it."""
    painter.fillRect(area, brush(mixed(theme.faint, theme.paper, 0.16)))
    painter.setPen(pen(theme.faint, THIN, (2.0, 3.0)))
    painter.drawLine(area.topLeft(), area.topRight())
    painter.drawLine(area.bottomLeft(), area.bottomRight())


def polygon(points: NDArray[Any]) -> QPolygonF:
    """Points as Qt draws them."""
    return QPolygonF([QPointF(x, y) for x, y in points.tolist()])


class Dot(pg.GraphicsObject):  # type: ignore[misc]
    """The stance in hand, its margin around it, and its handle when it is reached for."""

    def __init__(self, box: pg.ViewBox) -> None:
        super().__init__()
        self.setParentItem(box)
        self.margin = (0.0, 0.0)
        self.hovered = self.held = self.focused = False

    def show_margin(self, across: float, upward: float) -> None:
        """Half axes of the ellipse (px)."""
        if self.margin != (across, upward):
            self.prepareGeometryChange()
            self.margin = across, upward
            self.update()

    def boundingRect(self) -> QRectF:  # noqa: N802
        across, upward = (max(half, GRIP) + 2.0 for half in self.margin)
        return QRectF(-across, -upward, 2.0 * across, 2.0 * upward)

    def paint(
        self, painter: QPainter, _option: QStyleOptionGraphicsItem, _widget: QWidget | None = None
    ) -> None:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        paint_margin(painter, QPointF(0.0, 0.0), self.margin, current_theme())
        if self.hovered or self.held or self.focused:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(pen(current_theme().paper, 4.0, ()))
            painter.drawEllipse(QPointF(0.0, 0.0), GRIP - 2.0, GRIP - 2.0)
            painter.setPen(pen(current_theme().ink, THICK if self.focused else THIN, ()))
            painter.drawEllipse(QPointF(0.0, 0.0), GRIP - 2.0, GRIP - 2.0)


def paint_margin(painter: QPainter, at: QPointF, halves: tuple[float, float], theme: Theme) -> None:
    """The dot on its ellipse, or a sample of it."""
    fill = QColor(theme.ink)
    fill.setAlphaF(0.14)
    painter.setBrush(fill)
    painter.setPen(pen(theme.ink, THIN, ()))
    painter.drawEllipse(at, *halves)
    painter.setBrush(colour(theme.ink))
    painter.setPen(pen(theme.paper, 1.5, ()))
    painter.drawEllipse(at, DOT, DOT)
