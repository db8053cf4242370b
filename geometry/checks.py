"""Refusal of impossible input, at the door and in words."""

from __future__ import annotations

import math

from geometry.arrays import np
from geometry.elementary import Real


def require_between(name: str, value: Real, low: float, high: float, unit: str) -> None:
    """Refuse a value outside [low, high].

    Args:
        name: what the value is, in words.
        value: in mm or rad, the units of the package; a number or an array.
        low: smallest possible value, in ``unit``.
        high: largest possible value, in ``unit``.
        unit: of the limits and of the message; "deg" for a value in rad, any
            other for a value in that unit itself.

    Raises:
        ValueError: names the quantity, the first bad value and the range.
    """
    per_unit = math.pi / 180.0 if unit == "deg" else 1.0
    slack = 1e-9 * (high - low)
    least, most = (low - slack) * per_unit, (high + slack) * per_unit
    if isinstance(value, (float, int)):
        if least <= value <= most:
            return
        culprit = value
    else:
        outside = ~((value >= least) & (value <= most))
        if not outside.any():
            return
        culprit = float(value[outside][0])
    raise ValueError(
        f"{name} is {culprit / per_unit:.6g} {unit}; "
        f"it must lie between {low:g} and {high:g} {unit}"
    )


def require_order(low_name: str, low: Real, high_name: str, high: Real) -> None:
    """Refuse a lower height that is not below the higher one.

    Raises:
        ValueError: names both quantities and the first pair of values at fault.
    """
    if isinstance(low, float) and isinstance(high, float) and low < high:
        return
    wrong = np.asarray(low >= high)
    if not wrong.any():
        return
    lows, highs, _ = np.broadcast_arrays(low, high, wrong)
    raise ValueError(
        f"{low_name} is {float(lows[wrong][0]):.6g} mm; "
        f"it must be less than the {high_name}, {float(highs[wrong][0]):.6g} mm"
    )
