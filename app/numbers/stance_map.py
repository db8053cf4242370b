"""Where the stance stands on the map of stances, and the map itself."""

from __future__ import annotations

from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from app.features.map.lines import GRID, extent_of
from app.features.map.place import full_cants, mean_angle_deg, place_of
from app.numbers.values import number, numbers_in
from app.rider.inputs import Inputs, model
from app.rider.setup import Setup
from geometry import PostureInputs as Solved
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
    extent = extent_of(mean_angle_deg(inputs), inputs.stance_length_mm / inputs.neutral_spacing_mm)
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
    mean = mean_angle_deg(inputs)
    extent = extent_of(mean, inputs.stance_length_mm / inputs.neutral_spacing_mm)
    ratios = np.linspace(max(extent.bottom, 0.0), extent.top, GRID[1])
    return float(_map(inputs, np.array([mean]), ratios).no_cant[0])


def _map(inputs: Inputs, angles_deg: NDArray[Any], ratios: NDArray[Any]) -> StanceMap:
    return stance_map_of(Solved(*model(inputs)), np.radians(angles_deg), ratios)


def _steps(low: float, high: float, step: float) -> NDArray[Any]:
    """Whole steps from low to high."""
    first, last = np.ceil(low / step - 1e-9), np.floor(high / step + 1e-9)
    return np.round(step * np.arange(first, last + 1.0), 9) + 0.0


def _rows(cants: NDArray[Any]) -> list[list[float | None]]:
    return [numbers_in(row) for row in np.degrees(cants)]
