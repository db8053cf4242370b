"""The log of trials as a table, one row each; the row chosen is the trial in hand."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from PySide6.QtCore import QModelIndex, QSignalBlocker, Qt, Signal
from PySide6.QtGui import QBrush, QKeyEvent
from PySide6.QtWidgets import QAbstractItemView

from app.features.trials.model import COLUMNS, row_texts
from app.qt.controls.word_table import WordTable
from app.qt.painting.palette import colour
from app.qt.themes import current_theme, follow_theme
from app.rider.trials import Entry
from app.words.language import msgid, tr
from app.words.lengths import IN_MM, Lengths

_LEG_OF: Final = {
    "Front mount": "front", "Front felt": "front", "Rear mount": "rear", "Rear felt": "rear"
}  # fmt: skip
"""Whose colour a column has, by its heading."""
_EMPTY: Final = msgid(
    "No trials yet. Ride with the mounts in hand, or stand on them, say below what each leg "
    "felt, and add the trial: each one narrows down which cant suits."
)


class TrialTable(WordTable):
    """Shows trials, oldest first, and says which one is chosen."""

    chosen = Signal(int)
    """The trial of this row is wanted in hand; -1 for none."""
    delete_requested = Signal()
    """The trial in hand shall go."""

    def __init__(self) -> None:
        super().__init__(tr("Trials"), [tr(name) for name in COLUMNS], stretched=len(COLUMNS) - 1)
        self._trials: tuple[Entry, ...] = ()
        self._lead_foot = ""
        self._lengths = IN_MM
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        follow_theme(self._fill_colours)
        self.itemSelectionChanged.connect(self._say_chosen)

    def show_lengths(self, lengths: Lengths) -> None:
        """Tell lengths in another unit."""
        if lengths != self._lengths:
            self._lengths = lengths
            with QSignalBlocker(self):
                self._fill()

    def show_trials(self, trials: Sequence[Entry], lead_foot: str, which: int) -> None:
        """Show these trials with one of them in hand, or none; nothing is reported.

        Of a trial in which another foot led than leads now, that is told.
        """
        with QSignalBlocker(self):
            if (tuple(trials), lead_foot) != (self._trials, self._lead_foot):
                self._trials, self._lead_foot = tuple(trials), lead_foot
                self._fill()
            if which != self.row_chosen:
                self._choose(which)

    def _fill(self) -> None:
        rows = [row_texts(trial, self._lead_foot, self._lengths) for trial in self._trials]
        self.fill(rows, tips=True)
        self._fill_colours()

    def _fill_colours(self) -> None:
        for column, name in enumerate(COLUMNS):
            leg = _LEG_OF.get(name)
            if leg is None:
                continue
            ink = QBrush(colour(current_theme().leg_text(leg)))
            cells_of_leg = [self.item(row, column) for row in range(self.rowCount())]
            for item in (self.horizontalHeaderItem(column), *cells_of_leg):
                if item is not None:
                    item.setForeground(ink)

    def _choose(self, which: int) -> None:
        if which < 0:
            self.clearSelection()
            self.setCurrentIndex(QModelIndex())
        else:
            self.selectRow(which)
            self.scrollTo(self.model().index(which, 0))

    def _say_chosen(self) -> None:
        self.chosen.emit(self.row_chosen)

    def empty_words(self) -> str:
        """How the log begins."""
        return tr(_EMPTY)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        """Delete drops the trial in hand, Escape lays it back."""
        if event.key() == Qt.Key.Key_Delete and self.row_chosen >= 0:
            self.delete_requested.emit()
        elif event.key() == Qt.Key.Key_Escape and self.row_chosen >= 0:
            self.clearSelection()
        else:
            super().keyPressEvent(event)
