"""Riders and stances for the geometry tests: the demo rider, and the sliders' full ranges.

Values go by the names of :mod:`geometry.fitting.inputs`, in mm and degrees.  A name
without a side gives both legs, or both boots, the same; one with a side wins over it.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
from hypothesis import strategies as st
from numpy.typing import NDArray

from geometry import Body, Boot, Boots, Crouch, LegMeasures, Mount, Posture, Stance, solve
from geometry.fitting.inputs import (
    BOOT,
    CROUCH,
    ENDS,
    LEG,
    MOUNT,
    ON_BOTH_SIDES,
    PELVIS,
    STANCE,
    PostureInputs,
    is_angle,
)

LEAST_THIGH = 10.0
"""Hip above knee (mm) that the strategies keep: the sliders keep the order only."""
LEGS_APART = 40.0
"""How much longer than the other a leg may be, from hip, knee, ankle or foot (mm)."""

RANGES = {
    "stance_length": (0.0, 800.0),
    "across_spacing": (-100.0, 600.0),
    "hip_height": (400.0, 1150.0),
    "knee_height": (200.0, 650.0),
    "ankle_height": (30.0, 120.0),
    "hip_spacing": (80.0, 250.0),
    "neutral_spacing": (50.0, 450.0),
    "foot_length": (140.0, 340.0),
    "sole_thickness": (0.0, 80.0),
    "hip_shift": (-150.0, 150.0),
    "weight_ahead": (-60.0, 60.0),
    "angle": (-60.0, 90.0),
    "lift": (-15.0, 15.0),
    "cant": (-15.0, 15.0),
    "knee_tracking": (-25.0, 25.0),
    "forward_lean": (0.0, 45.0),
    "flex_range": (0.0, 45.0),
    "side_give": (0.0, 20.0),
    "cuff_offset": (-10.0, 10.0),
    "knee_bend": (5.0, 110.0),
    "hips_turned": (-60.0, 60.0),
    "back_lean": (0.0, 60.0),
}
"""Ranges of the sliders; those of a leg, a boot or a mount serve both sides."""
SIDED = (*ON_BOTH_SIDES, *MOUNT)


def rad(degrees: float) -> float:
    return math.radians(degrees)


def setup_of(values: dict[str, Any]) -> PostureInputs:
    """A set-up from values by name, in mm and degrees."""

    def value(name: str) -> Any:
        given = values[name]
        inner = np.radians(given) if is_angle(name) else given
        return float(inner) if np.ndim(inner) == 0 else inner

    def side(names: tuple[str, ...], end: str) -> list[Any]:
        return [value(f"{end}_{n}" if f"{end}_{n}" in values else n) for n in names]

    front, rear = ENDS
    return PostureInputs(
        Body(LegMeasures(*side(LEG, front)), LegMeasures(*side(LEG, rear)), *map(value, PELVIS)),
        Boots(Boot(*side(BOOT, front)), Boot(*side(BOOT, rear))),
        Stance(Mount(*side(MOUNT, front)), Mount(*side(MOUNT, rear)), *map(value, STANCE)),
        Crouch(*map(value, CROUCH)),
    )


DEMO = {
    **dict.fromkeys(RANGES, 0.0),
    **{"hip_height": 880.0, "knee_height": 490.0, "ankle_height": 70.0, "hip_spacing": 170.0},
    **{"neutral_spacing": 260.0, "foot_length": 255.0, "sole_thickness": 25.0},
    **{"forward_lean": 18.0, "flex_range": 15.0, "side_give": 4.0, "knee_bend": 45.0},
    **{"stance_length": 505.0, "front_angle": 43.0, "rear_angle": 38.0, "back_lean": 28.0},
}
"""The demo rider in hard boots, in mm and degrees."""


def demo(**changes: Any) -> PostureInputs:
    """The demo rider's set-up with some values changed, in mm and degrees."""
    return setup_of(DEMO | changes)


def settled(**changes: Any) -> Posture:
    """The posture of the demo rider with some values changed."""
    return solve(*demo(**changes))


