"""What the keys and the wheel mean on a control, and how long a hand is on it."""

from __future__ import annotations

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent, QWheelEvent

from app.words.scale import COARSE, FINE, PLAIN

_KEYS = {
    Qt.Key.Key_Up: (1, PLAIN),
    Qt.Key.Key_Down: (-1, PLAIN),
    Qt.Key.Key_PageUp: (1, COARSE),
    Qt.Key.Key_PageDown: (-1, COARSE),
}
_SIDEWAYS = {Qt.Key.Key_Right: (1, PLAIN), Qt.Key.Key_Left: (-1, PLAIN)}
_NOTCH = 120
"""Eighths of a degree in one notch of a wheel."""


def kind_with(kind: int, modifiers: Qt.KeyboardModifier) -> int:
    """The kind of step with Shift one finer and with Ctrl one coarser."""
    if modifiers & Qt.KeyboardModifier.ShiftModifier:
        return max(kind - 1, FINE)
    if modifiers & Qt.KeyboardModifier.ControlModifier:
        return min(kind + 1, COARSE)
    return kind


def rate_with(modifiers: Qt.KeyboardModifier) -> float:
    """How many steps a move by hand is worth: a tenth with Shift, five with Ctrl."""
    return (0.1, 1.0, 5.0)[kind_with(PLAIN, modifiers)]


def key_step(event: QKeyEvent, *, sideways: bool) -> tuple[int, int] | None:
    """How many steps of which kind a key asks for; none if it asks for no step.

    Args:
        event: the key.
        sideways: whether the arrows to left and right count, as they do where
            no text is typed.
    """
    key = Qt.Key(event.key())
    asked = _KEYS.get(key) or (_SIDEWAYS.get(key) if sideways else None)
    if asked is None or event.modifiers() & Qt.KeyboardModifier.AltModifier:
        return None
    return asked[0], kind_with(asked[1], event.modifiers())


class Wheel:
    """Gathers the small turns of a fine wheel into whole notches."""

    def __init__(self) -> None:
        self._turned = 0

    def notches(self, event: QWheelEvent) -> int:
        """Whole notches turned since the last ones were counted; up is positive."""
        delta = event.angleDelta()
        self._turned += delta.y() or delta.x()
        count = int(self._turned / _NOTCH)
        self._turned -= count * _NOTCH
        return count


class Grip(QObject):
    """Whether a hand is on a control: a button or a key held down.

    What happens between :attr:`grabbed` and :attr:`released` is one step of the
    history.
    """

    grabbed = Signal()
    released = Signal()

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._held = False

    def hold(self) -> None:
        """A hand is put on the control; says so once."""
        if not self._held:
            self._held = True
            self.grabbed.emit()

    def let_go(self) -> None:
        """The hand is taken off; says so once."""
        if self._held:
            self._held = False
            self.released.emit()
