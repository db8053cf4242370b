"""The ways to the help and to the reasons: from the bar, from controls, cards and pages."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QApplication

from app.qt.explained import term_at
from app.session import Session
from app.stance.topics import Asked
from app.window.tray import Tray

if TYPE_CHECKING:
    from app.features.help.dialog import HelpWindow
    from app.window.commands import Command
    from app.window.finder import CommandList
    from app.window.window import Window


class Helping(QObject):
    """Opens the help, at the word that explains what is in hand.

    Args:
        window: whose controls are explained, and whose keys are listed.
        session: hears what pages ask for.
        tray: in which the reasons of a number are told.
    """

    def __init__(self, window: Window, session: Session, tray: Tray) -> None:
        super().__init__(window)
        self._window, self._session, self._tray = window, session, tray
        self.help: HelpWindow | None = None
        self._keys: CommandList | None = None
        here = window.addAction(self.tr("What is this?"))
        here.setShortcut(QKeySequence("Shift+F1"))
        here.triggered.connect(self.explain_here)
        session.term_asked.connect(self.explain)
        session.why_asked.connect(self.tell_why)

    def open(self) -> None:
        """Open the help where it was left."""
        self._shown()

    def show_keys(self) -> None:
        """Open the help at the keys; a few letters find one there, or a word."""
        shown = self._shown()
        shown.show_keys()
        if self._keys is not None:
            self._keys.search.clear()
            self._keys.search.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def explain_here(self) -> None:
        """Open the help at the word that explains what has the keyboard."""
        term = term_at(QApplication.focusWidget())
        if term:
            self.explain(term)
        else:
            self.open()

    def explain(self, term: str) -> None:
        """Open the help at a word."""
        self._shown().show_term(term, self._session.lengths)

    def tell_why(self, asked: Asked) -> None:
        """Open the page that tells why a number is as it is."""
        page = self._tray.open_page("Why")
        from app.features.why.page import WhyPage  # noqa: PLC0415

        if isinstance(page, WhyPage):
            page.go_to(asked)

    def _shown(self) -> HelpWindow:
        if self.help is None:
            # Not before it is wanted: its drawings need numpy.
            from app.features.help.dialog import HelpWindow  # noqa: PLC0415
            from app.window.finder import CommandList  # noqa: PLC0415

            self._keys = CommandList(
                self.tr("Keys"), self.tr("Search: a key, a command, or a word of the help")
            )
            self._keys.wanted.connect(self._do)
            self.help = HelpWindow(self._window, self._keys)
            self.help.why_asked.connect(self._ask_why)
            self.help.show_term(self.help.term, self._session.lengths)
        self._list_keys()
        self.help.show()
        self.help.activateWindow()
        return self.help

    def _list_keys(self) -> None:
        """What has keys now, and the words of the help for who looks for one."""
        from app.window.commands import commands_of, words_of  # noqa: PLC0415

        if self._keys is not None:
            known = [each for each in commands_of(self._window) if each.keys]
            self._keys.show_commands(known, words_of(self.explain))

    def _do(self, command: Command) -> None:
        """Do in the window what was chosen from the keys; a word is shown here."""
        if command.keys:
            self._window.activateWindow()
        if command.run is not None:
            command.run()

    def _ask_why(self, topic: str) -> None:
        self._session.why_asked.emit(Asked("front", topic))
        self._window.activateWindow()
