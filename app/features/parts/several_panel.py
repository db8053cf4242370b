"""Parts for several set-ups: which of them, what can be got, and the kits that serve all."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import Any, Final

from PySide6.QtCore import QSignalBlocker, Qt
from PySide6.QtWidgets import (
    QFileDialog,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QWidget,
)

from app.features.parts.choice_table import ChoiceTable
from app.features.parts.combinations_panel import FEET
from app.features.parts.combining import setting_words
from app.features.parts.several import (
    COLUMNS,
    Kits,
    Named,
    kits_of,
    none_words,
    row_texts,
    served_words,
    to_get_in,
)
from app.files.file_kinds import OPEN_FILTER, set_up_files
from app.files.safe_files import FileError
from app.files.settings import create_settings
from app.files.storage import opened
from app.qt.background import Background
from app.qt.controls.layout import grid_of, in_column
from app.qt.controls.page_words import ScrolledWords
from app.qt.controls.text_field import TextField
from app.qt.literal import Label, Markup, cell_text, joined, markup, show_tip
from app.qt.settling import Settling
from app.qt.themes import current_theme, follow_theme
from app.rider.setup import Setup
from app.session import Session
from app.words.language import tr
from app.words.reasons import reason_sentence

WIDTH: Final = 232
_SERVED: Final = "<p style='margin-bottom:0'><b>{name}</b>: {words}</p>"
_STEPS: Final = "<div><span style='color:{ink}'>{foot}</span> {steps}</div>"
"""Of the column of set-ups (px)."""


class SeveralPanel(QWidget):
    """Seeks the kits for the set-up in hand and those that are ticked."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._setup: Setup | None = None
        self._files: list[Path] = []
        self._ticked: dict[Path, Setup] = {}
        self._typed = ""
        self._kits: Kits | None = None
        self._found_for: Any = None
        self._which = 0
        self._problem: ValueError | None = None
        self._refusal = ""
        self._background = Background(self)
        self._background.done.connect(lambda kits: self._take(kits, None))
        self._background.failed.connect(lambda problem: self._take(None, problem))
        self._settling = Settling(self, self._compute)
        self._build()
        follow_theme(self._say)

    # Building

    def _build(self) -> None:
        self.list = QListWidget()
        self.list.setAccessibleName(self.tr("Further set-ups"))
        self.list.itemChanged.connect(self._tick)
        self.open = QPushButton(self.tr("Open…"))
        show_tip(self.open, self.tr("Add set-ups from files"))
        self.open.clicked.connect(self._ask_and_add)
        self.can_get = TextField(self.tr("Parts that can be got"))
        self.can_get.setPlaceholderText(self.tr("2° 6 mm; 4° 8 mm"))
        show_tip(
            self.can_get,
            self.tr("Slope and thickness of each part that can be got, semicolons between them."),
        )
        self.can_get.committed.connect(self._can_get)
        self.table = ChoiceTable(self.tr("Kits"), COLUMNS)
        self.table.chosen.connect(self._look_at)
        self.words = ScrolledWords(self.tr("How each set-up stands on the kit"))
        grid = grid_of(self, (14, 6))
        grid.addWidget(self._column(), 0, 0, 2, 1)
        grid.addWidget(self.table, 0, 1)
        grid.addWidget(self.words, 1, 1)
        grid.setColumnStretch(1, 1)
        grid.setRowStretch(0, 2)
        grid.setRowStretch(1, 3)

    def _column(self) -> QWidget:
        side = QWidget()
        side.setFixedWidth(WIDTH)
        serve, get = Label(self.tr("Parts for this set-up and:")), Label(self.tr("Can be got:"))
        in_column(serve, (self.list, 1), self.open, get, self.can_get, of=side, spacing=6)
        return side

    # Showing

    def show_setup(self, setup: Setup, *, dragging: bool) -> None:
        """Have the kits for a set-up sought once nothing is dragged."""
        first, self._setup = self._setup is None, setup
        if first:
            self._add(set_up_files(Path(create_settings().folder)))
        stale = self._key() != self._found_for
        self._settling.follow(stale=stale, dragging=dragging, at_once=first)
        self._say()

    def _add(self, paths: list[Path]) -> None:
        """List further files."""
        for path in paths:
            if path in self._files:
                continue
            self._files.append(path)
            item = QListWidgetItem(cell_text(path.stem))
            show_tip(item, str(path))
            item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
            item.setCheckState(Qt.CheckState.Unchecked)
            self.list.addItem(item)

    def _key(self) -> Any:
        setup = self._setup
        if setup is None:
            return None
        told = setup.inputs, setup.parts, setup.trials, setup.growing
        return (*told, tuple(self._ticked), self._typed)

    def _compute(self) -> None:
        if self._setup is None:
            return
        first = Named(self._setup.called or tr("this set-up"), self._setup)
        others = [Named(path.stem, setup) for path, setup in self._ticked.items()]
        job = partial(kits_of, [first, *others], to_get_in(self._typed))
        self._background.submit(job, self._key())

    def _take(self, kits: Kits | None, problem: ValueError | None) -> None:
        """Show what was found, or why nothing was, if it is still what is wanted."""
        if self._background.key != self._key():
            return
        self._found_for, self._kits, self._problem = self._background.key, kits, problem
        self._which = 0
        self._say()

    def _say(self) -> None:
        kits, lengths = self._kits, self._session.lengths
        stale = self._key() != self._found_for
        self.table.setEnabled(not stale)
        found = kits.found if kits else ()
        rows = [row_texts(i, each, kits, lengths) for i, each in enumerate(found, 1) if kits]
        self.table.show_rows(rows, self._which)
        flags = [self._refusal, reason_sentence(self._problem, lengths)]
        flags.append(none_words(kits) if kits else "")
        self.words.say("\n".join(filter(None, flags)), self._html(), aloud=not stale)

    def _html(self) -> Markup:
        """How each set-up stands on the kit looked at, and what to set for it."""
        if self._kits is None or not self._kits.found:
            return markup("")
        kit, said = self._kits.found[self._which], []
        for named, combination in zip(self._kits.setups, kit.combinations, strict=True):
            words = served_words(combination)
            said.append(markup(_SERVED, name=named.name, words=words))
            built = combination.front, combination.rear
            for foot, steps in setting_words(built, named.setup):
                ink = current_theme().leg_text(foot)
                said.append(markup(_STEPS, ink=ink, foot=tr(FEET[foot]), steps=steps))
        return joined(said)

    # Asking

    def _tick(self, item: QListWidgetItem) -> None:
        """Serve a set-up too, or no longer."""
        path = self._files[self.list.row(item)]
        self._refusal = ""
        if item.checkState() == Qt.CheckState.Checked:
            try:
                self._ticked[path] = opened(path).setup
            except FileError as error:
                self._refusal = str(error)
                with QSignalBlocker(self.list):
                    item.setCheckState(Qt.CheckState.Unchecked)
        else:
            self._ticked.pop(path, None)
        self._again()

    def _ask_and_add(self) -> None:
        folder = str(self._files[-1].parent) if self._files else ""
        names, _ = QFileDialog.getOpenFileNames(
            self, self.tr("Add set-ups"), folder, tr(OPEN_FILTER)
        )
        paths = [Path(name) for name in names]
        self._add(paths)
        for path in paths:
            self.list.item(self._files.index(path)).setCheckState(Qt.CheckState.Checked)

    def _can_get(self, typed: str) -> None:
        try:
            to_get_in(typed)
        except ValueError as error:
            self._refusal = str(error)
        else:
            self._refusal, self._typed = "", typed
        self._again()

    def _again(self) -> None:
        if self._setup is not None:
            self.show_setup(self._setup, dragging=self._session.dragging)

    def _look_at(self, row: int) -> None:
        self._which = row
        self._say()
