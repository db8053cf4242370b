"""A folder of set-ups as a list: searched, sorted, and read while it is being looked at."""

from __future__ import annotations

from pathlib import Path
from typing import Any, Final

from PySide6.QtCore import QModelIndex, QSize, QSortFilterProxyModel, Qt, Signal
from PySide6.QtGui import (
    QBrush,
    QKeySequence,
    QPainter,
    QPaintEvent,
    QShortcut,
    QStandardItem,
    QStandardItemModel,
)
from PySide6.QtWidgets import (
    QAbstractItemView,
    QDialog,
    QHBoxLayout,
    QHeaderView,
    QLineEdit,
    QPushButton,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from app.features.riders.model import UNREADABLE, Rider, listed, matches, rider_in
from app.files.file_kinds import set_up_files
from app.qt.background import Background
from app.qt.controls.first_actions import FirstActions
from app.qt.controls.layout import in_row
from app.qt.controls.word_table import paint_empty_words, plain_header
from app.qt.literal import Label, cell_text, show_tip
from app.qt.painting.easel import brush
from app.qt.questions import asked_for_folder
from app.qt.sizes import px
from app.qt.themes import current_theme
from app.stance.findings import DRIFTING, NO_POSTURE, OUT_OF_PLANE, Limits
from app.words.language import msgid
from app.words.sentences import day_and_time

HEADINGS: Final = (
    msgid("Rider"),
    msgid("Worse knee"),
    msgid("Front"),
    msgid("Rear"),
    msgid("File"),
    msgid("Last changed"),
)
AT_ONCE: Final = 8
"""Files read before the list shows them: few enough to look alive."""
ROW_HEIGHT: Final = 26
_SIGNS: Final = {OUT_OF_PLANE: "▲ ", NO_POSTURE: "✕ ", DRIFTING: "△ ", UNREADABLE: "– "}
_RIDER: Final = Qt.ItemDataRole.UserRole
"""Under which the first cell of a row keeps the rider."""
_Index = QModelIndex


class RidersDialog(QDialog):
    """Lists the set-ups of a folder and lets one be opened.

    Args:
        folder: to begin with.
        limits: for the states of the knees.
    """

    chosen = Signal(Path)
    """The user wants this file opened."""
    moved = Signal(Path)
    """The user looks at another folder."""
    save_wanted = Signal(Path)
    """The user wants the set-up in hand saved to this folder."""

    def __init__(self, folder: Path, limits: Limits, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._limits = limits
        self._unread: list[Path] = []
        self._typed = ""
        self._reader = Background(self)
        self._reader.done.connect(self._take)
        self.riders = _Riders()
        self.shown = _Shown(self.riders)
        self._build()
        self.show_folder(folder)

    def _build(self) -> None:
        self.setWindowTitle(self.tr("Folder of riders"))
        self.resize(QSize(px(1000), px(520)).boundedTo(self.screen().availableSize()))
        self.where = Label()
        self.where.setWordWrap(True)  # a reason why not can be long
        other = QPushButton(self.tr("Other folder…"))
        other.clicked.connect(self._ask_for_folder)
        self.search = QLineEdit()
        self.search.setPlaceholderText(self.tr("Search: name, file, state or notes"))
        self.search.setAccessibleName(self.tr("Search"))
        self.search.setClearButtonEnabled(True)
        self.search.textChanged.connect(self._search)
        self.search.returnPressed.connect(self._choose_only)
        QShortcut(
            QKeySequence(Qt.Key.Key_Down),
            self.search,
            self._go_to_list,
            context=Qt.ShortcutContext.WidgetShortcut,
        )
        self.table = self._table()
        self.first = self._first_actions()
        column = QVBoxLayout(self)
        column.addLayout(in_row((self.search, 1), other))
        column.addWidget(self.table)
        column.addLayout(self._foot())
        other.setAutoDefault(False)  # Enter opens the rider that is marked

    def _foot(self) -> QHBoxLayout:
        """What is said of the list, and what can be done with it."""
        self.opening = QPushButton(self.tr("Open"))
        self.opening.clicked.connect(lambda: self._choose(self.table.currentIndex()))
        close = QPushButton(self.tr("Close"))
        close.clicked.connect(self.reject)
        for button in (self.opening, close):
            button.setAutoDefault(False)
        self.table.selectionModel().selectionChanged.connect(self._offer)
        self._offer()
        return in_row((self.where, 1), self.opening, close)

    def _offer(self) -> None:
        self.opening.setEnabled(self.table.selectionModel().hasSelection())

    def _first_actions(self) -> FirstActions:
        """How a folder begins."""
        self.save_here = QPushButton(self.tr("Save the set-up in hand here…"))
        self.choose_folder = QPushButton(self.tr("Choose a folder…"))
        self.save_here.clicked.connect(self._want_saved)
        self.choose_folder.clicked.connect(self._ask_for_folder)
        for button in (self.save_here, self.choose_folder):
            button.setAutoDefault(False)
        return FirstActions(self.table, self._empty_words, self.save_here, self.choose_folder)

    def _want_saved(self) -> None:
        self.accept()
        self.save_wanted.emit(self._folder)

    def _table(self) -> _Table:
        table = _Table()
        table.setAccessibleName(self.tr("Riders"))
        table.setModel(self.shown)
        table.setSortingEnabled(True)
        table.sortByColumn(1, Qt.SortOrder.DescendingOrder)
        table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        header = plain_header(table, ROW_HEIGHT)
        header.setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
        for i, width in enumerate((182, 150, 186, 150, 142)):
            header.resizeSection(i, px(width))
        header.setMinimumSectionSize(px(128))
        header.setStretchLastSection(True)
        table.activated.connect(self._choose)
        return table

    # Reading

    def show_folder(self, folder: Path) -> None:
        """List another folder."""
        self._folder = folder
        self._unread = set_up_files(folder, pictures=True)
        self.riders.setRowCount(0)
        self._read_on()

    def _read_on(self) -> None:
        now, self._unread = self._unread[:AT_ONCE], self._unread[AT_ONCE:]
        if now:
            limits = self._limits
            self._reader.submit(lambda: [listed(path, limits) for path in now])
        self._tell()

    def _take(self, read: list[Rider | None]) -> None:
        riders = [rider for rider in read if rider is not None]
        # What was asked of a folder that is no longer shown comes too late.
        if riders and riders[0].path.parent == self._folder:
            self.riders.append(riders)
        self._read_on()

    def _tell(self) -> None:
        shown, there = self.shown.rowCount(), self.riders.rowCount()
        count = self.tr("{} of {}").format(shown, there) if self._typed else str(there)
        reading = self.tr("{} in {}, reading…")
        text = reading if self._reader.busy else self.tr("{} in {}")
        self.where.setText(text.format(count, self._folder))
        self.table.said = self._empty_words()
        self.table.viewport().update()
        self.first.show_when(empty=not there and not self._reader.busy)

    def _empty_words(self) -> str:
        """What is said of a list in which nobody stands."""
        if self._reader.busy:
            return ""
        if self.riders.rowCount():
            return self.tr("Nobody here matches what you search.")
        return self.tr(
            "No rider’s set-up is in this folder. Save the one in hand here, or choose the "
            "folder in which yours are."
        )

    def done(self, result: int) -> None:
        """Read no more once the list is closed."""
        self._unread = []
        super().done(result)

    # Asking

    def _search(self, typed: str) -> None:
        self._typed = typed
        self.shown.search(typed)
        self._tell()

    def _ask_for_folder(self) -> None:
        folder = asked_for_folder(self, self.tr("Folder of riders"), str(self._folder))
        if folder is not None:
            self.show_folder(folder)
            self.moved.emit(folder)

    def _go_to_list(self) -> None:
        """Put the keyboard on the first of those who match."""
        if self.shown.rowCount():
            self.table.setFocus()
            self.table.selectRow(max(self.table.currentIndex().row(), 0))

    def _choose_only(self) -> None:
        if self.shown.rowCount() == 1:
            self._choose(self.shown.index(0, 0))

    def _choose(self, index: _Index) -> None:
        rider = self.riders.at(self.shown.mapToSource(index).row())
        problem = rider_in(rider.path, self._limits).problem  # it may have been mended
        if problem:
            self.where.setText(problem)
            return
        self.accept()
        self.chosen.emit(rider.path)


class _Table(QTableView):
    """Says why nobody stands in it."""

    said = ""

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802
        super().paintEvent(event)
        if not self.model().rowCount():
            with QPainter(self.viewport()) as painter:
                painter.setPen(self.palette().placeholderText().color())
                paint_empty_words(painter, self.viewport().rect(), self.said)


class _Riders(QStandardItemModel):
    """The riders read so far, as a table."""

    def __init__(self) -> None:
        super().__init__()
        self.setHorizontalHeaderLabels([self.tr(heading) for heading in HEADINGS])

    def at(self, row: int) -> Rider:
        """The rider in a row."""
        rider: Rider = self.item(row).data(_RIDER)
        return rider

    def append(self, riders: list[Rider]) -> None:
        """List more."""
        for rider in riders:
            cells = [QStandardItem(cell_text(words)) for words in _words(rider)]
            cells[0].setData(rider, _RIDER)
            for cell in cells:
                show_tip(cell, rider.problem or rider.notes or str(rider.path))
            self.appendRow(cells)

    def data(self, index: Any, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if role == Qt.ItemDataRole.ForegroundRole:
            return self._brush(self.at(index.row()), index.column())
        return super().data(index, role)

    @staticmethod
    def _brush(rider: Rider, column: int) -> QBrush | None:
        theme = current_theme()
        if rider.state == UNREADABLE:
            return brush(theme.quiet)
        return brush(theme.accent_text) if column == 1 and rider.state in _SIGNS else None


class _Shown(QSortFilterProxyModel):
    """The riders that match what was typed, in the order asked for."""

    def __init__(self, riders: _Riders) -> None:
        super().__init__()
        self._riders = riders
        self._typed = ""
        self.setSourceModel(riders)
        self.setDynamicSortFilter(True)

    def search(self, typed: str) -> None:
        """Show only those who match."""
        self._typed = typed
        self.invalidate()

    def filterAcceptsRow(self, row: int, _parent: Any) -> bool:  # noqa: N802
        return matches(self._riders.at(row), self._typed)

    def lessThan(self, left: Any, right: Any) -> bool:  # noqa: N802
        one, other = (_order(self._riders.at(each.row()))[each.column()] for each in (left, right))
        return bool(one < other)


def _words(rider: Rider) -> tuple[str, ...]:
    """A row as it is read."""
    when = day_and_time(rider.changed)
    sign = _SIGNS.get(rider.state, "")
    return (
        rider.name,
        sign + rider.glance,
        *rider.legs,
        rider.file,
        "" if rider.problem else when,
    )


def _order(rider: Rider) -> tuple[Any, ...]:
    """A row as it is sorted."""
    name, file = rider.name.casefold(), rider.path.name.casefold()
    return (name, (rider.severity, name), *rider.legs, file, rider.changed)
