"""The log of trials in words, and what follows from it."""

from __future__ import annotations

from dataclasses import replace
from math import isnan

import numpy as np
import pytest

from app.features.trials.model import (
    all_found,
    likely_words,
    mounts_to_put,
    next_words,
    row_texts,
    with_changed_trial,
    with_trial,
    without_trial,
)
from app.numbers.question import question_of
from app.numbers.rider import trials_numbers
from app.rider.inputs import DEFAULTS, Inputs, changed
from app.rider.setup import Setup, edited
from app.rider.trials import HOLDS, VERDICTS, Entry, entry_of, is_date
from app.stance.answer import answer_of
from app.stance.answer_words import mount_words, shown_range
from app.stance.own import Own, outlook_of
from app.words.reasons import reason_phrase

ACROSS = changed(DEFAULTS, front_angle_deg=0.0, rear_angle_deg=0.0)
"""The demo rider straight across the board: full cant is 8.651 degrees on both feet (worked
value of the model)."""


def trial(
    cant: float, felt: str, day: str = "2026-01-31", inputs: Inputs = ACROSS, notes: str = ""
) -> Entry:
    """A trial in which both legs felt the same."""
    inputs = changed(inputs, front_cant_deg=cant, rear_cant_deg=cant)
    return entry_of(inputs, day, (felt, felt), ("even", "even"), notes)


def logged(*trials: Entry, inputs: Inputs = ACROSS) -> Setup:
    setup = Setup(inputs=inputs)
    for each in trials:
        setup = with_trial(setup, each)
    return setup


def front(setup: Setup, step: float = 1.0, agreed: tuple[str, ...] = ()) -> Own:
    """Of the front leg's cant."""
    return outlook_of(setup, step, agreed)[0].cant


def front_lift(setup: Setup) -> Own:
    return outlook_of(setup)[0].lift


def test_trials_stand_oldest_first_and_those_of_a_day_in_the_order_they_were_made() -> None:
    late, early = trial(5.0, "even", "2026-02-01"), trial(5.0, "even", "2026-01-01")
    second = replace(late, notes="afternoon")
    assert logged(late, early, second).trials == (early, late, second)


def test_a_trial_whose_date_is_put_right_moves_to_its_place() -> None:
    first, second = trial(5.0, "even", "2026-01-01"), trial(6.0, "even", "2026-01-02")
    later = replace(first, date="2026-01-03")
    assert with_changed_trial(logged(first, second), 0, later).trials == (second, later)
    assert without_trial(logged(first, second), 0).trials == (second,)


def test_a_row_of_the_log_tells_the_whole_trial() -> None:
    inputs = changed(
        DEFAULTS, front_lift_deg=3.0, rear_lift_deg=-2.5, front_cant_deg=4.0, rear_cant_deg=-1.0
    )
    felt, pressure = ("bow-legged", "even"), ("outside", "even")
    notes = "ice\nand wind"
    entry = entry_of(inputs, "2026-01-31", felt, pressure, notes, boots=("", "shin"))
    assert row_texts(entry, "left") == (
        "2026-01-31",
        "43°/38°, 505 mm",
        "4.0° in, 3.0° toe",
        "bow-legged, foot outside",
        "1.0° out, 2.5° heel",
        "even, boot at the shin",
        "ice and wind",
    )


def test_a_flat_mount_and_a_spacing_across_are_told() -> None:
    monoski = changed(DEFAULTS, stance_length_mm=0.0, across_spacing_mm=180.0)
    words = row_texts(trial(0.0, "even", inputs=monoski), "left")
    assert words[1:3] == ("43°/38°, 0 mm, 180 across", "flat")


def test_without_trials_the_answer_is_tried_first() -> None:
    begun = answer_of(logged()).front.begin.cant_deg
    assert begun % 1.0 == 0.5
    assert outlook_of(logged())[0].cant.put_deg == begun
    # In wider steps of the parts the nearest; of two as near the one nearer to flat.
    assert front(logged()).put_deg == begun - 0.5
    assert front(logged(), step=2.0).put_deg == 2.0 * round(begun / 2.0)
    assert reason_phrase(front(logged()).why) == "no trial tells anything yet: begin here"


