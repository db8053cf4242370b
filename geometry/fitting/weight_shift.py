"""Where the weight stands with another share of it on the front foot.

The weight is moved along the line from one foot to the other and nowhere else: ahead as
far as that line runs ahead, and sideways as far as it runs sideways.  Moving the hips
sideways alone would not do: with both feet along the board sideways is square to the
line between them, and the hips would have to go out of all reach.
"""

from __future__ import annotations

from dataclasses import replace
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from geometry.fitting.inputs import how_many
from geometry.posture import Posture, PostureInputs, solve

Values = NDArray[np.float64]

A_LITTLE = 10.0
"""By this the hips are moved to see what follows (mm)."""
ROUNDS = 4
"""The weight follows the hips nearly evenly: each round leaves a hundredth of what was off."""
FARTHEST = 400.0
"""Weight and hips are not looked for farther away (mm)."""
CLOSE = 0.05
"""The weight stands where it is wanted to within this (mm)."""


class WeightMoved(NamedTuple):
    """Where the weight stands then, shape (n,) each; nan where it cannot stand there.

    Attributes:
        ahead: of the middle between the bindings, along the stance facing (mm).
        hip_shift: of the pelvis toward the front leg, square to that (mm).
    """

    ahead: Values
    hip_shift: Values


def weight_at_share(asked: PostureInputs, share: float) -> WeightMoved:
    """The weight moved along the line between the feet until the front one has its share.

    Args:
        asked: riders and stances; moved is from where their weight stands.
        share: from 0, all on the rear foot, to 1.

    Returns:
        Of shape (n,), n being 1 for single values; nan where no posture settles on the
        way, where the bindings stand at one place, and where it would be too far.
    """
    n, (body, boots, stance, crouch) = how_many(asked), asked
    length, across, angle = (
        np.broadcast_to(np.asarray(value, dtype=np.float64), (n,))
        for value in (stance.length, stance.across, stance.mean_angle)
    )
    apart = np.hypot(length, across)
    along, facing = (
        _Plan(
            np.divide(length, apart, out=np.full(n, np.nan), where=apart > 0.0),
            np.divide(-across, apart, out=np.full(n, np.nan), where=apart > 0.0),
        ),
        _Plan(np.sin(angle), np.cos(angle)),
    )
    sideways = _Plan(facing.y, -facing.x)
    stood = _weight(solve(*asked), n)
    way = (share - 0.5) * apart - along.dot(stood)
    ahead = crouch.weight_ahead + way * along.dot(facing)
    wanted = sideways.dot(stood) + way * along.dot(sideways)
    ahead = np.where(np.abs(ahead) <= FARTHEST, ahead, np.nan)
    settled = replace(crouch, weight_ahead=np.nan_to_num(ahead))

    def off(shift: Values) -> Values:
        posture = solve(body, boots, stance, replace(settled, hip_shift=shift))
        return sideways.dot(_weight(posture, n)) - wanted

    shift = np.broadcast_to(np.asarray(crouch.hip_shift, dtype=np.float64), (n,))
    slope = (off(shift + A_LITTLE) - off(shift)) / A_LITTLE
    for _ in range(ROUNDS):
        step = np.divide(off(shift), slope, out=np.zeros(n), where=np.abs(slope) > 0.0)
        shift = np.clip(np.nan_to_num(shift - step), -FARTHEST, FARTHEST)
    missing = np.where(np.abs(off(shift)) < CLOSE, 0.0 * ahead, np.nan)
    return WeightMoved(ahead + missing, shift + missing)


class _Plan(NamedTuple):
    """Directions or places seen from above, shape (n,) each."""

    x: Values
    y: Values

    def dot(self, other: _Plan) -> Values:
        """How far another one goes along this."""
        return self.x * other.x + self.y * other.y


def _weight(posture: Posture, n: int) -> _Plan:
    """Where the centre of mass stands (mm)."""
    x, y, _ = posture.mass_centre
    return _Plan(*(np.broadcast_to(np.asarray(each, dtype=np.float64), (n,)) for each in (x, y)))
