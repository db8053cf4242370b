"""The log of trials as a table, one row each; the row chosen is the trial in hand.

A row's words are made when they are painted, so that a log of twenty thousand trials opens
and scrolls as a short one does.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import Any, Final

from PySide6.QtCore import (
    QAbstractTableModel,
    QModelIndex,
    QPersistentModelIndex,
    QSignalBlocker,
    Qt,
    Signal,
)
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView

from app.features.trials.model import COLUMNS, row_texts
from app.qt.controls.word_table import ROW_HEIGHT, paint_empty_words, plain_header
from app.qt.literal import cell_text, tip
from app.qt.painting.palette import colour
from app.qt.sizes import target_px
from app.qt.themes import current_theme, follow_theme
from app.rider.trials import Entry
from app.words.language import msgid, tr
from app.words.lengths import IN_MM, Lengths

Index = QModelIndex | QPersistentModelIndex
_LEG_OF: Final = {
    "Front foot": "front", "Front felt": "front", "Rear foot": "rear", "Rear felt": "rear"
}  # fmt: skip
"""Whose colour a column has, by its heading."""
_LOOKED_AT: Final = 200
"""Rows by which the width of a column goes."""
_EMPTY: Final = msgid(
    "No trials yet. Put on what to begin with, stand on it or ride, say below what each leg felt, "
    "and add the trial: each one narrows down what suits."
)


class TrialRows(QAbstractTableModel):
    """Trials as rows of words."""

    def __init__(self) -> None:
        super().__init__()
        self.trials: tuple[Entry, ...] = ()
        self._lead_foot = ""
        self._lengths = IN_MM
        self._texts = lru_cache(maxsize=1000)(self._texts_of)

    def show(self, trials: tuple[Entry, ...], lead_foot: str, lengths: Lengths) -> bool:
        """Hold other trials, or the same in other words; whether anything is different."""
        if (trials, lead_foot, lengths) == (self.trials, self._lead_foot, self._lengths):
            return False
        self.beginResetModel()
        self.trials, self._lead_foot, self._lengths = trials, lead_foot, lengths
        self._texts.cache_clear()
        self.endResetModel()
        return True

    def _texts_of(self, row: int) -> tuple[str, ...]:
        return row_texts(self.trials[row], self._lead_foot, self._lengths)

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008, N802
        return 0 if parent.isValid() else len(self.trials)

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008, N802
        return 0 if parent.isValid() else len(COLUMNS)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """The words of a cell, in a tool tip too, in the colour of its leg."""
        if role == Qt.ItemDataRole.DisplayRole:
            return cell_text(self._texts(index.row())[index.column()])
        if role == Qt.ItemDataRole.ToolTipRole:
            return tip(self._texts(index.row())[index.column()])
        return self._ink(index.column()) if role == Qt.ItemDataRole.ForegroundRole else None

    def headerData(  # noqa: N802
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = Qt.ItemDataRole.DisplayRole,
    ) -> Any:
        """The heading of a column, in the colour of its leg."""
        if orientation == Qt.Orientation.Vertical:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return tr(COLUMNS[section])
        return self._ink(section) if role == Qt.ItemDataRole.ForegroundRole else None

    @staticmethod
    def _ink(column: int) -> Any:
        leg = _LEG_OF.get(COLUMNS[column])
        return colour(current_theme().leg_text(leg)) if leg else None


class TrialTable(QTableView):
    """Shows trials, oldest first, and says which one is chosen."""

    chosen = Signal(int)
    """The trial of this row is wanted in hand; -1 for none."""
    delete_requested = Signal()
    """The trial in hand shall go."""

    def __init__(self) -> None:
        super().__init__()
        self.rows = TrialRows()
        self.setModel(self.rows)
        self.setAccessibleName(tr("Trials"))
        header = plain_header(self, ROW_HEIGHT)
        header.setResizeContentsPrecision(_LOOKED_AT)
        header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        header.setSectionResizeMode(len(COLUMNS) - 1, QHeaderView.ResizeMode.Stretch)
        header.setHighlightSections(False)
        header.setFixedHeight(target_px(ROW_HEIGHT))
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        follow_theme(self._repaint)
        self.selectionModel().selectionChanged.connect(self._say_chosen)

    def show_trials(
        self, trials: Sequence[Entry], lead_foot: str, which: int, lengths: Lengths = IN_MM
    ) -> None:
        """Show these trials with one of them in hand, or none; nothing is reported.

        Of a trial in which another foot led than leads now, that is told.
        """
        with QSignalBlocker(self):
            self.rows.show(tuple(trials), lead_foot, lengths)
            if which != self.row_chosen:
                self._choose(which)

    @property
    def row_chosen(self) -> int:
        """The row that is chosen; -1 for none."""
        rows = self.selectionModel().selectedRows()
        return rows[0].row() if rows else -1

    def _repaint(self) -> None:
        self.viewport().update()
        self.horizontalHeader().viewport().update()

    def _choose(self, which: int) -> None:
        if which < 0:
            self.clearSelection()
            self.setCurrentIndex(QModelIndex())
        else:
            self.selectRow(which)
            self.scrollTo(self.rows.index(which, 0))

    def _say_chosen(self) -> None:
        self.chosen.emit(self.row_chosen)

    def empty_words(self) -> str:
        """How the log begins."""
        return tr(_EMPTY)

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802
        super().paintEvent(event)
        if not self.rows.trials:
            with QPainter(self.viewport()) as painter:
                painter.setPen(self.palette().placeholderText().color())
                paint_empty_words(painter, self.viewport().rect(), self.empty_words())

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        """Delete drops the trial in hand, Escape lays it back."""
        if event.key() == Qt.Key.Key_Delete and self.row_chosen >= 0:
            self.delete_requested.emit()
        elif event.key() == Qt.Key.Key_Escape and self.row_chosen >= 0:
            self.clearSelection()
        else:
            super().keyPressEvent(event)
