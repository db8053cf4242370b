"""Every input of a posture by its name, and all of them together."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

from geometry.body import Body
from geometry.boots import Boots
from geometry.elementary import Real, larger
from geometry.posture import Crouch
from geometry.stance import Mount, Stance

BODY = (
    "hip_height",
    "knee_height",
    "ankle_height",
    "hip_spacing",
    "neutral_spacing",
    "foot_length",
    "knee_tracking",
)
BOOTS = ("sole_thickness", "forward_lean", "flex_range", "side_give")
STANCE = ("stance_length", "across_spacing")
MOUNTS = ("front_angle", "front_lift", "front_cant", "rear_angle", "rear_lift", "rear_cant")
CROUCH = ("knee_bend", "hips_turned", "hip_shift")
INPUTS = BODY + BOOTS + STANCE + MOUNTS + CROUCH
"""Names under which the inputs' standard errors are given."""
ANGLES = frozenset(
    {
        *MOUNTS,
        "knee_tracking",
        "forward_lean",
        "flex_range",
        "side_give",
        "knee_bend",
        "hips_turned",
    }
)
"""The inputs that are angles (rad); the others are lengths (mm)."""
NEVER_NEGATIVE = frozenset(
    {
        *("ankle_height", "hip_spacing", "neutral_spacing", "stance_length", "sole_thickness"),
        *("flex_range", "side_give", "knee_bend"),
    }
)
"""The inputs that a measuring error cannot take below zero."""


class Setup(NamedTuple):
    """Everything a posture is solved from."""

    body: Body
    boots: Boots
    stance: Stance
    crouch: Crouch


def shifted(setup: Setup, shifts: Mapping[str, Real]) -> Setup:
    """The inputs, each with its shift added; lengths and ranges stop at zero.

    Args:
        setup: the inputs.
        shifts: what is added to each by name (mm or rad).
    """

    def moved(name: str) -> Real:
        value: Real = input_named(setup, name) + shifts.get(name, 0.0)
        return larger(value, 0.0) if name in NEVER_NEGATIVE else value

    def mount(end: str) -> Mount:
        return Mount(moved(f"{end}_angle"), moved(f"{end}_lift"), moved(f"{end}_cant"))

    return Setup(
        Body(**{name: moved(name) for name in BODY}),
        Boots(**{name: moved(name) for name in BOOTS}),
        Stance(mount("front"), mount("rear"), moved("stance_length"), moved("across_spacing")),
        Crouch(**{name: moved(name) for name in CROUCH}),
    )


def input_named(setup: Setup, name: str) -> Any:
    """The value of an input by its name in :data:`INPUTS` (mm or rad)."""
    if name in STANCE:
        return setup.stance.length if name == "stance_length" else setup.stance.across
    if name in MOUNTS:
        end, field = name.split("_")
        return getattr(getattr(setup.stance, end), field)
    holder = setup.body if name in BODY else setup.boots if name in BOOTS else setup.crouch
    return getattr(holder, name)
