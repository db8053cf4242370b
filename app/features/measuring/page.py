"""The page that helps to measure legs and boots: one dimension at a time, as often as wanted."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Final

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QSignalBlocker, QSize, Qt, Signal
from PySide6.QtGui import (
    QKeySequence,
    QPainter,
    QPalette,
    QShortcut,
)
from PySide6.QtWidgets import (
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

from app.features.measuring.cuffs_column import CUFFS_GUIDE, CuffsColumn
from app.features.measuring.model import (
    CUFFS_ENTRY,
    agreement_words,
    finding_words,
    guide_of,
    in_force_words,
    is_seen_to,
    mean_in_force,
    reading_label,
    reading_scale,
    reading_words,
    readings,
    repeats_named,
    things_to_measure,
    with_mean,
    with_repeat,
    without_repeat,
)
from app.features.measuring.reading_field import ReadingField
from app.features.measuring.scene import scene_measuring
from app.frame import Frame
from app.qt.controls.layout import in_column, in_row
from app.qt.controls.page_words import announce, heading, note
from app.qt.drafts import settle
from app.qt.literal import Label, joined, markup, say_about
from app.qt.painting.palette import ACCENT, QUIET, SMALL_PX, TEXT_PX, typeface
from app.qt.painting.scene_picture import ScenePicture
from app.qt.sizes import px
from app.rider.cuffs import cuff_state_words, with_cuffs
from app.rider.inputs import FIELD, InputError, side_and_name
from app.rider.setup import Setup
from app.session import Session
from app.words.language import msgid, tr
from app.words.lengths import IN_MM, Lengths
from app.words.reasons import reason_phrase, reason_sentence
from app.words.sentences import plain
from geometry.reasons import ImpossibleError

_GUIDE: Final = (
    "<p style='margin:0 0 7px 0'><span style='font-weight:600'>{head}.</span> {words}</p>"
)
LIST_WIDTH: Final = 166
REPEATS_WIDTH: Final = 178
PICTURE_WIDTHS: Final = (162, 230)
"""Of parts (px); the least of the drawing, whose letters stay small there, grows with none."""


class MeasurePage(QWidget):
    """Shows how a dimension is measured and takes its repeats."""

    _held = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._setup: Setup | None = None
        self._names: tuple[str, ...] = ()
        self._name = CUFFS_ENTRY
        self._lengths = IN_MM
        self._row = -1
        self._shown: tuple[str, Lengths, tuple[float, ...]] | None = None
        self._build()
        self._connect()
        self._list_names(session.setup)
        self._choose(0)

    # Building

    def _build(self) -> None:
        self.dimensions = QListWidget()
        self.dimensions.setAccessibleName(self.tr("What to measure"))
        self.dimensions.setFixedWidth(px(LIST_WIDTH))
        self.dimensions.setItemDelegate(TwoLines(self.dimensions))
        self.picture = ScenePicture()
        self.picture.setMinimumWidth(PICTURE_WIDTHS[0])
        self.picture.setMaximumWidth(px(PICTURE_WIDTHS[1]))
        self.guide = note()
        listed = in_column((self.dimensions, 1), *self._way(), spacing=4)
        shown = listed, (self.picture, 3), (self.guide, 4)
        self.cuffs, self._measured = CuffsColumn(), self._repeats_column()
        for side in (self.cuffs, self._measured):
            side.setFixedWidth(px(REPEATS_WIDTH))
        asked = self.cuffs, self._measured
        in_row(*shown, *asked, of=self, spacing=10, margins=(8, 8, 12, 8))

    def _way(self) -> tuple[QHBoxLayout, Label]:
        """Back and on through all that is measured, and how far one has come."""
        self.back = QPushButton(self.tr("Back"))
        self.onward = QPushButton(self.tr("Next"))
        for button in (self.back, self.onward):
            button.setFixedWidth(px((LIST_WIDTH - 4) // 2))
        self.place = Label()
        self.place.setForegroundRole(QUIET)
        self.back.clicked.connect(lambda: self._go(-1))
        self.onward.clicked.connect(lambda: self._go(1))
        return in_row(self.back, self.onward, spacing=4), self.place

    def _repeats_column(self) -> QWidget:
        self.reading = heading()
        self.number = ReadingField()
        self.reading.setBuddy(self.number)
        self.add = QPushButton(self.tr("Add"))
        self.repeats = QListWidget()
        self.repeats.setAccessibleName(self.tr("Repeats"))
        self.remove = QPushButton(self.tr("Remove"))
        self.use_mean = QPushButton(self.tr("Use the mean"))
        self.agreement, self.finding, self.problem = note(), note(), note()
        for words in (self.finding, self.problem):
            words.setForegroundRole(ACCENT)
        side = QWidget()
        typed = in_row((self.number, 1), (self.add, 1), spacing=6)
        asked = in_row((self.remove, 1), (self.use_mean, 1), spacing=6)
        said = self.agreement, self.finding, self.problem
        in_column(self.reading, typed, (self.repeats, 1), asked, *said, of=side, spacing=4)
        return side

    def _connect(self) -> None:
        self.dimensions.currentRowChanged.connect(self._choose)
        # Queued: a press goes on to select what it fell on, after the list told of it.
        self._held.connect(self._stay, Qt.ConnectionType.QueuedConnection)
        self.number.wanted.connect(self._choose_like)
        self.number.committed.connect(self._add)
        self.number.refused.connect(self._refuse)
        self.number.resumed.connect(lambda: self._tell(""))
        self.add.clicked.connect(self.number.setFocus)
        self.repeats.currentRowChanged.connect(self._look_at)
        self.remove.clicked.connect(self._remove)
        delete = QShortcut(QKeySequence(Qt.Key.Key_Delete), self.repeats)
        delete.setContext(Qt.ShortcutContext.WidgetShortcut)
        delete.activated.connect(self._remove)
        self.use_mean.clicked.connect(self._use_mean)
        self.cuffs.chosen.connect(self._say_cuffs)

    # Showing

    def show_frame(self, frame: Frame, *, dragging: bool) -> None:  # noqa: ARG002
        """Show the repeats of the set-up in hand."""
        if frame.lengths != self._lengths:
            self._lengths, self._setup = frame.lengths, None
            if self._name != CUFFS_ENTRY:
                self.number.set_scale(reading_scale(self._name, frame.lengths))
        self._show(frame.setup)

    def _show(self, setup: Setup) -> None:
        if setup == self._setup:
            return
        self._setup = setup
        self._list_names(setup)
        self._show_dimensions(setup)
        self._show_chosen(setup)

    def _list_names(self, setup: Setup) -> None:
        """List what there is to measure, where that is something else; stay where it was."""
        names = things_to_measure(setup)
        if names == self._names:
            return
        self._names = names
        with QSignalBlocker(self.dimensions):
            self.dimensions.clear()
            self.dimensions.addItems([label_of(name) for name in names])
        self._name = like(self._name, names)
        self._choose(names.index(self._name))

    def _choose(self, row: int) -> None:
        """Show another dimension's guide and repeats, unless a reading of this one is refused."""
        if self.number.draft is not None and self._names[max(row, 0)] != self._name:
            settle(self.number, within=self.number)
            if self.number.draft is not None:
                self._held.emit()
                return
        self._name = self._names[max(row, 0)]
        self.dimensions.setCurrentRow(max(row, 0))
        about_cuffs = self._name == CUFFS_ENTRY
        self.picture.show_scene(scene_measuring(CUFFS_SHOWN if about_cuffs else self._name))
        self.cuffs.setVisible(about_cuffs)
        self._measured.setVisible(not about_cuffs)
        place = self._names.index(self._name)
        count = len(self._names)
        self.place.setText(self.tr("{} of {}").format(place + 1, count))
        self.back.setEnabled(place > 0)
        self.onward.setEnabled(place + 1 < count)
        self._show_guide(_cuffs_parts() if about_cuffs else _guide_parts(self._name))
        if not about_cuffs:
            self._ask_for_reading()
        if self._setup is not None:
            self._show_chosen(self._setup)

    def _choose_like(self, name: str) -> None:
        """Choose a dimension, or what stands for it while both sides are one, or are not."""
        self._choose(self._names.index(like(name, self._names)))

    def _stay(self) -> None:
        """Have the list at the dimension whose reading is refused."""
        self.dimensions.setCurrentRow(self._names.index(self._name))

    def _go(self, way: int) -> None:
        """Go to the next thing to measure, or to the one before."""
        self._choose(self._names.index(self._name) + way)

    def go_to_open(self) -> None:
        """Go to the first thing that nobody has seen to yet, the keyboard where it is read off."""
        setup = self._session.setup
        left = (i for i, name in enumerate(self._names) if not is_seen_to(setup, name))
        self._choose(next(left, 0))
        where = self.cuffs if self._name == CUFFS_ENTRY else self.number
        where.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def _show_guide(self, parts: Sequence[tuple[str, str]]) -> None:
        """Show how it is done, under headings."""
        said = (markup(_GUIDE, head=tr(head), words=words) for head, words in parts)
        self.guide.setText(joined(said))

    def _ask_for_reading(self) -> None:
        """Have the field take a reading of the dimension chosen."""
        label = reading_label(self._name)
        self.reading.setText(label)
        by_tape = FIELD[self._name].unit == "mm"
        self.number.allow_empty(self.tr("off the tape") if by_tape else self.tr("read off"))
        called = self.tr("{}: one more repeat").format(label)
        self.number.ask_for(self._name, called, reading_scale(self._name, self._lengths))
        if self.number.draft is None:
            self._tell("")

    def _show_dimensions(self, setup: Setup) -> None:
        for row, name in enumerate(self._names):
            if name == CUFFS_ENTRY:
                words = cuff_state_words(setup.cuffs)
            else:
                words = in_force_words(setup, name, self._lengths)
            show_line(self.dimensions.item(row), label_of(name), words)

    def _show_chosen(self, setup: Setup) -> None:
        self.cuffs.show_setup(setup)
        if self._name != CUFFS_ENTRY:
            self._show_repeats(setup)

    def _show_repeats(self, setup: Setup) -> None:
        """The repeats of the dimension chosen and what they say; a drag changes neither."""
        self.use_mean.setEnabled(
            bool(repeats_named(setup, self._name)) and not mean_in_force(setup, self._name)
        )
        lengths = self._lengths
        shown = (self._name, lengths, repeats_named(setup, self._name))
        if shown == self._shown:
            return
        self._shown = shown
        kept, taken = self._row, readings(setup, self._name)
        self.repeats.clear()
        self.repeats.addItems([reading_words(self._name, each, lengths) for each in taken])
        self.repeats.setCurrentRow(min(kept, len(taken) - 1))
        self._look_at(min(kept, len(taken) - 1))
        words = agreement_words(setup, self._name, lengths)
        finding = finding_words(setup, self._name, lengths)
        self.agreement.setText("\n".join(words))
        self.finding.setText(finding)
        self.finding.setVisible(bool(finding))
        say_about(self.repeats, ". ".join(filter(None, (*words, finding))))

    # Asking

    def _add(self, reading: float) -> None:
        self.number.show_value(None)
        said = reading_words(self._name, reading, self._lengths)
        what = self.tr("{}: {} added").format(self._label, said)
        self._take(what, lambda setup: with_repeat(setup, self._name, reading))
        self.repeats.setCurrentRow(len(readings(self._session.setup, self._name)) - 1)

    def _look_at(self, row: int) -> None:
        """Have the repeat of this row in hand; -1 for none."""
        self._row = row
        self.remove.setEnabled(row >= 0)

    def _remove(self) -> None:
        row = self._row
        if self._setup is not None and row >= 0:
            reading = readings(self._setup, self._name)[row]
            said = reading_words(self._name, reading, self._lengths)
            what = self.tr("{}: {} removed").format(self._label, said)
            self._take(what, lambda setup: without_repeat(setup, self._name, row))

    def _say_cuffs(self, cuffs: str) -> None:
        what = f"{label_of(CUFFS_ENTRY)}: {cuff_state_words(cuffs)}"
        self._take(what, lambda setup: with_cuffs(setup, cuffs))

    def _use_mean(self) -> None:
        what = self.tr("{}: mean of the repeats").format(self._label)
        self._take(what, lambda setup: with_mean(setup, self._name))

    @property
    def _label(self) -> str:
        return FIELD[self._name].label

    def _refuse(self, typed: str, why: str) -> None:
        self._tell(self.tr("“{}” was not taken: {}").format(typed, why))

    def _take(self, what: str, change: Callable[[Setup], Setup]) -> None:
        """Make a change one step of the history, or say why it cannot be made."""
        try:
            setup = change(self._session.setup)
        except (InputError, ImpossibleError) as error:
            self._tell(reason_sentence(error, self._lengths))
            self.number.keep_refused(reason_phrase(error, self._lengths))
            return
        self._tell("")
        self._session.take(what, setup)
        self._show(self._session.setup)

    def _tell(self, problem: str) -> None:
        self.problem.setText(problem)
        self.problem.setVisible(bool(problem))
        if problem:
            announce(self.number, problem)


