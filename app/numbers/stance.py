"""Both knees along the bend and over turned hips, and where the stance stands on its map."""

from __future__ import annotations

from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from app.features.bend.model import Bend, Curves
from app.features.map.lines import GRID, extent_of
from app.features.map.place import full_cants, place_of
from app.numbers.values import nothing, number, numbers_in
from app.rider.inputs import Inputs, model
from app.rider.setup import Setup
from app.stance.findings import Limits
from app.stance.through import as_it_stands
from geometry.fitting.stance_map import StanceMap, stance_map_of

ANGLE_STEP_DEG: Final = 5.0
RATIO_STEP: Final = 0.1
"""Between two columns and two rows of the map that is printed."""


def place_numbers(setup: Setup) -> dict[str, Any]:
    """Where the stance stands on the map, and the length at which it would need no cant."""
    place = place_of(setup)
    ratio = _no_cant_ratio(setup.inputs)
    return {
        "angle_deg": number(place.angle_deg),
        "angle_error_deg": number(place.angle_error_deg),
        "angle_is_mean": place.is_mean,
        "length_ratio": number(place.ratio),
        "length_ratio_error": number(place.ratio_error),
        "full_cant_at_angle_deg": number(full_cants(setup.inputs).on_map),
        "no_cant_ratio": number(ratio),
        "no_cant_length_mm": number(ratio * setup.inputs.neutral_spacing_mm),
    }


def map_numbers(inputs: Inputs) -> dict[str, Any]:
    """Full cant over binding angle and stance length, a row for each length."""
    extent = extent_of(inputs.mean_angle_deg, inputs.stance_length_mm / inputs.neutral_spacing_mm)
    angles = _steps(extent.left, extent.right, ANGLE_STEP_DEG)
    found = _map(inputs, angles, _steps(max(extent.bottom, 0.0), extent.top, RATIO_STEP))
    return {
        "angles_deg": numbers_in(angles),
        "length_ratios": numbers_in(found.ratios),
        "front_full_cant_deg": _rows(found.front),
        "rear_full_cant_deg": _rows(found.rear),
        "no_cant_ratios": numbers_in(found.no_cant),
        "straight_leg_no_cant_ratios": numbers_in(found.straight_leg),
    }


def _no_cant_ratio(inputs: Inputs) -> float:
    """Length over neutral spacing at which both feet at the mean angle need no cant; nan if none.

    The lengths gone through are those of the window's map.
    """
    mean = inputs.mean_angle_deg
    extent = extent_of(mean, inputs.stance_length_mm / inputs.neutral_spacing_mm)
    ratios = np.linspace(max(extent.bottom, 0.0), extent.top, GRID[1])
    return float(_map(inputs, np.array([mean]), ratios).no_cant[0])


def _map(inputs: Inputs, angles_deg: NDArray[Any], ratios: NDArray[Any]) -> StanceMap:
    return stance_map_of(model(inputs), np.radians(angles_deg), ratios)


def _steps(low: float, high: float, step: float) -> NDArray[Any]:
    """Whole steps from low to high."""
    first, last = np.ceil(low / step - 1e-9), np.floor(high / step + 1e-9)
    return np.round(step * np.arange(first, last + 1.0), 9) + 0.0


def _rows(cants: NDArray[Any]) -> list[list[float | None]]:
    return [numbers_in(row) for row in np.degrees(cants)]


LEGS: Final = ("front", "rear")
MOVEMENTS: Final = {"over_bend": "knee_bend", "over_turn": "hips_turned"}
"""The two movements, and what rises along each."""


RIDING: Final = "over_riding_bend"
"""The part of the bend that counts, whose worst is the answer's; it stands first."""


def bend_numbers(bend: Bend, inputs: Inputs, limits: Limits) -> dict[str, Any]:
    """How far each knee is out at most, and the flex of each boot, along both movements.

    Over the riding bend it is the worst that the answer speaks of.
    """
    if np.isnan(bend.over_bend.settled[0]):
        return nothing((RIDING, *MOVEMENTS), "no posture settles at any bend")
    along = zip(MOVEMENTS.items(), bend, strict=True)
    told = {name: _movement(what, curves, limits) for (name, what), curves in along}
    return {RIDING: _riding(inputs, limits), **told, "reason": None}


def _riding(inputs: Inputs, limits: Limits) -> dict[str, Any]:
    legs = {
        leg: {
            "worst_off_plane_deg": number(through.worst_deg),
            "worst_at_knee_bend_deg": number(through.worst_at_deg),
        }
        for leg, through in zip(LEGS, as_it_stands(inputs, limits), strict=True)
    }
    ends = inputs.bend_from_deg, inputs.bend_to_deg
    return {"least_knee_bend_deg": ends[0], "largest_knee_bend_deg": ends[1], **legs}


def curves_numbers(bend: Bend) -> dict[str, Any]:
    """Both movements point by point."""
    along = zip(MOVEMENTS.items(), bend, strict=True)
    return {name: _curves(what, curves) for (name, what), curves in along}


def _movement(what: str, curves: Curves, limits: Limits) -> dict[str, Any]:
    least, largest = curves.settled
    legs = {
        leg: _along(what, (curves.x, curves.off_plane[i], curves.boot_flex[i]), limits)
        for i, leg in enumerate(LEGS)
    }
    return {f"least_{what}_deg": number(least), f"largest_{what}_deg": number(largest), **legs}


def _along(
    what: str, curve: tuple[NDArray[Any], NDArray[Any], NDArray[Any]], limits: Limits
) -> dict[str, Any]:
    """One leg along one movement; all of it None where no posture settles."""
    names = (
        "most_off_plane_deg", f"most_at_{what}_deg", "share_in_plane",
        "least_boot_flex_deg", "largest_boot_flex_deg",
    )  # fmt: skip
    there = np.isfinite(curve[1])
    if not there.any():
        return dict.fromkeys(names)
    x, off_plane, flex = (values[there] for values in curve)
    worst = np.argmax(np.abs(off_plane))
    share = np.mean(np.abs(off_plane) <= limits.in_plane_deg)
    values = off_plane[worst], x[worst], share, flex.min(), flex.max()
    return dict(zip(names, map(float, values), strict=True))


def _curves(what: str, curves: Curves) -> dict[str, Any]:
    told: dict[str, Any] = {f"{what}_deg": numbers_in(curves.x)}
    for i, leg in enumerate(LEGS):
        told[f"{leg}_off_plane_deg"] = numbers_in(curves.off_plane[i])
        told[f"{leg}_boot_flex_deg"] = numbers_in(curves.boot_flex[i])
    return told
