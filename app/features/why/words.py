"""The reasoning in sentences: formula, the values filled in, and where it comes from."""

from __future__ import annotations

from math import isfinite
from typing import Final, NamedTuple

from app.features.why import model
from app.features.why.answer_steps import cant_steps, lift_steps
from app.features.why.leg_steps import bend_steps, boot_steps, hip_steps, knee_steps
from app.features.why.stance_steps import rule_steps, spacing_steps, weight_steps
from app.features.why.step import Step, angle, half_degrees
from app.frame import Frame
from app.stance.answer import Answer
from app.stance.answer_words import mount_words
from app.stance.findings import NO_POSTURE
from app.stance.topics import (
    BEND,
    BOOT,
    CANT,
    HIP,
    KNEE,
    LIFT,
    OF_ANSWER,
    OF_BOTH,
    RULE,
    SPACING,
    WEIGHT,
    Asked,
)
from app.words.language import msgid, tr
from app.words.units import degrees_or_dash

NAMES: Final = {
    SPACING: msgid("Feet apart"),
    RULE: msgid("Straight-leg rule"),
    KNEE: msgid("Out of its plane"),
    BEND: msgid("Knee bend"),
    BOOT: msgid("Boot flex"),
    HIP: msgid("Hip"),
    WEIGHT: msgid("Weight in front"),
    CANT: msgid("Cant to begin with"),
    LIFT: msgid("Lift to begin with"),
}
"""What can be asked about."""
TERMS: Final = {
    SPACING: "feet apart",
    RULE: "straight-leg rule",
    KNEE: "off-plane angle",
    BEND: "knee bend",
    BOOT: "boot flex",
    HIP: "hip movements",
    WEIGHT: "weight ahead",
    CANT: "cant",
    LIFT: "lift",
}
"""Under which key the help explains what is asked about."""
_TITLES: Final = {
    "front": msgid("Front leg: {what}, {value}"),
    "rear": msgid("Rear leg: {what}, {value}"),
    "": msgid("{what}, {value}"),
}


class Reasoning(NamedTuple):
    """All that is said of what was asked.

    Attributes:
        title: what is asked about, with its value.
        steps: from what was typed to what was found.
    """

    title: str
    steps: tuple[Step, ...]


def value_of(frame: Frame, asked: Asked, answer: Answer | None) -> str:
    """What is asked about, as short as a key has room for; "…" while it is worked out."""
    leg, topic = asked
    if topic not in OF_ANSWER:
        return _VALUES[topic](frame, leg)
    if answer is None:
        return "…"
    return mount_words(topic, getattr(answer.foot(leg).begin, f"{topic}_deg"))


def _apart(frame: Frame, _leg: str) -> str:
    return frame.lengths.text(model.spacing_of(frame).apart, 0)


def _rule(frame: Frame, leg: str) -> str:
    return mount_words("cant", half_degrees(model.rule_of(frame, leg).cant_deg))


def _knee(frame: Frame, leg: str) -> str:
    return frame.findings.legs[leg].number


def _bend(frame: Frame, leg: str) -> str:
    return degrees_or_dash(frame.findings.legs[leg].knee_flexion_deg)


def _boot(frame: Frame, leg: str) -> str:
    return degrees_or_dash(frame.findings.legs[leg].boot_flex_deg)


def _hip(frame: Frame, leg: str) -> str:
    """How much of its usual range is left to the movement that has least."""
    left = [each.most_deg - each.angle_deg for each in model.movements_of(frame, leg)]
    if not left:
        return "–"
    least = min(left)
    said = angle(abs(least))
    return tr("{angle} left", angle=said) if least >= 0.0 else tr("{angle} beyond", angle=said)


def _weight(frame: Frame, _leg: str) -> str:
    share = model.weight_of(frame).share
    return tr("{share} %", share=round(100.0 * share)) if isfinite(share) else "–"


def reasoning_of(frame: Frame, asked: Asked, answer: Answer | None) -> Reasoning:
    """The reasoning behind what was asked, of a frame.

    Args:
        frame: as it stands.
        asked: what is asked about.
        answer: what to begin with there; None while it is worked out.
    """
    leg, topic = asked
    value = value_of(frame, asked, answer)
    whose = "" if topic in OF_BOTH else leg
    title = tr(_TITLES[whose], what=tr(NAMES[topic]), value=value)
    if topic in OF_ANSWER:
        return Reasoning(title, _answer_steps(frame, asked, answer))
    stands = frame.findings.legs[leg].state != NO_POSTURE
    if not stands and topic not in {SPACING, RULE}:
        return Reasoning(title, (Step(frame.findings.legs[leg].sentence),))
    return Reasoning(title, tuple(_STEPS[topic](frame, leg)))


def _answer_steps(frame: Frame, asked: Asked, answer: Answer | None) -> tuple[Step, ...]:
    if answer is None:
        return (Step(tr("It is worked out as soon as nothing moves.")),)
    rule = model.rule_of(frame, asked.leg).cant_deg
    if asked.topic == CANT:
        return tuple(cant_steps(frame, answer, asked.leg, rule))
    return tuple(lift_steps(frame, answer, asked.leg))


_VALUES: Final = {
    SPACING: _apart,
    RULE: _rule,
    KNEE: _knee,
    BEND: _bend,
    BOOT: _boot,
    HIP: _hip,
    WEIGHT: _weight,
}
_STEPS: Final = {
    SPACING: spacing_steps,
    RULE: rule_steps,
    KNEE: knee_steps,
    BEND: bend_steps,
    BOOT: boot_steps,
    HIP: hip_steps,
    WEIGHT: weight_steps,
}
