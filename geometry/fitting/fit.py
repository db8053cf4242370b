"""What each binding needs: the cants and lifts that put knees and boots at ease.

Full cant puts a hip right into its hinge plane; least cant leaves to boot and
ankle what their side give absorbs.  Full lift, toe lift in front and as much
heel lift behind, puts both boots at rest; least lift leaves to each boot what
its flex range absorbs.  The posture settles again with every one of them.

Both pairs are two ends of one question: which smallest mount leaves no more than
an allowance?  So there is one solver for cants and one for lifts.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from geometry.body import Body
from geometry.boots import Boots
from geometry.elementary import Real, Truth, choose, either, unknown
from geometry.fitting.smallest_mounts import (
    front_off_rest,
    lift_to_allowance,
    lifted,
    smallest_cants,
)
from geometry.posture import Crouch
from geometry.stance import Stance, straight_leg_cant


@dataclass(frozen=True, eq=False, slots=True)
class FootFit:
    """What one binding needs (rad); nan where no posture gives an answer.

    Attributes:
        full_cant: cant at which the wanted give is zero.
        least_cant: smallest cant at which side give absorbs the wanted give.
        full_lift: lift at which the boot sits at rest; the other foot has its opposite.
        least_lift: smallest lift that keeps the boot within its flex range.
        start_cant: where to start: the least end, or the rider's share of full cant.
        start_lift: where to start.
    """

    full_cant: Real
    least_cant: Real
    full_lift: Real
    least_lift: Real
    start_cant: Real
    start_lift: Real


@dataclass(frozen=True, eq=False, slots=True)
class Fit:
    """What both bindings need, and a cross-check.

    The full and least cants hold for the lifts that the stance has, the full
    and least lifts for its cants.  The start values hold together, so putting
    them on the mounts leaves them what they are.

    Attributes:
        front: what the front binding needs.
        rear: what the rear binding needs.
        straight_leg_cant: the rule of the trade for straight legs (rad).
        cants_settle: whether postures with the full and with the least cants settle.
        rear_at_fault: which leg cannot reach where none does.
        lifts_settle: whether a posture settles on soles without lift, from
            which the lifts are sought.
    """

    front: FootFit
    rear: FootFit
    straight_leg_cant: Real
    cants_settle: Truth
    rear_at_fault: Truth
    lifts_settle: Truth


class Shares(NamedTuple):
    """The part of full cant at which each of a rider's legs is comfortable.

    None where no trials say so yet.
    """

    front: Real | None = None
    rear: Real | None = None


NO_SHARES = Shares()


def fit_of(
    body: Body, boots: Boots, stance: Stance, crouch: Crouch, shares: Shares = NO_SHARES
) -> Fit:
    """What each binding needs, for one stance or for arrays of stances.

    Args:
        body: leg dimensions.
        boots: boots.
        stance: the two mounts and their places.
        crouch: bend of the knees and place of the hips.
        shares: the rider's own part of full cant, where trials have settled it.
    """
    full = smallest_cants(body, boots, stance, crouch, 0.0)
    least = smallest_cants(body, boots, stance, crouch, boots.side_give)

    def off_rest(lift: Real) -> Real:
        return front_off_rest(body, boots, lifted(stance, lift), crouch)

    flat = off_rest(0.0)
    full_lift = lift_to_allowance(off_rest, flat, 0.0)
    least_lift = lift_to_allowance(off_rest, flat, boots.flex_range)
    start_lift, start_cants = start_values(body, boots, stance, crouch, shares)
    return Fit(
        FootFit(full.front, least.front, full_lift, least_lift, start_cants[0], start_lift),
        FootFit(
            full.rear,
            least.rear,
            0.0 - full_lift,
            0.0 - least_lift,
            start_cants[1],
            0.0 - start_lift,
        ),
        straight_leg_cant(stance, body),
        cants_settle=full.exists & least.exists,
        rear_at_fault=full.rear_at_fault,
        lifts_settle=either(unknown(flat), False, True),
    )


def start_values(
    body: Body, boots: Boots, stance: Stance, crouch: Crouch, shares: Shares = NO_SHARES
) -> tuple[Real, tuple[Real, Real]]:
    """Lift of the front foot and cants of both from which to start trying (rad).

    The least lift that suits the least cants, and the cants that suit this
    lift: where trials have settled the rider's share of full cant, that share.
    Neither the lifts nor the cants that the stance has matter.
    """

    def off_rest(lift: Real) -> Real:
        tried = lifted(stance, lift)
        cants = smallest_cants(body, boots, tried, crouch, boots.side_give)
        return cants.front_flex - boots.forward_lean

    lift = lift_to_allowance(off_rest, off_rest(0.0), boots.flex_range)
    stepped = lifted(stance, choose(unknown(lift), 0.0, lift))
    least = smallest_cants(body, boots, stepped, crouch, boots.side_give)
    # One cannot start with part of an answer.
    missing = 0.0 * (lift + least.front + least.rear)
    lift = lift + missing
    if shares.front is None and shares.rear is None:
        return lift, (least.front + missing, least.rear + missing)
    full = smallest_cants(body, boots, stepped, crouch, 0.0)
    front = least.front if shares.front is None else shares.front * full.front
    rear = least.rear if shares.rear is None else shares.rear * full.rear
    return lift, (front + missing, rear + missing)


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
