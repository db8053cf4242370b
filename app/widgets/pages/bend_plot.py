"""One plot of both legs along a movement, which the mouse and the keys move along.

pyqtgraph draws axes and curves; nothing of it is made anew from frame to frame.
"""

from __future__ import annotations

from typing import Any, Final

import numpy as np
import pyqtgraph as pg  # type: ignore[import-untyped]
from numpy.typing import NDArray
from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QFocusEvent,
    QFontMetrics,
    QKeyEvent,
    QMouseEvent,
    QPen,
    QWheelEvent,
)
from PySide6.QtWidgets import QGraphicsRectItem

from app.bend import ticks
from app.inputs import Field
from app.theme import DASHED, LONG_DASH_DOT, SOLID, THICK, THIN, Theme, mixed
from app.widgets.pages.bend_ground import WIDEST_NOTE, Ground, apart, figure
from app.widgets.painting import brush, pen
from app.widgets.palette import SMALL_PX, typeface

LEGS: Final = ("front", "rear")
DASHES: Final = {"front": SOLID, "rear": DASHED}
"""The legs differ by the dash of their curve, not by hue alone."""
DOTS: Final = {"front": "o", "rear": "s"}
"""And by the shape of the dot that marks the posture in hand."""


class BendPlot(pg.PlotWidget):  # type: ignore[misc]
    """Shows two curves; says where along them the hand wants to be."""

    drag_began = Signal()
    drag_ended = Signal()
    asked = Signal(float)
    """The value of the input along the axis that is wanted (degrees)."""

    def __init__(self, field: Field, label: str, theme: Theme) -> None:
        super().__init__(None, enableMenu=False)
        self._field, self._theme = field, theme
        self._held = False
        self._now = 0.0
        self._across = (0.0, 0.0)
        self._ground: Ground | None = None
        self.getPlotItem().hideButtons()
        self._box: pg.ViewBox = self.getPlotItem().getViewBox()
        self._box.setMouseEnabled(x=False, y=False)
        self._box.disableAutoRange()
        self._build_ground()
        self._build_curves()
        self._build_axes(label)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.SizeHorCursor)
        self.setMinimumSize(240, 130)
        self.setFrameStyle(0)

    def _build_ground(self) -> None:
        self._bands = [QGraphicsRectItem() for _ in range(2)]
        for z, band in enumerate(self._bands):
            band.setZValue(z - 10)
            self._box.addItem(band, ignoreBounds=True)
        self._zero = pg.InfiniteLine(angle=0, movable=False)
        self._line = pg.InfiniteLine(angle=90, movable=False)
        for line in (self._zero, self._line):
            self._box.addItem(line, ignoreBounds=True)
        self._words = [pg.TextItem() for _ in range(2)]
        for word in self._words:
            word.setFont(typeface(SMALL_PX))
            word.setZValue(-5)
            self._box.addItem(word, ignoreBounds=True)

    def _build_curves(self) -> None:
        self._curves = {leg: pg.PlotCurveItem(connect="finite", antialias=True) for leg in LEGS}
        self._dots = {leg: pg.ScatterPlotItem(size=9, symbol=DOTS[leg]) for leg in LEGS}
        # The dashed curve on top: where both run together, both are seen.
        for item in (*self._curves.values(), *self._dots.values()):
            self._box.addItem(item, ignoreBounds=True)

    def _build_axes(self, label: str) -> None:
        self.showAxis("right")
        for side in ("bottom", "left", "right"):
            self.getAxis(side).setStyle(
                tickFont=typeface(SMALL_PX), tickLength=-4, tickTextOffset=4
            )
        bottom = self.getAxis("bottom")
        bottom.setLabel(label)
        bottom.label.setFont(typeface(SMALL_PX))
        bottom.setHeight(36)
        self.getAxis("left").setWidth(38)
        metrics = QFontMetrics(typeface(SMALL_PX))
        self.getAxis("right").setWidth(12 + metrics.horizontalAdvance(WIDEST_NOTE))
        self.getAxis("right").setStyle(tickLength=0)

    # Showing

    def show_ground(self, ground: Ground, across: tuple[float, float]) -> None:
        """Show other axes and bands, where they are others."""
        if (ground, across) == (self._ground, self._across):
            return
        self._ground, self._across = ground, across
        self._box.setRange(
            xRange=across, yRange=(ground.low, ground.high), padding=0.0, disableAutoRange=True
        )
        self.getAxis("bottom").setTicks([[(x, f"{abs(x):.0f}°") for x in ticks(*across)], []])
        edge = 0.03 * (ground.high - ground.low)
        marks = ticks(ground.low + edge, ground.high - edge)
        self.getAxis("left").setTicks([[(y, figure(y, ground)) for y in marks], []])
        for item, band in zip(self._bands, ground.bands, strict=True):
            item.setRect(QRectF(across[0], band.low, across[1] - across[0], band.high - band.low))
        self._place_words(ground)
        self._colour()

    def _place_words(self, ground: Ground) -> None:
        """What high and low angles mean in the corners, and what the bands mean at the right."""
        places = (ground.up, ground.high, (0.0, 0.0)), (ground.down, ground.low, (0.0, 1.0))
        for item, (text, y, anchor) in zip(self._words, places, strict=True):
            item.setAnchor(anchor)
            item.setText(text)
            item.setPos(self._across[0], y)
        self.getAxis("right").setTicks([[(note.at, note.word) for note in apart(ground)], []])

    def show_curves(self, x: NDArray[Any], angles: NDArray[Any]) -> None:
        """Show other curves, front and rear; none where all is nan, which pyqtgraph cannot take."""
        for leg, values in zip(LEGS, angles, strict=True):
            there = bool(np.isfinite(values).any())
            self._curves[leg].setData(*((x, values) if there else ([], [])))

    def show_now(self, x: float, angles: tuple[float, float]) -> None:
        """Mark the posture in hand."""
        self._now = x
        self._line.setValue(x)
        for leg, angle in zip(LEGS, angles, strict=True):
            self._dots[leg].setData(*(([x], [angle]) if np.isfinite(angle) else ([], [])))

    def set_theme(self, theme: Theme) -> None:
        """Change the colours."""
        self._theme = theme
        self.setBackground(theme.paper)
        for side in ("bottom", "left", "right"):
            axis = self.getAxis(side)
            axis.setPen(_pen(theme.quiet, THIN))
            axis.setTextPen(theme.quiet)
        self.getAxis("bottom").setLabel(self.getAxis("bottom").labelText, color=theme.quiet)
        self._colour()

    def _colour(self) -> None:
        theme = self._theme
        bands = self._ground.bands if self._ground else ()
        for item, band in zip(self._bands, bands, strict=False):
            item.setPen(Qt.PenStyle.NoPen)
            item.setBrush(brush(mixed(theme.faint, theme.paper, 0.30 if band.strong else 0.13)))
        self._zero.setPen(_pen(theme.faint, THIN))
        focused = self.hasFocus()
        self._line.setPen(
            _pen(theme.ink if focused else theme.quiet, THICK if focused else THIN, LONG_DASH_DOT)
        )
        for word in self._words:
            word.setColor(QColor(theme.quiet))
        for leg in LEGS:
            hue = theme.leg(leg)
            self._curves[leg].setPen(_pen(hue, THICK, DASHES[leg]))
            self._dots[leg].setPen(_pen(hue, THICK))
            self._dots[leg].setBrush(brush(theme.paper))

    # Hands

    def x_at(self, event: QMouseEvent) -> float:
        """The value under the pointer, on the grid of the input and within its range."""
        at = self._box.mapSceneToView(self.mapToScene(event.position().toPoint()))
        low, high = self._across
        return self._on_grid(min(max(at.x(), low), high), _step(event.modifiers()))

    def _on_grid(self, value: float, step: float) -> float:
        low, high = self._field.low, self._field.high
        return min(max(round(round(value / step) * step, 6), low), high)

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        if event.button() == Qt.MouseButton.LeftButton:
            self._held = True
            self.drag_began.emit()
            self.asked.emit(self.x_at(event))

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        if self._held:
            self.asked.emit(self.x_at(event))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        if event.button() == Qt.MouseButton.LeftButton and self._held:
            self._held = False
            self.drag_ended.emit()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        self.mousePressEvent(event)

    def wheelEvent(self, event: QWheelEvent) -> None:  # noqa: N802
        event.ignore()

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        ways = {Qt.Key.Key_Left: -1.0, Qt.Key.Key_Right: 1.0}
        way = ways.get(Qt.Key(event.key()))
        if way is None:
            event.ignore()
            return
        self.asked.emit(self._on_grid(self._now + way * _step(event.modifiers()), 0.1))

    def focusInEvent(self, event: QFocusEvent) -> None:  # noqa: N802
        super().focusInEvent(event)
        self._colour()

    def focusOutEvent(self, event: QFocusEvent) -> None:  # noqa: N802
        super().focusOutEvent(event)
        self._colour()

    def keyReleaseEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        event.ignore()


def _pen(stroke: str, width: float, dash: tuple[float, ...] = SOLID) -> QPen:
    """A pen in logical pixels whatever the scale of the axes, which differ from each other."""
    made = QPen(pen(stroke, width, dash))
    made.setCosmetic(True)
    return made


def _step(keys: Qt.KeyboardModifier) -> float:
    """Fine with Shift, coarse with Ctrl."""
    if keys & Qt.KeyboardModifier.ShiftModifier:
        return 0.1
    return 5.0 if keys & Qt.KeyboardModifier.ControlModifier else 1.0