@pytest.mark.parametrize(("step", "then"), [(1.0, 7.0), (0.5, 7.0), (2.0, 6.0), (3.0, 6.0)])
def test_after_a_trial_comes_next_what_it_points_to_near_what_was_tried(
    step: float, then: float
) -> None:
    assert front(logged(trial(5.0, "bow-legged")), step).next_deg == then


def test_practice_settles_at_5_degrees_where_4_and_6_were_felt_as_wrong() -> None:
    # Common practice, no source: 6 and 4 degrees inward were felt as too much and too little.
    inputs = changed(ACROSS, stance_length_mm=540.0, neutral_spacing_mm=270.0, hip_height_mm=950.0)
    setup = logged(
        trial(4.0, "bow-legged", inputs=inputs),
        trial(6.0, "knock-kneed", inputs=inputs),
        inputs=inputs,
    )
    assert front(setup).next_deg == 5.0


def test_beyond_the_whole_cant_it_asks_and_goes_one_step_with_consent() -> None:
    wide = changed(ACROSS, largest_cant_deg=12.0)
    setup = logged(trial(9.0, "bow-legged"), trial(9.0, "bow-legged"), inputs=wide)
    asked, agreed = front(setup), front(setup, agreed=("front",))
    assert asked.asks
    assert isnan(asked.next_deg)
    assert next_words(asked) == (
        "Keep to 9.0° inward: your trials point beyond all that the leg asks for; going on needs "
        "your consent."
    )
    assert agreed.next_deg == 10.0


def test_no_more_than_is_allowed_is_put_on_whatever_trials_say() -> None:
    setup = logged(*[trial(9.0, "bow-legged")] * 6)
    assert setup.inputs.largest_cant_deg == 9.0
    leg = front(setup)
    assert (leg.put_deg, leg.asks) == (9.0, False)
    growing = replace(logged(trial(2.0, "bow-legged")), growing=True)
    assert front(growing).put_deg == 3.0
    assert answer_of(growing).front.begin.cant_deg == 3.0


def test_consent_for_one_leg_is_none_for_the_other() -> None:
    wide = changed(ACROSS, largest_cant_deg=12.0)
    setup = logged(trial(9.0, "bow-legged"), trial(9.0, "bow-legged"), inputs=wide)
    _, rear = outlook_of(setup, 1.0, {"front"})
    assert isnan(rear.cant.next_deg)


def test_what_is_likely_is_told_as_a_range_and_from_how_many_trials() -> None:
    assert likely_words(front(logged())) == ""
    one = logged(trial(5.0, "bow-legged"))
    assert next_words(front(one)) == (
        "Try 7.0° inward: 2° at most at a time, on the way to where all trials together point."
    )
    assert likely_words(front(one)) == "Likely 6.0 to 9.5°. 1 trial so far."


def test_a_cant_that_the_trials_have_found_is_to_be_kept() -> None:
    once = logged(trial(4.0, "bow-legged"), trial(6.0, "knock-kneed"), trial(5.0, "even"))
    words = next_words(front(once))
    assert words == "Try 5.0° inward: where all trials together point, once more to be sure."
    found = front(with_trial(once, trial(5.0, "even")))
    assert next_words(found) == "Keep to 5.0° inward: your trials have found it."
    # By hand: all of them speak for 5 of 8.651 degrees, which is 58 %.
    assert likely_words(found) == (
        "Likely 4.5 to 5.5°. That is 58 % of the whole cant, 8.5° inward. 4 trials so far."
    )


