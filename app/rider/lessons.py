"""Lessons: a rider, and steps that show and ask what a stance does to the knees.

A lesson holds no results.  What it says of angles and lengths stands in its texts as the
names of quantities in braces, and which answer is right as conditions on quantities; both
are worked out from the model when the lesson is shown.

``unknown_keys`` is what else a file holds of a thing that this version does not know, as
JSON text; it is written back as it was.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Final, TypeAlias

from app.rider.inputs import DEFAULTS, FIELDS, Inputs, changed, sided_names
from app.words.language import SOURCE, spoken

MOST_STEPS: Final = 60
"""Steps of one lesson (engineering choice, no source)."""
KINDS: Final = ("choice", "slider", "knee")
"""Ways to answer a question."""
SIGNS: Final = ("<", "<=", "=", ">=", ">")
"""How a condition compares; all of them as the numbers are written, to a tenth."""
LOOKS: Final = ("", "facing", "front", "rear")
"""How the front view looks in a step; "" for as it did."""

Changes: TypeAlias = tuple[tuple[str, float], ...]
"""Inputs by name that differ from those of the lesson's rider."""


@dataclass(frozen=True, slots=True)
class Text:
    """A text in one or several languages, by their codes; "" where none is named."""

    by_language: tuple[tuple[str, str], ...] = ()

    @property
    def said(self) -> str:
        """In the language in force; else in English, else in whichever there is."""
        texts = dict(self.by_language)
        for code in (spoken(), "", SOURCE):
            if code in texts:
                return texts[code]
        return next(iter(texts.values()), "")

    def with_said(self, text: str) -> Text:
        """With other words in the language in which it is said now."""
        texts = dict(self.by_language)
        code = next((c for c in (spoken(), "", SOURCE) if c in texts), "")
        return Text(tuple({**texts, code: text}.items()))


NO_TEXT: Final = Text()


@dataclass(frozen=True, slots=True)
class Condition:
    """That a quantity is less or more than another, or than a number.

    Attributes:
        one: name of a quantity, with the state in front: "before.rear_off_plane".
        sign: one of :data:`SIGNS`.
        other: another such name, or a number.
    """

    one: str
    sign: str
    other: str | float


@dataclass(frozen=True, slots=True)
class Option:
    """One of the answers to choose from; it is right where all its conditions hold."""

    say: Text
    when: tuple[Condition, ...]
    unknown_keys: str = ""


@dataclass(frozen=True, slots=True)
class Question:
    """What the student predicts before it is shown.

    Attributes:
        kind: one of :data:`KINDS`.
        ask: the question.
        options: of a choice.
        leg: whose knee is to be dragged, "front" or "rear".
        inputs: of a slider: names of what it sets, all to the same value.
        low: end of the slider.
        high: its other end.
        until: of a slider: what must hold where it is right.
    """

    kind: str
    ask: Text
    options: tuple[Option, ...] = ()
    leg: str = ""
    inputs: tuple[str, ...] = ()
    low: float = 0.0
    high: float = 0.0
    until: tuple[Condition, ...] = ()
    unknown_keys: str = ""


@dataclass(frozen=True, slots=True)
class Case:
    """One of two contrasting cases after the reveal."""

    say: Text
    set: Changes
    unknown_keys: str = ""


@dataclass(frozen=True, slots=True)
class Step:
    """One state of the lesson's rider, and what is said or asked of it.

    Attributes:
        say: what is told; after a question, the reveal.
        child: the same for children, shorter; they skip a step without it.
        set: what differs from the lesson's rider in the state shown at the end.
        look: one of :data:`LOOKS`.
        mark: names of inputs or keys of marks that stand out.
        question: is asked before the state is shown; None for none.
        cases: two contrasting ones, or none.
    """

    say: Text = NO_TEXT
    child: Text = NO_TEXT
    set: Changes = ()
    look: str = ""
    mark: tuple[str, ...] = ()
    question: Question | None = None
    cases: tuple[Case, ...] = ()
    unknown_keys: str = ""


@dataclass(frozen=True, slots=True)
class Lesson:
    """A lesson.

    Attributes:
        title: of the lesson.
        about: what it teaches, in a sentence.
        inputs: its own rider.
        steps: in their order.
    """

    title: Text = NO_TEXT
    about: Text = NO_TEXT
    inputs: Inputs = DEFAULTS
    steps: tuple[Step, ...] = ()

    def inputs_with(self, changes: Changes) -> Inputs:
        """The rider's inputs in a state.

        Raises:
            InputError: a name is unknown or a value cannot be taken.
        """
        return changed(self.inputs, **dict(changes))


NO_LESSON: Final = Lesson()


# Recording


def recorded(lesson: Lesson, inputs: Inputs) -> Lesson:
    """The lesson with a step more: the state in hand.

    The first one makes the rider.  A rider who leads with the other foot since is mirrored,
    which no step can hold; the state is taken as the lesson's rider would stand in it.
    """
    if not lesson.steps:
        return replace(lesson, inputs=inputs, steps=(Step(),))
    return replace(lesson, steps=(*lesson.steps, Step(set=changes_between(lesson.inputs, inputs))))


def changes_between(rider: Inputs, inputs: Inputs) -> Changes:
    """What differs in a state from the rider."""
    names = (name for field in FIELDS for name in sided_names(field.name))
    return tuple(
        (name, inputs.value(name)) for name in names if inputs.value(name) != rider.value(name)
    )


def with_step(lesson: Lesson, place: int, step: Step) -> Lesson:
    """The lesson with another step in a place."""
    steps = lesson.steps
    return replace(lesson, steps=(*steps[:place], step, *steps[place + 1 :]))


def without_step(lesson: Lesson, place: int) -> Lesson:
    """The lesson without the step in a place."""
    return replace(lesson, steps=(*lesson.steps[:place], *lesson.steps[place + 1 :]))


def moved_step(lesson: Lesson, place: int, by: int) -> Lesson:
    """The lesson with a step moved later, or sooner; as it was where it would leave the row."""
    there = place + by
    if not 0 <= there < len(lesson.steps):
        return lesson
    rest = [*lesson.steps]
    rest.insert(there, rest.pop(place))
    return replace(lesson, steps=tuple(rest))


def texts_of(lesson: Lesson) -> Iterable[Text]:
    """Every text of a lesson."""
    yield lesson.title
    yield lesson.about
    for step in lesson.steps:
        yield from (step.say, step.child)
        yield from (case.say for case in step.cases)
        if step.question is not None:
            yield step.question.ask
            yield from (option.say for option in step.question.options)
