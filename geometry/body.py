"""The rider's two legs and pelvis as the model measures them."""

from __future__ import annotations

from dataclasses import dataclass

from geometry.checks import require_between, require_order
from geometry.elementary import Real

SETBACK_SHARE = 0.30
"""Share of the foot's length from mid-sole back to the ankle centre
(engineering choice, no source)."""


@dataclass(frozen=True, eq=False, slots=True)
class LegMeasures:
    """Dimensions of one leg, all barefoot.

    Heights are above the floor, standing upright.  Every field is a float or an
    array; arrays broadcast against each other and against the stance.

    Attributes:
        hip_height: hip joint centre, near the top of the greater trochanter (mm).
        knee_height: knee joint line (mm).
        ankle_height: ankle joint centre (mm).
        foot_length: heel to longest toe (mm).
        knee_tracking: angle in the plane of the sole from the foot axis to the
            hinge plane (rad); positive when the knee tracks inside the toes.

    Raises:
        ValueError: a dimension is outside its possible range, or the knee is
            not between ankle and hip.
    """

    hip_height: Real
    knee_height: Real
    ankle_height: Real
    foot_length: Real
    knee_tracking: Real = 0.0

    def __post_init__(self) -> None:
        require_between("hip height", self.hip_height, 200.0, 1500.0, "mm")
        require_between("knee height", self.knee_height, 80.0, 1000.0, "mm")
        require_between("ankle height", self.ankle_height, 0.0, 200.0, "mm")
        require_between("foot length", self.foot_length, 50.0, 450.0, "mm")
        require_between("knee tracking", self.knee_tracking, -60.0, 60.0, "deg")
        require_order("knee height", self.knee_height, "hip height", self.hip_height)
        require_order("ankle height", self.ankle_height, "knee height", self.knee_height)

    @property
    def shank(self) -> Real:
        """Ankle centre to knee centre (mm)."""
        return self.knee_height - self.ankle_height

    @property
    def thigh(self) -> Real:
        """Knee centre to hip centre (mm)."""
        return self.hip_height - self.knee_height

    @property
    def setback(self) -> Real:
        """Mid-sole back to the ankle centre, along the foot (mm)."""
        return SETBACK_SHARE * self.foot_length


@dataclass(frozen=True, eq=False, slots=True)
class Body:
    """Two legs and what lies between them.

    Attributes:
        front: the leg nearer the nose.
        rear: the other leg.
        hip_spacing: between the two hip joint centres (mm).
        neutral_spacing: between the long axes of the two soles when the rider
            stands in the boots with straight legs and parallel, flat soles (mm).

    Raises:
        ValueError: a spacing is outside its possible range.
    """

    front: LegMeasures
    rear: LegMeasures
    hip_spacing: Real
    neutral_spacing: Real

    def __post_init__(self) -> None:
        require_between("hip spacing", self.hip_spacing, 0.0, 400.0, "mm")
        require_between("natural spacing", self.neutral_spacing, 0.0, 1000.0, "mm")

    @classmethod
    def equal(
        cls,
        *,
        hip_height: Real,
        knee_height: Real,
        ankle_height: Real,
        foot_length: Real,
        hip_spacing: Real,
        neutral_spacing: Real,
        knee_tracking: Real = 0.0,
    ) -> Body:
        """A body whose two legs measure the same; arguments as in :class:`LegMeasures`."""
        leg = LegMeasures(hip_height, knee_height, ankle_height, foot_length, knee_tracking)
        return cls(leg, leg, hip_spacing, neutral_spacing)

    @property
    def legs(self) -> tuple[LegMeasures, LegMeasures]:
        """Front leg, rear leg."""
        return self.front, self.rear

    @property
    def mean_hip_height(self) -> Real:
        """Mean of the two legs' hip heights (mm)."""
        return 0.5 * (self.front.hip_height + self.rear.hip_height)
