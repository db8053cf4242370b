"""A pelvis over two legs before it settles: what hangs where, and what is asked of it."""

from __future__ import annotations

from typing import NamedTuple

from geometry import masses
from geometry.balance import Load, load_of
from geometry.body import Body
from geometry.boots import Boots, cuff_angle
from geometry.crouch import Crouch
from geometry.elementary import cos, sin
from geometry.leg import Chain, chain_of, in_sole_axes
from geometry.settling import Hanging, Pull, Task
from geometry.sole import sole_of
from geometry.stance import FRONT, REAR, Stance
from geometry.vectors import Vector, dot, minus, plus, scaled


class Pelvis(NamedTuple):
    """How the pelvis stands over a stance before it settles.

    Attributes:
        facing: unit vector along the stance facing, in which the weight is balanced.
        forward: unit vector to where the pelvis faces.
        across: unit vector from the rear hip to the front hip.
        middle: middle of the hips of a pelvis at depth and height zero (mm).
        hips: front and rear hip centre of that pelvis (mm).
    """

    facing: Vector
    forward: Vector
    across: Vector
    middle: Vector
    hips: tuple[Vector, Vector]


def pelvis_of(body: Body, stance: Stance, crouch: Crouch) -> Pelvis:
    """How the pelvis stands over a stance before it settles."""
    balanced = stance.mean_angle
    faced = balanced + crouch.hips_turned
    s, c = sin(balanced), cos(balanced)
    turned_s, turned_c = sin(faced), cos(faced)
    across = (turned_c, -turned_s, 0.0)
    middle = (c * crouch.hip_shift, -s * crouch.hip_shift, 0.0)
    half_pelvis = scaled(across, 0.5 * body.hip_spacing)
    return Pelvis(
        facing=(s, c, 0.0),
        forward=(turned_s, turned_c, 0.0),
        across=across,
        middle=middle,
        hips=(plus(middle, half_pelvis), minus(middle, half_pelvis)),
    )


def centres_of(stance: Stance) -> tuple[Vector, Vector]:
    """Centre of the front and of the rear binding (mm)."""
    x, y = 0.5 * stance.length, -0.5 * stance.across
    return (x, y, 0.0), (-x, -y, 0.0)


def chains_of(body: Body, boots: Boots, stance: Stance) -> tuple[Chain, Chain]:
    """What the front and the rear leg keep while the pelvis moves."""
    front_centre, rear_centre = centres_of(stance)
    return (
        chain_of(
            sole_of(stance.front, FRONT),
            front_centre,
            body.front,
            boots.front,
            cuff_angle(body, body.front, boots.front),
        ),
        chain_of(
            sole_of(stance.rear, REAR),
            rear_centre,
            body.rear,
            boots.rear,
            cuff_angle(body, body.rear, boots.rear),
        ),
    )


def loads_of(
    body: Body, boots: Boots, stance: Stance, chains: tuple[Chain, Chain], pelvis: Pelvis
) -> tuple[Load, Load]:
    """What the front and the rear foot bring to the balance."""
    front, rear = centres_of(stance)
    return (
        load_of(chains[0].sole, front, pelvis.facing, body.front, boots.front),
        load_of(chains[1].sole, rear, pelvis.facing, body.rear, boots.rear),
    )


def pulls_of(
    body: Body, boots: Boots, stance: Stance, chains: tuple[Chain, Chain], pelvis: Pelvis
) -> tuple[Pull, Pull]:
    """How the front and the rear hip follow the pelvis from its place at depth and height zero."""
    front, rear = (
        Pull(
            chain.links,
            load,
            rest=in_sole_axes(chain, minus(hip, chain.ankle)),
            fore=in_sole_axes(chain, pelvis.facing),
            lift=(chain.along[2], chain.outer[2], chain.normal[2]),
        )
        for chain, load, hip in zip(
            chains, loads_of(body, boots, stance, chains, pelvis), pelvis.hips, strict=True
        )
    )
    return front, rear


def task_of(body: Body, crouch: Crouch, pelvis: Pelvis, legs: tuple[Hanging, Hanging]) -> Task:
    """What the pelvis settles to between two legs."""
    leaning = sin(crouch.back_lean) * dot(pelvis.forward, pelvis.facing)
    over_hips = masses.UPPER_BODY * masses.ABOVE_HIPS * body.mean_hip_height
    return Task(*legs, bend=crouch.knee_bend, behind=over_hips * leaning - crouch.weight_ahead)
