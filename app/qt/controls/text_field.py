"""A field for a line of words that counts when it is finished."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit

from app.qt.literal import show_tip
from app.words.bounds import beginning_words

MOST_SHOWN: Final = 2000
"""Letters that a field shows: Qt's own would drop what is beyond some."""


class TextField(QLineEdit):
    """Shows words and reports what is typed, once, with the return key or on leaving.

    Of a very long text its beginning can be typed over; the rest stays behind it as it is.

    Args:
        name: what is typed, for assistive programs.
    """

    committed = Signal(str)
    """These words were typed and finished."""

    def __init__(self, name: str) -> None:
        super().__init__()
        self._shown = self._rest = ""
        self.setAccessibleName(name)
        self.editingFinished.connect(self._finish)

    def show_text(self, text: str) -> None:
        """Show words; what is being typed stays as long as these are the same."""
        text, rest = text[:MOST_SHOWN], text[MOST_SHOWN:]
        if bool(rest) != bool(self._rest):
            show_tip(self, beginning_words(MOST_SHOWN) if rest else "")
        self._rest = rest
        typing = self.isModified() and self.hasFocus()
        if text != self._shown or (text != self.text() and not typing):
            self._shown = text
            self.setText(text)

    def _finish(self) -> None:
        if self.isModified():
            self.setModified(False)
            self._shown = self.text()
            self.committed.emit(self._shown + self._rest)
