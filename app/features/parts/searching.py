"""A long search beside the window: it tells how far it is, rests during drags, can be stopped.

The search runs in a plain thread that knows nothing of Qt; a timer looks how far
it is.  Between its steps it gives the window a moment, since both are Python.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from threading import Event, Thread
from typing import Any, Final, Protocol

from PySide6.QtCore import QCoreApplication, QObject, QTimer, Signal

LOOK_EVERY_MS: Final = 40
REST_S: Final = 0.003
"""Pause between two steps, in which the window can paint."""


class Step(Protocol):
    """What a search tells of itself after each step."""

    @property
    def done(self) -> float:
        """Share of the work that is done."""

    @property
    def result(self) -> Any:
        """What was found; None until the last step."""


class _Run:
    """One search on its way; its thread writes here, the window reads."""

    def __init__(self, steps: Callable[[], Iterator[Step]], *, held: bool) -> None:
        self._steps = steps
        self.share = 0.0
        self.result: Any = None
        self.problem: ValueError | None = None
        self.stop = Event()
        self.go = Event()
        self.over = Event()
        if not held:
            self.go.set()
        Thread(target=self._work, daemon=True).start()

    def _work(self) -> None:
        try:
            for step in self._steps():
                self.share, self.result = step.done, step.result
                self.go.wait()
                if self.stop.wait(REST_S):
                    return
        except ValueError as error:
            # Without the frames that it came through: they would be kept as long.
            self.problem = error.with_traceback(None)
        finally:
            self.over.set()

    def end(self) -> None:
        """Stop after the step in hand."""
        self.stop.set()
        self.go.set()


class SearchThread(QObject):
    """Does one search at a time."""

    progressed = Signal(float)
    """This share is done."""
    done = Signal(object)
    """What was found."""
    failed = Signal(object)
    """Why nothing can be found: its ValueError."""
    stopped = Signal()
    """It was stopped before the end."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        runs: list[_Run] = []
        self._runs = runs
        """The search that is on its way, if any."""
        self._held = False
        self._look = QTimer(self, interval=LOOK_EVERY_MS)
        self._look.timeout.connect(self._fetch)
        app = QCoreApplication.instance()
        if app is not None:
            app.aboutToQuit.connect(self.stop)
        # The thread must not outlive what asked for it.  Not told to the search itself:
        # Qt would take the connection apart in whatever thread lets go of the search last.
        self.destroyed.connect(lambda: _end_all(runs))

    @property
    def busy(self) -> bool:
        """Whether a search is on its way."""
        return bool(self._runs)

    @property
    def held(self) -> bool:
        """Whether it rests."""
        return self._held

    def start(self, steps: Callable[[], Iterator[Step]]) -> None:
        """Begin a search; the former one, if any, is given up."""
        _end_all(self._runs)
        self._runs.append(_Run(steps, held=self._held))
        self._look.start()

    def stop(self) -> None:
        """Give the search up."""
        if self._runs:
            _end_all(self._runs)
            self._look.stop()
            self.stopped.emit()

    def hold(self, on: bool) -> None:
        """Let the search rest after the step in hand, or go on."""
        self._held = on
        for run in self._runs:
            (run.go.clear if on else run.go.set)()

    def _fetch(self) -> None:
        for run in tuple(self._runs):
            if run.over.is_set():
                self._tell(run)
            else:
                self.progressed.emit(run.share)

    def _tell(self, run: _Run) -> None:
        self._runs.clear()
        self._look.stop()
        if run.problem:
            self.failed.emit(run.problem)
        else:
            self.done.emit(run.result)


def _end_all(runs: list[_Run]) -> None:
    while runs:
        runs.pop().end()
