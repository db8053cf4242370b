"""The caution beside what is to be put on, and the button that does so."""

from __future__ import annotations

from PySide6.QtWidgets import QLabel, QPushButton, QWidget

from app.qt.controls.layout import in_row
from app.qt.controls.page_words import note
from app.qt.literal import show_tip
from app.qt.painting.palette import QUIET, SMALL_PX, typeface
from app.stance.findings import CAUTION
from app.words.language import tr


def caution_note() -> QLabel:
    """The caution in short; all of it in its tool tip."""
    caution = note(tr("One change at a time, standing still first. Stop if a joint hurts."))
    show_tip(caution, tr(CAUTION))
    caution.setForegroundRole(QUIET)
    caution.setFont(typeface(SMALL_PX))
    return caution


def put_row(button: QPushButton) -> QWidget:
    """A button that puts something on, and the caution beside it."""
    row = QWidget()
    in_row(button, (caution_note(), 1), of=row, spacing=10)
    return row
