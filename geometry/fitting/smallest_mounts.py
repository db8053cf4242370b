"""The cants and lifts that put knees and boots at ease, and the least that will do.

Full cants put both hips right into their hinge planes, full lifts both boots at
rest.  Least ones leave to boot and ankle what their side give and their flex range
absorb.  The posture settles again with every one of them, so both feet are solved
together.

Cants follow from the place of each hip in closed form, so both are found along
with the posture, in one run of Newton's method (:mod:`geometry.fitting.canting`).
Lifts are sought from outside, over whole postures (:mod:`geometry.fitting.lift_pairs`).
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import NamedTuple, TypeAlias

from geometry.body import Body
from geometry.boots import Boots
from geometry.crouch import Crouch
from geometry.elementary import Real, Truth, cos, sin, unknown, where, where_true, within
from geometry.fitting.canting import CantedPull, Footing, canted_pull
from geometry.fitting.lift_pairs import STEEPEST, lifts_within
from geometry.pelvis import chains_of, loads_of, pelvis_of, task_of
from geometry.posture import NAN, solve
from geometry.settling import settle
from geometry.stance import Stance

OffRest: TypeAlias = tuple[Real, Real]
"""Boot flex of the front and of the rear leg less their forward lean (rad)."""


@dataclass(frozen=True, eq=False, slots=True)
class Cants:
    """Cants of the two mounts (rad), positive inward; nan where there are none.

    Attributes:
        front: of the front foot.
        rear: of the rear foot.
        off_rest: boot flex of the front and the rear leg less their forward lean, in
            the posture with these cants (rad).
        exists: whether a posture with such cants settles.
        rear_at_fault: which leg cannot reach where none does.
    """

    front: Real
    rear: Real
    off_rest: OffRest
    exists: Truth
    rear_at_fault: Truth


class Lifts(NamedTuple):
    """Lifts of the two mounts (rad), positive toe up; nan where there are none.

    Attributes:
        front: of the front foot.
        rear: of the rear foot.
        settles: whether a posture settles on soles without lift, from which they
            are sought.
    """

    front: Real
    rear: Real
    settles: Truth


def full_cants(body: Body, boots: Boots, stance: Stance, crouch: Crouch) -> Cants:
    """The pair of cants at which neither leg wants any give.

    Args:
        body: leg dimensions.
        boots: boots.
        stance: the two mounts; their cants are not used.
        crouch: bend of the knees and place of the hips.
    """
    return cants_leaving(body, boots, stance, crouch, ((0.0, 0.0), (0.0, 0.0)))


def least_cants(body: Body, boots: Boots, stance: Stance, crouch: Crouch) -> Cants:
    """The pair of cants nearest flat at which side give absorbs what the legs want.

    Zero on a foot whose side give absorbs everything without.  Arguments as in
    :func:`full_cants`.
    """
    front, rear = ((-boot.side_give, boot.side_give) for boot in boots.both)
    return cants_leaving(body, boots, stance, crouch, (front, rear))


def cants_leaving(
    body: Body,
    boots: Boots,
    stance: Stance,
    crouch: Crouch,
    bands: tuple[tuple[Real, Real], tuple[Real, Real]],
) -> Cants:
    """The cants nearest flat that bring each leg's wanted give into a band of its own.

    Arguments as in :func:`full_cants`; ``bands`` are the least and the most of the
    front and of the rear leg (rad), positive inward.
    """
    front, rear = _canted_pulls(body, boots, canted(stance, 0.0, 0.0), crouch, bands)
    pelvis = pelvis_of(body, stance, crouch)
    settled = settle(task_of(body, crouch, pelvis, (front, rear)))
    missing = where(settled.exists, 0.0, NAN)
    return Cants(
        front=_mountable(front.cant(settled.depth, settled.height)) + missing,
        rear=_mountable(rear.cant(settled.depth, settled.height)) + missing,
        off_rest=(
            settled.front.boot_flex - boots.front.forward_lean + missing,
            settled.rear.boot_flex - boots.rear.forward_lean + missing,
        ),
        exists=settled.exists,
        rear_at_fault=settled.rear_at_fault,
    )


def full_lifts(
    body: Body, boots: Boots, stance: Stance, crouch: Crouch, flat: OffRest | None = None
) -> Lifts:
    """The pair of lifts at which each boot stands at its own forward lean.

    Args:
        body: leg dimensions.
        boots: boots.
        stance: the two mounts; their lifts are not used, their cants stay.
        crouch: bend of the knees and place of the hips.
        flat: :func:`off_rest` on soles without lift, where that is known.
    """
    return lifts_leaving(body, boots, stance, crouch, allowances=(0.0, 0.0), flat=flat)


def least_lifts(
    body: Body, boots: Boots, stance: Stance, crouch: Crouch, flat: OffRest | None = None
) -> Lifts:
    """The lifts nearest zero that keep each boot within its flex range, given the other.

    Arguments as in :func:`full_lifts`.
    """
    ranges = boots.front.flex_range, boots.rear.flex_range
    return lifts_leaving(body, boots, stance, crouch, allowances=ranges, flat=flat)


def lifts_leaving(
    body: Body,
    boots: Boots,
    stance: Stance,
    crouch: Crouch,
    *,
    allowances: OffRest,
    flat: OffRest | None = None,
) -> Lifts:
    """The lifts nearest zero that leave each boot within an allowance of rest (rad).

    Arguments as in :func:`full_lifts`; ``allowances`` are those of the front and
    the rear boot, at least 0.
    """

    def off(front: Real, rear: Real) -> OffRest:
        return off_rest(body, boots, lifted(stance, front, rear), crouch)

    start = off(0.0, 0.0) if flat is None else flat
    lifts = lifts_within(off, start, allowances)
    return Lifts(*lifts, settles=where_true(unknown(start[0]), False, True))


def off_rest(body: Body, boots: Boots, stance: Stance, crouch: Crouch) -> OffRest:
    """Boot flex of the front and of the rear leg less their forward lean (rad)."""
    posture = solve(body, boots, stance, crouch)
    return (
        posture.front.boot_flex - boots.front.forward_lean,
        posture.rear.boot_flex - boots.rear.forward_lean,
    )


def canted(stance: Stance, front: Real, rear: Real) -> Stance:
    """The stance with other cants (rad)."""
    return replace(
        stance, front=replace(stance.front, cant=front), rear=replace(stance.rear, cant=rear)
    )


def lifted(stance: Stance, front: Real, rear: Real) -> Stance:
    """The stance with other lifts (rad)."""
    return replace(
        stance, front=replace(stance.front, lift=front), rear=replace(stance.rear, lift=rear)
    )


def _canted_pulls(
    body: Body,
    boots: Boots,
    flat: Stance,
    crouch: Crouch,
    bands: tuple[tuple[Real, Real], tuple[Real, Real]],
) -> tuple[CantedPull, CantedPull]:
    """Both legs on soles without cant, ready to cant themselves."""
    pelvis = pelvis_of(body, flat, crouch)
    chains = chains_of(body, boots, flat)
    loads = loads_of(body, boots, flat, chains, pelvis)

    def pull(foot: int, lift: Real) -> CantedPull:
        leg, boot = body.legs[foot], boots.both[foot]
        track = cos(leg.knee_tracking), sin(leg.knee_tracking)
        footing = Footing(leg.ankle_height + boot.sole_thickness, track, cos(lift))
        hip_and_facing = pelvis.hips[foot], pelvis.facing
        return canted_pull(chains[foot], loads[foot], footing, hip_and_facing, bands[foot])

    return pull(0, flat.front.lift), pull(1, flat.rear.lift)


def _mountable(cant: Real) -> Real:
    """The cant, nan where it is steeper than any mount."""
    return where(within(cant, STEEPEST), cant, NAN)