def test_the_share_predicts_the_comfortable_cant_of_another_stance() -> None:
    # 5 of 8.651 inward at 0/0 is 5.15 of 8.919 outward at 90/90 (worked values of the model).
    trials = (trial(4.0, "bow-legged"), trial(6.0, "knock-kneed"), trial(5.0, "even"))
    ahead = changed(DEFAULTS, front_angle_deg=90.0, rear_angle_deg=90.0)
    leg = front(logged(*trials, inputs=ahead))
    assert leg.likely.deg == pytest.approx(-5.15, abs=0.4)
    assert 0.3 < leg.likely.margin_deg < 2.0
    assert leg.put_deg == -5.0


def test_what_comes_next_goes_on_the_bindings_and_lifts_stay_until_a_trial_speaks_of_them() -> None:
    inputs = changed(ACROSS, front_lift_deg=2.0)
    setup = logged(trial(5.0, "bow-legged"), inputs=inputs)
    assert mounts_to_put(setup, outlook_of(setup, 1.0)) == (2.0, 7.0, 0.0, 7.0)
    assert not all_found(outlook_of(setup, 1.0))


def test_before_any_trial_what_is_put_on_is_the_answer() -> None:
    for stance in STANCES:
        setup = logged(inputs=stance)
        assert mounts_to_put(setup, outlook_of(setup)) == answer_of(setup).mounts


def test_where_next_to_no_cant_is_asked_for_it_is_still_the_answer() -> None:
    stiff = changed(ACROSS, side_give_deg=0.0, stance_length_mm=305.0)
    setup = logged(inputs=stiff)
    leg = front(setup)
    assert 0.5 < abs(leg.whole.deg) < 2.0
    assert leg.why == "next to none needed"
    assert mounts_to_put(setup, outlook_of(setup)) == answer_of(setup).mounts


def test_a_leg_that_must_be_asked_keeps_its_cant_while_the_other_gets_its_next() -> None:
    inputs = changed(ACROSS, front_cant_deg=9.0, rear_cant_deg=5.0, largest_cant_deg=12.0)
    entry = entry_of(inputs, "2026-01-31", ("bow-legged", "bow-legged"))
    setup = logged(entry, entry, inputs=inputs)
    put = mounts_to_put(setup, outlook_of(setup, 1.0))
    assert (put.front_cant_deg, put.rear_cant_deg) == (9.0, 7.0)


# Lifts


FORWARD = changed(DEFAULTS, front_angle_deg=60.0, rear_angle_deg=60.0)
"""A stance whose boots ask for much lift."""


def lift_trial(lift: float, hold: str) -> Entry:
    inputs = changed(FORWARD, front_lift_deg=lift)
    return entry_of(inputs, "2026-01-31", ("even", "even"), boots=(hold, ""))


def test_a_boot_that_presses_at_the_calf_asks_for_more_toe_lift_and_at_the_shin_for_less() -> None:
    assert front_lift(logged(inputs=FORWARD)).trials == 0
    more, less = (
        front_lift(logged(lift_trial(5.0, hold), inputs=FORWARD)) for hold in ("calf", "shin")
    )
    assert (more.put_deg, less.put_deg) == (7.0, 3.0)
    assert next_words(more).startswith("Try 7.0° toe lift: 2° at most at a time, on the way to")


def test_lift_trials_settle_the_lift_that_page_answer_and_button_put_on() -> None:
    log = [lift_trial(5.0, "calf"), lift_trial(7.0, "shin"), *[lift_trial(6.0, "even")] * 3]
    setup = logged(*log, inputs=FORWARD)
    found = front_lift(setup)
    assert (found.settled, found.put_deg, found.trials) == (True, 6.0, 5)
    assert "of the whole lift" in likely_words(found)
    assert mounts_to_put(setup, outlook_of(setup)).front_lift_deg == 6.0
    begun = answer_of(setup).front
    assert (begun.begin.lift_deg, begun.lift_trials) == (6.0, 5)
    # The leg that nobody asked keeps what the geometry proposes.
    assert answer_of(setup).rear.lift_trials == 0


