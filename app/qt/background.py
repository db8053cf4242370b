"""Long sums that leave the window free, beside it or between its events.

Beside it the work runs in a plain thread that knows nothing of Qt, and its answer is
fetched by a timer.  So nothing can be called on a widget that is gone, however
the program ends.

What is Python through and through would hold up the painting even from a thread.
Steps of some milliseconds between events do not, and a hand on a control stops
them at once.
"""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from typing import Any

from PySide6.QtCore import QObject, QTimer, Signal

from app.qt.settling import Settling
from geometry.fitting.steps import Steps

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
        self._waiting: tuple[Callable[[], Any], Any] | None = None
        self.key: Any = None
        """For what the answer is that comes next, or has just come."""
        self._look = QTimer(self, interval=LOOK_EVERY_MS)
        self._look.timeout.connect(self._fetch)

    @property
    def busy(self) -> bool:
        """Whether an answer is still to come."""
        return self._running is not None

    def submit(self, job: Callable[[], Any], key: Any = None) -> None:
        """Do a sum when the one that runs is over, whose answer nobody wants any more.

        Args:
            job: gives the answer.
            key: for what it is the answer.
        """
        self._waiting = job, key
        if self._running is None:
            self._start()

    def _start(self) -> None:
        if self._waiting is not None:
            (job, self.key), self._waiting = self._waiting, None
            self._running = self._threads.submit(job)
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


class Unhurried(QObject):
    """Runs one computation at a time; the newest asked for takes the place of any other."""

    done = Signal(object)
    """The answer."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._steps: Steps[Any] | None = None
        self._settling = Settling(self, self._step)

    @property
    def busy(self) -> bool:
        """Whether an answer is still to come."""
        return self._steps is not None

    def submit(self, steps: Steps[Any]) -> None:
        """Do a sum, after a while in which nothing else is asked for."""
        self._steps = steps
        self._settling.follow(stale=True)

    def drop(self) -> None:
        """Do not go on with what was asked for."""
        self._steps = None
        self._settling.stop()

    def _step(self) -> None:
        if self._steps is None:
            return
        try:
            next(self._steps)
        except StopIteration as end:
            self._steps = None
            self.done.emit(end.value)
        else:
            self._settling.follow(stale=True, at_once=True)
