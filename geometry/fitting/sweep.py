"""The legs through the whole bend: a rider is in no posture for long.

A riding range is a grid of knee bends, from standing tall to the deepest
crouch, by hips turned one way and the other.  The posture is solved at every
point of it in one go.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from geometry.body import Body
from geometry.boots import Boots
from geometry.crouch import Crouch
from geometry.posture import settling
from geometry.settling import Settled
from geometry.stance import Stance

DEEPEST = math.radians(90.0)
"""Deepest crouch swept where the rider sets none (rad; engineering choice, no source)."""
TURN = math.radians(20.0)
"""Hips turned this far either way (rad; engineering choice, no source)."""
FINEST_BEND = math.radians(0.5)
"""How finely the tallest and the deepest posture are looked for (rad)."""
ALL_BUT_STRAIGHT = math.radians(0.1)
"""Flexion of a knee that is straight, on the side of a posture that exists (rad)."""
MOST_STEPS = 8
"""Steps towards it: two or three do as a rule."""
USUAL_SLOPE, LEAST_SLOPE = 1.15, 0.2
"""Of that flexion over the bend, on the way from a crouch, and so that no step leads astray."""

STARTS = tuple(math.radians(bend) for bend in (45.0, 70.0, 25.0, 90.0, 10.0))
"""Knee bends from which a settling posture is sought (rad)."""


@dataclass(frozen=True, eq=False, slots=True)
class RidingRange:
    """The postures a rider moves through.

    Attributes:
        bends: knee bends (rad), rising, shape (b,).
        turns: hips turned from the mean binding angle (rad), rising, shape (t,).
    """

    bends: NDArray[Any]
    turns: NDArray[Any]


def riding_range(
    body: Body,
    boots: Boots,
    stance: Stance,
    crouch: Crouch,
    *,
    deepest: float = DEEPEST,
    turn: float = TURN,
    points: tuple[int, int] = (17, 5),
    turned: float = 0.0,
) -> RidingRange:
    """Standing tall to the deepest crouch, and hips turned either way.

    Standing tall is the least knee bend at which a posture settles in the
    stance with the hips not turned, or as they are said to be; the deepest
    crouch is the one asked for, or the deepest that settles.  Both are found to
    half a degree, and a knee that is all but straight to a fifth of one.

    Args:
        body: leg dimensions.
        boots: boots.
        stance: the two mounts and their places.
        crouch: hip shift, back lean and weight; its bend is only where the search
            starts, its turn is not used.
        deepest: knee bend of the deepest crouch (rad).
        turn: hips turned this far either way (rad); 0 for hips that stay put.
        points: how many bends and how many turns; hips that stay put have one.
        turned: how the hips are turned in the middle of the range, where the
            tallest and the deepest posture are sought (rad).

    Returns:
        The range; its bends are nan where no posture settles at all.
    """
    settled = settling(body, boots, stance, replace(crouch, hips_turned=turned))

    def settles(bend: float) -> bool:
        return bool(settled(bend).exists)

    tries = (float(crouch.knee_bend), *STARTS, deepest)
    start = next((bend for bend in tries if bend <= deepest and settles(bend)), math.nan)
    tall = _with_a_straight_knee(settled, start)
    if math.isnan(tall):
        tall = _last_settling(settles, start, FINEST_BEND)
    deep = _last_settling(settles, start, deepest)
    turns = np.linspace(-turn, turn, points[1]) if turn and points[1] > 1 else np.zeros(1)
    return RidingRange(np.linspace(tall, deep, points[0]), turned + turns)


def _with_a_straight_knee(settled: Callable[[float], Settled], start: float) -> float:
    """The knee bend at which the straighter knee is all but straight (rad).

    The flexion of a knee hardly bends over the mean of both, so that two or three steps
    of the secant get there.

    Args:
        settled: where the pelvis settles at a knee bend.
        start: a bend at which it does, or nan.

    Returns:
        The bend, or half a degree where both knees still bend there; nan where no posture
        settles there, as when a leg does not reach or its knee is too far out.
    """
    if math.isnan(start):
        return start
    bend, legs, slope = start, settled(start), USUAL_SLOPE
    for _ in range(MOST_STEPS):
        over = _straighter(legs) - ALL_BUT_STRAIGHT
        if legs.exists and (abs(over) < ALL_BUT_STRAIGHT or bend == FINEST_BEND):
            return bend
        step = max(bend - over / slope, FINEST_BEND) - bend
        if not step:
            break
        bend += step
        legs = settled(bend)
        slope = max((_straighter(legs) - ALL_BUT_STRAIGHT - over) / step, LEAST_SLOPE)
    return math.nan


def _straighter(legs: Settled) -> float:
    """Flexion of the straighter knee (rad)."""
    return min(float(legs.front.knee_flexion), float(legs.rear.knee_flexion))


def _last_settling(settles: Callable[[float], bool], start: float, end: float) -> float:
    """The last knee bend from a settled start towards an end that settles (rad)."""
    if math.isnan(start) or settles(end):
        return end + 0.0 * start
    while abs(end - start) > FINEST_BEND:
        middle = 0.5 * (start + end)
        start, end = (middle, end) if settles(middle) else (start, middle)
    return start