CUFFS_SHOWN: Final = "cuff_offset_deg"
"""Whose drawing shows what the cuffs do."""


def label_of(name: str) -> str:
    """What an entry of the list is called."""
    return tr("Cuffs") if name == CUFFS_ENTRY else FIELD[name].label


def like(name: str, names: Sequence[str]) -> str:
    """What stands for a thing to measure among these, where left and right are one or are not."""
    if name in names:
        return name
    return next(each for each in names if side_and_name(each)[1] == side_and_name(name)[1])


def _cuffs_parts() -> tuple[tuple[str, str], ...]:
    """The same of the cuffs."""
    return tuple((head, tr(words)) for head, words in CUFFS_GUIDE)


def _guide_parts(name: str) -> tuple[tuple[str, str], ...]:
    """Headings, and what stands under them, of a dimension's guide."""
    guide = guide_of(name)
    share = plain(guide.share, 2)
    return (
        (msgid("Stand"), tr(guide.stand)),
        (guide.tool, tr(guide.tape, share=share)),
        (msgid("Feel for"), tr(guide.landmark)),
    )


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
        return QSize(super().sizeHint(option, index).width(), px(_HEIGHT))

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
        pad = px(_PAD)
        name = rect.adjusted(pad, px(3), -pad, -rect.height() // 2)
        more = rect.adjusted(pad, rect.height() // 2, -pad, -px(3))
        for room, data, size, quiet in (
            (name, Qt.ItemDataRole.DisplayRole, TEXT_PX, role.Text),
            (more, _MORE, SMALL_PX, role.PlaceholderText),
        ):
            painter.setFont(typeface(size))
            painter.setPen(palette.color(role.HighlightedText if chosen else quiet))
            painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, index.data(data) or "")
