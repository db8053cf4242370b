"""Margins against 20,000 drawn riders, and how they are shown."""

from __future__ import annotations

import math

import numpy as np
import pytest
from fit_riders import demo, rad
from refused import refused

from geometry.fitting.fit import fit_of
from geometry.fitting.inputs import Setup, shifted
from geometry.fitting.margins import margins_of, shown, shown_margin
from geometry.fitting.smallest_mounts import smallest_cants, smallest_lift

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
}
DRAWS = 20_000


def drawn(setup: Setup) -> Setup:
    draws = np.random.default_rng(20240202)
    return shifted(setup, {name: draws.normal(0.0, s, DRAWS) for name, s in SPREADS.items()})


@pytest.mark.parametrize("angles", [(0.0, 0.0), (45.0, 40.0), (60.0, 60.0), (90.0, 90.0)])
def test_margins_are_the_scatter_of_twenty_thousand_riders(angles: tuple[float, float]) -> None:
    setup = demo(*angles)
    margins = margins_of(setup, fit_of(*setup), SPREADS)
    riders = drawn(setup)
    full = smallest_cants(*riders, 0.0)
    least = smallest_cants(*riders, riders.boots.side_give)
    scatter = [np.nanstd(cant) for cant in (full.front, full.rear, least.front, least.rear)]
    ours = [
        *(margins.front.full_cant, margins.rear.full_cant),
        *(margins.front.least_cant, margins.rear.least_cant),
    ]
    # 3 % for the second order, 0.01 deg where the scatter is next to nothing.
    assert ours == pytest.approx(scatter, rel=0.03, abs=rad(0.01))


@pytest.mark.parametrize("angles", [(60.0, 60.0), (90.0, 90.0)])
def test_margins_of_lifts_are_the_scatter_of_twenty_thousand_riders(
    angles: tuple[float, float],
) -> None:
    setup = demo(*angles)
    margins = margins_of(setup, fit_of(*setup), SPREADS)
    riders = drawn(setup)
    full = smallest_lift(*riders, 0.0)
    least = smallest_lift(*riders, riders.boots.flex_range)
    assert margins.front.full_lift == pytest.approx(np.nanstd(full), rel=0.03)
    assert margins.front.least_lift == pytest.approx(np.nanstd(least), rel=0.03)


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
    margin = margins_of(setup, fit, {"neutral_spacing": 6.0}).straight_leg_cant
    expected = math.cos(fit.straight_leg_cant) ** 2 / (2.0 * 880.0) * 6.0
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
    ("exact", "seen"), [(5.26, 5.5), (5.24, 5.0), (-4.8, -5.0), (0.2, 0.0), (-0.2, 0.0)]
)
def test_recommendations_are_shown_to_half_a_degree(exact: float, seen: float) -> None:
    assert math.degrees(shown(rad(exact))) == pytest.approx(seen)
    assert math.degrees(shown(rad(exact), finest=rad(0.01))) == pytest.approx(seen)


@pytest.mark.parametrize(("exact", "seen"), [(0.0, 0.5), (0.31, 0.5), (0.5, 0.5), (1.02, 1.5)])
def test_margins_are_shown_up_to_the_next_half_degree(exact: float, seen: float) -> None:
    assert math.degrees(shown_margin(rad(exact))) == pytest.approx(seen)
