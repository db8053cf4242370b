"""The page of the rider's name and of what is to be remembered."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QHBoxLayout, QWidget

from app.frame import Frame
from app.qt.controls.layout import in_column, in_row
from app.qt.controls.page_words import announce, heading
from app.qt.controls.typed_text import MOST_SHOWN, TypedLine, TypedLines
from app.qt.literal import Label, say_about
from app.qt.painting.palette import ACCENT, QUIET
from app.qt.sizes import px
from app.rider.setup import LONGEST_NAME, LONGEST_NOTES
from app.session import Session
from app.words.bounds import beginning_words
from app.words.language import msgid
from app.words.units import counted

NAME_WIDTH: Final = 420
_NAME_FULL: Final = msgid("A name holds {} letters at most: what did not fit was left out.")
_NOTES_FULL: Final = msgid("The notes hold {} letters at most: what did not fit was left out.")


class NotesPage(QWidget):
    """Shows the name and the notes of the set-up in hand, and hands on what is typed.

    What is typed is in the session at once, so that a crash cannot take more of it
    than of other work; each visit of a field is one step of the history.
    """

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._hidden = 0
        self._build()
        self._connect()
        self._show()
        self._say_usual()

    # Building

    def _build(self) -> None:
        self.name = TypedLine(LONGEST_NAME)
        self.name.setObjectName("name")
        self.name.setAccessibleName(self.tr("Name of rider or set-up"))
        say_about(self.name, self.tr("Stands on pictures, sheets and in lists."))
        self.name.setMinimumWidth(px(NAME_WIDTH // 3))
        self.name.setMaximumWidth(px(NAME_WIDTH))
        self.notes = TypedLines(LONGEST_NOTES)
        self.notes.setObjectName("notes")
        self.notes.setAccessibleName(self.tr("Notes"))
        self.notes.setPlaceholderText(
            self.tr("Old injuries, boots, what to look at next time, anything else")
        )
        self.words, self.count = Label(), Label()
        self.count.setForegroundRole(QUIET)
        under = in_row((self.words, 1), self.count)
        head = self._head()
        in_column(head, (self.notes, 1), under, of=self, spacing=6, margins=(12, 8, 12, 8))

    def _head(self) -> QHBoxLayout:
        """The name, and where it will be read."""
        label = heading(self.tr("Name"))
        label.setBuddy(self.name)
        self.about = Label(self.tr("of rider or set-up, on pictures, sheets and in lists"))
        self.about.setForegroundRole(QUIET)
        return in_row(label, (self.name, 2), (self.about, 3), spacing=8)

    def _connect(self) -> None:
        self.name.typed.connect(self._session.rename)
        self.name.left.connect(self._trim_name)
        self.notes.typed.connect(self._session.write_notes)
        for field, words in ((self.name, _NAME_FULL), (self.notes, _NOTES_FULL)):
            field.overfull.connect(lambda most, words=words: self._tell(self.tr(words), most))
            field.typed.connect(self._say_usual)
            field.left.connect(self._say_usual)
        # Not only with a frame: there is none while leg dimensions contradict each other.
        self._session.changed.connect(self._show)

    # Showing

    def show_frame(self, _frame: Frame, *, dragging: bool) -> None:  # noqa: ARG002
        """Show what the session holds; the drawings do not matter here."""
        self._show()

    def _show(self) -> None:
        setup = self._session.setup
        self.name.show_text(setup.name)
        self.notes.show_text(setup.notes)
        said, most = counted(len(setup.notes)), counted(LONGEST_NOTES)
        count = self.tr("{} of {} letters").format(said, most)
        self.count.setText(count)
        self.count.setVisible(bool(setup.notes))
        hidden = self.name.hidden + self.notes.hidden
        if hidden != self._hidden:
            self._hidden = hidden
            self._say_usual()
        say_about(self.notes, count)

    def _trim_name(self, visit: object) -> None:
        self._session.rename(self._session.setup.name.strip(), visit)

    def go_to_name(self) -> None:
        """Put the keyboard on the name, ready to be typed anew."""
        self.name.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.name.selectAll()

    # Telling

    def _say_usual(self) -> None:
        if self._hidden:
            self._say(beginning_words(MOST_SHOWN), QUIET)
            return
        self._say(
            self.tr("Kept in the file, carried by pictures, and printed on the fit sheet."),
            QUIET,
        )

    def _tell(self, words: str, most: int) -> None:
        said = words.format(counted(most))
        self._say(said, ACCENT)
        announce(self, said)

    def _say(self, words: str, role: QPalette.ColorRole) -> None:
        self.words.setText(words)
        self.words.setForegroundRole(role)
