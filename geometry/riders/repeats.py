"""What repeat measurements of one length, or of one angle, say together."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from geometry.arrays import np
from geometry.checks import require_between
from geometry.reasons import Amount, Reason

WIDEST_GAPS = {"mm": 10.0, "deg": math.radians(5.0)}
"""Repeats further apart than this ask to be measured again (mm, rad; engineering
choices, no source)."""
_POSSIBLE = {"mm": (0.0, 3000.0), "deg": (-90.0, 90.0)}


@dataclass(frozen=True, slots=True)
class Repeats:
    """Mean of repeat measurements and how well they agree (mm or rad).

    Attributes:
        count: how many there are.
        mean: their mean.
        spread: their standard deviation, over ``count - 1``; nan for one alone.
        standard_error: of the mean; nan for one alone.
        gap: between the smallest and the largest.
        unit: "mm" for lengths, "deg" for angles.
    """

    count: int
    mean: float
    spread: float
    standard_error: float
    gap: float
    unit: str = "mm"

    @property
    def far_apart(self) -> bool:
        """Whether the repeats differ so much that one of them is likely a slip."""
        return self.gap > WIDEST_GAPS[self.unit] + 1e-9


def repeats_of(measurements: Sequence[float], unit: str = "mm") -> Repeats:
    """Mean, spread and standard error of repeat measurements of one thing.

    Args:
        measurements: the repeats (mm or rad), at least one.
        unit: "mm" for lengths, "deg" for angles.

    Raises:
        ValueError: there is none, or one lies outside 0 to 3000 mm or -90 to 90
            degrees.
    """
    if not measurements:
        raise ValueError("there are 0 measurements; at least 1 is needed")
    values = np.array(measurements, dtype=np.float64)
    require_between("measurement", values, *_POSSIBLE[unit], unit)
    spread = float(values.std(ddof=1)) if len(values) > 1 else math.nan
    return Repeats(
        count=len(values),
        mean=float(values.mean()),
        spread=spread,
        standard_error=spread / math.sqrt(len(values)),
        gap=float(np.ptp(values)),
        unit=unit,
    )


def repeats_finding(repeats: Repeats) -> Reason | None:
    """What to tell of repeats that do not agree; None where they do."""
    if not repeats.far_apart:
        return None
    widest = WIDEST_GAPS[repeats.unit]
    return Reason("repeats apart", gap=_whole(repeats.gap, repeats), widest=_whole(widest, repeats))


def _whole(value: float, repeats: Repeats) -> Amount:
    """A gap to the nearest degree or millimetre."""
    if repeats.unit == "deg":
        return Amount(math.radians(round(math.degrees(value))), "°")
    return Amount(round(value), "mm")
