"""Growing riders: what changed, and what to expect."""

from __future__ import annotations

import pytest
from fit_riders import body_of, demo, rad
from refused import refused

from geometry import Body, LegMeasures
from geometry.fitting.fit import fit_of
from geometry.fitting.inputs import PostureInputs
from geometry.fitting.margins import margins_of
from geometry.riders.season import forecast

# An invented rider of 8 years, about as tall as the mean boy (1328 mm).
CHILD = body_of(680.0, 372.0, 52.0, 205.0, hips=136.0, neutral=190.0)


def test_each_leg_grows_by_its_own_length() -> None:
    leg, longer = LegMeasures(680.0, 372.0, 52.0, 205.0), LegMeasures(690.0, 372.0, 52.0, 205.0)
    body = forecast(Body(longer, leg, 136.0, 190.0), 8.0, 2.0, stature=1328.0).body
    assert body.front.hip_height / body.rear.hip_height == pytest.approx(690.0 / 680.0)
    assert body.front.foot_length == body.rear.foot_length


def test_a_mean_boy_s_legs_grow_as_the_growth_study_has_it() -> None:
    # Fredriks et al. 2000, Pediatr Res 47:316-323 and 2005, Arch Dis Child
    # 90:807-812: boys of 8 and 10 years, stature 1328 and 1432 mm, leg length over
    # stature 0.470 and 0.481.
    expected = forecast(CHILD, 8.0, 2.0, children="boys", stature=1328.0).body
    assert expected.front.hip_height == pytest.approx(680.0 * (1432.0 * 0.481) / (1328.0 * 0.470))
    assert expected.rear.foot_length == pytest.approx(205.0 * 1432.0 / 1328.0)


def test_a_tall_boy_stays_tall() -> None:
    # The same study: one standard deviation is 58 mm at 8 and 66 mm at 10.
    tall = forecast(CHILD, 8.0, 2.0, children="boys", stature=1328.0 + 58.0).body
    assert tall.front.foot_length == pytest.approx(205.0 * (1432.0 + 66.0) / (1328.0 + 58.0))


def test_no_time_ahead_means_no_growth_and_a_known_stature_no_spread() -> None:
    same = forecast(CHILD, 9.5, 0.0, stature=1400.0)
    assert same.body.front.hip_height == pytest.approx(680.0)
    assert same.spreads["hip_height"] == pytest.approx(0.0, abs=1e-9)


def test_the_spread_widens_with_the_years_and_without_a_stature() -> None:
    near, far = (forecast(CHILD, 8.0, years, stature=1328.0) for years in (1.0, 3.0))
    blind = forecast(CHILD, 8.0, 3.0)
    assert 0.0 < near.spreads["hip_height"] < far.spreads["hip_height"]
    assert far.spreads["hip_height"] < blind.spreads["hip_height"]


def test_growth_ends_at_18() -> None:
    grown, later = (forecast(CHILD, 16.0, years, stature=1790.0) for years in (2.0, 6.0))
    assert later.body.front.hip_height == grown.body.front.hip_height
    assert later.age == 18.0


def test_a_forecast_says_for_which_age_it_is() -> None:
    assert forecast(CHILD, 8.0, 1.0).age == 9.0


def test_a_forecast_is_fitted_with_its_spread_as_margin() -> None:
    _, boots, stance, crouch = demo(0.0, 0.0, length=380.0)
    expected = forecast(CHILD, 8.0, 2.0, stature=1328.0)
    setup = PostureInputs(expected.body, boots, stance, crouch)
    fit = fit_of(*setup)
    together = margins_of(setup, fit, expected.spreads, expected.correlations).front.full_cant
    apart = margins_of(setup, fit, expected.spreads).front.full_cant
    assert rad(0.01) < together < rad(1.0) < fit.front.full_cant
    assert together != pytest.approx(apart, rel=0.1)


@pytest.mark.parametrize(("age", "years"), [(3.0, 1.0), (40.0, 1.0), (8.0, -1.0)])
def test_an_age_outside_the_growth_figures_is_refused(age: float, years: float) -> None:
    with refused("must lie between"):
        forecast(CHILD, age, years)
