"""Feet as handles: what dragging or nudging one in the plan asks of the inputs.

Pure: points are in mm on the plan's paper, answers are changes of inputs.
"""

from __future__ import annotations

from math import atan2, cos, degrees, hypot, radians, sin
from typing import NamedTuple

from app.drawing.marks import Point
from app.drawing.solids import SOLE_LENGTH
from app.rider.inputs import ENDS, FIELD, Inputs, side_and_name

TURNING_SHARE = 0.30
"""How far from the middle, as a share of the sole's length, a grip turns the foot."""
HALF_WIDTH = 0.17
"""Half of a sole's width, as a share of its length."""


class Grip(NamedTuple):
    """A foot taken hold of.

    Attributes:
        name: "front" or "rear".
        turns: whether dragging turns the foot, rather than moving it.
        start: where it was taken hold of (mm).
        inputs: as they were then.
    """

    name: str
    turns: bool
    start: Point
    inputs: Inputs


def centre_of(inputs: Inputs, name: str) -> Point:
    """A binding's centre on the plan (mm)."""
    side = 1.0 if name == "front" else -1.0
    return (
        -side * inputs.hand * 0.5 * inputs.across_spacing_mm,
        side * 0.5 * inputs.stance_length_mm,
    )


def grip_at(inputs: Inputs, at: Point, slack: float = 0.0, least: float = 0.0) -> Grip | None:
    """The foot under a point, if any.

    Args:
        inputs: as they are.
        at: the point (mm).
        slack: how far beside a sole still counts (mm), so that a small drawing
            can be gripped too.
        least: how long the ends that turn the foot are at least (mm), slack included.
    """
    for name in ENDS:
        length = SOLE_LENGTH * inputs.leg(name).foot_length_mm
        along, across = _on_sole(inputs, name, at)
        if abs(along) <= 0.5 * length + slack and abs(across) <= HALF_WIDTH * length + slack:
            turning = min(TURNING_SHARE * length, 0.5 * length + slack - least)
            return Grip(name, abs(along) > turning, at, inputs)
    return None


def _on_sole(inputs: Inputs, name: str, at: Point) -> Point:
    """A point of the plan along and across a sole (mm)."""
    centre = centre_of(inputs, name)
    dx, dy = at[0] - centre[0], at[1] - centre[1]
    angle = radians(getattr(inputs, f"{name}_angle_deg"))
    ahead = (inputs.hand * cos(angle), sin(angle))
    return dx * ahead[0] + dy * ahead[1], -dx * ahead[1] + dy * ahead[0]


def dragged(grip: Grip, at: Point, step: float) -> dict[str, float]:
    """What a foot dragged to a point asks for.

    Args:
        grip: the hold.
        at: where the pointer is now (mm).
        step: 1 usually, a tenth for fine and five for coarse dragging; in degrees
            for a turn, in steps of 5 mm for a move.
    """
    return _turned(grip, at, step) if grip.turns else _moved(grip, at, 5.0 * step)


def _turned(grip: Grip, at: Point, step: float) -> dict[str, float]:
    centre = centre_of(grip.inputs, grip.name)
    name = f"{grip.name}_angle_deg"
    if hypot(at[0] - centre[0], at[1] - centre[1]) < 1.0:
        return {}
    turn = _bearing(grip.inputs, centre, at) - _bearing(grip.inputs, centre, grip.start)
    turn = (turn + 180.0) % 360.0 - 180.0
    return {name: _within(name, getattr(grip.inputs, name) + turn, step)}


def _bearing(inputs: Inputs, centre: Point, at: Point) -> float:
    """Binding angle of a foot whose toes would lie in the direction of a point (deg)."""
    return degrees(atan2(at[1] - centre[1], inputs.hand * (at[0] - centre[0])))


def _moved(grip: Grip, at: Point, step: float) -> dict[str, float]:
    side = 1.0 if grip.name == "front" else -1.0
    inputs, dx, dy = grip.inputs, at[0] - grip.start[0], at[1] - grip.start[1]
    name = "stance_length_mm"
    changes = {name: _within(name, inputs.stance_length_mm + 2.0 * side * dy, step)}
    if inputs.across_spacing_mm != 0.0:
        name = "across_spacing_mm"
        wider = -2.0 * side * inputs.hand * dx
        changes[name] = _within(name, inputs.across_spacing_mm + wider, step)
    return changes


