"""Fields for words: what is typed is told at once, and told apart by visits.

A file can hold a text of any length, with which a field would stand still: of that its
beginning can be typed over, and the rest stays behind it as it is.
"""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QMimeData, Signal
from PySide6.QtGui import QFocusEvent, QTextCursor
from PySide6.QtWidgets import QLineEdit, QPlainTextEdit

from app.files.drafts import Draft
from app.qt.drafts import Editor

MOST_SHOWN: Final = 20_000
"""Letters that a field shows."""
_LINE_ENDS = str.maketrans({"\u2028": "\n", "\u2029": "\n"})


class _Visited(Editor):
    """What both fields tell, beside what Qt's own do.

    What is typed is entered at once, so nothing is ever left standing.

    Args:
        most: letters that can be typed; more are shown where they come from elsewhere.
    """

    typed = Signal(str, object)
    """What stands there now, and the visit in which it was typed."""
    left = Signal(object)
    """The visit is over."""
    overfull = Signal(int)
    """Something was typed that did not fit into this many letters."""

    def __init__(self, most: int) -> None:
        super().__init__()
        self._most = most
        self._visit: object = object()
        self._rest = ""
        self.said = ""

    def focusInEvent(self, event: QFocusEvent) -> None:  # noqa: N802
        """A visit begins."""
        super().focusInEvent(event)
        self._visit = object()

    def focusOutEvent(self, event: QFocusEvent) -> None:  # noqa: N802
        """The visit ends."""
        super().focusOutEvent(event)
        self.left.emit(self._visit)

    @property
    def hidden(self) -> int:
        """How many letters stand behind those that the field shows."""
        return len(self._rest)

    def _begin(self, text: str) -> str:
        """What the field shows of a text that shall stand in it."""
        self.said, self._rest = text, text[MOST_SHOWN:]
        return text[:MOST_SHOWN]

    def finish(self) -> None:
        """Nothing is left to be entered."""

    def resume(self, draft: Draft) -> None:
        """Nothing was left to be entered."""

    def forget(self) -> None:
        """Nothing is left to be entered."""

    def _take(self, text: str) -> None:
        """Report what stands there now, with what stands behind it."""
        self.said = text + self._rest
        self.typed.emit(self.said, self._visit)


class TypedLine(_Visited, QLineEdit):
    """One line of words."""

    def __init__(self, most: int) -> None:
        super().__init__(most)
        self.textEdited.connect(lambda text: self._take(_whole(text)))
        self.inputRejected.connect(lambda: self.overfull.emit(self._most))
        self.setDragEnabled(True)

    def show_text(self, text: str) -> None:
        """Show what is typed elsewhere; nothing is reported."""
        if text != self.said:
            shown = self._begin(text)
            self.setMaxLength(max(self._most, len(shown)))
            self.setText(shown)
            self.setCursorPosition(0)


class TypedLines(_Visited, QPlainTextEdit):
    """Several lines of words; the tab key leaves them."""

    def __init__(self, most: int) -> None:
        super().__init__(most)
        self._silent = False
        self.setTabChangesFocus(True)
        self.textChanged.connect(self._look)

    def show_text(self, text: str) -> None:
        """Show what is typed elsewhere; nothing is reported."""
        if text != self.said:
            self._silent = True
            self.setPlainText(self._begin(text))
            self._silent = False

    def insertFromMimeData(self, source: QMimeData) -> None:  # noqa: N802
        """Take of a text that is pasted what can fit, and one letter more, which is told."""
        pasted = QMimeData()
        pasted.setText(source.text()[: self._room + 1])
        super().insertFromMimeData(pasted)

    @property
    def _room(self) -> int:
        """Letters that the field takes: as many as stand there where these are more."""
        return max(self._most, len(self.said) - self.hidden)

    def _look(self) -> None:
        if self._silent:
            return
        surplus = len(self._text()) - self._room
        if surplus > 0:
            self._silent = True
            self._cut(surplus)
            self._silent = False
        text = self._text()
        if text + self._rest != self.said:
            self._take(text)
        if surplus > 0:
            self.overfull.emit(self._most)

    def _cut(self, surplus: int) -> None:
        """Take so many letters off the end of what came last, where the cursor stands."""
        cursor = self.textCursor()
        cursor.joinPreviousEditBlock()
        for _ in range(surplus):  # by whole letters, of which some take two places
            cursor.movePosition(
                QTextCursor.MoveOperation.PreviousCharacter, QTextCursor.MoveMode.KeepAnchor
            )
        cursor.removeSelectedText()
        cursor.endEditBlock()

    def _text(self) -> str:
        # Not what Qt calls the plain text, in which spaces that hold words together are lost.
        return _whole(self.document().toRawText().translate(_LINE_ENDS))


def _whole(text: str) -> str:
    """A text without halves of letters, which a cut leaves and no file can hold."""
    return "".join(letter for letter in text if not "\ud800" <= letter <= "\udfff")
