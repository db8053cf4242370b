"""What each binding needs, in the words that people read."""

from __future__ import annotations

from dataclasses import replace
from math import nan

import pytest
from app.features.needs.model import range_needs_of
from app.features.needs.words import (
    angle_words,
    best_words,
    lift_words,
    margin_words,
    mounts_words,
    need_words,
    range_words,
    start_words,
    straight_words,
    verdict_words,
    why_not,
)
from both_sides import repeats_of_both

from app.rider.setup import Setup, edited, estimated
from app.rider.trials import entry_of
from app.stance.needs import Mounts, Need, needs_of, with_mounts
from app.words.reasons import reason_phrase

STRAIGHT = edited(Setup(), front_angle_deg=0.0, rear_angle_deg=0.0)
FORWARD = edited(Setup(), front_angle_deg=60.0, rear_angle_deg=60.0)
OUT_OF_REACH = edited(
    Setup(), stance_length_mm=800.0, hip_height_mm=600.0, knee_height_mm=330.0, knee_bend_deg=5.0
)


@pytest.mark.parametrize(
    ("kind", "deg", "said"),
    [
        ("cant", 4.5, "4.5° inward"),
        ("cant", -5.0, "5.0° outward"),
        ("lift", 6.0, "6.0° toe"),
        ("lift", -6.0, "6.0° heel"),
        ("cant", 0.0, "none"),
        ("lift", -0.0, "none"),
        ("cant", nan, "–"),
    ],
)
def test_signs_are_said_in_words(kind: str, deg: float, said: str) -> None:
    assert angle_words(kind, deg) == said


def test_a_need_is_said_in_half_degrees_with_its_margin() -> None:
    assert need_words("cant", Need(3.55, 0.55)) == "3.5° ± 1.0° inward"
    assert need_words("lift", Need(-16.28, 0.28)) == "16.5° ± 0.5° heel"
    assert need_words("cant", Need(0.02, 0.3)) == "none ± 0.5°"
    assert need_words("cant", Need(nan, nan)) == "–"


def test_no_cant_needed_is_an_answer() -> None:
    assert verdict_words(needs_of(FORWARD)) == "Both feet: no cant needed."
    assert verdict_words(needs_of(Setup())).startswith("Front: no cant needed. Rear: 1.0° inward")


def test_both_ends_of_the_band_are_named_where_cant_is_needed() -> None:
    said = verdict_words(needs_of(STRAIGHT))
    assert said == "Both feet: 5.5° inward is enough, at 9.0° boot and ankle give nothing."


def test_lifts_name_toe_and_heel() -> None:
    assert lift_words(needs_of(FORWARD)).startswith("From about 5.0° toe lift in front and heel")
    assert lift_words(needs_of(STRAIGHT)) == "No lift needed: both boots stay in their range."


def test_a_stance_out_of_reach_is_told_with_its_reason() -> None:
    needs = needs_of(OUT_OF_REACH)
    assert (
        verdict_words(needs) == f"Both feet: no cant, since {reason_phrase(needs.front.no_cant)}."
    )
    assert lift_words(needs) == "No lift, since no posture settles on soles without lift."
    assert why_not(needs.start, OUT_OF_REACH) == "There are no such mounts."


def test_the_start_says_when_it_comes_from_trials_and_that_few_say_little() -> None:
    felt = entry_of(
        replace(STRAIGHT.inputs, front_cant_deg=5.0, rear_cant_deg=5.0),
        "2026-01-31", ("even", "even"), ("even", "even"), "",
    )  # fmt: skip
    said = start_words(needs_of(replace(STRAIGHT, trials=(felt,))))
    assert said.startswith("The start is your own share of full cant: front 0.5")
    assert "1 trial: says little yet" in said
    assert start_words(needs_of(STRAIGHT)) == ""


def test_the_start_says_where_it_keeps_short_of_the_own_share() -> None:
    felt = entry_of(
        replace(STRAIGHT.inputs, front_cant_deg=9.0, rear_cant_deg=9.0),
        "2026-01-31", ("bow-legged", "even"), ("even", "even"), "",
    )  # fmt: skip
    said = start_words(needs_of(replace(STRAIGHT, trials=(felt,))))
    assert said.startswith("The start is your own share of full cant, kept to full or tried: ")


def test_the_cross_check_is_said_for_both_feet() -> None:
    said = straight_words(needs_of(STRAIGHT))
    assert said == "By the rule for straight legs: 8.0° ± 0.5° inward for both."


def test_the_whole_bend_is_said_with_its_range_and_what_it_gains() -> None:
    said = range_words(range_needs_of(STRAIGHT))
    assert said.startswith("Whole bend, 0° to 90° with hips turned up to 20°: out of plane by 33°")
    assert said.endswith("with its best mounts by 11° front and 11° rear.")


def test_the_bend_alone_is_said_to_be_so() -> None:
    said = range_words(range_needs_of(STRAIGHT, turning=False))
    assert said.startswith("Bend alone, 0° to 90° with the hips as they are: out of plane by 16°")


def test_the_best_mounts_stand_foot_by_foot_with_what_they_do_to_the_knee() -> None:
    front, rear = best_words(range_needs_of(Setup()))
    assert front == "front lift 11.5° toe, cant 5.0° inward; worst 21° → 11°"
    assert rear == "rear lift 11.5° heel, cant 8.0° inward; worst 22° → 12°"


def test_mounts_too_steep_to_set_are_told() -> None:
    along = edited(Setup(), front_angle_deg=90.0, rear_angle_deg=90.0)
    said = range_words(range_needs_of(along))
    assert "They cannot be put on: 20.5° of lift is more than the 15° that can be set." in said


def test_what_was_never_measured_is_named_beside_the_margins() -> None:
    said = margin_words(estimated(Setup(), stature_mm=1800.0))
    assert said.endswith("not measured yet: neutral spacing and knee tracking.")
    assert margin_words(Setup()) == "± is one standard error of the leg measures."
    boots = replace(Setup(), repeats=repeats_of_both(side_give_deg=(3.0, 5.0)))
    assert "legs and boots" in margin_words(boots)


def test_mounts_that_are_on_need_not_be_put_on() -> None:
    start = needs_of(STRAIGHT).start
    assert why_not(start, STRAIGHT) == ""
    assert why_not(start, with_mounts(STRAIGHT, start)) == "They are on the mounts."


def test_mounts_are_said_foot_by_foot() -> None:
    said = mounts_words(Mounts(4.5, 0.0, -4.5, 1.0))
    assert said == "front lift 4.5° toe, cant none; rear lift 4.5° heel, cant 1.0° inward"
    assert mounts_words(Mounts(0.0, 0.0, 0.0, 0.0)) == "front flat; rear flat"
