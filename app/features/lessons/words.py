"""What the page of lessons says beside the lesson's own words: verdicts, places, counts."""

from __future__ import annotations

from math import isfinite
from typing import Final

from app.features.lessons.model import (
    ASK,
    ONE,
    REVEAL,
    STILL_MM,
    TWO,
    Answer,
    Going,
    Stage,
    is_right,
    knee_moves,
    right_options,
    right_region,
)
from app.rider.inputs import FIELD
from app.rider.lessons import Lesson, Question
from app.words.bounds import in_one_line, shortened
from app.words.language import msgid, tr
from app.words.lengths import Lengths
from app.words.sentences import spoken

_PARTS: Final = {
    ASK: msgid("What do you expect?"),
    REVEAL: msgid("What the model says"),
    ONE: msgid("One case"),
    TWO: msgid("The other case"),
}
_NO_OPTION: Final = msgid("None of these answers alone holds for this rider.")
_NO_VALUE: Final = msgid("No value on this scale is right for this rider.")
_NO_PLACE: Final = msgid("No posture is left here: the leg cannot reach.")
LONGEST: Final = 1200
"""Letters of a text that is read at a time, from a picture or a page."""
MOST_LINES: Final = 12
"""Lines of such a text that its own line ends make."""
LONGEST_OPTION: Final = 200
"""Letters of an answer to choose."""
LONGEST_WORD: Final = 45
"""Letters of a word that every line has room for."""
_LEGS: Final = {"front": msgid("front knee"), "rear": msgid("rear knee")}


_HOW: Final = {
    "choice": msgid("Choose an answer, or press its number."),
    "slider": msgid("Set the slider to what you expect."),
    "knee": msgid("Drag the knee to where you expect it, or move it with the arrow keys."),
}
_TRY: Final = {"slider": msgid("Move the slider and watch the numbers.")}


def how_words(question: Question | None, part: str) -> str:
    """How a question is answered, and what can be tried once it has been; "" for neither."""
    told = {ASK: _HOW, REVEAL: _TRY}.get(part, {})
    return tr(told[question.kind]) if question is not None and question.kind in told else ""


def heading_of(stage: Stage) -> str:
    """What stands over a stage; "" where nothing needs to."""
    return tr(_PARTS[stage.part]) if stage.part in _PARTS else ""


def place_words(at: int, count: int) -> str:
    """How far one has come."""
    return tr("{place} of {count}", place=str(at + 1), count=str(count))


def title_words(lesson: Lesson) -> str:
    """What a lesson is called."""
    return in_one_line(lesson.title.said) or tr("Lesson without a title")


def readable(text: str) -> str:
    """As much of a text of any length as is read at a time, without endless words."""
    said = [
        " ".join(_broken(word) for word in line.split())
        for line in shortened(text, LONGEST).splitlines()
    ]
    lines = [line for line in said if line]
    return "\n".join((*lines[: MOST_LINES - 1], " ".join(lines[MOST_LINES - 1 :]))).rstrip()


def _broken(word: str) -> str:
    return " ".join(word[at : at + LONGEST_WORD] for at in range(0, len(word), LONGEST_WORD))


def value_words(question: Question, value: float, lengths: Lengths) -> str:
    """What a slider of a question is set to."""
    return spoken(FIELD[question.inputs[0]], value, lengths)


def moved_words(moved_mm: float, lengths: Lengths) -> str:
    """How far a knee was moved, and which way."""
    if abs(moved_mm) < STILL_MM:
        return tr("where it is")
    by = lengths.text(abs(moved_mm), 0)
    return tr("{length} outward", length=by) if moved_mm > 0.0 else tr("{length} inward", length=by)


def leg_words(leg: str) -> str:
    """What a knee is called."""
    return tr(_LEGS[leg])


def question_words(going: Going, stage: Stage) -> str:
    """What is asked, and under it what there is to choose from, for a page or a picture."""
    question = going.step(stage.step).question
    asked = readable(going.said_at(stage))
    if question is None or question.kind == "knee":
        return asked
    return "\n".join((asked, *offered_words(going, stage)))


