"""Bars that stay out of sight until the pointer, or the keyboard, comes to their edge."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final, NamedTuple

from PySide6.QtCore import QEvent, QObject, QPoint, Qt
from PySide6.QtGui import QCursor, QKeyEvent
from PySide6.QtWidgets import QApplication, QMainWindow, QWidget

NEAR: Final = 10
"""How near the edge the pointer calls a bar (logical px)."""
AWAY: Final = 60
"""How far beyond a bar it may go before the bar leaves (logical px)."""


class Bar(NamedTuple):
    """One bar.

    Attributes:
        widget: the bar.
        edge: along which it lies, top or bottom.
        take_out: takes it out of its layout.
        put_back: puts it back there.
    """

    widget: QWidget
    edge: Qt.Edge
    take_out: Callable[[], object]
    put_back: Callable[[], object]


class EdgeBars(QObject):
    """Lets bars float over a window while it is presented, so that nothing moves as they come.

    Args:
        window: over which they float.
        bars: at most one for an edge.
    """

    def __init__(self, window: QMainWindow, bars: list[Bar]) -> None:
        super().__init__(window)
        self._window = window
        self._bars = bars
        self.on = False

    def set_floating(self, floating: bool) -> None:
        """Take the bars out of the window's layout, or put them back."""
        if floating == self.on:
            return
        self.on = floating
        app = QApplication.instance()
        for bar in self._bars:
            if floating:
                bar.take_out()
                bar.widget.setParent(self._window)
                bar.widget.hide()
            else:
                bar.put_back()
                bar.widget.show()
        if app is not None:
            (app.installEventFilter if floating else app.removeEventFilter)(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802
        """Call bars and let them go as the pointer moves and the keyboard comes and goes."""
        kind = event.type()
        if kind in (QEvent.Type.MouseMove, QEvent.Type.HoverMove, QEvent.Type.FocusIn):
            pointer = self._window.mapFromGlobal(QCursor.pos())
            self._follow(pointer, calls=kind != QEvent.Type.FocusIn)
        elif kind == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent):
            # The key that goes from part to part comes to them as well.
            if event.key() == Qt.Key.Key_F6:
                for bar in self._bars:
                    self._show(bar)
        elif kind == QEvent.Type.Resize and watched is self._window:
            for bar in self._bars:
                if bar.widget.isVisible():
                    self._place(bar)
        return False

    def _follow(self, pointer: QPoint, *, calls: bool) -> None:
        for bar in self._bars:
            beyond = self._beyond(bar, pointer)
            if calls and beyond <= NEAR and self._window.rect().contains(pointer):
                self._show(bar)
            elif bar.widget.isVisible() and beyond > bar.widget.height() + AWAY:
                self._leave(bar)

    def _beyond(self, bar: Bar, pointer: QPoint) -> int:
        """How far a point is from a bar's edge (logical px)."""
        at_top = bar.edge == Qt.Edge.TopEdge
        return pointer.y() if at_top else self._window.height() - 1 - pointer.y()

    def _show(self, bar: Bar) -> None:
        if not bar.widget.isVisible():
            self._place(bar)
            bar.widget.show()
            bar.widget.raise_()

    def _leave(self, bar: Bar) -> None:
        """Hide a bar, unless it is still used: by keys, or by a menu that it opened."""
        now = QApplication.focusWidget()
        used = now is not None and bar.widget.isAncestorOf(now)
        if not used and QApplication.activePopupWidget() is None:
            bar.widget.hide()

    def _place(self, bar: Bar) -> None:
        width = self._window.width()
        layout = bar.widget.layout()
        high = layout.heightForWidth(width) if layout and layout.hasHeightForWidth() else -1
        height = high if high > 0 else bar.widget.sizeHint().height()
        top = 0 if bar.edge == Qt.Edge.TopEdge else self._window.height() - height
        bar.widget.setGeometry(0, top, width, height)
        bar.widget.setAutoFillBackground(True)
