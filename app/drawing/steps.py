"""Sizes in steps, so that a view's scale does not flutter under a drag."""

from __future__ import annotations

from math import ceil


def outward(distance: float, step: float) -> float:
    """The next multiple of a step at or above a distance."""
    return step * ceil(distance / step - 1e-9)
