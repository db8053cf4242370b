"""Margins against 20,000 drawn riders, and how they are shown."""

from __future__ import annotations

import math

import numpy as np
import pytest
from fit_riders import demo, rad, uneven
from refused import refused

from geometry.fitting.fit import fit_of
from geometry.fitting.inputs import PostureInputs, shifted
from geometry.fitting.margins import margins_of, shown, shown_margin
from geometry.fitting.smallest_mounts import full_cants, full_lifts, least_cants, least_lifts

# Standard errors of a careful rider with a tape (invented).
SPREADS = {
    "hip_height": 8.0,
    "knee_height": 6.0,
    "ankle_height": 4.0,
    "hip_spacing": 8.0,
    "neutral_spacing": 6.0,
    "foot_length": 4.0,
    "stance_length": 3.0,
    "sole_thickness": 2.0,
    "front_angle": rad(0.5),
    "rear_angle": rad(0.5),
    "knee_bend": rad(3.0),
    "knee_tracking": rad(1.0),
    "forward_lean": rad(1.0),
    "flex_range": rad(1.0),
    "side_give": rad(0.7),
    "hips_turned": rad(2.0),
    "hip_shift": 5.0,
    "back_lean": rad(3.0),
    "rear_cuff_offset": rad(0.5),
    "front_knee_tracking": rad(1.0),
}
DRAWS = 20_000
TOGETHER = {("hip_height", "knee_height"): 0.6, ("neutral_spacing", "hip_height"): 0.3}


def drawn(
    setup: PostureInputs, together: dict[tuple[str, str], float] | None = None
) -> PostureInputs:
    draws, names = np.random.default_rng(20240202), list(SPREADS)
    matrix = np.eye(len(names))
    for (one, other), correlation in (together or {}).items():
        i, j = names.index(one), names.index(other)
        matrix[i, j] = matrix[j, i] = correlation
    errors = np.linalg.cholesky(matrix) @ draws.normal(size=(len(names), DRAWS))
    return shifted(setup, {n: SPREADS[n] * each for n, each in zip(names, errors, strict=True)})


CASES = {"0": demo(0.0, 0.0), "43": demo(), "60": demo(60.0, 60.0), "90": demo(90.0, 90.0)}
CASES["uneven"] = uneven()


@pytest.mark.parametrize("together", [{}, TOGETHER], ids=["apart", "together"])
@pytest.mark.parametrize("setup", CASES.values(), ids=CASES)
def test_margins_are_the_scatter_of_twenty_thousand_riders(
    setup: PostureInputs, together: dict[tuple[str, str], float]
) -> None:
    margins = margins_of(setup, fit_of(*setup), SPREADS, together)
    riders = drawn(setup, together)
    full, least = full_cants(*riders), least_cants(*riders)
    scatter = [np.nanstd(cant) for cant in (full.front, full.rear, least.front, least.rear)]
    ours = [
        *(margins.front.full_cant, margins.rear.full_cant),
        *(margins.front.least_cant, margins.rear.least_cant),
    ]
    # 3 % for the second order, 0.015 deg where the scatter is next to nothing.
    assert ours == pytest.approx(scatter, rel=0.03, abs=rad(0.015))


@pytest.mark.parametrize("angles", [(60.0, 60.0), (90.0, 90.0)])
def test_margins_of_lifts_are_the_scatter_of_twenty_thousand_riders(
    angles: tuple[float, float],
) -> None:
    setup = demo(*angles)
    margins = margins_of(setup, fit_of(*setup), SPREADS)
    riders = drawn(setup)
    full, least = full_lifts(*riders), least_lifts(*riders)
    for foot, end in ((margins.front, "front"), (margins.rear, "rear")):
        assert foot.full_lift == pytest.approx(np.nanstd(getattr(full, end)), rel=0.03)
        assert foot.least_lift == pytest.approx(np.nanstd(getattr(least, end)), rel=0.05)


def test_one_error_in_both_legs_is_not_two_errors() -> None:
    # The front cant falls with the front boot's give and grows a little with the rear
    # one's: one error in both moves it by the difference, of two the squares add up.
    setup = demo(0.0, 0.0)
    fit = fit_of(*setup)
    small = rad(0.1)
    spreads = [{"side_give": small}, {"front_side_give": small}, {"rear_side_give": small}]
    both, front, rear = (margins_of(setup, fit, each).front.least_cant for each in spreads)
    assert both == pytest.approx(front - rear, rel=1e-3)
    assert rear > 1e-3 * front
    apart = margins_of(setup, fit, spreads[1] | spreads[2]).front.least_cant
    assert apart == pytest.approx(math.hypot(front, rear), rel=1e-3)


