"""What a coach makes of recorded states: their lines in the list, and questions over them."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from app.rider.inputs import ENDS, differing
from app.rider.lessons import Condition, Lesson, Option, Question, Step, Text
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
        return replace(step, question=None)
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
