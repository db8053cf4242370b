"""What a coach makes of recorded states: their lines in the list, and questions over them."""

from __future__ import annotations

from dataclasses import replace
from typing import Final, NamedTuple

from app.rider.inputs import (
    ENDS,
    FIELD,
    GROUPS,
    Inputs,
    changed,
    differing,
    fields_told,
    model,
)
from app.rider.lessons import Case, Condition, Lesson, Option, Question, Step, Text
from app.stance.findings import USUAL_LIMITS
from app.words.bounds import in_one_line
from app.words.field import Field
from app.words.language import msgid, tr
from app.words.lengths import Lengths
from app.words.sentences import spoken

ASKS: Final = {
    "": msgid("Tell"),
    "knee.front": msgid("Ask where the front knee goes"),
    "knee.rear": msgid("Ask where the rear knee goes"),
    "choice.front": msgid("Ask how the front knee fares"),
    "choice.rear": msgid("Ask how the rear knee fares"),
    "slider": msgid("Ask for a value on a slider"),
}
"""What a recorded step can do: tell, or ask before it shows its state."""
_QUESTIONS: Final = {
    "knee.front": msgid("{changes}: where does the front knee go?"),
    "knee.rear": msgid("{changes}: where does the rear knee go?"),
    "choice.front": msgid("{changes}: how does the front knee fare?"),
    "choice.rear": msgid("{changes}: how does the rear knee fare?"),
}
_FARES: Final = (
    (msgid("It comes nearer its plane"), "<"),
    (msgid("It stays as it is"), "="),
    (msgid("It goes further out"), ">"),
)
SHOWN_CHANGES: Final = 3
"""Changes that are named in the line of a step."""


def asked_of(step: Step) -> str:
    """What a step does, a key of :data:`ASKS`."""
    question = step.question
    if question is None:
        return ""
    if question.kind == "slider":
        return "slider"
    for key in ASKS:
        kind, _, end = key.partition(".")
        if kind == question.kind and end in (question.leg, _compared(question)):
            return key
    return ""


def _compared(question: Question) -> str:
    """Whose knee the answers of a choice compare."""
    named = {each.one.rpartition(".")[2] for option in question.options for each in option.when}
    return next((end for end in ENDS if f"{end}_knee" in named), "none")


def with_asked(lesson: Lesson, place: int, key: str) -> Step:
    """A step made to tell or to ask; a question names what changes, as long as that is short."""
    step = lesson.steps[place]
    if not key:
        return replace(step, question=None, cases=())
    if key == "slider":
        return replace(step, question=asked_by_slider(first_slide(lesson, place)), cases=())
    kind, _, end = key.partition(".")
    # The value follows the model's like all others.
    named = [
        f"{each.label} {{then.{each.name}}}" for each in _changed(lesson, place)[:SHOWN_CHANGES]
    ]
    changes = ", ".join(named) or tr("As the step before")
    ask = Text((("", tr(_QUESTIONS[key], changes=changes)),))
    if kind == "knee":
        return replace(step, question=Question("knee", ask, leg=end))
    options = tuple(
        Option(
            Text((("", tr(text)),)),
            (Condition(f"then.{end}_knee", sign, f"before.{end}_knee"),),
        )
        for text, sign in _FARES
    )
    return replace(step, question=Question("choice", ask, options=options))


# Contrasting cases

_CASES: Final = (
    msgid("Before: the front knee is {front_knee}, the rear knee {rear_knee}."),
    msgid("After: the front knee is {front_knee}, the rear knee {rear_knee}."),
)


def can_contrast(lesson: Lesson, place: int) -> bool:
    """Whether a question can be followed by the state before it and the one after it."""
    question = lesson.steps[place].question if 0 < place < len(lesson.steps) else None
    return question is not None and question.kind != "slider"


def with_contrast(lesson: Lesson, place: int, *, contrasts: bool) -> Step:
    """A step that shows both states once more after its reveal, or none."""
    step = lesson.steps[place]
    if not contrasts or not can_contrast(lesson, place):
        return replace(step, cases=())
    states = lesson.steps[place - 1].set, step.set
    cases = (
        Case(Text((("", tr(words)),)), state) for words, state in zip(_CASES, states, strict=True)
    )
    return replace(step, cases=tuple(cases))


# Questions that are answered with a slider


class Slide(NamedTuple):
    """What a question with a slider asks for.

    Attributes:
        inputs: names of what the slider sets, all to the same value.
        low: its lower end.
        high: its upper end.
        goal: whose knee is to come near its plane, a key of :data:`GOALS`; "" for whatever
            else the lesson's file says.
        within_deg: how near is near enough.
    """

    inputs: tuple[str, ...]
    low: float
    high: float
    goal: str
    within_deg: float


