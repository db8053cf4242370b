"""A menu whose entries are reached by keys, whether or not it is open."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMainWindow, QMenu, QToolButton

from app.qt.drafts import settle

Keys = QKeySequence.StandardKey


def menu_button(text: str, menu: QMenu) -> QToolButton:
    """A button of a bar from which a menu hangs."""
    button = QToolButton()
    button.setText(text)
    button.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
    button.setMenu(menu)
    return button


class KeyedMenu(QMenu):
    """Holds commands of a window, each with a tool tip where one helps.

    Args:
        window: hears the keys.
    """

    def __init__(self, window: QMainWindow) -> None:
        super().__init__(window)
        self._window = window
        self.setToolTipsVisible(True)

    def entry(
        self,
        text: str,
        slot: Callable[[], object],
        keys: QKeySequence | Keys | None = None,
        before: QAction | None = None,
    ) -> QAction:
        """A new entry at the end of the menu, or before another; reached by keys too."""
        action = QAction(text, self)
        # The signal brings whether the entry is checked, which means nothing here.
        action.triggered.connect(lambda _=False: self._do(slot))
        if before is None:
            self.addAction(action)
        else:
            self.insertAction(before, action)
        if keys is not None:
            action.setShortcut(keys)
            self._window.addAction(action)
        return action

    def _do(self, slot: Callable[[], object]) -> None:
        """Do what an entry is for, with what is typed."""
        settle(self._window)
        slot()
