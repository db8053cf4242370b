"""The menu of the starting points: to begin with one of them, or to stand as one."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QMenu, QWidget

from app.files.resources import StartingPoint, starting_points
from app.rider.setup import somebody
from app.session import Session
from app.words.language import tr


class StartingMenu(QMenu):
    """Offers what suits the set-up in hand.

    Args:
        parent: over which it opens.
        session: with the set-up in hand.
        start_from: makes a starting point the set-up in hand.
        stand_as: takes stance, boots and posture from one.
    """

    def __init__(
        self,
        parent: QWidget,
        session: Session,
        start_from: Callable[[StartingPoint], None],
        stand_as: Callable[[StartingPoint], None],
    ) -> None:
        super().__init__(parent)
        self._session = session
        self._start_from, self._stand_as = start_from, stand_as
        self.aboutToShow.connect(self._fill)
        self._fill()

    def _fill(self) -> None:
        """A real rider's legs can be kept; the demo rider's, or an example's, need not be."""
        self.clear()
        keeps = somebody(self._session.setup)
        begun = self.tr("{}, with its example rider") if keeps else "{}"
        entries = ((self.tr("{}, on my legs"), self._stand_as), (begun, self._start_from))
        for said, take in entries if keeps else entries[1:]:
            self.addSeparator()
            for point in starting_points():
                action = self.addAction(said.format(tr(point.title)))
                action.triggered.connect(lambda _=False, take=take, point=point: take(point))
