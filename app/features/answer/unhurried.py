"""Sums in short steps between the events of the window, once nothing changes any more.

A thread would not help: what is computed here is Python through and through, and
holds up the painting all the same.  Steps of some milliseconds do not, and a hand
on a control stops them at once.
"""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QObject, Signal

from app.qt.settling import Settling
from geometry.fitting.steps import Steps


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
