"""Two legs and a pelvis: where the rider settles in a stance.

The pelvis faces the mean of the two binding angles, plus a twist.  Its two hip
joint centres lie level and square to that direction.  How far fore or aft and
how high it hangs follows from the bend of the knees and the hold of the boots:
see :mod:`geometry.settling`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from geometry.arrays import np
from geometry.body import Body
from geometry.boots import Boots
from geometry.checks import require_between
from geometry.elementary import (
    Real,
    Truth,
    atan2,
    choose,
    cos,
    sin,
)
from geometry.leg import (
    Chain,
    chain_of,
    in_sole_axes,
    shank_lean,
    wanted_give,
)
from geometry.settling import Pull, SettledLeg, Task, settle
from geometry.sole import sole_of
from geometry.stance import Stance
from geometry.vectors import UP, Vector, minus, plus, scaled, stacked, turned

if TYPE_CHECKING:
    from numpy.typing import NDArray

NAN = float("nan")

FRONT, REAR = 1.0, -1.0
"""Side signs of the two legs."""


@dataclass(frozen=True, eq=False, slots=True)
class Crouch:
    """What the rider does on the board.

    Attributes:
        knee_bend: mean of the two knees' flexion (rad).  At exactly zero, both
            legs straight, no posture settles; a hair above, it does.
        hips_turned: pelvis turned from the mean binding angle (rad), positive
            towards the nose.
        hip_shift: pelvis moved sideways, to the front leg's side (mm).

    Raises:
        ValueError: a value is outside its possible range.
    """

    knee_bend: Real
    hips_turned: Real = 0.0
    hip_shift: Real = 0.0

    def __post_init__(self) -> None:
        require_between("knee bend", self.knee_bend, 0.0, 170.0, "deg")
        require_between("hips turned", self.hips_turned, -180.0, 180.0, "deg")
        require_between("hip shift", self.hip_shift, -1000.0, 1000.0, "mm")


@dataclass(frozen=True, eq=False, slots=True)
class Leg:
    """One settled leg.  Points in mm, directions of unit length, angles in rad.

    Point and direction properties are arrays of shape (..., 3), last axis x
    (nose), y (toe side), z (up).  All values are nan where no posture exists.

    Attributes:
        side: +1 front, -1 rear.
        chain: foot, boot and bone lengths.
        off_plane: angle of the thigh out of the hinge plane, positive
            knock-kneed (valgus), negative bow-legged (varus).
        knee_flexion: angle of the thigh behind the shank's line, in the hinge plane.
        boot_flex: angle of the shank forward of the sole's normal, in the hinge plane.
        wanted_give: sideways give that would put the hip in the hinge plane.
        lean: inward lean of the hinge plane from the sole's normal.
    """

    side: float
    chain: Chain
    hip_centre: Vector
    off_plane: Real
    knee_flexion: Real
    boot_flex: Real
    wanted_give: Real
    lean: Real

    @property
    def ankle(self) -> NDArray[Any]:
        """Ankle centre."""
        return stacked(self.chain.ankle)

    @property
    def knee(self) -> NDArray[Any]:
        """Knee centre."""
        return stacked(self.knee_centre)

    @property
    def hip(self) -> NDArray[Any]:
        """Hip joint centre."""
        return stacked(self.hip_centre)

    @property
    def knee_centre(self) -> Vector:
        """Knee centre as a triple of components."""
        return plus(self.chain.ankle, scaled(self.shank_axis, self.chain.links.shank))

    @property
    def leaned_normal(self) -> Vector:
        """Up in the hinge plane: the sole's normal leaned with the boot."""
        return turned(self.chain.normal, self.chain.outer, cos(self.lean), -sin(self.lean))

    @property
    def hinge_axis(self) -> Vector:
        """The knee's hinge axis, to the outer side: normal of the hinge plane."""
        return turned(self.chain.outer, self.chain.normal, cos(self.lean), sin(self.lean))

    @property
    def shank_axis(self) -> Vector:
        """From the ankle to the knee."""
        return turned(
            self.leaned_normal, self.chain.along, cos(self.boot_flex), sin(self.boot_flex)
        )


@dataclass(frozen=True, eq=False, slots=True)
class Posture:
    """Where the rider settles.

    Attributes:
        front: the leg nearer the nose.
        rear: the other leg.
        depth: mean of the hips ahead of the origin along the facing (mm).
        height: of the hips above the binding plates (mm).
        forward: unit vector along the facing.
        across: unit vector from the rear hip to the front hip.
        exists: whether there is a posture.
        rear_at_fault: which leg cannot reach where there is none.
    """

    front: Leg
    rear: Leg
    depth: Real
    height: Real
    forward: Vector
    across: Vector
    exists: Truth
    rear_at_fault: Truth

    @property
    def legs(self) -> tuple[Leg, Leg]:
        """Front leg, rear leg."""
        return self.front, self.rear


