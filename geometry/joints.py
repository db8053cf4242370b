"""Hip, knee and ankle angles as clinicians state them, against their usual ranges.

Each joint turns its lower segment against its upper one.  The turn is split the
way of Grood & Suntay (1983, J Biomech Eng 105:136-144) and of the International
Society of Biomechanics (Wu et al. 2002, J Biomech 35:543-548): with x forward,
y up and z to the right in every segment, first about z of the upper segment,
then about the floating x, last about y of the lower segment (intrinsic Z-X-Y).
The left leg negates the second and the third angle, so a sign means the same
movement on both legs.

Segment axes, forward - up - outer side, where "outer" is z of a right leg and
-z of a left one:

* pelvis: the facing, the vertical, from the other hip to this one;
* femur: up from the knee to the hip; the outer axis is the knee's hinge axis
  made square to that line by the smallest turn;
* shank: up from the ankle to the knee; the outer axis is the hinge axis;
* foot: the foot axis, the sole's normal, the outer side of the sole.

The femur's choice decides where a knee that leaves its hinge plane shows.  With
a straight leg the off-plane angle ``e`` is all valgus.  A knee bent by ``a`` has
``sin(valgus) = sin(e) cos(a)``; the rest is axial rotation,
``tan(internal rotation) = -tan(e) sin(a)``.  Nothing seen from outside fixes the
femur's outer axis, so neither figure is more real than the other; the off-plane
angle itself does not depend on the choice.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import NamedTuple

from geometry.elementary import Real, atan2, larger, some, sqrt
from geometry.posture import Leg, Posture
from geometry.vectors import UP, Vector, cross, dot, minus, plus, scaled, unit


@dataclass(frozen=True, eq=False, slots=True)
class HipAngles:
    """The thigh against the pelvis (rad).

    Attributes:
        flexion: positive with the knee ahead of the hip; negative is extension.
        abduction: positive with the knee to the outer side; negative is adduction.
        internal_rotation: positive with the kneecap turned to the other leg.
    """

    flexion: Real
    abduction: Real
    internal_rotation: Real


@dataclass(frozen=True, eq=False, slots=True)
class KneeAngles:
    """The shank against the thigh (rad).

    Attributes:
        flexion: positive as the knee bends.
        valgus: positive knock-kneed, negative bow-legged (varus).
        internal_rotation: positive with the shank turned inward under the thigh.
    """

    flexion: Real
    valgus: Real
    internal_rotation: Real


@dataclass(frozen=True, eq=False, slots=True)
class AnkleAngles:
    """The sole of the foot against the shank (rad).

    Attributes:
        dorsiflexion: positive with the toes towards the shin.
        inversion: positive with the sole turned to face the other foot.
        internal_rotation: positive with the toes turned inward.
    """

    dorsiflexion: Real
    inversion: Real
    internal_rotation: Real


@dataclass(frozen=True, eq=False, slots=True)
class LegAngles:
    """The three joints of one leg."""

    hip: HipAngles
    knee: KneeAngles
    ankle: AnkleAngles


@dataclass(frozen=True, eq=False, slots=True)
class JointAngles:
    """The joints of both legs; nan where there is no posture."""

    front: LegAngles
    rear: LegAngles


class Movement(NamedTuple):
    """One way to move a joint, and how far people usually can.

    Attributes:
        joint: "hip", "knee" or "ankle".
        name: the movement in words.
        angle: name of the joint's angle that measures it.
        sign: +1 when the movement makes that angle grow, -1 when it makes it fall.
        most: usual end of the movement (rad).
    """

    joint: str
    name: str
    angle: str
    sign: float
    most: float


AAOS_MOVEMENTS = (
    Movement("hip", "flexion", "flexion", 1.0, math.radians(120.0)),
    Movement("hip", "extension", "flexion", -1.0, math.radians(30.0)),
    Movement("hip", "abduction", "abduction", 1.0, math.radians(45.0)),
    Movement("hip", "adduction", "abduction", -1.0, math.radians(30.0)),
    Movement("hip", "internal rotation", "internal_rotation", 1.0, math.radians(45.0)),
    Movement("hip", "external rotation", "internal_rotation", -1.0, math.radians(45.0)),
    Movement("knee", "flexion", "flexion", 1.0, math.radians(135.0)),
    Movement("ankle", "dorsiflexion", "dorsiflexion", 1.0, math.radians(20.0)),
    Movement("ankle", "plantarflexion", "dorsiflexion", -1.0, math.radians(50.0)),
)
"""Usual ends by the American Academy of Orthopaedic Surgeons, *Joint Motion*
(1965; from memory, not seen in print).  They are averages of unloaded joints,
not limits: a loaded ankle under a bent knee goes further up."""

SEATED_HIP_ROTATION = (
    Movement("hip", "internal rotation", "internal_rotation", 1.0, math.radians(38.0)),
    Movement("hip", "external rotation", "internal_rotation", -1.0, math.radians(41.0)),
)
"""Hip rotation measured sitting, hip and knee bent as a rider's are: Kouyoumdjian
et al. 2012, Orthop Traumatol Surg Res 98:17-23."""

USUAL_RANGES = (
    *(movement for movement in AAOS_MOVEMENTS if "rotation" not in movement.name),
    *SEATED_HIP_ROTATION,
)
"""The ranges that riders are held against: hip rotation as measured sitting."""


class Excess(NamedTuple):
    """A movement carried beyond its usual range.

    Attributes:
        movement: which one.
        beyond: by how much (rad): 0 within the range, nan where there is no posture.
    """

    movement: Movement
    beyond: Real


@dataclass(frozen=True, eq=False, slots=True)
class BeyondRange:
    """What each leg carries beyond its usual range, in the order of the ranges."""

    front: tuple[Excess, ...]
    rear: tuple[Excess, ...]


def joint_angles(posture: Posture) -> JointAngles:
    """Hip, knee and ankle angles of both legs (rad), in the shape of the posture.

    See the module for axes, signs and sources; nan where no posture exists.
    """
    return JointAngles(_leg_angles(posture, posture.front), _leg_angles(posture, posture.rear))


def beyond_range(angles: JointAngles, ranges: tuple[Movement, ...] = USUAL_RANGES) -> BeyondRange:
    """Movements that go beyond their usual range, for each leg.

    Of one posture, exactly those that do.  Of an array of postures, those that
    do somewhere in it; their ``beyond`` is 0 elsewhere.

    Args:
        angles: of the joints.
        ranges: what to hold them against.
    """
    return BeyondRange(_excesses(angles.front, ranges), _excesses(angles.rear, ranges))


def _excesses(leg: LegAngles, ranges: tuple[Movement, ...]) -> tuple[Excess, ...]:
    all_of_them = (Excess(movement, _beyond(leg, movement)) for movement in ranges)
    return tuple(excess for excess in all_of_them if some(excess.beyond > 0.0))


def _beyond(leg: LegAngles, movement: Movement) -> Real:
    angle: Real = getattr(getattr(leg, movement.joint), movement.angle)
    return larger(0.0, movement.sign * angle - movement.most)


class _Axes(NamedTuple):
    """Unit axes of one segment: forward, up along it, and to the outer side."""

    forward: Vector
    up: Vector
    outer: Vector


def _leg_angles(posture: Posture, leg: Leg) -> LegAngles:
    pelvis = _Axes(posture.forward, UP, scaled(posture.across, leg.side))
    femur = _long_bone(unit(minus(leg.hip_centre, leg.knee_centre)), leg.hinge_axis, leg.side)
    shank = _long_bone(leg.shank_axis, leg.hinge_axis, leg.side)
    foot = _Axes(leg.chain.sole.foot_axis, leg.chain.sole.normal, leg.chain.sole.outer)
    hip, knee, ankle = _turn(pelvis, femur), _turn(femur, shank), _turn(shank, foot)
    return LegAngles(
        HipAngles(flexion=hip[0], abduction=-hip[1], internal_rotation=hip[2]),
        KneeAngles(flexion=-knee[0], valgus=-knee[1], internal_rotation=knee[2]),
        AnkleAngles(dorsiflexion=ankle[0], inversion=ankle[1], internal_rotation=ankle[2]),
    )


def _long_bone(up: Vector, outward: Vector, side: float) -> _Axes:
    """Axes of a bone: its outer axis is ``outward`` made square to ``up``."""
    outer = unit(plus(outward, scaled(up, -dot(outward, up))))
    return _Axes(scaled(cross(up, outer), side), up, outer)


def _turn(upper: _Axes, lower: _Axes) -> tuple[Real, Real, Real]:
    """Angles about z, x and y that turn the upper segment's axes to the lower one's.

    Positive by the right-hand rule on a right leg.  Since ``outer`` is -z on a
    left leg, the second and third come out negated there, as the convention
    asks.  In the product of the three turns the lower y has the components
    ``-sin(z) cos(x)`` forward, ``cos(z) cos(x)`` up and ``sin(x)`` outward; the
    outward components of the lower x and z are ``-cos(x) sin(y)`` and
    ``cos(x) cos(y)``.
    """
    ahead, above = dot(upper.forward, lower.up), dot(upper.up, lower.up)
    return (
        atan2(-ahead, above),
        atan2(dot(upper.outer, lower.up), sqrt(ahead * ahead + above * above)),
        atan2(-dot(upper.outer, lower.forward), dot(upper.outer, lower.outer)),
    )
