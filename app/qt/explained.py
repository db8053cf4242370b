"""Which word of the help explains a control: asked for what has the keyboard."""

from __future__ import annotations

from typing import Final
from weakref import WeakKeyDictionary

from PySide6.QtWidgets import QWidget

from app.qt.controls.entry_row import Row
from app.words.terms import term_of

_TERMS: Final[WeakKeyDictionary[QWidget, str]] = WeakKeyDictionary()


def explain(widget: QWidget, term: str) -> None:
    """Let a control, and all on it, be explained by a word of the help."""
    _TERMS[widget] = term


def term_at(widget: QWidget | None) -> str:
    """The word that explains a control, by itself or by what it stands on; "" where none does."""
    while widget is not None:
        term = _TERMS.get(widget) or (term_of(widget.name) if isinstance(widget, Row) else "")
        if term:
            return term
        widget = widget.parentWidget()
    return ""
