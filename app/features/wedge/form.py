"""What a wedge is made to, and what can be done with it: choices, numbers, holes, buttons."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Final

from PySide6.QtWidgets import QHBoxLayout, QPushButton, QWidget

from app.features.wedge.hole_list import HoleList
from app.features.wedge.model import side_of
from app.features.wedge.units import PartLengths
from app.qt.controls.choice_box import ChoiceBox
from app.qt.controls.layout import in_column, in_row
from app.qt.controls.number_field import height
from app.qt.controls.typed_row import TypedRow
from app.qt.drafts import show_or_put_away
from app.qt.sizes import px
from app.rider.setup import Setup
from app.rider.wedge import HOLES, SLOPES, WEDGE_FIELDS
from app.session import Session
from app.words.language import msgid

ROWS_WIDTH: Final = 376
"""Of the two columns of numbers (px)."""
FILES: Final = {"stl": "STL", "dxf": "DXF"}
"""What a wedge can be saved as, by the ending of the file."""
FEET: Final = {
    ("front", "left"): msgid("Front foot, left"),
    ("front", "right"): msgid("Front foot, right"),
    ("rear", "left"): msgid("Rear foot, left"),
    ("rear", "right"): msgid("Rear foot, right"),
}
PAD: Final = 12
"""Beside the choices, as in the rows (px)."""
_LEFT: Final = 7
"""Numbers in the first column."""
_GRID: Final = ("grid_across_mm", "grid_along_mm")
"""Numbers that mean something in a grid only."""


class WedgeForm(QWidget):
    """Holds the controls; the page connects them.

    Args:
        session: counts the steps of a held key as one.
        now: the value in force of a number, by its name.
    """

    def __init__(self, session: Session, now: Callable[[str], float]) -> None:
        super().__init__()
        self.rows = {
            field.name: TypedRow(session, field, partial(now, field.name)) for field in WEDGE_FIELDS
        }
        self._build_choices()
        self.spots = HoleList()
        self.open = QPushButton(self.tr("Open the drawing large"))
        self.saves = {
            ending: QPushButton(self.tr("Save {}…").format(kind)) for ending, kind in FILES.items()
        }
        self._lay_out()

    def _build_choices(self) -> None:
        slopes, holes = (
            {key: self.tr(words) for key, words in choices.items()} for choices in (SLOPES, HOLES)
        )
        self.foot = ChoiceBox(self.tr("For which foot"), {"front": "", "rear": ""})
        # Which foot is left or right is said later than the first width is asked for.
        self.foot.setSizeAdjustPolicy(ChoiceBox.SizeAdjustPolicy.AdjustToContents)
        self.slopes = ChoiceBox(self.tr("Where lift and cant come from"), slopes)
        self.holes = ChoiceBox(self.tr("How the places of the holes are told"), holes)

    def _lay_out(self) -> None:
        self.setFixedWidth(px(ROWS_WIDTH))
        choices = in_row(self.foot, (self.slopes, 1), margins=(PAD, 0, PAD, 0))
        rows = list(self.rows.values())
        # What tells of the holes: places first, a grid's or typed, then sizes.
        grid, sizes = rows[_LEFT : _LEFT + len(_GRID)], rows[_LEFT + len(_GRID) :]
        left = in_column(*rows[:_LEFT], 1, spacing=0)
        right = in_column(self._holes_row(), *grid, self.spots, *sizes, 1, spacing=0)
        in_column(choices, in_row((left, 1), (right, 1)), of=self, spacing=4)

    def _holes_row(self) -> QWidget:
        """The choice of how the holes are told, as high as a row."""
        row = QWidget()
        row.setFixedHeight(self.rows["hole_mm"].height())
        self.holes.setFixedHeight(height() + 2)
        in_row(self.holes, of=row, margins=(PAD, 0, PAD, 0))
        return row

    def buttons(self) -> QHBoxLayout:
        """What can be done with the wedge, in a row, to stand by its drawing."""
        return in_row(self.open, *self.saves.values())

    def show_choices(self, setup: Setup, lengths: PartLengths) -> None:
        """Show which foot the wedge is for, where its slopes come from, and its holes."""
        for row in self.rows.values():
            row.show_lengths(lengths)
        for i, foot in enumerate(("front", "rear")):
            self.foot.setItemText(i, self.tr(FEET[foot, side_of(setup, foot)]))
        wedge = setup.wedge
        self.foot.show_choice(wedge.foot)
        self.slopes.show_choice(wedge.slopes)
        self.holes.show_choice(wedge.holes)
        self.spots.show_spots(wedge.hole_spots_mm, lengths)
        show_or_put_away(self.spots, shown=wedge.holes == "typed")
        for name in _GRID:
            show_or_put_away(self.rows[name], shown=wedge.holes == "grid")
