"""How far the hips are shifted sideways for a share of the weight on the front foot."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from geometry.fitting.inputs import how_many
from geometry.posture import PostureInputs, solve

A_LITTLE = 10.0
"""By this the hips are moved to see what follows (mm)."""
ROUNDS = 4
"""The share follows the shift nearly evenly: each round leaves a hundredth of what was off."""
FARTHEST = 400.0
"""Hips are not looked for farther aside (mm)."""


def shift_for_share(asked: PostureInputs, share: float) -> NDArray[np.float64]:
    """Hip shift at which a share of the weight stands on the front foot (mm, + toward it).

    Args:
        asked: riders and stances; their own hip shift does not matter.
        share: from 0, all on the rear foot, to 1.

    Returns:
        Shape (n,), n being 1 for single values; nan where no posture settles on the way,
        where the bindings stand at one place, and where it would be too far aside.
    """
    n = how_many(asked)
    at, slope = np.zeros(n), np.full(n, np.nan)
    for _ in range(ROUNDS):
        off = _share_at(asked, at) - share
        there = (_share_at(asked, at + A_LITTLE) - share - off) / A_LITTLE
        # A share that no shift changes has no shift.
        slope = np.where(np.isnan(slope) & (there != 0.0), there, slope)
        at = np.clip(np.nan_to_num(at - off / slope), -FARTHEST, FARTHEST)
    missed = np.abs(_share_at(asked, at) - share)
    return np.where(missed < 1e-4, at, np.nan)


def _share_at(asked: PostureInputs, shift: NDArray[np.float64]) -> NDArray[np.float64]:
    body, boots, stance, crouch = asked
    posture = solve(body, boots, stance, replace(crouch, hip_shift=shift))
    return np.broadcast_to(np.asarray(posture.front_share, dtype=np.float64), shift.shape)
