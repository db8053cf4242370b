"""Two legs and a pelvis: where the rider settles in a stance.

The stance faces the mean of the two binding angles; the pelvis may turn from
there about its own middle.  Its two hip joint centres lie level and square to
where it faces.  How far fore or aft and how high it hangs follows from the bend
of the knees and from the weight, which stands over the feet: see
:mod:`geometry.settling`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, NamedTuple

from geometry import masses
from geometry.arrays import np
from geometry.balance import centre_of_mass
from geometry.body import Body
from geometry.boots import Boots
from geometry.crouch import Crouch
from geometry.elementary import Real, Truth, atan2, cos, ratio, sin, where
from geometry.leg import Chain, in_sole_axes, shank_lean, wanted_give
from geometry.pelvis import chains_of, pelvis_of, pulls_of, task_of
from geometry.settling import Settled, SettledLeg, settle
from geometry.stance import FRONT, REAR, Stance
from geometry.vectors import UP, Vector, minus, plus, scaled, stacked, turned

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

NAN = float("nan")


class PostureInputs(NamedTuple):
    """Everything a posture is solved from, in the order in which :func:`solve` takes it."""

    body: Body
    boots: Boots
    stance: Stance
    crouch: Crouch


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
    def foot_centre(self) -> Vector:
        """Centre of the foot's mass: on the sole of the foot, ahead of the ankle."""
        sole, measures = self.chain.sole, self.chain.measures
        below = minus(self.chain.ankle, scaled(sole.normal, measures.ankle_height))
        ahead = masses.AHEAD_OF_ANKLE * measures.foot_length
        return plus(below, scaled(sole.foot_axis, ahead))

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
        depth: of the middle of the hips ahead of the origin along the stance facing (mm).
        height: of the hips above the binding plates (mm).
        upper_body: centre of mass of head, arms and trunk together (mm).
        stance: in which the rider stands.
        facing: unit vector along the stance facing, in which the weight is balanced.
        forward: unit vector to where the pelvis faces.
        across: unit vector from the rear hip to the front hip.
        exists: whether there is a posture.
        rear_at_fault: which leg is the reason where there is none.
        leaves_plane: whether that leg would reach, but only with its thigh more
            than :data:`geometry.settling.MOST_OFF_PLANE` out of its hinge plane.
    """

    front: Leg
    rear: Leg
    depth: Real
    height: Real
    upper_body: Vector
    stance: Stance
    facing: Vector
    forward: Vector
    across: Vector
    exists: Truth
    rear_at_fault: Truth
    leaves_plane: Truth

    @property
    def legs(self) -> tuple[Leg, Leg]:
        """Front leg, rear leg."""
        return self.front, self.rear

    @property
    def mass_centre(self) -> Vector:
        """The body's centre of mass (mm); nan where there is no posture."""
        return centre_of_mass(
            hips=(self.front.hip_centre, self.rear.hip_centre),
            knees=(self.front.knee_centre, self.rear.knee_centre),
            ankles=(self.front.chain.ankle, self.rear.chain.ankle),
            feet=(self.front.foot_centre, self.rear.foot_centre),
            upper_body=self.upper_body,
        )

    @property
    def front_share(self) -> Real:
        """Share of the weight on the front foot.

        The feet stand on the line between the binding centres, whose middle is the
        origin; the weight is shared by where on it the centre of mass stands.  nan
        where the bindings stand at one place.
        """
        stance, centre = self.stance, self.mass_centre
        along = centre[0] * stance.length - centre[1] * stance.across
        apart = stance.length * stance.length + stance.across * stance.across
        return 0.5 + ratio(along, apart)


def solve(body: Body, boots: Boots, stance: Stance, crouch: Crouch) -> Posture:
    """Where the rider settles in a stance.

    Every argument's fields may be floats or arrays; arrays broadcast, and one
    result comes back for each of their elements, the same as if it were alone.

    Returns:
        The posture.  Where none exists within reach its numbers are nan,
        ``exists`` is false and :func:`posture_reasons` says why; nothing is raised.
    """
    pelvis = pelvis_of(body, stance, crouch)
    chains = chains_of(body, boots, stance)
    settled = settle(task_of(body, crouch, pelvis, pulls_of(body, boots, stance, chains, pelvis)))
    moved = plus(scaled(pelvis.facing, settled.depth), scaled(UP, settled.height))
    missing = where(settled.exists, 0.0, NAN)
    hips = plus(pelvis.hips[0], moved), plus(pelvis.hips[1], moved)
    return Posture(
        front=_leg(FRONT, chains[0], settled.front, hips[0], missing),
        rear=_leg(REAR, chains[1], settled.rear, hips[1], missing),
        depth=settled.depth + missing,
        height=settled.height + missing,
        upper_body=_upper_body(body, crouch, plus(pelvis.middle, moved), pelvis.forward),
        stance=stance,
        facing=pelvis.facing,
        forward=pelvis.forward,
        across=pelvis.across,
        exists=settled.exists,
        rear_at_fault=settled.rear_at_fault,
        leaves_plane=settled.leaves_plane,
    )


def settling(body: Body, boots: Boots, stance: Stance, crouch: Crouch) -> Callable[[Real], Settled]:
    """Where the pelvis settles at one knee bend after another, all else as it is.

    What does not hang on the bend is worked out once: a third of the work of :func:`solve`
    is saved at each of them.

    Returns:
        What gives, for a mean knee flexion (rad), where the pelvis settles.
    """
    pelvis = pelvis_of(body, stance, crouch)
    chains = chains_of(body, boots, stance)
    task = task_of(body, crouch, pelvis, pulls_of(body, boots, stance, chains, pelvis))
    return lambda bend: settle(task._replace(bend=bend))


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
        crouch: its hips turned and its hip shift; nothing else counts.
        depth: of the pelvis along the stance facing (mm).
        height: of the pelvis over the binding plates (mm).
    """
    pelvis = pelvis_of(body, stance, crouch)
    moved = plus(scaled(pelvis.facing, depth), scaled(UP, height))
    front, rear = (
        wanted_give(chain, in_sole_axes(chain, minus(plus(hip, moved), chain.ankle)))
        for chain, hip in zip(chains_of(body, boots, stance), pelvis.hips, strict=True)
    )
    return front, rear


def posture_reasons(posture: Posture) -> tuple[NDArray[Any], NDArray[Any]]:
    """Why there is no posture, for the front and for the rear leg.

    Returns:
        Two arrays of keys of reasons in the shape of the posture; empty where there is
        a posture.
    """
    exists, rear = np.asarray(posture.exists), np.asarray(posture.rear_at_fault)

    def either(of_knee: str, of_leg: str) -> NDArray[Any]:
        return np.where(posture.leaves_plane, of_knee, of_leg)

    front_why = np.where(
        rear,
        either("held up by the rear knee", "held up by the rear leg"),
        either("front knee leaves its plane", "front leg cannot reach"),
    )
    rear_why = np.where(
        rear,
        either("rear knee leaves its plane", "rear leg cannot reach"),
        either("held up by the front knee", "held up by the front leg"),
    )
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


def _upper_body(body: Body, crouch: Crouch, middle: Vector, forward: Vector) -> Vector:
    """Centre of mass of head, arms and trunk over the middle of the hips (mm)."""
    leaned = turned(UP, forward, cos(crouch.back_lean), sin(crouch.back_lean))
    return plus(middle, scaled(leaned, masses.ABOVE_HIPS * body.mean_hip_height))
