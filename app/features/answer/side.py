"""Beside the cards: put both on, what is allowed, and what the posture has left."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QGridLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from app.features.answer.model import Told
from app.features.answer.words import (
    example_words,
    reserve_title,
    reserve_words,
    share_words,
    then_words,
)
from app.qt.controls.page_words import caution_note, heading, note
from app.qt.controls.steady_button import SteadyButton
from app.qt.controls.typed_row import TypedRow
from app.qt.literal import Label, show_tip
from app.qt.painting.palette import ACCENT, QUIET
from app.qt.sizes import px, text_percent
from app.rider.cuffs import cuff_words
from app.rider.inputs import FIELD
from app.rider.setup import Setup
from app.session import Session
from app.words.lengths import Lengths

WIDTH: Final = 262
"""Of the column (px)."""
FIELDS: Final = ("bend_from_deg", "bend_to_deg", "largest_lift_deg", "largest_cant_deg")


_BESIDE_PERCENT: Final = 150
"""The largest letters of which the caution has room beside the buttons (percent)."""


class AnswerHead(QWidget):
    """The buttons for both feet, and the caution beside them."""

    put_asked = Signal()
    """The answers of both feet shall be put on."""
    found_asked = Signal()
    """How the answer is found shall be shown."""

    def __init__(self) -> None:
        super().__init__()
        self.put = SteadyButton(self.tr("Put both on"))
        self.put.clicked.connect(self.put_asked)
        self.how = QPushButton(self.tr("How this is found"))
        self.how.clicked.connect(self.found_asked)
        self._lines = QGridLayout(self)
        self._lines.setContentsMargins(0, 0, 0, 0)
        self._lines.setSpacing(px(6))
        self._lines.addWidget(self.put, 0, 0)
        self._lines.addWidget(self.how, 0, 1)
        self._caution = caution_note()
        self.lay_out(wide=True)

    def lay_out(self, *, wide: bool) -> None:
        """The caution under the buttons where the page is wide, else beside them.

        Large letters leave no room beside them in a narrow one either.
        """
        place = (1, 0, 1, 3) if wide or text_percent() > _BESIDE_PERCENT else (0, 2, 1, 1)
        self._lines.addWidget(self._caution, *place)
        self._lines.setColumnStretch(0, int(wide))
        self._lines.setColumnStretch(2, int(not wide))


class AnswerSide(QWidget):
    """Shows what both feet have left; asks for another riding bend, or for other limits."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self.setFixedWidth(px(WIDTH))
        self._build()

    def _build(self) -> None:
        self.problem = note()
        self.problem.setForegroundRole(ACCENT)
        self.problem.hide()
        self.waits = note()
        self.waits.setForegroundRole(ACCENT)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(px(4))
        column.addWidget(self.waits)
        for row in self._rows():
            column.addWidget(row)
        column.addWidget(self.problem)
        self.growing = QCheckBox(self.tr("The rider still grows"))
        show_tip(
            self.growing,
            self.tr("Then no more than 3° of lift or cant is begun with: legs change in a season."),
        )
        self.growing.toggled.connect(self._grow)
        column.addWidget(self.growing)
        column.addSpacing(px(4))
        column.addWidget(self._reserve())
        column.addStretch(1)

    def _rows(self) -> list[TypedRow]:
        self.rows = {
            name: TypedRow(self._session, FIELD[name], partial(self._value, name))
            for name in FIELDS
        }
        for row in self.rows.values():
            row.asked.connect(self._ask)
            row.told.connect(self._tell)
        return list(self.rows.values())

    def _value(self, name: str) -> float:
        return self._session.inputs.value(name)

    def _reserve(self) -> QWidget:
        """What is left to give, and the share of the weight."""
        self.left_box = QWidget()
        whole = QVBoxLayout(self.left_box)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.setSpacing(px(2))
        self.left_title = heading()
        self.share = note()
        self.share.hide()
        self._left = QGridLayout()
        self._left.setHorizontalSpacing(px(8))
        self._left.setVerticalSpacing(1)
        self._left.setColumnStretch(1, 1)
        self.left: list[tuple[QLabel, QLabel, QLabel]] = []
        whole.addWidget(self.left_title)
        whole.addLayout(self._left)
        whole.addWidget(self.share)
        return self.left_box

    # Showing

    def show_setup(self, setup: Setup) -> None:
        """Show what was typed, and whom or what the answer waits for."""
        words = "\n".join(filter(None, (example_words(setup), cuff_words(setup))))
        self.waits.setText(words)
        self.waits.setVisible(bool(words))
        for name, row in self.rows.items():
            row.show_value(setup.inputs.value(name))
        self.growing.blockSignals(True)
        self.growing.setChecked(setup.growing)
        self.growing.blockSignals(False)

    def show_told(self, told: Told, lengths: Lengths) -> None:
        """Show what is left to give."""
        rows = reserve_words(told, lengths)
        self.left_title.setText(reserve_title(told))
        while len(self.left) < len(rows):
            self._add_line()
        for (way, now, then), labels in zip(rows, self.left, strict=False):
            for label, text in zip(labels, (way, now, then_words(now, then)), strict=True):
                label.setText(text)
                label.setVisible(bool(text))
        words = share_words(told)
        self.share.setText(words)
        self.share.setVisible(bool(words))

    def _add_line(self) -> None:
        """Labels for one way: its name, how far now, and under it how far then."""
        place = 2 * len(self.left)
        way, now, then = Label(), note(), note()
        way.setForegroundRole(QUIET)
        then.setForegroundRole(QUIET)
        self._left.addWidget(way, place, 0)
        self._left.addWidget(now, place, 1)
        self._left.addWidget(then, place + 1, 1)
        self.left.append((way, now, then))

    # Asking

    def _ask(self, name: str, value: float) -> None:
        self._session.edit(**{name: value})
        self._tell("")

    def _tell(self, problem: str) -> None:
        self.problem.setText(problem)
        self.problem.setVisible(bool(problem))

    def _grow(self, growing: bool) -> None:
        setup = replace(self._session.setup, growing=growing)
        name = self.tr("The rider grows") if growing else self.tr("The rider is grown")
        self._session.take(name, setup)
