"""How true a lift and a cant come out when parts are not quite as they are said to be."""

from __future__ import annotations

import math

from geometry.hardware.parts import stack_lift_and_cant
from geometry.hardware.stacks import Built

A_LITTLE = math.radians(0.01)
"""By this a slope or a bearing is moved to see what follows (rad)."""


def lift_and_cant_within(built: Built, *, slope: float, bearing: float) -> tuple[float, float]:
    """How far lift and cant may be off (rad, rad), each part off by itself.

    To first order, the parts' errors taken as independent: their effects add up as squares.
    Of a sole that stands flat, without any part, none.

    Args:
        built: what stands under the foot.
        slope: how far the slope of each part may be off (rad).
        bearing: how far the bearing to which it is set may be off (rad).
    """
    slopes = [setting.part.slope for setting in built.settings]
    bearings = [setting.bearing for setting in built.settings]
    effects = [(0.0, 0.0)]
    for values, off in ((slopes, slope), (bearings, bearing)):
        for i, value in enumerate(values):
            values[i] = value + A_LITTLE
            lift, cant = stack_lift_and_cant(slopes, bearings)
            values[i] = value
            scale = off / A_LITTLE
            effects.append((scale * float(lift - built.lift), scale * float(cant - built.cant)))
    lifts, cants = zip(*effects, strict=True)
    return math.hypot(*lifts), math.hypot(*cants)