def _in_order(values: dict[str, Any]) -> dict[str, Any]:
    for end in ENDS:
        below_hip = values[f"{end}_hip_height"] - LEAST_THIGH
        values[f"{end}_knee_height"] = np.minimum(values[f"{end}_knee_height"], below_hip)
    return values


def _legs_alike(front: Any, by: Any, name: str) -> Any:
    """The rear leg's length: the front one's and so much more, within the slider."""
    return np.clip(front + by, *RANGES[name])


@st.composite
def slider_values(draw: st.DrawFn) -> dict[str, float]:
    """Values anywhere in the sliders' ranges, ends included, in mm and degrees."""
    values = {n: draw(st.floats(*span)) for n, span in RANGES.items() if n not in SIDED}
    for end in ENDS:
        values |= {f"{end}_{name}": draw(st.floats(*RANGES[name])) for name in SIDED}
    for name in LEG[:-1]:
        by = draw(st.floats(-LEGS_APART, LEGS_APART))
        values[f"rear_{name}"] = float(_legs_alike(values[f"front_{name}"], by, name))
    return _in_order(values)


slider_setups = slider_values().map(setup_of)
"""Set-ups from anywhere in the sliders' ranges."""


def random_values(count: int, seed: int) -> dict[str, NDArray[Any]]:
    """Arrays of values spread evenly over the sliders' ranges, in mm and degrees."""
    random = np.random.default_rng(seed)

    def spread(name: str) -> NDArray[Any]:
        return random.uniform(*RANGES[name], count)

    values = {name: spread(name) for name in RANGES if name not in SIDED}
    values |= {f"{end}_{name}": spread(name) for end in ENDS for name in SIDED}
    for name in LEG[:-1]:
        by = random.uniform(-LEGS_APART, LEGS_APART, count)
        values[f"rear_{name}"] = _legs_alike(values[f"front_{name}"], by, name)
    return _in_order(values)


def ordinary_values(count: int, seed: int) -> dict[str, NDArray[Any]]:
    """Arrays of values around what people are and ride; nearly all have a posture."""
    values, random = random_values(count, seed), np.random.default_rng(seed + 1)
    hip = random.uniform(700.0, 1050.0, count)
    shares = {
        "hip_height": np.ones(count),
        "knee_height": random.uniform(0.52, 0.58, count),
        "ankle_height": random.uniform(0.07, 0.09, count),
        "foot_length": random.uniform(0.27, 0.32, count),
    }
    for name, share in shares.items():
        values[f"front_{name}"] = hip * share
        values[f"rear_{name}"] = hip * share * random.uniform(0.98, 1.02, count)
    usual = {
        "hip_spacing": (150.0, 190.0),
        "neutral_spacing": (200.0, 300.0),
        "stance_length": (350.0, 600.0),
        "across_spacing": (-20.0, 20.0),
        "hip_shift": (-40.0, 40.0),
        "weight_ahead": (-30.0, 30.0),
        "knee_bend": (30.0, 80.0),
        "hips_turned": (-20.0, 20.0),
        "back_lean": (10.0, 50.0),
    }
    return values | {name: random.uniform(*span, count) for name, span in usual.items()}


def single(values: dict[str, NDArray[Any]], index: int) -> PostureInputs:
    """The set-up at one place of arrays of values."""
    return setup_of({name: float(value[index]) for name, value in values.items()})


def with_lengths_times(setup: PostureInputs, factor: float) -> PostureInputs:
    """The set-up with every length multiplied."""
    body, boots, stance, crouch = setup

    def leg(measures: LegMeasures) -> LegMeasures:
        lengths = {name: factor * getattr(measures, name) for name in LEG[:-1]}
        return replace(measures, **lengths)

    def boot(one: Boot) -> Boot:
        return replace(one, sole_thickness=factor * one.sole_thickness)

    spacings = {name: factor * getattr(body, name) for name in PELVIS}
    return PostureInputs(
        replace(body, front=leg(body.front), rear=leg(body.rear), **spacings),
        Boots(boot(boots.front), boot(boots.rear)),
        replace(stance, length=factor * stance.length, across=factor * stance.across),
        replace(
            crouch,
            hip_shift=factor * crouch.hip_shift,
            weight_ahead=factor * crouch.weight_ahead,
        ),
    )
