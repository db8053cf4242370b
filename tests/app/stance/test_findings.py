"""States, words and the sentence that says why."""

from __future__ import annotations

import math

import pytest

from app.frame import frame
from app.rider.setup import Setup, edited
from app.stance.findings import DRIFTING, IN_PLANE, NO_POSTURE, OUT_OF_PLANE, Findings, Limits
from app.words.sentences import plain
from geometry.joints import joint_angles


def findings(**changes: float | str) -> Findings:
    return frame(edited(Setup(), **changes)).findings


@pytest.mark.parametrize(
    ("degrees", "state"),
    [(0.0, IN_PLANE), (1.04, IN_PLANE), (-1.06, DRIFTING), (3.34, DRIFTING),
     (-3.36, OUT_OF_PLANE), (math.nan, NO_POSTURE)],
)  # fmt: skip
def test_the_state_changes_at_its_limits_as_shown_in_tenths(degrees: float, state: str) -> None:
    assert Limits().state(degrees) == state


def test_the_user_can_change_both_limits() -> None:
    assert Limits(in_plane_deg=2.0, drifting_deg=5.0).state(4.0) == DRIFTING


@pytest.mark.parametrize(
    ("angle", "spoken", "pushed"),
    [
        (75, "1.4° a little out, knock-kneed", "inward"),
        (58, "0.4° a little out, bow-legged", "outward"),
    ],
)
def test_beyond_a_lower_limit_a_small_angle_has_its_way_too(
    angle: float, spoken: str, pushed: str
) -> None:
    give = 4.0 if pushed == "inward" else 0.5
    setup = edited(Setup(), front_angle_deg=angle, rear_angle_deg=angle, side_give_deg=give)
    legs = frame(setup, limits=Limits(in_plane_deg=0.1)).findings.legs
    for name, leg in legs.items():
        assert leg.headline == f"{name} leg {spoken}"
        assert leg.sentence.endswith(f"the knee is pushed {pushed}.")


def test_feet_too_far_apart_are_named_as_the_cause() -> None:
    leg = findings(front_angle_deg=0, rear_angle_deg=0).legs["front"]
    assert leg.spoken == "11.2° out of its plane, bow-legged"
    assert leg.sentence == (
        "The feet stand 50 cm apart across their own axes, your natural spacing is 26 cm: "
        "the knee is pushed outward."
    )


def test_feet_in_line_push_the_knees_inward() -> None:
    leg = findings(front_angle_deg=90, rear_angle_deg=90).legs["rear"]
    assert leg.way == "knock-kneed"
    assert leg.sentence.endswith("your natural spacing is 26 cm: the knee is pushed inward.")


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"front_cant_deg": 9.0}, "The sole is canted 9° inward"),
        ({"front_cant_deg": -9.0}, "The sole is canted 9° outward"),
        ({"hips_turned_deg": 60.0, "side_give_deg": 0.0}, "The hips are turned 60° to the nose"),
        ({"hip_shift_mm": 120.0}, "The hips are held 120 mm towards the front leg"),
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
        ({"front_cant_deg": 1.0}, "Angles, length, lift and cant add up"),
        ({"front_cant_deg": 1.5}, "The sole is canted 1.5° inward"),
        ({"front_cant_deg": -0.6}, "The sole is canted 0.6° outward"),
        ({"hip_shift_mm": 30.0}, "The hips are held 30 mm towards the front leg"),
        ({"stance_length_mm": 540.0}, "The feet stand 28 cm apart across their own axes"),
    ],
)
def test_in_boots_that_give_nothing_a_small_fault_is_named_where_it_does_half_a_degree(
    changes: dict[str, float], words: str
) -> None:
    # At 59 degrees feet 505 mm apart stand 260 mm apart across their axes, as the legs hang.
    hung = {"front_angle_deg": 59.0, "rear_angle_deg": 59.0, "side_give_deg": 0.0}
    setup = edited(Setup(), **hung, **changes)
    leg = frame(setup, limits=Limits(in_plane_deg=0.1)).findings.legs["front"]
    assert leg.sentence.startswith(words)
    assert "more adds to it" not in leg.sentence


def test_what_a_cause_held_back_is_not_said_to_add_to_it() -> None:
    held = {"front_angle_deg": 54.0, "rear_angle_deg": 54.0, "side_give_deg": 0.0}
    legs = findings(**held, front_cant_deg=4.5).legs
    # Without its cant the front knee would be as far outward as the rear one.
    assert legs["front"].off_plane_deg > 0.0 > 2.0 * legs["rear"].off_plane_deg
    assert -legs["rear"].off_plane_deg > 0.5 * legs["front"].off_plane_deg
    said = "The sole is canted 4.5° inward: the knee is pushed inward."
    assert legs["front"].sentence == said


@pytest.mark.parametrize(
    ("name", "changes", "words"),
    [
        ("front", {"front_angle_deg": 90, "rear_angle_deg": 30, "hips_turned_deg": 20},
         "The foot points 10° away from where the hips face"),
        ("rear", {"front_angle_deg": 90, "rear_angle_deg": 30, "stance_length_mm": 450,
                  "front_lift_deg": -15, "rear_lift_deg": -15, "side_give_deg": 0},
         "The foot points 30° away from where the hips face"),
        ("front", {"front_angle_deg": 60, "rear_angle_deg": 60, "front_lift_deg": -15,
                   "rear_lift_deg": -15, "stance_length_mm": 450, "knee_bend_deg": 110,
                   "side_give_deg": 0},
         "The heel end is lifted 15°"),
    ],
)  # fmt: skip
def test_each_foot_is_blamed_for_its_own_angle_and_lift(
    name: str, changes: dict[str, float], words: str
) -> None:
    assert findings(**changes).legs[name].sentence.startswith(f"{words}: the knee is pushed")


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
    words = "your natural spacing is 26 cm, and more adds to it: the knee is pushed inward."
    assert several.legs["front"].sentence.endswith(words)


