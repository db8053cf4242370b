"""Full and least cants and lifts that are known from elsewhere.

The numbers, their origin and their tolerance are in tests/cases/worked_postures.json.
"""

from __future__ import annotations

import json
import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from fit_riders import demo, rad, uneven

from geometry import Mount, Stance, solve
from geometry.fitting.fit import fit_of, start_mounts
from geometry.fitting.inputs import PostureInputs, input_named, is_angle, shifted
from geometry.fitting.smallest_mounts import canted, full_lifts, least_lifts, lifted

WORKED = json.loads(
    (Path(__file__).parents[2] / "cases" / "worked_postures.json").read_text(encoding="utf-8")
)
FITS = WORKED["fits"]


def setup_of(changes: dict[str, float]) -> PostureInputs:
    """The demo rider with some values changed, in mm and degrees."""
    setup = demo()
    inner = {n: rad(v) if is_angle(n) else v for n, v in changes.items()}
    return shifted(setup, {n: v - input_named(setup, n) for n, v in inner.items()})


@pytest.mark.parametrize("name", FITS)
@pytest.mark.parametrize("wanted", ["full_cant", "full_lift"])
def test_full_cants_and_lifts_are_the_worked_ones(name: str, wanted: str) -> None:
    fit = fit_of(*setup_of(FITS[name]["changes"]))
    found = [math.degrees(getattr(foot, wanted)) for foot in (fit.front, fit.rear)]
    assert found == pytest.approx(FITS[name][wanted], abs=1e-3)


@pytest.mark.parametrize(("angle", "cant"), WORKED["straight_leg_cant"]["cant_at_angle"])
def test_the_straight_leg_estimate_stands_beside_the_fit(angle: float, cant: float) -> None:
    fit = fit_of(*demo(angle, angle))
    found = [math.degrees(foot.straight_leg_cant) for foot in (fit.front, fit.rear)]
    assert found == pytest.approx([cant, cant], abs=1e-3)


def test_the_demo_s_least_cants_leave_just_the_side_give() -> None:
    # The demo's wanted gives, 4.293 and 5.407 deg (same source), are a little and
    # a good degree above the side give of 4 deg, so its least cants are small.
    body, boots, stance, crouch = setup = demo()
    fit = fit_of(*setup)
    posture = solve(body, boots, canted(stance, fit.front.least_cant, fit.rear.least_cant), crouch)
    gives = [math.degrees(leg.wanted_give) for leg in posture.legs]
    assert gives == pytest.approx([4.0, 4.0], abs=1e-9)
    assert 0.0 < fit.front.least_cant < rad(0.3) < fit.rear.least_cant < rad(1.3)


def test_no_cant_is_needed_where_side_give_absorbs_everything() -> None:
    fit = fit_of(*demo(60.0, 60.0))
    assert fit.front.least_cant == 0.0
    assert fit.rear.least_cant == 0.0
    assert fit.front.full_cant > 0.0


def test_no_lift_is_needed_where_both_boots_stay_within_their_flex_range() -> None:
    # The demo's boot flex is 3.973 and 32.397 deg (same source as above): within
    # 18 +/- 15 deg.
    fit = fit_of(*demo())
    assert fit.front.least_lift == fit.rear.least_lift == 0.0
    assert fit.rear.full_lift < rad(-10.0) < rad(10.0) < fit.front.full_lift


def test_full_lifts_put_each_boot_at_its_own_rest() -> None:
    body, boots, stance, crouch = setup = uneven()
    lifts = full_lifts(*setup)
    posture = solve(body, boots, lifted(stance, lifts.front, lifts.rear), crouch)
    flex = [math.degrees(leg.boot_flex) for leg in posture.legs]
    assert flex == pytest.approx([14.0, 20.0], abs=1e-7)


def test_least_lifts_leave_just_the_flex_range() -> None:
    body, boots, stance, crouch = setup = demo(90.0, 90.0)
    fit = fit_of(*setup)
    on = lifted(stance, fit.front.least_lift, fit.rear.least_lift)
    flex = [math.degrees(leg.boot_flex) for leg in solve(body, boots, on, crouch).legs]
    assert flex == pytest.approx([3.0, 33.0], abs=1e-7)


def test_a_boot_that_needs_no_lift_gets_none_and_the_other_its_own() -> None:
    body, boots, stance, crouch = demo(60.0, 60.0)
    wide = replace(boots, front=replace(boots.front, flex_range=rad(25.0)))
    lifts = least_lifts(body, wide, stance, crouch)
    assert lifts.front == 0.0
    on_it = solve(body, wide, lifted(stance, 0.0, lifts.rear), crouch)
    assert math.degrees(on_it.rear.boot_flex) == pytest.approx(33.0, abs=1e-7)


def test_the_start_is_the_least_end_where_nothing_else_is_needed() -> None:
    fit = fit_of(*demo(0.0, 0.0))
    assert fit.front.start_cant == pytest.approx(fit.front.least_cant, abs=1e-12)
    assert start_mounts(*demo(0.0, 0.0)).front_lift == fit.front.least_lift == 0.0


def test_start_values_hold_together_and_stay_once_mounted() -> None:
    body, boots, stance, crouch = setup = demo(90.0, 90.0)
    fit = fit_of(*setup)
    start = start_mounts(*setup)
    on = lifted(stance, start.front_lift, start.rear_lift)
    mounted = canted(on, fit.front.start_cant, fit.rear.start_cant)
    again = fit_of(body, boots, mounted, crouch)
    lifts = start.front_lift, start.rear_lift
    for old, new, lift in zip((fit.front, fit.rear), (again.front, again.rear), lifts, strict=True):
        assert new.least_cant == pytest.approx(old.start_cant, abs=1e-8)
        assert new.least_lift == pytest.approx(lift, abs=1e-8)
        assert new.start_cant == pytest.approx(old.start_cant, abs=1e-8)


def test_arrays_of_stances_give_what_single_stances_give() -> None:
    body, boots, _, crouch = uneven()
    angles = np.radians([0.0, 45.0, 60.0, 90.0])
    together = fit_of(body, boots, Stance(Mount(angles), Mount(angles - 0.05), 500.0), crouch)
    for i, angle in enumerate(angles):
        single = PostureInputs(
            body, boots, Stance(Mount(angle), Mount(angle - 0.05), 500.0), crouch
        )
        alone = fit_of(*single)
        for name in type(alone.front).__slots__:
            values = getattr(together.rear, name)
            assert values[i] == pytest.approx(getattr(alone.rear, name), abs=1e-9)
