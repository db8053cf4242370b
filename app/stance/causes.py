"""Why a knee leaves its plane: the one thing that, made neutral, would help it most."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from math import degrees, isfinite
from typing import Any, Final

from app.rider.inputs import FIELD, OF_LEG, Inputs, changed, default_of, model
from app.stance.settled import Settled, settled
from app.words.language import msgid, tr
from app.words.lengths import IN_MM, Lengths
from app.words.sentences import plain
from geometry import long_axes_apart, no_cant_length
from geometry.posture import wanted_gives

LEAST_HELP_DEG = 0.5
"""A cause that is responsible for less than this is not worth naming."""
MOST_OF_IT = 0.5
"""A cause without which more than this share would stay is not the whole story."""
WORTH_A_LOOK_MM = 5.0
WORTH_A_LOOK_DEG = 0.25
"""Deviations from neutral below these are not considered."""

_SLOPES: Final = {
    "cant": (
        msgid("The sole is canted {angle}° inward"),
        msgid("The sole is canted {angle}° outward"),
    ),
    "lift": (
        msgid("The toe end is lifted {angle}°"),
        msgid("The heel end is lifted {angle}°"),
    ),
}
_POSTURE: Final = (
    (
        "hips_turned_deg",
        WORTH_A_LOOK_DEG,
        (
            msgid("The hips are turned {by}° to the nose"),
            msgid("The hips are turned {by}° to the tail"),
        ),
    ),
    (
        "hip_shift_mm",
        1.0,
        (
            msgid("The hips are held {by} towards the front leg"),
            msgid("The hips are held {by} towards the rear leg"),
        ),
    ),
    (
        "knee_tracking_deg",
        WORTH_A_LOOK_DEG,
        (
            msgid("The knee tracks {by}° inside the toes"),
            msgid("The knee tracks {by}° outside the toes"),
        ),
    ),
    (
        "cuff_offset_deg",
        WORTH_A_LOOK_DEG,
        (
            msgid("The cuff leans {by}° further inward than fits the leg"),
            msgid("The cuff leans {by}° further outward than fits the leg"),
        ),
    ),
)
"""What moves hips or hinge plane by itself: the input, what is worth a look, and the
words for either sign."""
_BALANCE: Final = (
    (
        "back_lean_deg",
        1.0,
        (
            msgid("The back leans {by}° further forward than usual"),
            msgid("The back stands {by}° more upright than usual"),
        ),
    ),
    (
        "weight_ahead_mm",
        1.0,
        (
            msgid("The weight stands {by} towards the toes"),
            msgid("The weight stands {by} towards the heels"),
        ),
    ),
)
"""What makes the hips settle elsewhere; otherwise as above."""
_APART: Final = msgid(
    "The feet stand {apart} apart across their own axes, your natural spacing is {natural}"
)
_CROSSED: Final = msgid(
    "The feet stand crossed by {apart} across their own axes, your natural spacing is {natural}"
)


def cause(name: str, wanted_give_deg: float, stood: Settled, lengths: Lengths = IN_MM) -> str:
    """The main cause of a leg's wanted give, as the first half of a sentence.

    Each candidate is made neutral by itself, the hips held where they are, unless it is
    what makes them settle there; the one that leaves the least wanted give is named, as
    one of several where it leaves half of it or more.

    Args:
        name: "front" or "rear".
        wanted_give_deg: what the leg wants as it stands.
        stood: the stance, and where the hips settle in it.
        lengths: writes lengths.
    """
    best, rest = abs(wanted_give_deg) - LEAST_HELP_DEG, 0.0
    words = tr("Angles, length, lift and cant add up")
    for neutral, hips, said in _possible(name, stood, lengths):
        left = _wanted(neutral, *hips)[0 if name == "front" else 1]
        if abs(left) < best:
            best, rest, words = abs(left), left, said
    # What is left on the other side was held back by the cause, not added to it.
    if rest * wanted_give_deg > MOST_OF_IT * wanted_give_deg**2:
        return tr("{cause}, and more adds to it", cause=words)
    return words


@lru_cache(maxsize=32)
def _wanted(inputs: Inputs, depth: float, height: float) -> tuple[float, float]:
    """Wanted give of both legs (deg); both legs ask for the same neutral stances."""
    front, rear = wanted_gives(*model(inputs), depth=depth, height=height)
    return degrees(front), degrees(rear)


def _possible(
    name: str, stood: Settled, lengths: Lengths
) -> Iterator[tuple[Inputs, tuple[float, float], str]]:
    """The inputs with one possible cause taken out, the hips then (mm), and its words."""
    hips = _hips(stood)
    for neutral, said in _candidates(name, stood, lengths):
        yield neutral, hips, said
    inputs = stood.inputs
    for field, least, words in _BALANCE:
        away = inputs.value(field) - default_of(FIELD[field])
        if abs(away) > least:
            neutral = changed(inputs, **{field: default_of(FIELD[field])})
            there = _hips(_settled(neutral))
            yield neutral, there, tr(words[away < 0.0], by=_by(field, away, lengths))


def _hips(stood: Settled) -> tuple[float, float]:
    """Depth and height of the hips (mm)."""
    return float(stood.posture.depth), float(stood.posture.height)


@lru_cache(maxsize=8)
def _settled(inputs: Inputs) -> Settled:
    """Where the legs settle, once for both."""
    return settled(inputs)


def _by(field: str, value: float, lengths: Lengths) -> str:
    return lengths.text(abs(value)) if FIELD[field].unit == "mm" else plain(abs(value))


def _candidates(name: str, stood: Settled, lengths: Lengths) -> Iterator[tuple[Inputs, str]]:
    """The inputs with one possible cause taken out, each with its words."""
    inputs = stood.inputs
    yield from _spacing(stood, lengths)
    yield from _slope(name, inputs, "cant")
    yield from _slope(name, inputs, "lift")
    yield from _foot_angle(name, inputs)
    for field, least, said in _POSTURE:
        sided = f"{inputs.side(name)}_{field}" if field in OF_LEG else field
        value = inputs.value(sided)
        if abs(value) > least:
            words = tr(said[value < 0.0], by=_by(field, value, lengths))
            yield changed(inputs, **{sided: 0.0}), words


def _with(inputs: Inputs, **changes: Any) -> Inputs:
    return replace(inputs, **changes)


def _spacing(stood: Settled, lengths: Lengths) -> Iterator[tuple[Inputs, str]]:
    """The feet set as far apart as the legs hang, by length or, failing that, across."""
    inputs, body, stance = stood.inputs, stood.model.body, stood.model.stance
    apart, hang = float(long_axes_apart(stance)), inputs.neutral_spacing_mm
    if abs(apart - hang) < WORTH_A_LOOK_MM:
        return
    said = tr(
        _APART if apart >= 0.0 else _CROSSED,
        apart=lengths.roughly(abs(apart)),
        natural=lengths.roughly(hang),
    )
    length = float(no_cant_length(stance, body.neutral_spacing))
    if isfinite(length) and length <= 2000.0:
        yield _with(inputs, stance_length_mm=length), said
    else:
        across = inputs.across_spacing_mm + hang - apart
        yield _with(inputs, across_spacing_mm=min(max(across, -1000.0), 1000.0)), said


def _slope(name: str, inputs: Inputs, what: str) -> Iterator[tuple[Inputs, str]]:
    value = getattr(inputs, f"{name}_{what}_deg")
    if abs(value) > WORTH_A_LOOK_DEG:
        words = tr(_SLOPES[what][value < 0.0], angle=plain(abs(value)))
        yield _with(inputs, **{f"{name}_{what}_deg": 0.0}), words


def _foot_angle(name: str, inputs: Inputs) -> Iterator[tuple[Inputs, str]]:
    """Both feet pointing where the hips face."""
    mean = inputs.mean_angle_deg
    away = getattr(inputs, f"{name}_angle_deg") - mean - inputs.hips_turned_deg
    if abs(away) > WORTH_A_LOOK_DEG:
        neutral = _with(inputs, front_angle_deg=mean, rear_angle_deg=mean)
        said = tr("The foot points {by}° away from where the hips face", by=plain(abs(away)))
        yield neutral, said
