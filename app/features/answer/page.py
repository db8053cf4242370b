"""The page that says with which lift and cant each binding begins, and puts them on."""

from __future__ import annotations

from functools import partial
from itertools import chain
from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import (
    QGridLayout,
    QPushButton,
    QStackedLayout,
    QVBoxLayout,
    QWidget,
)

from app.features.answer.card import BindingCard, cants_of
from app.features.answer.model import Told, told_steps, with_foot
from app.features.answer.put_button import put_on, update_apply_button
from app.features.answer.scale import span_of
from app.features.answer.side import WIDTH, AnswerHead, AnswerSide
from app.features.answer.words import details_words, worst_words
from app.frame import Frame
from app.qt.background import Unhurried
from app.qt.controls.layout import in_column, in_row
from app.qt.controls.page_words import heading, note
from app.qt.controls.plain_area import PlainArea
from app.qt.literal import say_about
from app.qt.sizes import px
from app.session import Session
from app.stance.answer import answer_of
from app.stance.needs import Mounts, needs_of, with_mounts
from app.stance.through import Legs
from app.stance.topics import CANT, Asked
from app.words.language import msgid, tr

CARD: Final = 316
"""Least width of a card (px)."""
WIDE: Final = 2 * CARD + WIDTH + 48
"""From this width on, all stands side by side (px)."""
TWO: Final = 2 * CARD + 36
"""From this width on, the cards stand side by side (px)."""
_PUT: Final = {
    "front": msgid("Front: to begin with"),
    "rear": msgid("Rear: to begin with"),
    "both": msgid("To begin with"),
}


