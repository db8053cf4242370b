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
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from geometry.body import Body
from geometry.boots import Boots
from geometry.elementary import Real
from geometry.fitting.roots import CLOSE, root_from_zero
from geometry.fitting.smallest_mounts import FLEX_PER_LIFT, STEEPEST, canted, front_off_rest, lifted
from geometry.fitting.steps import Steps, finished
from geometry.fitting.sweep import RidingRange, largest, sweep_of
from geometry.fitting.worst import demand
from geometry.posture import Crouch, solve
from geometry.stance import Stance

MOST_ROUNDS = 25
"""Secant rounds for the two cants; six or so usually do."""
LEAST_SLOPE = 0.2
"""A demand falls at least so fast with its cant; a flatter secant is a slip."""


@dataclass(frozen=True, eq=False, slots=True)
class RangeFit:
    """The mounts that suit a whole riding range best (rad); nan where none is found.

    Attributes:
        full_cants: front and rear cant that make the worst wanted give of the
            range, and with it the worst off-plane angle, smallest.
        least_cants: the smallest cants that leave no more off-plane than these.
        full_lift: toe lift in front, with as much heel lift behind, that makes
            the boots' worst flex away from rest smallest.
        least_lift: the smallest that keeps both boots within their flex range
            all through, or as near to it as can be.
    """

    full_cants: tuple[float, float]
    least_cants: tuple[float, float]
    full_lift: float
    least_lift: float


def range_fit_of(
    body: Body, boots: Boots, stance: Stance, crouch: Crouch, over: RidingRange
) -> RangeFit:
    """The mounts that suit a whole riding range best.

    As in :func:`geometry.fitting.fit.fit_of` the cants hold for the lifts that the stance
    has and the lifts for its cants.  Points of the range at which no posture
    settles in the stance as it is do not count.
    """
    points = settled_points(body, boots, stance, crouch, over)
    return RangeFit(
        full_cants=range_cants(body, boots, stance, points, 0.0),
        least_cants=range_cants(body, boots, stance, points, float(boots.side_give)),
        full_lift=range_lift(body, boots, stance, points, 0.0),
        least_lift=range_lift(body, boots, stance, points, float(boots.flex_range)),
    )


def range_cants(
    body: Body, boots: Boots, stance: Stance, points: Crouch, allowance: float
) -> tuple[float, float]:
    """The smallest cants that keep both legs' demand within an allowance all through.

    Args:
        body: leg dimensions.
        boots: boots.
        stance: the two mounts; their cants are not used.
        points: the crouches of the range, arrays of one shape.
        allowance: wanted give left to boot and ankle (rad), at least 0.

    Returns:
        Front and rear cant (rad), those that keep the worst smallest where it
        cannot be kept within the allowance; nan where there are none.
    """
    return finished(range_cants_steps(body, boots, stance, points, allowance))


def range_cants_steps(
    body: Body, boots: Boots, stance: Stance, points: Crouch, allowance: float
) -> Steps[tuple[float, float]]:
    """:func:`range_cants` in short steps, for callers who must not stand still."""
    if not np.size(points.knee_bend):
        return math.nan, math.nan

    def demands(front: float, rear: float) -> list[NDArray[Any]]:
        legs = solve(body, boots, canted(stance, front, rear), points).legs
        return [demand(leg.wanted_give, leg.off_plane, boots.side_give) for leg in legs]

    return (yield from _range_cants(demands, allowance))


def range_lift(body: Body, boots: Boots, stance: Stance, points: Crouch, allowance: float) -> float:
    """The smallest lift that keeps both boots within an allowance of rest all through.

    Args:
        body: leg dimensions.
        boots: boots.
        stance: the two mounts; their lifts are not used.
        points: the crouches of the range, arrays of one shape.
        allowance: flex away from rest left to each boot (rad), at least 0.

    Returns:
        Toe lift in front, with as much heel lift behind (rad); the one that
        keeps the worst smallest where it cannot be kept within the allowance;
        nan where there is none.
    """

    def off_rest(lift: float) -> NDArray[Any]:
        return np.asarray(front_off_rest(body, boots, lifted(stance, lift), points))

    return _range_lift(off_rest, allowance) if np.size(points.knee_bend) else math.nan


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


def _range_lift(off_rest: Callable[[float], NDArray[Any]], allowance: float) -> float:
    """The smallest lift that keeps the boots within an allowance of rest all through."""
    flat, side = _overhang(off_rest(0.0), allowance)

    def overhang(lift: Real) -> float:
        return _overhang(off_rest(float(lift)), allowance, side)[0]

    return float(root_from_zero(overhang, flat, FLEX_PER_LIFT, STEEPEST))


def _range_cants(
    demands: Callable[[float, float], Sequence[NDArray[Any]]], allowance: float
) -> Steps[tuple[float, float]]:
    """The smallest cants that keep both legs' demand within an allowance all through.

    Each leg's demand follows its own cant nearly one to one and the other's
    hardly at all, so both take secant steps side by side.
    """
    starts = [_overhang(demand, allowance) for demand in demands(0.0, 0.0)]
    sides = [side for _, side in starts]
    last, last_over = np.zeros(2), np.array([start for start, _ in starts])
    cants = np.clip(last_over, -STEEPEST, STEEPEST)
    for _ in range(MOST_ROUNDS):
        yield
        now = np.array(
            [
                _overhang(demand, allowance, side)[0] if side else 0.0
                for demand, side in zip(demands(*cants.tolist()), sides, strict=True)
            ]
        )
        if np.abs(now).max() < 1e2 * CLOSE:
            return float(cants[0]), float(cants[1])
        if np.isnan(now).any() or np.array_equal(cants, last):
            break
        slope = np.divide(now - last_over, cants - last, out=-np.ones(2), where=cants != last)
        slope = np.where(slope < -LEAST_SLOPE, slope, -1.0)
        last, last_over, cants = cants, now, np.clip(cants - now / slope, -STEEPEST, STEEPEST)
    return math.nan, math.nan
