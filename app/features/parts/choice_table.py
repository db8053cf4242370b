"""A table of answers, best first, of which one is looked at."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from PySide6.QtCore import QSignalBlocker, Signal
from PySide6.QtGui import QBrush
from PySide6.QtWidgets import QAbstractItemView, QHeaderView

from app.features.parts.ranking import NONE, RANKED_BY, Column
from app.qt.controls.word_table import ROW_HEIGHT, WordTable
from app.qt.painting.palette import colour
from app.qt.sizes import px, target_px
from app.qt.themes import current_theme, follow_theme
from app.words.language import tr, within

LINE: Final = 15
"""What each further line of a cell adds to its row (px)."""
AIR: Final = 8
"""Between what stands in neighbouring columns (px)."""


class ChoiceTable(WordTable):
    """Shows rows of words and says which row is chosen; the last column takes what is left.

    Args:
        name: what it lists, for assistive programs.
        columns: headings and what they mean; those of a foot are in its colour.
    """

    chosen = Signal(int)
    """This row is looked at."""

    def __init__(self, name: str, columns: Sequence[Column]) -> None:
        super().__init__(name, [""], stretched=0, air=AIR)
        self._columns: tuple[Column, ...] = ()
        self._rows: tuple[tuple[str, ...], ...] = ()
        header = self.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        header.setStretchLastSection(True)
        self.show_columns(columns)
        follow_theme(self._fill_colours)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.verticalHeader().setMinimumSectionSize(target_px(ROW_HEIGHT))
        self.horizontalHeader().setMinimumSectionSize(px(20))
        self.itemSelectionChanged.connect(self._say_chosen)

    def show_columns(self, columns: Sequence[Column]) -> None:
        """Have other columns, empty at first."""
        if self._columns == tuple(columns):
            return
        self._columns, self._rows = tuple(columns), ()
        with QSignalBlocker(self):
            self.setRowCount(0)
            self.setColumnCount(len(columns))
        self.setHorizontalHeaderLabels([_heading(each) for each in columns])
        self.explain(tr(each.help) for each in columns)

    def show_rows(self, rows: Sequence[tuple[str, ...]], which: int) -> None:
        """Show these rows with one of them chosen; nothing is reported."""
        with QSignalBlocker(self):
            if tuple(rows) != self._rows:
                self._rows = tuple(rows)
                self._fill()
            if 0 <= which < len(self._rows) and which != self.row_chosen:
                self.selectRow(which)

    @property
    def has_room(self) -> bool:
        """Whether all columns stand beside each other without scrolling."""
        header, bar = self.horizontalHeader(), self.verticalScrollBar().sizeHint().width()
        wanted = sum(
            max(self.sizeHintForColumn(each), header.sectionSizeHint(each))
            for each in range(len(self._columns))
            if not self.isColumnHidden(each)
        )
        return wanted <= self.width() - 2 * self.frameWidth() - bar

    @property
    def same_words(self) -> str:
        """What is the same in all rows, and therefore not shown in each; "" for nothing."""
        hidden = [each for each in range(len(self._columns)) if self.isColumnHidden(each)]
        if not hidden:
            return ""
        told = [
            f"{within(tr(self._columns[each].heading, 'as a heading'))} {self._rows[0][each]}"
            for each in hidden
            if self._rows[0][each] != NONE
        ]
        return tr("The same for all of them: {columns}.", columns=", ".join(told))

    def _fill(self) -> None:
        lines = max((words.count("\n") for row in self._rows for words in row), default=0)
        self.verticalHeader().setDefaultSectionSize(target_px(ROW_HEIGHT) + px(LINE) * lines)
        self.fill(self._rows)
        for column, cells in enumerate(zip(*self._rows, strict=True)):
            ranks = self._columns[column] in RANKED_BY
            self.setColumnHidden(column, ranks and len(set(cells)) == 1)
        shown = (each for i, each in enumerate(self._columns) if not self.isColumnHidden(i))
        broken = any("\n" in _heading(each) for each in shown)
        self.horizontalHeader().setFixedHeight(target_px(ROW_HEIGHT) + (px(LINE) if broken else 0))
        self._fill_colours()

    def _fill_colours(self) -> None:
        for column, each in enumerate(self._columns):
            foot = each.heading.lower()
            if foot not in {"front", "rear"}:
                continue
            ink = QBrush(colour(current_theme().leg_text(foot)))
            cells = [self.item(row, column) for row in range(self.rowCount())]
            for item in (self.horizontalHeaderItem(column), *cells):
                if item is not None:
                    item.setForeground(ink)

    def _say_chosen(self) -> None:
        if self.row_chosen >= 0:
            self.chosen.emit(self.row_chosen)


def _heading(column: Column) -> str:
    """A heading; what ranks stands in two lines where it has two words, since figures are short."""
    words = tr(column.heading, "as a heading") if column.heading else ""
    return words.replace(" ", "\n") if column in RANKED_BY else words
