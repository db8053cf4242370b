"""The log of trials in words, and what follows from it."""

from __future__ import annotations

from dataclasses import replace
from math import isnan

import pytest

from app.features.trials.model import (
    LegOutlook,
    comfortable_words,
    next_words,
    outlook_of,
    row_texts,
    share_words,
    with_changed_trial,
    with_comfortable_cants,
    with_next_cants,
    with_trial,
    without_trial,
)
from app.rider.inputs import DEFAULTS, Inputs, changed
from app.rider.setup import Setup
from app.rider.trials import Entry, entry_of, is_date
from app.stance.answer import answer_of
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


def front(setup: Setup, step: float = 1.0, agreed: tuple[str, ...] = ()) -> LegOutlook:
    return outlook_of(setup, step, agreed)[0]


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
    entry = entry_of(inputs, "2026-01-31", felt, pressure, "ice\nand wind")
    assert row_texts(entry, "left") == (
        "2026-01-31",
        "43°/38°, 505 mm",
        "4.0° in, 3.0° toe",
        "bow-legged, outside",
        "1.0° out, 2.5° heel",
        "even",
        "ice and wind",
    )


def test_a_flat_mount_and_a_spacing_across_are_told() -> None:
    monoski = changed(DEFAULTS, stance_length_mm=0.0, across_spacing_mm=180.0)
    words = row_texts(trial(0.0, "even", inputs=monoski), "left")
    assert words[1:3] == ("43°/38°, 0 mm, 180 across", "flat")


def test_without_trials_the_answer_is_tried_first_in_steps_of_the_parts() -> None:
    begun = answer_of(logged()).front.begin.cant_deg
    assert begun % 1.0 == 0.5
    assert front(logged(), step=0.5).next_deg == begun
    # Of two steps as near the one nearer to flat.
    assert front(logged()).next_deg == begun - 0.5
    assert front(logged(), step=2.0).next_deg == 2.0 * round(begun / 2.0)
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


def test_beyond_full_cant_it_asks_and_goes_one_step_with_consent() -> None:
    setup = logged(trial(9.0, "bow-legged"), trial(9.0, "bow-legged"))
    asked, agreed = front(setup), front(setup, agreed=("front",))
    assert asked.asks
    assert isnan(asked.next_deg)
    assert next_words(asked) == "The trials point beyond full cant: going on needs your consent."
    assert agreed.next_deg == 10.0


def test_consent_for_one_leg_is_none_for_the_other() -> None:
    setup = logged(trial(9.0, "bow-legged"), trial(9.0, "bow-legged"))
    _, rear = outlook_of(setup, 1.0, {"front"})
    assert isnan(rear.next_deg)


def test_few_trials_say_little_and_it_is_said() -> None:
    assert share_words(front(logged())) == "No trial tells a share of full cant yet."
    one = logged(trial(5.0, "bow-legged"))
    assert share_words(front(one)).endswith("of full cant: one trial says little.")
    two = with_trial(one, trial(7.0, "knock-kneed"))
    assert share_words(front(two)).endswith("of full cant: two trials say little.")


def test_trials_that_agree_settle_the_share() -> None:
    setup = logged(trial(4.0, "bow-legged"), trial(6.0, "knock-kneed"), trial(5.0, "even"))
    # By hand: all three speak for 5 of 8.651 degrees, which is 0.578.
    words = share_words(front(setup))
    assert words.startswith("So far 0.58 ±\u00a00.")
    words = share_words(front(with_trial(setup, trial(5.0, "even"))))
    assert words.startswith("Settled at 0.58 ±\u00a00.")
    assert words.endswith("of full cant, from 4 trials.")


def test_a_cant_that_the_trials_have_found_is_to_be_kept() -> None:
    once = logged(trial(4.0, "bow-legged"), trial(6.0, "knock-kneed"), trial(5.0, "even"))
    words = next_words(front(once))
    assert words == "Try 5.0° inward: all trials together point here; once more, to be sure."
    found = front(with_trial(once, trial(5.0, "even")))
    assert next_words(found) == "Keep to 5.0° inward: the trials have found the cant."
    assert found.next_deg == found.comfortable_deg == 5.0


