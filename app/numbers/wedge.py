"""The wedges to print, one for each foot."""

from __future__ import annotations

from dataclasses import replace
from math import degrees
from typing import Any, Final, SupportsFloat

from app.features.wedge.model import part_of, slopes_of
from app.features.wedge.words import MILLIMETRES
from app.numbers.values import nothing
from app.rider.setup import Setup
from app.words.reasons import reason_phrase
from geometry.hardware.plane import Spot
from geometry.hardware.wedge import Wedge
from geometry.hardware.wedge_problems import wedge_problems

NAMES: Final = (
    "lift_deg", "cant_deg", "slope_deg", "bearing_deg", "thinnest_mm", "centre_mm", "thickest_mm",
    "corners", "holes", "volume_cm3", "problems",
)  # fmt: skip


def wedge_numbers(setup: Setup) -> dict[str, Any]:
    """The wedge of each foot, to the footprint and the holes that the set-up says."""
    feet = {foot: _foot(setup, foot) for foot in ("front", "rear")}
    return {"slopes_from": setup.wedge.slopes, **feet}


def _foot(setup: Setup, foot: str) -> dict[str, Any]:
    if setup.wedge.slopes == "typed" and setup.wedge.foot != foot:
        reason = f"the lift and cant typed are those of the {setup.wedge.foot} foot's wedge"
        return nothing(NAMES, reason)
    own = replace(setup, wedge=replace(setup.wedge, foot=foot))
    try:
        wedge = part_of(own, slopes_of(own)).wedge
    except ValueError as error:
        return nothing(NAMES, reason_phrase(error, MILLIMETRES))
    return {**_wedge(wedge), "reason": None}


def _wedge(wedge: Wedge) -> dict[str, Any]:
    """All that is told of a wedge, possible or not."""
    values = (
        degrees(wedge.lift),
        degrees(wedge.cant),
        degrees(wedge.slope),
        degrees(wedge.bearing),
        wedge.thinnest,
        wedge.level,
        wedge.thickest,
        [_place(spot, wedge.height(*spot)) for spot in wedge.corner_spots],
        [_place(spot, wedge.hole_height(spot)) for spot in wedge.screws.centres],
        wedge.volume / 1000.0,
        list(MILLIMETRES.reasons(wedge_problems(wedge))),
    )
    return dict(zip(NAMES, values, strict=True))


def _place(spot: Spot, height: SupportsFloat) -> dict[str, float]:
    """A place, ahead of the binding's centre and to the little-toe side, and the height there.

    Over a corner it is that of the top.  Over a hole it ends under the screw's head, so that
    the screw must be longer by as much.
    """
    return {"ahead_mm": spot[0], "outer_mm": spot[1], "height_mm": float(height)}
