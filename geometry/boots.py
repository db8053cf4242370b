"""What boot and ankle together allow the shank to do."""

from __future__ import annotations

import math
from dataclasses import dataclass

from geometry.body import Body, LegMeasures
from geometry.checks import require_between
from geometry.elementary import Real, atan2

TO_THE_STOP = math.radians(1.0)
"""A boot nearer to its stop is said to be at it; so far it is to keep at the middle of the
riding bend (rad; engineering choice, no source)."""


@dataclass(frozen=True, eq=False, slots=True)
class Boot:
    """One boot.

    Attributes:
        sole_thickness: under the foot, toe and heel alike (mm).
        forward_lean: boot flex at rest (rad), positive forward.
        flex_range: how far from rest the boot lets the shank go either way (rad).
        side_give: how far boot and ankle together let the shank tilt sideways
            from where the boot holds it (rad).
        cuff_offset: how much further inward than fitted the boot's cuff leans
            (rad); 0 where the cuff was adjusted to its rider.

    Raises:
        ValueError: a value is outside its possible range.
    """

    sole_thickness: Real
    forward_lean: Real
    flex_range: Real
    side_give: Real
    cuff_offset: Real = 0.0

    def __post_init__(self) -> None:
        require_between("sole thickness", self.sole_thickness, 0.0, 200.0, "mm")
        require_between("forward lean", self.forward_lean, -45.0, 60.0, "deg")
        require_between("flex range", self.flex_range, 0.0, 90.0, "deg")
        require_between("side give", self.side_give, 0.0, 45.0, "deg")
        require_between("cuff offset", self.cuff_offset, -45.0, 45.0, "deg")


@dataclass(frozen=True, eq=False, slots=True)
class Boots:
    """A pair of boots.

    Attributes:
        front: on the foot nearer the nose.
        rear: on the other foot.
    """

    front: Boot
    rear: Boot

    @classmethod
    def equal(
        cls,
        *,
        sole_thickness: Real,
        forward_lean: Real,
        flex_range: Real,
        side_give: Real,
        cuff_offset: Real = 0.0,
    ) -> Boots:
        """Two boots of the same kind; arguments as in :class:`Boot`."""
        boot = Boot(sole_thickness, forward_lean, flex_range, side_give, cuff_offset)
        return cls(boot, boot)

    @property
    def both(self) -> tuple[Boot, Boot]:
        """Front boot, rear boot."""
        return self.front, self.rear


def cuff_angle(body: Body, leg: LegMeasures, boot: Boot) -> Real:
    """How far inward a boot holds its shank from the sole's normal (rad).

    A boot fitted flat at the neutral spacing follows the straight leg, which
    runs from the ankle in to the hip; the cuff offset comes on top.

    Args:
        body: whose spacings count.
        leg: the leg in the boot.
        boot: the boot.
    """
    inward = 0.5 * (body.neutral_spacing - body.hip_spacing)
    return atan2(inward, leg.hip_height - leg.ankle_height) + boot.cuff_offset
