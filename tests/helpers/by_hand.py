"""The order of stances on their parts, found by going through every pair one by one.

Told anew from what a rider reads: soles by scipy's rotations, postures by the front door,
the answer of each stance by itself.  No code of the search is used.
"""

from __future__ import annotations

import math
from dataclasses import replace
from functools import lru_cache
from itertools import product
from typing import NamedTuple

import numpy as np
from parts_riders import rad
from scipy.spatial.transform import Rotation

from geometry import Mount, Stance, solve
from geometry.fitting.answer import USUAL_TERMS
from geometry.fitting.proposal import proposal_of
from geometry.hardware.parts import Part, PartsList
from geometry.posture import PostureInputs

HALF = rad(0.5)
NOTHING = rad(0.04)

Placed = tuple[tuple[Part, float], ...]


class Pair(NamedTuple):
    """A stance, what stands under its feet (parts and bearings from the toe), and its place."""

    rank: tuple[float, ...]
    stance: Stance
    front: Placed
    rear: Placed


class Foot(NamedTuple):
    """What one foot begins with, the ends of what would do, and the whole cant (rad)."""

    lift: float
    cant: float
    low: float
    high: float
    even: float
    full: float
    lift_low: float
    lift_high: float


def sole(stack: Placed) -> tuple[float, float]:
    """Lift and cant on a stack, the lowest part first."""
    turned = Rotation.identity()
    for part, b in stack:
        turned *= Rotation.from_rotvec(part.slope * np.array([np.sin(b), -np.cos(b), 0.0]))
    toe, outer, up = turned.apply([0.0, 0.0, 1.0])
    return math.atan2(-toe, up), math.atan2(-outer, up)


def stacks(parts: PartsList) -> list[Placed]:
    """Every stack that parts which turn with the binding can make under one foot."""
    placed = [(part, bearing) for part in parts.parts for bearing in part.bearings]
    sizes = range(parts.largest_stack + 1)
    return [stack for size in sizes for stack in product(placed, repeat=size)]


def every_pair(setup: PostureInputs, parts: PartsList, stance: Stance) -> list[Pair]:
    """Every pair of stacks in a stance that may be proposed, in no order."""
    made = stacks(parts)
    return [
        pair
        for front, rear in product(made, made)
        if enough(parts, front + rear) and (pair := judged(setup, parts, stance, (front, rear)))
    ]


def enough(parts: PartsList, used: Placed) -> bool:
    return all(sum(each[0] is part for each in used) <= part.count for part in parts.parts)


def twice(parts: PartsList, stack: Placed) -> bool:
    return enough(parts, stack + stack)


def judged(
    setup: PostureInputs, parts: PartsList, bare: Stance, both: tuple[Placed, Placed]
) -> Pair | None:
    """A pair with its place; None where it is not proposed."""
    front, rear = both
    soles, found = (sole(front), sole(rear)), asked_by(setup, bare)
    if found is None or any(map(opposed, soles, found)):
        return None
    stance = replace(
        bare, front=Mount(bare.front.angle, *soles[0]), rear=Mount(bare.rear.angle, *soles[1])
    )
    legs = done_by(setup, stance)
    if legs is None:
        return None
    alike = all(abs(one - other) < rad(0.25) for one, other in zip(found[0], found[1], strict=True))
    if alike and front != rear and twice(parts, front) and twice(parts, rear):
        return None
    rank = (
        sum(half_degrees(max(off - boot.flex_range, 0.0)) for (_, off), boot in zip(
            legs, setup.boots.both, strict=True)),
        sum(half_degrees(outside(cant, foot)) for (_, cant), foot in zip(
            soles, found, strict=True)),
        sum(half_degrees(knee) if knee > rad(1.04) else 0 for knee, _ in legs),
        int(alike and front != rear),
        sum(part.thickness for part, _ in front + rear),
        len(front + rear),
        sum(moved(setup, stance, foot) for foot in (0, 1)),
    )  # fmt: skip
    return Pair(rank, stance, front, rear)