def _within(name: str, value: float, step: float) -> float:
    """A value on the grid of a step and in its field's range."""
    field = FIELD[name]
    return min(max(round(round(value / step) * step, 6), field.low), field.high)


def nudged(inputs: Inputs, name: str, turn: float, move: float) -> dict[str, float]:
    """What the arrow keys ask for a selected foot: a turn in degrees or a move in mm."""
    changes = {}
    if turn:
        angle = f"{name}_angle_deg"
        changes[angle] = _within(angle, getattr(inputs, angle) + turn, 0.1)
    if move:
        outward = move if name == "front" else -move
        length = "stance_length_mm"
        changes[length] = _within(length, inputs.stance_length_mm + outward, 0.5)
    return changes


MOVES: dict[str, frozenset[str]] = {
    "front_angle_deg": frozenset({"front.sole", "front.axis", "front.angle"}),
    "rear_angle_deg": frozenset({"rear.sole", "rear.axis", "rear.angle"}),
    "stance_length_mm": frozenset({"length", "long_axes", "short_axes"}),
    "across_spacing_mm": frozenset({"across", "long_axes"}),
    "front_lift_deg": frozenset({"front.sole", "front.mount", "front.lift"}),
    "front_cant_deg": frozenset({"front.sole", "front.mount", "front.cant"}),
    "rear_lift_deg": frozenset({"rear.sole", "rear.mount", "rear.lift"}),
    "rear_cant_deg": frozenset({"rear.sole", "rear.mount", "rear.cant"}),
    "hip_height_mm": frozenset({"front.thigh", "rear.thigh"}),
    "knee_height_mm": frozenset({"front.shank", "rear.shank", "front.thigh", "rear.thigh"}),
    "ankle_height_mm": frozenset({"front.shank", "rear.shank", "front.ankle", "rear.ankle"}),
    "hip_spacing_mm": frozenset({"pelvis", "front.hip", "rear.hip"}),
    "neutral_spacing_mm": frozenset({"neutral"}),
    "foot_length_mm": frozenset({"front.sole", "rear.sole"}),
    "knee_tracking_deg": frozenset({"front.trace", "rear.trace"}),
    "forward_lean_deg": frozenset({"front.flex_rest", "rear.flex_rest"}),
    "flex_range_deg": frozenset({"front.flex_range", "rear.flex_range"}),
    "side_give_deg": frozenset({"front.give", "rear.give"}),
    "sole_thickness_mm": frozenset({"front.sole", "rear.sole"}),
    "knee_bend_deg": frozenset({"front.bend", "rear.bend", "front.bones", "rear.bones"}),
    "hips_turned_deg": frozenset({"pelvis", "facing"}),
    "hip_shift_mm": frozenset({"pelvis", "front.hip", "rear.hip"}),
    "back_lean_deg": frozenset({"pelvis", "front.bones", "rear.bones"}),
    "weight_ahead_mm": frozenset({"pelvis", "front.bones", "rear.bones"}),
    "cuff_offset_deg": frozenset({"front.trace", "rear.trace", "front.give", "rear.give"}),
    "boot_ramp_deg": frozenset({"front.shell", "rear.shell"}),
    "bend_from_deg": frozenset({"front.bend", "rear.bend"}),
    "bend_to_deg": frozenset({"front.bend", "rear.bend"}),
    "largest_lift_deg": frozenset({"front.mount", "rear.mount", "front.lift", "rear.lift"}),
    "largest_cant_deg": frozenset({"front.mount", "rear.mount", "front.cant", "rear.cant"}),
}
"""Keys of the marks that each input moves most, in both legs where it may be either's."""


def marks_moved(inputs: Inputs, name: str) -> frozenset[str]:
    """Keys of the marks that light up with a control; none for what is no input."""
    side, of_leg = side_and_name(name)
    keys = MOVES.get(of_leg, frozenset())
    if not side:
        return keys
    end = "front" if inputs.side("front") == side else "rear"
    return frozenset(key for key in keys if key.startswith(end))
