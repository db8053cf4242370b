"""A field for a line of words that counts when it is finished."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPaintEvent

from app.qt.controls.draft_mark import MARK_ROOM, describe, paint_edge
from app.qt.controls.line_editor import LineEditor
from app.qt.literal import show_tip
from app.qt.sizes import px
from app.words.bounds import beginning_words

MOST_SHOWN: Final = 2000
"""Letters that a field shows: Qt's own would drop what is beyond some."""


class TextField(LineEditor):
    """Shows words and reports what is typed, once, with the return key or on leaving.

    Of a very long text its beginning can be typed over; the rest stays behind it as it is.
    What is refused stays, so that it can be mended; Escape brings back what is in force.

    Args:
        name: what is typed, for assistive programs.
        key: tells the field from the others on its page.
    """

    committed = Signal(str)
    """These words were typed and finished."""
    resumed = Signal()
    """Typing goes on: a refusal has been read."""

    def __init__(self, name: str, key: str = "") -> None:
        super().__init__()
        self._shown = self._rest = ""
        self.setAccessibleName(name)
        self.setObjectName(key)
        self.textEdited.connect(self._type)
        self.editingFinished.connect(self.finish)

    def show_text(self, text: str) -> None:
        """Show words; what is being typed stays."""
        text, rest = text[:MOST_SHOWN], text[MOST_SHOWN:]
        if bool(rest) != bool(self._rest):
            show_tip(self, beginning_words(MOST_SHOWN) if rest else "")
        self._rest, self._shown = rest, text
        if self.draft is None and text != self.text():
            self.setText(text)

    def finish(self) -> None:
        """Report what is typed, if anything is; whoever hears of it may refuse it."""
        if self.draft is None:
            return
        before, self._typed = self._shown, self.draft
        self._shown = self._typed
        self._mark(None)
        self.committed.emit(self._typed + self._rest)
        if self.draft is not None:
            self._shown = before
        self._typed = None

    def forget(self) -> None:
        """Let what is typed go, and show what is in force."""
        self.setText(self._shown)
        self._type(self._shown)

    def _type(self, text: str) -> None:
        self._mark(None if text == self._shown else text)
        self.resumed.emit()

    def _mark(self, text: str | None, why: str = "") -> None:
        """Know what is typed and not entered, and show that it is not."""
        self.keep(text, why)
        self.setTextMargins(0 if text is None else px(MARK_ROOM), 0, 0, 0)
        describe(self, "")
        self.update()

    def event(self, event: QEvent) -> bool:
        """Keep Escape while typing."""
        escape = isinstance(event, QKeyEvent) and event.key() == Qt.Key.Key_Escape
        if escape and self.draft is not None:
            if event.type() == QEvent.Type.ShortcutOverride:
                event.accept()
                return True
            if event.type() == QEvent.Type.KeyPress:
                self.forget()
                return True
        return super().event(event)

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802
        """Show what is typed and not entered as that."""
        super().paintEvent(event)
        if self.draft is not None:
            paint_edge(self, focus=self.hasFocus())
