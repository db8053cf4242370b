"""The button that puts parts on, with the caution beside it."""

from __future__ import annotations

from PySide6.QtWidgets import QPushButton, QWidget

from app.qt.controls.layout import in_row
from app.qt.controls.page_words import caution_note


def put_row(button: QPushButton) -> QWidget:
    """A button that puts something on, and the caution beside it."""
    row = QWidget()
    in_row(button, (caution_note(), 1), of=row, spacing=10)
    return row
