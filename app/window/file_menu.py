"""The menus of files and of the history."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Final

from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QMainWindow, QMenu, QToolButton

from app.qt.controls.keyed_menu import KeyedMenu, Keys
from app.qt.drafts import settle
from app.qt.literal import button_text, name_command, show_tip
from app.qt.settling import Settling
from app.session import Session
from app.window.documents import Documents
from app.words.bounds import in_one_line

MOST_STEPS: Final = 25
"""Steps that the list of the history shows on either side of the one in hand."""


class FileMenu(KeyedMenu):
    """Everything that can be done with files, in the order of how often it is.

    Args:
        window: hears the keys, whether or not the menu is open.
        documents: does what is asked.
        go_to_notes: lets name and notes be typed.
    """

    def __init__(
        self, window: QMainWindow, documents: Documents, go_to_notes: Callable[[], object]
    ) -> None:
        super().__init__(window)
        self._documents = documents
        self.entry(self.tr("Open…"), documents.ask_and_open, Keys.Open)
        self._recent = self.addMenu(self.tr("Open recent"))
        self._recent.setToolTipsVisible(True)
        self.after_opening = self.addSeparator()
        self.save = self.entry(self.tr("Save"), documents.save, Keys.Save)
        self.entry(self.tr("Save as…"), documents.save_as, QKeySequence("Ctrl+Shift+S"))
        self.entry(self.tr("Name and notes"), go_to_notes, QKeySequence("F2"))
        self.addSeparator()
        self.last = self.entry(self.tr("Quit"), window.close, QKeySequence("Ctrl+Q"))
        self.aboutToShow.connect(self._fill_recent)
        self._fill_recent()

    def _fill_recent(self) -> None:
        self._recent.clear()
        for name in self._documents.settings.now.recent:
            action = self._recent.addAction(button_text(Path(name).name))
            show_tip(action, name)
            action.triggered.connect(partial(self._documents.open_path, Path(name)))
        self._recent.setEnabled(not self._recent.isEmpty())


class HistoryMenu(QMenu):
    """The steps of the history, the latest on top, to go back or forth to.

    Args:
        session: has the history.
        button: of the undo command; the menu hangs from its arrow.
        undo: the command; its tool tip says what it would take back.
        redo: the command to do it again.
    """

    def __init__(self, session: Session, button: QToolButton, undo: QAction, redo: QAction) -> None:
        super().__init__(button)
        self._session = session
        self._commands = (undo, redo)
        self._tips = (undo.toolTip(), redo.toolTip())
        button.setMenu(self)
        button.setPopupMode(QToolButton.ToolButtonPopupMode.MenuButtonPopup)
        # A new tool tip lays the whole bar out anew: nobody reads it before a drag pauses.
        self._settling = Settling(self, self._show_names)
        session.changed.connect(self._settling.start)
        self.aboutToShow.connect(self._fill)

    def _show_names(self) -> None:
        names = (self._session.undo_name, self._session.redo_name)
        for command, tip, name in zip(self._commands, self._tips, names, strict=True):
            show_tip(command, f"{tip}\n{in_one_line(name)}" if name else tip)

    def _fill(self) -> None:
        settle(self)
        self.clear()
        group = QActionGroup(self)
        steps, at = self._session.steps, self._session.at
        first, last = max(0, at - MOST_STEPS), min(len(steps), at + MOST_STEPS + 1)
        for i in reversed(range(first, last)):
            undone = self.tr(" (taken back)") if i > at else ""
            action = self.addAction("")
            name_command(action, in_one_line(steps[i].name) + undone)
            action.setActionGroup(group)
            action.setCheckable(True)
            action.setChecked(i == at)
            action.triggered.connect(partial(self._session.go_to, i))
