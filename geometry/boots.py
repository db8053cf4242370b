"""What boot and ankle together allow the shank to do."""

from __future__ import annotations

from dataclasses import dataclass

from geometry.body import Body
from geometry.checks import require_between
from geometry.elementary import Real, atan2


@dataclass(frozen=True, eq=False, slots=True)
class Boots:
    """A pair of boots.

    Attributes:
        sole_thickness: under the foot, toe and heel alike (mm).
        forward_lean: boot flex at rest (rad), positive forward.
        flex_range: how far from rest the boot lets the shank go either way (rad).
        side_give: how far boot and ankle together let the shank tilt sideways
            from where the boot holds it (rad).

    Raises:
        ValueError: a value is outside its possible range.
    """

    sole_thickness: Real
    forward_lean: Real
    flex_range: Real
    side_give: Real

    def __post_init__(self) -> None:
        require_between("sole thickness", self.sole_thickness, 0.0, 200.0, "mm")
        require_between("forward lean", self.forward_lean, -45.0, 60.0, "deg")
        require_between("flex range", self.flex_range, 0.0, 90.0, "deg")
        require_between("side give", self.side_give, 0.0, 45.0, "deg")


def cuff_angle(body: Body) -> Real:
    """How far inward the boot holds the shank from the sole's normal (rad).

    A boot fitted flat at the neutral spacing follows the straight leg, which
    runs from the ankle in to the hip.
    """
    inward = 0.5 * (body.neutral_spacing - body.hip_spacing)
    return atan2(inward, body.hip_height - body.ankle_height)
