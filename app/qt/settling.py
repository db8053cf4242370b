"""What is slow waits until changes settle: nothing else for a moment, and no hand at work."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from PySide6.QtCore import QObject, QTimer

SETTLE_MS: Final = 150
"""How long nothing must change before what is slow begins."""


class Settling(QTimer):
    """Does something once for many changes, after the last of them.

    Args:
        parent: with which it goes.
        act: what is to be done.
        wait_ms: how long nothing must change.
    """

    def __init__(
        self, parent: QObject, act: Callable[[], object], wait_ms: int = SETTLE_MS
    ) -> None:
        super().__init__(parent, singleShot=True, interval=wait_ms)
        self._wait_ms = wait_ms
        self.timeout.connect(act)

    def follow(self, *, stale: bool, dragging: bool = False, at_once: bool = False) -> None:
        """Wait anew, or no more where nothing is to be done or a drag goes on.

        Args:
            stale: whether what is shown is out of date.
            dragging: whether a drag goes on, the end of which is told by another call.
            at_once: whether to go ahead at the next turn of the event loop, as for what
                has never been shown.
        """
        if dragging or not stale:
            self.stop()
        else:
            self.start(0 if at_once else self._wait_ms)
