"""A field for one exact number with its unit.

A line edit rather than a spin box: a spin box rounds to its decimals, reads only
the decimal mark of the locale, asks for a change while one types, and reads its
own rounded text back when it loses the keyboard.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent, QRectF, Qt, Signal
from PySide6.QtGui import (
    QFocusEvent,
    QKeyEvent,
    QKeySequence,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QWheelEvent,
)
from PySide6.QtWidgets import QLineEdit, QWidget

from app.qt.controls.steps import Grip, Wheel, key_step, kind_with
from app.qt.painting.palette import colour
from app.qt.themes import current_theme
from app.words.scale import PLAIN, UNTOLD, Scale
from app.words.units import ReadingError

HEIGHT = 22
_ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


class NumberField(QLineEdit):
    """Shows one number and reports what is typed, once, when it is finished."""

    committed = Signal(float)
    """A value was typed and finished."""
    emptied = Signal()
    """The value was deleted, where none is allowed."""
    refused = Signal(str, str)
    """What was typed, and why it cannot be taken.  The old value stands."""
    resumed = Signal()
    """Typing goes on: a refusal has been read."""
    stepped = Signal(int, int)
    """So many steps of this kind are wanted."""
    focused = Signal(bool)
    """The keyboard came or went."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.grip = Grip(self)
        self._scale = UNTOLD
        self._value: float | None = None
        self._may_be_empty = False
        self._wheel = Wheel()
        self._fresh = False
        self.setFrame(False)
        self.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.setTextMargins(2, 0, 3, 0)
        self.setFixedHeight(HEIGHT)
        self.textEdited.connect(self.resumed)

    def set_scale(self, scale: Scale) -> None:
        """Write and read in another unit or range."""
        self._scale = scale
        self._write()

    def allow_empty(self, placeholder: str) -> None:
        """Let the field stand empty, for a value that is not known."""
        self._may_be_empty = True
        self.setPlaceholderText(placeholder)

    def show_value(self, value: float | None) -> None:
        """Show a value, or none; nothing is reported."""
        self._value = value
        self._write()

    @property
    def shown(self) -> str:
        """How the value is written, whatever is being typed; empty for none."""
        return self.words_of(self._value)

    def words_of(self, value: float | None) -> str:
        """How a value is written; empty for none."""
        return "" if value is None else self._scale.text(value)

    def _write(self) -> None:
        text = self.shown
        if self.text() != text:
            self.setText(text)
        self.setModified(False)

    def _finish(self) -> None:
        """Report what was typed, if anything was, and write it as it was understood."""
        typed = self.text()
        if not self.isModified() or typed == self.shown:
            self._write()
            return
        if self._may_be_empty and not typed.strip():
            self.show_value(None)
            self.emptied.emit()
            return
        try:
            value = self._scale.read(typed)
        except ReadingError as error:
            self._write()
            self.refused.emit(typed.strip(), str(error))
            return
        self.show_value(value)
        self.committed.emit(value)

    def event(self, event: QEvent) -> bool:
        """Leave undo to the program, except while typing; keep Escape while typing."""
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent):
            undo = event.matches(QKeySequence.StandardKey.Undo) or event.matches(
                QKeySequence.StandardKey.Redo
            )
            if undo and not self.isModified():
                event.ignore()
                return True
            typing = event.key() == Qt.Key.Key_Escape and self.isModified()
            if typing or key_step(event, sideways=False):
                event.accept()
                return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        step = key_step(event, sideways=False)
        if step is not None:
            self._finish()
            self.grip.hold()
            self.stepped.emit(*step)
        elif event.key() in _ENTER:
            self._finish()
            self.selectAll()
        elif event.key() == Qt.Key.Key_Escape and self.isModified():
            self._write()
            self.selectAll()
            self.resumed.emit()
        elif event.key() == Qt.Key.Key_Escape:
            event.ignore()
        else:
            super().keyPressEvent(event)

    def keyReleaseEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        if not event.isAutoRepeat():
            self.grip.let_go()
        super().keyReleaseEvent(event)

    def wheelEvent(self, event: QWheelEvent) -> None:  # noqa: N802
        if not self.hasFocus():
            event.ignore()
            return
        count = self._wheel.notches(event)
        if count:
            self._finish()
            self.stepped.emit(count, kind_with(PLAIN, event.modifiers()))
        event.accept()

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        super().mousePressEvent(event)
        if self._fresh:
            self._fresh = False
            self.selectAll()

    def focusInEvent(self, event: QFocusEvent) -> None:  # noqa: N802
        super().focusInEvent(event)
        self._fresh = event.reason() == Qt.FocusReason.MouseFocusReason
        self.focused.emit(True)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:  # noqa: N802
        if event.reason() != Qt.FocusReason.PopupFocusReason:
            self._finish()
        self.grip.let_go()
        super().focusOutEvent(event)
        self.focused.emit(False)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802
        super().paintEvent(event)
        theme = current_theme()
        width, line = (1.5, theme.ink) if self.hasFocus() else (1.0, theme.rule)
        with QPainter(self) as painter:
            painter.setPen(QPen(colour(line), width))
            painter.drawRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5))
