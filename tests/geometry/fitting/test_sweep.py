"""The legs through the whole bend."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from fit_riders import demo, rad, uneven

from geometry import solve
from geometry.fitting.sweep import RidingRange, riding_range, sweep_of


def test_a_sweep_holds_the_postures_of_its_points() -> None:
    body, boots, stance, crouch = setup = demo()
    over = RidingRange(np.radians([30.0, 45.0, 60.0]), np.radians([-20.0, 0.0, 20.0]))
    sweep = sweep_of(*setup, over)
    single = solve(body, boots, stance, replace(crouch, knee_bend=rad(60.0), hips_turned=rad(-20)))
    assert sweep.off_rest[0].shape == (3, 3)
    assert sweep.posture.front.off_plane[0, 2] == pytest.approx(single.front.off_plane, abs=1e-12)
    assert sweep.posture.rear.boot_flex[0, 2] == pytest.approx(single.rear.boot_flex, abs=1e-12)


def test_each_boot_is_told_off_its_own_rest() -> None:
    setup = uneven()
    sweep = sweep_of(*setup, riding_range(*setup))
    for off, leg, lean in zip(sweep.off_rest, sweep.posture.legs, (14.0, 20.0), strict=True):
        np.testing.assert_allclose(off, leg.boot_flex - rad(lean), atol=1e-12)


def test_the_range_starts_where_the_straighter_leg_is_all_but_straight() -> None:
    body, boots, stance, crouch = setup = demo()
    bends = riding_range(*setup).bends
    tallest = solve(body, boots, stance, replace(crouch, knee_bend=float(bends[0])))
    too_tall = solve(body, boots, stance, replace(crouch, knee_bend=float(bends[0]) - rad(0.6)))
    assert tallest.exists
    assert min(tallest.front.knee_flexion, tallest.rear.knee_flexion) < rad(3.0)
    assert not too_tall.exists


def test_the_range_ends_at_the_crouch_asked_for() -> None:
    over = riding_range(*demo(), deepest=rad(75.0), turn=rad(10.0), points=(6, 3))
    assert over.bends[-1] == pytest.approx(rad(75.0))
    assert np.degrees(over.turns) == pytest.approx([-10.0, 0.0, 10.0])
