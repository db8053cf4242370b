"""The keyboard's way through the window: Tab as seen, F6 from part to part, Return on the bar."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QAction, QCursor, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QApplication, QMainWindow, QToolBar, QToolButton, QWidget


class Regions(QObject):
    """Lets F6 and Shift+F6 go round the parts of a window, and Tab through each as it is seen.

    Args:
        window: hears the keys.
        parts: from top left to bottom right; the first is the bar.
    """

    def __init__(self, window: QMainWindow, parts: list[QWidget]) -> None:
        super().__init__(window)
        self._window, self._parts = window, parts
        window.installEventFilter(self)
        self._left_at: dict[int, QWidget] = {}
        for bar in window.findChildren(QToolBar):
            self._open_to_keys(bar)
        _order(window, parts[0])
        for text, keys, way in (
            (self.tr("Next part"), "F6", 1),
            (self.tr("Part before"), "Shift+F6", -1),
        ):
            action = QAction(text, window)
            action.setShortcut(QKeySequence(keys))
            action.triggered.connect(lambda _=False, way=way: self.go(way))
            window.addAction(action)

    def _open_to_keys(self, bar: QToolBar) -> None:
        """Let Tab reach the buttons of a bar; a click leaves the keyboard where it is."""
        for button in _buttons(bar):
            button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
            button.installEventFilter(self)

    def go(self, way: int) -> None:
        """Put the keyboard into the next part that can be seen, or the one before with -1.

        It comes back to what it was on there.
        """
        here, now = self._here(), QApplication.focusWidget()
        if now is not None and here >= 0:
            self._left_at[here] = now
        start = here if here >= 0 else min(-way, 0)
        for count in range(1, len(self._parts) + 1):
            there = (start + way * count) % len(self._parts)
            target = self._target(there)
            if target is not None:
                target.setFocus(Qt.FocusReason.TabFocusReason)
                return

    def _here(self) -> int:
        now = QApplication.focusWidget()
        for i, part in enumerate(self._parts):
            if now is not None and (part is now or part.isAncestorOf(now)):
                return i
        return -1

    def _target(self, i: int) -> QWidget | None:
        part = self._parts[i]
        left = self._left_at.get(i)
        reachable = [each for each in (part, *_after(part)) if _takes_keys(each, part)]
        return left if left in reachable else next(iter(reachable), None)

    def eventFilter(self, button: QObject, event: QEvent) -> bool:  # noqa: N802
        """Return does on the bar what the space bar does, and the down arrow opens a menu.

        While a menu or a dialog had the mouse, nobody told the buttons that it left them.
        """
        if button is self._window and event.type() == QEvent.Type.WindowActivate:
            for bar in self._window.findChildren(QToolBar):
                _let_go(bar)
            return False
        if (
            event.type() == QEvent.Type.KeyPress
            and isinstance(event, QKeyEvent)
            and isinstance(button, QToolButton)
        ):
            return _pressed(button, Qt.Key(event.key()))
        return False


def _pressed(button: QToolButton, key: Qt.Key) -> bool:
    """Whether a key did something on a button."""
    at_once = button.popupMode() == QToolButton.ToolButtonPopupMode.InstantPopup
    entered = key in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
    if button.menu() is not None and (key == Qt.Key.Key_Down or (entered and at_once)):
        button.showMenu()
    elif entered:
        button.click()
    else:
        return False
    return True


def _let_go(bar: QToolBar) -> None:
    """Let buttons that look as if the mouse were on them know where it is."""
    for button in _buttons(bar):
        here = button.rect().contains(button.mapFromGlobal(QCursor.pos()))
        if button.underMouse() and not here:
            QApplication.sendEvent(button, QEvent(QEvent.Type.Leave))
            button.update()


def _buttons(bar: QToolBar) -> Iterator[QToolButton]:
    for action in bar.actions():
        widget = bar.widgetForAction(action)
        if isinstance(widget, QToolButton):
            yield widget


def _order(window: QMainWindow, bar: QWidget) -> None:
    """Put the bar, in the order in which it is seen, before all else in the way of Tab."""
    every = list(reached_from(window))
    bars = sorted(window.findChildren(QToolBar), key=lambda each: each is not bar)
    shown = [each.widgetForAction(action) for each in bars for action in each.actions()]
    first = [widget for widget in shown if widget in every]
    rest = [each for each in every if each not in first]
    for before, after in pairwise([*first, *rest]):
        QWidget.setTabOrder(before, after)


def reached_from(start: QWidget) -> Iterator[QWidget]:
    """What the tab key goes through after a widget, once round."""
    return (each for each in _after(start) if each.focusPolicy() & Qt.FocusPolicy.TabFocus)


def _after(start: QWidget) -> Iterator[QWidget]:
    """All that follows a widget in the way of Tab, once round."""
    each = start.nextInFocusChain()
    while each is not None and each is not start:
        yield each
        each = each.nextInFocusChain()


def _takes_keys(widget: QWidget, part: QWidget) -> bool:
    return (
        (widget is part or part.isAncestorOf(widget))
        and bool(widget.focusPolicy() & Qt.FocusPolicy.TabFocus)
        and widget.isVisible()
        and widget.isEnabled()
    )
