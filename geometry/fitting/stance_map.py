"""Full cant over binding angle and stance length: the map of a rider's stances.

The map's stances have equal binding angles; a stance whose angles differ stands
on it at their mean, and says so.  Upward the map shows stance length over
neutral spacing, so that riders of any size share one scale.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from geometry.body import Body
from geometry.fitting.smallest_mounts import full_cants
from geometry.posture import PostureInputs
from geometry.stance import Mount, Stance, no_cant_length


@dataclass(frozen=True, eq=False, slots=True)
class StanceMap:
    """Full cant over a grid of stances.

    Attributes:
        angles: binding angles (rad), rising, shape (a,).
        ratios: stance length over neutral spacing, rising, shape (r,).
        front: full cant of the front foot (rad), shape (r, a); nan where no
            posture settles.
        rear: of the rear foot.
        no_cant: ratio at which the mean of the two is zero for each angle,
            shape (a,); nan where the map does not hold it.
        straight_leg: the same by the rule for straight legs, ``sec(angle)`` on
            a snowboard.
    """

    angles: NDArray[Any]
    ratios: NDArray[Any]
    front: NDArray[Any]
    rear: NDArray[Any]
    no_cant: NDArray[Any]
    straight_leg: NDArray[Any]

    @property
    def cant(self) -> NDArray[Any]:
        """Mean full cant of the two feet (rad), shape (r, a)."""
        return np.asarray(0.5 * (self.front + self.rear))


@dataclass(frozen=True, slots=True)
class MapPlace:
    """Where a stance stands on the map, and how surely.

    Attributes:
        angle: its binding angle, or the mean of two that differ (rad).
        ratio: its stance length over the neutral spacing.
        angle_error: standard error of the angle (rad): half an axis of an ellipse.
        ratio_error: of the ratio: half the other axis.
        is_mean: whether the two binding angles differ.
    """

    angle: float
    ratio: float
    angle_error: float
    ratio_error: float
    is_mean: bool


def stance_map_of(setup: PostureInputs, angles: NDArray[Any], ratios: NDArray[Any]) -> StanceMap:
    """Full cant of every stance on a grid, from the solved model.

    Args:
        setup: the rider; the stance's lifts and across spacing hold all over
            the map, as do the bend of the knees and the place of the hips.
        angles: binding angles (rad), shape (a,).
        ratios: stance lengths over neutral spacing, shape (r,).
    """
    body, boots, stance, crouch = setup
    lengths = body.neutral_spacing * ratios[:, np.newaxis]
    tried = _equal_angles(stance, angles, lengths)
    cants = full_cants(body, boots, tried, crouch)
    front, rear = np.asarray(cants.front), np.asarray(cants.rear)
    straight = np.asarray(no_cant_length(tried, body.neutral_spacing) / body.neutral_spacing)
    return StanceMap(
        angles=angles,
        ratios=ratios,
        front=front,
        rear=rear,
        no_cant=zero_crossings(ratios, 0.5 * (front + rear)),
        straight_leg=np.broadcast_to(straight, angles.shape),
    )


def map_place(body: Body, stance: Stance, spreads: Mapping[str, float]) -> MapPlace:
    """Where a stance stands on the map.

    Args:
        body: leg dimensions; only the neutral spacing is used.
        stance: the stance, single values.
        spreads: standard errors by the names of :data:`geometry.fitting.inputs.INPUTS`;
            those of the angles, the stance length and the neutral spacing count.
    """
    neutral, length = float(body.neutral_spacing), float(stance.length)
    ratio = length / neutral if neutral else math.nan
    angle_error = 0.5 * math.hypot(spreads.get("front_angle", 0.0), spreads.get("rear_angle", 0.0))
    # To first order in both, which are measured apart.
    ratio_error = math.hypot(
        spreads.get("stance_length", 0.0), ratio * spreads.get("neutral_spacing", 0.0)
    )
    return MapPlace(
        angle=float(stance.mean_angle),
        ratio=ratio,
        angle_error=angle_error,
        ratio_error=ratio_error / neutral if neutral else math.nan,
        is_mean=abs(float(stance.front.angle) - float(stance.rear.angle)) > 1e-9,
    )


def zero_crossings(places: NDArray[Any], values: NDArray[Any]) -> NDArray[Any]:
    """The first place in each column where its values rise or fall through zero.

    Args:
        places: of the rows, rising, shape (r,).
        values: shape (r, c), taken to be linear from row to row.

    Returns:
        Shape (c,); nan for a column that does not pass zero.
    """
    low, high = values[:-1], values[1:]
    passes = ((low <= 0.0) & (high > 0.0)) | ((low >= 0.0) & (high < 0.0))
    row = np.argmax(passes, axis=0)
    column = np.arange(values.shape[1])
    start, end = low[row, column], high[row, column]
    # A column that does not pass may be level there.
    step = np.where(passes[row, column], start - end, np.nan)
    return np.asarray(places[row] + (places[row + 1] - places[row]) * start / step)


def _equal_angles(stance: Stance, angles: NDArray[Any], lengths: NDArray[Any]) -> Stance:
    """The stance with both feet at the same angle and another length."""
    return replace(
        stance,
        front=Mount(angles, stance.front.lift),
        rear=Mount(angles, stance.rear.lift),
        length=lengths,
    )
