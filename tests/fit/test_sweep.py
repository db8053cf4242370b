"""The legs through the whole bend, and the mounts that suit it."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from fit_riders import demo, rad

from geometry import solve
from geometry.fitting.fit import fit_of
from geometry.fitting.inputs import Setup
from geometry.fitting.range_fit import RangeFit, range_fit_of
from geometry.fitting.smallest_mounts import canted, lifted
from geometry.fitting.sweep import RidingRange, riding_range, sweep_of

STRAIGHT_HIPS = {"turn": 0.0, "points": (9, 1)}


def worst(setup: Setup, over: RidingRange, front: float, rear: float) -> tuple[float, float]:
    """What the worst posture asks of boot and knee: the wanted give up to the side give,
    and the off-plane angle beyond it, of the front and the rear leg."""
    body, boots, stance, crouch = setup
    posture = sweep_of(body, boots, canted(stance, front, rear), crouch, over).posture
    return tuple(
        float(np.nanmax(np.minimum(np.abs(leg.wanted_give), boots.side_give) + abs(leg.off_plane)))
        for leg in posture.legs
    )


def fitted(setup: Setup, **kind: object) -> tuple[RidingRange, RangeFit]:
    over = riding_range(*setup, **kind)
    return over, range_fit_of(*setup, over)


def test_a_sweep_holds_the_postures_of_its_points() -> None:
    body, boots, stance, crouch = setup = demo()
    over = RidingRange(np.radians([30.0, 45.0, 60.0]), np.radians([-20.0, 0.0, 20.0]))
    sweep = sweep_of(*setup, over)
    single = solve(body, boots, stance, replace(crouch, knee_bend=rad(60.0), hips_turned=rad(-20)))
    assert sweep.off_rest.shape == (3, 3)
    assert sweep.posture.front.off_plane[0, 2] == pytest.approx(single.front.off_plane, abs=1e-12)
    assert sweep.posture.rear.boot_flex[0, 2] == pytest.approx(single.rear.boot_flex, abs=1e-12)


def test_the_rear_boot_is_as_far_off_rest_as_the_front_one() -> None:
    setup = demo()
    sweep = sweep_of(*setup, riding_range(*setup))
    rear = sweep.posture.rear.boot_flex - setup.boots.forward_lean
    np.testing.assert_allclose(rear, -sweep.off_rest, atol=1e-9)
    assert sweep.worst_off_rest == pytest.approx(np.nanmax(np.abs(rear)))


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


@pytest.mark.parametrize("angles", [(0.0, 0.0), (45.0, 40.0), (90.0, 90.0), (15.0, -15.0)])
@pytest.mark.parametrize("kind", [STRAIGHT_HIPS, {"points": (5, 3)}], ids=["straight", "turned"])
def test_no_cant_nearby_makes_the_worst_of_the_range_smaller(
    angles: tuple[float, float], kind: dict[str, object]
) -> None:
    setup = demo(*angles)
    whole = riding_range(*setup, **kind)
    # Just off the tallest posture, which comes and goes with the cants tried.
    over = RidingRange(np.maximum(whole.bends, whole.bends[0] + rad(4.0)), whole.turns)
    front, rear = range_fit_of(*setup, over).full_cants
    best = worst(setup, over, front, rear)
    for step in (rad(0.3), rad(-0.3)):
        assert worst(setup, over, front + step, rear)[0] > best[0]
        assert worst(setup, over, front, rear + step)[1] > best[1]


def test_a_range_of_one_posture_has_the_fit_of_that_posture() -> None:
    setup = demo(0.0, 0.0)
    over = RidingRange(np.array([rad(45.0)]), np.zeros(1))
    found, fit = range_fit_of(*setup, over), fit_of(*setup)
    assert found.full_cants == pytest.approx((fit.front.full_cant, fit.rear.full_cant), abs=1e-7)
    assert found.least_cants == pytest.approx((fit.front.least_cant, fit.rear.least_cant), abs=1e-7)


def test_the_lifts_of_one_posture_are_the_fit_s_too() -> None:
    setup = demo(90.0, 90.0)
    over = RidingRange(np.array([rad(45.0)]), np.zeros(1))
    found, fit = range_fit_of(*setup, over), fit_of(*setup)
    assert found.full_lift == pytest.approx(fit.front.full_lift, abs=1e-8)
    assert found.least_lift == pytest.approx(fit.front.least_lift, abs=1e-8)


def test_least_cants_of_a_range_keep_every_knee_in_its_plane_and_no_smaller_do() -> None:
    body, boots, stance, crouch = setup = demo(0.0, 0.0)
    over, found = fitted(setup, **STRAIGHT_HIPS)
    front, rear = found.least_cants
    assert 0.0 < front < found.full_cants[0]
    at_least = sweep_of(body, boots, canted(stance, front, rear), crouch, over)
    assert at_least.worst_off_plane == pytest.approx((0.0, 0.0), abs=1e-7)
    below = sweep_of(body, boots, canted(stance, front - rad(0.1), rear), crouch, over)
    assert below.worst_off_plane[0] > rad(0.05)


def test_the_lift_of_a_range_evens_out_its_extremes() -> None:
    body, boots, stance, crouch = setup = demo(60.0, 60.0)
    over, found = fitted(setup, **STRAIGHT_HIPS)
    lifted_sweep = sweep_of(body, boots, lifted(stance, found.full_lift), crouch, over)
    assert lifted_sweep.off_rest.max() == pytest.approx(-lifted_sweep.off_rest.min(), abs=1e-8)
    assert 0.0 < found.least_lift < found.full_lift
    least_sweep = sweep_of(body, boots, lifted(stance, found.least_lift), crouch, over)
    assert math.degrees(least_sweep.worst_off_rest) == pytest.approx(15.0, abs=1e-6)
