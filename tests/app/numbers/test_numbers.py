"""The numbers that programs read: fixed names, valid JSON, nothing rounded."""

import json
from functools import cache
from math import degrees

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.features.answer.model import told_of
from app.numbers import as_json, numbers, written
from app.numbers.question import GROUPS, USUAL_GROUPS, Question
from app.rider.inputs import DEFAULTS, LEG_FIELDS, SHARED_FIELDS, changed, model
from app.rider.setup import Setup, edited, estimated
from app.stance.findings import STATES, USUAL_LIMITS, findings_of
from app.stance.needs import needs_of
from app.stance.settled import settled
from geometry import no_cant_length, solve

LEG_NAMES = [
    "ankle_mm", "knee_mm", "hip_mm", "off_plane_deg", "knee_flexion_deg", "boot_flex_deg",
    "wanted_give_deg", "boot_left_deg", "boot", "state", "reason", "flags",
]  # fmt: skip
NEED_NAMES = [
    "full_cant_deg", "full_cant_margin_deg", "least_cant_deg", "least_cant_margin_deg",
    "full_lift_deg", "full_lift_margin_deg", "least_lift_deg", "least_lift_margin_deg",
]  # fmt: skip
REACH_NAMES = [
    "toe_side_overhang_mm", "heel_side_overhang_mm",
    "toe_side_edge_angle_deg", "heel_side_edge_angle_deg",
]  # fmt: skip
ANSWER_NAMES = [
    "start_lift_deg", "start_cant_deg", "start_lift_range_deg", "start_cant_range_deg",
    "in_plane_cants_deg", "later_lift_deg", "later_cant_deg",
    "later_lift_range_deg", "later_cant_range_deg", "most_doubt_from",
    "as_it_stands", "with_both_on",
]  # fmt: skip
STANCE_NAMES = [
    "long_axes_apart_mm", "short_axes_apart_mm", "straight_leg_no_cant_length_mm",
    "front_straight_leg_cant_deg", "rear_straight_leg_cant_deg",
    "front_straight_leg_cant_margin_deg", "rear_straight_leg_cant_margin_deg",
]  # fmt: skip

OUT_OF_REACH = changed(
    DEFAULTS, stance_length_mm=800.0, hip_height_mm=600.0, knee_height_mm=330.0, knee_bend_deg=5.0
)


@cache
def demo():
    """The numbers of the demo rider; nobody changes them."""
    return numbers(Setup())


def names(value):
    """The names in JSON, in their order, each below the name of its group."""
    return {key: list(part) for key, part in value.items()}


def test_the_names_stand_in_their_fixed_order():
    found = names(json.loads(as_json(Setup())))
    assert list(found) == [
        "front", "rear", "stance", "pelvis", "answer", "inputs",
        "body", "bend", "place", "parts", "wedges", "trials", "growth",
    ]  # fmt: skip
    assert found["front"] == found["rear"] == LEG_NAMES + NEED_NAMES + ANSWER_NAMES + REACH_NAMES
    assert found["stance"] == STANCE_NAMES
    assert found["pelvis"] == ["depth_mm", "height_mm", "mass_centre_mm"]
    assert found["answer"] == [
        "growing", "front_why", "rear_why", "at_the_bench", "front_alone", "rear_alone",
        "at_40_percent_on_front", "at_60_percent_on_front", "would_mend",
        "as_it_stands", "with_both_on",
    ]  # fmt: skip
    shared = (field.name for field in SHARED_FIELDS)
    assert set(found["inputs"]) == {"lead_foot", "left", "right", *shared}
    assert set(numbers(Setup())["inputs"]["left"]) == {field.name for field in LEG_FIELDS}


def test_the_numbers_are_those_of_the_geometry_to_the_last_digit():
    posture, told = solve(*model(DEFAULTS)), json.loads(as_json(Setup()))
    for leg, said in ((posture.front, told["front"]), (posture.rear, told["rear"])):
        assert said["knee_mm"] == leg.knee.tolist()
        assert said["hip_mm"] == leg.hip.tolist()
        assert said["off_plane_deg"] == degrees(leg.off_plane)
        assert said["wanted_give_deg"] == degrees(leg.wanted_give)
    assert told["pelvis"] == {
        "depth_mm": posture.depth,
        "height_mm": posture.height,
        "mass_centre_mm": list(posture.mass_centre),
    }


