"""Words on pages: headings, notes that wrap, and the colour in which they speak."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QFont, QPalette
from PySide6.QtWidgets import QLabel

from app.qt.painting.palette import TEXT_PX, colour, typeface


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


def say_in(label: QLabel, code: str) -> None:
    """Give a label's words a colour, as "#rrggbb"."""
    ink = QPalette(label.palette())
    ink.setColor(QPalette.ColorRole.WindowText, colour(code))
    label.setPalette(ink)
