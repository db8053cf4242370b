"""Seeks in a quiet time which mounts suit the whole bend, with turning hips or without."""

from __future__ import annotations

from PySide6.QtCore import QObject, Signal

from app.features.needs.model import RangeNeeds, range_needs_steps
from app.features.needs.unhurried import Unhurried
from app.rider.inputs import Inputs
from app.rider.setup import Setup
from app.session import Session


class RangeSearch(QObject):
    """Holds the last answer of each of the two kinds, and seeks the one that is wanted.

    Which one is wanted the session says, so that all pages ask the same.
    """

    found = Signal()
    """There is another answer."""

    def __init__(self, session: Session, parent: QObject) -> None:
        super().__init__(parent)
        self._session = session
        self._answers: dict[bool, tuple[Inputs, RangeNeeds]] = {}
        self._sought: tuple[bool, Inputs] | None = None
        self._unhurried = Unhurried(self)
        self._unhurried.done.connect(self._take)

    @property
    def best(self) -> RangeNeeds | None:
        """The last answer of the kind that is wanted."""
        answer = self._answers.get(self._session.turning)
        return answer[1] if answer else None

    def is_stale(self, setup: Setup) -> bool:
        """Whether the last answer is not that of a set-up."""
        answer = self._answers.get(self._session.turning)
        return answer is None or answer[0] != setup.inputs

    def seek(self, setup: Setup, *, dragging: bool) -> None:
        """Seek the answer for a set-up, unless it is known or a hand is at work."""
        if dragging or not self.is_stale(setup):
            self._unhurried.drop()
            return
        turning = self._session.turning
        self._sought = turning, setup.inputs
        self._unhurried.submit(range_needs_steps(setup, turning=turning))

    def _take(self, best: RangeNeeds) -> None:
        if self._sought is not None:
            turning, inputs = self._sought
            self._answers[turning] = inputs, best
            self.found.emit()
