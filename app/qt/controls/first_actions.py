"""Buttons in an empty table with which its first row can be made."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, QRect, Qt
from PySide6.QtWidgets import QPushButton, QTableView, QWidget

from app.qt.controls.layout import in_row
from app.qt.controls.word_table import PAD

_ENDLESS = 10_000


class FirstActions(QWidget):
    """Stands under what is said in a table without rows; the table has room for both then.

    Args:
        table: the table.
        words: gives what is said there.
        buttons: the first actions, in their order.
        pad: around the words (px).
    """

    def __init__(
        self, table: QTableView, words: Callable[[], str], *buttons: QPushButton, pad: int = PAD
    ) -> None:
        super().__init__(table.viewport())
        self._table = table
        self._words = words
        self._pad = pad
        self._empty = False
        in_row(*buttons, 1, of=self, spacing=6)
        table.viewport().installEventFilter(self)
        self.hide()

    def show_when(self, *, empty: bool) -> None:
        """Offer the actions while the table is empty."""
        if empty != self._empty:
            self._empty = empty
            self.setVisible(empty)
            self._place()

    def _place(self) -> None:
        if not self._empty:
            self._table.setMinimumHeight(0)
            return
        pad, width = self._pad, self._table.viewport().width()
        room = QRect(0, 0, width - 2 * pad, _ENDLESS)
        wrapped = int(Qt.TextFlag.TextWordWrap)
        words = self._table.fontMetrics().boundingRect(room, wrapped, self._words())
        top, height = 2 * pad + words.height(), self.sizeHint().height()
        self.setGeometry(pad, top, width - 2 * pad, height)
        self._table.setMinimumWidth(
            self.minimumSizeHint().width() + 2 * (pad + self._table.frameWidth())
        )
        frame = 2 * self._table.frameWidth() + self._table.horizontalHeader().height()
        self._table.setMinimumHeight(top + height + pad + frame)

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:  # noqa: N802
        """Stay under the words, however many lines these take."""
        if event.type() == QEvent.Type.Resize:
            self._place()
        return False
