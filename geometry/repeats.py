"""What repeat measurements of one length say together."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from geometry.checks import require_between

WIDEST_GAP = 10.0
"""Repeats further apart than this ask to be measured again (mm; engineering
choice, no source)."""


@dataclass(frozen=True, slots=True)
class Repeats:
    """Mean of repeat measurements and how well they agree (mm).

    Attributes:
        count: how many there are.
        mean: their mean.
        spread: their standard deviation, over ``count - 1``; nan for one alone.
        standard_error: of the mean; nan for one alone.
        gap: between the smallest and the largest.
    """

    count: int
    mean: float
    spread: float
    standard_error: float
    gap: float

    @property
    def far_apart(self) -> bool:
        """Whether the repeats differ so much that one of them is likely a slip."""
        return self.gap > WIDEST_GAP


def repeats_of(lengths: Sequence[float]) -> Repeats:
    """Mean, spread and standard error of repeat measurements of one length.

    Args:
        lengths: the repeats (mm), at least one.

    Raises:
        ValueError: there is none, or one lies outside 0 to 3000 mm.
    """
    if not lengths:
        raise ValueError("there are 0 measurements; at least 1 is needed")
    values = np.array(lengths, dtype=np.float64)
    require_between("measurement", values, 0.0, 3000.0, "mm")
    spread = float(values.std(ddof=1)) if len(values) > 1 else math.nan
    return Repeats(
        count=len(values),
        mean=float(values.mean()),
        spread=spread,
        standard_error=spread / math.sqrt(len(values)),
        gap=float(np.ptp(values)),
    )


def repeats_finding(repeats: Repeats) -> str:
    """What to tell of repeats that do not agree, in words; empty where they do."""
    if not repeats.far_apart:
        return ""
    return (
        f"the repeats lie {repeats.gap:.0f} mm apart, more than {WIDEST_GAP:.0f} mm: "
        "find the landmark again and repeat the measurement"
    )
