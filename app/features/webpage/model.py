"""What the page's script is told: the saved inputs, and every constant that it solves with.

Nothing of the set-up but these inputs: neither name nor notes, trials, parts or what was
measured how.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields
from typing import Any, Final

from app.drawing.solids import FOOTPRINT, SOLE_LENGTH
from app.rider.inputs import ENDS, FIELD, FIELDS, OF_LEG, Inputs, LegInputs
from app.stance.answer import Answer
from app.stance.findings import NEAR_DEG, STATES, Limits
from app.words.lengths import Lengths
from app.words.scale import scale_of
from app.words.sentences import in_words
from app.words.units import Unit
from geometry import SETBACK_SHARE, leg, masses, settling

SLIDERS: Final = (
    "front_angle_deg",
    "rear_angle_deg",
    "stance_length_mm",
    "front_cant_deg",
    "rear_cant_deg",
    "knee_bend_deg",
)
"""What a student can move."""
GROUPS: Final = ("stance", "mounts", "posture", "legs", "boots")
"""What the legs depend on; all of it can be set by the page's address."""
TOLD: Final = tuple(field for field in FIELDS if field.group in GROUPS)
CONSTANTS: Final = {
    "setback_share": SETBACK_SHARE,
    "masses": {
        "upper_body": masses.UPPER_BODY,
        "above_hips": masses.ABOVE_HIPS,
        "foot": masses.FOOT,
        "ahead_of_ankle": masses.AHEAD_OF_ANKLE,
        "of_hip": masses.OF_HIP,
        "of_knee": masses.OF_KNEE,
        "of_ankle": masses.OF_ANKLE,
    },
    "search": {
        "farthest": leg.FARTHEST,
        "trusted_off_plane": leg.TRUSTED_OFF_PLANE,
        "last_step": settling.LAST_STEP,
        "accepted": settling.ACCEPTED,
        "longest_move": settling.LONGEST_MOVE,
        "largest_turn": settling.LARGEST_TURN,
        "most_steps": settling.MOST_STEPS,
        "singular": settling.SINGULAR,
        "start_bend": settling.START_BEND,
        "most_start_more": settling.MOST_START_MORE,
        "flex_of_bend": settling.FLEX_OF_BEND,
        "most_off_plane": settling.MOST_OFF_PLANE,
    },
}
"""What the geometry computes with."""


def told_inputs(inputs: Inputs) -> dict[str, Any]:
    """The inputs by their names, those of each leg within "left" and "right"."""
    told: dict[str, Any] = {"lead_foot": inputs.lead_foot}
    told |= {each.name: getattr(inputs, each.name) for each in TOLD if each.name not in OF_LEG}
    return told | {"left": _leg(inputs.left), "right": _leg(inputs.right)}


def _leg(own: LegInputs) -> dict[str, float]:
    return {each.name: getattr(own, each.name) for each in fields(own)}


def told_numbers(
    inputs: Inputs, limits: Limits, lengths: Lengths, answer: Answer
) -> dict[str, Any]:
    """All numbers that the script is told."""
    return {
        "saved": told_inputs(inputs),
        "begin": _begin(answer),
        "constants": CONSTANTS,
        "shape": {"footprint": FOOTPRINT, "sole_length": SOLE_LENGTH},
        "limits": {"in_plane": limits.in_plane_deg, "drifting": limits.drifting_deg},
        "states": STATES,
        "boot_near": NEAR_DEG,
        "ranges": {each.name: (each.low, each.high) for each in TOLD},
        "unit": _unit(lengths.unit),
        "sliders": [slider(name, lengths) for name in SLIDERS],
        "lifts": {end: slider(f"{end}_lift_deg", lengths) for end in ENDS},
    }


def slider(name: str, lengths: Lengths) -> Mapping[str, Any]:
    """What the script knows of an input: its range, its step and the words for its value."""
    field = FIELD[name]
    scale = scale_of(field, lengths)
    told = {
        "name": name,
        "low": scale.low,
        "high": scale.high,
        "step": scale.steps[1],
        "unit": _unit(scale.unit),
    }
    if field.signs is None:
        return told
    signs = [in_words(field, way) for way in (1.0, -1.0)]
    return told | {"signs": signs, "zero": in_words(field, 0.0)}


def _unit(unit: Unit) -> dict[str, Any]:
    return {"suffix": unit.suffix, "size": unit.size, "decimals": unit.decimals}


def _begin(answer: Answer) -> dict[str, float]:
    """What both bindings begin with, by the names of inputs; nothing without an answer."""
    return answer.mounts._asdict() if answer.exists else {}
