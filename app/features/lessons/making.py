"""What a coach makes of recorded states: their lines in the list, and questions over them."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from app.rider.inputs import ENDS, differing
from app.rider.lessons import Condition, Lesson, Option, Question, Step, Text
from app.words.bounds import in_one_line
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
    "knee.front": msgid("Where does the front knee go next? Put it there."),
    "knee.rear": msgid("Where does the rear knee go next? Put it there."),
    "choice.front": msgid("What comes next: how does the front knee fare?"),
    "choice.rear": msgid("What comes next: how does the rear knee fare?"),
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


def with_asked(step: Step, key: str) -> Step:
    """The step made to tell or to ask."""
    if not key:
        return replace(step, question=None)
    kind, _, end = key.partition(".")
    ask = Text((("", tr(_QUESTIONS[key])),))
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
    said = in_one_line(step.say.said, 60) or _changed(lesson, place, lengths)
    number = str(place + 1)
    if step.question is not None:
        return tr("{number}  asks: {words}", number=number, words=said)
    return f"{number}  {said}"


def _changed(lesson: Lesson, place: int, lengths: Lengths) -> str:
    if place == 0:
        return tr("The rider as recorded first")
    now, before = (lesson.inputs_with(lesson.steps[i].set) for i in (place, place - 1))
    fields = differing(now, before)
    named = [
        f"{each.label} {spoken(each, now.value(each.name), lengths)}"
        for each in fields[:SHOWN_CHANGES]
    ]
    more = ["…"] if len(fields) > SHOWN_CHANGES else []
    return ", ".join(named + more) or tr("As the step before")


def file_name(title: str) -> str:
    """A title as a file may be called."""
    kept = "".join(letter if letter.isalnum() else "-" for letter in title.lower()[:60])
    return kept.strip("-") or "lesson"
