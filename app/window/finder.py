"""Finds a command, a page or a control by a few letters; lists which keys there are."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from PySide6.QtCore import QEvent, QObject, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QDialog,
    QHeaderView,
    QLineEdit,
    QTableWidgetItem,
    QWidget,
)

from app.qt.controls.layout import in_column
from app.qt.controls.page_words import announce, caution_note
from app.qt.controls.word_table import WordTable
from app.qt.literal import Label, cell_text, title_text
from app.qt.painting.palette import QUIET
from app.qt.sizes import px
from app.window.commands import Command
from app.words.language import msgid, ntr, tr

_HEADINGS: Final = (msgid("What"), msgid("Where"), msgid("Keys"))
_MOVES: Final = frozenset({Qt.Key.Key_Up, Qt.Key.Key_Down, Qt.Key.Key_PageUp, Qt.Key.Key_PageDown})


class CommandList(QWidget):
    """A field over lines that say what can be done; what is typed leaves those that it fits.

    Args:
        title: what the lines are, for assistive programs.
        hint: what may be typed, where that is something else than usual.
    """

    wanted = Signal(object)
    """This :class:`~app.window.commands.Command` was chosen, which can be done."""

    def __init__(self, title: str, hint: str = "") -> None:
        super().__init__()
        self._asked = ""
        self._all: list[Command] = []
        self._asked_for: list[Command] = []
        self._shown: list[Command] = []
        self.search = QLineEdit()
        self.search.setAccessibleName(self.tr("Search"))
        usual = self.tr("Search: a command, a page, a control or a key")
        self.search.setPlaceholderText(hint or usual)
        self.search.setClearButtonEnabled(True)
        self.search.textChanged.connect(self._show)
        self.search.installEventFilter(self)
        self.table = _Lines(title)
        self.table.wanted.connect(self._take)
        self.count = Label()
        self.count.setForegroundRole(QUIET)
        in_column(self.search, (self.table, 1), self.count, of=self, spacing=6)

    def show_commands(
        self, commands: Sequence[Command], when_asked: Sequence[Command] = ()
    ) -> None:
        """List these, and others too once something is asked for."""
        self._all, self._asked_for = list(commands), list(when_asked)
        self._show(self._asked)

    def _show(self, asked: str) -> None:
        """List what answers, by its name first; the first that can be done is in hand."""
        self._asked = asked
        known = [*self._all, *(self._asked_for if asked.strip() else ())]
        answering = [each for each in known if each.answers(asked)]
        self._shown = sorted(answering, key=lambda each: not each.is_called(asked))
        self.table.show_commands(self._shown)
        found = len(self._shown)
        said = ntr("{count} line", "{count} lines", found)
        self.count.setText(said)
        if asked:
            first = self._shown[0].name if self._shown else ""
            announce(self.search, ". ".join(filter(None, (said, first))))

    def _take(self, row: int) -> None:
        command = self._shown[row]
        if command.run is not None and command.ready:
            self.wanted.emit(command)

    def eventFilter(self, _search: QObject, event: QEvent) -> bool:  # noqa: N802
        """The arrows move through the list and Return chooses, while the letters are typed."""
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            if event.key() in _MOVES:
                self.table.keyPressEvent(event)
                return True
            if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
                self.table.choose()
                return True
        return False


class Finder(QDialog):
    """Lists commands until one is chosen.

    Args:
        commands: to choose from.
        title: of the dialog.

    Attributes:
        wanted: the command that was chosen, if any.
    """

    def __init__(self, commands: Sequence[Command], title: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.setWindowTitle(title_text(title))
        self.resize(QSize(px(720), px(520)).boundedTo(self.screen().availableSize()))
        self.wanted: Command | None = None
        self.list = CommandList(title)
        self.list.show_commands(commands)
        self.list.wanted.connect(self._take)
        in_column((self.list, 1), caution_note(), of=self, spacing=6, margins=(12, 12, 12, 10))

    def _take(self, command: Command) -> None:
        self.wanted = command
        self.accept()


class _Lines(WordTable):
    """Commands, a line each."""

    wanted = Signal(int)
    """The command of this line was chosen."""

    def __init__(self, name: str) -> None:
        super().__init__(name, [tr(each) for each in _HEADINGS], stretched=0)
        header = self.horizontalHeader()
        header.setSectionResizeMode(1, QHeaderView.ResizeMode.ResizeToContents)
        header.setSectionResizeMode(2, QHeaderView.ResizeMode.ResizeToContents)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.activated.connect(lambda index: self.wanted.emit(index.row()))

    def show_commands(self, commands: Sequence[Command]) -> None:
        """List these; the first that can be done is in hand."""
        self.setRowCount(len(commands))
        for row, command in enumerate(commands):
            for column, words in enumerate((command.name, command.place, command.keys)):
                item = QTableWidgetItem(cell_text(words))
                # A narrow screen may cut it.
                item.setData(Qt.ItemDataRole.ToolTipRole, cell_text(words))
                if not command.ready:
                    item.setFlags(Qt.ItemFlag.NoItemFlags)
                self.setItem(row, column, item)
        doable = (i for i, each in enumerate(commands) if each.run is not None and each.ready)
        self.setCurrentCell(next(doable, 0), 0)

    def choose(self) -> None:
        """Choose the line in hand."""
        if self.currentRow() >= 0:
            self.wanted.emit(self.currentRow())
