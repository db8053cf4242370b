"""Why a knee leaves its plane: the one thing that, made neutral, would help it most."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from math import degrees, isfinite
from typing import Any

from app.inputs import Inputs, model
from app.words import length_words, plain, roughly
from geometry import long_axes_apart, no_cant_length, solve

LEAST_HELP_DEG = 0.5
"""A cause that is responsible for less than this is not worth naming."""
WORTH_A_LOOK_MM = 5.0
WORTH_A_LOOK_DEG = 0.25
"""Deviations from neutral below these are not considered."""


def cause(name: str, wanted_give_deg: float, inputs: Inputs, length_unit: str = "mm") -> str:
    """The main cause of a leg's wanted give, as the first half of a sentence.

    Each candidate is made neutral by itself and the stance solved again; the one
    that leaves the least wanted give is named.

    Args:
        name: "front" or "rear".
        wanted_give_deg: what the leg wants as it stands.
        inputs: the stance.
        length_unit: in which lengths are told.
    """
    best = abs(wanted_give_deg) - LEAST_HELP_DEG
    words = "Angles, length and mount add up"
    for neutral, said in _candidates(name, inputs, length_unit):
        left = abs(_wanted(neutral)[0 if name == "front" else 1])
        if left < best:
            best, words = left, said
    return words


@lru_cache(maxsize=32)
def _wanted(inputs: Inputs) -> tuple[float, float]:
    """Wanted give of both legs (deg); both legs ask for the same neutral stances."""
    front, rear = solve(*model(inputs)).legs
    return degrees(float(front.wanted_give)), degrees(float(rear.wanted_give))


def _candidates(name: str, inputs: Inputs, length_unit: str) -> Iterator[tuple[Inputs, str]]:
    """The inputs with one possible cause taken out, each with its words."""
    yield from _spacing(inputs, length_unit)
    yield from _slope(
        name, inputs, "cant", ("The sole is canted {}° inward", "The sole is canted {}° outward")
    )
    yield from _slope(
        name, inputs, "lift", ("The toe end is lifted {}°", "The heel end is lifted {}°")
    )
    yield from _foot_angle(name, inputs)
    for field, least, said in (
        ("hips_turned_deg", WORTH_A_LOOK_DEG, "The hips are turned {}° from the feet"),
        ("hip_shift_mm", 1.0, "The hips hang {} to one side"),
        ("knee_tracking_deg", WORTH_A_LOOK_DEG, "The knees track {}° off the feet"),
    ):
        value = getattr(inputs, field)
        if abs(value) > least:
            away = field == "hip_shift_mm"
            by = length_words(abs(value), length_unit) if away else plain(abs(value))
            yield _with(inputs, **{field: 0.0}), said.format(by)


def _with(inputs: Inputs, **changes: Any) -> Inputs:
    return replace(inputs, **changes)


def _spacing(inputs: Inputs, length_unit: str) -> Iterator[tuple[Inputs, str]]:
    """The feet set as far apart as the legs hang, by length or, failing that, across."""
    body, _, stance, _ = model(inputs)
    apart, hang = float(long_axes_apart(stance)), inputs.neutral_spacing_mm
    if abs(apart - hang) < WORTH_A_LOOK_MM:
        return
    said = (
        f"The feet stand {roughly(apart, length_unit)} apart across the foot axes, "
        f"the legs hang {roughly(hang, length_unit)} apart"
    )
    length = float(no_cant_length(stance, body.neutral_spacing))
    if isfinite(length) and length <= 2000.0:
        yield _with(inputs, stance_length_mm=length), said
    else:
        across = inputs.across_spacing_mm + hang - apart
        yield _with(inputs, across_spacing_mm=min(max(across, -1000.0), 1000.0)), said


def _slope(
    name: str, inputs: Inputs, what: str, said: tuple[str, str]
) -> Iterator[tuple[Inputs, str]]:
    value = getattr(inputs, f"{name}_{what}_deg")
    if abs(value) > WORTH_A_LOOK_DEG:
        words = said[0 if value > 0.0 else 1].format(plain(abs(value)))
        yield _with(inputs, **{f"{name}_{what}_deg": 0.0}), words


def _foot_angle(name: str, inputs: Inputs) -> Iterator[tuple[Inputs, str]]:
    """Both feet pointing where the hips face."""
    mean = 0.5 * (inputs.front_angle_deg + inputs.rear_angle_deg)
    away = getattr(inputs, f"{name}_angle_deg") - mean - inputs.hips_turned_deg
    if abs(away) > WORTH_A_LOOK_DEG:
        neutral = _with(inputs, front_angle_deg=mean, rear_angle_deg=mean)
        yield neutral, f"The foot points {plain(abs(away))}° away from where the hips face"
