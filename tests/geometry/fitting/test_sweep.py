"""The legs through the whole bend."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from fit_riders import demo, rad

from geometry import solve
from geometry.fitting.sweep import riding_range


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