class AnswerPage(QWidget):
    """Shows the answer, live; what takes longer once nothing is dragged."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._frame: Frame | None = None
        self._told: Told | None = None
        self._details_shown = False
        self._search = Unhurried(self)
        self._search.done.connect(self._take)
        self._build()

    def _build(self) -> None:
        self.setAccessibleName(self.tr("What to begin with"))
        self.cards = {leg: BindingCard(leg) for leg in ("front", "rear")}
        self.head, self.side = AnswerHead(), AnswerSide(self._session)
        # In a row, or Qt would ask for its height at the width of the whole column.
        self._aside = QWidget()
        in_row(self.side, 1, of=self._aside)
        for leg, card in self.cards.items():
            card.put_asked.connect(partial(self._put_foot, leg))
            card.why_asked.connect(partial(self._ask_why, leg))
        self.head.put_asked.connect(self._put_both)
        self.head.found_asked.connect(lambda: self.show_details(shown=True))
        self._inside = QWidget()
        self._grid = QGridLayout(self._inside)
        self._grid.setContentsMargins(px(12), px(8), px(8), px(8))
        self._grid.setHorizontalSpacing(px(12))
        self._grid.setVerticalSpacing(px(8))
        self._stack = QStackedLayout(self)
        self._stack.addWidget(PlainArea(self._inside, self.tr("What to begin with")))
        self._stack.addWidget(PlainArea(self._details(), self.tr("How this is found")))
        self._lay_out()

    def _details(self) -> QWidget:
        """How the answer is found."""
        page = QWidget()
        column = QVBoxLayout(page)
        column.setContentsMargins(px(12), px(8), px(12), px(8))
        column.setSpacing(px(4))
        self.back = QPushButton(self.tr("Back to what to begin with"))
        self.back.clicked.connect(lambda: self.show_details(shown=False))
        self.steps = QPushButton(self.tr("Step by step, in the drawings"))
        self.steps.clicked.connect(partial(self._ask_why, "front", CANT))
        column.addLayout(in_row(self.back, self.steps, 1, spacing=6))
        self.details = [(heading(), note()) for _ in range(5)]
        self._found = QWidget()
        in_column(*chain.from_iterable(self.details), of=self._found, spacing=4)
        column.addWidget(self._found)
        column.addStretch(1)
        return page

    def _lay_out(self) -> None:
        """Cards beside each other where there is room, and the rest beside them or under them."""
        width = self.width()
        wide, columns = width >= px(WIDE), 2 if width >= px(TWO) else 1
        front, rear = self.cards.values()
        self.head.lay_out(wide=wide)
        if wide:
            self._grid.addWidget(front, 0, 0, 2, 1)
            self._grid.addWidget(rear, 0, 1, 2, 1)
            self._grid.addWidget(self.head, 0, 2)
            self._grid.addWidget(self._aside, 1, 2, Qt.AlignmentFlag.AlignTop)
        else:
            self._grid.addWidget(self.head, 0, 0, 1, columns)
            self._grid.addWidget(front, 1, 0)
            self._grid.addWidget(rear, *((1, 1) if columns == 2 else (2, 0)))
            self._grid.addWidget(self._aside, 3, 0, Qt.AlignmentFlag.AlignTop)
        for column in range(3):
            self._grid.setColumnStretch(column, int(column < columns))
        self._grid.setRowStretch(1, int(wide))
        self._grid.setRowStretch(4, int(not wide))

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        """Lay out anew."""
        super().resizeEvent(event)
        self._lay_out()

    # Showing

    def show_frame(self, frame: Frame, *, dragging: bool) -> None:
        """Show what to begin with now, and what takes longer in a quiet time."""
        first = self._frame is None
        self._frame = frame
        self.side.show_setup(frame.setup)
        if first and not dragging:
            # Nothing stands there yet: better a moment's wait than an empty page.
            self._told = Told(frame.setup, frame.limits, answer_of(frame.setup, frame.limits))
        stale = self._is_stale or self._told is None or self._told.reserve is None
        if stale and not dragging:
            self._search.submit(told_steps(frame.setup, frame.limits))
        else:
            self._search.drop()
        self._show()

    @property
    def _is_stale(self) -> bool:
        """Whether what is shown is not true of what is in hand."""
        told, frame = self._told, self._frame
        if told is None or frame is None:
            return True
        return (told.setup, told.limits) != (frame.setup, frame.limits)

    def _take(self, told: Told) -> None:
        self._told = told
        self._show()

    def _show(self) -> None:
        told, frame = self._told, self._frame
        if told is None or frame is None:
            return
        stale = self._is_stale
        told_by = (*self.cards.values(), self.head.put, self.side.left_box, self._found)
        for widget in told_by:
            widget.setEnabled(not stale)
        if stale:
            return
        cants = [cants_of(told, foot) for foot in told.answer.feet]
        for card in self.cards.values():
            card.show_told(told, frame.lengths, span_of(cants))
        self.side.show_told(told, frame.lengths)
        self._show_buttons(told)
        say_about(self, " ".join(card.said() for card in self.cards.values()))
        if self._details_shown:
            self._write_details()

    def _show_buttons(self, told: Told) -> None:
        """Let each foot's button put on what was found for it, once that is known."""
        feet, inputs = told.answer.feet, told.setup.inputs
        now, then = Legs(*(foot.now for foot in feet)), Legs(*(foot.then for foot in feet))
        brings = worst_words(now, then, inputs)
        update_apply_button(self.head.put, told.answer.mounts, told.setup, brings)
        for leg, card in self.cards.items():
            card.put.setEnabled(False)
            if told.others is not None:
                brings = worst_words(now, told.alone[leg], inputs)
                mounts = with_foot(told.setup, told, leg)
                update_apply_button(card.put, mounts, told.setup, brings)

    def show_details(self, *, shown: bool) -> None:
        """Show how the answer is found, or the answer again."""
        self._details_shown = shown
        self._stack.setCurrentIndex(int(shown))
        if shown:
            self._write_details()

    def _write_details(self) -> None:
        if self._told is None or self._frame is None:
            return
        found = details_words(self._told, needs_of(self._told.setup))
        for (title, text), (said, words) in zip(self.details, found, strict=True):
            title.setText(said)
            text.setText(words)
            title.setVisible(bool(words))
            text.setVisible(bool(words))

    # Asking

    def _put_foot(self, leg: str) -> None:
        if self._told is not None and not self._is_stale:
            self._put(leg, with_foot(self._told.setup, self._told, leg))

    def _ask_why(self, leg: str, topic: str) -> None:
        self._session.why_asked.emit(Asked(leg, topic))

    def _put_both(self) -> None:
        if self._told is not None and not self._is_stale:
            self._put("both", self._told.answer.mounts)

    def _put(self, what: str, mounts: Mounts) -> None:
        after = with_mounts(self._session.setup, mounts)
        put_on(self, self._session, tr(_PUT[what]), after, mounts)
