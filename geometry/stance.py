"""Where the bindings stand on the board, and what the feet's axes say of it."""

from __future__ import annotations

from dataclasses import dataclass

from geometry.body import Body
from geometry.checks import require_between
from geometry.elementary import Real, atan, cos, ratio, sin, where

FRONT, REAR = 1.0, -1.0
"""Side signs of the two legs."""


@dataclass(frozen=True, eq=False, slots=True)
class Mount:
    """How one binding holds its foot.

    Attributes:
        angle: binding angle from straight across the board (rad), positive with
            the toes towards the nose, on both feet.
        lift: slope of the sole along the foot as an inclinometer laid along the
            boot reads it (rad), positive with the toe end up.
        cant: slope of the sole across the foot as an inclinometer laid square
            to it in plan reads it (rad), positive with the little-toe side up
            (inward cant), negative with the big-toe side up (outward cant).

    Raises:
        ValueError: an angle is outside its possible range.
    """

    angle: Real
    lift: Real = 0.0
    cant: Real = 0.0

    def __post_init__(self) -> None:
        require_between("binding angle", self.angle, -180.0, 180.0, "deg")
        require_between("lift", self.lift, -60.0, 60.0, "deg")
        require_between("cant", self.cant, -60.0, 60.0, "deg")


@dataclass(frozen=True, eq=False, slots=True)
class Stance:
    """Both mounts and the distance between them.

    Attributes:
        front: mount of the foot nearer the nose.
        rear: mount of the other foot.
        length: between the binding centres, along the board (mm).
        across: between the binding centres, across the board (mm): 0 on a
            snowboard, the whole spacing on a monoski or a pair of skis.

    Raises:
        ValueError: a distance is outside its possible range.
    """

    front: Mount
    rear: Mount
    length: Real
    across: Real = 0.0

    def __post_init__(self) -> None:
        require_between("stance length", self.length, 0.0, 2000.0, "mm")
        require_between("across spacing", self.across, -1000.0, 1000.0, "mm")

    @property
    def mean_angle(self) -> Real:
        """Mean of the two binding angles (rad): where the hips face untwisted."""
        return 0.5 * (self.front.angle + self.rear.angle)


def long_axes_apart(stance: Stance) -> Real:
    """Distance between the long axes of the two feet (mm).

    The two axes are parallel when the binding angles are equal; otherwise the
    distance is taken square to the mean angle.  Negative when the front foot
    stands on the rear foot's side of it.  ``S cos(phi) + B sin(phi)``.
    """
    return _square_to(stance, stance.mean_angle)


def short_axes_apart(stance: Stance) -> Real:
    """Distance between the across axes of the two feet (mm), signed.

    Positive when the front foot stands ahead of the rear one in the direction
    that the feet point; square to the mean angle when the angles differ.
    ``S sin(phi) - B cos(phi)``.
    """
    angle = stance.mean_angle
    return stance.length * sin(angle) - stance.across * cos(angle)


def no_cant_length(stance: Stance, neutral_spacing: Real) -> Real:
    """Stance length at which the long axes are the neutral spacing apart (mm).

    ``S = (N - B sin(phi)) / cos(phi)``, so ``N sec(phi)`` on a snowboard.  nan
    where no length does it: the feet point along the board, or the length
    would be negative.
    """
    angle = stance.mean_angle
    facing_across = cos(angle)
    wanted = neutral_spacing - stance.across * sin(angle)
    # Below a billionth the cosine is the rounding error of a right angle.
    usable = (facing_across > 1e-9) & (wanted >= 0.0)
    return where(usable, ratio(wanted, facing_across), float("nan"))


def straight_leg_cant(stance: Stance, body: Body) -> tuple[Real, Real]:
    """Cant of the front and of the rear foot by the rule of the trade for straight legs (rad).

    ``atan((X - N) / 2H)``, positive inward, with ``X`` how far apart the long axes
    would be if both feet had this foot's angle, and ``H`` the hip height of its
    leg.  A rough estimate, independent of boots and of the bend.
    """

    def cant(angle: Real, hip_height: Real) -> Real:
        apart = _square_to(stance, angle)
        return atan(ratio(apart - body.neutral_spacing, 2.0 * hip_height))

    return (
        cant(stance.front.angle, body.front.hip_height),
        cant(stance.rear.angle, body.rear.hip_height),
    )


def _square_to(stance: Stance, angle: Real) -> Real:
    """Distance between the binding centres square to a direction on the board (mm), signed."""
    return stance.length * cos(angle) + stance.across * sin(angle)
