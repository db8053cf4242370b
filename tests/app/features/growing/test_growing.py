"""Last season beside today, and the forecast."""

from __future__ import annotations

from dataclasses import replace

import pytest
from both_sides import repeats_of_both
from refused import refused

from app.features.growing.model import Row, ahead_of, compared, full_cants, shrunk
from app.rider.inputs import DEFAULTS, changed, sided_names
from app.rider.setup import LEG_NAMES, Setup
from geometry.riders.growth import growth

# An invented rider of 8 years, and the same a season later.
CHILD = changed(
    DEFAULTS,
    knee_height_mm=372.0,
    hip_height_mm=680.0,
    ankle_height_mm=52.0,
    hip_spacing_mm=136.0,
    neutral_spacing_mm=190.0,
    foot_length_mm=205.0,
    stance_length_mm=380.0,
    front_angle_deg=0.0,
    rear_angle_deg=0.0,
)
THEN = Setup(inputs=CHILD, measured=frozenset(LEG_NAMES))
GROWN = changed(CHILD, hip_height_mm=702.0, knee_height_mm=384.0, foot_length_mm=209.0)
NOW = replace(THEN, inputs=GROWN)


def rows(now: Setup, then: Setup | None = None, *, ahead: bool = False) -> dict[str, Row]:
    expected = ahead_of(now, 8.0, 2.0, "boys") if ahead else None
    return {row.label: row for row in compared(now, then, expected)}


def test_every_length_is_told_then_and_now_with_the_difference_and_its_error() -> None:
    # Each measured once to 5 mm: the difference is sure to 5 times the root of 2.
    told = rows(NOW, THEN)["Hip height"]
    assert told == Row("Hip height", "680 mm", "702 mm", "+22 ± 7 mm", "")


def test_a_difference_within_its_error_is_called_unsure_and_none_is_none() -> None:
    told = rows(NOW, THEN)
    assert told["Foot length"].change == "+4 ± 7 mm, unsure"
    assert told["Ankle height"].change == "none, give or take 7 mm"


def test_repeats_make_a_difference_surer() -> None:
    now = replace(NOW, repeats=repeats_of_both(hip_height_mm=(701.0, 703.0)))
    told = rows(now, replace(THEN, repeats=repeats_of_both(hip_height_mm=(679.0, 681.0))))
    assert told["Hip height"].change == "+22 ± 1 mm"


def test_what_was_not_measured_says_so() -> None:
    told = rows(NOW, replace(THEN, measured=frozenset(sided_names("hip_height_mm"))))
    assert told["Foot length"].then == "205 mm, default"
    assert told["Hip height"].then == "680 mm"


def test_a_length_that_shrank_by_more_than_its_error_is_pointed_out() -> None:
    assert shrunk(NOW, THEN) == ()
    assert shrunk(THEN, NOW) == ("Hip height", "Knee height")
    assert shrunk(NOW, None) == ()


def test_full_cants_are_those_of_the_present_stance_for_the_legs_of_then_and_now() -> None:
    wider = replace(NOW, inputs=changed(GROWN, stance_length_mm=420.0))
    then, _ = full_cants(THEN, wider.inputs)
    own, _ = full_cants(THEN, THEN.inputs)
    assert then.deg > own.deg + 1.0
    # Longer legs over the same feet need less cant.
    now, _ = full_cants(wider, wider.inputs)
    assert now.deg < then.deg
    assert rows(wider, THEN)["Whole cant, front"].change == "0.5° out, unsure"


def test_of_stance_mounts_and_boots_only_what_differs_is_told() -> None:
    later = changed(GROWN, stance_length_mm=400.0, front_cant_deg=2.0, lead_foot="right")
    told = rows(replace(NOW, inputs=later), THEN)
    assert told["Stance length"][1:4] == ("380 mm", "400 mm", "+20 mm")
    assert told["Front cant"][1:4] == ("no cant", "2.0° inward", "+2.0°")
    assert told["Lead foot"][1:3] == ("left", "right")
    assert "Rear cant" not in told
    assert "Knee bend" not in told


def test_without_a_former_set_up_there_is_only_today() -> None:
    told = rows(NOW)
    assert told["Hip height"] == Row("Hip height", "", "702 mm", "", "")
    assert told["Whole cant, front"].change == ""


def test_the_forecast_follows_the_growth_study_and_says_that_it_is_one() -> None:
    # Fredriks et al. 2000, Pediatr Res 47:316-323 and 2005, Arch Dis Child 90:807-812.
    now, then = growth(8.0, "boys"), growth(10.0, "boys")
    expected = 680.0 * then.leg_length.value / now.leg_length.value
    ahead = ahead_of(THEN, 8.0, 2.0, "boys")
    assert ahead.legs.body.front.hip_height == pytest.approx(expected)
    assert rows(THEN, ahead=True)["Hip height"].forecast.startswith(f"{expected:.0f} ± ")
    assert ahead.words.startswith("Forecast for the age of 10.0: measure before mounting.")


def test_a_known_standing_height_narrows_the_forecast() -> None:
    known = replace(THEN, known=replace(THEN.known, stature_mm=1328.0))
    blind, seen = (ahead_of(each, 8.0, 2.0, "boys") for each in (THEN, known))
    assert seen.legs.spreads["hip_height"] < blind.legs.spreads["hip_height"]
    assert "would narrow it" in blind.words
    assert "would narrow it" not in seen.words


def test_a_forecast_of_the_full_cant_is_less_sure_than_todays() -> None:
    today, _ = full_cants(THEN, THEN.inputs)
    later, _ = ahead_of(THEN, 8.0, 4.0, "either").full_cants
    assert later.margin_deg > today.margin_deg


def test_an_age_beyond_the_figures_is_refused() -> None:
    with refused("age"):
        ahead_of(THEN, 30.0, 1.0, "either")