def offered_words(going: Going, stage: Stage) -> tuple[str, ...]:
    """The answers of a choice, by their numbers, or the ends of a slider; none for a knee."""
    question = going.step(stage.step).question
    if question is None or question.kind == "knee":
        return ()
    if question.kind == "choice":
        options = going.options_at(stage)
        said = (readable(in_one_line(each, LONGEST_OPTION)) for each in options)
        return tuple(f"{place}  {each}" for place, each in enumerate(said, 1))
    low, high = (value_words(question, end, going.lengths) for end in (question.low, question.high))
    return (tr("Somewhere from {low} to {high}.", low=low, high=high),)


def answer_words(going: Going, i: int) -> str:
    """What is right, to one whose answer is not known."""
    question = going.step(i).question
    if question is None:
        return ""
    return {"choice": _right_option, "slider": _right_value, "knee": _right_place}[question.kind](
        going, i, question
    )


def _right_option(going: Going, i: int, _question: Question) -> str:
    held, options = right_options(going, i), going.options_at(Stage(i, REVEAL))
    if len(held) != 1:
        return tr(_NO_OPTION)
    return tr(
        "It is this: {right}", right=_ended(readable(in_one_line(options[held[0]], LONGEST_OPTION)))
    )


def _right_value(going: Going, i: int, question: Question) -> str:
    region = right_region(going, i)
    if not region.exists:
        return tr(_NO_VALUE)
    low, high, enough = (
        value_words(question, value, going.lengths)
        for value in (region.low, region.high, region.shown)
    )
    if region.shown in (region.low, region.high):
        return tr("It takes {right}.", right=enough)
    return tr("It takes {low} to {high}.", low=low, high=high)


def _right_place(going: Going, i: int, _question: Question) -> str:
    moves = knee_moves(going, i)
    if not isfinite(moves):
        return tr(_NO_PLACE)
    if abs(moves) < STILL_MM:
        return tr("The knee stays where it is.")
    return tr("The knee goes {real}.", real=moved_words(moves, going.lengths))


def verdict(going: Going, i: int, answer: Answer) -> str:
    """How an answer fares against the model, in a sentence."""
    question = going.step(i).question
    if question is None or answer is None:
        return ""
    right = is_right(going, i, answer)
    said = {"choice": _of_choice, "slider": _of_slider, "knee": _of_knee}[question.kind]
    return said(going, i, answer, right)


def _of_choice(going: Going, i: int, answer: float, right: bool) -> str:
    options = going.options_at(Stage(i, REVEAL))
    yours = options[int(answer)]
    if right:
        return tr("You expected: {yours} That is right.", yours=_ended(yours))
    held = right_options(going, i)
    if len(held) != 1:
        return tr(_NO_OPTION)
    return tr(
        "You expected: {yours} It is this: {right}",
        yours=_ended(yours),
        right=_ended(options[held[0]]),
    )


def _of_slider(going: Going, i: int, answer: float, right: bool) -> str:
    question = going.step(i).question
    region = right_region(going, i)
    if question is None or not region.exists:
        return tr(_NO_VALUE)
    values = answer, region.low, region.high, region.shown
    yours, low, high, enough = (value_words(question, value, going.lengths) for value in values)
    if region.shown in (region.low, region.high):
        if not right:
            return tr("You set {yours}. It takes {right}.", yours=yours, right=enough)
        if yours == enough:
            return tr("You set {yours}. That is right.", yours=yours)
        return tr(
            "You set {yours}. That would do, but {right} is enough.", yours=yours, right=enough
        )
    if right:
        said = tr("You set {yours}. That is right: {low} to {high} will do.")
    else:
        said = tr("You set {yours}. It takes {low} to {high}.")
    return said.format(yours=yours, low=low, high=high)


def _of_knee(going: Going, i: int, answer: float, right: bool) -> str:
    moves = knee_moves(going, i)
    if not isfinite(moves):
        return tr(_NO_PLACE)
    yours, real = (moved_words(each, going.lengths) for each in (answer, moves))
    if right:
        return tr(
            "You put the knee {yours}; it goes {real}. That is right.", yours=yours, real=real
        )
    return tr("You put the knee {yours}; it goes {real}.", yours=yours, real=real)


def _ended(text: str) -> str:
    return text if text.endswith((".", "!", "?")) else f"{text}."
