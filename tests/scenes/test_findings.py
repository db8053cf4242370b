"""States, words and the sentence that says why."""

from __future__ import annotations

import math

import pytest

from app.frame import frame
from app.rider.setup import Setup, edited
from app.stance.findings import DRIFTING, IN_PLANE, NO_POSTURE, OUT_OF_PLANE, Findings, Limits


def findings(**changes: float | str) -> Findings:
    return frame(edited(Setup(), **changes)).findings


@pytest.mark.parametrize(
    ("degrees", "state"),
    [(0.0, IN_PLANE), (1.0, IN_PLANE), (-1.001, DRIFTING), (3.3, DRIFTING),
     (-3.31, OUT_OF_PLANE), (math.nan, NO_POSTURE)],
)  # fmt: skip
def test_the_state_changes_at_its_limits(degrees: float, state: str) -> None:
    assert Limits().state(degrees) == state


def test_the_user_can_change_both_limits() -> None:
    assert Limits(in_plane_deg=2.0, drifting_deg=5.0).state(4.0) == DRIFTING


def test_feet_too_far_apart_are_named_as_the_cause() -> None:
    leg = findings(front_angle_deg=0, rear_angle_deg=0).legs["front"]
    assert leg.spoken == "11.2° out of plane, bow-legged"
    assert leg.sentence == (
        "The feet stand 50 cm apart across the foot axes, the legs hang 26 cm apart: "
        "the knee is pushed outward."
    )


def test_feet_in_line_push_the_knees_inward() -> None:
    leg = findings(front_angle_deg=90, rear_angle_deg=90).legs["rear"]
    assert leg.way == "knock-kneed"
    assert leg.sentence.endswith("the legs hang 26 cm apart: the knee is pushed inward.")


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"front_cant_deg": 9.0}, "The sole is canted 9° inward"),
        ({"front_cant_deg": -9.0}, "The sole is canted 9° outward"),
        ({"hips_turned_deg": 60.0, "side_give_deg": 0.0}, "The hips are turned 60° to the nose"),
        ({"hip_shift_mm": 120.0}, "The hips hang 120 mm towards the front leg"),
        ({"knee_tracking_deg": 22.0}, "The knee tracks 22° inside the toes"),
        ({"cuff_offset_deg": 8.0}, "The cuff leans 8° further inward than fits the leg"),
    ],
)
def test_what_was_made_wrong_is_named_as_the_cause(changes: dict[str, float], words: str) -> None:
    neutral = {"front_angle_deg": 60.0, "rear_angle_deg": 60.0}
    sentences = [leg.sentence for leg in findings(**neutral, **changes).legs.values()]
    assert any(sentence.startswith(words) for sentence in sentences)


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"back_lean_deg": 80.0}, "The back leans 52° further forward than usual"),
        ({"back_lean_deg": -20.0}, "The back stands 48° more upright than usual"),
        ({"weight_ahead_mm": 120.0}, "The weight stands 120 mm towards the toes"),
        ({"weight_ahead_mm": -120.0}, "The weight stands 120 mm towards the heels"),
    ],
)
def test_feet_that_point_apart_feel_where_the_weight_is(
    changes: dict[str, float], words: str
) -> None:
    # A duck stance at its full cants, so that nothing else is wrong.
    duck = {"front_angle_deg": 30.0, "rear_angle_deg": -30.0, "stance_length_mm": 450.0}
    canted = {"front_cant_deg": 1.5, "rear_cant_deg": 1.5, "side_give_deg": 0.0}
    for leg in findings(**duck, **canted, **changes).legs.values():
        assert leg.sentence.startswith(words)


def test_a_leg_of_its_own_has_a_cause_of_its_own() -> None:
    neutral = {"front_angle_deg": 60.0, "rear_angle_deg": 60.0}
    legs = findings(**neutral, right_cuff_offset_deg=-8.0).legs
    assert legs["front"].state == IN_PLANE
    assert legs["rear"].sentence.startswith("The cuff leans 8° further outward than fits the leg")


def test_a_cause_that_leaves_more_than_half_is_said_to_be_one_of_several() -> None:
    several = findings(
        front_angle_deg=70, rear_angle_deg=64, front_cant_deg=2, rear_cant_deg=5,
        stance_length_mm=480, hips_turned_deg=-12, knee_bend_deg=35, side_give_deg=2,
    )  # fmt: skip
    words = "the legs hang 26 cm apart, and more adds to it: the knee is pushed inward."
    assert several.legs["front"].sentence.endswith(words)


def test_in_plane_the_sentence_says_what_boot_and_ankle_give() -> None:
    leg = findings(front_cant_deg=4, rear_cant_deg=4, front_lift_deg=5, rear_lift_deg=-5)
    assert "tilt 0.4° of the 4° they can give" in leg.legs["front"].sentence


def test_in_plane_the_sentence_says_what_is_left_when_all_give_is_used() -> None:
    apart = {"front_angle_deg": 50.0, "rear_angle_deg": 50.0, "stance_length_mm": 560.0}
    sentence = findings(**apart).legs["front"].sentence
    assert sentence.startswith("Boot and ankle give all of 4°; the thigh stays 0.8° out of")


def test_feet_that_cross_are_said_to_cross() -> None:
    crossed = {"front_angle_deg": 90, "rear_angle_deg": 90, "across_spacing_mm": -60}
    for leg in findings(**crossed, stance_length_mm=400).legs.values():
        assert leg.sentence.startswith("The feet stand crossed by 6 cm across the foot axes")


def test_a_boot_beyond_its_range_is_flagged_with_the_way_it_goes() -> None:
    legs = findings(front_angle_deg=90, rear_angle_deg=90).legs
    assert legs["front"].flags[0] == "The boot flexes to −4°, further back than its 3° to 33°."
    assert "further forward than its 3° to 33°" in legs["rear"].flags[0]


def test_a_hip_beyond_its_usual_range_is_flagged() -> None:
    legs = findings(front_angle_deg=90, rear_angle_deg=0, hips_turned_deg=-50, knee_bend_deg=60)
    flags = [flag for leg in legs.legs.values() for flag in leg.flags]
    assert any("beyond the usual 41° of external rotation" in flag for flag in flags)


def test_without_a_posture_the_sentence_says_which_leg_and_what_to_do() -> None:
    legs = findings(
        front_angle_deg=80, rear_angle_deg=-20, knee_bend_deg=10, stance_length_mm=700
    ).legs
    assert legs["front"].state == NO_POSTURE
    assert legs["front"].sentence.startswith("The front leg cannot reach. Bend the knees more")
    assert legs["front"].at_fault
    assert not legs["rear"].at_fault


def test_a_knee_too_far_out_of_its_plane_is_told_with_its_leg() -> None:
    odd = {"front_angle_deg": 15.0, "rear_angle_deg": -15.0, "rear_cant_deg": -15.0}
    legs = findings(**odd, right_cuff_offset_deg=-10.0, right_side_give_deg=0.0).legs
    assert [leg.at_fault for leg in legs.values()] == [False, True]
    assert legs["rear"].sentence.startswith("The rear knee would leave its hinge plane by more")
