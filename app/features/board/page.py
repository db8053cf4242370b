"""The page about the board: how far the boots reach beyond it, and when they touch snow."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import Final

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QWidget

from app.features.board.model import flags, overhang_of, overhang_scenes, stand_in, verdict
from app.frame import Frame
from app.qt.controls.choice_box import ChoiceBox
from app.qt.controls.layout import grid_of, in_column, in_row
from app.qt.controls.page_words import ScrolledWords
from app.qt.controls.typed_row import TypedRow
from app.qt.painting.snug_picture import SnugPicture
from app.qt.sizes import px
from app.rider.board import BOARD_FIELDS, ZERO_ALLOWED
from app.rider.setup import Setup
from app.session import Session
from app.words.language import msgid, tr
from app.words.lengths import Lengths
from app.words.reasons import reason_sentence
from app.words.sentences import spoken

VIEWS: Final = {
    "above": msgid("From above"),
    "front": msgid("Front boot, along the board"),
    "rear": msgid("Rear boot, along the board"),
}
"""The drawings, by their names among the scenes."""
WIDE: Final = 860
"""From this width on, all drawings have room (px)."""
ROWS_WIDTH: Final = 236
"""Of the column of numbers (px)."""


class BoardPage(QWidget):
    """Shows overhang and edge angles; asks for other sizes of board and boots."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._frame: Frame | None = None
        self._refusal = ""
        self._chosen = next(iter(VIEWS))
        self._build()

    # Building

    def _build(self) -> None:
        self.setAccessibleName(self.tr("Board"))
        self.rows = {
            field.name: TypedRow(self._session, field, partial(self._now, field.name))
            for field in BOARD_FIELDS
        }
        self.words = ScrolledWords(self.tr("What the boots do at the edges"))
        self.pictures = {name: SnugPicture() for name in VIEWS}
        titles = {name: tr(title) for name, title in VIEWS.items()}
        self.view = ChoiceBox(self.tr("Which drawing"), titles)
        self.view.chosen.connect(self._look_at)
        column, views = self._numbers_column(), self._views()
        in_row(column, (views, 1), of=self, spacing=8, margins=(0, 8, 12, 8))
        self._lay_out()

    def _numbers_column(self) -> QWidget:
        side = QWidget()
        side.setFixedWidth(px(ROWS_WIDTH))
        for each in self.rows.values():
            each.asked.connect(self._ask)
            each.told.connect(self._tell)
        said = in_column(self.words, margins=(12, 6, 0, 0))
        in_column(*self.rows.values(), (said, 1), of=side, spacing=0)
        return side

    def _views(self) -> QWidget:
        self._drawn = QWidget()
        self._grid = grid_of(self._drawn, (6, 6))
        self._grid.addWidget(self.view, 0, 0, 1, 2)
        self._grid.addWidget(self.pictures["above"], 1, 0, 2, 1)
        self._grid.addWidget(self.pictures["front"], 1, 1)
        self._grid.addWidget(self.pictures["rear"], 2, 1)
        return self._drawn

    def _look_at(self, view: str) -> None:
        self._chosen = view
        self._lay_out()

    def _lay_out(self) -> None:
        """All drawings where there is room, else the one that is chosen."""
        wide, chosen = self.width() >= px(WIDE), self._chosen
        self.view.setHidden(wide)
        for name, picture in self.pictures.items():
            picture.setVisible(wide or name == chosen)
        columns = (3, 4) if wide else (int(chosen == "above"), int(chosen != "above"))
        rows = (1, 1) if wide else (int(chosen != "rear"), int(chosen != "front"))
        self._grid.setHorizontalSpacing(6 * wide)  # which would stand beside a single drawing
        for i in range(2):
            self._grid.setColumnStretch(i, columns[i])
            self._grid.setRowStretch(i + 1, rows[i])

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        """Lay out anew."""
        super().resizeEvent(event)
        self._lay_out()

    # Showing

    def show_frame(self, frame: Frame, *, dragging: bool) -> None:
        """Show what the boots of a set-up do at the edges of its board."""
        shown = self._frame and (self._frame.setup, self._frame.lengths)
        self._show_rows(frame.setup, frame.lengths)
        # Curved edges take three times as long: they wait for the end of a drag.
        late = dragging and frame.setup.board.sidecut_radius_mm
        if (frame.setup, frame.lengths) != shown and not late:
            self._frame = frame
            self._say(aloud=not dragging)

    def _show_rows(self, setup: Setup, lengths: Lengths) -> None:
        for name, row in self.rows.items():
            value = getattr(setup.board, name)
            row.show_lengths(lengths)
            if value or name not in ZERO_ALLOWED:
                row.show_value(value)
            else:
                row.show_empty(stand_in(setup, name, lengths)[1])

    def _say(self, *, aloud: bool = True) -> None:
        if self._frame is None:
            return
        try:
            overhang = overhang_of(self._frame.setup, self._frame.lengths)
        except ValueError as error:
            self._drawn.hide()
            self.words.say(reason_sentence(error, self._frame.lengths), "", aloud=aloud)
            return
        self._drawn.show()
        for name, scene in overhang_scenes(overhang).items():
            self.pictures[name].show_scene(scene)
        found = filter(None, (self._refusal, *flags(overhang)))
        self.words.say("\n".join(found), verdict(overhang), aloud=aloud)

    # Asking

    def _now(self, name: str) -> float:
        """The value in force of a size, typed or not."""
        setup = self._session.setup
        value: float = getattr(setup.board, name)
        return value if value or name not in ZERO_ALLOWED else stand_in(setup, name)[0]

    def _ask(self, name: str, value: float) -> None:
        setup, field = self._session.setup, self.rows[name].field
        board = replace(setup.board, **{name: value})
        after = replace(setup, board=board)
        empty = name in ZERO_ALLOWED and not value
        lengths = self._session.lengths
        said = stand_in(after, name, lengths)[1] if empty else spoken(field, value, lengths)
        self._session.take(f"{field.label}: {said}", after)

    def _tell(self, refusal: str) -> None:
        if refusal != self._refusal:
            self._refusal = refusal
            self._say()
