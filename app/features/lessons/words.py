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
from app.rider.lessons import Question
from app.words.language import msgid, tr
from app.words.lengths import Lengths
from app.words.sentences import spoken

_PARTS: Final = {
    ASK: msgid("What do you expect?"),
    REVEAL: msgid("What the model says"),
    ONE: msgid("One case"),
    TWO: msgid("The other case"),
}
_LEGS: Final = {"front": msgid("front knee"), "rear": msgid("rear knee")}


def heading_of(stage: Stage) -> str:
    """What stands over a stage; "" where nothing needs to."""
    return tr(_PARTS[stage.part]) if stage.part in _PARTS else ""


def place_words(at: int, count: int) -> str:
    """How far one has come."""
    return tr("{place} of {count}", place=str(at + 1), count=str(count))


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
        return tr("None of these answers alone holds for this rider.")
    return tr(
        "You expected: {yours} It is this: {right}",
        yours=_ended(yours),
        right=_ended(options[held[0]]),
    )


def _of_slider(going: Going, i: int, answer: float, right: bool) -> str:
    question = going.step(i).question
    region = right_region(going, i)
    if question is None or not region.exists:
        return tr("No value on this scale is right for this rider.")
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
        return tr("No posture is left here: the leg cannot reach.")
    yours, real = (moved_words(each, going.lengths) for each in (answer, moves))
    if right:
        return tr(
            "You put the knee {yours}; it goes {real}. That is right.", yours=yours, real=real
        )
    return tr("You put the knee {yours}; it goes {real}.", yours=yours, real=real)


def _ended(text: str) -> str:
    return text if text.endswith((".", "!", "?")) else f"{text}."
