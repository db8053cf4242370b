"""A group of controls that both sides share until each gets its own: legs, boots."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from PySide6.QtWidgets import QWidget

from app.qt.controls.section import Section
from app.qt.controls.switch import Choice, SwitchRow
from app.qt.drafts import show_or_put_away
from app.rider.inputs import FIELD, FIELDS, OF_LEG, Inputs, sided_names
from app.rider.setup import BOOTS, LEGS, Setup
from app.window.control_row import ControlRow
from app.words.field import Field
from app.words.language import msgid, tr

ALIKE, APART = "alike", "apart"
_CHOICES: Final = {
    LEGS: (
        Choice(
            ALIKE,
            msgid("alike"),
            msgid(
                "One number for both legs. Where they differ, both become as the leg in front is."
            ),
        ),
        Choice(APART, msgid("each leg"), msgid("Left and right leg have numbers of their own.")),
    ),
    BOOTS: (
        Choice(
            ALIKE,
            msgid("alike"),
            msgid(
                "One number for both boots. Where they differ, both become as the boot in front is."
            ),
        ),
        Choice(APART, msgid("each boot"), msgid("Left and right boot have numbers of their own.")),
    ),
}


class SidedRows:
    """The rows of one group in their section: one for both sides, or a left and a right one.

    The rows of either side are made when they are first asked for.

    Args:
        group: :data:`LEGS` or :data:`BOOTS`.
        section: what the rows stand in.
        make: the row of a field, wired to its panel.
    """

    def __init__(self, group: str, section: Section, make: Callable[[Field], ControlRow]) -> None:
        choices = [
            each._replace(text=tr(each.text), help=tr(each.help)) for each in _CHOICES[group]
        ]
        self.switch = SwitchRow(group, tr("Left and right"), choices)
        self._section, self._make = section, make
        self._rows: dict[str, ControlRow] = {}
        # What has no sides first, so that all below the switch follows it.
        fields = [field for field in FIELDS if field.group == group]
        self._fields = sorted(fields, key=lambda field: field.name in OF_LEG)
        for field in self._fields:
            row = self._rows[field.name] = make(field)
            if field.name in OF_LEG and self.switch.parent() is None:
                section.add(self.switch)
            section.add(row)
        self._group = group
        self._shown: tuple[bool, str] | None = None

    def show_sides(self, setup: Setup) -> bool:
        """Show one row for both sides or two, each with the hue of its place; True if others."""
        shown = setup.is_apart(self._group), setup.inputs.lead_foot
        if shown == self._shown:
            return False
        self._shown = shown
        self.switch.show_choice(APART if shown[0] else ALIKE)
        if shown[0]:
            self._make_sides()
        told = {*self.names()}
        for name, row in self._rows.items():
            show_or_put_away(row, shown=name in told)
            if row.field.side:
                row.set_hue(_end(setup.inputs, row.field.side))
        return True

    def names(self) -> tuple[str, ...]:
        """Of the rows that are shown, from top to bottom."""
        if self._shown is None or not self._shown[0]:
            return tuple(field.name for field in self._fields)
        return tuple(name for field in self._fields for name in sided_names(field.name))

    def _make_sides(self) -> None:
        """The rows of either side, each pair under the row for both."""
        for field in self._fields:
            last = self._rows[field.name]
            for name in sided_names(field.name):
                if name in self._rows:
                    continue
                row = self._rows[name] = self._make(FIELD[name])
                self._section.add(row, under=last)
                _tab_on(last, row)
                last = row


def _end(inputs: Inputs, side: str) -> str:
    """Where a side stands now: "front" or "rear"."""
    return "front" if inputs.side("front") == side else "rear"


def _tab_on(before: ControlRow, after: ControlRow) -> None:
    """Let the tabulator go from one row into the next."""
    QWidget.setTabOrder(before.mark or before.number, after.slider)
    QWidget.setTabOrder(after.slider, after.number)
    if after.mark is not None:
        QWidget.setTabOrder(after.number, after.mark)
