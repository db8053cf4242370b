"""Both legs posture by posture through the riding bend, for the tests of what is told of it."""

from __future__ import annotations

import numpy as np

from app.rider.inputs import Inputs, changed, model
from geometry import solve


def worst_over_bend(inputs: Inputs) -> tuple[float, float]:
    """Largest off-plane angle of the front and the rear knee (degrees), the hips straight.

    Each tenth of a degree of the riding bend is solved by itself.
    """
    bends = np.arange(inputs.bend_from_deg, inputs.bend_to_deg + 0.05, 0.1)
    off = [_off_plane(inputs, float(bend)) for bend in bends]
    front, rear = np.degrees(np.abs(off)).max(axis=0)
    return float(front), float(rear)


def _off_plane(inputs: Inputs, bend_deg: float) -> tuple[float, float]:
    """Of front and rear knee (rad) in one posture."""
    posture = solve(*model(changed(inputs, knee_bend_deg=bend_deg, hips_turned_deg=0.0)))
    front, rear = (float(leg.off_plane) for leg in posture.legs)
    return front, rear
