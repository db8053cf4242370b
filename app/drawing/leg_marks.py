"""One leg as seen from any side: mount, boot, limb, hinge plane, wedge."""

from __future__ import annotations

from math import radians

from app.drawing.marks import Area, Dot, Line, Mark, Point
from app.drawing.projection import View, along, mixed, sector, tapered
from app.drawing.solids import PLATE_DEPTH, Figure
from app.rider.inputs import LegInputs

TRACE_BEYOND = 46.0
"""How far the trace of the hinge plane runs on past the hip's height (mm)."""


def board_edge(left: float, right: float) -> Area:
    """The board's surface, edge on, from left to right (mm)."""
    top, bottom = -PLATE_DEPTH, -PLATE_DEPTH - 10.0
    return Area("board", "board", ((left, top), (right, top), (right, bottom), (left, bottom)))


def foot_marks(name: str, figure: Figure, view: View) -> list[Mark]:
    """Plate, sloped part, sole and lower boot of the "front" or "rear" leg."""
    marks: list[Mark] = [Area(f"{name}.plate", "plate", _plate(figure, view))]
    if figure.mount:
        marks.append(Area(f"{name}.mount", f"{name}.mount", view.outline(figure.mount)))
    marks.append(Area(f"{name}.shell", f"{name}.boot", view.outline(figure.shell)))
    marks.append(Area(f"{name}.sole", f"{name}.sole", view.outline(figure.sole)))
    return marks


def _plate(figure: Figure, view: View) -> tuple[Point, ...]:
    """The level disc under the sloped part, from the side: a rectangle on the board."""
    centre = view.seen(figure.centre)
    left, right = centre[0] - figure.plate_radius, centre[0] + figure.plate_radius
    top, bottom = figure.plate_top, -PLATE_DEPTH
    return ((left, bottom), (right, bottom), (right, top), (left, top))


def limb_marks(name: str, figure: Figure, inputs: LegInputs, view: View, tone: str) -> list[Mark]:
    """Shank, cuff and thigh, quiet, with the knee line and its joints on them.

    ``tone`` is "near" or "far".
    """
    ankle, knee, hip = (view.seen(p) for p in (figure.ankle, figure.knee, figure.hip))
    scale = inputs.hip_height_mm / 880.0
    limb = f"{name}.limb.{tone}"
    return [
        Area(f"{name}.shank", limb, tapered(ankle, knee, 31 * scale, 45 * scale)),
        Area(f"{name}.thigh", limb, tapered(knee, hip, 46 * scale, 64 * scale)),
        Area(f"{name}.cuff", f"{name}.boot", view.outline(figure.cuff)),
    ]


def bone_marks(name: str, figure: Figure, view: View, tone: str) -> list[Mark]:
    """The knee line with its joints."""
    ankle, knee, hip = (view.seen(p) for p in (figure.ankle, figure.knee, figure.hip))
    return [
        Line(f"{name}.bones", f"{name}.bone.{tone}", (ankle, knee, hip)),
        Dot(f"{name}.ankle", f"{name}.joint.{tone}", ankle, 3.5),
        Dot(f"{name}.knee", f"{name}.joint.{tone}", knee, 5.5),
    ]


def wedge_marks(name: str, figure: Figure, state: str, view: View) -> list[Mark]:
    """The trace of the hinge plane, and the wedge between it and the thigh.

    The wedge is the sector that the thigh would have to swing through to come
    back into the plane, seen from where the view looks.
    """
    in_plane, off = figure.thigh_in_plane, figure.off_plane
    fan = sector(figure.knee, in_plane, figure.hinge_axis, (0.0, off), figure.thigh)
    trace_end = along(figure.knee, in_plane, figure.thigh + TRACE_BEYOND)
    trace = tuple(view.seen(p) for p in (figure.ankle, figure.knee, trace_end))
    return [
        Area(f"{name}.wedge", f"wedge.{state}", tuple(view.seen(p) for p in fan)),
        Line(f"{name}.trace", f"trace.{state}", trace),
    ]


def flex_fan(name: str, figure: Figure, inputs: LegInputs, view: View) -> list[Mark]:
    """How far the boot lets the shank go, as a fan about the ankle."""
    rest, play = radians(inputs.forward_lean_deg), radians(inputs.flex_range_deg)
    radius, up, ahead = 0.62 * figure.shank, figure.plane_up, figure.along
    fan = sector(figure.ankle, up, ahead, (rest - play, rest + play), radius)
    tip = mixed(figure.ankle, up, ahead, radius, rest)
    return [
        Area(f"{name}.flex_range", f"{name}.fan", tuple(view.seen(p) for p in fan)),
        Line(f"{name}.flex_rest", f"{name}.rest", (view.seen(figure.ankle), view.seen(tip))),
    ]
