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
from geometry.posture import solve
from geometry.stance import Stance

DEEPEST = math.radians(90.0)
"""Deepest crouch swept where the rider sets none (rad; engineering choice, no source)."""
TURN = math.radians(20.0)
"""Hips turned this far either way (rad; engineering choice, no source)."""
FINEST_BEND = math.radians(0.5)
"""How finely the tallest and the deepest posture are looked for (rad)."""

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
    half a degree.

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

    def settles(bend: float) -> bool:
        return bool(solve(body, boots, stance, _bent(crouch, bend, turned)).exists)

    tries = (float(crouch.knee_bend), *STARTS, deepest)
    start = next((bend for bend in tries if bend <= deepest and settles(bend)), math.nan)
    tall, deep = (_last_settling(settles, start, end) for end in (FINEST_BEND, deepest))
    turns = np.linspace(-turn, turn, points[1]) if turn and points[1] > 1 else np.zeros(1)
    return RidingRange(np.linspace(tall, deep, points[0]), turned + turns)


def _bent(crouch: Crouch, bend: float, turned: float) -> Crouch:
    """The crouch with another knee bend and the hips turned otherwise."""
    return replace(crouch, knee_bend=bend, hips_turned=turned)


def _last_settling(settles: Callable[[float], bool], start: float, end: float) -> float:
    """The last knee bend from a settled start towards an end that settles (rad)."""
    if math.isnan(start) or settles(end):
        return end + 0.0 * start
    while abs(end - start) > FINEST_BEND:
        middle = 0.5 * (start + end)
        start, end = (middle, end) if settles(middle) else (start, middle)
    return start
