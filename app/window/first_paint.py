"""Leaves what a window can do without until it has been seen."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtWidgets import QWidget


def once_painted(widget: QWidget, do: Callable[[], object]) -> None:
    """Do something once, as soon as a widget with all in it has been painted."""
    _Watch(widget, do)


class _Watch(QObject):
    """Sees the first paint of its parent."""

    def __init__(self, widget: QWidget, do: Callable[[], object]) -> None:
        super().__init__(widget)
        self._do = do
        widget.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802
        """Let every event through, and see the first paint."""
        if event.type() == QEvent.Type.Paint:
            watched.removeEventFilter(self)
            # The widgets in it are painted after it, before the next event.
            QTimer.singleShot(0, self, self._seen)
        return False

    def _seen(self) -> None:
        self._do()
        self.deleteLater()
