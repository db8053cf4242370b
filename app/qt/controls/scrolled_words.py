"""Words that may need more room than there is: what wants attention first, then the rest."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent, QResizeEvent
from PySide6.QtWidgets import QFrame, QScrollArea, QVBoxLayout, QWidget

from app.qt.controls.page_words import note
from app.qt.painting.palette import ACCENT

PAD: Final = 4
"""Between the words and a scroll bar (px)."""


class ScrolledWords(QScrollArea):
    """Shows flags in the accent's colour over other words; scrolls where both are too long."""

    def __init__(self, name: str) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._flagged = ""
        self.flags, self.words = note(), note()
        self.flags.setForegroundRole(ACCENT)
        inside = QWidget()
        column = QVBoxLayout(inside)
        column.setContentsMargins(0, 0, PAD, 0)
        column.setSpacing(4)
        column.addWidget(self.flags)
        column.addWidget(self.words)
        column.addStretch(1)
        self.setWidget(inside)

    def say(self, flags: str, words: str, *, aloud: bool = True) -> None:
        """Show other words; flags that are new are announced to assistive programs."""
        if flags and flags != self._flagged and aloud:
            QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, flags))
        self._flagged = flags
        self.flags.setText(flags)
        self.words.setText(words)
        self.flags.setVisible(bool(flags))
        self.words.setVisible(bool(words))
        self._make_room()
        self.setAccessibleDescription(" ".join(filter(None, (flags, words))))

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        """Break the lines anew."""
        super().resizeEvent(event)
        self._make_room()

    def _make_room(self) -> None:
        """Hold the height that the words need: a scroll area asks for it at another width."""
        width = self.viewport().width() - PAD
        for label in (self.flags, self.words):
            label.setMinimumHeight(max(label.heightForWidth(width), 0))
