"""The parts list in hand: chosen, opened, typed and saved."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Final

from PySide6.QtWidgets import QHBoxLayout, QMenu, QPushButton, QWidget

from app.features.parts.editing import (
    ROWS,
    STACKS,
    RefusedError,
    list_words,
    refusal_words,
    short_refusal,
    shown_name,
    step_words,
    with_cell,
    with_part_added,
    with_values,
    without_part,
)
from app.features.parts.table import PartsTable
from app.files.parts_file import PartsDocument, parts_opened, save_parts
from app.files.resources import StartingPoint, parts_lists
from app.files.safe_files import FileError
from app.qt.controls.first_actions import FirstActions
from app.qt.controls.layout import in_column, in_row
from app.qt.controls.page_words import ScrolledWords
from app.qt.controls.switch import Choice, SwitchRow
from app.qt.controls.text_field import TextField
from app.qt.controls.typed_row import TypedRow
from app.qt.drafts import settle
from app.qt.literal import show_tip
from app.qt.questions import asked_where, asked_which, tell, told_not_saved
from app.qt.sizes import px
from app.rider.parts import LIST_FIELDS, NO_PARTS, Parts
from app.session import Session
from app.words.language import msgid, tr
from geometry.reasons import ImpossibleError

FILTER: Final = msgid("Parts list (*.json);;All files (*)")
COLUMN: Final = 268
"""Width of what holds for the whole list (px)."""
_TURNING: Final = (
    Choice(
        "yes",
        msgid("turn", "of parts"),
        msgid("A part that can be turned turns along when the binding is turned."),
    ),
    Choice(
        "no",
        msgid("stay", "of parts"),
        msgid("A part that can be turned keeps its bearing on the board."),
    ),
)


class PartsEditor(QWidget):
    """Shows the list of the set-up in hand and asks the session for another one."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._parts = NO_PARTS
        self._row = -1
        self._document: PartsDocument | None = None
        self._folder = ""
        self._refusal = ""
        self._build()
        self._connect()

    # Building

    def _build(self) -> None:
        self.table = PartsTable()
        self.words = ScrolledWords(self.tr("About the parts list"))
        self.words.setFixedHeight(px(40))
        self.add = QPushButton(self.tr("Add a part"))
        self.remove = QPushButton(self.tr("Remove"))
        under = in_row(self.add, self.remove, 1)
        self.first = self._first_actions()
        left = in_column(self._head(), (self.table, 1), self.words, under, spacing=6)
        in_row((left, 1), self._column(), of=self, spacing=6)

    def _first_actions(self) -> FirstActions:
        """How a list begins."""
        self.example = QPushButton(self.tr("Start from an example list"))
        self.first_part = QPushButton(self.tr("Add your first part"))
        self.first_part.clicked.connect(lambda: self._try(with_part_added))
        table = self.table
        return FirstActions(table, table.empty_words, self.example, self.first_part, pad=table.pad)

    def _head(self) -> QHBoxLayout:
        """What the list is called, and its files."""
        self.name = TextField(self.tr("Name of the parts list"), "list name")
        show_tip(self.name, self.tr("Name of the parts list"))
        return in_row((self.name, 1), *self._file_buttons(), spacing=6)

    def _column(self) -> QWidget:
        stacks = [Choice(str(many), str(many), LIST_FIELDS[0].help) for many in STACKS]
        self.stack = SwitchRow("stack", self.tr("Largest stack"), stacks)
        ways = [Choice(each.key, tr(each.text, "of parts"), tr(each.help)) for each in _TURNING]
        self.turning = SwitchRow("turning", self.tr("As the binding turns, parts"), ways)
        self.rows = {
            each.name: TypedRow(self._session, each, partial(self._now, each.name)) for each in ROWS
        }
        side = QWidget()
        side.setFixedWidth(px(COLUMN))
        rows = self.stack, *self.rows.values(), self.turning
        in_column(*rows, 1, of=side, spacing=0)
        return side

    def _file_buttons(self) -> tuple[QWidget, ...]:
        self.start = QPushButton(self.tr("Start from", "an example list"))
        show_tip(self.start, self.tr("Take one of the example lists"))
        menu = QMenu(self.start)
        for point in parts_lists():
            menu.addAction(tr(point.title)).triggered.connect(partial(self._begin, point))
        self.start.setMenu(menu)
        self.example.setMenu(menu)
        self.open = QPushButton(self.tr("Open…"))
        self.save = QPushButton(self.tr("Save as…", "of a parts list"))
        show_tip(self.open, self.tr("Take the parts list in a file"))
        show_tip(self.save, self.tr("Write this parts list to a file of its own"))
        return self.start, self.open, self.save

    def _connect(self) -> None:
        self.table.typed.connect(self._type)
        self.table.delete_requested.connect(self._remove)
        self.table.currentCellChanged.connect(lambda row, *_: self._look_at(row))
        self.add.clicked.connect(lambda: self._try(with_part_added))
        self.remove.clicked.connect(self._remove)
        self.open.clicked.connect(self._ask_and_open)
        self.save.clicked.connect(self._ask_and_save)
        self.name.committed.connect(self._rename)
        self.stack.chosen.connect(lambda key: self._change(largest_stack=int(key)))
        self.turning.chosen.connect(lambda key: self._change(turns_with_binding=key == "yes"))
        for row in self.rows.values():
            row.asked.connect(lambda name, value: self._change(**{name: value}))
            row.told.connect(self._refuse)

    # Showing

    def show_parts(self, parts: Parts) -> None:
        """Show a list."""
        self._parts = parts
        self.table.show_parts(parts)
        self.first.show_when(empty=not parts.parts)
        self._row = min(self._row, len(parts.parts) - 1)
        self.name.show_text(shown_name(parts))
        self.stack.show_choice(str(parts.largest_stack))
        self.turning.show_choice("yes" if parts.turns_with_binding else "no")
        for name, row in self.rows.items():
            row.show_lengths(self._session.lengths)
            row.show_value(getattr(parts, name))
        self._say()
        self._offer()

    def _say(self) -> None:
        # What is to be said of an empty table stands in the table.
        said = list_words(self._parts) if self._parts.parts else ""
        self.words.say(self._refusal, said)
        self.words.setVisible(bool(self._refusal or said))

    def _offer(self) -> None:
        self.remove.setEnabled(self._row >= 0)

    # Asking

    def _now(self, name: str) -> float:
        return float(getattr(self._session.setup.parts, name))

    def _take(self, what: str, parts: Parts) -> None:
        self._session.take(what, replace(self._session.setup, parts=parts))
        self.show_parts(self._session.setup.parts)

    def _try(self, changed: Callable[[Parts], Parts]) -> None:
        """Take a changed list, or say why that cannot be."""
        before = self._session.setup.parts
        try:
            after = changed(before)
        except (RefusedError, ImpossibleError) as error:
            self._refusal = refusal_words(error, self._session.lengths)
            self.show_parts(before)
            self._keep_refused(short_refusal(error, self._session.lengths))
            return
        self._refusal = ""
        if after == before:
            self.show_parts(before)
        else:
            self._take(step_words(before, after, self._session.lengths), after)

    def _keep_refused(self, why: str) -> None:
        """Have what is being typed stay where it is, to be mended."""
        self.table.refuse(why)
        for field in (self.name, *(row.number for row in self.rows.values())):
            field.keep_refused(why)

    def _change(self, **values: float | bool | str) -> None:
        self._try(lambda parts: with_values(parts, **values))

    def _type(self, row: int, name: str, typed: str) -> None:
        self._try(lambda parts: with_cell(parts, row, name, typed))

    def _remove(self) -> None:
        row = self._row
        if 0 <= row < len(self._session.setup.parts.parts):
            self._try(lambda parts: without_part(parts, row))

    def _look_at(self, row: int) -> None:
        self._row = row
        self._offer()

    def _rename(self, name: str) -> None:
        if name.strip() != shown_name(self._session.setup.parts):
            self._change(name=name.strip())

    def _refuse(self, why: str) -> None:
        self._refusal = why
        self._say()

    # Files

    def _begin(self, point: StartingPoint) -> None:
        self._open(point.path)

    def _ask_and_open(self) -> None:
        path = asked_which(self, self.tr("Open a parts list"), self._folder, tr(FILTER))
        if path is not None:
            self._folder = str(path.parent)
            self._open(path)

    def _open(self, path: Path) -> None:
        settle(self)
        try:
            self._document = parts_opened(path)
        except FileError as error:
            tell(self, self.tr("Not opened"), str(error))
            return
        self._refusal = ""
        parts = self._document.parts
        self._take(self.tr("Parts list: {}").format(shown_name(parts)), parts)

    def _ask_and_save(self) -> None:
        settle(self)
        parts = self._session.setup.parts
        suggested = Path(self._folder) / f"{_file_name(parts.name)}.json"
        path = asked_where(self, self.tr("Save the parts list"), suggested, tr(FILTER), ".json")
        if path is None:
            return
        self._folder = str(path.parent)
        try:
            save_parts(path, self._as_document(parts))
        except FileError as error:
            if told_not_saved(self, str(error)):
                self._ask_and_save()
            return
        self._session.wrote.emit(path)

    def _as_document(self, parts: Parts) -> PartsDocument:
        """The list, with the notes of the file that it came from while it keeps its name."""
        opened = self._document
        if opened is None or opened.parts.name != parts.name or opened.read_only:
            return PartsDocument(parts)
        return replace(opened, parts=parts)


def _file_name(name: str) -> str:
    """A name as a file may be called."""
    kept = "".join(letter if letter.isalnum() else "-" for letter in name.lower())
    return kept.strip("-") or "parts"
