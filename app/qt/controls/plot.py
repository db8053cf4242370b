"""A plot in whose axes something is moved by hand: never zoomed, coloured by the theme.

pyqtgraph gives the axes.  What stands between them is painted in the pixels of the
view box, so that pens and letters keep their size.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

import pyqtgraph as pg  # type: ignore[import-untyped]
from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QAccessibleInterface, QFocusEvent, QKeyEvent, QMouseEvent, QWheelEvent

from app.drawing.theme import THIN
from app.qt.painting.easel import pen
from app.qt.painting.palette import SMALL_PX, typeface
from app.qt.themes import current_theme


class MovedPlot(pg.PlotWidget):  # type: ignore[misc]
    """Axes, and the signals of a drag; a kind of it says what is drawn and what is taken hold of.

    Args:
        labels: what runs along each axis, by its side; "" where that needs no words.
    """

    drag_began = Signal()
    drag_ended = Signal()

    def __init__(self, labels: Mapping[str, str]) -> None:
        super().__init__(None, enableMenu=False)
        self.held = False
        self._read: Callable[[], list[str]] = list
        self._sides = tuple(labels)
        self.getPlotItem().hideButtons()
        self._box: pg.ViewBox = self.getPlotItem().getViewBox()
        self._box.setMouseEnabled(x=False, y=False)
        self._box.disableAutoRange()
        for side, text in labels.items():
            self.showAxis(side)
            axis = self.getAxis(side)
            axis.setLabel(text)
            axis.label.setFont(typeface(SMALL_PX))
            axis.setStyle(tickFont=typeface(SMALL_PX), tickLength=-4, tickTextOffset=4)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)

    def spoken_interface(self) -> QAccessibleInterface:
        """As assistive programs see it."""
        from app.qt.accessible.drawing import SpokenDrawing  # noqa: PLC0415

        return SpokenDrawing(self, bare=True)

    def spoken_values(self) -> list[str]:
        """What can be read off it."""
        return self._read()

    def read_by(self, read: Callable[[], list[str]]) -> None:
        """Say what can be read off it in this way."""
        self._read = read

    def _show_range(self, across: tuple[float, float], upward: tuple[float, float]) -> None:
        self._box.setRange(xRange=across, yRange=upward, padding=0.0, disableAutoRange=True)

    def _show_ticks(self, **ticks: Sequence[tuple[float, str]]) -> None:
        """Write other figures or words at axes, each a place and what stands there."""
        for side, places in ticks.items():
            self.getAxis(side).setTicks([places, []])

    def _recolour(self) -> None:
        theme = current_theme()
        self.setBackground(theme.paper)
        for axis in map(self.getAxis, self._sides):
            axis.setPen(pen(theme.quiet, THIN, ()))
            axis.setTextPen(theme.quiet)
            axis.setLabel(axis.labelText, color=theme.quiet)

    def _show_hand(self) -> None:
        """Show whether the mouse or the keyboard is here."""

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        if event.button() == Qt.MouseButton.LeftButton and self.held:
            self.held = False
            self._show_hand()
            self.drag_ended.emit()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        self.mousePressEvent(event)

    def wheelEvent(self, event: QWheelEvent) -> None:  # noqa: N802
        event.ignore()

    def keyReleaseEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        event.ignore()

    def focusInEvent(self, event: QFocusEvent) -> None:  # noqa: N802
        super().focusInEvent(event)
        self._show_hand()

    def focusOutEvent(self, event: QFocusEvent) -> None:  # noqa: N802
        super().focusOutEvent(event)
        self._show_hand()
