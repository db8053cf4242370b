"""What a question with a slider asks for: which input, between which ends, until what holds."""

from __future__ import annotations

from functools import partial
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from app.features.lessons.making import GOALS, WITHIN, Slide, slid_words, slidable
from app.qt.controls.choice_box import ChoiceBox
from app.qt.controls.layout import in_column, in_row
from app.qt.controls.typed_row import PlainNumber
from app.qt.literal import Label
from app.rider.inputs import FIELD, Inputs
from app.words.language import tr
from app.words.lengths import Lengths


class SlideRow(QWidget):
    """Shows what is asked for and tells what is wanted instead; keeps nothing itself."""

    asked = Signal(object)
    """This :class:`~app.features.lessons.making.Slide` is wanted."""
    told = Signal(str)
    """Why what was typed is not taken; "" when that has been read."""

    def __init__(self) -> None:
        super().__init__()
        self._slide: Slide | None = None
        self._offered: tuple[tuple[str, ...], ...] = ()
        self.input = ChoiceBox(self.tr("What the slider sets"), {})
        self.goal = ChoiceBox(self.tr("Until what holds"), {})
        for box in (self.input, self.goal):
            box.setSizeAdjustPolicy(
                ChoiceBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
            )
            box.setMinimumContentsLength(10)
        self.input.chosen.connect(self._choose)
        self.goal.chosen.connect(lambda goal: self._ask(goal=goal))
        any_field = FIELD["front_angle_deg"]
        self.low, self.high = PlainNumber(any_field), PlainNumber(any_field)
        self.within = PlainNumber(WITHIN)
        for name, number in (("low", self.low), ("high", self.high), ("within_deg", self.within)):
            number.setObjectName(f"slide_{name}")
            number.asked.connect(partial(self._take, name))
            number.told.connect(self.told)
        ends = in_row(
            Label(self.tr("from")), self.low, Label(self.tr("to")), self.high, 1, spacing=6
        )
        until = in_row((self.goal, 1), Label(self.tr("within")), self.within, spacing=6)
        in_column(in_row((self.input, 1), ends, spacing=6), until, of=self, spacing=6)

    def show_slide(self, slide: Slide, inputs: Inputs, lengths: Lengths) -> None:
        """Show what is asked for of a rider."""
        self._slide = slide
        offered = slidable(inputs)
        # What a file asks for is offered too, whatever it sets together.
        offered.setdefault(slide.inputs, slid_words(slide.inputs))
        if tuple(offered) != self._offered:
            self._offered = tuple(offered)
            self.input.offer(dict(enumerate(offered.values())))
        self.input.show_choice(self._offered.index(slide.inputs))
        goals = {goal: tr(words) for goal, words in GOALS.items()}
        self.goal.offer(goals if slide.goal else {"": self.tr("as the file says"), **goals})
        self.goal.show_choice(slide.goal)
        label = FIELD[slide.inputs[0]].label
        for number, value, said in (
            (self.low, slide.low, self.tr("From")),
            (self.high, slide.high, self.tr("To")),
        ):
            number.field = FIELD[slide.inputs[0]]
            number.show_lengths(lengths)
            number.setAccessibleName(f"{label}: {said}")
            number.show_value(value)
        self.within.show_value(slide.within_deg)
        self.within.setEnabled(bool(slide.goal))

    def _choose(self, place: int) -> None:
        """Set something else, from one end of its range to the other."""
        names = self._offered[place]
        field = FIELD[names[0]]
        self._ask(inputs=names, low=field.low, high=field.high)

    def _take(self, part: str, _name: str, value: float) -> None:
        self._ask(**{part: value})

    def _ask(self, **parts: Any) -> None:
        if self._slide is None:
            return
        wanted = self._slide._replace(**parts)
        if wanted.low >= wanted.high:
            for number, value in ((self.low, self._slide.low), (self.high, self._slide.high)):
                number.show_value(value)
            self.told.emit(self.tr("A slider goes from less to more; the former ends stand."))
            return
        self.asked.emit(wanted)
