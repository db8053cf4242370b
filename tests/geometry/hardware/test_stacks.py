"""Every stack that the parts allow, once, and what turning the binding does to it."""

from __future__ import annotations

import math
from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from parts_riders import across, along, parts_of, rad, turnable

from geometry import FRONT, REAR, Mount
from geometry.hardware.parts import angle_between_soles, stack_lift_and_cant
from geometry.hardware.stacks import Stacks, after_turning, sharing_allowed, simplest, stacks_of
from geometry.sole import sole_of

sides = st.sampled_from((FRONT, REAR))
angles = st.floats(rad(-60.0), rad(90.0))


def made_of(stacks: Stacks) -> list[tuple[tuple[str, float], ...]]:
    """Names and bearings in whole degrees of every stack, from the toe."""
    builts = [stacks.built(i, 0.0, FRONT) for i in range(len(stacks))]
    return [
        tuple((s.part.name, round(math.degrees(s.bearing))) for s in built.settings)
        for built in builts
    ]


def test_fixed_slopes_can_be_put_in_either_way_round() -> None:
    assert made_of(stacks_of(parts_of(along(), across(), stack=1))) == [
        (),
        (("block", 0),),
        (("block", 180),),
        (("side wedge", 90),),
        (("side wedge", -90),),
    ]


def test_a_turnable_part_takes_every_step_of_a_full_turn() -> None:
    found = made_of(stacks_of(parts_of(turnable(step=45.0), stack=1)))
    assert [bearing for stack in found for _, bearing in stack] == [0, 45, 90, 135, 180, -135, -90,
                                                                    -45]  # fmt: skip


def test_stacks_hold_every_order_and_no_more_parts_than_there_are() -> None:
    found = set(made_of(stacks_of(parts_of(along(count=1), across(count=2), stack=3))))
    kinds = {("block", 0): 1, ("block", 180): 1, ("side wedge", 90): 2, ("side wedge", -90): 2}
    every = {stack for size in range(4) for stack in product(kinds, repeat=size)}
    for name, most in (("block", 1), ("side wedge", 2)):
        every = {stack for stack in every if [part for part, _ in stack].count(name) <= most}
    assert found == every


def test_the_first_stack_is_no_part_and_flat() -> None:
    built = stacks_of(parts_of(turnable())).built(0, rad(30.0), FRONT)
    assert (built.settings, built.lift, built.cant, built.height) == ((), 0.0, 0.0, 0.0)


def test_thicknesses_add_up_to_the_added_height() -> None:
    stacks = stacks_of(parts_of(turnable(), along(), stack=2))
    heights = {9.0: 12, 6.0: 2, 18.0: 12 * 12, 15.0: 2 * 2 * 12, 12.0: 4, 0.0: 1}
    assert {h: int((stacks.height == h).sum()) for h in heights} == heights
    assert sum(heights.values()) == len(stacks)


@given(angle=angles, side=sides, turns=st.booleans(), data=st.data())
def test_a_sole_is_the_one_that_its_settings_make(
    angle: float, side: float, turns: bool, data: st.DataObject
) -> None:
    parts = parts_of(turnable(), along(), turns_with_binding=turns)
    stacks = stacks_of(parts)
    index = data.draw(st.integers(0, len(stacks) - 1))
    built = stacks.built(index, angle, side)
    made = stack_lift_and_cant(
        [s.part.slope for s in built.settings], [s.bearing for s in built.settings]
    )
    assert (built.lift, built.cant) == pytest.approx(made, abs=1e-15)
    lifts, cants = stacks.soles(angle, side)
    assert (lifts[index], cants[index]) == pytest.approx(made, abs=1e-15)


@given(angle=angles, side=sides)
def test_parts_that_keep_their_bearing_on_the_board_are_counted_from_straight_across(
    angle: float, side: float
) -> None:
    stacks = stacks_of(parts_of(turnable(step=30.0), stack=1, turns_with_binding=False))
    on_board = [stacks.built(i, angle, side).settings[0].on_board for i in range(1, len(stacks))]
    assert np.allclose(np.array(on_board) / rad(30.0), np.rint(np.array(on_board) / rad(30.0)))


@given(old=angles, new=angles, side=sides, data=st.data())
def test_turning_on_parts_that_stay_is_turning_on_a_plane_that_stays(
    old: float, new: float, side: float, data: st.DataObject
) -> None:
    stacks = stacks_of(parts_of(turnable(), turns_with_binding=False))
    built = stacks.built(data.draw(st.integers(0, len(stacks) - 1)), old, side)
    found = after_turning(built, new, side, turns_with_binding=False)
    before = sole_of(Mount(old, built.lift, built.cant), side).normal
    assert sole_of(Mount(new, *found), side).normal == pytest.approx(before, abs=1e-12)


def test_turning_on_parts_that_turn_along_changes_nothing_for_the_foot() -> None:
    stacks = stacks_of(parts_of(turnable(), along()))
    built = stacks.built(len(stacks) - 1, 0.0, FRONT)
    lift, cant = after_turning(built, np.array([0.0, 0.5, 1.0]), FRONT, turns_with_binding=True)
    assert np.all(lift == built.lift)
    assert np.all(cant == built.cant)


def test_a_fixed_slope_turns_with_the_foot_even_where_turnable_parts_stay() -> None:
    stacks = stacks_of(parts_of(along(), turns_with_binding=False))
    built = stacks.built(1, 0.0, FRONT)
    found = after_turning(built, rad(40.0), FRONT, turns_with_binding=False)
    assert found == (built.lift, built.cant)


@settings(max_examples=30)
@given(angle=angles, side=sides, turns=st.booleans())
def test_soles_left_out_are_near_one_of_no_more_parts(
    angle: float, side: float, turns: bool
) -> None:
    every = stacks_of(parts_of(turnable(step=20.0), along(), turns_with_binding=turns))
    kept, apart = simplest(every, rad(0.5)), rad(0.5)
    assert len(kept) < len(every)
    few, many = kept.soles(angle, side), every.soles(angle, side)
    errors = angle_between_soles(
        (many[0][:, None], many[1][:, None]), (few[0][None, :], few[1][None, :])
    )
    # Cells are as wide as "apart" in lift and in cant, wherever their edges run; a part that
    # stays may be a cell's diagonal off for each of the two angles in which soles are compared.
    simpler = kept.size[None, :] <= every.size[:, None]
    assert np.where(simpler, errors, np.inf).min(axis=1).max() < (1.5 if turns else 2.5) * apart


def test_nothing_is_left_out_when_all_are_asked_for() -> None:
    every = stacks_of(parts_of(turnable(), along()))
    assert simplest(every, 0.0) is every


def test_both_feet_share_the_parts_that_there_are() -> None:
    stacks = stacks_of(parts_of(along(count=3), stack=2))
    allowed = sharing_allowed(stacks, stacks)
    total = stacks.size[:, None] + stacks.size[None, :]
    assert np.array_equal(allowed, total <= 3)
