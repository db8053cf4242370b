"""Words on pages: headings, and notes that wrap."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QLabel

from app.qt.painting.palette import TEXT_PX, typeface


def heading(text: str = "") -> QLabel:
    """A line that stands over what belongs to it."""
    label = QLabel(text)
    label.setFont(typeface(TEXT_PX, QFont.Weight.DemiBold))
    return label


def note(text: str = "") -> QLabel:
    """Words that wrap and start at the top of their room."""
    label = QLabel(text)
    label.setWordWrap(True)
    label.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)
    return label
