"""The wedge that a set-up asks for, and what there is to say of it."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace
from math import isfinite, radians
from typing import Any, Final, NamedTuple

from app.inputs import Inputs
from app.scenes.wedge import LEAST_RISE
from app.setup import Setup
from app.tools.needs import needs_of
from app.tools.wedge_words import Part, longer_screws, steepest
from app.wedge_inputs import WedgeInputs
from geometry.hardware.footprint import rectangle
from geometry.hardware.plane import Spot
from geometry.hardware.screws import Screws, grid, insert_turn
from geometry.hardware.wedge import Wedge
from geometry.hardware.wedge_problems import wedge_problems

SIDES: Final = {"front": 1.0, "rear": -1.0}
"""+1 for the front foot, -1 for the rear one."""


class Slopes(NamedTuple):
    """Lift and cant of a wedge (degrees)."""

    lift_deg: float
    cant_deg: float


def slopes_of(setup: Setup) -> Slopes:
    """Lift and cant that a set-up's wedge shall have.

    The start values take a whole fit, some 20 ms.

    Raises:
        ValueError: the start values are wanted and there are none, or the leg
            dimensions contradict each other.
    """
    wedge = setup.wedge
    if wedge.slopes == "typed":
        return Slopes(wedge.lift_deg, wedge.cant_deg)
    if wedge.slopes == "mounts":
        return _slopes_among(setup.inputs, wedge.foot)
    needs = needs_of(setup)
    foot, start = getattr(needs, wedge.foot), needs.start
    lift, cant = (getattr(start, f"{wedge.foot}_{kind}_deg") for kind in ("lift", "cant"))
    if not (isfinite(lift) and isfinite(cant)):
        why = foot.no_cant or foot.no_lift
        raise ValueError(
            f"there are no start values: {why}" if why else "there are no start values"
        )
    return Slopes(lift, cant)


def with_slopes(setup: Setup, source: str) -> Setup:
    """The set-up with its wedge's lift and cant from elsewhere; typed ones begin as they are."""
    wedge = setup.wedge
    if source == "typed":
        # Without start values there is nothing to begin with but what was typed last.
        with suppress(ValueError):
            lift, cant = slopes_of(setup)
            wedge = replace(wedge, lift_deg=lift, cant_deg=cant)
    return replace(setup, wedge=replace(wedge, slopes=source))


def with_number(setup: Setup, name: str, value: float) -> Setup:
    """The set-up with one number of its wedge typed; a lift or cant takes the other along."""
    if name in Slopes._fields:
        setup = with_slopes(setup, "typed")
    change: dict[str, Any] = {name: value}
    return replace(setup, wedge=replace(setup.wedge, **change))


def part_of(setup: Setup, slopes: Slopes) -> Part:
    """The wedge that a set-up asks for, possible or not.

    Raises:
        ValueError: no such wedge can be meant; says why.
    """
    typed, name = setup.wedge, setup.wedge.foot
    wedge = Wedge(
        rectangle(typed.length_mm, typed.width_mm, typed.corner_radius_mm),
        radians(slopes.lift_deg),
        radians(slopes.cant_deg),
        typed.smallest_mm,
        _screws(typed, getattr(setup.inputs, f"{name}_angle_deg")),
        typed.centre_height_mm or None,
    )
    lead = setup.inputs.lead_foot
    other = "right" if lead == "left" else "left"
    return Part(name, lead if name == "front" else other, wedge)


def measures(part: Part) -> str:
    """Heights, slope, volume and how much longer the screws must be, sentence by sentence."""
    wedge = part.wedge
    toe_out, heel_out, heel_in, toe_in = (f"{height:.1f}" for height in wedge.corner_heights)
    words = [
        f"Corners: little-toe side {toe_out} at the toe, {heel_out} at the heel; "
        f"big-toe side {toe_in} and {heel_in}; centre {wedge.level:.1f} mm."
    ]
    if wedge.thickest - wedge.thinnest >= LEAST_RISE:
        words.append(f"{steepest(wedge)}.")
    longer = longer_screws(wedge)
    if longer:
        words.append(f"Screws longer by {longer} mm.")
    words.append(f"Volume {wedge.volume / 1000.0:.1f}\N{NO-BREAK SPACE}cm³.")
    return " ".join(words)


def problems(part: Part) -> str:
    """Why a wedge cannot be made, a line for each reason; empty where it can."""
    return "\n".join(f"{_begun(problem)}." for problem in wedge_problems(part.wedge))


def file_name(part: Part, ending: str) -> str:
    """What to call a file of a wedge, as "wedge-front-left.stl"."""
    return f"wedge-{part.name}-{part.foot}.{ending}"


def _slopes_among(inputs: Inputs, name: str) -> Slopes:
    return Slopes(getattr(inputs, f"{name}_lift_deg"), getattr(inputs, f"{name}_cant_deg"))


def _screws(typed: WedgeInputs, angle_deg: float) -> Screws:
    """Holes as a board's inserts stand under a foot, about the binding's centre."""
    side = SIDES[typed.foot]
    return Screws(
        _centres(typed.grid_across_mm, typed.grid_along_mm, insert_turn(radians(angle_deg), side)),
        typed.hole_mm,
        typed.head_mm,
        typed.head_height_mm,
    )


def _centres(across: float, along: float, turned: float) -> tuple[Spot, ...]:
    """Two holes each way, one where there is nothing between them, none at all for nothing."""
    if not (across or along):
        return ()
    count = (2 if across else 1, 2 if along else 1)
    return grid((across or 1.0, along or 1.0), count, turned=turned)


def _begun(sentence: str) -> str:
    return sentence[:1].upper() + sentence[1:]
