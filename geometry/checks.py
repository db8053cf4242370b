"""Refusal of impossible input, at the door, by name, value and range."""

from __future__ import annotations

import math

from geometry.arrays import np
from geometry.elementary import Real
from geometry.reasons import Amount, Name, Span, impossible


def require_between(name: str | Name, value: Real, low: float, high: float, unit: str) -> None:
    """Refuse a value outside [low, high].

    Args:
        name: what the value is called.
        value: in mm or rad, the units of the package; a number or an array.
        low: smallest possible value, in ``unit``.
        high: largest possible value, in ``unit``.
        unit: of the limits, as in :class:`geometry.reasons.Amount`; "deg" for a value
            in rad, any other for a value in that unit itself.

    Raises:
        ImpossibleError: names the quantity, the first bad value and the range.
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
    raise impossible(
        "out of range",
        name=Name(name) if isinstance(name, str) else name,
        value=Amount(culprit, unit),
        range=Span(low * per_unit, high * per_unit, unit, between=True),
    )


def require_order(low_name: str, low: Real, high_name: str, high: Real) -> None:
    """Refuse a lower height that is not below the higher one.

    Raises:
        ImpossibleError: names both quantities and the first pair of values at fault.
    """
    if isinstance(low, float) and isinstance(high, float) and low < high:
        return
    wrong = np.asarray(low >= high)
    if not wrong.any():
        return
    lows, highs, _ = np.broadcast_arrays(low, high, wrong)
    raise impossible(
        "not below",
        name=Name(low_name),
        value=Amount(float(lows[wrong][0]), "mm"),
        other=Name(high_name),
        limit=Amount(float(highs[wrong][0]), "mm"),
    )
