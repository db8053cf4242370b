"""The help in a window of its own: keys, words with drawings, the model, sources, the caution."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QFont, QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QListWidget,
    QPushButton,
    QStackedWidget,
    QWidget,
)

from app.features.help.model import SOURCES, TERMS
from app.features.help.scene import DRAWINGS, scenes_of
from app.features.help.words import ASSUMES, FORMULAS, UNKNOWN
from app.qt.controls.entry_row import PAD
from app.qt.controls.layout import in_column, in_row
from app.qt.controls.page_words import heading, note
from app.qt.controls.plain_area import PlainArea
from app.qt.controls.switch import Choice, SwitchRow
from app.qt.literal import cell_text
from app.qt.painting.palette import QUIET, TEXT_PX, typeface
from app.qt.painting.snug_picture import SnugPicture
from app.qt.sizes import px
from app.stance.findings import CAUTION
from app.words.language import msgid, tr
from app.words.lengths import IN_MM, Lengths

USUAL: Final = QSize(900, 600)
LIST: Final = 250
"""Width of the list of words (px)."""
PICTURE: Final = QSize(250, 260)
"""Least size of a drawing (px)."""
MOST_DRAWINGS: Final = max(len(each) for each in DRAWINGS.values())
KEYS, WORDS, MODEL, READ, CARE = "keys", "words", "model", "sources", "caution"
SECTIONS: Final = {
    KEYS: msgid("Keys"),
    WORDS: msgid("Words"),
    MODEL: msgid("The model"),
    READ: msgid("Sources"),
    CARE: msgid("Caution"),
}
"""The sections by their keys, in their order."""


class HelpWindow(QWidget):
    """Shows what was asked for; keeps which section and which word that is.

    Args:
        parent: the window that it helps with.
        keys: lists what keys do there, the first section.
    """

    why_asked = Signal(str)
    """The reasons of the rider's own number are wanted: a topic."""

    def __init__(self, parent: QWidget, keys: QWidget) -> None:
        super().__init__(parent, Qt.WindowType.Window)
        self.setWindowTitle(self.tr("Help"))
        self.term = next(iter(TERMS))
        self._lengths = IN_MM
        self._build(keys)
        self.resize((USUAL * px(100) / 100).boundedTo(self.screen().availableSize()))
        close = QShortcut(QKeySequence(Qt.Key.Key_Escape), self)
        close.activated.connect(self.close)

    def _build(self, keys: QWidget) -> None:
        choices = [Choice(key, tr(title), tr(title)) for key, title in SECTIONS.items()]
        self.switch = SwitchRow("section", "", choices)
        self.switch.chosen.connect(self.show_section)
        self._stack = QStackedWidget()
        self._places = {
            key: self._stack.addWidget(page)
            for key, page in (
                (KEYS, keys),
                (WORDS, self._words()),
                (MODEL, _scrolled(_model(), tr(SECTIONS[MODEL]))),
                (READ, _scrolled(_sources(), tr(SECTIONS[READ]))),
                (CARE, _scrolled([note(tr(CAUTION))], tr(SECTIONS[CARE]))),
            )
        }
        self.switch.setFixedWidth(
            sum(each.sizeHint().width() for each in self.switch.segments) + 2 * px(PAD)
        )
        in_column(
            in_row(self.switch, 1), (self._stack, 1), of=self, spacing=6, margins=(10, 8, 10, 10)
        )

    def _words(self) -> QWidget:
        self.list = QListWidget()
        self.list.setAccessibleName(tr(SECTIONS[WORDS]))
        self.list.setFixedWidth(px(LIST))
        for term in TERMS.values():
            self.list.addItem(cell_text(tr(term.title)))
        self.list.currentRowChanged.connect(self._choose)
        self.pictures = [SnugPicture() for _ in range(MOST_DRAWINGS)]
        for picture in self.pictures:
            picture.setMinimumSize(PICTURE)
        self.title, self.said, self.joints = heading(), note(), note()
        self.title.setFont(typeface(TEXT_PX + 3, QFont.Weight.DemiBold))
        self.title.setWordWrap(True)
        self.joints.setForegroundRole(QUIET)
        self.why = QPushButton(self.tr("Why is mine as it is?"))
        self.why.clicked.connect(lambda: self.why_asked.emit(TERMS[self.term].topic))
        entry = QWidget()
        drawn = in_row(*((picture, 1) for picture in self.pictures), spacing=8)
        key = in_row(self.why, 1)
        in_column(
            self.title, (drawn, 1), self.said, self.joints, key, of=entry, spacing=8,
            margins=(4, 0, 4, 0),
        )  # fmt: skip
        page = QWidget()
        in_row(self.list, (entry, 1), of=page, spacing=12)
        return page

    def show_section(self, section: str) -> None:
        """Show a section by its key."""
        self.switch.show_choice(section)
        self._stack.setCurrentIndex(self._places[section])

    def show_keys(self) -> None:
        """Show what keys do."""
        self.show_section(KEYS)

    def show_term(self, term: str, lengths: Lengths = IN_MM) -> None:
        """Show the entry of a word, with lengths in the unit chosen."""
        self._lengths = lengths
        self.show_section(WORDS)
        row = list(TERMS).index(term)
        self.list.setCurrentRow(row)
        self._choose(row)

    def _choose(self, row: int) -> None:
        self.term = list(TERMS)[row]
        entry = TERMS[self.term]
        self.title.setText(tr(entry.title))
        self.said.setText(tr(entry.said))
        self.joints.setText(tr(entry.joints))
        self.why.setVisible(bool(entry.topic))
        scenes = scenes_of(self.term, self._lengths)
        for i, picture in enumerate(self.pictures):
            picture.setVisible(i < len(scenes))
            if i < len(scenes):
                picture.show_scene(scenes[i])


def _model() -> list[QWidget]:
    parts: list[QWidget] = [heading(tr("What it assumes"))]
    parts += [note(f"• {tr(each)}") for each in ASSUMES]
    parts.append(heading(tr("What it does not know")))
    parts += [note(f"• {tr(each)}") for each in UNKNOWN]
    parts.append(heading(tr("How a leg is worked out")))
    for each in FORMULAS:
        formula = note(f"    {each.symbols}")
        formula.setForegroundRole(QUIET)
        parts += [note(tr(each.said)), formula]
    return parts


def _sources() -> list[QWidget]:
    parts: list[QWidget] = []
    for each in SOURCES:
        used = note(f"    {tr(each.used_for)}")
        used.setForegroundRole(QUIET)
        cited = note(each.cited)
        cited.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        parts += [cited, used]
    return parts


def _scrolled(parts: Iterable[QWidget], name: str) -> PlainArea:
    inside = QWidget()
    in_column(*parts, 1, of=inside, spacing=6, margins=(8, 4, 12, 8))
    return PlainArea(inside, name)