def solve(body: Body, boots: Boots, stance: Stance, crouch: Crouch) -> Posture:
    """Where the rider settles in a stance.

    Every argument's fields may be floats or arrays; arrays broadcast, and one
    result comes back for each of their elements.

    Returns:
        The posture.  Where none exists within reach its numbers are nan,
        ``exists`` is false and :func:`posture_reasons` says why; nothing is raised.
    """
    forward, across = directions(stance, crouch)
    chains = chains_of(body, boots, stance)
    hips = hips_at_origin(body, crouch, across)
    front, rear = (pull_of(chain, hip, forward) for chain, hip in zip(chains, hips, strict=True))
    task = Task(front, rear, boots.forward_lean, crouch.knee_bend)
    settled = settle(task)
    pelvis = plus(scaled(forward, settled.depth), scaled(UP, settled.height))
    missing = choose(settled.exists, 0.0, NAN)
    return Posture(
        front=_leg(FRONT, chains[0], settled.front, plus(hips[0], pelvis), missing),
        rear=_leg(REAR, chains[1], settled.rear, plus(hips[1], pelvis), missing),
        depth=settled.depth + missing,
        height=settled.height + missing,
        forward=forward,
        across=across,
        exists=settled.exists,
        rear_at_fault=settled.rear_at_fault,
    )


def wanted_gives(
    body: Body,
    boots: Boots,
    stance: Stance,
    crouch: Crouch,
    *,
    depth: Real,
    height: Real,
) -> tuple[Real, Real]:
    """Wanted give of the front and the rear leg under a pelvis held in place (rad).

    Nothing settles: it says what a stance would ask of the boots with the hips where
    they are, a sixth of the work of :func:`solve`.

    Args:
        body: the rider.
        boots: the boots.
        stance: the stance.
        crouch: its hips turned and its hip shift; the knee bend does not count.
        depth: of the pelvis along the facing (mm).
        height: of the pelvis over the binding plates (mm).
    """
    forward, across = directions(stance, crouch)
    pelvis = plus(scaled(forward, depth), scaled(UP, height))
    front, rear = (
        wanted_give(chain, in_sole_axes(chain, minus(plus(hip, pelvis), chain.ankle)))
        for chain, hip in zip(
            chains_of(body, boots, stance), hips_at_origin(body, crouch, across), strict=True
        )
    )
    return front, rear


def directions(stance: Stance, crouch: Crouch) -> tuple[Vector, Vector]:
    """Where the pelvis faces, and across it to the front leg's side: unit vectors."""
    facing = stance.mean_angle + crouch.hips_turned
    s, c = sin(facing), cos(facing)
    return (s, c, 0.0), (c, -s, 0.0)


def chains_of(body: Body, boots: Boots, stance: Stance) -> tuple[Chain, Chain]:
    """What the front and the rear leg keep while the pelvis moves."""
    x, y = 0.5 * stance.length, -0.5 * stance.across
    return (
        chain_of(sole_of(stance.front, FRONT), (x, y, 0.0), body, boots),
        chain_of(sole_of(stance.rear, REAR), (-x, -y, 0.0), body, boots),
    )


def hips_at_origin(body: Body, crouch: Crouch, across: Vector) -> tuple[Vector, Vector]:
    """Front and rear hip centre of a pelvis at depth and height zero (mm)."""
    middle = scaled(across, crouch.hip_shift)
    half_pelvis = scaled(across, 0.5 * body.hip_spacing)
    return plus(middle, half_pelvis), minus(middle, half_pelvis)


def pull_of(chain: Chain, hip: Vector, forward: Vector) -> Pull:
    """How a leg's hip follows the pelvis, from its place at depth and height zero."""
    return Pull(
        chain.links,
        rest=in_sole_axes(chain, minus(hip, chain.ankle)),
        fore=in_sole_axes(chain, forward),
        lift=(chain.along[2], chain.outer[2], chain.normal[2]),
    )


def posture_reasons(posture: Posture) -> tuple[NDArray[Any], NDArray[Any]]:
    """Why there is no posture, for the front and for the rear leg.

    Returns:
        Two arrays of keys of reasons in the shape of the posture; empty where there is
        a posture.
    """
    exists, rear = np.asarray(posture.exists), np.asarray(posture.rear_at_fault)
    front_why = np.where(rear, "held up by the rear leg", "front leg cannot reach")
    rear_why = np.where(rear, "rear leg cannot reach", "held up by the front leg")
    return np.where(exists, "", front_why), np.where(exists, "", rear_why)


def _leg(side: float, chain: Chain, settled: SettledLeg, hip: Vector, missing: Real) -> Leg:
    """One leg's results; ``missing`` is nan where there are none, zero elsewhere."""
    span = settled.span
    wanted = wanted_give(chain, span.hip) + missing
    return Leg(
        side=side,
        chain=chain,
        hip_centre=(hip[0] + missing, hip[1] + missing, hip[2] + missing),
        off_plane=atan2(span.miss, span.thigh) + missing,
        knee_flexion=settled.knee_flexion + missing,
        boot_flex=settled.boot_flex + missing,
        wanted_give=wanted,
        lean=shank_lean(chain, wanted) + missing,
    )
