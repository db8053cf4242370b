"""The page of growing riders: last season beside today, and what to expect of the next."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Final, cast

from PySide6.QtGui import QBrush
from PySide6.QtWidgets import QAbstractItemView, QPushButton, QWidget

from app.drawing.theme import mixed
from app.features.growing.ages import AGE, AHEAD, CHILDREN
from app.features.growing.model import (
    COLUMNS,
    Ahead,
    Row,
    ahead_of,
    compared,
    shrunk,
    years_scale,
)
from app.files.file_kinds import OPEN_FILTER
from app.files.safe_files import FileError
from app.files.storage import opened
from app.frame import Frame
from app.qt.controls.entry_row import PAD, EntryRow
from app.qt.controls.layout import in_column, in_row
from app.qt.controls.page_words import heading, note
from app.qt.controls.switch import Choice, SwitchRow
from app.qt.controls.word_table import WordTable
from app.qt.literal import show_tip
from app.qt.painting.palette import ACCENT, QUIET, colour
from app.qt.questions import asked_which
from app.qt.settling import Settling
from app.qt.sizes import px
from app.qt.themes import current_theme, follow_theme
from app.rider.setup import Setup
from app.session import Session
from app.words.bounds import in_one_line
from app.words.field import Field
from app.words.language import msgid, tr
from app.words.reasons import reason_sentence
from app.words.sentences import plain
from geometry.riders.growth import Children

SIDE_WIDTH: Final = 206

_HELP: Final = {
    "either": msgid("Between the figures of boys and girls, with a spread that allows for both."),
    "boys": msgid("Forecast by the published figures of boys."),
    "girls": msgid("Forecast by the published figures of girls."),
}
_CHILDREN: Final = {"either": msgid("either"), "boys": msgid("boys"), "girls": msgid("girls")}


class GrowthPage(QWidget):
    """Compares with a former set-up and looks ahead; changes nothing."""

    def __init__(self, session: Session) -> None:  # noqa: ARG002
        super().__init__()
        self._frame: Frame | None = None
        self._then: Setup | None = None
        self._age: float | None = None
        self._years = AHEAD.step
        self._children: Children = CHILDREN[0]
        self._stale = False
        self._settling = Settling(self, self._compare)
        self._build()
        self._connect()

    # Building

    def _build(self) -> None:
        self.choose = QPushButton(self.tr("Choose a former set-up…"))
        self.former, self.problem, self.words = note(), note(), note()
        self.former.setText(self.tr("The set-up of last season, to see what has changed."))
        self.former.setForegroundRole(QUIET)
        self.problem.setForegroundRole(ACCENT)
        self.age, self.ahead = EntryRow(AGE), EntryRow(AHEAD)
        for row, placeholder in ((self.age, self.tr("not said")), (self.ahead, "")):
            row.number.set_scale(years_scale(row.field))
            row.number.allow_empty(placeholder)
            row.explain()
        self.ahead.number.show_value(self._years)
        choices = [Choice(key, tr(_CHILDREN[key]), tr(_HELP[key])) for key in CHILDREN]
        self.children_of = SwitchRow("children", self.tr("Figures of", "children"), choices)
        self.children_of.show_choice(self._children)
        self.table = GrowthTable()
        side, told = self._side(), in_column((self.table, 1), self.words, spacing=6)
        in_row(side, (told, 1), of=self, spacing=8, margins=(0, 8, 12, 8))

    def _side(self) -> QWidget:
        side = QWidget()
        side.setFixedWidth(px(SIDE_WIDTH))
        season, later = heading(self.tr("Last season")), heading(self.tr("Forecast"))
        inset = [
            in_row(widget, margins=(PAD, 0, PAD, 0))
            for widget in (season, self.choose, self.former, self.problem, later)
        ]
        rows = self.age, self.ahead, self.children_of
        in_column(*inset, *rows, 1, of=side, spacing=4).insertSpacing(4, 4)
        self.problem.hide()
        return side

    def _connect(self) -> None:
        self.choose.clicked.connect(self._choose)
        self.age.number.committed.connect(self._set_age)
        self.age.number.emptied.connect(lambda: self._set_age(None))
        self.age.number.stepped.connect(
            lambda count, kind: self._set_age(_stepped(AGE, self._age, count, kind))
        )
        self.ahead.number.committed.connect(self._set_ahead)
        self.ahead.number.emptied.connect(lambda: self._set_ahead(AHEAD.step))
        self.ahead.number.stepped.connect(
            lambda count, kind: self._set_ahead(_stepped(AHEAD, self._years, count, kind))
        )
        self.children_of.chosen.connect(self._set_children)

    # Showing

    def show_frame(self, frame: Frame, *, dragging: bool) -> None:
        """Compare the set-up in hand, when nothing is dragged."""
        shown = self._frame and (self._frame.setup, self._frame.lengths)
        self._frame = frame
        if shown is None and not dragging:
            self._compare()
            return
        self._stale |= dragging or (frame.setup, frame.lengths) != shown
        self.table.setEnabled(not self._stale)
        self._settling.follow(stale=self._stale, dragging=dragging)

    def _compare(self) -> None:
        self._settling.stop()
        if self._frame is None:
            return
        now, lengths = self._frame.setup, self._frame.lengths
        try:
            ahead = self._look_ahead(now)
            rows = compared(now, self._then, ahead, lengths)
        except ValueError as error:
            self._tell(reason_sentence(error, lengths).removesuffix("."))
            return
        age = ahead.legs.age if ahead is not None else None
        self.table.show_rows(rows, age)
        self._stale = False
        self.table.setEnabled(True)
        self.words.setText(
            self.tr("Say the age to have a forecast.") if ahead is None else ahead.words
        )
        self._point_at_shrunk(now)

    def _look_ahead(self, now: Setup) -> Ahead | None:
        if self._age is None:
            return None
        return ahead_of(now, self._age, self._years, self._children)

    def _point_at_shrunk(self, now: Setup) -> None:
        labels = shrunk(now, self._then)
        words = self.tr("{} shrank by more than the error of measuring: measure again.")
        self._tell(words.format(_all_of(labels)) if labels else "")

    def _tell(self, problem: str) -> None:
        self.problem.setText(f"{problem[:1].upper()}{problem[1:]}")
        self.problem.setVisible(bool(problem))

    # Asking

    def _choose(self) -> None:
        """Ask for the file of a former set-up."""
        path = asked_which(self, self.tr("Choose a former set-up"), "", tr(OPEN_FILTER))
        if path is not None:
            self.compare_with(path)

    def compare_with(self, path: Path) -> None:
        """Compare with the set-up in a file, or say why that cannot be."""
        try:
            self._then = opened(path).setup
        except FileError as error:
            self._tell(f"{error}.")
            return
        self.former.setText(self._then.called or in_one_line(path.name))
        show_tip(self.former, str(path))
        self._compare()

    def _set_age(self, age: float | None) -> None:
        self._age = age
        self.age.number.show_value(age)
        self._compare()

    def _set_ahead(self, years: float | None) -> None:
        self._years = AHEAD.step if years is None else years
        self.ahead.number.show_value(self._years)
        self._compare()

    def _set_children(self, key: str) -> None:
        self._children = cast(Children, key)
        self.children_of.show_choice(key)
        self._compare()


def _stepped(field: Field, value: float | None, count: int, kind: int) -> float:
    """A value some steps on; from nothing, the lowest there is."""
    scale = years_scale(field)
    return scale.low if value is None else scale.stepped(value, count, kind)


def _all_of(labels: Sequence[str]) -> str:
    """Labels as the subject of a sentence."""
    said = labels[0]
    for label in labels[1:]:
        said = tr("{most} and {last}", most=said, last=label)
    return said


FORECAST: Final = len(COLUMNS) - 1


class GrowthTable(WordTable):
    """Shows rows; nothing in it can be chosen or changed."""

    def __init__(self) -> None:
        super().__init__(tr("Then, now and later"), COLUMNS, stretched=FORECAST)
        self.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)
        follow_theme(self._colour)

    def show_rows(self, rows: Sequence[Row], age: float | None) -> None:
        """Show these rows, with a forecast for this age (years) or none."""
        *headings, later = (tr(name) for name in COLUMNS)
        if age is not None:
            later = self.tr("Forecast at {}").format(plain(age))
        self.setHorizontalHeaderLabels([*headings, later])
        self.fill(rows, tips=True)
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
