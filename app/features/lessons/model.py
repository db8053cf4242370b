"""A lesson as it is gone through: its stages, what each shows, and what is right.

A step that asks has several stages: the question over the state before it, the reveal, and
two contrasting cases.  Children are told first, and only what their words are given for.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property, lru_cache
from math import isfinite
from typing import Final, NamedTuple, TypeAlias

from app.rider.inputs import FIELD, Inputs, changed
from app.rider.instead import Instead
from app.rider.lessons import NO_TEXT, Changes, Condition, Lesson, Question, Step, Text
from app.rider.setup import Setup
from app.stance.findings import USUAL_LIMITS, Limits
from app.stance.quantities import QUANTITIES, State, filled, parted
from app.words.language import tr
from app.words.lengths import IN_MM, Lengths

TELL, ASK, REVEAL, ONE, TWO = "tell", "ask", "reveal", "one", "two"
"""Kinds of stages."""
MOST_TRIED: Final = 241
"""Places of a slider that are looked at for what is right."""
STILL_MM: Final = 3.0
"""A knee that moves less than this stays where it is (engineering choice, no source)."""
NEAR_MM: Final = 10.0
"""A predicted place of a knee nearer than this, or than half its way, is right (likewise)."""

Answer: TypeAlias = float | None
"""Place of the option chosen, value of the slider, or how far outward the knee was moved (mm)."""


class Stage(NamedTuple):
    """One thing that is shown: which step, and which part of it."""

    step: int
    part: str


def stages_of(lesson: Lesson, *, young: bool = False) -> tuple[Stage, ...]:
    """All that is shown, in its order."""
    stages: list[Stage] = []
    for i, step in enumerate(lesson.steps):
        if young and not words_for(lesson, step, young=True).said:
            continue
        if step.question is None:
            stages.append(Stage(i, TELL))
        elif young:
            stages += [Stage(i, TELL), Stage(i, ASK), Stage(i, REVEAL)]
        else:
            parts = ASK, REVEAL, *((ONE, TWO) if len(step.cases) == 2 else ())
            stages += [Stage(i, part) for part in parts]
    return tuple(stages)


def words_for(lesson: Lesson, step: Step, *, young: bool) -> Text:
    """What a step tells; children hear all of a lesson that has no words for them."""
    meant = young and any(each.child.said for each in lesson.steps)
    return step.child if meant else step.say


class Region(NamedTuple):
    """What is right on a slider; nan where nothing is.

    Attributes:
        low: the least value.
        high: the largest one.
        shown: the one that is shown: where it begins to be right, or in the middle where
            that is at neither end of the slider.
    """

    low: float
    high: float
    shown: float

    @property
    def exists(self) -> bool:
        """Whether any is right."""
        return isfinite(self.low)


_NAN: Final = float("nan")
NO_REGION: Final = Region(_NAN, _NAN, _NAN)


@dataclass(frozen=True)
class Going:
    """A lesson under the limits and in the unit of the one who is shown it."""

    lesson: Lesson
    limits: Limits = USUAL_LIMITS
    lengths: Lengths = IN_MM

    @cached_property
    def _states(self) -> dict[Inputs, State]:
        return {}

    def state(self, inputs: Inputs) -> State:
        """What is known of the rider with these inputs."""
        if inputs not in self._states:
            self._states[inputs] = State(inputs, self.limits, self.lengths)
        return self._states[inputs]

    # Which inputs

    def step(self, i: int) -> Step:
        """A step by its place."""
        return self.lesson.steps[i]

    def _with(self, changes: Changes) -> Inputs:
        return self.lesson.inputs_with(changes)

    def after(self, i: int) -> Inputs:
        """The state that a step ends in: of a slider, with what is right on it."""
        step = self.step(i)
        if step.question is not None and step.question.kind == "slider":
            region = right_region(self, i)
            if region.exists:
                return set_to(self._with(step.set), step.question, region.shown)
        return self._with(step.set)

    def before(self, i: int) -> Inputs:
        """The state over which a step asks: as the step before left it, but of a slider its own."""
        question = self.step(i).question
        if question is not None and question.kind == "slider":
            return self._with(self.step(i).set)
        return self.after(i - 1) if i else self.lesson.inputs

    def case(self, i: int, part: str) -> Inputs:
        """The first or the second contrasting case of a step."""
        return self._with(self.step(i).cases[part == TWO].set)

    def inputs_at(self, stage: Stage) -> Inputs:
        """The inputs that a stage shows."""
        if stage.part in (ONE, TWO):
            return self.case(stage.step, stage.part)
        return self.before(stage.step) if stage.part == ASK else self.after(stage.step)

    def states_at(self, stage: Stage) -> dict[str, State]:
        """The states by the names that texts and conditions know them by."""
        i = stage.step
        inputs = {"": self.inputs_at(stage), "before": self.before(i), "then": self.after(i)}
        if len(self.step(i).cases) == 2:
            inputs |= {part: self.case(i, part) for part in (ONE, TWO)}
        return {name: self.state(each) for name, each in inputs.items()}

    # What is shown and said

    def shown_at(self, stage: Stage) -> Instead:
        """What the drawings show: with the state before, or the other case, behind it."""
        i, step = stage.step, self.step(stage.step)
        inputs, behind, called = self.inputs_at(stage), None, ""
        if stage.part == REVEAL:
            behind, called = self.before(i), tr("before")
        elif stage.part == TWO:
            behind, called = self.case(i, ONE), tr("the one case")
        return Instead(
            _setup(inputs, tr("the lesson's rider")),
            _setup(behind, called) if behind is not None and behind != inputs else None,
            step.look,
            frozenset(step.mark),
        )

    def said_at(self, stage: Stage, *, young: bool = False) -> str:
        """What a stage tells or asks, its quantities filled in."""
        step = self.step(stage.step)
        if stage.part in (ONE, TWO):
            said = step.cases[stage.part == TWO].say
        elif stage.part == ASK and step.question is not None:
            said = step.question.ask
        else:
            said = words_for(self.lesson, step, young=young)
        return filled(said.said, self.states_at(stage))

    def options_at(self, stage: Stage) -> tuple[str, ...]:
        """What there is to choose from; empty where nothing is."""
        question = self.step(stage.step).question
        states = self.states_at(stage)
        return tuple(filled(each.say.said, states) for each in question.options) if question else ()


def set_to(inputs: Inputs, question: Question, value: float) -> Inputs:
    """The inputs with the slider of a question at a value."""
    return changed(inputs, **dict.fromkeys(question.inputs, value))


def _setup(inputs: Inputs, name: str) -> Setup:
    return Setup(name=name, inputs=inputs)


# What is right


def holds(condition: Condition, states: dict[str, State]) -> bool:
    """Whether a condition holds, numbers compared as they are written: to a tenth."""
    one = _number(condition.one, states)
    other = condition.other
    held = _number(other, states) if isinstance(other, str) else float(other)
    if not (isfinite(one) and isfinite(held)):
        return False
    by = round(one, 1) - round(held, 1)
    return {
        "<": by < -_GRAIN,
        "<=": by < _GRAIN,
        "=": abs(by) < _GRAIN,
        ">=": by > -_GRAIN,
        ">": by > _GRAIN,
    }[condition.sign]


_GRAIN: Final = 0.05
"""Less than the least difference of two numbers with one decimal."""


def _number(named: str, states: dict[str, State]) -> float:
    state, name = parted(named)
    return QUANTITIES[name].number(states[state]) if state in states else float("nan")


def right_options(going: Going, i: int) -> tuple[int, ...]:
    """Places of the options whose conditions all hold: one, in a sound lesson."""
    question = going.step(i).question
    if question is None:
        return ()
    states = going.states_at(Stage(i, REVEAL))
    return tuple(
        place
        for place, option in enumerate(question.options)
        if all(holds(each, states) for each in option.when)
    )


def right_region(going: Going, i: int) -> Region:
    """The values of a slider at which its conditions hold, as one row of them about the best.

    Where there are several rows the longest one counts.
    """
    step = going.step(i)
    question = step.question
    if question is None or question.kind != "slider":
        return NO_REGION
    # Another wording asks for the same.
    return _region(replace(question, ask=NO_TEXT), going.before(i), going.limits)


@lru_cache(maxsize=64)
def _region(question: Question, inputs: Inputs, limits: Limits) -> Region:
    best: list[float] = []
    row: list[float] = []
    values = slider_values(question)
    for value in values:
        row = [*row, value] if fulfils(question, inputs, value, limits) else []
        best = row if len(row) > len(best) else best
    if not best:
        return NO_REGION
    low, high = best[0], best[-1]
    if high >= values[-1] and low > values[0]:
        return Region(low, high, low)
    if low <= values[0] and high < values[-1]:
        return Region(low, high, high)
    return Region(low, high, best[len(best) // 2])


def slider_values(question: Question) -> list[float]:
    """The values of a slider that are looked at: on the grid of its plain step, or coarser."""
    step = FIELD[question.inputs[0]].step
    while (question.high - question.low) / step >= MOST_TRIED:
        step *= 2.0
    count = int((question.high - question.low) / step + 1e-9)
    return [round(question.low + k * step, 6) for k in range(count + 1)]


def fulfils(question: Question, inputs: Inputs, value: float, limits: Limits) -> bool:
    """Whether a value of a slider is right."""
    now = State(set_to(inputs, question, value), limits)
    states = {"": now, "then": now, "before": State(inputs, limits)}
    return all(holds(each, states) for each in question.until)


def knee_moves(going: Going, i: int) -> float:
    """How far outward the knee that a step asks of moves (mm); nan where it has no place."""
    question = going.step(i).question
    if question is None or not question.leg:
        return float("nan")
    before, after = going.state(going.before(i)), going.state(going.after(i))
    return after.knee_across(question.leg) - before.knee_across(question.leg)


def is_right(going: Going, i: int, answer: Answer) -> bool:
    """Whether an answer is right by the model."""
    question = going.step(i).question
    if question is None or answer is None:
        return False
    if question.kind == "choice":
        return right_options(going, i) == (answer,)
    if question.kind == "slider":
        return fulfils(question, going.before(i), float(answer), going.limits)
    moves = knee_moves(going, i)
    if not isfinite(moves):
        return False
    if abs(moves) < STILL_MM:
        return abs(answer) < NEAR_MM
    return answer * moves > 0.0 and abs(answer - moves) <= max(NEAR_MM, 0.5 * abs(moves))
