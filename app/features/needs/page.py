"""The page that says which lift and cant each binding needs, and puts them on."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QLabel, QPushButton, QWidget

from app.features.needs.best_line import RangeSearch, RangeSwitch, update_apply_button
from app.features.needs.table import NeedsTable
from app.features.needs.words import (
    lift_words,
    margin_words,
    range_words,
    start_words,
    straight_words,
    verdict_words,
)
from app.frame import Frame
from app.qt.controls.layout import grid_of, in_column, in_row
from app.rider.setup import Setup
from app.session import Session
from app.stance.needs import Mounts, Needs, needs_of, with_mounts

WIDE: Final = 860
"""From this width on, the words stand beside the table (px)."""
WORDS_WIDTH: Final = 272
"""Width of the words beside the table (px)."""


class NeedsPage(QWidget):
    """Shows what is needed, live; the best of the whole bend when nothing is dragged."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._setup: Setup | None = None
        self._needs: Needs | None = None
        self._said: dict[QLabel, str] = {}
        self._search = RangeSearch(session, self)
        self._search.found.connect(self._show)
        self._build()

    def _build(self) -> None:
        self.setAccessibleName(self.tr("What each binding needs"))
        self.table = NeedsTable()
        self.words, self.range_words = QLabel(), QLabel()
        for label in (self.words, self.range_words):
            label.setWordWrap(True)
            label.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.put_start = QPushButton(self.tr("Put the start values on the mounts"))
        self.put_best = QPushButton(self.tr("Put the range's best on the mounts"))
        self.switch = RangeSwitch()
        self.switch.chosen.connect(self._choose)
        self.put_start.clicked.connect(self._put_start)
        self.put_best.clicked.connect(self._put_best)
        self._texts, self._asks = QWidget(), QWidget()
        in_column(self.words, self.range_words, 1, of=self._texts, spacing=4)
        asks = (self.put_start, 1), self.switch, (self.put_best, 1)
        in_row(*asks, of=self._asks, spacing=4).insertSpacing(1, 6)
        self._grid = grid_of(self, (18, 6), margins=(12, 8, 12, 8))
        self._grid.addWidget(self.table, 0, 0, Qt.AlignmentFlag.AlignTop)
        self._lay_out()

    def _lay_out(self) -> None:
        """Words beside the table where there is room, else under it."""
        wide = self.width() >= WIDE
        self._grid.addWidget(self._texts, *((0, 1, 2, 1) if wide else (1, 0)))
        self._grid.addWidget(self._asks, 1 if wide else 2, 0)
        self._grid.setRowStretch(2, int(wide))
        self._say(wide=wide)
        width = WORDS_WIDTH if wide else self.width() - 24
        for label in (self.words, self.range_words):
            label.setFixedWidth(width)
            _fit(label)

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        """Lay out anew."""
        super().resizeEvent(event)
        self._lay_out()

    # Showing

    def show_frame(self, frame: Frame, *, dragging: bool) -> None:
        """Show what the set-up needs now, and have the best of its range sought in a quiet time."""
        setup = frame.setup
        if setup != self._setup:
            self._setup, self._needs = setup, needs_of(setup)
        self._search.seek(setup, dragging=dragging)
        self._show(dragging=dragging)

    def _show(self, *, dragging: bool = False) -> None:
        setup, needs = self._setup, self._needs
        if setup is None or needs is None:
            return
        self.table.show_needs(
            setup.inputs,
            needs,
            self._search.best,
            stale=self._search.is_stale(setup),
            dragging=dragging,
        )
        self.switch.show_choice(turning=self._session.turning)
        self._say(wide=self.width() >= WIDE)
        update_apply_button(self.put_start, needs.start, setup)
        self._show_best(setup)
        if not dragging:
            self.setAccessibleDescription(" ".join((self.table.said(), *self._said.values())))

    def _say(self, *, wide: bool) -> None:
        """Everything but the whole bend in words: a line for each thing where there is room."""
        if self._setup is None or self._needs is None:
            return
        said = [
            verdict_words(self._needs),
            lift_words(self._needs),
            start_words(self._needs),
            straight_words(self._needs),
            margin_words(self._setup),
        ]
        self._write(self.words, ("\n" if wide else " ").join(filter(None, said)))

    def _show_best(self, setup: Setup | None) -> None:
        """The words and the button of the range's best, faint while it is sought again."""
        stale, best = setup is None or self._search.is_stale(setup), self._search.best
        self.range_words.setEnabled(not stale)
        if setup is None or best is None:
            self._write(self.range_words, self.tr("The best of the whole bend is being sought."))
            self.put_best.setEnabled(False)
            return
        self._write(self.range_words, range_words(best))
        update_apply_button(self.put_best, best.mounts, setup)
        if stale:
            self.put_best.setEnabled(False)

    def _write(self, label: QLabel, text: str) -> None:
        """Write words where they are others; how high they are takes long to find."""
        if self._said.get(label) != text:
            self._said[label] = text
            label.setText(text)
            _fit(label)

    # Asking

    def _choose(self, turning: bool) -> None:
        self._session.turning = turning
        if self._setup is not None:
            self._search.seek(self._setup, dragging=False)
            self._show()

    def _put_start(self) -> None:
        if self._needs is not None:
            self._put(self.tr("Start values"), self._needs.start)

    def _put_best(self) -> None:
        if self._search.best is not None:
            self._put(self.tr("Range's best"), self._search.best.mounts)

    def _put(self, what: str, mounts: Mounts) -> None:
        self._session.take(what, with_mounts(self._session.setup, mounts))


def _fit(label: QLabel) -> None:
    """Keep words from being cut off: a label's own least height is that of one line."""
    label.setMinimumHeight(0)
    label.setMinimumHeight(max(label.heightForWidth(label.width()), 0))
