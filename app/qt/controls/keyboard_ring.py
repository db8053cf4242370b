"""Where the keyboard is, shown only to those who use it."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QFocusEvent
from PySide6.QtWidgets import QAbstractButton

_BY_KEYBOARD = (
    Qt.FocusReason.TabFocusReason,
    Qt.FocusReason.BacktabFocusReason,
    Qt.FocusReason.ShortcutFocusReason,
)


class RingedButton(QAbstractButton):
    """A button that says whether to draw a ring: the keyboard came to it by a key."""

    ringed = False

    def focusInEvent(self, event: QFocusEvent) -> None:  # noqa: N802
        self.ringed = event.reason() in _BY_KEYBOARD
        super().focusInEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:  # noqa: N802
        self.ringed = False
        super().focusOutEvent(event)
