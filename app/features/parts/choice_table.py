"""A table of answers, best first, of which one is looked at."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from PySide6.QtCore import QSignalBlocker, Signal
from PySide6.QtGui import QBrush
from PySide6.QtWidgets import QAbstractItemView

from app.qt.controls.word_table import ROW_HEIGHT, WordTable
from app.qt.painting.palette import colour
from app.qt.themes import current_theme, follow_theme
from app.words.language import tr

LINE: Final = 15
"""What each further line of a cell adds to its row (px)."""
AIR: Final = 8
"""Between what stands in neighbouring columns (px)."""


class ChoiceTable(WordTable):
    """Shows rows of words and says which row is chosen; the last column takes what is left.

    Args:
        name: what it lists, for assistive programs.
        headings: of the columns in English; those of a foot are in its colour.
        helps: what each column means, in English.
    """

    chosen = Signal(int)
    """This row is looked at."""

    def __init__(self, name: str, headings: Sequence[str], helps: Sequence[str]) -> None:
        titles = [tr(heading, "as a heading") for heading in headings]
        super().__init__(name, titles, stretched=len(titles) - 1, air=AIR)
        self.explain(map(tr, helps))
        self._headings = tuple(headings)
        self._rows: tuple[tuple[str, ...], ...] = ()
        follow_theme(self._fill_colours)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.verticalHeader().setMinimumSectionSize(ROW_HEIGHT)
        self.horizontalHeader().setMinimumSectionSize(20)
        self.itemSelectionChanged.connect(self._say_chosen)

    def show_rows(self, rows: Sequence[tuple[str, ...]], which: int) -> None:
        """Show these rows with one of them chosen; nothing is reported."""
        with QSignalBlocker(self):
            if tuple(rows) != self._rows:
                self._rows = tuple(rows)
                self._fill()
            if 0 <= which < len(self._rows) and which != self.row_chosen:
                self.selectRow(which)

    def _fill(self) -> None:
        lines = max((words.count("\n") for row in self._rows for words in row), default=0)
        self.verticalHeader().setDefaultSectionSize(ROW_HEIGHT + LINE * lines)
        self.fill(self._rows)
        self._fill_colours()

    def _fill_colours(self) -> None:
        for column, heading in enumerate(self._headings):
            foot = heading.lower()
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
