"""What holds of a fit for any rider in any stance."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from fit_riders import demo, rad
from hypothesis import given
from hypothesis import strategies as st

from geometry import Body, Boots, Crouch, Mount, Stance, solve
from geometry.fitting.fit import fit_of, fit_reasons
from geometry.fitting.inputs import Setup
from geometry.fitting.roots import root_from_zero
from geometry.fitting.smallest_mounts import canted, lifted, smallest_cants, smallest_lift


def degrees(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high).map(rad)


@st.composite
def setups(draw: st.DrawFn) -> Setup:
    hip = draw(st.floats(550.0, 1100.0))
    body = Body(
        hip,
        hip * draw(st.floats(0.5, 0.6)),
        hip * draw(st.floats(0.06, 0.1)),
        draw(st.floats(110.0, 220.0)),
        draw(st.floats(140.0, 400.0)),
        draw(st.floats(160.0, 330.0)),
        draw(degrees(-15.0, 15.0)),
    )
    boots = Boots(
        draw(st.floats(0.0, 80.0)),
        draw(degrees(0.0, 30.0)),
        draw(degrees(2.0, 25.0)),
        draw(degrees(0.0, 12.0)),
    )
    mounts = [
        Mount(draw(degrees(-30.0, 95.0)), draw(degrees(-15.0, 15.0)), draw(degrees(-12.0, 12.0)))
        for _ in range(2)
    ]
    stance = Stance(*mounts, hip * draw(st.floats(0.3, 0.75)), draw(st.floats(-80.0, 80.0)))
    crouch = Crouch(
        draw(degrees(5.0, 110.0)), draw(degrees(-30.0, 30.0)), draw(st.floats(-80.0, 80.0))
    )
    return Setup(body, boots, stance, crouch)


@given(setups(), st.sampled_from([0.0, 0.5, 1.0]))
def test_smallest_cants_leave_the_allowance_or_are_none(setup: Setup, part: float) -> None:
    body, boots, stance, crouch = setup
    allowance = part * boots.side_give
    cants = smallest_cants(*setup, allowance)
    # Steeper than any part is made.
    if not np.maximum(abs(cants.front), abs(cants.rear)) < rad(30.0):
        return
    posture = solve(body, boots, canted(stance, cants.front, cants.rear), crouch)
    for leg, cant in zip(posture.legs, (cants.front, cants.rear), strict=True):
        assert abs(leg.wanted_give) <= allowance + 1e-8
        assert cant == 0.0 or abs(leg.wanted_give) == pytest.approx(allowance, abs=1e-8)
        assert cant == 0.0 or leg.wanted_give * cant >= -1e-8
        assert abs(leg.off_plane) < 1e-7


@given(setups(), st.sampled_from([0.0, 0.5, 1.0]))
def test_the_smallest_lift_leaves_the_allowance_or_is_none(setup: Setup, part: float) -> None:
    body, boots, stance, crouch = setup
    allowance = part * boots.flex_range
    lift = smallest_lift(*setup, allowance)
    if np.isnan(lift):
        return
    posture = solve(body, boots, lifted(stance, lift), crouch)
    off_rest = posture.front.boot_flex - boots.forward_lean
    assert abs(off_rest) <= allowance + 1e-7
    assert lift == 0.0 or abs(off_rest) == pytest.approx(allowance, abs=1e-7)


@given(setups())
def test_a_stance_seen_from_the_tail_swaps_its_cants(setup: Setup) -> None:
    body, boots, stance, crouch = setup
    front, rear = (replace(mount, angle=-mount.angle) for mount in (stance.rear, stance.front))
    mirrored = Setup(
        body,
        boots,
        Stance(front, rear, stance.length, -stance.across),
        Crouch(crouch.knee_bend, -crouch.hips_turned, -crouch.hip_shift),
    )
    ours, theirs = (smallest_cants(*each, boots.side_give) for each in (setup, mirrored))
    assert theirs.front == pytest.approx(ours.rear, abs=1e-8, nan_ok=True)
    assert theirs.rear == pytest.approx(ours.front, abs=1e-8, nan_ok=True)


@given(setups(), st.floats(0.75, 1.25))
def test_a_rider_of_another_size_on_a_stance_of_that_size_needs_the_same(
    setup: Setup, size: float
) -> None:
    body, boots, stance, crouch = setup
    names = ("hip_height", "knee_height", "ankle_height", "hip_spacing", "neutral_spacing")
    lengths = {name: size * getattr(body, name) for name in (*names, "foot_length")}
    scaled = Setup(
        replace(body, **lengths),
        replace(boots, sole_thickness=size * boots.sole_thickness),
        replace(stance, length=size * stance.length, across=size * stance.across),
        replace(crouch, hip_shift=size * crouch.hip_shift),
    )
    ours, theirs = (smallest_cants(*each, 0.0) for each in (setup, scaled))
    assert theirs.front == pytest.approx(ours.front, abs=1e-8, nan_ok=True)
    assert theirs.rear == pytest.approx(ours.rear, abs=1e-8, nan_ok=True)


@given(setups())
def test_a_fit_has_an_answer_or_says_why_and_never_both(setup: Setup) -> None:
    fit = fit_of(*setup)
    front, rear, lift = (words.item() for words in fit_reasons(fit))
    assert bool(front) == bool(np.isnan(fit.front.full_cant + fit.front.least_cant))
    assert bool(rear) == bool(np.isnan(fit.rear.full_cant + fit.rear.least_cant))
    assert bool(lift) == bool(np.isnan(fit.front.full_lift + fit.front.least_lift))
    values = [getattr(fit.front, name) for name in type(fit.front).__slots__]
    assert all(np.isnan(value) or abs(value) <= rad(60.0) + 1e-9 for value in values)


@given(st.floats(-25.0, 25.0).map(rad), degrees(-8.0, 8.0))
def test_the_lifts_and_cants_that_a_stance_has_do_not_change_where_to_start(
    lift: float, cant: float
) -> None:
    body, boots, stance, crouch = demo(75.0, 70.0)
    plain = fit_of(body, boots, stance, crouch)
    other = fit_of(body, boots, canted(lifted(stance, lift), cant, -cant), crouch)
    assert other.front.start_lift == pytest.approx(plain.front.start_lift, abs=1e-8)
    assert other.rear.start_cant == pytest.approx(plain.rear.start_cant, abs=1e-8)


@given(st.floats(-0.9, 0.9), st.floats(0.3, 3.0), st.floats(0.0, 4.0))
def test_the_root_of_a_rising_function_is_found(root: float, slope: float, bend: float) -> None:
    def rising(x: float) -> float:
        return slope * (x - root) + bend * (x**3 - root**3)

    assert root_from_zero(rising, rising(0.0), 1.0, 1.0) == pytest.approx(root, abs=1e-8)


def test_a_root_at_the_edge_of_what_is_known_is_found_from_the_known_side() -> None:
    def known_below_half(x: float) -> float:
        return x - 0.45 if x < 0.5 else float("nan")

    # The first step, by a slope far too low, lands where nothing is known.
    assert root_from_zero(known_below_half, -0.45, 0.5, 1.0) == pytest.approx(0.45)


def test_a_function_without_a_root_in_range_has_none() -> None:
    assert np.isnan(root_from_zero(lambda x: x + 5.0, 5.0, 1.0, 1.0))
    starts = np.array([np.nan, -0.5, 5.0])
    found = root_from_zero(lambda x: x + starts, starts, 1.0, 1.0)
    assert found == pytest.approx([np.nan, 0.5, np.nan], nan_ok=True)
