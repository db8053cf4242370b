"""Long sums beside the window: only the newest one asked for is told.

The work runs in a plain thread that knows nothing of Qt, and its answer is
fetched by a timer.  So nothing can be called on a widget that is gone, however
the program ends.
"""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from typing import Any

from PySide6.QtCore import QObject, QTimer, Signal

LOOK_EVERY_MS = 15


class Background(QObject):
    """Runs one computation at a time; a newer one takes the place of one that waits."""

    done = Signal(object)
    """The answer of the newest sum asked for."""
    failed = Signal(object)
    """Why that sum has none: its ValueError."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._threads = ThreadPoolExecutor(max_workers=1)
        self._running: Future[Any] | None = None
        self._waiting: Callable[[], Any] | None = None
        self._look = QTimer(self)
        self._look.setInterval(LOOK_EVERY_MS)
        self._look.timeout.connect(self._fetch)

    @property
    def busy(self) -> bool:
        """Whether an answer is still to come."""
        return self._running is not None

    def submit(self, job: Callable[[], Any]) -> None:
        """Do a sum when the one that runs is over, whose answer nobody wants any more."""
        self._waiting = job
        if self._running is None:
            self._start()

    def _start(self) -> None:
        if self._waiting is not None:
            self._running, self._waiting = self._threads.submit(self._waiting), None
            self._look.start()

    def _fetch(self) -> None:
        if self._running is None or not self._running.done():
            return
        over, self._running = self._running, None
        self._look.stop()
        if self._waiting is not None:
            self._start()
            return
        try:
            answer = over.result()
        except ValueError as problem:
            self.failed.emit(problem.with_traceback(None))
        else:
            self.done.emit(answer)
