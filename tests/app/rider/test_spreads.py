"""How surely each leg dimension is taken to be known."""

from __future__ import annotations

from dataclasses import replace
from math import degrees, radians, sqrt

import pytest
from both_sides import repeats_of_both

from app.rider.inputs import DEFAULTS, FIELD, changed, side_and_name
from app.rider.setup import LEG_NAMES, Setup, edited, estimated
from app.rider.spreads import (
    AMONG_PEOPLE,
    MEASURED_ONCE,
    OF_THE_RULE,
    SUREST_MM,
    boot_spreads_of,
    spread_of,
    spreads_of,
    unsaid,
)

MEASURED = Setup(measured=frozenset(LEG_NAMES))


def test_every_leg_dimension_has_a_spread_under_the_geometrys_name() -> None:
    names = {side_and_name(name)[1].rpartition("_")[0] for name in LEG_NAMES}
    assert set(spreads_of(Setup())) == names
    assert degrees(spreads_of(Setup())["knee_tracking"]) == pytest.approx(MEASURED_ONCE["deg"])


def test_an_estimate_brings_its_own_standard_error() -> None:
    setup = estimated(Setup(), stature_mm=1800.0)
    assert spreads_of(setup)["hip_height"] == dict(setup.spreads)["left_hip_height_mm"]
    assert spreads_of(setup)["hip_height"] > MEASURED_ONCE["mm"]


def test_a_single_measurement_is_given_an_engineering_choice() -> None:
    setup = edited(Setup(), hip_height_mm=900.0)
    assert spread_of(setup, "hip_height_mm") == MEASURED_ONCE["mm"]


def test_repeats_tell_the_standard_error_of_their_mean() -> None:
    # 880 +/- 6: standard deviation 6, so 6 / sqrt(3) for the mean of three.
    setup = replace(MEASURED, repeats=repeats_of_both(hip_height_mm=(874.0, 880.0, 886.0)))
    assert spread_of(setup, "hip_height_mm") == pytest.approx(6.0 / sqrt(3.0))


def test_repeats_that_agree_to_the_millimetre_are_not_taken_for_certainty() -> None:
    setup = replace(MEASURED, repeats=repeats_of_both(hip_height_mm=(880.0, 880.0)))
    assert spread_of(setup, "hip_height_mm") == SUREST_MM


def test_repeats_of_a_value_that_was_changed_since_do_not_speak_for_it() -> None:
    setup = replace(MEASURED, repeats=repeats_of_both(hip_height_mm=(880.0, 881.0)))
    assert spread_of(edited(setup, hip_height_mm=900.0), "hip_height_mm") == MEASURED_ONCE["mm"]


def test_repeats_of_an_angle_may_be_negative_and_tell_its_standard_error_in_degrees() -> None:
    # -2, 0 and 2: standard deviation 2, so 2 / sqrt(3) for the mean of three.
    setup = replace(MEASURED, repeats=repeats_of_both(knee_tracking_deg=(-2.0, 0.0, 2.0)))
    assert spread_of(setup, "knee_tracking_deg") == pytest.approx(2.0 / sqrt(3.0))


def test_no_tape_tells_the_hip_spacing_better_than_the_rule_behind_it() -> None:
    setup = replace(MEASURED, repeats=repeats_of_both(hip_spacing_mm=(170.0, 170.0, 170.0)))
    assert spread_of(setup, "hip_spacing_mm") > OF_THE_RULE["hip_spacing_mm"]


def test_what_nobody_has_said_of_a_real_rider_is_as_uncertain_as_people_differ() -> None:
    setup = estimated(Setup(), stature_mm=1800.0)
    assert unsaid(setup) == ["knee_tracking_deg"]
    assert spread_of(setup, "knee_tracking_deg") == AMONG_PEOPLE["knee_tracking_deg"]


def test_the_demo_riders_legs_count_as_measured() -> None:
    assert unsaid(Setup()) == []
    assert spread_of(Setup(), "neutral_spacing_mm") == MEASURED_ONCE["mm"]


def test_no_spread_is_so_large_that_the_leg_contradicts_itself() -> None:
    tight = changed(DEFAULTS, hip_height_mm=520.0, knee_height_mm=500.0, foot_length_mm=140.0)
    spreads = tuple((name, 1000.0) for name in LEG_NAMES if FIELD[name].unit == "mm")
    found = spreads_of(Setup(inputs=tight, spreads=spreads))
    assert found["hip_height"] == found["knee_height"] == 10.0
    assert found["foot_length"] == 35.0


def test_boots_count_as_exact_until_repeats_tell_how_surely_they_are_known() -> None:
    once = replace(
        edited(Setup(), side_give_deg=6.0), repeats=repeats_of_both(side_give_deg=(6.0,))
    )
    assert boot_spreads_of(Setup()) == boot_spreads_of(once) == {}
    twice = replace(once, repeats=repeats_of_both(side_give_deg=(4.0, 8.0)))
    # By hand: spread sqrt(8), over the root of two readings.
    assert boot_spreads_of(twice) == {"side_give": pytest.approx(radians(2.0))}
    assert boot_spreads_of(edited(twice, side_give_deg=9.0)) == {}
