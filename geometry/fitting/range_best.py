"""The mounts that, put on together, keep the worst of a whole riding range smallest.

Cants and lifts each change what the other should be, and how tall the rider can
stand with them, so they are sought in turn until they agree.  The mounts that the
stance has do not matter: once the best ones are on, they are still the best.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from geometry.body import Body
from geometry.boots import Boots
from geometry.crouch import Crouch
from geometry.fitting.range_fit import range_cants_steps, range_lifts_steps, settled_points
from geometry.fitting.smallest_mounts import canted, lifted
from geometry.fitting.steps import Steps
from geometry.fitting.sweep import DEEPEST, TURN, RidingRange, riding_range
from geometry.posture import NAN
from geometry.stance import Stance

CLOSE_ENOUGH = math.radians(0.05)
"""Mounts that move less than this in a round agree (rad): a tenth of what is shown."""
MOST_ROUNDS = 6
"""Two to four rounds usually do."""


@dataclass(frozen=True, eq=False, slots=True)
class RangeBest:
    """The best mounts of a riding range (rad); nan where there are none.

    Attributes:
        cants: front and rear cant that keep the worst off-plane angle of the
            range smallest; the smallest that do.
        lifts: the smallest front and rear lift that keep each boot within its flex
            range all through, or as near to it as can be.
        over: the range, with these mounts.
        stance: the stance with these mounts; as it was given where there are none.
    """

    cants: tuple[float, float]
    lifts: tuple[float, float]
    over: RidingRange
    stance: Stance


def range_best_steps(
    body: Body,
    boots: Boots,
    stance: Stance,
    crouch: Crouch,
    *,
    deepest: float = DEEPEST,
    turn: float = TURN,
    turned: float = 0.0,
) -> Steps[RangeBest]:
    """The mounts that together keep the worst of the whole bend smallest.

    In short steps, for callers who must not stand still.

    Args:
        body: leg dimensions.
        boots: boots.
        stance: the two mounts and their places; lifts and cants are not used.
        crouch: hip shift, back lean and weight; its bend is only where the search
            starts.
        deepest: knee bend of the deepest crouch (rad).
        turn: hips turned this far either way (rad); 0 for the bend alone.
        turned: how the hips are turned in the middle of the range (rad).
    """
    none = NAN, NAN
    mounted, cants, lifts = canted(lifted(stance, 0.0, 0.0), 0.0, 0.0), (0.0, 0.0), (0.0, 0.0)
    for _ in range(MOST_ROUNDS):
        before = (*cants, *lifts)
        over = riding_range(body, boots, mounted, crouch, deepest=deepest, turn=turn, turned=turned)
        points = settled_points(body, boots, mounted, crouch, over)
        yield
        lifts = yield from range_lifts_steps(body, boots, mounted, points)
        if math.isnan(lifts[0]):
            return RangeBest(none, none, over, stance)
        mounted = lifted(mounted, *lifts)
        cants = yield from range_cants_steps(body, boots, mounted, points)
        if math.isnan(cants[0]):
            return RangeBest(none, none, over, stance)
        mounted = canted(mounted, *cants)
        moved = [abs(now - then) for now, then in zip((*cants, *lifts), before, strict=True)]
        if not max(moved) > CLOSE_ENOUGH:
            break
    return RangeBest(cants, lifts, over, mounted)
