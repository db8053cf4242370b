"""A list whose entries have a name and, quieter, a line that says more."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QSize, Qt
from PySide6.QtGui import QPainter, QPalette
from PySide6.QtWidgets import QListWidgetItem, QStyle, QStyledItemDelegate, QStyleOptionViewItem

from app.qt.painting.palette import SMALL_PX, TEXT_PX, typeface

_MORE: Final = Qt.ItemDataRole.UserRole
_HEIGHT: Final = 39
_PAD: Final = 7


def show_line(item: QListWidgetItem, name: str, words: str) -> None:
    """Change the second line of an entry; it is read aloud after the name."""
    if item.data(_MORE) == words:
        return
    item.setData(_MORE, words)
    item.setData(Qt.ItemDataRole.AccessibleTextRole, f"{name}: {words}")


class TwoLines(QStyledItemDelegate):
    """Draws the entries of such a list."""

    def sizeHint(  # noqa: N802
        self,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> QSize:
        return QSize(super().sizeHint(option, index).width(), _HEIGHT)

    def paint(
        self,
        painter: QPainter,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> None:
        chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        rect, palette = option.rect, option.palette
        role = QPalette.ColorRole
        if chosen:
            painter.fillRect(rect, palette.color(role.Highlight))
        name = rect.adjusted(_PAD, 3, -_PAD, -rect.height() // 2)
        more = rect.adjusted(_PAD, rect.height() // 2, -_PAD, -3)
        for room, data, size, quiet in (
            (name, Qt.ItemDataRole.DisplayRole, TEXT_PX, role.Text),
            (more, _MORE, SMALL_PX, role.PlaceholderText),
        ):
            painter.setFont(typeface(size))
            painter.setPen(palette.color(role.HighlightedText if chosen else quiet))
            painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, index.data(data) or "")
