"""The log of trials: what to try next, and the share that a leg settles at."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from fit_riders import LENGTH, demo, rad, stance_of, uneven
from hypothesis import given
from hypothesis import strategies as st
from refused import refused

from app.words.reasons import reason_phrase
from geometry import Boots, Mount, Stance
from geometry.fitting.fit import fit_of
from geometry.fitting.shares import cant_from_share, settled_share
from geometry.fitting.smallest_mounts import full_cants
from geometry.fitting.trials import Felt, Trial, Tried, Verdict, next_cant, tried_by_leg

STEP = rad(1.0)
FULL = rad(9.3)
BOW, EVEN, KNOCK = Verdict.BOW_LEGGED, Verdict.EVEN, Verdict.KNOCK_KNEED


def log(full: float, *felt: tuple[float, Verdict]) -> list[Tried]:
    return [Tried(rad(cant), full, verdict) for cant, verdict in felt]


def asked_deg(full: float, *felt: tuple[float, Verdict], beyond: bool = False) -> float:
    return math.degrees(next_cant(log(full, *felt), full, STEP, beyond=beyond).cant)


def test_without_trials_the_start_is_tried_in_steps_of_the_parts() -> None:
    first = next_cant([], FULL, STEP, start=rad(5.3))
    assert math.degrees(first.cant) == pytest.approx(5.0)
    assert not first.settled


@pytest.mark.parametrize(
    ("felt", "asked"),
    [
        ([(5.0, KNOCK)], 2.0),
        ([(5.0, BOW)], 7.0),
        ([(5.0, BOW), (8.0, KNOCK)], 6.0),
        ([(2.0, BOW), (9.0, KNOCK), (6.0, KNOCK)], 4.0),
    ],
)
def test_the_middle_of_the_bracket_comes_next(
    felt: list[tuple[float, Verdict]], asked: float
) -> None:
    assert asked_deg(FULL, *felt) == pytest.approx(asked)


def test_outward_cants_are_bracketed_the_other_way_round() -> None:
    assert asked_deg(-FULL, (-4.0, KNOCK)) == pytest.approx(-7.0)
    assert asked_deg(-FULL, (-4.0, BOW)) == pytest.approx(-2.0)


def test_an_even_trial_settles_the_log() -> None:
    answer = next_cant(log(FULL, (4.0, BOW), (6.0, EVEN)), FULL, STEP)
    assert answer.settled
    assert math.degrees(answer.cant) == pytest.approx(6.0)


def test_neighbouring_steps_leave_nothing_between_them_to_try() -> None:
    answer = next_cant(log(FULL, (5.0, BOW), (6.0, KNOCK)), FULL, STEP)
    assert answer.settled
    assert math.degrees(answer.cant) == pytest.approx(5.5)


@pytest.mark.parametrize("felt", [(9.0, BOW), (0.0, KNOCK)])
def test_nothing_beyond_flat_and_full_is_tried_without_asking(
    felt: tuple[float, Verdict],
) -> None:
    answer = next_cant(log(FULL, felt), FULL, STEP)
    assert answer.asks
    assert math.isnan(answer.cant)
    assert "needs your consent" in reason_phrase(answer.why)


def test_a_last_step_short_of_full_cant_is_not_called_full_cant() -> None:
    short = next_cant(log(rad(8.6), (8.0, BOW)), rad(8.6), STEP)
    said = reason_phrase(short.why)
    assert said.startswith("the last step before full cant felt too little")
    agreed = next_cant(log(rad(8.6), (8.0, BOW)), rad(8.6), STEP, beyond=True)
    assert math.degrees(agreed.cant) == pytest.approx(9.0)


def test_with_consent_it_is_one_step_further_each_time() -> None:
    assert asked_deg(FULL, (9.0, BOW), beyond=True) == pytest.approx(10.0)
    assert asked_deg(FULL, (10.0, BOW), beyond=True) == pytest.approx(11.0)
    assert asked_deg(FULL, (0.0, KNOCK), beyond=True) == pytest.approx(-1.0)
    assert asked_deg(-FULL, (-9.0, KNOCK), beyond=True) == pytest.approx(-10.0)


def test_trials_that_contradict_each_other_are_tried_between() -> None:
    answer = next_cant(log(FULL, (4.0, KNOCK), (6.0, BOW)), FULL, STEP)
    assert "contradict" in reason_phrase(answer.why)
    assert math.degrees(answer.cant) == pytest.approx(5.0)


def test_a_stance_with_next_to_no_full_cant_needs_no_trials() -> None:
    assert next_cant(log(FULL, (5.0, BOW)), rad(0.4), STEP).cant == 0.0


def test_a_step_of_nothing_is_refused() -> None:
    with refused("the step is 0 deg"):
        next_cant([], FULL, 0.0)


@given(
    full=st.floats(2.0, 15.0).map(rad),
    comfortable=st.floats(0.05, 0.95),
    step=st.sampled_from([0.5, 1.0, 2.0]).map(rad),
    outward=st.booleans(),
)
def test_a_rider_who_feels_exactly_is_led_to_a_comfortable_cant(
    full: float, comfortable: float, step: float, outward: bool
) -> None:
    sign = -1.0 if outward else 1.0
    aim = sign * comfortable * full
    trials: list[Tried] = []
    for _ in range(12):
        answer = next_cant(trials, sign * full, step)
        if answer.settled or answer.asks:
            break
        assert -1e-9 <= answer.cant * sign <= full + 1e-9
        verdict = KNOCK if answer.cant > aim else BOW
        trials.append(Tried(answer.cant, sign * full, verdict))
    assert answer.settled or aim * sign > full - step
    if answer.settled:
        assert abs(answer.cant - aim) <= step


def test_full_cant_itself_is_tried_before_it_is_said_to_be_too_little() -> None:
    tried = [Tried(rad(cant), rad(2.0), BOW) for cant in (0.0, 1.0)]
    answer = next_cant(tried, rad(2.0), rad(1.0))
    assert answer.cant == pytest.approx(rad(2.0))
    assert not answer.asks


def test_the_log_stands_each_cant_beside_its_stance_s_full_cant() -> None:
    body, boots, _, crouch = demo()
    inward = Stance(Mount(0.0, 0.0, rad(5.0)), Mount(0.0, 0.0, rad(4.0)), LENGTH)
    outward = Stance(Mount(rad(90.0), 0.0, rad(-4.0)), Mount(rad(90.0)), LENGTH)
    trials = [
        Trial("2024-02-11", outward, Felt(EVEN), Felt(KNOCK), "icy"),
        Trial("2024-01-31", inward, Felt(BOW), Felt(EVEN)),
    ]
    front, rear = tried_by_leg(trials, body, boots, crouch)
    # Full cants 8.651 and -8.919: the worked values of the fit.
    assert [one.share for one in front] == pytest.approx([5.0 / 8.651, 4.0 / 8.919], abs=1e-3)
    assert [one.verdict for one in rear] == [EVEN, KNOCK]
    assert [one.lacked for one in rear] == [0, 1]


def test_a_trial_speaks_of_the_legs_as_they_stood_when_the_other_foot_led() -> None:
    body, boots, stance, crouch = uneven()
    turned = replace(body, front=body.rear, rear=body.front), Boots(boots.rear, boots.front)
    then = full_cants(*turned, stance, crouch)
    now = full_cants(body, boots, stance, crouch)
    trials = [
        Trial("2026-01-01", stance, Felt(BOW), Felt(KNOCK), other_foot_led=True),
        Trial("2026-01-02", stance, Felt(EVEN), Felt(EVEN)),
    ]
    front, rear = tried_by_leg(trials, body, boots, crouch)
    assert [one.verdict for one in front] == [KNOCK, EVEN]
    assert [one.full for one in front] == pytest.approx([then.rear, now.front], abs=1e-12)
    assert [one.full for one in rear] == pytest.approx([then.front, now.rear], abs=1e-12)
    assert abs(then.rear - now.rear) > rad(0.2)


def test_a_trial_of_an_unreachable_stance_says_nothing() -> None:
    body, boots, _, crouch = demo()
    trial = Trial("2024-01-31", stance_of(0.0, 0.0, 2000.0), Felt(BOW), Felt(BOW))
    assert tried_by_leg([trial], body, boots, crouch) == ([], [])
    assert tried_by_leg([], body, boots, crouch) == ([], [])


@pytest.mark.parametrize("date", ["31.1.2024", "2024-13-01", "yesterday", "2024-1-5"])
def test_a_date_that_is_not_written_year_first_is_refused(date: str) -> None:
    with refused("it must be written as 2024-01-31"):
        Trial(date, demo().stance, Felt(EVEN), Felt(EVEN))


def test_no_trials_say_nothing() -> None:
    settled = settled_share([])
    assert math.isnan(settled.share)
    assert settled.says_little
    assert settled.trials == 0


def test_few_trials_say_little() -> None:
    one = settled_share(log(FULL, (5.0, EVEN)))
    assert one.says_little
    many = settled_share(log(FULL, (4.0, BOW), (6.0, KNOCK), (5.0, EVEN), (5.0, EVEN)))
    assert not many.says_little
    assert many.error < one.error


def test_the_share_lies_where_the_trials_settle() -> None:
    settled = settled_share(log(FULL, (4.0, BOW), (6.0, KNOCK), (5.0, EVEN)))
    assert settled.share == pytest.approx(5.0 / 9.3, abs=0.01)


def test_a_share_from_inward_cants_serves_outward_ones() -> None:
    inward = settled_share(log(FULL, (4.0, BOW), (6.0, KNOCK)))
    mirrored = settled_share(log(-FULL, (-4.0, KNOCK), (-6.0, BOW)))
    assert mirrored.share == pytest.approx(inward.share)
    cant, error = cant_from_share(inward, rad(-6.0))
    assert cant == pytest.approx(inward.share * rad(-6.0))
    assert error == pytest.approx(inward.error * rad(6.0))


@pytest.mark.parametrize(("full", "trials"), [(1.99, 0), (-1.99, 0), (2.01, 1), (-2.01, 1)])
def test_trials_in_stances_that_need_less_than_two_degrees_say_nothing_of_a_share(
    full: float, trials: int
) -> None:
    assert settled_share(log(rad(full), (0.3, BOW))).trials == trials


def test_the_uncertainty_is_how_far_off_the_estimate_is() -> None:
    # Riders drawn by the rule that the estimate assumes: any comfortable share,
    # verdicts blurred by 0.75 deg with an even band of half a degree either way.
    draws = np.random.default_rng(11)
    off = []
    for aim in draws.uniform(0.0, 1.0, 300):
        cants = rad(1.0) * draws.integers(0, 10, 4)
        felt = aim * FULL - cants + draws.normal(0.0, rad(0.75), 4)
        verdicts = [BOW if f > rad(0.5) else KNOCK if f < rad(-0.5) else EVEN for f in felt]
        settled = settled_share([Tried(c, FULL, v) for c, v in zip(cants, verdicts, strict=True)])
        off.append((settled.share - aim) / settled.error)
    assert np.std(off) == pytest.approx(1.0, abs=0.2)
    assert np.mean(off) == pytest.approx(0.0, abs=0.2)


def test_the_predicted_cant_s_error_counts_share_and_full_cant() -> None:
    setup = demo(0.0, 0.0)
    full = fit_of(*setup).front.full_cant
    settled = settled_share(log(full, (4.0, BOW), (6.0, KNOCK), (5.0, EVEN)))
    _, alone = cant_from_share(settled, full)
    _, both = cant_from_share(settled, full, rad(0.6))
    assert both**2 - alone**2 == pytest.approx((settled.share * rad(0.6)) ** 2)
