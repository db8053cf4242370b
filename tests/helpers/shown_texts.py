"""Every text that a window shows, and what of it was not translated.

A catalogue that puts brackets round every message takes the place of a translation:
what is shown without brackets never went through one.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any, Final

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QAbstractButton, QComboBox, QLabel, QLineEdit, QTableView, QWidget

NO_WORDS: Final = re.compile(r"<[^>]*>|&\w+;|\b(?:Ctrl|Shift|Strg|Umschalt)(?:\+\w+)+|\bF\d+\b")
"""Tags and keys, which are no words."""
BRACKETED: Final = re.compile(r"⟦[^⟦⟧]*⟧")
WORD: Final = re.compile(r"[A-Za-z]{3,}")
NAMES: Final = frozenset({"Kneeline", "Demo", "rider", "English", "Deutsch", "PDF", "SVG", "PNG"})
"""What is called the same in every language, and the name of the set-up in hand."""


KEYS: Final = frozenset({"key", "role", "state"})
"""What of a mark is not for people."""


class Brackets:
    """A catalogue that translates every message by putting brackets round it."""

    def gettext(self, message: str) -> str:
        return f"⟦{message}⟧"

    def pgettext(self, _context: str, message: str) -> str:
        return f"⟦{message}⟧"

    def ngettext(self, one: str, many: str, count: int) -> str:
        return f"⟦{one if count == 1 else many}⟧"


def english_in(text: str) -> str:
    """What of a text stands outside of all brackets and is a word; "" if nothing."""
    left = NO_WORDS.sub(" ", text)
    while BRACKETED.search(left):
        left = BRACKETED.sub(" ", left)
    words = [word for word in WORD.findall(left) if word not in NAMES]
    return " ".join(words)


def texts_of(root: QWidget) -> Iterator[str]:
    """All texts of a widget and of what stands in it, seen, spoken and in tool tips."""
    for widget in (root, *root.findChildren(QWidget)):
        yield from (widget.toolTip(), widget.windowTitle())
        yield from (widget.accessibleName(), widget.accessibleDescription())
        if isinstance(widget, QLabel | QAbstractButton):
            yield widget.text()
        if isinstance(widget, QLineEdit):
            yield widget.placeholderText()
        if isinstance(widget, QComboBox):
            yield from (widget.itemText(i) for i in range(widget.count()))
        if isinstance(widget, QTableView):
            yield from _in_table(widget)
    for action in root.findChildren(QAction):
        yield from (action.text(), action.toolTip())


def _in_table(table: QTableView) -> Iterator[str]:
    model = table.model()
    if model is not None:
        for i in range(model.columnCount()):
            yield str(model.headerData(i, Qt.Orientation.Horizontal) or "")
            cells = [model.index(row, i) for row in range(model.rowCount())]
            yield from (str(model.data(cell) or "") for cell in cells)


def texts_in(scene: Any) -> Iterator[str]:
    """All texts of a scene: its title, its description and its marks."""
    yield from (scene.title, scene.text)
    for mark in scene.marks:
        told = {name: value for name, value in mark._asdict().items() if isinstance(value, str)}
        yield from (value for name, value in told.items() if name not in KEYS)


def left_english(texts: Iterator[str]) -> list[str]:
    """The texts in which something was not translated, each once."""
    return [text for text in dict.fromkeys(texts) if english_in(text)]
