"""What holds of a fit for any rider in any stance."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from fit_riders import demo, rad, random_setups
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry import Body, Boot, Boots, Crouch, LegMeasures, Mount, Stance, solve
from geometry.fitting.fit import fit_of, fit_reasons, start_mounts
from geometry.fitting.inputs import (
    CROUCH,
    ONE_SIDED,
    PELVIS,
    STANCE,
    PostureInputs,
    input_named,
    is_angle,
    shifted,
)
from geometry.fitting.lift_pairs import lifts_within
from geometry.fitting.smallest_mounts import (
    canted,
    cants_leaving,
    full_cants,
    full_lifts,
    least_cants,
    least_lifts,
    lifted,
    lifts_leaving,
    off_rest,
)


def degrees(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high).map(rad)


@st.composite
def setups(draw: st.DrawFn) -> PostureInputs:
    hip, knee = draw(st.floats(550.0, 1100.0)), draw(st.floats(0.5, 0.6))

    def leg() -> LegMeasures:
        own = hip * draw(st.floats(0.98, 1.02))
        ankle, foot = draw(st.floats(0.06, 0.1)), draw(st.floats(160.0, 330.0))
        return LegMeasures(own, own * knee, own * ankle, foot, draw(degrees(-15.0, 15.0)))

    def boot() -> Boot:
        return Boot(
            draw(st.floats(0.0, 80.0)),
            draw(degrees(0.0, 30.0)),
            draw(degrees(2.0, 25.0)),
            draw(degrees(0.0, 12.0)),
            draw(degrees(-5.0, 5.0)),
        )

    def mount() -> Mount:
        return Mount(
            draw(degrees(-30.0, 95.0)), draw(degrees(-15.0, 15.0)), draw(degrees(-12.0, 12.0))
        )

    body = Body(leg(), leg(), draw(st.floats(110.0, 220.0)), draw(st.floats(140.0, 400.0)))
    length, across = hip * draw(st.floats(0.3, 0.75)), draw(st.floats(-80.0, 80.0))
    crouch = Crouch(
        draw(degrees(5.0, 110.0)),
        draw(degrees(-30.0, 30.0)),
        draw(st.floats(-80.0, 80.0)),
        draw(degrees(0.0, 60.0)),
        draw(st.floats(-60.0, 60.0)),
    )
    stance = Stance(mount(), mount(), length, across)
    return PostureInputs(body, Boots(boot(), boot()), stance, crouch)


@given(setups(), st.sampled_from([0.0, 0.5, 1.0]))
def test_the_cants_nearest_flat_leave_the_allowance_or_are_none(
    setup: PostureInputs, part: float
) -> None:
    body, boots, stance, crouch = setup
    gives = [part * boot.side_give for boot in boots.both]
    cants = cants_leaving(*setup, tuple((-give, give) for give in gives))
    # Steeper than any part is made.
    if not np.maximum(abs(cants.front), abs(cants.rear)) < rad(30.0):
        return
    posture = solve(body, boots, canted(stance, cants.front, cants.rear), crouch)
    for leg, cant, give in zip(posture.legs, (cants.front, cants.rear), gives, strict=True):
        assert abs(leg.wanted_give) <= give + 1e-8
        assert cant == 0.0 or abs(leg.wanted_give) == pytest.approx(give, abs=1e-8)
        assert cant == 0.0 or leg.wanted_give * cant >= -1e-8
        assert abs(leg.off_plane) < 1e-7


@given(setups(), st.sampled_from([0.0, 0.5, 1.0]))
def test_the_lifts_nearest_zero_leave_the_allowance_or_are_none(
    setup: PostureInputs, part: float
) -> None:
    body, boots, stance, crouch = setup
    ranges = tuple(part * boot.flex_range for boot in boots.both)
    lifts = lifts_leaving(*setup, allowances=ranges)
    if np.isnan(lifts.front):
        return
    left = off_rest(body, boots, lifted(stance, lifts.front, lifts.rear), crouch)
    for off, lift, allowance in zip(left, lifts, ranges, strict=False):
        assert abs(off) <= allowance + 1e-7
        assert lift == 0.0 or abs(off) == pytest.approx(allowance, abs=1e-7)
        # Toe lift is for a boot that lacks flex, heel lift for one that has too much.
        assert lift == 0.0 or part == 0.0 or off * lift < 0.0


@given(setups())
def test_a_stance_seen_from_the_tail_swaps_its_mounts(setup: PostureInputs) -> None:
    body, boots, stance, crouch = setup
    front, rear = (replace(mount, angle=-mount.angle) for mount in (stance.rear, stance.front))
    mirrored = PostureInputs(
        replace(body, front=body.rear, rear=body.front),
        Boots(boots.rear, boots.front),
        Stance(front, rear, stance.length, -stance.across),
        replace(crouch, hips_turned=-crouch.hips_turned, hip_shift=-crouch.hip_shift),
    )
    for asked in (least_cants, least_lifts):
        ours, theirs = asked(*setup), asked(*mirrored)
        assert theirs.front == pytest.approx(ours.rear, abs=1e-7, nan_ok=True)
        assert theirs.rear == pytest.approx(ours.front, abs=1e-7, nan_ok=True)


@given(setups(), st.floats(0.75, 1.25))
def test_a_rider_of_another_size_on_a_stance_of_that_size_needs_the_same(
    setup: PostureInputs, size: float
) -> None:
    lengths = [name for name in ONE_SIDED + PELVIS + STANCE + CROUCH if not is_angle(name)]
    scaled = shifted(setup, {n: (size - 1.0) * input_named(setup, n) for n in lengths})
    ours, theirs = full_cants(*setup), full_cants(*scaled)
    assert theirs.front == pytest.approx(ours.front, abs=1e-8, nan_ok=True)
    assert theirs.rear == pytest.approx(ours.rear, abs=1e-8, nan_ok=True)


@given(setups())
@settings(max_examples=60)
def test_the_sole_that_cants_itself_settles_as_one_that_was_canted(setup: PostureInputs) -> None:
    cants = full_cants(*setup)
    body, boots, stance, crouch = setup
    if not np.maximum(abs(cants.front), abs(cants.rear)) < rad(30.0):
        return
    left = off_rest(body, boots, canted(stance, cants.front, cants.rear), crouch)
    assert cants.off_rest == pytest.approx(left, abs=1e-7)


@given(setups())
def test_a_fit_has_an_answer_or_says_why_and_never_both(setup: PostureInputs) -> None:
    fit = fit_of(*setup)
    front, rear, lift = (words.item() for words in fit_reasons(fit))
    assert bool(front) == bool(np.isnan(fit.front.full_cant + fit.front.least_cant))
    assert bool(rear) == bool(np.isnan(fit.rear.full_cant + fit.rear.least_cant))
    assert bool(lift) == bool(np.isnan(fit.front.full_lift + fit.front.least_lift))
    values = [getattr(fit.front, name) for name in type(fit.front).__slots__]
    assert all(np.isnan(value) or abs(value) <= rad(60.0) + 1e-9 for value in values)


@given(st.floats(-25.0, 25.0).map(rad), degrees(-8.0, 8.0))
def test_the_lifts_and_cants_that_a_stance_has_do_not_change_where_to_start(
    lift: float, cant: float
) -> None:
    body, boots, stance, crouch = demo(75.0, 70.0)
    plain = start_mounts(body, boots, stance, crouch)
    tilted = canted(lifted(stance, lift, -0.5 * lift), cant, -cant)
    other = start_mounts(body, boots, tilted, crouch)
    assert other.front_lift == pytest.approx(plain.front_lift, abs=1e-8)
    assert other.rear_cant == pytest.approx(plain.rear_cant, abs=1e-8)


@given(
    st.tuples(st.floats(-0.8, 0.8), st.floats(-0.8, 0.8)),
    st.tuples(st.floats(0.6, 1.6), st.floats(0.6, 1.6)),
    st.tuples(st.floats(-0.3, 0.3), st.floats(-0.3, 0.3)),
    st.floats(0.0, 1.0),
)
def test_the_pair_of_lifts_of_two_boots_that_pull_at_each_other_is_found(
    lifts: tuple[float, float],
    own: tuple[float, float],
    other: tuple[float, float],
    bend: float,
) -> None:
    def off(front: float, rear: float) -> tuple[float, float]:
        x, y = front - lifts[0], rear - lifts[1]
        return (own[0] * x + other[0] * y + bend * x**3, own[1] * y + other[1] * x + bend * y**3)

    found = lifts_within(off, off(0.0, 0.0), (0.0, 0.0))
    assert found == pytest.approx(lifts, abs=1e-8)


def test_a_pair_at_the_edge_of_what_is_known_is_found_from_the_known_side() -> None:
    def known_below_half(front: float, rear: float) -> tuple[float, float]:
        known = front < 0.5
        return (2.2 * (front - 0.45), rear + 0.1) if known else (float("nan"), float("nan"))

    # The first step, by a slope far too low, lands where nothing is known.
    found = lifts_within(known_below_half, known_below_half(0.0, 0.0), (0.0, 0.0))
    assert found == pytest.approx((0.45, -0.1))


def test_boots_without_a_pair_of_lifts_in_range_have_none() -> None:
    def never(front: float, rear: float) -> tuple[float, float]:
        return front + 5.0, rear

    assert np.isnan(lifts_within(never, (5.0, 0.0), (0.0, 0.0))).all()


def test_no_pair_of_lifts_depends_on_its_neighbours() -> None:
    starts = np.array([np.nan, -0.5, 5.0, 0.2])

    def off(front: np.ndarray, rear: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        return front + starts + 0.3 * front**3, rear - 0.5 * front

    together = lifts_within(off, off(0.0 * starts, 0.0 * starts), (0.1, 0.0))
    for i, start in enumerate(starts.tolist()):

        def alone(front: float, rear: float, start: float = start) -> tuple[float, float]:
            return front + start + 0.3 * front**3, rear - 0.5 * front

        single = lifts_within(alone, alone(0.0, 0.0), (0.1, 0.0))
        assert [each[i] for each in together] == pytest.approx(single, abs=1e-12, nan_ok=True)


MANY = random_setups(250, seed=77)


def together(setups_: list[PostureInputs]) -> PostureInputs:
    """Single set-ups as one of arrays."""
    base = setups_[0]
    names = (*ONE_SIDED, *PELVIS, *STANCE, *CROUCH)
    return shifted(
        base,
        {
            name: np.array([input_named(each, name) - input_named(base, name) for each in setups_])
            for name in names
        },
    )


@pytest.mark.parametrize("asked", [full_cants, least_cants, full_lifts, least_lifts])
def test_no_rider_s_mounts_depend_on_who_else_is_asked_about(asked: Callable) -> None:
    found = asked(*together(MANY))
    alone = [asked(*setup) for setup in MANY]
    for end in ("front", "rear"):
        own = [getattr(each, end) for each in alone]
        assert getattr(found, end) == pytest.approx(own, abs=1e-9, nan_ok=True)


def test_a_stance_just_at_the_end_of_what_the_boot_gives_is_not_missed() -> None:
    # A boot with next to no give has the equations' kink just where its full cant is.
    body = Body(
        LegMeasures(554.296875, 277.1484375, 34.6435546875, 175.0, rad(15.0)),
        LegMeasures(545.703125, 272.8515625, 34.1064453125, 190.0),
        hip_spacing=110.0,
        neutral_spacing=169.0,
    )
    boots = Boots(
        Boot(3.0, 0.0, rad(2.0), rad(3.0), rad(5.0)),
        Boot(0.0, rad(9.0), rad(25.0), rad(1e-6), rad(5.0)),
    )
    stance = Stance(Mount(rad(19.0), rad(11.0)), Mount(0.0, rad(2.0)), 275.0, 9.0)
    crouch = Crouch(rad(21.0), rad(6.0), 0.0, rad(9.0), 4.0)
    cants = full_cants(body, boots, stance, crouch)
    left = off_rest(body, boots, canted(stance, cants.front, cants.rear), crouch)
    assert cants.off_rest == pytest.approx(left, abs=1e-7)
