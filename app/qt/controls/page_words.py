"""Words on pages: headings, and notes that wrap or scroll."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QObject, Qt
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent, QFont, QResizeEvent
from PySide6.QtWidgets import QFrame, QScrollArea, QWidget

from app.qt.controls.layout import in_column
from app.qt.literal import Label, show_tip, spoken
from app.qt.painting.palette import ACCENT, QUIET, SMALL_PX, TEXT_PX, typeface
from app.stance.findings import CAUTION
from app.words.language import tr


def announce(speaker: QObject, words: str) -> None:
    """Have assistive programs say something on behalf of a widget."""
    QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(speaker, words))


def heading(text: str = "") -> Label:
    """A line that stands over what belongs to it."""
    label = Label(text)
    label.setFont(typeface(TEXT_PX, QFont.Weight.DemiBold))
    return label


def note(text: str = "") -> Label:
    """Words that wrap and start at the top of their room."""
    label = Label(text)
    label.setWordWrap(True)
    label.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)
    return label


def caution_note() -> Label:
    """The caution that stands at whatever puts lifts and cants on; all of it in its tool tip."""
    label = note(tr("One change at a time, standing still first. Stop if a joint hurts."))
    show_tip(label, tr(CAUTION))
    label.setForegroundRole(QUIET)
    label.setFont(typeface(SMALL_PX))
    return label


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
        in_column(self.flags, self.words, 1, of=inside, spacing=4, margins=(0, 0, PAD, 0))
        self.setWidget(inside)

    def say(self, flags: str, words: str, *, aloud: bool = True) -> None:
        """Show other words; flags that are new are announced to assistive programs."""
        if flags and flags != self._flagged and aloud:
            announce(self, flags)
        self._flagged = flags
        self.flags.setText(flags)
        self.words.setText(words)
        self.flags.setVisible(bool(flags))
        self.words.setVisible(bool(words))
        self._make_room()
        self.setAccessibleDescription(" ".join(filter(None, (flags, spoken(words)))))

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        """Break the lines anew."""
        super().resizeEvent(event)
        self._make_room()

    def _make_room(self) -> None:
        """Hold the height that the words need: a scroll area asks for it at another width."""
        width = self.viewport().width() - PAD
        for label in (self.flags, self.words):
            label.setMinimumHeight(max(label.heightForWidth(width), 0))