def test_in_plane_the_sentence_says_what_boot_and_ankle_give() -> None:
    leg = findings(front_cant_deg=4, rear_cant_deg=4, front_lift_deg=5, rear_lift_deg=-5)
    assert "tilt 0.4° of the 4° they can give" in leg.legs["front"].sentence


def test_in_plane_the_sentence_says_what_is_left_when_all_give_is_used() -> None:
    apart = {"front_angle_deg": 50.0, "rear_angle_deg": 50.0, "stance_length_mm": 560.0}
    sentence = findings(**apart).legs["front"].sentence
    assert sentence.startswith("Boot and ankle give all of 4°; the thigh stays 0.8° out of")


@pytest.mark.parametrize(
    ("angle", "words"),
    [
        (60.45, "The hip is right in the knee's hinge plane"),
        (61.0, "Boot and ankle tilt 0.2° of the 4° they can give"),
        (73.0, "Boot and ankle give all of 4°; the thigh stays 0.2° out of"),
    ],
)
def test_in_plane_a_tenth_of_a_degree_is_told_and_less_is_none(angle: float, words: str) -> None:
    leg = findings(front_angle_deg=angle, rear_angle_deg=angle).legs["front"]
    assert leg.state == IN_PLANE
    assert leg.sentence.startswith(words)


def test_feet_that_cross_are_said_to_cross() -> None:
    crossed = {"front_angle_deg": 90, "rear_angle_deg": 90, "across_spacing_mm": -60}
    for leg in findings(**crossed, stance_length_mm=400).legs.values():
        assert leg.sentence.startswith("The feet stand crossed by 6 cm across their own axes")


def test_a_boot_beyond_its_range_is_flagged_with_the_way_it_goes() -> None:
    legs = findings(front_angle_deg=90, rear_angle_deg=90).legs
    assert (
        legs["front"].flags[0]
        == "The boot flexes to −3.8°, further back than its range of 3° to 33°."
    )
    assert "further forward than its range of 3° to 33°" in legs["rear"].flags[0]


def test_a_hip_beyond_its_usual_range_is_flagged() -> None:
    legs = findings(front_angle_deg=90, rear_angle_deg=0, hips_turned_deg=-50, knee_bend_deg=60)
    flags = [flag for leg in legs.legs.values() for flag in leg.flags]
    assert any("beyond the usual 41° of external rotation" in flag for flag in flags)


@pytest.mark.parametrize(
    ("joint", "movement", "usual", "changes"),
    [
        # Kouyoumdjian et al. 2012: 41 degrees of external rotation, measured sitting.
        ("hip", "external rotation", 41,
         {"front_angle_deg": 90, "rear_angle_deg": 0, "hips_turned_deg": -50, "knee_bend_deg": 60}),
        # The American Academy of Orthopaedic Surgeons 1965: 135 degrees of a bent knee.
        ("knee", "flexion", 135,
         {"front_angle_deg": 75, "rear_angle_deg": 75, "front_lift_deg": -15,
          "rear_lift_deg": -15, "stance_length_mm": 800, "knee_bend_deg": 110,
          "back_lean_deg": 80}),
    ],
)  # fmt: skip
def test_a_joint_beyond_its_usual_range_is_flagged_on_its_own_leg_with_how_far(
    joint: str, movement: str, usual: int, changes: dict[str, float]
) -> None:
    shown = frame(edited(Setup(), **changes))
    angles = joint_angles(shown.settled.posture)
    turned = {
        name: -leg.hip.internal_rotation if joint == "hip" else leg.knee.flexion
        for name, leg in (("front", angles.front), ("rear", angles.rear))
    }
    assert max(turned.values()) > math.radians(usual) > min(turned.values())
    for name, leg in shown.findings.legs.items():
        beyond = plain(math.degrees(turned[name]) - usual)
        said = f"The {joint} goes {beyond}° beyond the usual {usual}° of {movement}."
        assert (said in leg.flags) == (turned[name] > math.radians(usual))


def test_the_stance_is_measured_before_any_leg_bends() -> None:
    stance = findings(front_angle_deg=30, rear_angle_deg=30, stance_length_mm=480).stance
    assert stance.long_axes_apart_mm == pytest.approx(480.0 * math.cos(math.radians(30.0)))
    assert stance.short_axes_apart_mm == pytest.approx(480.0 * math.sin(math.radians(30.0)))
    assert stance.straight_leg_no_cant_length_mm == pytest.approx(
        260.0 / math.cos(math.radians(30.0))
    )


def test_without_a_posture_the_sentence_says_which_leg_and_what_to_do() -> None:
    legs = findings(
        front_angle_deg=80, rear_angle_deg=-20, knee_bend_deg=10, stance_length_mm=700
    ).legs
    assert legs["front"].state == NO_POSTURE
    assert legs["front"].sentence.startswith("The front leg cannot reach. Bend the knees more")
    assert legs["front"].spoken == "no posture"
    assert legs["front"].at_fault
    assert not legs["rear"].at_fault


def test_a_knee_too_far_out_of_its_plane_is_told_with_its_leg() -> None:
    odd = {"front_angle_deg": 15.0, "rear_angle_deg": -15.0, "rear_cant_deg": -15.0}
    legs = findings(**odd, right_cuff_offset_deg=-10.0, right_side_give_deg=0.0).legs
    assert [leg.at_fault for leg in legs.values()] == [False, True]
    assert legs["rear"].sentence.startswith("The rear knee would leave its hinge plane by more")
