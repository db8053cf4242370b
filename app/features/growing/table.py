"""Then, now and later in columns: what is forecast stands apart from what was measured."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtGui import QBrush
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableWidget, QTableWidgetItem

from app.drawing.theme import mixed
from app.features.growing.model import COLUMNS, Row
from app.qt.painting.palette import colour
from app.qt.themes import current_theme, follow_theme
from app.words.language import tr
from app.words.sentences import plain

ROW_HEIGHT: Final = 22
FORECAST: Final = len(COLUMNS) - 1


class GrowthTable(QTableWidget):
    """Shows rows; nothing in it can be chosen or changed."""

    def __init__(self) -> None:
        super().__init__(0, len(COLUMNS))
        self.setAccessibleName(self.tr("Then, now and later"))
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.verticalHeader().hide()
        self.verticalHeader().setDefaultSectionSize(ROW_HEIGHT)
        header = self.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        header.setSectionResizeMode(FORECAST, QHeaderView.ResizeMode.Stretch)
        header.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        header.setHighlightSections(False)
        header.setFixedHeight(ROW_HEIGHT)
        follow_theme(self._colour)

    def show_rows(self, rows: Sequence[Row], age: float | None) -> None:
        """Show these rows, with a forecast for this age (years) or none."""
        *headings, later = (tr(name) for name in COLUMNS)
        if age is not None:
            later = self.tr("Forecast at {}").format(plain(age))
        self.setHorizontalHeaderLabels([*headings, later])
        self.setRowCount(len(rows))
        for i, row in enumerate(rows):
            for column, words in enumerate(row):
                item = QTableWidgetItem(words)
                item.setToolTip(words)
                self.setItem(i, column, item)
        self._colour()

    def _colour(self) -> None:
        """A tint and quiet words for the forecast; quiet labels."""
        theme = current_theme()
        tint = QBrush(colour(mixed(theme.panel, theme.field, 0.8)))
        for i in range(self.rowCount()):
            for column in (0, FORECAST):
                item = self.item(i, column)
                if item is not None:
                    item.setForeground(QBrush(colour(theme.quiet)))
            later = self.item(i, FORECAST)
            if later is not None:
                later.setBackground(tint)
