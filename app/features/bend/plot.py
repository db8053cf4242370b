"""One plot of both legs along a movement, which the mouse and the keys move along.

Curves, bands and words are items in the pixels of the view box; none is made anew from
frame to frame.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import zip_longest
from typing import Any, Final

import numpy as np
import pyqtgraph as pg  # type: ignore[import-untyped]
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QAccessibleInterface,
    QFontMetrics,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
)
from PySide6.QtWidgets import (
    QAbstractGraphicsShapeItem,
    QGraphicsEllipseItem,
    QGraphicsLineItem,
    QGraphicsPathItem,
    QGraphicsRectItem,
    QGraphicsSimpleTextItem,
    QSizePolicy,
    QWidget,
)

from app.drawing.theme import DASHED, LONG_DASH_DOT, SOLID, THICK, THIN, mixed
from app.features.bend.ground import MOST_BANDS, Ground, apart, figure
from app.features.bend.model import ticks
from app.qt.controls.plot import MovedPlot
from app.qt.controls.steps import rate_with
from app.qt.painting.easel import brush, pen
from app.qt.painting.palette import SMALL_PX, colour, typeface
from app.qt.sizes import px
from app.qt.themes import current_theme, follow_theme
from app.words.field import Field

LEGS: Final = ("front", "rear")
DASHES: Final = {"front": SOLID, "rear": DASHED}
"""The legs differ by the dash of their curve, not by hue alone."""
DOT: Final = 4.5
"""Half the size of a dot, round for the front leg and square for the rear one (px)."""
EDGE: Final = 5.0
"""Of words from the side of the plot (px)."""


class BendPlot(MovedPlot):
    """Shows two curves; says where along them the hand wants to be.

    Args:
        field: what runs along the axis.
        label: what that is called there.
        figure_of: writes a figure at the axis; of an angle, where none is given.
    """

    asked = Signal(float)
    """The value along the axis that is wanted."""

    def __init__(
        self, field: Field, label: str, figure_of: Callable[[float], str] | None = None
    ) -> None:
        super().__init__({"bottom": label, "left": "", "right": ""})
        self._field = field
        self._figure_of = figure_of or (lambda x: f"{abs(x):.0f}°")
        self._now = 0.0
        self._shown: tuple[NDArray[Any], NDArray[Any], tuple[float, float]] | None = None
        self._across = (0.0, 0.0)
        self._ground: Ground | None = None
        self._build_ground()
        self._build_curves()
        self._build_axes()
        follow_theme(self._recolour)
        self.setAntialiasing(True)
        self._box.sigResized.connect(self._place)
        self.setCursor(Qt.CursorShape.SizeHorCursor)
        self.setMinimumSize(px(240), px(130))
        self.setFrameStyle(0)

    def _build_ground(self) -> None:
        self._bands = [QGraphicsRectItem(self._box) for _ in range(MOST_BANDS)]
        self._zero, self._line = QGraphicsLineItem(self._box), QGraphicsLineItem(self._box)
        self._words = [QGraphicsSimpleTextItem(self._box) for _ in range(2)]
        for word in self._words:
            word.setFont(typeface(SMALL_PX))

    def _build_curves(self) -> None:
        # The dashed curve on top: where both run together, both are seen.
        self._curves = {leg: QGraphicsPathItem(self._box) for leg in LEGS}
        corner = QRectF(-DOT, -DOT, 2.0 * DOT, 2.0 * DOT)
        self._dots: dict[str, QAbstractGraphicsShapeItem] = {
            "front": QGraphicsEllipseItem(corner, self._box),
            "rear": QGraphicsRectItem(corner, self._box),
        }
        for item in (*self._curves.values(), *self._dots.values()):
            item.setZValue(1.0)

    def _build_axes(self) -> None:
        self.getAxis("bottom").setHeight(px(36))
        self.getAxis("left").setWidth(px(38))
        self.getAxis("right").setStyle(tickLength=0)

    # Showing

    def show_ground(self, ground: Ground, across: tuple[float, float]) -> None:
        """Show other axes and bands, where they are others; curves follow."""
        if (ground, across) == (self._ground, self._across):
            return
        self._ground, self._across = ground, across
        self._show_range(across, (ground.low, ground.high))
        metrics = QFontMetrics(typeface(SMALL_PX))
        widths = [metrics.horizontalAdvance(note.word) for note in ground.notes]
        self.getAxis("right").setWidth(px(12) + max(widths, default=0))
        edge = 0.03 * (ground.high - ground.low)
        self._show_ticks(
            bottom=[(x, self._figure_of(x)) for x in ticks(*across)],
            left=[(y, figure(y, ground)) for y in ticks(ground.low + edge, ground.high - edge)],
            right=apart(ground),
        )
        self._place_ground()
        self._colour()

    def show_curves(
        self, x: NDArray[Any], angles: NDArray[Any], at: float, now: tuple[float, float]
    ) -> None:
        """Show other curves, front and rear, and mark the posture in hand.

        Args:
            x: along the plot (degrees), shape (n,).
            angles: of both legs (degrees), shape (2, n); nan where there is none.
            at: where along the plot the posture in hand is.
            now: its angles, front and rear.
        """
        self._shown, self._now = (x, angles, now), at
        self._place_curves()

    def _place(self) -> None:
        """Put everything where it belongs in a plot of another size."""
        self._place_ground()
        self._place_curves()

    def _place_ground(self) -> None:
        if self._ground is None:
            return
        ground, size = self._ground, self._box.rect()
        for item, band in zip_longest(self._bands, ground.bands):
            item.setVisible(band is not None)
            if band is None:
                continue
            top, bottom = self._down(band.high), self._down(band.low)
            item.setRect(QRectF(0.0, top, size.width(), bottom - top))
        self._zero.setLine(0.0, self._down(0.0), size.width(), self._down(0.0))
        up, down = self._words
        up.setText(ground.up)
        down.setText(ground.down)
        up.setPos(EDGE, 1.0)
        down.setPos(EDGE, size.height() - down.boundingRect().height() - 1.0)

    def _place_curves(self) -> None:
        if self._shown is None or self._ground is None:
            return
        x, angles, now = self._shown
        across, at = self._along(x), float(self._along(self._now))
        self._line.setLine(at, 0.0, at, self._box.rect().height())
        for leg, values, angle in zip(LEGS, angles, now, strict=True):
            path = pg.arrayToQPath(across, self._down(values), connect="finite")
            self._curves[leg].setPath(path)
            self._dots[leg].setVisible(bool(np.isfinite(angle)))
            if np.isfinite(angle):
                self._dots[leg].setPos(at, float(self._down(angle)))

    def _along(self, x: Any) -> Any:
        """From degrees along the plot to pixels of the view box."""
        left, right = self._across
        return (x - left) * self._box.rect().width() / (right - left)

    def _down(self, angle: Any) -> Any:
        """From degrees upward to pixels of the view box, which run down."""
        ground = self._ground
        low, high = (ground.low, ground.high) if ground else (0.0, 1.0)
        return (high - angle) * self._box.rect().height() / (high - low)

    def _recolour(self) -> None:
        super()._recolour()
        self._colour()

    def _colour(self) -> None:
        theme = current_theme()
        for item, band in zip(
            self._bands, self._ground.bands if self._ground else (), strict=False
        ):
            item.setPen(Qt.PenStyle.NoPen)
            item.setBrush(brush(mixed(theme.faint, theme.paper, 0.30 if band.strong else 0.13)))
        self._zero.setPen(pen(theme.faint, THIN, ()))
        self._show_hand()
        for word in self._words:
            word.setBrush(brush(theme.quiet))
        for leg in LEGS:
            hue = theme.leg(leg)
            self._curves[leg].setPen(pen(hue, THICK, DASHES[leg]))
            self._dots[leg].setPen(pen(hue, THICK, ()))
            self._dots[leg].setBrush(brush(theme.paper))

    # Hands

    def _show_hand(self) -> None:
        theme = current_theme()
        ink, width = (theme.ink, THICK) if self.hasFocus() else (theme.quiet, THIN)
        self._line.setPen(pen(ink, width, LONG_DASH_DOT))

    def x_at(self, event: QMouseEvent) -> float:
        """The value under the pointer, on the grid of the input and within its range."""
        at = self._box.mapSceneToView(self.mapToScene(event.position().toPoint()))
        low, high = self._across
        return self._on_grid(min(max(at.x(), low), high), rate_with(event.modifiers()))

    def _on_grid(self, value: float, step: float) -> float:
        low, high = self._field.low, self._field.high
        return min(max(round(round(value / step) * step, 6), low), high)

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        if event.button() == Qt.MouseButton.LeftButton:
            self.held = True
            self.drag_began.emit()
            self.asked.emit(self.x_at(event))

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        if self.held:
            self.asked.emit(self.x_at(event))

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        ways = {Qt.Key.Key_Left: -1.0, Qt.Key.Key_Right: 1.0}
        way = ways.get(Qt.Key(event.key()))
        if way is None:
            event.ignore()
            return
        self.asked.emit(self._on_grid(self._now + way * rate_with(event.modifiers()), 0.1))


SAMPLE: Final = 34
GAP: Final = 16
HEIGHT: Final = 18


class CurveKey(QWidget):
    """A sample of both curves with their dots, and of the line of the posture in hand."""

    def __init__(self, front: str, rear: str, now: str) -> None:
        super().__init__()
        self._names = (front, rear, now)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(self.tr("Key to the curves"))

    def spoken_interface(self) -> QAccessibleInterface:
        """As assistive programs see it."""
        from app.qt.accessible.drawing import SpokenDrawing  # noqa: PLC0415

        return SpokenDrawing(self)

    def spoken_values(self) -> list[str]:
        """Which curves there are."""
        return [*self._names]

    def sizeHint(self) -> QSize:  # noqa: N802
        """Room for three samples and their names."""
        metrics = QFontMetrics(typeface(SMALL_PX))
        names = sum(metrics.horizontalAdvance(name) for name in self._names)
        return QSize(names + px(3 * (SAMPLE + 6) + 2 * GAP), px(HEIGHT))

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802
        theme, x, y = current_theme(), 0.0, 0.5 * px(HEIGHT)
        inks = (theme.front_text, theme.rear_text, theme.quiet)
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setFont(typeface(SMALL_PX))
            for i, (name, ink) in enumerate(zip(self._names, inks, strict=True)):
                self._paint_sample(painter, i, x, y)
                painter.setPen(colour(ink))
                painter.drawText(QPointF(x + px(SAMPLE + 6), y + px(4.5)), name)
                x += px(SAMPLE + 6 + GAP) + painter.fontMetrics().horizontalAdvance(name)

    def _paint_sample(self, painter: QPainter, i: int, x: float, y: float) -> None:
        theme = current_theme()
        hues = (theme.front, theme.rear, theme.quiet)
        painter.setPen(pen(hues[i], THICK if i < 2 else THIN, (SOLID, DASHED, LONG_DASH_DOT)[i]))
        painter.drawLine(QPointF(x, y), QPointF(x + px(SAMPLE), y))
        painter.setPen(pen(hues[i], THICK, ()))
        painter.setBrush(brush(theme.paper))
        dot = QRectF(x + 0.5 * px(SAMPLE) - 4.0, y - 4.0, 8.0, 8.0)
        if i == 0:
            painter.drawEllipse(dot)
        elif i == 1:
            painter.drawRect(dot)
