"""The button that puts parts on, with the caution beside it."""

from __future__ import annotations

from PySide6.QtWidgets import QPushButton, QWidget

from app.features.answer.put_button import caution_note
from app.qt.controls.layout import in_row


def put_row(button: QPushButton) -> QWidget:
    """A button that puts something on, and the caution beside it."""
    row = QWidget()
    in_row(button, (caution_note(), 1), of=row, spacing=10)
    return row
