"""The parts of a list as a table that can be typed into."""

from __future__ import annotations

from functools import partial
from typing import Any, Final

from PySide6.QtCore import (
    QAbstractItemModel,
    QEvent,
    QModelIndex,
    QObject,
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

from app.features.parts.cell_field import CellField
from app.features.parts.editing import COLUMNS, KIND_WORDS, can_be_typed, cell, help_of, list_words
from app.files.drafts import Draft
from app.qt.controls.word_table import WordTable
from app.qt.drafts import Editor, desk_of
from app.qt.literal import cell_text
from app.qt.sizes import target_px
from app.rider.parts import NO_PARTS, Parts
from app.words.bounds import PASSAGE
from app.words.language import tr

ROW_HEIGHT: Final = 24
AIR: Final = 8
"""Between what stands in neighbouring columns (px)."""
_NAMES: Final = tuple(COLUMNS)
_KIND: Final = _NAMES.index("kind")

_CLOSING: Final = frozenset(
    {
        *(Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Escape),
        *(Qt.Key.Key_Tab, Qt.Key.Key_Backtab),
    }
)
"""Keys with which a cell is left."""
_Index = QModelIndex | QPersistentModelIndex


class PartsTable(Editor, WordTable):
    """Shows parts, and tells what was typed into a cell.

    What is refused stays open in its cell, so that it can be mended; Escape brings back
    what is in force.
    """

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
        self._cell: CellField | None = None
        self.setObjectName("cells")
        self.itemChanged.connect(self._tell)
        trigger = QAbstractItemView.EditTrigger
        self.setEditTriggers(trigger.DoubleClicked | trigger.EditKeyPressed | trigger.AnyKeyPressed)
        self.setItemDelegate(CellDelegate(self))
        self.setItemDelegateForColumn(_KIND, KindDelegate(self))
        self.verticalHeader().setDefaultSectionSize(target_px(ROW_HEIGHT))
        self.horizontalHeader().setFixedHeight(target_px(ROW_HEIGHT))

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

    # What is being typed

    def open_cell(self, cell: CellField) -> None:
        """Know the field in which a cell is typed."""
        self._cell = cell
        cell.changed.connect(partial(self._note, cell))
        cell.gone.connect(partial(self._close, cell))

    def _note(self, cell: CellField) -> None:
        """Know what is typed in a cell and not entered."""
        row, name = cell.row, cell.name
        title = self._parts.parts[row].title if row < len(self._parts.parts) else ""
        label = f"{title}, {tr(COLUMNS[name])}"
        self.keep(cell.draft, cell.why, label=label, detail=f"{row} {name}")

    def _close(self, cell: CellField) -> None:
        """Know that the field of a cell is there no more; what waits in it goes aloud."""
        if self._cell is cell:
            desk = desk_of(self)
            if cell.draft is not None and desk is not None:
                desk.drop(self)
            self._cell = None
            self.keep(None)

    def finish(self) -> None:
        """Tell what is typed in the cell that is open."""
        cell = self._cell
        if cell is not None and cell.draft is not None:
            cell.take_by(self.typed)

    def refuse(self, why: str) -> None:
        """Keep what is being taken in its cell, for it cannot be taken."""
        if self._cell is not None:
            self._cell.refuse(why)

    def edit(self, index: _Index, *how: Any) -> bool:  # type: ignore[override]
        """Open the field of a cell, but not while another one is still to be mended.

        Args:
            index: the cell.
            how: what Qt says of the reason: the trigger, and the event behind it.
        """
        if not self.why:
            return bool(super().edit(index, *how))
        if how and how[0] & self.editTriggers():
            self.take_keyboard()
        return False

    def closeEditor(  # noqa: N802
        self, editor: QWidget, hint: QStyledItemDelegate.EndEditHint
    ) -> None:
        """Close the field of a cell, unless what stands in it is still to be mended."""
        if not isinstance(editor, CellField) or editor.draft is None:
            super().closeEditor(editor, hint)

    def take_keyboard(self) -> None:
        """Have the keyboard in the cell that is open."""
        (self._cell or self).setFocus(Qt.FocusReason.OtherFocusReason)

    def takes(self, draft: Draft) -> bool:
        """Whether the cell is there in which a text stood."""
        row, _, name = draft.detail.partition(" ")
        return name in _NAMES and row.isdecimal() and int(row) < self.rowCount()

    def resume(self, draft: Draft) -> None:
        """Let a text stand in its cell that was typed and not entered before."""
        row, _, name = draft.detail.partition(" ")
        self.setCurrentCell(int(row), _NAMES.index(name))
        self.edit(self.model().index(int(row), _NAMES.index(name)))
        if self._cell is not None:
            self._cell.resume(draft.text)

    def forget(self) -> None:
        """Let what is typed go, and show what is in force."""
        if self._cell is not None:
            self._cell.forget()

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        """Delete drops the part in hand."""
        if event.key() == Qt.Key.Key_Delete and self.currentRow() >= 0:
            self.delete_requested.emit()
            return
        super().keyPressEvent(event)

    def empty_words(self) -> str:
        """What is to be said of a list without parts."""
        return list_words(self._parts)


class CellDelegate(QStyledItemDelegate):
    """Lets cells be typed over; what the table's owner refuses stays open."""

    def __init__(self, table: PartsTable) -> None:
        super().__init__(table)
        self._table = table

    def createEditor(  # noqa: N802
        self,
        parent: QWidget,
        _option: QStyleOptionViewItem,
        index: _Index,
    ) -> QWidget:
        cell = CellField(parent, index.row(), _NAMES[index.column()], index.data())
        self._table.open_cell(cell)
        return cell

    def setEditorData(self, editor: QWidget, index: _Index) -> None:  # noqa: N802
        if isinstance(editor, CellField):
            editor.show_text(index.data())

    def setModelData(  # noqa: N802
        self,
        editor: QWidget,
        model: QAbstractItemModel,
        index: _Index,
    ) -> None:
        """Nothing: what is typed is told by the table, and shown once it is taken."""

    def eventFilter(self, editor: QObject, event: QEvent) -> bool:  # noqa: N802
        """Before the cell is closed by a key or by leaving it, take what is typed."""
        leaving = event.type() == QEvent.Type.FocusOut
        key = event.key() if isinstance(event, QKeyEvent) else None
        pressed = event.type() == QEvent.Type.KeyPress and key in _CLOSING
        if isinstance(editor, CellField) and (leaving or pressed):
            if key == Qt.Key.Key_Escape:
                editor.forget()
            else:
                self._table.finish()
            if editor.draft is not None:
                return pressed
        return super().eventFilter(editor, event)


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
