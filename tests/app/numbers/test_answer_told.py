"""What each binding begins with, in degrees and words that contradict nothing."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from math import isnan

import pytest
from answer_riders import practice, some_riders

from app.features.answer.model import beyond_tried, told_of, with_foot
from app.features.answer.words import details_words, reserve_words
from app.features.paper.fit_sheet_text import fit_sheet_text
from app.frame import frame
from app.numbers import numbers
from app.numbers.question import Question
from app.rider.inputs import changed
from app.rider.setup import Setup, edited, estimated
from app.rider.trials import entry_of
from app.stance.answer import (
    ALLOWED,
    BEGUN,
    GROWING,
    WHOLE,
    FootAnswer,
    Mount,
    answer_of,
    others_of,
)
from app.stance.answer_words import (
    bench_steps,
    between_words,
    boot_words,
    both_words,
    knee_words,
    left_words,
    mend_words,
    mount_words,
    next_words,
    range_words,
    shown_range,
    source_words,
    stairs,
    why_words,
)
from app.stance.findings import IN_PLANE, USUAL_LIMITS, Limits, findings_of
from app.stance.mending import mending_of
from app.stance.needs import Mounts, needs_of, with_mounts
from app.stance.settled import settled
from app.stance.through import rounded_left

BEGIN_CANT_DEG, BEGIN_GROWING_DEG = 6.0, 3.0
FAR = edited(Setup(), stance_length_mm=800.0, hip_height_mm=600.0, knee_height_mm=330.0)
RIDERS = some_riders(24, seed=5)


def begun(setup: Setup) -> list[tuple[float, float]]:
    return [tuple(foot.begin) for foot in answer_of(setup).feet]


# Common practice, no source, rounded to half a degree away from flat.
@pytest.mark.parametrize(
    ("angles", "front", "rear"),
    [
        ((0.0, 0.0), (0.0, 5.5), (0.0, 5.5)),
        ((15.0, -15.0), (0.0, 3.0), (0.0, 3.0)),
        ((60.0, 60.0), (6.0, 0.0), (-5.5, 0.0)),
        ((90.0, 90.0), (9.0, -4.5), (-9.0, -5.0)),
    ],
)
def test_practice_riders_begin_with_what_practice_found(
    angles: tuple[float, float], front: tuple[float, float], rear: tuple[float, float]
) -> None:
    assert begun(practice(*angles)) == [pytest.approx(front), pytest.approx(rear)]


def test_knee_bend_and_turned_hips_do_not_matter() -> None:
    setup = practice(20.0, 10.0)
    other = edited(setup, knee_bend_deg=70.0, hips_turned_deg=15.0)
    assert answer_of(other) == answer_of(setup)


@pytest.mark.parametrize("setup", RIDERS[:10])
def test_once_both_are_on_the_answer_is_the_same(setup: Setup) -> None:
    answer = answer_of(setup)
    assert begun(with_mounts(setup, answer.mounts)) == begun(setup)


@pytest.mark.parametrize("setup", RIDERS)
def test_none_is_needed_where_none_is_proposed_and_nothing_is_flagged(setup: Setup) -> None:
    for foot in answer_of(setup).feet:
        assert foot.enough == foot.then.in_plane
        if foot.begin.cant_deg:
            assert foot.bare.out
        if foot.enough:
            assert foot.cant_held == WHOLE
        assert (foot.lift_held == WHOLE) == foot.boot_enough


@pytest.mark.parametrize("setup", RIDERS)
def test_with_both_on_no_knee_is_flagged_at_any_depth_where_the_answer_is_enough(
    setup: Setup,
) -> None:
    answer = answer_of(setup)
    on = with_mounts(setup, answer.mounts).inputs
    low, high = answer.bend
    for depth in (low, 0.5 * (low + high), high):
        posed = replace(on, knee_bend_deg=depth, hips_turned_deg=0.0)
        legs = findings_of(settled(posed), USUAL_LIMITS).legs
        for foot in answer.feet:
            assert not foot.enough or legs[foot.name].state == IN_PLANE


LARGEST_DEG = [(9.0, 1.7), (1.3, 9.0), (0.0, 0.0), (0.3, 2.0), (4.0, 0.7)]
"""Largest lift and cant of those whom rider or maker hold tight."""


def held_tight(setup: Setup, i: int) -> Setup:
    """Every third rider grows; every second one is held to tight limits."""
    grown = replace(setup, growing=i % 3 == 0)
    if i % 2:
        return grown
    lift, cant = LARGEST_DEG[i // 2 % len(LARGEST_DEG)]
    return edited(grown, largest_lift_deg=lift, largest_cant_deg=cant)


MANY = [held_tight(each, i) for i, each in enumerate(some_riders(200, seed=21))]
FEET = Question(only=frozenset({"front", "rear"}))
ALL_OF_IT = Question(only=frozenset({"front", "rear", "answer"}))


@pytest.mark.parametrize("i", range(len(MANY)))
def test_words_sheet_and_json_speak_of_the_same_half_degrees(i: int) -> None:
    setup = MANY[i]
    answer = answer_of(setup)
    # What would mend a foot is asked of all who need it, and of some who do not.
    well = all(
        foot.enough and foot.boot_enough and foot.in_the_end.in_plane for foot in answer.feet
    )
    told = {"answer": {"would_mend": {}}} | numbers(setup, FEET if well and i % 8 else ALL_OF_IT)
    sheet = fit_sheet_text(frame(setup), date(2026, 1, 31))
    for foot, line in zip(answer.feet, sheet.begin, strict=True):
        assert told[foot.name]["start_cant_deg"] == foot.begin.cant_deg
        assert told[foot.name]["start_lift_deg"] == foot.begin.lift_deg
        assert line.mount == both_words(foot.begin)
        assert line.text.count("Without lift") == bool(foot.begin.lift_deg)
        assert bool(left_words(foot)) == (not (foot.enough and foot.boot_enough))
        for kind in ("cant", "lift"):
            assert said_as_likely(kind, foot, told[foot.name]) == range_words(kind, foot)
            assert range_words(kind, foot) in line.text
        low, high = shown_range(foot.later.cant_deg, foot.later_cant_range)
        assert low <= foot.later.cant_deg <= high
        most = BEGIN_GROWING_DEG if setup.growing else BEGIN_CANT_DEG
        assert max(map(abs, told[foot.name]["start_cant_range_deg"])) <= most + 1e-9
        stays = foot.enough and not foot.begin.cant_deg
        assert ("both answers on" in line.text) == (stays and bool(foot.flat.out))
        mend = told["answer"]["would_mend"].get(foot.name, {})
        assert ("would be mended by" in line.text) == any(by is not None for by in mend.values())


def said_as_likely(kind: str, foot: FootAnswer, told: dict[str, object]) -> str:
    """What is likely, made of the numbers that JSON tells and of why no more is proposed."""
    begin, later = (told[f"{when}_{kind}_deg"] for when in ("start", "later"))
    starts, comes = (told[f"{when}_{kind}_range_deg"] for when in ("start", "later"))
    head = mount_words(kind, begin) if begin else "none"
    held = getattr(foot, f"{kind}_held")
    if held == ALLOWED:
        most = getattr(foot.allowed, f"{kind}_deg")
        between = f"with {most:g}° allowed" if abs(begin) < most else "all that is allowed"
        return f"{head}, {between if most else 'since none is allowed'}"
    if held in {BEGUN, GROWING}:
        assert abs(later) > abs(begin)
        ends = between_words(kind, *shown_range(later, comes))
        return f"{head}, on the way to {mount_words(kind, later)} ({ends})"
    return f"{head} ({between_words(kind, *shown_range(begin, starts))})"


def foot_of(setup: Setup, name: str = "front") -> FootAnswer:
    return answer_of(setup).foot(name)


def test_a_range_is_said_with_zero_where_it_reaches_flat() -> None:
    assert range_words("cant", foot_of(Setup())) == "none (0 to 1.5°)"
    assert range_words("cant", foot_of(Setup(), "rear")) == "1.5° inward (0 to 2.5°)"
    assert range_words("lift", foot_of(practice(0.0, 0.0))) == "none (sure to half a degree)"


def test_a_knee_that_only_both_answers_keep_in_its_plane_is_said_to_need_them_on() -> None:
    answer = answer_of(Setup())
    assert answer.front.now.out
    said = why_words(answer.front, answer, Setup().inputs)
    assert "with both answers on, the knee stays in its plane from 30° to 55°" in said


def test_angles_are_said_as_riders_say_them() -> None:
    said = [mount_words("cant", deg) for deg in (0.5, -2.0, 0.0)]
    assert said == ["0.5° inward", "2.0° outward", "no cant"]
    assert mount_words("lift", -5.5) == "5.5° heel lift"
    assert both_words(Mount(0.0, 0.0)) == "flat: no cant, no lift"


def test_the_sentence_names_cause_and_depth() -> None:
    setup = practice(0.0, 0.0)
    said = why_words(foot_of(setup), answer_of(setup), setup.inputs)
    assert said == (
        "The feet stand 54 cm apart across their own axes, your natural spacing is 27 cm: "
        "without a cant the knee is pushed outward, by 12.1° at 55° of bend."
    )


def test_what_the_knee_does_is_said_of_the_riding_bend() -> None:
    answer = answer_of(edited(practice(0.0, 0.0), bend_from_deg=35.0))
    assert knee_words(answer.front.now, answer) == "pushed outward 12.1° at 55°"
    assert knee_words(answer.front.then, answer) == "in its plane from 35° to 55°"


def test_the_measurement_that_carries_most_of_the_doubt_is_named_with_how_to_take_it() -> None:
    assert source_words(foot_of(Setup())).startswith("Most of the doubt is how far the hips are")
    unmeasured = foot_of(estimated(Setup(), stature_mm=1700.0))
    assert "neutral_spacing" in unmeasured.sources
    assert "natural spacing" in source_words(unmeasured).split("After that: ")[1]


def test_a_growing_rider_begins_with_3_deg_and_is_told_why_and_what_is_left() -> None:
    foot = foot_of(replace(practice(0.0, 0.0), growing=True))
    assert foot.begin.cant_deg == pytest.approx(3.0)
    assert (foot.cant_held, foot.later.cant_deg) == (GROWING, pytest.approx(5.5))
    assert "legs change within a season" in next_words(foot)
    assert foot.cant_range == pytest.approx((3.0, 3.0))
    assert foot.later_cant_range[0] > 3.0
    assert range_words("cant", foot).startswith("3.0° inward, on the way to 5.5° inward (")


def test_an_end_of_a_range_at_a_limit_is_the_limit_itself() -> None:
    child = replace(practice(60.0, 60.0), growing=True)
    assert foot_of(child).lift_range == (3.0, 3.0)
    assert foot_of(child, "rear").lift_range == (-3.0, -3.0)


def test_nobody_begins_with_more_than_6_deg_of_cant() -> None:
    foot = foot_of(edited(Setup(), stance_length_mm=700.0), "rear")
    assert (foot.begin.cant_deg, foot.cant_held) == (pytest.approx(6.0), BEGUN)
    assert next_words(foot).startswith("Begin with no more than 6.0° of cant on the way to 7")


def test_what_stays_out_is_said_with_what_would_mend_it() -> None:
    setup = edited(practice(0.0, 0.0), largest_cant_deg=3.0)
    answer = answer_of(setup)
    assert answer.front.cant_held == ALLOWED
    mend = mending_of(setup, answer)["front"]
    shorter = edited(setup, stance_length_mm=540.0 + mend.length_mm)
    assert mend.length_mm < 0.0
    assert answer_of(shorter).front.enough
    nearly = edited(setup, stance_length_mm=540.0 + mend.length_mm + 10.0)
    assert not answer_of(nearly).front.enough
    said = left_words(answer.front, mend)
    assert said.startswith(
        "The knee stays out of its plane by up to 5.7°, from 30° to 55° of bend. "
        "It would be mended by"
    )


def test_a_growing_rider_is_told_what_stays_flat_now_as_the_headline_has_it() -> None:
    # The rear cant is held to 3°; the front foot begins flat, though it leads to a lift later.
    child = {
        "hip_height_mm": 630.0, "knee_height_mm": 350.0, "neutral_spacing_mm": 225.0,
        "front_angle_deg": 51.0, "rear_angle_deg": 41.0, "stance_length_mm": 385.0,
    }  # fmt: skip
    foot = foot_of(replace(edited(Setup(), **child), growing=True))
    assert (foot.begin.lift_deg, foot.later.lift_deg, foot.lift_held) == (0.0, 0.5, WHOLE)
    assert range_words("lift", foot).startswith("none (")


# The whole cant is just what one begins with, and small play leaves the knee out with it.
STIFF = {
    "front_angle_deg": 30.0, "rear_angle_deg": 20.0, "stance_length_mm": 506.0,
    "side_give_deg": 0.3, "bend_from_deg": 25.0, "bend_to_deg": 75.0,
}  # fmt: skip


def test_nobody_is_sent_on_to_where_one_stands() -> None:
    stiff = edited(Setup(), **STIFF)
    assert foot_of(stiff).begin.cant_deg == foot_of(stiff).later.cant_deg == 6.0
    assert not foot_of(stiff).enough
    # Of 200 others the words are made, and looked at for this, above.
    assert foot_of(stiff).cant_held not in {BEGUN, GROWING}


@pytest.mark.parametrize(
    ("most", "said"),
    [
        (1.3, "More than 1.3° of cant is not allowed."),
        (0.0, "No cant is allowed."),
        (0.3, "More than 0.3° of cant is not allowed."),
        (3.0, "More than 3° of cant is not allowed."),
    ],
)
def test_the_limit_itself_is_said_not_the_half_degree_below_it(most: float, said: str) -> None:
    assert next_words(foot_of(edited(practice(0.0, 0.0), largest_cant_deg=most))) == said


def test_a_growing_rider_s_trials_are_held_by_what_holds_them() -> None:
    tried = logged(practice(0.0, 0.0), "bow-legged", 2.0, 2.0, 3.0, 3.0, 3.0)
    child = replace(tried, growing=True)
    foot, grown = foot_of(child), foot_of(tried)
    assert (foot.begin.cant_deg, foot.cant_held) == (3.0, GROWING)
    assert foot.later.cant_deg == grown.begin.cant_deg > 3.0
    held = foot_of(edited(child, largest_cant_deg=1.7))
    assert (held.begin.cant_deg, held.cant_held) == (1.5, ALLOWED)
    assert next_words(held) == "More than 1.7° of cant is not allowed."


def test_what_even_the_next_step_leaves_out_is_said_with_what_would_mend_it() -> None:
    setup = edited(Setup(), front_angle_deg=0.0, rear_angle_deg=0.0, stance_length_mm=640.0)
    answer = answer_of(setup)
    foot, mend = answer.front, mending_of(setup, answer)["front"]
    assert foot.cant_held == BEGUN
    said = next_words(foot, mend)
    assert "Even then the knee stays out of its plane by up to 3.1°, from 38° to 55°" in said
    assert said.endswith(mend_words(mend))
    assert "mended" not in left_words(foot, mend)
    shorter = edited(setup, stance_length_mm=640.0 + mend.length_mm)
    assert answer_of(shorter).front.is_well_in_the_end
    assert not answer_of(shorter).front.enough
    assert mending_of(shorter, answer_of(shorter)) == {}
    nearly = edited(setup, stance_length_mm=640.0 + mend.length_mm + 10.0)
    assert not answer_of(nearly).front.is_well_in_the_end


def test_what_it_comes_to_later_is_looked_at_with_both_feet_on_it() -> None:
    setup = edited(Setup(), front_angle_deg=0.0, rear_angle_deg=0.0, stance_length_mm=640.0)
    answer = answer_of(setup)
    later = Mounts(*answer.front.later, *answer.rear.later)
    assert answer_of(with_mounts(setup, later)).front.now == answer.front.in_the_end


def test_a_boot_that_stays_past_its_stop_is_said_to_be_past_it_and_by_how_much() -> None:
    setup = edited(practice(60.0, 60.0), largest_lift_deg=1.0)
    answer = answer_of(setup)
    for foot, stop in ((answer.front, "rear"), (answer.rear, "front")):
        past = f"{-rounded_left(foot.then):.1f}° past its {stop} stop"
        assert f"The boot stays {past} at the middle of the bend." in left_words(foot)
        assert boot_words(foot.then, answer).startswith(f"{past} at 42.5°")


def test_less_bend_mends_what_only_the_deepest_part_asks_for() -> None:
    deep = {"bend_to_deg": 75.0, "largest_cant_deg": 0.5, "side_give_deg": 3.0}
    setup = edited(Setup(), front_angle_deg=48.0, rear_angle_deg=45.0, **deep)
    mend = mending_of(setup, answer_of(setup))["rear"]
    assert 40.0 < mend.deepest_deg < 75.0
    assert answer_of(edited(setup, bend_to_deg=mend.deepest_deg)).rear.enough
    assert not answer_of(edited(setup, bend_to_deg=mend.deepest_deg + 1.0)).rear.enough


def test_where_no_posture_settles_there_is_a_reason_and_nothing_else() -> None:
    foot = foot_of(FAR)
    assert isnan(foot.begin.cant_deg)
    assert "hinge plane" in why_words(foot, answer_of(FAR), FAR.inputs)
    assert next_words(foot) == left_words(foot) == source_words(foot) == ""
    assert bench_steps(answer_of(FAR), FAR.inputs) == []


def test_a_boot_past_its_stop_is_said_to_be_past_it_and_after_how_far_it_is_back() -> None:
    told = told_of(edited(Setup(), stance_length_mm=640.0), USUAL_LIMITS)
    sink, rise = (now for _, now, _ in reserve_words(told)[:2])
    assert re.fullmatch(
        r"none: front boot past its rear stop \(back in range after \d+ mm\) and "
        r"rear boot past its front stop",
        sink,
    )
    assert re.fullmatch(
        r"none: front boot past its rear stop and "
        r"rear boot past its front stop \(back in range after \d+ mm\)",
        rise,
    )


def test_one_foot_alone_is_found_with_the_other_as_it_stands() -> None:
    setup = edited(practice(0.0, 0.0), rear_cant_deg=8.0)
    alone = with_foot(setup, told_of(setup, USUAL_LIMITS), "front")
    assert (alone.rear_cant_deg, alone.rear_lift_deg) == (8.0, 0.0)
    assert alone.front_cant_deg == others_of(setup).alone["front"].cant_deg


def test_more_weight_on_a_foot_asks_more_of_the_other_one() -> None:
    shifted = others_of(practice(0.0, 0.0)).shifted
    assert shifted[0.4].front_cant_deg > shifted[0.6].front_cant_deg
    assert shifted[0.4].front_cant_deg == shifted[0.6].rear_cant_deg


def test_other_shares_of_the_weight_are_told_with_both_feet_along_the_board_too() -> None:
    setup = practice(90.0, 90.0)
    told, shifted = numbers(setup)["answer"], others_of(setup).shifted
    said = dict(details_words(told_of(setup, USUAL_LIMITS), needs_of(setup)))
    for share, weight in ((0.4, "40:60"), (0.6, "60:40")):
        mounts = shifted[share]
        assert told[f"at_{weight[:2]}_percent_on_front"] == mounts._asdict()
        front = both_words(Mount(*mounts[:2]))
        assert f"{weight}: front {front}" in said["Other shares of the weight"]


def test_a_wider_limit_asks_for_less() -> None:
    setup = practice(0.0, 0.0)
    strict, wide = (answer_of(setup, Limits(in_plane_deg=each)) for each in (1.0, 3.0))
    assert wide.front.begin.cant_deg < strict.front.begin.cant_deg


@pytest.mark.parametrize(
    ("now", "aim", "steps"),
    [
        (0.0, 5.5, [2.0, 4.0, 5.5]),
        (1.0, -1.5, [-1.0, -1.5]),
        (0.0, 2.0, [2.0]),
        (3.0, 3.0, []),
    ],
)
def test_the_way_at_the_bench_goes_by_2_deg_at_most(
    now: float, aim: float, steps: list[float]
) -> None:
    assert stairs(now, aim) == pytest.approx(steps)


def test_at_the_bench_lifts_come_before_cants() -> None:
    setup = practice(90.0, 90.0)
    steps = bench_steps(answer_of(setup), setup.inputs)
    assert [("lift" in step) for step in steps] == [True, True, False, False]
    assert steps[0].startswith("Front: 2.0° toe lift, 4.0° toe lift")


def logged(setup: Setup, felt: str, *cants: float) -> Setup:
    """The set-up with a trial of both legs at each of some cants."""
    tried = [
        entry_of(
            changed(setup.inputs, front_cant_deg=cant, rear_cant_deg=cant),
            "2026-01-31",
            (felt, felt),
            ("even", "even"),
            "",
        )
        for cant in cants
    ]
    return replace(setup, trials=tuple(tried))


def test_trials_carry_a_cant_of_the_rider_s_own_and_the_words_say_so() -> None:
    setup = logged(practice(0.0, 0.0), "even", 4.0, 4.0, 4.0)
    foot = foot_of(setup)
    assert foot.begin.cant_deg == pytest.approx(4.0, abs=0.6)
    assert foot.trials == 3
    said = why_words(foot, answer_of(setup), setup.inputs)
    assert said.startswith("This cant is your own: 3 trials have led to it.")
    assert foot.enough == foot.then.in_plane


def test_going_far_beyond_what_was_tried_asks_and_nothing_tried_does_not() -> None:
    setup = logged(practice(0.0, 0.0), "even", 1.0)
    mounts = answer_of(practice(0.0, 0.0)).mounts
    assert beyond_tried(setup, mounts) == ["front", "rear"]
    assert beyond_tried(practice(0.0, 0.0), mounts) == []
    assert beyond_tried(logged(setup, "even", 4.0), mounts) == []
