"""The smallest cants and lifts that leave knees and boots no more than an allowance.

With no allowance a cant puts the hip right into its hinge plane and a lift puts
the boot at rest; with the side give or the flex range as the allowance, boot and
ankle take the rest.  The posture settles again with every one of them.

Cants follow from the place of each hip in closed form, so both are found along
with the posture, in one run of Newton's method (:mod:`geometry.fitting.canting`).  The
lift is sought from outside, by secant steps over whole postures.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from geometry.body import Body
from geometry.boots import Boots
from geometry.elementary import Real, Truth, choose, clipped, cos, sin, within
from geometry.fitting.canting import CantedPull, Footing, canted_pull
from geometry.fitting.roots import root_from_zero
from geometry.posture import NAN, Crouch, chains_of, directions, hips_at_origin, solve
from geometry.settling import Task, settle
from geometry.stance import Stance

STEEPEST = math.radians(60.0)
"""Steepest lift and cant looked for (rad): what a mount accepts."""
FLEX_PER_LIFT = 1.0
"""How much a boot's flex grows with its lift, roughly: the solver's first guess."""


@dataclass(frozen=True, eq=False, slots=True)
class Cants:
    """Cants of the two mounts (rad), positive inward; nan where there are none.

    Attributes:
        front: of the front foot.
        rear: of the rear foot.
        front_flex: boot flex of the front leg in the posture with these cants (rad).
        exists: whether a posture with such cants settles.
        rear_at_fault: which leg cannot reach where none does.
    """

    front: Real
    rear: Real
    front_flex: Real
    exists: Truth
    rear_at_fault: Truth


def smallest_cants(
    body: Body, boots: Boots, stance: Stance, crouch: Crouch, allowance: Real
) -> Cants:
    """The smallest cants that leave a wanted give within an allowance on both legs.

    Args:
        body: leg dimensions.
        boots: boots.
        stance: the two mounts; their cants are not used.
        crouch: bend of the knees and place of the hips.
        allowance: sideways give left to boot and ankle (rad), at least 0: with 0
            the answer is the full cant, with the side give the least.

    Returns:
        The cants, the posture settled with them; zero on a foot whose allowance
        absorbs everything.
    """
    band = (-allowance, allowance)
    return _settled_cants(body, boots, stance, crouch, (band, band))


def cants_leaving(
    body: Body, boots: Boots, stance: Stance, crouch: Crouch, gives: tuple[Real, Real]
) -> Cants:
    """The cants that leave just these wanted gives, whichever side of zero they lie.

    Arguments as in :func:`smallest_cants`; ``gives`` are those of the front and
    the rear leg (rad), positive inward.
    """
    bands = (gives[0], gives[0]), (gives[1], gives[1])
    return _settled_cants(body, boots, stance, crouch, bands)


def smallest_lift(
    body: Body, boots: Boots, stance: Stance, crouch: Crouch, allowance: Real
) -> Real:
    """The smallest toe lift in front that leaves both boots within an allowance of rest.

    The rear foot takes as much heel lift.  As the two boots' flex averages the
    forward lean, what holds for one boot holds for the other.

    Args:
        body: leg dimensions.
        boots: boots.
        stance: the two mounts; their lifts are not used, their cants stay.
        crouch: bend of the knees and place of the hips.
        allowance: flex away from rest left to each boot (rad), at least 0: with 0
            the answer is the full lift, with the flex range the least.

    Returns:
        The lift of the front foot (rad), positive toe up; nan where no posture
        settles without lift, or none has a lift that steep.
    """

    def off_rest(lift: Real) -> Real:
        return front_off_rest(body, boots, lifted(stance, lift), crouch)

    return lift_to_allowance(off_rest, off_rest(0.0), allowance)


def lift_to_allowance(off_rest: Callable[[Real], Real], flat: Real, allowance: Real) -> Real:
    """The smallest lift that leaves a boot's flex within an allowance of rest (rad).

    Args:
        off_rest: boot flex less the forward lean of the front leg, for a toe
            lift in front and as much heel lift behind.
        flat: its value for no lift.
        allowance: what is left to the boot (rad), at least 0.
    """
    left = clipped(flat, -allowance, allowance)
    return root_from_zero(lambda lift: off_rest(lift) - left, flat - left, FLEX_PER_LIFT, STEEPEST)


def front_off_rest(body: Body, boots: Boots, stance: Stance, crouch: Crouch) -> Real:
    """Boot flex of the front leg less the forward lean (rad)."""
    return solve(body, boots, stance, crouch).front.boot_flex - boots.forward_lean


def canted(stance: Stance, front: Real, rear: Real) -> Stance:
    """The stance with other cants (rad)."""
    return replace(
        stance, front=replace(stance.front, cant=front), rear=replace(stance.rear, cant=rear)
    )


def lifted(stance: Stance, lift: Real) -> Stance:
    """The stance with this toe lift in front and as much heel lift behind (rad)."""
    return replace(
        stance, front=replace(stance.front, lift=lift), rear=replace(stance.rear, lift=-lift)
    )


def _settled_cants(
    body: Body,
    boots: Boots,
    stance: Stance,
    crouch: Crouch,
    bands: tuple[tuple[Real, Real], tuple[Real, Real]],
) -> Cants:
    """Cants that bring each leg's wanted give into its band, the posture settled with them."""
    front, rear = _canted_pulls(body, boots, canted(stance, 0.0, 0.0), crouch, bands)
    task = Task(front, rear, boots.forward_lean, crouch.knee_bend)
    settled = settle(task)
    missing = choose(settled.exists, 0.0, NAN)
    return Cants(
        front=_mountable(front.cant(settled.depth, settled.height)) + missing,
        rear=_mountable(rear.cant(settled.depth, settled.height)) + missing,
        front_flex=settled.front.boot_flex + missing,
        exists=settled.exists,
        rear_at_fault=settled.rear_at_fault,
    )


def _canted_pulls(
    body: Body,
    boots: Boots,
    flat: Stance,
    crouch: Crouch,
    bands: tuple[tuple[Real, Real], tuple[Real, Real]],
) -> tuple[CantedPull, CantedPull]:
    """Both legs on soles without cant, ready to cant themselves."""
    forward, across = directions(flat, crouch)
    hips = hips_at_origin(body, crouch, across)
    chains = chains_of(body, boots, flat)
    track = cos(body.knee_tracking), sin(body.knee_tracking)
    above = body.ankle_height + boots.sole_thickness

    def pull(foot: int, lift: Real) -> CantedPull:
        footing = Footing(above, track, cos(lift))
        return canted_pull(chains[foot], footing, hips[foot], forward, bands[foot])

    return pull(0, flat.front.lift), pull(1, flat.rear.lift)


def _mountable(cant: Real) -> Real:
    """The cant, nan where it is steeper than any mount."""
    return choose(within(cant, STEEPEST), cant, NAN)