def test_the_share_predicts_the_comfortable_cant_of_another_stance() -> None:
    # 5 of 8.651 inward at 0/0 is 5.15 of 8.919 outward at 90/90 (worked values of the model).
    trials = (trial(4.0, "bow-legged"), trial(6.0, "knock-kneed"), trial(5.0, "even"))
    ahead = changed(DEFAULTS, front_angle_deg=90.0, rear_angle_deg=90.0)
    leg = front(logged(*trials, inputs=ahead))
    assert leg.comfortable.deg == pytest.approx(-5.15, abs=0.2)
    assert 0.3 < leg.comfortable.margin_deg < 2.0
    assert comfortable_words(leg).startswith("Comfortable here: 5.0° outward ±\u00a0")


def test_the_next_cants_go_on_the_mounts_and_nothing_else_changes() -> None:
    setup = logged(trial(5.0, "bow-legged"))
    put = with_next_cants(setup, outlook_of(setup))
    assert put.inputs == changed(ACROSS, front_cant_deg=7.0, rear_cant_deg=7.0)
    assert replace(put, inputs=setup.inputs) == setup


def test_a_leg_that_must_be_asked_keeps_its_cant_while_the_other_gets_its_next() -> None:
    inputs = changed(ACROSS, front_cant_deg=9.0, rear_cant_deg=5.0)
    entry = entry_of(inputs, "2026-01-31", ("bow-legged", "bow-legged"), ("even", "even"), "")
    setup = logged(entry, entry, inputs=inputs)
    put = with_next_cants(setup, outlook_of(setup))
    assert (put.inputs.front_cant_deg, put.inputs.rear_cant_deg) == (9.0, 7.0)


def test_comfortable_cants_are_put_on_in_half_degrees_and_none_without_trials() -> None:
    empty = logged()
    assert with_comfortable_cants(empty, outlook_of(empty)) == empty
    setup = logged(trial(4.0, "bow-legged"), trial(6.0, "knock-kneed"), trial(5.0, "even"))
    assert with_comfortable_cants(setup, outlook_of(setup)).inputs.front_cant_deg == 5.0


def test_a_comfortable_cant_past_full_cant_is_put_on_only_where_trials_or_consent_went() -> None:
    # Full cant is 8.651, which is 8.5 in half degrees; the first whole degree beyond it is 9.
    setup = logged(trial(8.5, "bow-legged"), trial(8.5, "bow-legged"))
    assert front(setup).comfortable.deg > 9.5
    assert with_comfortable_cants(setup, outlook_of(setup)).inputs.front_cant_deg == 8.5
    agreed = outlook_of(setup, agreed=("front", "rear"))
    assert with_comfortable_cants(setup, agreed).inputs.front_cant_deg == agreed[0].next_deg == 9.0
    tried = logged(trial(8.0, "bow-legged"), trial(10.0, "even"))
    put = with_comfortable_cants(tried, outlook_of(tried)).inputs.front_cant_deg
    assert 8.651 < put <= 10.0


def test_a_stance_out_of_reach_has_nothing_to_try_and_says_why() -> None:
    far = changed(
        ACROSS, stance_length_mm=800, across_spacing_mm=600, hip_height_mm=600, knee_bend_deg=5
    )
    setup = logged(trial(5.0, "even"), inputs=far)
    assert "cannot reach" in next_words(front(setup))
    assert comfortable_words(front(setup)) == ""


@pytest.mark.parametrize(
    ("text", "is_one"),
    [("2026-01-31", True), ("2024-02-29", True), ("2026-02-29", False), ("20260131", False),
     ("31.1.2026", False), ("", False)],
)  # fmt: skip
def test_a_date_is_a_day_of_the_calendar_written_year_first(text: str, is_one: bool) -> None:
    assert is_date(text) is is_one
