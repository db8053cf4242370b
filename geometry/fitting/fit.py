"""What each binding needs: the cants and lifts that put knees and boots at ease.

Full cants put both hips right into their hinge planes; least cants leave to boot
and ankle what their side give absorbs.  Full lifts put both boots at rest; least
lifts leave to each boot what its flex range absorbs.  The posture settles again
with every one of them, so the two feet are always solved together.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from geometry.body import Body
from geometry.boots import Boots
from geometry.crouch import Crouch
from geometry.elementary import Real, Truth, every, unknown, where
from geometry.fitting.lift_pairs import lifts_within
from geometry.fitting.smallest_mounts import (
    Cants,
    full_cants,
    full_lifts,
    least_cants,
    least_lifts,
    lifted,
    off_rest,
)
from geometry.stance import Stance, straight_leg_cant


@dataclass(frozen=True, eq=False, slots=True)
class FootFit:
    """What one binding needs (rad); nan where no posture gives an answer.

    Attributes:
        full_cant: cant at which the wanted give is zero.
        least_cant: smallest cant at which side give absorbs the wanted give.
        full_lift: lift at which the boot sits at rest.
        least_lift: smallest lift that keeps the boot within its flex range.
        start_cant: where to start: the least end.
        straight_leg_cant: the rule of the trade for straight legs, a cross-check.
    """

    full_cant: Real
    least_cant: Real
    full_lift: Real
    least_lift: Real
    start_cant: Real
    straight_leg_cant: Real


@dataclass(frozen=True, eq=False, slots=True)
class Fit:
    """What both bindings need.

    The full and least cants hold for the lifts that the stance has, the full
    and least lifts for its cants.  The start values hold together, so putting
    them on the mounts leaves them what they are.

    Attributes:
        front: what the front binding needs.
        rear: what the rear binding needs.
        cants_settle: whether postures with the full and with the least cants settle.
        rear_at_fault: which leg cannot reach where none does.
        lifts_settle: whether a posture settles on soles without lift, from
            which the lifts are sought.
    """

    front: FootFit
    rear: FootFit
    cants_settle: Truth
    rear_at_fault: Truth
    lifts_settle: Truth


def fit_of(body: Body, boots: Boots, stance: Stance, crouch: Crouch) -> Fit:
    """What each binding needs, for one stance or for arrays of stances.

    Args:
        body: leg dimensions.
        boots: boots.
        stance: the two mounts and their places.
        crouch: bend of the knees and place of the hips.
    """
    full = full_cants(body, boots, stance, crouch)
    least = least_cants(body, boots, stance, crouch)
    flat = off_rest(body, boots, lifted(stance, 0.0, 0.0), crouch)
    at_rest = full_lifts(body, boots, stance, crouch, flat)
    within_range = least_lifts(body, boots, stance, crouch, flat)
    start = start_mounts(body, boots, stance, crouch)
    straight = straight_leg_cant(stance, body)
    return Fit(
        FootFit(
            full.front,
            least.front,
            at_rest.front,
            within_range.front,
            start.front_cant,
            straight[0],
        ),
        FootFit(
            full.rear,
            least.rear,
            at_rest.rear,
            within_range.rear,
            start.rear_cant,
            straight[1],
        ),
        cants_settle=full.exists & least.exists,
        rear_at_fault=full.rear_at_fault,
        lifts_settle=at_rest.settles,
    )


class StartMounts(NamedTuple):
    """Lifts and cants from which to start trying (rad); nan where there are none."""

    front_lift: Real
    rear_lift: Real
    front_cant: Real
    rear_cant: Real


def start_mounts(body: Body, boots: Boots, stance: Stance, crouch: Crouch) -> StartMounts:
    """The mounts from which to start trying.

    The least lifts that suit the least cants, and the cants that suit these lifts.
    Neither the lifts nor the cants that the stance has matter.
    """
    tried: list[tuple[Real, Real, Cants]] = []

    def least_on(front: Real, rear: Real) -> Cants:
        cants = least_cants(body, boots, lifted(stance, front, rear), crouch)
        tried[:] = [(front, rear, cants)]
        return cants

    def off(front: Real, rear: Real) -> tuple[Real, Real]:
        return least_on(front, rear).off_rest

    ranges = boots.front.flex_range, boots.rear.flex_range
    lifts = lifts_within(off, off(0.0, 0.0), ranges)
    front_lift, rear_lift = (where(unknown(lift), 0.0, lift) for lift in lifts)
    # The last pair tried is the answer itself, as a rule.
    at_hand = every(tried[0][0] == front_lift) and every(tried[0][1] == rear_lift)
    least = tried[0][2] if at_hand else least_on(front_lift, rear_lift)
    front, rear = least.front, least.rear
    # One cannot start with part of an answer.
    missing = 0.0 * (lifts[0] + least.front + least.rear)
    return StartMounts(lifts[0] + missing, lifts[1] + missing, front + missing, rear + missing)


def fit_reasons(found: Fit) -> tuple[NDArray[Any], NDArray[Any], NDArray[Any]]:
    """Why there is no cant or no lift.

    Returns:
        Three arrays of keys of reasons in the shape of the fit, for the front cant, the
        rear cant and the lift; empty where there is an answer.
    """
    steep = "too steep"
    leg = np.where(found.rear_at_fault, "rear leg cannot reach", "front leg cannot reach")

    def cant(foot: FootFit) -> NDArray[Any]:
        no_cant = np.isnan(foot.full_cant + foot.least_cant)
        return np.where(found.cants_settle, np.where(no_cant, steep, ""), leg)

    no_lift = np.isnan(found.front.full_lift + found.front.least_lift)
    lift = np.where(
        found.lifts_settle,
        np.where(no_lift, steep, ""),
        "none settles without lift",
    )
    return cant(found.front), cant(found.rear), lift
