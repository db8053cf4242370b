"""Words on pages: headings, and notes that wrap or scroll."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QObject, Qt, QTimer
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QAccessibleInterface,
    QFont,
    QResizeEvent,
)
from PySide6.QtWidgets import QWidget
from shiboken6 import Shiboken

from app.qt.controls.layout import in_column
from app.qt.controls.plain_area import PlainArea
from app.qt.literal import Label, say_about, show_tip, spoken
from app.qt.painting.palette import ACCENT, QUIET, SMALL_PX, TEXT_PX, typeface
from app.qt.sizes import px
from app.stance.findings import CAUTION, IN_A_LINE
from app.words.language import tr
from app.words.sentences import as_sentence

_to_say: list[tuple[QObject, str]] = []
"""What is said as soon as the present events are done."""


def announce(speaker: QObject, words: str) -> None:
    """Have assistive programs say something on behalf of a widget.

    What comes up together, as one change makes it, is said in one go: of several
    announcements most such programs read the last one only.
    """
    if not _to_say:
        QTimer.singleShot(0, _say)
    if words not in (said for _, said in _to_say):
        _to_say.append((speaker, words))


def _say() -> None:
    there = [(speaker, words) for speaker, words in _to_say if Shiboken.isValid(speaker)]
    _to_say.clear()
    if there:
        speak(there[0][0], " ".join(as_sentence(words) for _, words in there))


def speak(speaker: QObject, words: str) -> None:
    """Say something now."""
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
    """The caution in a line beside a button; all of it in its tool tip."""
    label = note(tr(IN_A_LINE))
    show_tip(label, tr(CAUTION))
    label.setForegroundRole(QUIET)
    label.setFont(typeface(SMALL_PX))
    return label


PAD: Final = 4
"""Between the words and a scroll bar (px)."""


class ScrolledWords(PlainArea):
    """Shows flags in the accent's colour over other words; scrolls where both are too long."""

    def __init__(self, name: str) -> None:
        super().__init__(name=name)
        self._flagged = ""
        self.flags, self.words = note(), note()
        self.flags.setForegroundRole(ACCENT)
        inside = QWidget()
        in_column(self.flags, self.words, 1, of=inside, spacing=4, margins=(0, 0, PAD, 0))
        self.setWidget(inside)

    def spoken_interface(self) -> QAccessibleInterface:
        """As assistive programs see it."""
        from app.qt.accessible.roles import SpokenWidget  # noqa: PLC0415

        return SpokenWidget(self, QAccessible.Role.Grouping)

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
        say_about(self, " ".join(filter(None, (flags, spoken(words)))))

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        """Break the lines anew."""
        super().resizeEvent(event)
        self._make_room()

    def _make_room(self) -> None:
        """Hold the height that the words need: a scroll area asks for it at another width."""
        width = self.viewport().width() - px(PAD)
        for label in (self.flags, self.words):
            label.setMinimumHeight(max(label.heightForWidth(width), 0))
