"""What stands on a handout: what to begin with, why, the steps at the bench, what to watch.

In the words of the answer's page and of the fit sheet, each of which says it of the same numbers.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from typing import Final

from app.features.paper.fit_sheet_text import LONGEST_READ, Pair, lines_of
from app.frame import Frame
from app.rider.cuffs import cuff_words
from app.rider.inputs import FIELD, Inputs
from app.rider.setup import Setup
from app.stance.answer import Answer, FootAnswer, answer_of
from app.stance.answer_words import (
    bench_steps,
    boot_words,
    both_words,
    knee_words,
    left_words,
    next_words,
    range_words,
    source_words,
    why_words,
)
from app.stance.findings import CAUTION, Limits
from app.stance.mending import Mend, mending_of
from app.words.bounds import shortened
from app.words.language import msgid, tr
from app.words.lengths import Lengths
from app.words.sentences import as_sentence, plain, spoken

LONGEST_WORD: Final = 45
"""Letters of a word that every line has room for in the largest type."""
_FEET: Final = {"front": msgid("Front foot"), "rear": msgid("Rear foot")}
_KNEES: Final = {"front": msgid("Front knee: {finding}."), "rear": msgid("Rear knee: {finding}.")}
_BOOTS: Final = {"front": msgid("Front boot: {finding}."), "rear": msgid("Rear boot: {finding}.")}


@dataclass(frozen=True, slots=True)
class FootText:
    """What one foot begins with.

    Attributes:
        end: "front" or "rear".
        foot: what it is called.
        mount: lift and cant, or that there is none.
        sure: the same with their likely ranges; "" where there is no answer.
        why: in sentences.
    """

    end: str
    foot: str
    mount: str
    sure: str
    why: str


@dataclass(frozen=True, slots=True)
class HandoutText:
    """All words of a handout, in the order of its pages.

    Attributes:
        name: whose it is; "" where that is not to be told.
        stance: what it is true of.
        drawing: what the drawings show.
        feet: what both feet begin with.
        steps: what to do at the bench, one after another.
        watch: what to keep an eye on, a passage each.
        notes: whatever was written about the set-up; "" where that is not to be told.
        caution: what the handout is not.
        day: as "2026-01-31".
    """

    name: str
    stance: tuple[Pair, ...]
    drawing: str
    feet: tuple[FootText, ...]
    steps: tuple[str, ...]
    watch: tuple[str, ...]
    notes: str
    caution: str
    day: str


def with_answer_on(setup: Setup, answer: Answer) -> Setup:
    """The set-up with what both feet begin with on; as it stands where there is no answer."""
    if not answer.exists:
        return setup
    return replace(setup, inputs=replace(setup.inputs, **answer.mounts._asdict()))


def handout_text(
    frame: Frame, on: date, *, named: bool = False, notes: bool = False
) -> HandoutText:
    """The words of the handout of a stance on a day.

    Args:
        frame: the stance as it stands.
        on: the day.
        named: whether the set-up's name is to be told.
        notes: whether its notes are.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """
    setup, lengths = frame.setup, frame.lengths
    answer = answer_of(setup, frame.limits)
    return HandoutText(
        name=setup.called if named else "",
        stance=_stance(setup.inputs, lengths),
        drawing=_drawing(setup.inputs, answer),
        feet=tuple(_foot(foot, answer, setup.inputs, lengths) for foot in answer.feet),
        steps=_steps(answer, setup.inputs),
        watch=_watch(setup, answer, frame.limits, lengths),
        notes=lines_of(shortened(setup.notes, LONGEST_READ), LONGEST_WORD) if notes else "",
        caution=tr(CAUTION),
        day=on.isoformat(),
    )


def _stance(inputs: Inputs, lengths: Lengths) -> tuple[Pair, ...]:
    angle = FIELD["front_angle_deg"]
    angles = " / ".join(spoken(angle, a) for a in (inputs.front_angle_deg, inputs.rear_angle_deg))
    return (
        Pair(tr("Foot in front"), tr(inputs.lead_foot)),
        Pair(tr("Angles, front / rear"), angles),
        Pair(FIELD["stance_length_mm"].label, lengths.shown(inputs.stance_length_mm, "mm")),
    )


def _drawing(inputs: Inputs, answer: Answer) -> str:
    depth = plain(inputs.knee_bend_deg)
    if answer.exists:
        return tr("Drawn with both on, at {depth}° of bend.", depth=depth)
    return tr("Drawn as it stands now, at {depth}° of bend.", depth=depth)


def _foot(foot: FootAnswer, answer: Answer, inputs: Inputs, lengths: Lengths) -> FootText:
    sure = ""
    if foot.exists:
        sure = tr(
            "Cant {cant}, lift {lift}.",
            cant=range_words("cant", foot),
            lift=range_words("lift", foot),
        )
    mount = both_words(foot.begin) if foot.exists else tr("Nothing to begin with")
    why = why_words(foot, answer, inputs, lengths)
    return FootText(foot.name, tr(_FEET[foot.name]), mount, sure, why)


def _steps(answer: Answer, inputs: Inputs) -> tuple[str, ...]:
    if not answer.exists:
        return ()
    steps = bench_steps(answer, inputs)
    return tuple(steps) or (tr("Nothing is to be changed: this is on the bindings now."),)


def _watch(setup: Setup, answer: Answer, limits: Limits, lengths: Lengths) -> tuple[str, ...]:
    """What is to be expected of each leg, what stays out, and what comes next."""
    mends = mending_of(setup, answer, limits)
    waits = cuff_words(setup)
    feet = [foot for foot in answer.feet if foot.exists]
    said = [_watch_foot(foot, answer, mends.get(foot.name), lengths) for foot in feet]
    # Both feet share the measurements that carry the doubt.
    return tuple(filter(None, (waits, *said, *_doubts(answer))))


def _doubts(answer: Answer) -> list[str]:
    """What carries most of the doubt: once where it is the same measurement for both feet."""
    said: dict[str, str] = {}
    for foot in answer.feet:
        words, first = source_words(foot), foot.sources[0] if foot.sources else ""
        said[first] = max(said.get(first, ""), words, key=len)
    return list(said.values())


def _watch_foot(foot: FootAnswer, answer: Answer, mend: Mend | None, lengths: Lengths) -> str:
    knee, boot = knee_words(foot.then, answer), boot_words(foot.then, answer)
    sentences = (
        as_sentence(tr(_KNEES[foot.name], finding=knee)),
        as_sentence(tr(_BOOTS[foot.name], finding=boot)),
        left_words(foot, mend, lengths),
        next_words(foot, mend, lengths),
    )
    return " ".join(filter(None, sentences))
