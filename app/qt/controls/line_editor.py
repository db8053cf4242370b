"""What the fields of one line have in common that report what is typed when it is finished."""

from __future__ import annotations

from PySide6.QtWidgets import QLineEdit, QWidget

from app.files.drafts import Draft
from app.qt.drafts import Editor


class LineEditor(Editor, QLineEdit):
    """A line whose owner may refuse what it reports, so that it stays to be mended."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._typed: str | None = None

    def keep_refused(self, why: str) -> None:
        """Keep what is being taken to be mended; nothing where nothing was typed."""
        if self._typed is not None:
            if self.text() != self._typed:
                self.setText(self._typed)
            self._mark(self._typed, why)

    def resume(self, draft: Draft) -> None:
        """Let a text stand here that was typed and not entered before."""
        self.setText(draft.text)
        self._type(draft.text)

    def _type(self, text: str) -> None:
        """Typing goes on."""
        raise NotImplementedError

    def _mark(self, text: str | None, why: str = "") -> None:
        """Know what is typed and not entered, and show that it is not."""
        raise NotImplementedError
