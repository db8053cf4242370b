"""A field for the places of holes, a line for each of them."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QEvent, QRectF, Qt, Signal
from PySide6.QtGui import (
    QFocusEvent,
    QKeyEvent,
    QKeySequence,
    QPainter,
    QPaintEvent,
    QTextCursor,
)
from PySide6.QtWidgets import QFrame, QPlainTextEdit, QWidget

from app.features.wedge.hole_spots import SpotError, spots_in, spots_text
from app.features.wedge.units import PartLengths
from app.files.drafts import Draft
from app.qt.controls.draft_mark import MARK_ROOM, describe, paint_edge
from app.qt.controls.entry_row import PAD
from app.qt.controls.layout import in_column
from app.qt.controls.page_words import note
from app.qt.drafts import Editor
from app.qt.literal import show_tip
from app.qt.painting.palette import QUIET, SMALL_PX, colour, typeface
from app.qt.sizes import px
from app.qt.themes import current_theme
from app.rider.wedge import HOLE_SPOT
from geometry.hardware.plane import Spot

HEIGHT: Final = 82
"""Of the list with the line over it (px): four lines stand whole."""
_ENTER: Final = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


class HoleList(QWidget):
    """Says over a :class:`HoleLines` what its two columns are, and draws its edge."""

    def __init__(self) -> None:
        super().__init__()
        self.lines = HoleLines()
        self.lines.focused.connect(self.update)
        self.columns = note()
        self.columns.setFont(typeface(SMALL_PX))
        self.columns.setWordWrap(False)
        self.columns.setForegroundRole(QUIET)
        self.columns.setBuddy(self.lines)
        self.setFixedHeight(px(HEIGHT))
        inside = in_column(self.lines, margins=(MARK_ROOM, 2, 2, 2))
        in_column(self.columns, (inside, 1), of=self, spacing=0, margins=(PAD, 0, PAD, 2))

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802
        """Draw the edge of the field as number fields have it."""
        super().paintEvent(event)
        edge = QRectF(self.lines.geometry().adjusted(-px(MARK_ROOM), -2, 2, 2))
        with QPainter(self) as painter:
            painter.fillRect(edge, colour(current_theme().field))
        paint_edge(self.lines, focus=self.lines.hasFocus(), onto=self, on=edge)

    def show_spots(self, spots: tuple[Spot, ...], lengths: PartLengths) -> None:
        """Show the places of the holes in a unit; nothing is reported."""
        self.columns.setText(self.tr("ahead, to the little toe, {}").format(lengths.name))
        self.lines.show_spots(spots, lengths)


class HoleLines(Editor, QPlainTextEdit):
    """Shows places of holes and reports what is typed: with the return key and on leaving.

    What cannot be taken stays, so that it can be mended; Escape brings back what stands.
    """

    asked = Signal(object)
    """The holes shall be in these places, a tuple of pairs (mm)."""
    told = Signal(str)
    """Why what was typed is not taken; "" when that is over."""
    focused = Signal()
    """The keyboard came or went, or something else is typed and not entered."""

    def __init__(self) -> None:
        super().__init__()
        self._spots: tuple[Spot, ...] = ()
        self._lengths = PartLengths()
        self._silent = False
        self.setObjectName("holes")
        self.textChanged.connect(self._type)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setTabChangesFocus(True)
        self.setLineWrapMode(QPlainTextEdit.LineWrapMode.NoWrap)
        self.setFont(typeface(SMALL_PX))
        self.setAcceptDrops(False)  # the address of a file is no hole
        self.document().setDocumentMargin(0)
        self.setAccessibleName(self.tr(HOLE_SPOT.label))
        describe(self, self.tr(HOLE_SPOT.help))
        show_tip(self, self.tr(HOLE_SPOT.help))

    def show_spots(self, spots: tuple[Spot, ...], lengths: PartLengths) -> None:
        """Show the places of the holes in a unit; nothing is reported.

        What is being typed stays as long as these are the same.
        """
        others = (spots, lengths) != (self._spots, self._lengths)
        self._spots, self._lengths = spots, lengths
        if self.draft is None and (others or not self.document().isModified()):
            self._write()

    def finish(self, *, rewrite: bool = True) -> None:
        """Report what was typed, if anything was.

        Args:
            rewrite: whether to write it as it was understood, rather than leave it
                to be typed on.
        """
        if self.draft is None:
            if rewrite:
                self._write()
            return
        try:
            spots = spots_in(self.draft, self._lengths.unit, self._spots)
        except SpotError as error:
            words = self.tr("Holes not taken: {}. Those taken before stand.")
            self._mark(self.draft, str(error))
            self.told.emit(words.format(error))
            return
        self._mark(None)
        self.told.emit("")
        # Known before they are reported, so that what is shown then is nothing new.
        self._spots = spots
        self.asked.emit(spots)
        if rewrite:
            self._write()

    def _write(self) -> None:
        text = spots_text(self._spots, self._lengths.unit)
        if self.toPlainText() != text:
            self._silent = True
            self.setPlainText(text)
            self._silent = False
            self.moveCursor(QTextCursor.MoveOperation.Start)
        self.document().setModified(False)
        self._mark(None)
        self.told.emit("")

    def resume(self, draft: Draft) -> None:
        """Let a text stand here that was typed and not entered before."""
        self.setPlainText(draft.text)

    def forget(self) -> None:
        """Let what is typed go, and show what is in force."""
        self._write()

    def _type(self) -> None:
        text = self.toPlainText()
        if not self._silent:
            self._mark(None if text == spots_text(self._spots, self._lengths.unit) else text)

    def _mark(self, text: str | None, why: str = "") -> None:
        """Know what is typed and not entered, and show that it is not."""
        self.keep(text, why)
        describe(self, self.tr(HOLE_SPOT.help))
        self.focused.emit()

    def event(self, event: QEvent) -> bool:
        """Leave undo to the program, except while typing; keep Escape while typing."""
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent):
            typing = self.document().isModified()
            keys = QKeySequence.StandardKey
            if (event.matches(keys.Undo) or event.matches(keys.Redo)) and not typing:
                event.ignore()
                return True
            if event.key() == Qt.Key.Key_Escape and typing:
                event.accept()
                return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        """Take the holes with the return key; take typing back with Escape."""
        if event.key() == Qt.Key.Key_Escape:
            if self.document().isModified():
                self._write()
            else:
                event.ignore()
            return
        super().keyPressEvent(event)
        if event.key() in _ENTER:
            self.finish(rewrite=False)

    def focusOutEvent(self, event: QFocusEvent) -> None:  # noqa: N802
        """Take the holes."""
        if event.reason() != Qt.FocusReason.PopupFocusReason:
            self.finish(rewrite=True)
        super().focusOutEvent(event)
        self.focused.emit()

    def focusInEvent(self, event: QFocusEvent) -> None:  # noqa: N802
        """Show that the keyboard is here."""
        super().focusInEvent(event)
        self.focused.emit()