GOALS: Final = {
    "front": msgid("until the front knee is in its plane"),
    "rear": msgid("until the rear knee is in its plane"),
    "both": msgid("until both knees are in their planes"),
}
"""What can be asked for."""
WITHIN: Final = Field(
    "within_deg", "lesson", msgid("Out of plane at most"), "deg", 0.0, 20.0, 0.5,
    msgid("How far a knee may still be out of its plane where the answer counts as right."),
)  # fmt: skip
_TOLD_BY: Final = "then.{end}_knee"
_SLID: Final = {
    "front": msgid("{inputs}: from where on is the front knee in its plane?"),
    "rear": msgid("{inputs}: from where on is the rear knee in its plane?"),
    "both": msgid("{inputs}: from where on are both knees in their planes?"),
}
_TOGETHER: Final = tuple(
    (f"front_{what}", f"rear_{what}") for what in ("angle_deg", "cant_deg", "lift_deg")
)
"""Inputs of both bindings that one slider may set alike."""


def slidable(inputs: Inputs) -> dict[tuple[str, ...], str]:
    """What a slider can set of a rider, with what it is called: one input, or both bindings'.

    Without what contradicts the rider somewhere on its way, such as a knee over the hip.
    """
    names = [
        (field.name,)
        for field in fields_told(inputs)
        if field.group in GROUPS
        and all(_can_be(inputs, field.name, end) for end in (field.low, field.high))
    ]
    return {each: slid_words(each) for each in (*names, *_TOGETHER)}


def _can_be(inputs: Inputs, name: str, value: float) -> bool:
    try:
        model(changed(inputs, **{name: value}))
    except ValueError:
        return False
    return True


def slid_words(names: tuple[str, ...]) -> str:
    """What a slider sets, in words."""
    return " + ".join(FIELD[name].label for name in names)


def first_slide(lesson: Lesson, place: int) -> Slide:
    """What a question with a slider asks for before anything else is chosen."""
    can = slidable(lesson.inputs_with(lesson.steps[place].set))
    now = [field.name for field in _changed(lesson, place) if (field.name,) in can]
    field = FIELD[now[0] if now else "front_cant_deg"]
    return Slide((field.name,), field.low, field.high, "both", USUAL_LIMITS.in_plane_deg)


def slide_of(question: Question) -> Slide:
    """What a question with a slider asks for."""
    for goal in GOALS:
        held = {each.other for each in question.until}
        within = held.pop() if len(held) == 1 else ""
        if isinstance(within, float) and question.until == _until(goal, within):
            return Slide(question.inputs, question.low, question.high, goal, within)
    return Slide(question.inputs, question.low, question.high, "", USUAL_LIMITS.in_plane_deg)


def asked_by_slider(slide: Slide) -> Question:
    """The question that asks for it, in words that name what is set."""
    return Question(
        "slider",
        Text((("", _asking(slide)),)),
        inputs=slide.inputs,
        low=slide.low,
        high=slide.high,
        until=_until(slide.goal, slide.within_deg),
    )


def with_slide(step: Step, slide: Slide) -> Step:
    """The step asking for something else; words that were ours follow, a coach's own stay."""
    question = step.question
    if question is None:
        return step
    before, made = slide_of(question), asked_by_slider(slide)
    ours = bool(before.goal) and question.ask.said == _asking(before)
    kept = replace(
        question,
        ask=made.ask if ours else question.ask,
        inputs=made.inputs,
        low=made.low,
        high=made.high,
        until=made.until if slide.goal else question.until,
    )
    return replace(step, question=kept)


def _until(goal: str, within_deg: float) -> tuple[Condition, ...]:
    ends = ENDS if goal == "both" else (goal,)
    return tuple(Condition(_TOLD_BY.format(end=end), "<=", within_deg) for end in ends)


def _asking(slide: Slide) -> str:
    inputs = slid_words(slide.inputs)
    return tr(_SLID[slide.goal], inputs=inputs) if slide.goal else inputs


def step_line(lesson: Lesson, place: int, lengths: Lengths) -> str:
    """A step in a line: its words, else what is set in it since the one before."""
    step = lesson.steps[place]
    said = in_one_line(step.say.said, 60) or _told_changes(lesson, place, lengths)
    number = str(place + 1)
    if step.question is not None:
        return tr("{number}  asks: {words}", number=number, words=said)
    return f"{number}  {said}"


def _changed(lesson: Lesson, place: int) -> tuple[Field, ...]:
    """What is set otherwise in a step than in the one before."""
    if place == 0:
        return ()
    now, before = (lesson.inputs_with(lesson.steps[i].set) for i in (place, place - 1))
    return differing(now, before)


def _told_changes(lesson: Lesson, place: int, lengths: Lengths) -> str:
    if place == 0:
        return tr("The rider as recorded first")
    now, fields = lesson.inputs_with(lesson.steps[place].set), _changed(lesson, place)
    named = [
        f"{each.label} {spoken(each, now.value(each.name), lengths)}"
        for each in fields[:SHOWN_CHANGES]
    ]
    more = ["…"] if len(fields) > SHOWN_CHANGES else []
    return ", ".join(named + more) or tr("As the step before")


def with_question(step: Step, words: str) -> Step:
    """The step with another wording of what it asks."""
    question = step.question
    if question is None:
        return step
    return replace(step, question=replace(question, ask=question.ask.with_said(words)))


def file_name(title: str) -> str:
    """A title as a file may be called."""
    kept = "".join(letter if letter.isalnum() else "-" for letter in title.lower()[:60])
    return kept.strip("-") or "lesson"
