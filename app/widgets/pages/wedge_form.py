"""What a wedge is made to, and what can be done with it: choices, numbers, buttons."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Final

from PySide6.QtWidgets import (
    QComboBox,
    QGridLayout,
    QHBoxLayout,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from app.session import Session
from app.theme import Theme
from app.wedge_inputs import AS_LOW_AS_CAN_BE, SLOPES, WEDGE_FIELDS, WedgeInputs
from app.widgets.pages.typed_row import TypedRow

ROWS_WIDTH: Final = 376
"""Of the two columns of numbers (px)."""
FILES: Final = {"stl": "STL", "dxf": "DXF"}
"""What a wedge can be saved as, by the ending of the file."""
PAD: Final = 12
"""Beside the choices and the buttons, as in the rows (px)."""


class WedgeForm(QWidget):
    """Holds the controls; the page connects them.

    Args:
        session: counts the steps of a held key as one.
        theme: colours.
        now: the value in force of a number, by its name.
    """

    def __init__(self, session: Session, theme: Theme, now: Callable[[str], float]) -> None:
        super().__init__()
        self.rows = {
            field.name: TypedRow(
                session,
                field,
                theme,
                partial(now, field.name),
                may_be_empty=field.name == AS_LOW_AS_CAN_BE,
            )
            for field in WEDGE_FIELDS
        }
        self.foot, self.slopes = QComboBox(), QComboBox()
        self.open = QPushButton(self.tr("Open the drawing large"))
        self.saves = {
            ending: QPushButton(self.tr("Save {}…").format(kind)) for ending, kind in FILES.items()
        }
        self._fill_choices()
        self._lay_out()

    def _fill_choices(self) -> None:
        self.foot.setAccessibleName(self.tr("For which foot"))
        self.slopes.setAccessibleName(self.tr("Where lift and cant come from"))
        for name in ("front", "rear"):
            self.foot.addItem("", name)
        for key, words in SLOPES.items():
            self.slopes.addItem(self.tr(f"Lift and cant {words}"), key)

    def _lay_out(self) -> None:
        self.setFixedWidth(ROWS_WIDTH)
        choices, buttons = QHBoxLayout(), QHBoxLayout()
        choices.addWidget(self.foot)
        choices.addWidget(self.slopes, 1)
        for button in (self.open, *self.saves.values()):
            buttons.addWidget(button)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        for row in (choices, buttons):
            row.setContentsMargins(PAD, 0, PAD, 0)
        column.addLayout(choices)
        column.addLayout(self._two_columns())
        column.addLayout(buttons)

    def _two_columns(self) -> QGridLayout:
        """The numbers, to be read down one column and then the other."""
        grid = QGridLayout()
        grid.setSpacing(0)
        half = len(self.rows) // 2
        for i, row in enumerate(self.rows.values()):
            grid.addWidget(row, i % half, i // half)
        return grid

    def set_theme(self, theme: Theme) -> None:
        """Change the colours."""
        for row in self.rows.values():
            row.set_theme(theme)

    def show_choices(self, wedge: WedgeInputs, lead_foot: str) -> None:
        """Show which foot the wedge is for, and where its slopes come from."""
        feet = (lead_foot, "right" if lead_foot == "left" else "left")
        for i, (name, foot) in enumerate(zip(("Front", "Rear"), feet, strict=True)):
            self.foot.setItemText(i, self.tr("{} foot, {}").format(self.tr(name), self.tr(foot)))
        self.foot.setCurrentIndex(self.foot.findData(wedge.foot))
        self.slopes.setCurrentIndex(self.slopes.findData(wedge.slopes))