def test_the_demo_riders_numbers_are_those_of_an_independent_solver():
    # Solved by a separate program whose poses closed in a physics engine's hinge chain.
    told = demo()
    assert told["pelvis"]["depth_mm"] == pytest.approx(-117.579, abs=6e-4)
    assert told["pelvis"]["height_mm"] == pytest.approx(816.325, abs=6e-4)
    assert told["pelvis"]["mass_centre_mm"] == pytest.approx([-1.02, 0.87, 872.36], abs=6e-3)
    front = [-0.5470, 41.687, 3.973, 4.293]
    rear = [-2.6331, 48.313, 32.397, 5.407]
    for leg, values in (("front", front), ("rear", rear)):
        found = [told[leg][name] for name in LEG_NAMES[3:7]]
        assert found == pytest.approx(values, abs=6e-4)
    assert (told["front"]["state"], told["rear"]["state"]) == ("in plane", "a little out")


def test_each_needed_angle_stands_with_its_margin_as_the_window_has_them():
    setup = estimated(Setup(), stature_mm=1750.0)
    told, needs = numbers(setup), needs_of(setup)
    for foot in needs.feet:
        pairs = [getattr(foot, name.removesuffix("_deg")) for name in NEED_NAMES[::2]]
        assert [told[foot.name][name] for name in NEED_NAMES[::2]] == [pair.deg for pair in pairs]
        margins = [told[foot.name][name] for name in NEED_NAMES[1::2]]
        assert margins == [pair.margin_deg for pair in pairs]


def test_what_to_begin_with_is_told_of_both_feet_signed_and_rounded():
    told, answer = demo(), told_of(Setup(), USUAL_LIMITS).answer
    for foot in answer.feet:
        said = told[foot.name]
        assert (said["start_lift_deg"], said["start_cant_deg"]) == tuple(foot.begin)
        assert said["start_cant_range_deg"] == list(foot.cant_range)
        assert said["later_cant_range_deg"] == list(foot.later_cant_range)
        assert said["in_plane_cants_deg"] == list(foot.in_plane)
        assert said["with_both_on"]["worst_off_plane_deg"] == foot.then.worst_deg
    assert told["rear"]["start_cant_deg"] == 1.5
    assert told["front"]["as_it_stands"]["boot_out_of_range_deg"][0][0] == 30.0


def test_where_no_cant_keeps_the_knee_in_its_plane_there_is_no_interval():
    stiff = {"side_give_deg": 0.0, "bend_from_deg": 25.0, "bend_to_deg": 90.0}
    told = numbers(edited(Setup(), front_angle_deg=0.0, rear_angle_deg=-20.0, **stiff))
    assert told["rear"]["in_plane_cants_deg"] is None
    assert told["rear"]["with_both_on"]["not_in_plane_deg"] != []


def test_what_holds_for_both_feet_is_told_beside_it():
    told, found = demo()["answer"], told_of(Setup(), USUAL_LIMITS)
    assert told["front_alone"]["lift_deg"] == found.others.alone["front"].lift_deg
    assert (
        told["at_the_bench"][0]
        == "Front: 1.0° toe lift. Stand still after each; stop if a joint hurts."
    )
    assert told["as_it_stands"]["sink_mm"] == found.reserve[0].sink.distance
    assert told["as_it_stands"]["sink_ends_with"] == "rear_boot_forward"
    assert told["as_it_stands"]["sink_passed_already"] == []
    assert told["with_both_on"]["front_share"] == found.share[1]


def test_what_is_past_its_stop_already_is_told_with_its_way_back():
    told = numbers(edited(Setup(), stance_length_mm=640.0))["answer"]["as_it_stands"]
    front, rear = told["sink_passed_already"]
    assert front["end"] == told["sink_ends_with"] == "front_boot_back"
    assert 10.0 < front["back_in_range_after_mm"] < 60.0
    assert rear == {"end": "rear_boot_forward", "back_in_range_after_mm": None}


def test_full_cants_are_those_of_an_independent_solver():
    # Full cants from a separate program whose poses closed in a physics engine's chain.
    for angle, full in ((0.0, 8.651), (30.0, 6.437), (60.0, 0.116), (90.0, -8.919)):
        told = numbers(edited(Setup(), front_angle_deg=angle, rear_angle_deg=angle))
        assert told["front"]["full_cant_deg"] == pytest.approx(full, abs=6e-4)
    # By hand: atan(260 / 1760), outward.
    assert told["stance"]["rear_straight_leg_cant_deg"] == pytest.approx(-8.403, abs=6e-4)


def test_without_a_posture_all_that_hangs_on_it_is_null_and_the_reason_is_given():
    told = json.loads(as_json(Setup(OUT_OF_REACH)))
    for leg in (told["front"], told["rear"]):
        assert leg["state"] == "no posture"
        assert "cannot reach" in leg["reason"]
        assert [leg[name] for name in LEG_NAMES[1:9]] == [None] * 8
        assert [leg[name] for name in NEED_NAMES] == [None] * len(NEED_NAMES)
        assert len(leg["ankle_mm"]) == 3
    assert told["pelvis"] == {
        "depth_mm": None, "height_mm": None, "mass_centre_mm": [None, None, None],
    }  # fmt: skip
    assert told["stance"]["long_axes_apart_mm"] > 0.0


