"""The line under the plots of the bend: which mounts suit it best, and put them on."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from app.features.needs.put_button import update_apply_button
from app.features.needs.search import RangeSearch
from app.features.needs.switch import RangeSwitch
from app.features.needs.words import best_words, range_words
from app.qt.painting.palette import LEG
from app.rider.setup import Setup
from app.session import Session
from app.stance.needs import with_mounts


class RangeFoot(QWidget):
    """Shows the best mounts of the range that is chosen; they are sought in a quiet time."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._setup: Setup | None = None
        self._search = RangeSearch(session, self)
        self._search.found.connect(self._show)
        self._build()

    def _build(self) -> None:
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(12)
        self.switch = RangeSwitch()
        self.switch.chosen.connect(self._choose)
        self.lines = {leg: QLabel() for leg in LEG}
        self.put = QPushButton(self.tr("Put on the mounts"))
        self.put.clicked.connect(self._put)
        self.put.setEnabled(False)
        words = QVBoxLayout()
        words.setSpacing(0)
        for leg, line in self.lines.items():
            line.setForegroundRole(LEG[leg])
            line.setMinimumHeight(line.fontMetrics().height())
            words.addWidget(line)
        row.addWidget(QLabel(self.tr("Best for")))
        row.addWidget(self.switch)
        row.addLayout(words, 1)
        row.addWidget(self.put)

    def show_setup(self, setup: Setup, *, dragging: bool) -> None:
        """Show what suits a set-up, or what suited it a moment ago, fainter."""
        self._setup = setup
        self._search.seek(setup, dragging=dragging)
        self._show()

    def _show(self) -> None:
        setup, best = self._setup, self._search.best
        if setup is None:
            return
        self.switch.show_choice(turning=self._session.turning)
        stale = self._search.is_stale(setup)
        for which, line in enumerate(self.lines.values()):
            line.setEnabled(not stale)
            line.setText(best_words(best)[which] if best else self._waiting()[which])
        if best:
            update_apply_button(self.put, best.mounts, setup)
        if stale:
            self.put.setEnabled(False)
        self.setToolTip("" if best is None or stale else f"<p>{range_words(best)}</p>")
        self.setAccessibleDescription("" if best is None or stale else range_words(best))

    def _waiting(self) -> tuple[str, str]:
        return self.tr("The best mounts are being sought."), ""

    # Asking

    def _choose(self, turning: bool) -> None:
        self._session.turning = turning
        if self._setup is not None:
            self.show_setup(self._setup, dragging=False)

    def _put(self) -> None:
        best = self._search.best
        if best is not None:
            mounted = with_mounts(self._session.setup, best.mounts)
            self._session.take(self.tr("Range's best"), mounted)
