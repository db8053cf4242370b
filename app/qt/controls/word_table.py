"""Tables of words under headings, without a grid."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QTableView,
    QTableWidget,
    QTableWidgetItem,
)

from app.qt.literal import cell_text, show_tip
from app.qt.sizes import px, target_px

ROW_HEIGHT = 24
PAD = 6
"""Around what is said of an empty table (px)."""


def plain_header(table: QTableView, row_height: int) -> QHeaderView:
    """The header of a table that is made plain: no grid, nothing typed, one row chosen."""
    table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
    table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
    table.setTabKeyNavigation(False)
    table.setShowGrid(False)
    table.setWordWrap(False)
    table.verticalHeader().hide()
    table.verticalHeader().setDefaultSectionSize(target_px(row_height))
    header = table.horizontalHeader()
    header.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
    return header


def paint_empty_words(painter: QPainter, room: QRect, words: str, pad: int = PAD) -> None:
    """Say in the room of a table without rows why it is empty, or how it is filled."""
    top_left = Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft
    pad = px(pad)
    inside = room.adjusted(pad, pad, -pad, -pad)
    painter.drawText(inside, top_left | Qt.TextFlag.TextWordWrap, words)


class WordTable(QTableWidget):
    """Shows words that cannot be typed over; of its rows one can be chosen.

    Args:
        name: what it lists, for assistive programs.
        headings: of the columns.
        stretched: the column that takes what room is left over.
        air: between what stands in neighbouring columns (px).
    """

    pad = PAD

    def __init__(self, name: str, headings: Sequence[str], *, stretched: int, air: int = 0) -> None:
        super().__init__(0, len(headings))
        self._air = air
        self.setAccessibleName(name)
        self.setHorizontalHeaderLabels(list(headings))
        header = plain_header(self, ROW_HEIGHT)
        header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        header.setSectionResizeMode(stretched, QHeaderView.ResizeMode.Stretch)
        header.setHighlightSections(False)
        header.setFixedHeight(target_px(ROW_HEIGHT))

    def explain(self, helps: Iterable[str]) -> None:
        """Say at the headings what the columns mean."""
        for column, text in enumerate(helps):
            heading = self.horizontalHeaderItem(column)
            if heading is not None:
                show_tip(heading, text)

    def fill(self, rows: Sequence[Sequence[str]], *, tips: bool = False) -> None:
        """Show other rows; with ``tips`` each cell says its words in a tool tip too."""
        self.setRowCount(len(rows))
        for row, words in enumerate(rows):
            for column, text in enumerate(words):
                item = QTableWidgetItem(cell_text(text))
                show_tip(item, text if tips else "")
                self.setItem(row, column, item)

    @property
    def row_chosen(self) -> int:
        """The row that is chosen; -1 for none."""
        rows = self.selectionModel().selectedRows()
        return rows[0].row() if rows else -1

    def sizeHintForColumn(self, column: int) -> int:  # noqa: N802
        """Leave some air between columns."""
        return super().sizeHintForColumn(column) + px(self._air)

    def empty_words(self) -> str:
        """What is said in a table without rows."""
        return ""

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802
        super().paintEvent(event)
        if self.rowCount():
            return
        with QPainter(self.viewport()) as painter:
            painter.setPen(self.palette().placeholderText().color())
            paint_empty_words(painter, self.viewport().rect(), self.empty_words(), self.pad)