def test_a_boot_beyond_its_range_is_told_beside_the_knee_and_why():
    bent = changed(DEFAULTS, front_lift_deg=0.0, front_angle_deg=0.0, knee_bend_deg=70.0)
    told, finding = numbers(Setup(bent)), findings_of(settled(bent), USUAL_LIMITS).legs["rear"]
    rear = told["rear"]
    assert (rear["boot"], rear["boot_left_deg"]) == ("past its range", finding.boot_left_deg)
    assert rear["boot_left_deg"] < 0.0
    assert any("boot" in flag for flag in rear["flags"])
    assert {demo()[foot]["boot"] for foot in ("front", "rear")} <= {"in range", "near its stop"}


@pytest.mark.parametrize("groups", [{"front"}, {"rear", "map"}, {"inputs"}, {*GROUPS}])
def test_only_the_groups_asked_for_are_told_and_as_they_are_among_all(groups):
    told = numbers(Setup(), Question(only=frozenset(groups)))
    assert list(told) == [name for name in GROUPS if name in groups]
    assert all(told[name] == demo()[name] for name in groups & {*USUAL_GROUPS})


def test_sections_are_told_beside_the_only_groups():
    asked = Question(frozenset({"map"}), only=frozenset({"pelvis"}))
    assert list(numbers(Setup(), asked)) == ["pelvis", "map"]


def test_what_is_computed_is_not_rounded():
    told, answer = demo(), told_of(Setup(), USUAL_LIMITS).answer
    for foot in answer.feet:
        ends = told[foot.name]["in_plane_cants_deg"] + told[foot.name]["start_cant_range_deg"]
        assert any(end != round(end, 9) for end in ends)


def test_half_of_a_character_in_a_name_is_spelt_in_json():
    text = written({"name": "\udc80 ü"})
    assert json.loads(text.encode("utf-8")) == {"name": "\udc80 ü"}
    assert written({"name": "ü"}) == '{"name": "ü"}'


def test_a_no_cant_length_that_does_not_exist_is_null():
    along = changed(DEFAULTS, front_angle_deg=90.0, rear_angle_deg=90.0)
    body, _, stance, _ = model(along)
    assert str(no_cant_length(stance, body.neutral_spacing)) == "nan"
    assert json.loads(as_json(Setup(along)))["stance"]["straight_leg_no_cant_length_mm"] is None


def test_the_lead_foot_changes_nothing_but_its_own_entry():
    left, right = demo(), numbers(edited(Setup(), lead_foot="right"))
    assert (left["inputs"]["lead_foot"], right["inputs"]["lead_foot"]) == ("left", "right")
    assert right == left | {"inputs": left["inputs"] | {"lead_foot": "right"}}


@settings(max_examples=15)
@given(
    angles=st.tuples(st.floats(-60, 90), st.floats(-60, 90)),
    length=st.floats(0, 800),
    across=st.floats(-100, 600),
    bend=st.floats(5, 110),
)
def test_every_stance_gives_valid_json_with_a_state_and_a_reason(angles, length, across, bend):
    inputs = changed(
        DEFAULTS, front_angle_deg=angles[0], rear_angle_deg=angles[1],
        stance_length_mm=length, across_spacing_mm=across, knee_bend_deg=bend,
    )  # fmt: skip

    def refuse(word):
        raise AssertionError(f"{word} is no JSON")

    told = json.loads(as_json(Setup(inputs)), parse_constant=refuse)
    for leg in (told["front"], told["rear"]):
        assert leg["state"] in STATES
        assert leg["reason"].endswith(".")
        assert (leg["knee_mm"] is None) == (leg["state"] == "no posture")


def test_the_boots_reach_beyond_the_board_is_told_for_each_foot_and_side() -> None:
    """A boot square across the board reaches half its length less half the waist beyond it.

    Its length is taken to the millimetre.
    """
    setup = edited(Setup(), front_angle_deg=0.0)
    front = numbers(setup)["front"]
    half_sole = 0.5 * 1.12 * setup.inputs.left.foot_length_mm
    reach = half_sole - 0.5 * setup.board.waist_width_mm
    assert front["toe_side_overhang_mm"] == pytest.approx(reach, abs=0.5)
    assert front["heel_side_overhang_mm"] == pytest.approx(reach, abs=0.5)
    assert 0.0 < front["toe_side_edge_angle_deg"] < 90.0
