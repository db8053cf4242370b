"""Riders and stances for the geometry tests: the demo rider, and the sliders' full ranges."""

from __future__ import annotations

import math
from dataclasses import fields, replace
from typing import Any

import numpy as np
from hypothesis import strategies as st
from numpy.typing import NDArray

from geometry import Body, Boots, Crouch, Mount, Posture, Stance, solve
from geometry.fitting.inputs import Setup

LEAST_THIGH = 10.0
"""Hip above knee (mm) that the strategies keep: the sliders keep the order only."""

MM = {
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
}
DEG = {
    "front_angle": (-60.0, 90.0),
    "front_lift": (-15.0, 15.0),
    "front_cant": (-15.0, 15.0),
    "rear_angle": (-60.0, 90.0),
    "rear_lift": (-15.0, 15.0),
    "rear_cant": (-15.0, 15.0),
    "knee_tracking": (-25.0, 25.0),
    "forward_lean": (0.0, 45.0),
    "flex_range": (0.0, 45.0),
    "side_give": (0.0, 20.0),
    "knee_bend": (5.0, 110.0),
    "hips_turned": (-60.0, 60.0),
}
"""Ranges of the sliders."""


def rad(degrees: float) -> float:
    return math.radians(degrees)


def setup_of(values: dict[str, Any]) -> Setup:
    """A set-up from values by name, in mm and degrees."""
    v = {name: np.radians(value) if name in DEG else value for name, value in values.items()}
    v = {name: float(value) if np.ndim(value) == 0 else value for name, value in v.items()}
    mounts = (
        Mount(v[f"{foot}_angle"], v[f"{foot}_lift"], v[f"{foot}_cant"])
        for foot in ("front", "rear")
    )
    return Setup(
        Body(**{field.name: v[field.name] for field in fields(Body)}),
        Boots(**{field.name: v[field.name] for field in fields(Boots)}),
        Stance(*mounts, v["stance_length"], v["across_spacing"]),
        Crouch(**{field.name: v[field.name] for field in fields(Crouch)}),
    )


DEMO = {
    **dict.fromkeys((*MM, *DEG), 0.0),
    **{"hip_height": 880.0, "knee_height": 490.0, "ankle_height": 70.0, "hip_spacing": 170.0},
    **{"neutral_spacing": 250.0, "foot_length": 255.0, "sole_thickness": 25.0},
    **{"forward_lean": 18.0, "flex_range": 15.0, "side_give": 4.0, "knee_bend": 45.0},
    **{"stance_length": 500.0, "front_angle": 45.0, "rear_angle": 40.0},
}
"""The demo rider in hard boots, in mm and degrees."""


def demo(**changes: Any) -> Setup:
    """The demo rider's set-up with some values changed, in mm and degrees."""
    return setup_of(DEMO | changes)


def settled(**changes: Any) -> Posture:
    """The posture of the demo rider with some values changed."""
    return solve(*demo(**changes))


def _in_order(values: dict[str, Any]) -> dict[str, Any]:
    values["knee_height"] = np.minimum(values["knee_height"], values["hip_height"] - LEAST_THIGH)
    return values


@st.composite
def slider_values(draw: st.DrawFn) -> dict[str, float]:
    """Values anywhere in the sliders' ranges, ends included, in mm and degrees."""
    ranges = (MM | DEG).items()
    return _in_order({name: draw(st.floats(low, high)) for name, (low, high) in ranges})


slider_setups = slider_values().map(setup_of)
"""Set-ups from anywhere in the sliders' ranges."""


def random_values(count: int, seed: int) -> dict[str, NDArray[Any]]:
    """Arrays of values spread evenly over the sliders' ranges, in mm and degrees."""
    random = np.random.default_rng(seed)
    ranges = (MM | DEG).items()
    return _in_order({name: random.uniform(low, high, count) for name, (low, high) in ranges})


def ordinary_values(count: int, seed: int) -> dict[str, NDArray[Any]]:
    """Arrays of values around what people are and ride; nearly all have a posture."""
    random = np.random.default_rng(seed)
    values = {name: random.uniform(low, high, count) for name, (low, high) in (MM | DEG).items()}
    hip = random.uniform(700.0, 1050.0, count)
    values |= {
        "hip_height": hip,
        "knee_height": hip * random.uniform(0.52, 0.58, count),
        "ankle_height": hip * random.uniform(0.07, 0.09, count),
        "hip_spacing": random.uniform(150.0, 190.0, count),
        "neutral_spacing": random.uniform(200.0, 300.0, count),
        "stance_length": random.uniform(350.0, 600.0, count),
        "across_spacing": random.uniform(-20.0, 20.0, count),
        "hip_shift": random.uniform(-40.0, 40.0, count),
        "knee_bend": random.uniform(30.0, 80.0, count),
        "hips_turned": random.uniform(-20.0, 20.0, count),
    }
    return values


def single(values: dict[str, NDArray[Any]], index: int) -> Setup:
    """The set-up at one place of arrays of values."""
    return setup_of({name: float(value[index]) for name, value in values.items()})


def with_lengths_times(setup: Setup, factor: float) -> Setup:
    """The set-up with every length multiplied."""
    body, boots, stance, crouch = setup
    lengths = [field.name for field in fields(Body) if field.name != "knee_tracking"]
    return Setup(
        replace(body, **{name: factor * getattr(body, name) for name in lengths}),
        replace(boots, sole_thickness=factor * boots.sole_thickness),
        replace(stance, length=factor * stance.length, across=factor * stance.across),
        replace(crouch, hip_shift=factor * crouch.hip_shift),
    )
