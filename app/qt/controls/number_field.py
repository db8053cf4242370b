"""A field for one exact number with its unit.

A line edit rather than a spin box: a spin box rounds to its decimals, reads only
the decimal mark of the locale, asks for a change while one types, and reads its
own rounded text back when it loses the keyboard.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import (
    QFocusEvent,
    QKeyEvent,
    QKeySequence,
    QMouseEvent,
    QPaintEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QWidget

from app.qt.controls.draft_mark import MARK_ROOM, describe, paint_edge
from app.qt.controls.line_editor import LineEditor
from app.qt.controls.steps import Grip, Wheel, key_step, kind_with
from app.qt.sizes import px, target_px
from app.words.scale import PLAIN, UNTOLD, Scale
from app.words.units import ReadingError

HEIGHT = 24
"""At the usual size of letters (px)."""
_MARGINS = (2, 0, 3, 0)
_ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


def height() -> int:
    """The height of a field (px)."""
    return target_px(HEIGHT)


class NumberField(LineEditor):
    """Shows one number and reports what is typed, once, when it is finished.

    What cannot be taken stays, so that it can be mended; Escape brings back what stands.
    """

    committed = Signal(float)
    """A value was typed and finished."""
    emptied = Signal()
    """The value was deleted, where none is allowed."""
    refused = Signal(str, str)
    """What was typed, and why it cannot be taken.  The old value is in force."""
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
        self._about = ""
        self.setFrame(False)
        self.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.setTextMargins(*_MARGINS)
        self.setFixedHeight(height())
        self.textEdited.connect(self._type)

    def set_scale(self, scale: Scale) -> None:
        """Write and read in another unit or range."""
        self._scale = scale
        self._show()

    def allow_empty(self, placeholder: str) -> None:
        """Let the field stand empty, for a value that is not known."""
        self._may_be_empty = True
        self.setPlaceholderText(placeholder)

    def show_value(self, value: float | None) -> None:
        """Show a value, or none; nothing is reported, and what is being typed stays."""
        self._value = value
        self._show()

    @property
    def shown(self) -> str:
        """How the value is written, whatever is being typed; empty for none."""
        return self.words_of(self._value)

    def words_of(self, value: float | None) -> str:
        """How a value is written; empty for none."""
        return "" if value is None else self._scale.text(value)

    def explain(self, about: str) -> None:
        """Say to assistive programs what the number is, beside what is said of a draft."""
        self._about = about
        describe(self, about)

    def _show(self) -> None:
        if self.draft is None:
            self._write()

    def _write(self) -> None:
        """Show what is in force."""
        text = self.shown
        if self.text() != text:
            self.setText(text)
        self._mark(None)

    def _mark(self, text: str | None, why: str = "") -> None:
        """Know what is typed and not entered, and show that it is not."""
        if (text, why) == (self.draft, self.why):
            return
        self.keep(text, why)
        left, *others = _MARGINS
        self.setTextMargins(left if text is None else px(MARK_ROOM), *others)
        describe(self, self._about)
        self.update()

    def _type(self, text: str) -> None:
        """Typing goes on."""
        self._mark(None if text == self.shown else text)
        self.resumed.emit()

    def finish(self) -> None:
        """Report what was typed, if anything was, and write it as it was understood."""
        if self.draft is None:
            self._write()
            return
        self._typed = self.draft
        self._take(self._typed)
        self._typed = None

    def _take(self, typed: str) -> None:
        """Report what was typed, or refuse it; whoever hears of it may refuse it too."""
        if self._may_be_empty and not typed.strip():
            self._mark(None)
            self.show_value(None)
            self.emptied.emit()
            return
        try:
            value = self._scale.read(typed)
        except ReadingError as error:
            self.refuse(str(error))
            return
        self._mark(None)
        self.show_value(value)
        self.committed.emit(value)

    def refuse(self, why: str) -> None:
        """Keep what is being taken, for it cannot be taken, and report it."""
        self.keep_refused(why)
        self.refused.emit((self._typed or "").strip(), why)

    def forget(self) -> None:
        """Let what is typed go, and show what is in force."""
        self._write()
        self.resumed.emit()

    def event(self, event: QEvent) -> bool:
        """Leave undo to the program, except while typing; keep Escape while typing."""
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent):
            undo = event.matches(QKeySequence.StandardKey.Undo) or event.matches(
                QKeySequence.StandardKey.Redo
            )
            if undo and self.draft is None:
                event.ignore()
                return True
            typing = event.key() == Qt.Key.Key_Escape and self.draft is not None
            if typing or key_step(event, sideways=False):
                event.accept()
                return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        step = key_step(event, sideways=False)
        if step is not None:
            self.finish()
            self.grip.hold()
            self._step(*step)
        elif event.key() in _ENTER:
            self.finish()
            self.selectAll()
        elif event.key() == Qt.Key.Key_Escape and self.draft is not None:
            self.forget()
            self.selectAll()
        elif event.key() == Qt.Key.Key_Escape:
            event.ignore()
        else:
            super().keyPressEvent(event)

    def _step(self, count: int, kind: int) -> None:
        """Count on from what is typed, unless that cannot be taken."""
        if self.draft is None:
            self.stepped.emit(count, kind)

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
            self.finish()
            self._step(count, kind_with(PLAIN, event.modifiers()))
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
        if self.why:  # said again to whoever comes to mend it
            self.refused.emit((self.draft or "").strip(), self.why)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:  # noqa: N802
        if event.reason() != Qt.FocusReason.PopupFocusReason:
            self.finish()
        self.grip.let_go()
        super().focusOutEvent(event)
        self.focused.emit(False)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802
        super().paintEvent(event)
        paint_edge(self, focus=self.hasFocus())
