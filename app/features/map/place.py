"""Where a set-up stands on the stance map, and what moving it there asks for."""

from __future__ import annotations

from dataclasses import replace
from math import degrees, radians
from typing import Final, NamedTuple

from app.rider.inputs import FIELD, Inputs, model
from app.rider.setup import Setup
from app.rider.spreads import spreads_of
from geometry.fitting import smallest_mounts
from geometry.fitting.stance_map import map_place

READ_OFF: Final = {
    "front_angle": radians(0.5),
    "rear_angle": radians(0.5),
    "stance_length": 3.0,
}
"""Standard errors of what is read off bindings and board (rad, mm; engineering
choice, no source)."""


class MapPlace(NamedTuple):
    """A stance on the map.

    Attributes:
        angle_deg: mean of the two binding angles.
        ratio: stance length over neutral spacing.
        angle_error_deg: standard error of the angle.
        ratio_error: of the ratio.
        is_mean: whether the two angles differ.
    """

    angle_deg: float
    ratio: float
    angle_error_deg: float
    ratio_error: float
    is_mean: bool


class FullCants(NamedTuple):
    """Full cant in degrees, positive inward; nan where no posture settles.

    Attributes:
        front: that this very stance needs in front.
        rear: and behind.
        on_map: mean of the two feet if both stood at the mean angle, as on the map.
    """

    front: float
    rear: float
    on_map: float


def place_of(setup: Setup) -> MapPlace:
    """Where the set-up stands on the map, with standard errors."""
    body, _, stance, _ = model(setup.inputs)
    found = map_place(body, stance, spreads_of(setup) | READ_OFF)
    return MapPlace(
        degrees(found.angle),
        found.ratio,
        degrees(found.angle_error),
        found.ratio_error,
        found.is_mean,
    )


def inserts_of(setup: Setup) -> tuple[float, float]:
    """The shortest and the longest stance that the inserts allow, over the neutral spacing."""
    parts, neutral = setup.parts, setup.inputs.neutral_spacing_mm
    return parts.shortest_stance_mm / neutral, parts.longest_stance_mm / neutral


def full_cants(inputs: Inputs) -> FullCants:
    """What the stance in hand needs, and what the map says of its place."""
    own = smallest_mounts.full_cants(*model(inputs))
    mean = inputs.mean_angle_deg
    level = replace(inputs, front_angle_deg=mean, rear_angle_deg=mean)
    even = smallest_mounts.full_cants(*model(level))
    on_map = degrees(0.5 * (even.front + even.rear))
    return FullCants(degrees(own.front), degrees(own.rear), on_map)


def moved_to(inputs: Inputs, angle_deg: float, ratio: float, step: float) -> dict[str, float]:
    """What a dot dragged to a place on the map asks for; the two angles keep their difference.

    Args:
        inputs: as they were when the dot was taken hold of.
        angle_deg: mean binding angle wanted.
        ratio: stance length over neutral spacing wanted.
        step: 1 usually, a tenth for fine and five for coarse dragging; in degrees
            across, in steps of 5 mm upward.
    """
    turn = angle_deg - inputs.mean_angle_deg
    front = step * round((inputs.front_angle_deg + turn) / step)
    length = 5.0 * step * round(ratio * inputs.neutral_spacing_mm / (5.0 * step))
    return _turned(inputs, front - inputs.front_angle_deg) | _as_long(length)


def nudged(inputs: Inputs, turn: float, longer: float) -> dict[str, float]:
    """What the arrow keys ask for: both bindings turned (deg), the stance longer (mm)."""
    changes = _turned(inputs, turn) if turn else {}
    return changes | (_as_long(inputs.stance_length_mm + longer) if longer else {})


def _turned(inputs: Inputs, turn: float) -> dict[str, float]:
    """Both bindings turned by as much, as far as both can."""
    names = ("front_angle_deg", "rear_angle_deg")
    least = max(FIELD[name].low - getattr(inputs, name) for name in names)
    most = min(FIELD[name].high - getattr(inputs, name) for name in names)
    turn = min(max(turn, least), most)
    return {name: round(getattr(inputs, name) + turn, 6) for name in names}


def _as_long(length: float) -> dict[str, float]:
    field = FIELD["stance_length_mm"]
    return {field.name: min(max(round(length, 6), field.low), field.high)}
