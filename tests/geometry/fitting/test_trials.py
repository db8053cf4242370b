"""The log of trials: what to try next, and the share that a leg settles at."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import product

import numpy as np
import pytest
from fit_riders import LENGTH, demo, rad, stance_of, uneven
from hypothesis import example, given
from hypothesis import strategies as st
from refused import refused
from scipy.integrate import trapezoid
from scipy.stats import norm

from app.words.reasons import reason_phrase
from geometry import Boots, Mount, Stance
from geometry.fitting.fit import fit_of
from geometry.fitting.next_angle import next_angle
from geometry.fitting.shares import (
    BEYOND,
    BLUR,
    FEELS_EVEN,
    SLIPS,
    angle_from_share,
    settled_share,
)
from geometry.fitting.smallest_mounts import full_cants, lifted, off_rest
from geometry.fitting.trials import Felt, Hold, Trial, Tried, Verdict, tried_by_leg

STEP = rad(1.0)
FULL = rad(9.3)
BOW, EVEN, KNOCK = Verdict.BOW_LEGGED, Verdict.EVEN, Verdict.KNOCK_KNEED


def log(full: float, *felt: tuple[float, Verdict]) -> list[Tried]:
    return [Tried(rad(cant), full, verdict) for cant, verdict in felt]


def asked_deg(full: float, *felt: tuple[float, Verdict], beyond: bool = False) -> float:
    return math.degrees(next_angle(log(full, *felt), full, STEP, beyond=beyond).angle)


def test_without_trials_the_start_is_tried_in_steps_of_the_parts() -> None:
    first = next_angle([], FULL, STEP, start=rad(5.3))
    assert math.degrees(first.angle) == pytest.approx(5.0)
    assert not first.settled


@pytest.mark.parametrize(
    ("felt", "asked"),
    [
        ([(5.0, KNOCK)], 3.0),
        ([(5.0, BOW)], 7.0),
        ([(5.0, BOW), (7.0, KNOCK)], 6.0),
        ([(0.0, EVEN)], 1.0),
        ([(9.0, EVEN)], 8.0),
        ([(5.0, EVEN)], 5.0),
    ],
)
def test_what_comes_next_lies_where_the_verdicts_point_near_what_was_tried(
    felt: list[tuple[float, Verdict]], asked: float
) -> None:
    assert asked_deg(FULL, *felt) == pytest.approx(asked)


def test_steps_of_more_than_2_deg_are_taken_one_at_a_time() -> None:
    answer = next_angle(log(FULL, (0.0, BOW), (0.0, BOW)), FULL, rad(3.0))
    assert math.degrees(answer.angle) == pytest.approx(3.0)


def test_a_first_even_counts_and_three_are_needed() -> None:
    felt = log(rad(2.5), *[(2.0, EVEN)] * 3)
    settled = [next_angle(felt[:n], rad(2.5), STEP).settled for n in (1, 2, 3)]
    assert settled == [False, False, True]
    assert settled_share(felt[:1]).trials == 1


@pytest.mark.parametrize("end", [0.0, 9.0])
def test_even_on_a_flat_sole_or_at_full_cant_is_accepted(end: float) -> None:
    answer = next_angle(log(rad(9.0), *[(end, EVEN)] * 5), rad(9.0), STEP)
    assert answer.settled
    assert not answer.asks
    assert math.degrees(answer.angle) == pytest.approx(end, abs=1.0)


def test_even_beyond_full_cant_is_accepted_as_any_other() -> None:
    answer = next_angle(log(FULL, (9.0, BOW), *[(10.0, EVEN)] * 3), FULL, STEP)
    assert answer.settled
    assert not answer.asks
    assert math.degrees(answer.angle) == pytest.approx(10.0)


def test_one_slip_is_outvoted_by_the_verdicts_that_follow() -> None:
    slip, honest = (6.0, BOW), [(5.0, KNOCK), (3.0, BOW), (4.0, EVEN), (5.0, KNOCK), (4.0, EVEN)]
    answer = next_angle(log(FULL, slip, *honest), FULL, STEP)
    assert answer.settled
    assert math.degrees(answer.angle) == pytest.approx(4.0)


@pytest.mark.parametrize(("end", "felt"), [(9.0, BOW), (0.0, KNOCK)])
def test_a_single_verdict_leads_nobody_out_of_flat_to_full_cant(end: float, felt: Verdict) -> None:
    once = next_angle(log(FULL, (end, felt)), FULL, STEP)
    assert math.degrees(once.angle) == pytest.approx(end)
    twice = next_angle(log(FULL, (end, felt), (end, felt)), FULL, STEP)
    assert twice.asks
    assert twice.waits
    assert math.degrees(twice.angle) == pytest.approx(end)
    assert not twice.settled
    assert "needs your consent" in reason_phrase(twice.why)


def test_before_anybody_is_asked_full_cant_itself_is_tried() -> None:
    answer = next_angle(log(rad(8.8), *[(8.0, BOW)] * 3), rad(8.8), STEP)
    assert not answer.asks
    assert math.degrees(answer.angle) == pytest.approx(9.0)


def test_with_consent_it_is_one_step_further_each_time() -> None:
    twice = [(9.0, BOW)] * 2
    assert asked_deg(FULL, *twice, beyond=True) == pytest.approx(10.0)
    assert asked_deg(FULL, *twice, (10.0, BOW), beyond=True) == pytest.approx(11.0)
    assert asked_deg(FULL, *[(0.0, KNOCK)] * 2, beyond=True) == pytest.approx(-1.0)
    assert asked_deg(-FULL, *[(-9.0, KNOCK)] * 2, beyond=True) == pytest.approx(-10.0)


def test_consent_that_is_not_needed_changes_nothing() -> None:
    felt = log(FULL, (4.0, BOW), (7.0, EVEN))
    assert next_angle(felt, FULL, STEP, beyond=True) == next_angle(felt, FULL, STEP)


def test_trials_that_contradict_each_other_are_told_so_and_gone_on_from() -> None:
    answer = next_angle(log(FULL, (4.0, KNOCK), (6.0, BOW)), FULL, STEP)
    assert "contradict" in reason_phrase(answer.why)
    assert 4.0 <= math.degrees(answer.angle) <= 6.0


def test_steps_that_end_well_short_of_full_cant_are_not_tried_for_ever() -> None:
    felt = [(9.0, BOW)] * 6
    answer = next_angle(log(rad(11.7), *felt), rad(11.7), rad(3.0))
    assert (answer.settled, answer.why) == (True, "steps tell no more")
    assert not next_angle(log(rad(11.7), *felt[:5]), rad(11.7), rad(3.0)).settled


def test_a_stance_with_next_to_no_full_cant_needs_no_trials() -> None:
    bare = next_angle([], rad(1.9), STEP)
    assert (bare.angle, bare.settled) == (0.0, True)
    felt = log(FULL, *[(9.0, EVEN)] * 4)
    carried = next_angle(felt, rad(-1.9), STEP)
    assert carried.angle == pytest.approx(rad(-1.5), abs=rad(0.5))


def test_a_stance_without_full_cant_has_nothing_to_try() -> None:
    answer = next_angle(log(FULL, (5.0, BOW)), math.nan, STEP)
    assert (math.isnan(answer.angle), answer.why) == (True, "no full angle")


def test_a_step_of_nothing_is_refused() -> None:
    with refused("the step is 0 deg"):
        next_angle([], FULL, 0.0)


LOGS = st.lists(
    st.tuples(
        st.sampled_from([-2.0, 0.0, 1.0, 2.5, 4.0, 5.0, 6.0, 8.0, 9.0, 11.0]),
        st.sampled_from([FULL, rad(6.0), rad(-7.0)]),
        st.sampled_from(Verdict),
    ),
    max_size=8,
).map(lambda felt: [Tried(math.copysign(1.0, full) * rad(c), full, v) for c, full, v in felt])
"""Trials in three stances, one of them outward."""
FULLS = st.floats(2.0, 15.0).map(rad)
STEPS = st.sampled_from([0.5, 1.0, 1.5, 2.0, 3.0]).map(rad)


@given(tried=LOGS, full=FULLS, step=STEPS, beyond=st.booleans())
def test_every_cant_to_try_is_a_step_within_what_is_allowed(
    tried: list[Tried], full: float, step: float, beyond: bool
) -> None:
    answer = next_angle(tried, full, step, start=rad(4.0), beyond=beyond)
    # Full cant is put on to the nearest half degree, up to a quarter past it.
    cants = [0.0, full + rad(0.25), *(one.share * full for one in tried)]
    further = step * answer.asks + 1e-9
    assert min(cants) - further <= answer.angle <= max(cants) + further
    steps = answer.angle / (rad(0.5) if answer.settled or answer.waits else step)
    assert steps == pytest.approx(round(steps), abs=1e-6)


@given(tried=LOGS, full=FULLS, step=STEPS, beyond=st.booleans())
def test_what_is_settled_on_is_the_comfortable_cant(
    tried: list[Tried], full: float, step: float, beyond: bool
) -> None:
    answer = next_angle(tried, full, step, beyond=beyond)
    told, error = angle_from_share(settled_share(tried), full)
    if answer.settled and 0.0 <= told <= full:
        # What felt even is kept where the trials cannot tell it from what they found.
        assert abs(answer.angle - told) <= error + rad(0.25) + 1e-9


def test_what_felt_even_each_time_is_kept() -> None:
    for cant in (0.0, 4.0, 9.0):
        answer = next_angle(log(rad(9.0), *[(cant, EVEN)] * 6), rad(9.0), STEP)
        assert answer.settled
        assert math.degrees(answer.angle) == pytest.approx(cant)


@given(tried=LOGS, full=FULLS, step=STEPS, data=st.data())
def test_the_order_of_the_trials_does_not_matter(
    tried: list[Tried], full: float, step: float, data: st.DataObject
) -> None:
    other = data.draw(st.permutations(tried))
    assert repr(settled_share(other)) == repr(settled_share(tried))
    assert repr(next_angle(other, full, step)) == repr(next_angle(tried, full, step))


@given(tried=LOGS, full=FULLS, step=STEPS, beyond=st.booleans())
def test_outward_cants_are_found_as_inward_ones_are(
    tried: list[Tried], full: float, step: float, beyond: bool
) -> None:
    turned = {BOW: KNOCK, KNOCK: BOW, EVEN: EVEN}
    other = [Tried(-one.angle, -one.full, turned[one.felt]) for one in tried]
    inward = next_angle(tried, full, step, start=rad(3.0), beyond=beyond)
    outward = next_angle(other, -full, step, start=rad(-3.0), beyond=beyond)
    assert -outward.angle == pytest.approx(inward.angle, nan_ok=True)
    assert (outward.asks, outward.why) == (inward.asks, inward.why)


@pytest.mark.parametrize("felt", [EVEN, BOW, KNOCK])
def test_2000_trials_raise_no_warning_and_are_sure(felt: Verdict) -> None:
    tried = [Tried(rad(cant), FULL, felt) for cant in np.linspace(0.0, 9.0, 1900).tolist()]
    tried += log(FULL, *[(5.0, BOW), (6.0, KNOCK)] * 50)
    with np.errstate(all="raise", under="ignore"):
        settled, answer = settled_share(tried), next_angle(tried, FULL, STEP)
    assert settled.trials == 2000
    assert settled.error < 0.1
    assert math.isfinite(settled.share)
    assert answer.settled or answer.asks


def test_the_log_stands_each_cant_beside_its_stance_s_full_cant() -> None:
    body, boots, _, crouch = demo()
    inward = Stance(Mount(0.0, 0.0, rad(5.0)), Mount(0.0, 0.0, rad(4.0)), LENGTH)
    outward = Stance(Mount(rad(90.0), 0.0, rad(-4.0)), Mount(rad(90.0)), LENGTH)
    trials = [
        Trial("2024-01-31", inward, Felt(BOW), Felt(EVEN)),
        Trial("2024-02-11", outward, Felt(EVEN), Felt(KNOCK), "icy", times=3),
    ]
    front, rear = tried_by_leg(trials, body, boots, crouch)
    # Full cants 8.651 and -8.919: the worked values of the fit.
    shares = [one.share for one in front.cants]
    assert shares == pytest.approx([5.0 / 8.651, 4.0 / 8.919], abs=1e-3)
    assert [(one.felt, one.times) for one in rear.cants] == [(EVEN, 1), (KNOCK, 3)]
    assert [one.lacked for one in rear.cants] == [0, 1]
    assert front.lifts == rear.lifts == []


def test_a_lift_trial_stands_beside_its_stance_s_full_lift() -> None:
    body, boots, stance, crouch = demo()
    tilted = replace(stance, front=replace(stance.front, lift=rad(6.0)))
    said = Felt(EVEN, hold=Hold.CALF), Felt(EVEN, hold=Hold.SHIN)
    trials = [Trial("2026-01-01", tilted, *said), Trial("2026-01-02", stance, *[Felt(EVEN)] * 2)]
    front, rear = tried_by_leg(trials, body, boots, crouch)
    # Full lifts 15.517 and -15.859: the worked values of the fit.
    assert [one.share for one in front.lifts] == pytest.approx([6.0 / 15.517], abs=1e-4)
    assert [one.full for one in rear.lifts] == pytest.approx([rad(-15.859)], abs=1e-4)
    # At the calf in front asks for more toe lift, at the shin behind for more heel lift.
    assert (front.lifts[0].lacked, rear.lifts[0].lacked) == (1, 1)
    assert len(front.cants) == 2


def test_a_boot_held_further_forward_presses_at_the_calf_and_toe_lift_eases_it() -> None:
    # The model's own sign: with the toes up, the boot stands further forward of its sole.
    body, boots, stance, crouch = demo()
    flat, tilted = (
        off_rest(body, boots, lifted(stance, lift, 0.0), crouch)[0] for lift in (0.0, rad(6.0))
    )
    assert flat < tilted < 0.0


def test_a_trial_speaks_of_the_legs_as_they_stood_when_the_other_foot_led() -> None:
    body, boots, stance, crouch = uneven()
    turned = replace(body, front=body.rear, rear=body.front), Boots(boots.rear, boots.front)
    then = full_cants(*turned, stance, crouch)
    now = full_cants(body, boots, stance, crouch)
    trials = [
        Trial("2026-01-01", stance, Felt(BOW), Felt(KNOCK), other_foot_led=True),
        Trial("2026-01-02", stance, Felt(EVEN), Felt(EVEN)),
    ]
    front, rear = (leg.cants for leg in tried_by_leg(trials, body, boots, crouch))
    assert [one.felt for one in front] == [KNOCK, EVEN]
    assert [one.full for one in front] == pytest.approx([then.rear, now.front], abs=1e-12)
    assert [one.full for one in rear] == pytest.approx([then.front, now.rear], abs=1e-12)
    assert abs(then.rear - now.rear) > rad(0.2)


def test_a_trial_of_an_unreachable_stance_says_nothing() -> None:
    body, boots, _, crouch = demo()
    said = Felt(BOW, hold=Hold.SHIN)
    trial = Trial("2024-01-31", stance_of(0.0, 0.0, 2000.0), said, said)
    assert tried_by_leg([trial], body, boots, crouch) == (([], []), ([], []))
    assert tried_by_leg([], body, boots, crouch) == (([], []), ([], []))


def test_trials_just_alike_count_one_by_one() -> None:
    often = [Tried(rad(4.0), FULL, BOW, times=3), Tried(rad(6.0), FULL, KNOCK, times=2)]
    singly = [replace(one, times=1) for one in often for _ in range(one.times)]
    assert settled_share(often) == settled_share(singly)
    assert next_angle(often, FULL, STEP) == next_angle(singly, FULL, STEP)


@example(tried=[Tried(rad(-2.0), rad(6.0), BOW)], full=rad(5.0), step=rad(1.5), most=rad(1.0))
@given(tried=LOGS, full=FULLS, step=STEPS, most=st.sampled_from([0.0, 1.0, 3.0, 6.5]).map(rad))
def test_nothing_steeper_than_allowed_is_put_on_whatever_was_tried(
    tried: list[Tried], full: float, step: float, most: float
) -> None:
    for beyond in (False, True):
        found = next_angle(tried, full, step, start=rad(8.0), beyond=beyond, most=most)
        assert abs(found.angle) <= most + 1e-9


def test_trials_that_ask_for_more_than_is_allowed_say_so() -> None:
    answer = next_angle(log(FULL, *[(6.0, EVEN)] * 4), FULL, STEP, most=rad(3.0))
    assert answer.why == "no more allowed"
    assert math.degrees(answer.angle) == pytest.approx(3.0)


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
    cant, error = angle_from_share(inward, rad(-6.0))
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
    settled = settled_share(log(rad(7.0), (4.0, BOW), (6.0, KNOCK), (5.0, EVEN)))
    full = fit_of(*demo(0.0, 0.0)).front.full_cant
    _, alone = angle_from_share(settled, full)
    _, both = angle_from_share(settled, full, rad(0.6))
    assert both**2 - alone**2 == pytest.approx((settled.share * rad(0.6)) ** 2)


def test_in_the_stance_of_the_trials_full_cant_s_own_error_does_not_count() -> None:
    tried = log(FULL, (4.0, BOW), (6.0, KNOCK), (5.0, EVEN))
    settled = settled_share(tried)
    assert angle_from_share(settled, FULL, rad(0.6)) == angle_from_share(settled, FULL)
    mixed = settled_share(tried + log(-FULL, (-5.0, EVEN)))
    cant, error = angle_from_share(mixed, np.array([FULL, -FULL, rad(7.0)]), rad(0.6))
    of_full = np.sqrt(error**2 - (mixed.error * cant / mixed.share) ** 2)
    assert of_full / (mixed.share * rad(0.6)) == pytest.approx([0.25, 0.75, 1.0])


def test_a_full_cant_measured_wrong_leaves_the_cant_of_its_own_trials_alone() -> None:
    felt = [(3.0, BOW), (6.0, KNOCK), (5.0, EVEN), (4.0, EVEN), (4.0, BOW), (5.0, KNOCK)]
    right, wrong = (
        angle_from_share(settled_share(log(full, *felt)), full)[0] for full in (FULL, 1.1 * FULL)
    )
    assert wrong == pytest.approx(right, abs=rad(0.02))


@given(tried=LOGS)
def test_the_share_and_its_error_are_those_of_quadrature(tried: list[Tried]) -> None:
    # The same integrals by scipy's normal distribution and quadrature, on a finer grid.
    shares = np.linspace(-0.6, 1.6, 1501)
    outside = np.maximum(np.maximum(-shares, shares - 1.0), 0.0)
    total = np.zeros_like(shares)
    for (even, of_even), (slip, of_slip) in product(FEELS_EVEN, SLIPS):
        weight = of_even * of_slip * norm.pdf(outside, scale=BEYOND)
        for one in tried:
            lack = (shares - one.share) * abs(one.full)
            above, below = norm.sf(even, lack, BLUR), norm.cdf(-even, lack, BLUR)
            chance = {1: above, -1: below, 0: 1.0 - above - below}[one.lacked]
            weight = weight * ((1.0 - slip) * chance + slip / 3.0)
        total += weight
    mean = trapezoid(total * shares) / trapezoid(total)
    error = math.sqrt(trapezoid(total * (shares - mean) ** 2) / trapezoid(total))
    settled = settled_share(tried)
    if tried:
        # A thousandth of full cant is a hundredth of a degree.
        assert settled.share == pytest.approx(mean, abs=1e-3)
        assert settled.error == pytest.approx(error, abs=1e-3)
