"""What the bar has no room for, where letters are large: one menu at its end."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import NamedTuple

from PySide6.QtCore import QEvent, QObject
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QToolBar, QWidget

from app.qt.controls.keyed_menu import menu_button
from app.qt.literal import button_text, show_tip


class BarCommand(QAction):
    """A command of the window, and its face in the bar.

    Out of sight a command hears no keys; so it is its face that leaves the bar.
    """

    def __init__(self, text: str, window: QWidget, *, checkable: bool) -> None:
        super().__init__(text, window)
        self.setCheckable(checkable)
        self.face = QAction(text, self)
        self.face.setCheckable(checkable)
        self.face.triggered.connect(self.trigger)
        self.changed.connect(self._show)
        self.toggled.connect(self._show)

    def _show(self) -> None:
        self.face.setEnabled(self.isEnabled())
        self.face.setChecked(self.isChecked())
        show_tip(self.face, self.toolTip())


class Leaving(NamedTuple):
    """Something that may leave the bar for the menu.

    Attributes:
        shown: stands for it in the bar.
        command: does it from the menu; None for a choice.
        title: of a choice.
        choices: the words for each value of a choice, translated.
        holds: which of them holds now.
        choose: takes another.
    """

    shown: QAction
    command: QAction | None = None
    title: str = ""
    choices: Mapping[str, str] | None = None
    holds: Callable[[], str] = str
    choose: Callable[[str], object] = str


class Overflow(QObject):
    """A button of the bar, seen only while something of the bar stands in its menu.

    Qt's own button for this is 12 px wide, has no name, and the keyboard does not reach it.

    Args:
        bar: the bar.
        window: to which the menu belongs.
        text: on the button.
    """

    def __init__(self, bar: QToolBar, window: QWidget, text: str, tip: str) -> None:
        super().__init__(bar)
        self._bar, self._window = bar, window
        bar.installEventFilter(self)
        self._menu = QMenu(window)
        self._menu.aboutToShow.connect(self._fill)
        button = menu_button(text, self._menu)
        show_tip(button, tip)
        self._button = bar.addWidget(button)
        self._button.setVisible(False)
        self._first: Sequence[QAction] = ()
        self._leaving: Sequence[Leaving] = ()
        self._left: list[Leaving] = []

    def hold(self, first: Sequence[QAction], leaving: Sequence[Leaving]) -> None:
        """Know what may leave.

        Args:
            first: what goes at once, such as labels, and is in no menu.
            leaving: the rest, in the order in which it leaves.
        """
        self._first, self._leaving = first, leaving

    def eventFilter(self, _bar: QObject, event: QEvent) -> bool:  # noqa: N802
        """Fit anew when the bar comes back: out of sight it does not know how wide it is."""
        if event.type() == QEvent.Type.Show:
            self.fit(self._window.width())
        return False

    def fit(self, width: int) -> None:
        """Leave in the bar what has room within a width (logical px)."""
        self._left.clear()
        self._button.setVisible(False)
        for action in (*self._first, *(each.shown for each in self._leaving)):
            action.setVisible(True)
        if self._wide() <= width:
            return
        for action in self._first:
            action.setVisible(False)
        if self._wide() <= width:
            return
        self._button.setVisible(True)
        for each in self._leaving:
            each.shown.setVisible(False)
            self._left.append(each)
            if self._wide() <= width:
                return

    def _wide(self) -> int:
        return self._bar.sizeHint().width()

    def _fill(self) -> None:
        """What has left, in the order in which it stood in the bar."""
        self._menu.clear()
        for each in reversed(self._left):
            if each.command is not None:
                self._menu.addAction(each.command)
            elif each.choices is not None:
                self._add_choices(each, each.choices)

    def _add_choices(self, leaving: Leaving, choices: Mapping[str, str]) -> None:
        inside = self._menu.addMenu(button_text(leaving.title))
        for value, words in choices.items():
            entry = inside.addAction(button_text(words))
            entry.setCheckable(True)
            entry.setChecked(value == leaving.holds())
            entry.triggered.connect(lambda _=False, value=value: leaving.choose(value))
