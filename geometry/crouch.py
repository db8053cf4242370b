"""What the rider does on the board."""

from __future__ import annotations

import math
from dataclasses import dataclass

from geometry.checks import require_between
from geometry.elementary import Real

USUAL_BACK_LEAN = math.radians(28.0)
"""Lean of head, arms and trunk (rad; engineering choice: with it the demo rider stands
at the boots' rest when the knees bend by 45 degrees)."""


@dataclass(frozen=True, eq=False, slots=True)
class Crouch:
    """What the rider does on the board.

    Attributes:
        knee_bend: mean of the two knees' flexion (rad).  At exactly zero, both
            legs straight, no posture settles; a hair above, it does.
        hips_turned: pelvis turned from the mean binding angle about its own
            middle (rad), positive towards the nose.
        hip_shift: pelvis moved sideways, square to the stance facing, to the
            front leg's side (mm).
        back_lean: how far head, arms and trunk lean from upright towards where
            the pelvis faces (rad).
        weight_ahead: how far the centre of mass stands ahead of the middle between
            the bindings, along the stance facing (mm).

    Raises:
        ValueError: a value is outside its possible range.
    """

    knee_bend: Real
    hips_turned: Real = 0.0
    hip_shift: Real = 0.0
    back_lean: Real = USUAL_BACK_LEAN
    weight_ahead: Real = 0.0

    def __post_init__(self) -> None:
        require_between("knee bend", self.knee_bend, 0.0, 170.0, "deg")
        require_between("hips turned", self.hips_turned, -180.0, 180.0, "deg")
        require_between("hip shift", self.hip_shift, -1000.0, 1000.0, "mm")
        require_between("back lean", self.back_lean, -90.0, 90.0, "deg")
        require_between("weight ahead", self.weight_ahead, -500.0, 500.0, "mm")
