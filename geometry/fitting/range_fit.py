"""The mounts that suit a whole riding range rather than one posture.

The range's cants keep its worst off-plane angle smallest, its lift keeps the
boots' worst flex away from rest smallest.  Lift is chosen by the boots, as for
one posture: the lift that is best for the knees alone gains them half a degree
at most in the stances tried, and leaves the boots where they are.

What a leg asks of boot and knee together falls steadily as its cant grows.  Over
a range it lies in a band, and the best cant puts the band's middle at zero: then
its two ends are equal and neither can shrink without the other growing.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from geometry.body import Body
from geometry.boots import Boots
from geometry.crouch import Crouch
from geometry.fitting.lift_pairs import CLOSE, STEEPEST
from geometry.fitting.smallest_mounts import canted, lifted, off_rest
from geometry.fitting.steps import Steps
from geometry.fitting.sweep import RidingRange, largest, sweep_of
from geometry.fitting.worst import demand
from geometry.posture import solve
from geometry.stance import Stance

MOST_ROUNDS = 25
"""Secant rounds for the two mounts; six or so usually do."""
LEAST_SLOPE = 0.2
"""A demand falls at least so fast with its mount; a flatter secant is a slip."""
_NONE = math.nan, math.nan


def range_cants_steps(
    body: Body, boots: Boots, stance: Stance, points: Crouch
) -> Steps[tuple[float, float]]:
    """The smallest cants that keep each leg's demand within its side give all through.

    Args:
        body: leg dimensions.
        boots: boots.
        stance: the two mounts; their cants are not used.
        points: the crouches of the range, arrays of one shape.

    Returns:
        Front and rear cant (rad), those that keep the worst smallest where it
        cannot be kept within the side give; nan where there are none.
    """

    def demands(front: float, rear: float) -> list[NDArray[Any]]:
        legs = solve(body, boots, canted(stance, front, rear), points).legs
        return [
            demand(leg.wanted_give, leg.off_plane, boot.side_give)
            for leg, boot in zip(legs, boots.both, strict=True)
        ]

    gives = float(boots.front.side_give), float(boots.rear.side_give)
    return (yield from _range_mounts(demands, gives)) if np.size(points.knee_bend) else _NONE


def range_lifts_steps(
    body: Body, boots: Boots, stance: Stance, points: Crouch
) -> Steps[tuple[float, float]]:
    """The smallest lifts that keep each boot within its flex range all through.

    Args:
        body: leg dimensions.
        boots: boots.
        stance: the two mounts; their lifts are not used.
        points: the crouches of the range, arrays of one shape.

    Returns:
        Front and rear lift (rad); those that keep the worst smallest where it
        cannot be kept within the flex range; nan where there are none.
    """

    def short_of_rest(front: float, rear: float) -> list[NDArray[Any]]:
        off = off_rest(body, boots, lifted(stance, front, rear), points)
        return [-np.asarray(each) for each in off]

    ranges = float(boots.front.flex_range), float(boots.rear.flex_range)
    return (yield from _range_mounts(short_of_rest, ranges)) if np.size(points.knee_bend) else _NONE


def settled_points(
    body: Body, boots: Boots, stance: Stance, crouch: Crouch, over: RidingRange
) -> Crouch:
    """The crouches of the range at which a posture settles, one after the other."""
    exists = sweep_of(body, boots, stance, crouch, over).posture.exists
    turns, bends = np.broadcast_arrays(over.turns[:, np.newaxis], over.bends)
    return replace(crouch, knee_bend=bends[exists], hips_turned=turns[exists])


def _overhang(values: NDArray[Any], allowance: float, side: float = 0.0) -> tuple[float, float]:
    """How far a range of values must move to lie within an allowance, and on which side.

    A range wider than the allowance is to lie even about zero instead.  Once a
    side is given, the distance of the range's end on that side is told even
    where it lies within.
    """
    high, low = largest(values), -largest(-values)
    reach = max(allowance, 0.5 * (high - low))
    if not side:
        side = 1.0 if high > reach + CLOSE else -1.0 if low < -reach - CLOSE else 0.0
    return (high - reach if side > 0.0 else low + reach if side < 0.0 else 0.0), side


def _range_mounts(
    demands: Callable[[float, float], Sequence[NDArray[Any]]], allowances: tuple[float, float]
) -> Steps[tuple[float, float]]:
    """The smallest mounts that keep both legs' demand within their allowances all through.

    Each leg's demand falls with its own mount nearly one to one and with the
    other's hardly at all, so both take secant steps side by side.
    """
    tried = np.array(demands(0.0, 0.0))
    sides = [_overhang(*each)[1] for each in zip(tried, allowances, strict=True)]
    last, mounts = np.zeros(2), _overhangs(tried, allowances, sides)
    mounts = np.clip(mounts, -STEEPEST, STEEPEST)
    for _ in range(MOST_ROUNDS):
        yield
        before, tried = tried, np.array(demands(*mounts.tolist()))
        # A point at which no posture settles with some mount does not count with any.
        lost = np.isnan(tried + before)
        before[lost], tried[lost] = math.nan, math.nan
        now = _overhangs(tried, allowances, sides)
        if np.abs(now).max() < 1e2 * CLOSE:
            return float(mounts[0]), float(mounts[1])
        if np.isnan(now).any() or np.array_equal(mounts, last):
            break
        changed = now - _overhangs(before, allowances, sides)
        slope = np.divide(changed, mounts - last, out=-np.ones(2), where=mounts != last)
        slope = np.where(slope < -LEAST_SLOPE, slope, -1.0)
        last, mounts = mounts, np.clip(mounts - now / slope, -STEEPEST, STEEPEST)
    return math.nan, math.nan


def _overhangs(
    demands: NDArray[Any], allowances: tuple[float, float], sides: Sequence[float]
) -> NDArray[Any]:
    """How far the demands of both legs must move, each on its side; not at all without one."""
    return np.array(
        [
            _overhang(demand, allowance, side)[0] if side else 0.0
            for demand, allowance, side in zip(demands, allowances, sides, strict=True)
        ]
    )
