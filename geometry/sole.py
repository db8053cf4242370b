"""From a mount to the plane on which the foot stands, and back to real parts."""

from __future__ import annotations

from dataclasses import dataclass

from geometry.elementary import Real, atan, atan2, cos, sin, sqrt, tan
from geometry.stance import Mount
from geometry.vectors import Vector, cross, scaled, unit


@dataclass(frozen=True, eq=False, slots=True)
class Sole:
    """Unit axes of the sole in the frame of the board.

    Attributes:
        foot_axis: along the foot towards the toes, on the sole.
        outer: towards the little-toe side, on the sole, square to the foot axis.
        normal: up out of the sole.
    """

    foot_axis: Vector
    outer: Vector
    normal: Vector


def sole_of(mount: Mount, side: float) -> Sole:
    """The sole's axes for a mount.

    Lift and cant are what an inclinometer reads along and across the boot, so
    the sole is the plane whose slopes in those two plan directions are
    ``tan(lift)`` and ``tan(cant)``; they are not successive rotations.

    Args:
        mount: binding angle, lift and cant.
        side: +1 for the front foot, -1 for the rear one.
    """
    s, c = sin(mount.angle), cos(mount.angle)
    toe_up, outer_up = tan(mount.lift), side * tan(mount.cant)
    # z - tan(lift) f - tan(cant) l, with f = (s, c, 0) and l = side (c, -s, 0).
    normal = unit((-toe_up * s - outer_up * c, outer_up * s - toe_up * c, 1.0))
    level = cos(mount.lift)
    foot_axis = (s * level, c * level, sin(mount.lift))
    return Sole(foot_axis, scaled(cross(foot_axis, normal), side), normal)


def lift_and_cant(slope: Real, bearing: Real) -> tuple[Real, Real]:
    """Lift and cant that a sloped part gives the sole (rad, rad).

    Args:
        slope: steepest slope of the part (rad).
        bearing: direction in which it rises, from the toe to the little-toe
            side (rad).
    """
    steepest = tan(slope)
    return atan(steepest * cos(bearing)), atan(steepest * sin(bearing))


def slope_and_bearing(lift: Real, cant: Real) -> tuple[Real, Real]:
    """Steepest slope of a sole and the bearing in which it rises (rad, rad).

    Inverse of :func:`lift_and_cant`.  A flat sole has slope 0 and bearing 0.
    """
    toe_up, outer_up = tan(lift), tan(cant)
    return atan(sqrt(toe_up * toe_up + outer_up * outer_up)), atan2(outer_up, toe_up)
