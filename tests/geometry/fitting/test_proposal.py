"""The mounts proposed: half degrees that contradict nothing, for any rider."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from fit_riders import demo, many_riders, practice, rad

from geometry import Boots, Mount, solve
from geometry.fitting.answer import Mounts, Terms, over_riding_bend
from geometry.fitting.inputs import PostureInputs
from geometry.fitting.proposal import STEP, Proposal, begun_with, proposal_of

TERMS = begun_with(Terms())
MANY = many_riders(1000, seed=12)
MADE = proposal_of(MANY, TERMS)
KNOWN = ~np.isnan(MADE.mounts.cant).any(axis=0)


def worst(asked: PostureInputs, mounts: Mounts) -> np.ndarray:
    """The worst off-plane angle of both knees over the riding bend (deg)."""
    with_any = Mounts(np.nan_to_num(mounts.lift), np.nan_to_num(mounts.cant))
    bend = over_riding_bend(asked, TERMS, with_any, depths=11)
    return np.degrees(np.nanmax(np.abs(bend.off_plane), axis=-1))


def degrees_of(made: Proposal) -> tuple[list[float], list[float]]:
    lift, cant = made.mounts
    return np.degrees(lift[:, 0]).tolist(), np.degrees(cant[:, 0]).tolist()


# What the rounding of the worked answers comes to, by hand.
@pytest.mark.parametrize(
    ("asked", "lifts", "cants"),
    [
        (demo(), (1.0, 0.0), (0.0, 1.5)),
        (demo(0.0, 0.0), (0.0, 0.0), (5.5, 5.5)),
        (demo(15.0, -15.0), (0.0, 0.0), (2.5, 2.5)),
        (demo(60.0, 60.0), (6.0, -5.5), (0.0, 0.0)),
        (practice(0.0, 0.0), (0.0, 0.0), (5.5, 5.5)),
        (practice(15.0, -15.0), (0.0, 0.0), (3.0, 3.0)),
    ],
)
def test_rounding_goes_away_from_flat(
    asked: PostureInputs, lifts: tuple[float, float], cants: tuple[float, float]
) -> None:
    found = degrees_of(proposal_of(asked, TERMS))
    assert found[0] == pytest.approx(lifts)
    assert found[1] == pytest.approx(cants)


def test_all_is_in_half_degrees_and_within_what_one_begins_with() -> None:
    for values, most in ((MADE.mounts.lift, 9.0), (MADE.mounts.cant, 6.0)):
        some = values[:, KNOWN]
        assert some / STEP == pytest.approx(np.rint(some / STEP), abs=1e-9)
        assert np.degrees(np.abs(some)).max() <= most + 1e-9


def test_none_is_needed_where_none_is_proposed_and_no_knee_is_flagged() -> None:
    on = worst(MANY, MADE.mounts)
    none = KNOWN & (MADE.mounts.cant == 0.0)
    # What is shown to a tenth of a degree counts: 1.04 is 1.0.
    no_flag = on < 1.05
    assert (MADE.cant_is_enough == no_flag)[:, KNOWN].all()
    assert (((MADE.mounts.cant == 0.0) & MADE.cant_is_enough) == (none & no_flag))[:, KNOWN].all()


def test_a_cant_is_proposed_only_where_without_it_the_knee_is_flagged() -> None:
    for foot in range(2):
        bare = MADE.mounts.cant.copy()
        bare[foot] = 0.0
        without = worst(MANY, MADE.mounts._replace(cant=bare))[foot]
        canted = KNOWN & (MADE.mounts.cant[foot] != 0.0)
        assert without[canted].min() > 1.05 - 1e-6


STEPPED = demo()._replace(
    boots=Boots.equal(
        sole_thickness=25.0,
        forward_lean=rad(18.0),
        flex_range=np.radians(np.linspace(12.0, 17.0, 2501)),
        side_give=rad(4.0),
    )
)
"""Boots whose play grows by thousandths, so that every way to be just short of it occurs."""


def boots_left(asked: PostureInputs, mounts: Mounts) -> np.ndarray:
    """What each boot keeps to its stop at the middle of the bend (deg)."""
    body, boots, stance, crouch = asked
    lift, cant = mounts
    mounted = replace(
        stance,
        front=Mount(stance.front.angle, lift[0], cant[0]),
        rear=Mount(stance.rear.angle, lift[1], cant[1]),
    )
    legs = solve(body, boots, mounted, replace(crouch, knee_bend=TERMS.middle)).legs
    return np.degrees(
        [
            boot.flex_range - np.abs(leg.boot_flex - boot.forward_lean)
            for leg, boot in zip(legs, boots.both, strict=True)
        ]
    )


@pytest.mark.parametrize("asked", [MANY, STEPPED], ids=["many", "stepped"])
def test_a_lift_is_proposed_just_where_its_boot_is_shown_to_keep_less_than_a_degree(
    asked: PostureInputs,
) -> None:
    # Shown to a tenth: 0.95 is a degree.  Rounded cants move a boot by thousandths of one.
    made = proposal_of(asked, TERMS)
    known = ~np.isnan(made.mounts.cant).any(axis=0)
    left = boots_left(asked, made.mounts)
    assert (made.lift_is_enough == (left > 0.95))[:, known].all()
    steepest = np.abs(made.mounts.lift) > TERMS.largest_lift - STEP
    assert (made.lift_is_enough | steepest)[:, known].all()
    for foot in range(2):
        bare = made.mounts.lift.copy()
        bare[foot] = 0.0
        without = boots_left(asked, made.mounts._replace(lift=bare))[foot]
        lifted = known & (made.mounts.lift[foot] != 0.0)
        assert without[lifted].max() < 0.95 + 1e-6


def test_no_knee_is_beyond_1_1_deg_where_the_answer_is_enough_nor_worse_than_flat() -> None:
    on = worst(MANY, MADE.mounts)
    bare = worst(MANY, MADE.mounts._replace(cant=np.zeros_like(on)))
    assert on[MADE.cant_is_enough & KNOWN].max() <= 1.1
    assert (on <= np.maximum(1.1, bare + 0.1))[:, KNOWN].all()


def test_a_growing_rider_begins_with_no_more_than_3_deg() -> None:
    lifts, cants = degrees_of(proposal_of(demo(90.0, 90.0), begun_with(Terms(), growing=True)))
    assert lifts == pytest.approx([3.0, -3.0])
    assert cants == pytest.approx([-3.0, -3.0])


def test_what_the_maker_allows_holds_even_between_half_degrees() -> None:
    terms = begun_with(Terms(largest_lift=rad(2.3), largest_cant=rad(1.8)))
    lifts, cants = degrees_of(proposal_of(demo(90.0, 90.0), terms))
    assert lifts == pytest.approx([2.0, -2.0])
    assert cants == pytest.approx([-1.5, -1.5])


def test_one_foot_alone_leaves_the_other_as_it_stands() -> None:
    nothing = np.full((2, 1), np.nan)
    held = Mounts(nothing.copy(), nothing.copy())
    held.lift[1], held.cant[1] = rad(-2.0), rad(0.7)
    lifts, cants = degrees_of(proposal_of(demo(), TERMS, held))
    assert (lifts[1], cants[1]) == pytest.approx((-2.0, 0.7))
    assert lifts[0] % 0.5 == pytest.approx(0.0, abs=1e-9)


def test_where_no_posture_settles_nothing_is_proposed() -> None:
    made = proposal_of(demo(0.0, 0.0, length=2000.0), TERMS)
    assert np.isnan(made.mounts.cant).all()
    assert not made.cant_is_enough.any()
