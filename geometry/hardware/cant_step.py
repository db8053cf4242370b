"""The finest step in which the parts at hand set a cant."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np

from geometry.fitting.margins import FINEST
from geometry.hardware.parts import Part, PartsList, stack_lift_and_cant

SAME_CANT = 0.5 * FINEST
"""Cants that differ by no more count as one (rad): half the finest step."""
_LEVEL = 1e-9
"""A cant that is none but for rounding (rad)."""
_DECIMALS = 9
"""To which sums of cants are compared (rad), so that rounding makes no cant of its own."""


def finest_cant_step(parts: PartsList) -> float:
    """The smallest difference between two cants that the parts make under one foot (rad).

    A slope across the foot counts in full, either way round.  A part that can be
    turned counts with its first step away from flat, where its steps are widest:
    near its steepest they are finer, but only there.  One that keeps its bearing
    on the board counts as if its binding stood straight across.  Stacked cants are
    added, as slopes across one line do; where a turned part also lifts, the sum is
    right to first order.

    Returns:
        At least :data:`geometry.fitting.margins.FINEST`, as nothing finer is recommended;
        nan where no part makes a cant.
    """
    made: list[set[float]] = [{0.0}, *(set() for _ in range(parts.largest_stack))]
    finest = math.nan
    for part in parts.parts:
        made = _with_part(made, part)
        finest = _smallest_difference(set().union(*made))
        # More parts only make the step finer, and it is taken no finer than this.
        if finest <= FINEST + _LEVEL:
            return FINEST
    return finest


def smallest_cant(part: Part) -> float:
    """The smallest cant but none that a single part makes (rad); 0 where it makes none."""
    _, cants = stack_lift_and_cant([part.slope], [np.array(part.bearings)])
    sizes = np.abs(np.asarray(cants))
    return float(min(sizes[sizes > _LEVEL], default=0.0))


def _with_part(made: list[set[float]], part: Part) -> list[set[float]]:
    """Cants by the number of parts that stand on each other, with one more sort of part."""
    cant = smallest_cant(part)
    if not cant:
        return made
    more = [set(cants) for cants in made]
    for below, cants in enumerate(made):
        for added in range(1, min(part.count, len(made) - 1 - below) + 1):
            turned = [cant * (added - 2 * outward) for outward in range(added + 1)]
            more[below + added] |= {round(c + t, _DECIMALS) for c in cants for t in turned}
    return more


def _smallest_difference(cants: set[float]) -> float:
    """Between neighbours that are not the same; nan where there are none (rad)."""
    gaps = (high - low for low, high in pairwise(sorted(cants)))
    return min((gap for gap in gaps if gap > SAME_CANT), default=math.nan)
