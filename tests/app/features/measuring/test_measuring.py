"""The measuring guide and what repeats of a measurement do to a set-up."""

from __future__ import annotations

import pytest
from refused import refused

from app.features.measuring.model import (
    GUIDE,
    GUIDES,
    OF_FRONT_POINTS,
    agreement,
    agreement_words,
    finding_words,
    in_force_words,
    mean_in_force,
    reading_scale,
    readings,
    with_mean,
    with_repeat,
    without_repeat,
)
from app.rider.inputs import FIELD, side_and_name
from app.rider.setup import BOOT_NAMES, LEG_NAMES, Setup, edited, estimated
from app.words.reasons import reason_phrase
from geometry.reasons import ImpossibleError
from geometry.riders.estimates import estimated_hip_spacing


def taken(name: str, *tape: float, setup: Setup | None = None) -> Setup:
    """A set-up in which these readings were typed one by one."""
    setup = setup or Setup()
    for reading in tape:
        setup = with_repeat(setup, name, reading)
    return setup


def test_every_dimension_of_legs_and_boots_has_a_guide_with_its_three_parts() -> None:
    assert set(GUIDE) == {side_and_name(name)[1] for name in (*LEG_NAMES, *BOOT_NAMES)}
    assert all(len(part) > 20 for each in GUIDES for part in (each.stand, each.tape, each.landmark))


def test_the_mean_of_the_repeats_is_in_force_as_measured_after_each_of_them() -> None:
    setup = taken("hip_height_mm", 900.0)
    assert (setup.inputs.left.hip_height_mm, setup.origin("hip_height_mm")) == (900.0, "measured")
    setup = taken("hip_height_mm", 890.0, setup=setup)
    assert setup.inputs.left.hip_height_mm == 895.0
    assert mean_in_force(setup, "hip_height_mm")


def test_repeats_tell_mean_spread_and_standard_error() -> None:
    # By hand: mean 884, squared deviations 16 + 4 + 4 + 16, so spread sqrt(40/3) = 3.65.
    words = agreement_words(taken("hip_height_mm", 880.0, 882.0, 886.0, 888.0), "hip_height_mm")
    plain = [line.replace("\u00a0", " ") for line in words]
    assert plain == ["Mean 884 mm", "Spread ± 3.7 mm", "Standard error ± 1.8 mm"]


def test_one_repeat_tells_no_spread_and_says_so() -> None:
    mean, rest = agreement_words(taken("foot_length_mm", 262.0), "foot_length_mm")
    assert mean.endswith("262\u00a0mm")
    assert "tells no spread" in rest


@pytest.mark.parametrize(("second", "told"), [(490.0, False), (490.5, True)])
def test_more_than_10_mm_between_repeats_is_pointed_out(second: float, told: bool) -> None:
    setup = taken("knee_height_mm", 480.0, second)
    assert ("more than 10 mm" in finding_words(setup, "knee_height_mm")) is told


def test_a_repeat_can_be_taken_back_and_the_mean_follows() -> None:
    setup = without_repeat(taken("hip_height_mm", 880.0, 990.0, 884.0), "hip_height_mm", 1)
    assert readings(setup, "hip_height_mm") == (880.0, 884.0)
    assert setup.inputs.left.hip_height_mm == 882.0


def test_without_the_last_repeat_the_estimate_is_back() -> None:
    start = estimated(Setup(), stature_mm=1700.0)
    setup = taken("hip_height_mm", 899.0, setup=start)
    assert without_repeat(setup, "hip_height_mm", 0) == start


def test_a_value_set_by_hand_since_stays_when_the_last_repeat_goes() -> None:
    setup = edited(taken("hip_height_mm", 899.0), hip_height_mm=905.0)
    setup = without_repeat(setup, "hip_height_mm", 0)
    assert setup.inputs.left.hip_height_mm == 905.0
    assert setup.origin("hip_height_mm") == "measured"


def test_a_value_set_by_hand_keeps_the_repeats_and_the_mean_can_come_back() -> None:
    setup = edited(taken("hip_height_mm", 880.0, 884.0), hip_height_mm=905.0)
    assert not mean_in_force(setup, "hip_height_mm")
    assert "set by hand" in in_force_words(setup, "hip_height_mm")
    assert with_mean(setup, "hip_height_mm").inputs.left.hip_height_mm == 882.0


def test_hip_spacing_is_read_off_the_front_points_as_the_estimates_have_it() -> None:
    setup = taken("hip_spacing_mm", 236.0, 240.0)
    assert setup.inputs.hip_spacing_mm == pytest.approx(
        estimated_hip_spacing(front_points_apart=238.0).value
    )
    assert readings(setup, "hip_spacing_mm") == (236.0, 240.0)
    found = agreement(setup, "hip_spacing_mm")
    assert found is not None
    assert found.gap == pytest.approx(4.0)


def test_every_reading_on_the_scale_makes_a_value_that_can_be_in_force() -> None:
    for guide in GUIDES:
        scale, field = reading_scale(guide.name), FIELD[guide.name]
        assert field.low <= scale.low * guide.share < scale.high * guide.share <= field.high
    assert GUIDE["hip_spacing_mm"].share == OF_FRONT_POINTS


def test_a_childs_hip_below_the_demo_riders_knee_is_refused_with_what_to_do_first() -> None:
    with refused("the knee height is not measured yet, so begin with it"):
        with_repeat(Setup(), "hip_height_mm", 480.0)
    begun = taken("knee_height_mm", 260.0)
    assert with_repeat(begun, "hip_height_mm", 480.0).inputs.left.hip_height_mm == 480.0


def test_measured_lengths_that_contradict_each_other_are_refused_without_advice() -> None:
    with pytest.raises(ImpossibleError) as caught:
        with_repeat(taken("knee_height_mm", 490.0), "hip_height_mm", 480.0)
    said = reason_phrase(caught.value)
    assert said == "knee height is 490 mm; it must be less than the hip height, 480 mm"


def test_knee_tracking_is_repeated_in_degrees_of_either_sign() -> None:
    setup = taken("knee_tracking_deg", -2.0, 5.0)
    assert setup.inputs.left.knee_tracking_deg == 1.5
    assert agreement_words(setup, "knee_tracking_deg")[0] == "Mean 1.5°"
    assert "7° apart, more than 5°" in finding_words(setup, "knee_tracking_deg")


def test_what_the_boots_allow_is_repeated_like_a_leg_and_makes_no_leg_measured() -> None:
    setup = taken("side_give_deg", 5.0, 7.0)
    assert setup.inputs.left.side_give_deg == 6.0
    assert in_force_words(setup, "side_give_deg") == "6.0° · mean of 2"
    assert setup.measured == frozenset()
    by_hand = edited(setup, side_give_deg=3.0)
    assert in_force_words(by_hand, "side_give_deg") == "3.0° · set by hand"
    assert not mean_in_force(by_hand, "side_give_deg")
    gone = without_repeat(without_repeat(setup, "side_give_deg", 0), "side_give_deg", 0)
    assert gone == Setup()


@pytest.mark.parametrize(
    ("setup", "words"),
    [
        (Setup(), "880\u00a0mm · demo rider’s"),
        (estimated(Setup(), stature_mm=1700.0), "877\u00a0mm · estimated"),
        (taken("hip_height_mm", 881.0), "881\u00a0mm · measured once"),
        (taken("hip_height_mm", 881.0, 884.0, 879.0), "881.3\u00a0mm · mean of 3"),
    ],
)
def test_it_is_said_what_is_in_force_and_where_it_comes_from(setup: Setup, words: str) -> None:
    assert in_force_words(setup, "hip_height_mm") == words
