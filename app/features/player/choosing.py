"""Choosing what is played: an example, the rider's own movement, or a sweep of one input."""

from __future__ import annotations

from functools import partial
from typing import Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from app.features.player.examples import EXAMPLES
from app.features.player.model import Sweep
from app.files.drafts import Draft
from app.qt.controls.choice_box import ChoiceBox
from app.qt.controls.layout import in_column, in_row
from app.qt.controls.typed_row import PlainNumber
from app.qt.literal import Label
from app.rider.inputs import FIELD, GROUPS, Inputs, fields_told
from app.words.field import Field
from app.words.language import ntr, tr
from app.words.lengths import IN_MM, Lengths

SWEEP, OWN = "sweep", "own"
"""What is played beside the examples, by its key."""
STEPS: Final = (0, 2, 4, 8, 12, 20)
"""In how many steps an input is swept; 0 for smoothly."""
ASIDE: Final = 0.18
"""How far to either side an input is swept at first, as a share of its range."""


def titles() -> dict[str, str]:
    """What can be played, by its key."""
    examples = {key: tr(example.title) for key, example in EXAMPLES.items()}
    return {**examples, OWN: tr("Own movement"), SWEEP: tr("Sweep of an input")}


def swept_fields(inputs: Inputs) -> tuple[Field, ...]:
    """The inputs that can be swept: all in the panel; the terms of the answer move no leg."""
    return tuple(field for field in fields_told(inputs) if field.group in GROUPS)


def sweep_usual(inputs: Inputs, name: str) -> Sweep:
    """A sweep to either side of the value in hand, on whole steps of the input."""
    field, now = FIELD[name], inputs.value(name)
    reach = max(field.step, round(ASIDE * (field.high - field.low) / field.step) * field.step)
    low, high = max(now - reach, field.low), min(now + reach, field.high)
    return Sweep(name, round(low, 6), round(high, 6))


class _SweepEnd(PlainNumber):
    """An end of what sweeps: in another window, something else may."""

    def takes(self, _draft: Draft) -> bool:
        """No: a sweep is kept nowhere, and what was typed of one may be none of another's."""
        return False


class SweepRow(QWidget):
    """Shows which input is swept, between which values and in how many steps."""

    asked = Signal(object)
    """This sweep is wanted."""
    told = Signal(str)
    """Why what was typed is not taken; "" when that has been read."""

    def __init__(self) -> None:
        super().__init__()
        self._sweep = Sweep("front_angle_deg", 0.0, 0.0)
        self._offered: tuple[str, ...] = ()
        self._inputs: Inputs | None = None
        self._lengths = IN_MM
        self.input = ChoiceBox(self.tr("Input that is swept"), {})
        self.input.chosen.connect(self._choose)
        any_field = FIELD["front_angle_deg"]
        self.start, self.end = _SweepEnd(any_field), _SweepEnd(any_field)
        for name, number in (("start", self.start), ("end", self.end)):
            number.setObjectName(f"sweep_{name}")
            number.asked.connect(partial(self._ask_end, name))
            number.told.connect(self.told)
        words = {0: self.tr("smoothly")}
        words |= {n: ntr("in {count} step", "in {count} steps", n) for n in STEPS if n}
        self.steps = ChoiceBox(self.tr("Steps"), words)
        self.steps.chosen.connect(lambda steps: self._ask(self._sweep._replace(steps=steps)))
        ends = in_row(
            Label(self.tr("from")), self.start, Label(self.tr("to")), self.end, self.steps, 1,
            spacing=6,
        )  # fmt: skip
        in_column(self.input, ends, of=self, spacing=6)

    def show_sweep(self, sweep: Sweep, inputs: Inputs, lengths: Lengths) -> None:
        """Show another sweep."""
        self._sweep, self._inputs, self._lengths = sweep, inputs, lengths
        fields = swept_fields(inputs)
        names = tuple(field.name for field in fields)
        if names != self._offered:
            self._offered = names
            self.input.offer({field.name: field.label for field in fields})
        self.input.show_choice(sweep.name)
        for number, value, said in (
            (self.start, sweep.start, self.tr("From")),
            (self.end, sweep.end, self.tr("To")),
        ):
            number.field = FIELD[sweep.name]
            number.show_lengths(lengths)
            number.setAccessibleName(f"{FIELD[sweep.name].label}: {said}")
            number.show_value(value)
        self.steps.show_choice(sweep.steps)

    def _choose(self, name: str) -> None:
        if self._inputs is not None:
            self._ask(sweep_usual(self._inputs, name)._replace(steps=self._sweep.steps))

    def _ask_end(self, end: str, _name: str, value: float) -> None:
        sweep = self._sweep
        at_start = end == "start"
        self._ask(sweep._replace(start=value) if at_start else sweep._replace(end=value))

    def _ask(self, sweep: Sweep) -> None:
        if sweep.start == sweep.end:
            self.show_sweep(self._sweep, self._inputs or Inputs(), self._lengths)
            self.told.emit(self.tr("A sweep needs two values that differ; the former ones stand."))
            return
        self.asked.emit(sweep)
