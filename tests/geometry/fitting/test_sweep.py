"""The legs through the whole bend."""

from __future__ import annotations

from dataclasses import replace
from random import Random

import numpy as np
import pytest
from fit_riders import demo, rad

from app.rider.inputs import model
from app.rider.setup import Setup, edited
from geometry import solve
from geometry.fitting.sweep import riding_range


def test_the_range_starts_where_the_straighter_leg_is_all_but_straight() -> None:
    body, boots, stance, crouch = setup = demo()
    bends = riding_range(*setup).bends
    tallest = solve(body, boots, stance, replace(crouch, knee_bend=float(bends[0])))
    too_tall = solve(body, boots, stance, replace(crouch, knee_bend=float(bends[0]) - rad(0.2)))
    assert tallest.exists
    assert min(tallest.front.knee_flexion, tallest.rear.knee_flexion) < rad(0.2)
    assert not too_tall.exists


@pytest.mark.parametrize("seed", range(40))
def test_half_a_degree_beyond_the_range_no_posture_settles(seed: int) -> None:
    drawn = Random(seed)
    changes = {
        "front_angle_deg": drawn.uniform(-30.0, 50.0),
        "rear_angle_deg": drawn.uniform(-40.0, 40.0),
        "stance_length_mm": drawn.uniform(380.0, 700.0),
        "front_cant_deg": drawn.uniform(-6.0, 6.0),
        "hip_shift_mm": drawn.uniform(-60.0, 60.0),
        "knee_bend_deg": drawn.uniform(10.0, 89.0),
    }
    given = model(edited(Setup(), **changes).inputs)
    bends = riding_range(*given).bends

    def settles(bend: float) -> bool:
        return bool(solve(*given._replace(crouch=replace(given.crouch, knee_bend=bend))).exists)

    if np.isnan(bends[0]):
        assert not any(settles(bend) for bend in np.radians(np.arange(0.5, 90.0, 0.5)))
        return
    assert settles(float(bends[0]))
    assert bends[0] == pytest.approx(rad(0.5)) or not settles(float(bends[0]) - rad(0.5))
    assert settles(float(bends[-1]))
    assert bends[-1] == pytest.approx(rad(90.0)) or not settles(float(bends[-1]) + rad(0.5))


def test_the_range_ends_at_the_crouch_asked_for() -> None:
    over = riding_range(*demo(), deepest=rad(75.0), turn=rad(10.0), points=(6, 3))
    assert over.bends[-1] == pytest.approx(rad(75.0))
    assert np.degrees(over.turns) == pytest.approx([-10.0, 0.0, 10.0])