def test_a_trial_that_does_not_tell_how_the_boot_pressed_says_nothing_of_the_lift() -> None:
    log = [replace(lift_trial(6.0, "even"), boots=("", ""))] * 4
    setup = logged(*log, inputs=FORWARD)
    assert front_lift(setup).trials == 0
    assert (
        answer_of(setup).front.begin.lift_deg
        == answer_of(logged(inputs=FORWARD)).front.begin.lift_deg
    )


# One voice


STANCES = (ACROSS, FORWARD, changed(DEFAULTS, front_angle_deg=15.0, rear_angle_deg=-9.0))


def random_log(draws: np.random.Generator) -> Setup:
    """A rider with up to eight trials of any kind in any of three stances."""
    log = []
    for day in range(draws.integers(1, 9)):
        names = ("front_cant_deg", "rear_cant_deg", "front_lift_deg", "rear_lift_deg")
        angles = {name: draws.integers(-6, 19) / 2.0 for name in names}
        felt = (str(draws.choice(VERDICTS)), str(draws.choice(VERDICTS)))
        boots = (str(draws.choice([*HOLDS, ""])), str(draws.choice([*HOLDS, ""])))
        there = changed(STANCES[draws.integers(3)], **angles)
        log.append(entry_of(there, f"2026-01-{day + 1:02}", felt, boots=boots))
    setup = logged(*log, inputs=STANCES[draws.integers(3)])
    return replace(setup, growing=bool(draws.integers(4) == 0))


@pytest.mark.parametrize("seed", range(40))
def test_page_answer_and_numbers_put_on_the_same_angles_after_any_trials(seed: int) -> None:
    setup = random_log(np.random.default_rng(seed))
    legs, answer = outlook_of(setup), answer_of(setup)
    put = mounts_to_put(setup, legs)
    told = trials_numbers(setup, question_of(frozenset(), {}, None))
    for leg, foot in zip(legs, answer.feet, strict=True):
        for own in leg.both:
            if not own.trials:
                continue
            begun = getattr(foot.begin, f"{own.kind}_deg")
            assert begun == own.put_deg == getattr(put, f"{leg.name}_{own.kind}_deg")
            words = mount_words(own.kind, own.put_deg)
            assert words in next_words(own)
            # What is likely holds what is put on, on the page and in the answer.
            low, high = shown_range(own.put_deg, (own.likely.deg - own.likely.margin_deg, 0.0))
            assert low <= own.put_deg <= high
            section = told[leg.name] if own.kind == "cant" else told[leg.name]["lift"]
            expected = None if own.waits else own.put_deg
            assert section[f"next_{own.kind}_deg"] == expected
            assert abs(own.put_deg) <= getattr(setup.inputs, f"largest_{own.kind}_deg")


@pytest.mark.parametrize("seed", range(6))
def test_neither_bend_nor_hips_nor_what_is_on_changes_what_trials_say(seed: int) -> None:
    setup = random_log(np.random.default_rng(100 + seed))
    other = edited(
        setup, knee_bend_deg=80.0, hips_turned_deg=15.0, front_cant_deg=4.0, rear_lift_deg=-3.0
    )
    assert outlook_of(other) == outlook_of(setup)
    assert answer_of(other).mounts == answer_of(setup).mounts


def test_a_stance_out_of_reach_has_nothing_to_try_and_says_why() -> None:
    far = changed(
        ACROSS,
        stance_length_mm=800,
        across_spacing_mm=600,
        hip_height_mm=600,
        knee_height_mm=330,
        bend_from_deg=80,
        bend_to_deg=110,
    )
    setup = logged(trial(5.0, "even"), inputs=far)
    assert "cannot reach" in next_words(front(setup))
    assert likely_words(front(setup)) == ""


@pytest.mark.parametrize(
    ("text", "is_one"),
    [("2026-01-31", True), ("2024-02-29", True), ("2026-02-29", False), ("20260131", False),
     ("31.1.2026", False), ("", False)],
)  # fmt: skip
def test_a_date_is_a_day_of_the_calendar_written_year_first(text: str, is_one: bool) -> None:
    assert is_date(text) is is_one