def test_errors_that_go_together_wholly_add_up_and_against_each_other_cancel() -> None:
    setup = demo(0.0, 0.0)
    fit = fit_of(*setup)
    hip, neutral = ({"hip_spacing": 5.0}, {"neutral_spacing": 5.0})
    alone = [margins_of(setup, fit, each).front.full_cant for each in (hip, neutral)]
    pair = ("neutral_spacing", "hip_spacing")
    seen = [
        margins_of(setup, fit, hip | neutral, {pair: together}).front.full_cant
        for together in (1.0, -1.0)
    ]
    assert sorted(seen) == pytest.approx([abs(alone[0] - alone[1]), sum(alone)], rel=1e-6)


def test_an_exact_measurement_adds_no_margin() -> None:
    setup = demo()
    margins = margins_of(setup, fit_of(*setup), {"hip_height": 0.0})
    assert margins.front.full_cant == 0.0
    assert margins.rear.least_lift == 0.0


def test_a_margin_grows_with_its_spread() -> None:
    setup = demo()
    fit = fit_of(*setup)
    small, large = (margins_of(setup, fit, {"neutral_spacing": s}) for s in (2.0, 4.0))
    ratio = large.front.full_cant / small.front.full_cant
    assert ratio == pytest.approx(2.0, rel=1e-3)


def test_the_straight_leg_estimate_has_the_margin_of_its_formula() -> None:
    # tan c = (X - N) / 2H, so dc/dN = -cos(c)^2 / 2H.
    setup = demo(0.0, 0.0)
    fit = fit_of(*setup)
    margin = margins_of(setup, fit, {"neutral_spacing": 6.0}).front.straight_leg_cant
    expected = math.cos(fit.front.straight_leg_cant) ** 2 / (2.0 * 880.0) * 6.0
    assert margin == pytest.approx(expected, rel=1e-4)


def test_a_spread_wider_than_its_input_stops_at_zero() -> None:
    # A side give of 4 +/- 6 deg cannot be negative; the full cant does not depend
    # on it and the least cant follows it one to one.
    setup = demo(0.0, 0.0)
    margins = margins_of(setup, fit_of(*setup), {"side_give": rad(6.0)})
    assert margins.front.full_cant == pytest.approx(0.0, abs=1e-9)
    assert rad(4.0) < margins.front.least_cant < rad(6.0)


@pytest.mark.parametrize(
    ("spreads", "message"),
    [
        ({"hip_hight": 5.0}, "there is no input 'hip_hight'"),
        ({"hip_height": -1.0}, "standard error of hip_height is -1 mm"),
        ({"front_angle": rad(90.0)}, "standard error of front_angle is 90 deg"),
    ],
)
def test_a_spread_that_cannot_be_is_refused(spreads: dict[str, float], message: str) -> None:
    setup = demo()
    with refused(message):
        margins_of(setup, fit_of(*setup), spreads)


@pytest.mark.parametrize(
    ("correlations", "message"),
    [
        ({("hip_hight", "knee_height"): 0.5}, "there is no input 'hip_hight'"),
        ({("hip_height", "knee_height"): 1.5}, "correlation of hip_height and knee_height is 1.5"),
    ],
)
def test_a_correlation_that_cannot_be_is_refused(
    correlations: dict[tuple[str, str], float], message: str
) -> None:
    setup = demo()
    with refused(message):
        margins_of(setup, fit_of(*setup), SPREADS, correlations)


@pytest.mark.parametrize(
    ("exact", "seen"), [(5.26, 5.5), (5.24, 5.0), (-4.8, -5.0), (0.2, 0.0), (-0.2, 0.0)]
)
def test_recommendations_are_shown_to_half_a_degree(exact: float, seen: float) -> None:
    assert math.degrees(shown(rad(exact))) == pytest.approx(seen)
    assert math.degrees(shown(rad(exact), finest=rad(0.01))) == pytest.approx(seen)


@pytest.mark.parametrize(("exact", "seen"), [(0.0, 0.5), (0.31, 0.5), (0.5, 0.5), (1.02, 1.5)])
def test_margins_are_shown_up_to_the_next_half_degree(exact: float, seen: float) -> None:
    assert math.degrees(shown_margin(rad(exact))) == pytest.approx(seen)
