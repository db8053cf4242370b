"""Full and least cants and lifts that are known from elsewhere."""

from __future__ import annotations

import math

import numpy as np
import pytest
from fit_riders import demo, rad

from geometry import Mount, Stance, solve
from geometry.fitting.fit import Shares, fit_of
from geometry.fitting.inputs import Setup
from geometry.fitting.smallest_mounts import canted, lifted

# From an independent solver whose poses close to 1e-12 mm in a physics engine's
# hinge chain: demo rider, hard boots, both binding angles the same.
FULL_CANT_DEG = {0.0: 8.795, 30.0: 6.601, 60.0: 0.339, 90.0: -8.608}
STRAIGHT_LEG_CANT_DEG = {0.0: 8.085, 30.0: 5.937, 60.0: 0.0, 90.0: -8.085}


@pytest.mark.parametrize("angle", FULL_CANT_DEG)
def test_full_cant_at_equal_binding_angles_is_the_worked_value(angle: float) -> None:
    fit = fit_of(*demo(angle, angle))
    for foot in (fit.front, fit.rear):
        assert math.degrees(foot.full_cant) == pytest.approx(FULL_CANT_DEG[angle], abs=1e-3)


@pytest.mark.parametrize("angle", STRAIGHT_LEG_CANT_DEG)
def test_the_straight_leg_estimate_stands_beside_the_fit(angle: float) -> None:
    estimate = math.degrees(fit_of(*demo(angle, angle)).straight_leg_cant)
    assert estimate == pytest.approx(STRAIGHT_LEG_CANT_DEG[angle], abs=1e-3)


def test_full_cant_of_the_demo_is_the_worked_value() -> None:
    fit = fit_of(*demo())
    found = [math.degrees(foot.full_cant) for foot in (fit.front, fit.rear)]
    assert found == pytest.approx([3.552, 4.572], abs=1e-3)


def test_full_lift_at_60_and_60_is_the_worked_value() -> None:
    fit = fit_of(*demo(60.0, 60.0))
    assert math.degrees(fit.front.full_lift) == pytest.approx(21.216, abs=1e-3)
    assert fit.rear.full_lift == -fit.front.full_lift


def test_the_demo_s_least_cants_leave_just_the_side_give() -> None:
    # The demo's wanted gives, 4.022 and 5.173 deg (same source), are a little and
    # a good degree above the side give of 4 deg, so its least cants are small.
    body, boots, stance, crouch = setup = demo()
    fit = fit_of(*setup)
    posture = solve(body, boots, canted(stance, fit.front.least_cant, fit.rear.least_cant), crouch)
    gives = [math.degrees(leg.wanted_give) for leg in posture.legs]
    assert gives == pytest.approx([4.0, 4.0], abs=1e-9)
    assert 0.0 < fit.front.least_cant < rad(0.1) < fit.rear.least_cant < rad(1.2)


def test_no_cant_is_needed_where_side_give_absorbs_everything() -> None:
    fit = fit_of(*demo(60.0, 60.0))
    assert fit.front.least_cant == 0.0
    assert fit.rear.least_cant == 0.0
    assert fit.front.full_cant > 0.0


def test_no_lift_is_needed_where_both_boots_stay_within_their_flex_range() -> None:
    # The demo's boot flex is 3.236 and 32.764 deg (same source as above): within
    # 18 +/- 15 deg.
    fit = fit_of(*demo())
    assert fit.front.least_lift == fit.rear.least_lift == 0.0
    assert fit.front.full_lift > rad(10.0)


def test_least_lift_leaves_just_the_flex_range() -> None:
    body, boots, stance, crouch = setup = demo(90.0, 90.0)
    lift = fit_of(*setup).front.least_lift
    posture = solve(body, boots, lifted(stance, lift), crouch)
    flex = [math.degrees(leg.boot_flex) for leg in posture.legs]
    assert flex == pytest.approx([3.0, 33.0], abs=1e-7)


def test_the_start_is_the_least_end_where_nothing_else_is_needed() -> None:
    fit = fit_of(*demo(0.0, 0.0))
    assert fit.front.start_cant == pytest.approx(fit.front.least_cant, abs=1e-12)
    assert fit.front.start_lift == fit.front.least_lift == 0.0


def test_start_values_hold_together_and_stay_once_mounted() -> None:
    body, boots, stance, crouch = setup = demo(90.0, 90.0)
    fit = fit_of(*setup)
    mounted = canted(
        lifted(stance, fit.front.start_lift), fit.front.start_cant, fit.rear.start_cant
    )
    again = fit_of(body, boots, mounted, crouch)
    for old, new in ((fit.front, again.front), (fit.rear, again.rear)):
        assert new.least_cant == pytest.approx(old.start_cant, abs=1e-8)
        assert new.least_lift == pytest.approx(old.start_lift, abs=1e-8)
        assert new.start_cant == pytest.approx(old.start_cant, abs=1e-8)


def test_a_rider_s_share_of_full_cant_is_where_to_start() -> None:
    fit = fit_of(*demo(0.0, 0.0), Shares(front=0.6))
    assert fit.front.start_cant == pytest.approx(0.6 * fit.front.full_cant)
    assert fit.rear.start_cant == pytest.approx(fit.rear.least_cant)


def test_arrays_of_stances_give_what_single_stances_give() -> None:
    body, boots, _, crouch = demo()
    angles = np.radians([0.0, 45.0, 60.0, 90.0])
    together = fit_of(body, boots, Stance(Mount(angles), Mount(angles - 0.05), 500.0), crouch)
    for i, angle in enumerate(angles):
        single = Setup(body, boots, Stance(Mount(angle), Mount(angle - 0.05), 500.0), crouch)
        alone = fit_of(*single)
        for name in type(alone.front).__slots__:
            values = getattr(together.rear, name)
            assert values[i] == pytest.approx(getattr(alone.rear, name), abs=1e-9)
