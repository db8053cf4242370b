"""How true lift and cant come out, against scipy's rotations and its numerical gradients."""

from __future__ import annotations

import math

import numpy as np
import pytest
from by_hand import sole
from parts_riders import along, rad, turnable
from scipy.optimize import approx_fprime

from geometry.hardware.parts import Part, stack_lift_and_cant
from geometry.hardware.stacks import Built, Setting
from geometry.hardware.tolerances import lift_and_cant_within

SLOPE, BEARING = rad(0.25), rad(1.5)


def built(*placed: tuple[Part, float]) -> Built:
    slopes, bearings = [part.slope for part, _ in placed], [bearing for _, bearing in placed]
    lift, cant = stack_lift_and_cant(slopes, bearings)
    settings = tuple(Setting(part, bearing, 0.0) for part, bearing in placed)
    return Built(settings, float(lift), float(cant), 0.0)


@pytest.mark.parametrize(
    "placed",
    [
        ((turnable(6.0), rad(60.0)),),
        ((along(3.0), math.pi), (turnable(6.0), rad(-30.0))),
        ((turnable(9.0), rad(150.0)), (turnable(4.0), rad(20.0)), (turnable(2.0), 0.0)),
    ],
)
def test_the_errors_of_all_parts_add_up_as_squares(placed: tuple[tuple[Part, float], ...]) -> None:
    def angle(which: int, values: np.ndarray) -> float:
        n = len(placed)
        parts = [turnable(math.degrees(slope)) for slope in values[:n]]
        return sole(tuple(zip(parts, values[n:], strict=True)))[which]

    at = np.array([part.slope for part, _ in placed] + [bearing for _, bearing in placed])
    spread = np.repeat([SLOPE, BEARING], len(placed))
    found = lift_and_cant_within(built(*placed), slope=SLOPE, bearing=BEARING)
    for which in (0, 1):
        gradient = approx_fprime(at, lambda values, which=which: angle(which, values), 1e-7)
        told = math.hypot(*(gradient * spread))
        assert found[which] == pytest.approx(told, abs=rad(0.005))


def test_a_flat_sole_is_as_true_as_can_be() -> None:
    assert lift_and_cant_within(built(), slope=SLOPE, bearing=BEARING) == (0.0, 0.0)