@lru_cache(maxsize=512)
def _answer(setup_key: int, front: float, rear: float, length: float) -> tuple[Foot, Foot] | None:
    setup = _SETUPS[setup_key]
    flat = Stance(Mount(front), Mount(rear), length)
    crouch = replace(setup.crouch, hips_turned=0.0)
    made = proposal_of(setup._replace(stance=flat, crouch=crouch))
    asked = made.mounts._asdict()
    feet = [
        Foot(
            *(float(asked.get(name, getattr(made.answer, name))[foot, 0]) for name in Foot._fields)
        )
        for foot in (0, 1)
    ]
    return None if any(math.isnan(each.cant) for each in feet) else (feet[0], feet[1])


_SETUPS: dict[int, PostureInputs] = {}


def asked_by(setup: PostureInputs, bare: Stance) -> tuple[Foot, Foot] | None:
    _SETUPS[id(setup)] = setup
    where = float(bare.front.angle), float(bare.rear.angle), float(bare.length)
    return _answer(id(setup), *where)


def opposed(angles: tuple[float, float], foot: Foot) -> bool:
    """Whether a sole leans where no need is, is worse than no cant, or more than nine degrees."""
    whole = 0.5 * (foot.lift_low + foot.lift_high), foot.full
    needs = (foot.lift, foot.cant)
    for angle, need, all_of_it in zip(angles, needs, whole, strict=True):
        towards = abs(all_of_it) if angle * all_of_it > 0.0 else 0.0
        if abs(need) <= NOTHING and abs(angle) > towards + rad(0.25):
            return True
    if outside(angles[1], foot) > outside(0.0, foot) + rad(0.25):
        return True
    against = (
        abs(need) > NOTHING and angle * math.copysign(1.0, need) < -rad(0.25)
        for angle, need in zip(angles, needs, strict=True)
    )
    return any(against) or max(map(abs, angles)) > rad(9.0) + NOTHING


def outside(cant: float, foot: Foot) -> float:
    if foot.low > foot.high:
        return abs(cant - foot.even)
    return max(foot.low - cant, cant - foot.high, 0.0)


def half_degrees(angle: float) -> int:
    return max(math.ceil((angle - NOTHING) / HALF), 0)


def done_by(setup: PostureInputs, stance: Stance) -> list[tuple[float, float]] | None:
    """Worst off-plane angle and boot off rest at the middle, of front and rear; None for none."""
    terms = USUAL_TERMS
    bends = np.append(np.linspace(terms.bend_from, terms.bend_to, 6), terms.middle)
    crouch = replace(setup.crouch, hips_turned=0.0, knee_bend=bends)
    present = np.asarray(solve(setup.body, setup.boots, setup.stance, crouch).exists)
    posture = solve(setup.body, setup.boots, stance, crouch)
    needed = (present & (bends >= terms.middle)) | (np.arange(7) == 6)
    if not np.asarray(posture.exists)[needed].all():
        return None
    return [
        (
            float(np.nanmax(np.abs(leg.off_plane))),
            abs(float(np.asarray(leg.boot_flex)[-1]) - float(boot.forward_lean)),
        )
        for leg, boot in zip(posture.legs, setup.boots.both, strict=True)
    ]


def moved(setup: PostureInputs, stance: Stance, foot: int) -> int:
    """How far the edge of a sole moves at most, in whole mm."""
    now = (setup.stance.front, setup.stance.rear)[foot]
    then = (stance.front, stance.rear)[foot]
    reach = 0.5 * (setup.body.front, setup.body.rear)[foot].foot_length
    normals = [np.array([-math.tan(each.lift), -math.tan(each.cant), 1.0]) for each in (now, then)]
    one, other = (normal / np.linalg.norm(normal) for normal in normals)
    tilt = math.atan2(np.linalg.norm(np.cross(one, other)), one @ other)
    shift = 0.5 * abs(stance.length - setup.stance.length)
    return round(float(shift + reach * (abs(then.angle - now.angle) + tilt)))
