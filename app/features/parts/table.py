"""The parts of a list as a table that can be typed into."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import (
    QAbstractItemModel,
    QModelIndex,
    QPersistentModelIndex,
    QSignalBlocker,
    Qt,
    QTimer,
    Signal,
)
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QComboBox,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableWidgetItem,
    QWidget,
)

from app.features.parts.editing import COLUMNS, KIND_WORDS, can_be_typed, cell, help_of, list_words
from app.qt.controls.word_table import WordTable
from app.qt.literal import cell_text
from app.rider.parts import NO_PARTS, Parts
from app.words.bounds import PASSAGE
from app.words.language import tr

ROW_HEIGHT: Final = 24
AIR: Final = 8
"""Between what stands in neighbouring columns (px)."""
_NAMES: Final = tuple(COLUMNS)
_KIND: Final = _NAMES.index("kind")

_Index = QModelIndex | QPersistentModelIndex


class PartsTable(WordTable):
    """Shows parts, tells what was typed into a cell, and keeps nothing of it itself."""

    pad = 8
    typed = Signal(int, str, str)
    """In this row, in the column of this name, this was typed."""
    delete_requested = Signal()
    """The part in hand shall go."""

    def __init__(self) -> None:
        titles = [tr(heading) for heading in COLUMNS.values()]
        super().__init__(tr("Parts"), titles, stretched=0, air=AIR)
        self.explain(help_of(name) for name in _NAMES)
        self._parts = NO_PARTS
        self.itemChanged.connect(self._tell)
        trigger = QAbstractItemView.EditTrigger
        self.setEditTriggers(trigger.DoubleClicked | trigger.EditKeyPressed | trigger.AnyKeyPressed)
        self.setItemDelegateForColumn(_KIND, KindDelegate(self))
        self.verticalHeader().setDefaultSectionSize(ROW_HEIGHT)
        self.horizontalHeader().setFixedHeight(ROW_HEIGHT)

    def show_parts(self, parts: Parts) -> None:
        """Show the parts of a list; nothing is reported."""
        self._parts = parts
        with QSignalBlocker(self):
            self.setRowCount(len(parts.parts))
            for row, entry in enumerate(parts.parts):
                for column, name in enumerate(_NAMES):
                    self._write(row, column, cell(entry, name), typed=can_be_typed(entry, name))
        self.viewport().update()

    def _write(self, row: int, column: int, words: str, *, typed: bool) -> None:
        item = self.item(row, column)
        if item is None:
            item = QTableWidgetItem()
            self.setItem(row, column, item)
        item.setText(cell_text(words))
        flags = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
        # What is shown of a very long text only would be typed over the whole.
        whole = len(words) <= PASSAGE
        item.setFlags(flags | Qt.ItemFlag.ItemIsEditable if typed and whole else flags)

    def _tell(self, item: QTableWidgetItem) -> None:
        self.typed.emit(item.row(), _NAMES[item.column()], item.text())

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        """Delete drops the part in hand."""
        if event.key() == Qt.Key.Key_Delete and self.currentRow() >= 0:
            self.delete_requested.emit()
            return
        super().keyPressEvent(event)

    def empty_words(self) -> str:
        """What is to be said of a list without parts."""
        return list_words(self._parts)


class KindDelegate(QStyledItemDelegate):
    """Offers the kinds of parts in a list to choose from."""

    def createEditor(  # noqa: N802
        self,
        parent: QWidget,
        _option: QStyleOptionViewItem,
        _index: _Index,
    ) -> QWidget:
        box = QComboBox(parent)
        box.addItems([tr(words) for words in KIND_WORDS.values()])
        box.setAccessibleName(self.tr("Kind"))
        box.activated.connect(lambda: self._take(box))
        # Open at once: stepping through a closed box would take the first kind passed.
        QTimer.singleShot(0, box, box.showPopup)
        return box

    def _take(self, box: QComboBox) -> None:
        self.commitData.emit(box)
        self.closeEditor.emit(box, QStyledItemDelegate.EndEditHint.NoHint)

    def setEditorData(self, editor: QWidget, index: _Index) -> None:  # noqa: N802
        if isinstance(editor, QComboBox):
            editor.setCurrentText(index.data())

    def setModelData(  # noqa: N802
        self,
        editor: QWidget,
        model: QAbstractItemModel,
        index: _Index,
    ) -> None:
        if isinstance(editor, QComboBox):
            model.setData(index, editor.currentText())
