"""Hands for the tests: real mouse and wheel events, and a counter of signals."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QKeyEvent, QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

NO_KEY = Qt.KeyboardModifier.NoModifier
LEFT = Qt.MouseButton.LeftButton
SHIFT = Qt.KeyboardModifier.ShiftModifier
CTRL = Qt.KeyboardModifier.ControlModifier


class Counter:
    """Counts what a signal says."""

    def __init__(self, signal: Any) -> None:
        self.heard: list[tuple[Any, ...]] = []
        signal.connect(lambda *words: self.heard.append(words))

    def __len__(self) -> int:
        return len(self.heard)


def mouse(
    widget: QWidget,
    kind: QEvent.Type,
    x: float,
    button: Qt.MouseButton = LEFT,
    keys: Qt.KeyboardModifier = NO_KEY,
) -> None:
    """One event of a mouse button at x, half way down."""
    at = QPointF(x, widget.height() / 2)
    none = Qt.MouseButton.NoButton
    held = none if kind == QEvent.Type.MouseButtonRelease else button
    cause = none if kind == QEvent.Type.MouseMove else button
    event = QMouseEvent(kind, at, widget.mapToGlobal(at), cause, held, keys)
    QApplication.sendEvent(widget, event)


def press(
    widget: QWidget, x: float, keys: Qt.KeyboardModifier = NO_KEY, *, button: Qt.MouseButton = LEFT
) -> None:
    mouse(widget, QEvent.Type.MouseButtonPress, x, button, keys)


def move(widget: QWidget, x: float, keys: Qt.KeyboardModifier = NO_KEY) -> None:
    mouse(widget, QEvent.Type.MouseMove, x, keys=keys)


def release(widget: QWidget, x: float, *, button: Qt.MouseButton = LEFT) -> None:
    mouse(widget, QEvent.Type.MouseButtonRelease, x, button)


def wheel(widget: QWidget, notches: float, keys: Qt.KeyboardModifier = NO_KEY) -> None:
    """Turn the wheel over a widget, as the window system tells it; up is positive."""
    window = widget.window()
    at = QPointF(widget.mapTo(window, widget.rect().center()))
    turned = QPoint(0, round(120 * notches))
    QTest.wheelEvent(window.windowHandle(), at, turned, QPoint(), keys)


def type_in(widget: QWidget, text: str) -> None:
    """Type letters, those beyond the test tool's alphabet too."""
    for letter in text:
        for kind in (QEvent.Type.KeyPress, QEvent.Type.KeyRelease):
            QApplication.sendEvent(widget, QKeyEvent(kind, 0, NO_KEY, letter))
