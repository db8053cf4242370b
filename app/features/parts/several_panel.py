"""Parts for several set-ups: which of them, what can be got, and the kits that serve all.

The set-up in hand stands first in the list and is always served; the one chosen in the
list is the one whose parts are told and drawn.
"""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import Any, Final, NamedTuple

from PySide6.QtCore import QSignalBlocker, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import (
    QFileDialog,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QWidget,
)

from app.features.parts.asked import limits_words
from app.features.parts.bench import caution
from app.features.parts.choice_table import ChoiceTable
from app.features.parts.combining import setting_words
from app.features.parts.feet import feet_html, feet_words, paragraphs
from app.features.parts.scene import scene_parts
from app.features.parts.several import (
    COLUMNS,
    MOST_LISTED,
    Kits,
    Named,
    kits_of,
    none_words,
    not_listed_words,
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
from app.qt.controls.page_words import ScrolledWords, caution_note
from app.qt.controls.text_field import TextField
from app.qt.literal import Label, Markup, cell_text, joined, markup, say_about, show_tip
from app.qt.painting.snug_picture import SnugPicture
from app.qt.settling import Settling
from app.qt.sizes import px
from app.qt.themes import follow_theme
from app.rider.parts import model as parts_model
from app.rider.setup import Setup
from app.session import Session
from app.stance.findings import USUAL_LIMITS, Limits
from app.words.language import tr
from app.words.reasons import reason_sentence
from geometry.hardware.combinations import Combination

WIDTH: Final = 232
_SERVED: Final = "<p><b>{name}</b>: {words}</p>"
"""Of the column of set-ups (px)."""
WIDE: Final = 760
"""From this width on, the drawing stands beside the table too (px)."""


class _Looked(NamedTuple):
    """What is said of the set-up looked at on the kit looked at, made once."""

    which: int
    named: Named
    combination: Combination
    settings: tuple[tuple[str, str], ...]


class SeveralPanel(QWidget):
    """Seeks the kits for the set-up in hand and those that are ticked."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._setup: Setup | None = None
        self._limits = USUAL_LIMITS
        self._files: dict[Path, QListWidgetItem] = {}
        self._ticked: dict[Path, Setup] = {}
        self._typed = ""
        self._shown: Path | None = None
        """Of the set-up looked at; None for the one in hand."""
        self._served: tuple[Path | None, ...] = ()
        self._looked: _Looked | None = None
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
        self.list.setAccessibleName(self.tr("Set-ups to serve"))
        self.list.setUniformItemSizes(True)
        self._in_hand = QListWidgetItem()
        self._in_hand.setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
        self.list.addItem(self._in_hand)
        self.list.setCurrentItem(self._in_hand)
        self.list.itemChanged.connect(self._tick)
        self.list.currentItemChanged.connect(lambda item, _: self._choose(item))
        self.open = QPushButton(self.tr("Open…"))
        show_tip(self.open, self.tr("Add set-ups from files"))
        self.open.clicked.connect(self._ask_and_add)
        self.can_get = TextField(self.tr("Parts that you could get"), "can be got")
        self.can_get.setPlaceholderText(self.tr("2° 6 mm; 4° 8 mm"))
        show_tip(
            self.can_get,
            self.tr(
                "Slope and thickness of each part that you could get, semicolons between them."
            ),
        )
        self.can_get.committed.connect(self._can_get)
        self.can_get.resumed.connect(self._forget_refusal)
        self.table = ChoiceTable(self.tr("Kits"), COLUMNS)
        self.table.chosen.connect(self._look_at)
        self.words = ScrolledWords(self.tr("How each set-up stands on the kit"))
        self.picture = SnugPicture()
        self._grid = grid_of(self, (14, 6))
        self._grid.addWidget(self._column(), 0, 0, 3, 1)
        self._grid.addWidget(self.words, 1, 1)
        self._grid.addWidget(caution_note(), 2, 1, 1, 2)
        self._lay_out()

    def _lay_out(self) -> None:
        """The drawing beside table and words where there is room, else beside the words."""
        wide = self.width() >= px(WIDE)
        self._grid.addWidget(self.table, 0, 1, 1, 1 if wide else 2)
        self._grid.addWidget(self.picture, *((0, 2, 2, 1) if wide else (1, 2, 1, 1)))
        self._grid.setColumnStretch(1, 7)
        self._grid.setColumnStretch(2, 4)
        self._grid.setRowStretch(0, 4)
        self._grid.setRowStretch(1, 6)

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        """Lay out anew."""
        super().resizeEvent(event)
        self._lay_out()

    def _column(self) -> QWidget:
        side = QWidget()
        side.setFixedWidth(px(WIDTH))
        serve = Label(self.tr("Tick what the parts are to serve:"))
        get = Label(self.tr("You could get:"))
        in_column(serve, (self.list, 1), self.open, get, self.can_get, of=side, spacing=6)
        return side

    # Showing

    def show_setup(self, setup: Setup, limits: Limits = USUAL_LIMITS, *, dragging: bool) -> None:
        """Have the kits for a set-up sought once nothing is dragged."""
        first, self._setup, self._limits = self._setup is None, setup, limits
        if first:
            self._add_folder(Path(create_settings().folder))
        self._in_hand.setText(cell_text(_name(setup)))
        stale = self._key() != self._found_for
        self._settling.follow(stale=stale, dragging=dragging, at_once=first)
        self._say()

    def _add_folder(self, folder: Path) -> None:
        """List the set-ups of a folder, as many as one can look through."""
        paths = set_up_files(folder)
        self._add(paths[:MOST_LISTED])
        self._refusal = not_listed_words(len(paths))

    def _add(self, paths: list[Path]) -> None:
        """List further files."""
        with QSignalBlocker(self.list):
            for path in paths:
                if path in self._files:
                    continue
                self._files[path] = item = QListWidgetItem(cell_text(path.stem))
                show_tip(item, str(path))
                item.setData(Qt.ItemDataRole.UserRole, path)
                item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
                item.setCheckState(Qt.CheckState.Unchecked)
                self.list.addItem(item)

    def _key(self) -> Any:
        setup = self._setup
        if setup is None:
            return None
        told = setup.inputs, setup.parts, setup.trials, setup.growing
        return (*told, tuple(self._ticked), self._typed, self._limits)

    def _compute(self) -> None:
        if self._setup is None:
            return
        first = Named(_name(self._setup), self._setup)
        others = [Named(path.stem, setup) for path, setup in self._ticked.items()]
        job = partial(kits_of, [first, *others], to_get_in(self._typed), self._limits)
        self._background.submit(job, self._key())

    def _take(self, kits: Kits | None, problem: ValueError | None) -> None:
        """Show what was found, or why nothing was, if it is still what is wanted."""
        if self._background.key != self._key():
            return
        self._found_for, self._kits, self._problem = self._background.key, kits, problem
        self._served = (None, *self._ticked)
        self._which = 0
        self._look()
        self._say()

    def _look(self) -> None:
        """Have all that is said of the set-up looked at."""
        kits, self._looked = self._kits, None
        if kits is None or not kits.found:
            return
        which = self._served.index(self._shown) if self._shown in self._served else 0
        named, combination = kits.setups[which], kits.found[self._which].combinations[which]
        settings = setting_words((combination.front, combination.rear), named.setup)
        self._looked = _Looked(which, named, combination, settings)

    def _say(self) -> None:
        kits, lengths = self._kits, self._session.lengths
        stale = self._key() != self._found_for
        self.table.setEnabled(not stale)
        found = kits.found if kits else ()
        rows = [row_texts(i, each, kits, lengths) for i, each in enumerate(found, 1) if kits]
        self.table.show_rows(rows, self._which)
        flags = self._flags()
        self.words.say(flags, self._html(), aloud=not stale)
        if self._looked and kits:
            spoken = [flags, self._looked.named.name, feet_words(self._looked.settings)]
            say_about(self.words, " ".join(filter(None, spoken)))
            self._draw(self._looked)

    def _flags(self) -> str:
        """What is refused, missing, or to be wary of in any of the set-ups."""
        kits, lengths = self._kits, self._session.lengths
        flags = [self._refusal, reason_sentence(self._problem, lengths)]
        if kits is not None:
            flags.append(none_words(kits))
        if kits is not None and kits.found:
            stood = zip(kits.setups, kits.found[self._which].combinations, strict=True)
            for named, each in stood:
                said = caution((each.front, each.rear), named.setup, lengths)
                flags.append(said and f"{named.name}: {said}")
        return "\n".join(filter(None, flags))

    def _html(self) -> Markup:
        """What to set for the set-up looked at, and how the others stand on the kit."""
        looked, kits = self._looked, self._kits
        if looked is None or kits is None:
            return markup("")
        about = (kits.held_back[looked.which], limits_words(looked.named.setup))
        said = [self._stands(looked.which, kits), feet_html(looked.settings), paragraphs(about)]
        others = [i for i in range(len(kits.setups)) if i != looked.which]
        said += [self._stands(i, kits) for i in others]
        if others:
            said.append(
                paragraphs([self.tr("Choose another set-up in the list to see its parts.")])
            )
        return joined(said)

    def _stands(self, which: int, kits: Kits) -> Markup:
        """How one of the set-ups stands on the kit looked at."""
        words = served_words(kits.found[self._which].combinations[which])
        return markup(_SERVED, name=kits.setups[which].name, words=words)

    def _draw(self, looked: _Looked) -> None:
        """The parts of the set-up looked at from above."""
        built = looked.combination.front, looked.combination.rear
        setup, said = looked.named.setup, feet_words(looked.settings)
        self.picture.show_scene(scene_parts(built, setup.inputs, parts_model(setup.parts), said))

    # Asking

    def _tick(self, item: QListWidgetItem) -> None:
        """Serve a set-up too, or no longer."""
        path = item.data(Qt.ItemDataRole.UserRole)
        if path is None:
            return
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
        folder = str(next(reversed(self._files)).parent) if self._files else ""
        names, _ = QFileDialog.getOpenFileNames(
            self, self.tr("Add set-ups"), folder, tr(OPEN_FILTER)
        )
        paths = [Path(name) for name in names]
        self._add(paths)
        for path in paths:
            self._files[path].setCheckState(Qt.CheckState.Checked)

    def _can_get(self, typed: str) -> None:
        try:
            to_get_in(typed)
        except ValueError as error:
            self._refusal = str(error)
            self.can_get.keep_refused(self._refusal)
        else:
            self._refusal, self._typed = "", typed
        self._again()

    def _forget_refusal(self) -> None:
        if self._refusal:
            self._refusal = ""
            self._say()

    def _again(self) -> None:
        if self._setup is not None:
            self.show_setup(self._setup, self._limits, dragging=self._session.dragging)

    def _look_at(self, row: int) -> None:
        self._which = row
        self._look()
        self._say()

    def _choose(self, item: QListWidgetItem | None) -> None:
        """Look at the set-up chosen in the list, if it is served."""
        self._shown = item.data(Qt.ItemDataRole.UserRole) if item else None
        self._look()
        self._say()


def _name(setup: Setup) -> str:
    return setup.called or tr("this set-up")
