"""The answer: known from elsewhere, against a root-finder, and what holds for any rider."""

from __future__ import annotations

import json
from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from fit_chain import Chain
from fit_riders import demo, many_riders, practice, rad, random_setups

from geometry import Body, Boots, Mount, Stance, solve
from geometry.boots import TO_THE_STOP
from geometry.fitting.answer import (
    USUAL_TERMS,
    Answer,
    Mounts,
    Terms,
    answer_of,
    over_riding_bend,
)
from geometry.fitting.inputs import PostureInputs, input_named, is_angle, shifted, some_of

CASES = Path(__file__).parents[2] / "cases" / "worked_postures.json"
WORKED = json.loads(CASES.read_text(encoding="utf-8"))["answers"]["cases"]
LIMIT = USUAL_TERMS.in_plane


def setup_of(changes: dict[str, float]) -> PostureInputs:
    """The demo rider with some values changed, in mm and degrees."""
    setup = demo()
    for name, value in changes.items():
        inner = rad(value) if is_angle(name) else value
        setup = shifted(setup, {name: inner - input_named(setup, name)})
    return setup


def in_degrees(values: np.ndarray) -> list[float]:
    """Front and rear of the first rider."""
    return np.degrees(values[:, 0]).tolist()


@pytest.mark.parametrize("name", WORKED)
def test_the_answer_is_the_worked_one(name: str) -> None:
    found, worked = answer_of(setup_of(WORKED[name]["changes"])), WORKED[name]
    assert in_degrees(found.lift) == pytest.approx(worked["lift"], abs=1.5e-3)
    assert in_degrees(found.cant) == pytest.approx(worked["cant"], abs=1.5e-3)
    for foot, interval in enumerate(worked["interval"]):
        ends = in_degrees(found.low)[foot], in_degrees(found.high)[foot]
        assert ends == pytest.approx(interval, abs=1.5e-3)


# Common practice, no source: what such riders begin with.
@pytest.mark.parametrize(
    ("angles", "lifts", "cants"),
    [
        ((0.0, 0.0), (0.0, 0.0), (5.28, 5.28)),
        ((15.0, -15.0), (0.0, 0.0), (2.60, 2.60)),
        ((60.0, 60.0), (5.52, -5.08), (0.0, 0.0)),
        ((90.0, 90.0), (8.77, -8.56), (-4.49, -4.74)),
    ],
)
def test_practice_riders_begin_with_what_practice_found(
    angles: tuple[float, float], lifts: tuple[float, float], cants: tuple[float, float]
) -> None:
    found = answer_of(practice(*angles))
    assert in_degrees(found.lift) == pytest.approx(lifts, abs=0.006)
    assert in_degrees(found.cant) == pytest.approx(cants, abs=0.006)


def cants_by_chain(
    setup: PostureInputs, lifts: list[float], bend: float, way: float
) -> list[float]:
    """Cants of both feet at which both knees stand at the limit at one depth, by the chain."""
    crouch = replace(setup.crouch, knee_bend=bend)
    chain = Chain(setup._replace(crouch=crouch))
    fixed = [
        {
            "lift": lift,
            "lean": chain.held(i) + way * chain.side(i)[1].side_give,
            "off": -way * LIMIT,
        }
        for i, lift in enumerate(lifts)
    ]
    legs = chain.closed(("cant", "cant"), fixed)
    return [leg["cant"] for leg in legs]


def worst_depths(setup: PostureInputs, mounts: Mounts, way: float) -> np.ndarray:
    """The depth at which each knee leans farthest, bow-legged for a way of one (rad)."""
    bend = over_riding_bend(setup, USUAL_TERMS, mounts, depths=6)
    return bend.bends[np.argmin(way * bend.off_plane[:, 0], axis=1)]


RIDERS = [
    each._replace(crouch=replace(each.crouch, hips_turned=0.0))
    for each in random_setups(25, seed=20250110)
]


@pytest.mark.parametrize("way", [1.0, -1.0], ids=["low", "high"])
def test_the_ends_are_those_of_a_root_finder_on_the_hinge_chain(way: float) -> None:
    """The engine is MuJoCo, the root-finder scipy's: neither knows the closed forms."""
    compared = 0
    for setup in RIDERS:
        found = answer_of(setup)
        ends = found.low if way > 0.0 else found.high
        depths = worst_depths(setup, Mounts(found.lift, ends), way)
        if np.isnan(ends).any() or depths[0] != depths[1]:
            continue
        ours = in_degrees(ends)
        theirs = cants_by_chain(setup, found.lift[:, 0].tolist(), float(depths[0]), way)
        assert ours == pytest.approx(np.degrees(theirs), abs=1e-4)
        compared += 1
    assert compared >= 10


def test_a_lift_brings_its_boot_just_a_degree_from_the_stop_on_the_hinge_chain() -> None:
    setup = demo(60.0, 60.0)
    found = answer_of(setup)
    middle = replace(setup.crouch, knee_bend=USUAL_TERMS.middle)
    chain = Chain(setup._replace(crouch=middle))
    # No cant, and what the legs want boot and ankle can give: the shanks lean freely.
    fixed = [
        {"cant": 0.0, "off": 0.0, "lift": 0.0, "flex": chain.side(i)[1].forward_lean + away}
        for i, away in enumerate((-rad(14.0), rad(14.0)))
    ]
    legs = chain.closed(("lean", "lean"), fixed, (True, True))
    lifts = [np.degrees(leg["lift"]) for leg in legs]
    assert in_degrees(found.lift) == pytest.approx(lifts, abs=1e-4)


MANY = many_riders(10_000, seed=11)


@cache
def answers() -> Answer:
    """Of all of them, when first asked for."""
    return answer_of(MANY)


def known(found: Answer) -> np.ndarray:
    return ~np.isnan(found.cant).any(axis=0)


def test_nearly_every_rider_has_an_answer() -> None:
    assert known(answers()).mean() > 0.99


@pytest.mark.parametrize("which", ["low", "high"])
def test_at_an_end_of_the_interval_the_worst_depth_is_just_at_the_limit(which: str) -> None:
    ends = getattr(answers(), which)
    bend = over_riding_bend(MANY, USUAL_TERMS, Mounts(answers().lift, ends))
    farthest = np.fmin.reduce if which == "low" else np.fmax.reduce
    worst = farthest(bend.off_plane, axis=-1)[:, known(answers())]
    aim = -LIMIT if which == "low" else LIMIT
    assert worst == pytest.approx(np.full_like(worst, aim), abs=1e-5)


def worst_of(mounts: Mounts) -> np.ndarray:
    """Largest angle out of its plane over the riding bend (degrees), by foot and rider."""
    bend = over_riding_bend(MANY, USUAL_TERMS, mounts)
    return np.degrees(np.fmax.reduce(np.abs(bend.off_plane), axis=-1))


def test_with_the_answer_on_no_knee_is_out_further_than_a_tenth_of_a_degree_more() -> None:
    flat = np.zeros_like(answers().cant)
    on, bare = worst_of(answers().mounts), worst_of(Mounts(answers().lift, flat))
    has = known(answers())[None] & np.ones_like(flat, dtype=bool)
    assert ((on <= 1.1) | (on <= bare + 0.1))[has].all()
    held = has & (answers().low <= answers().cant) & (answers().cant <= answers().high)
    assert on[held.all(axis=0)[None] & held].max() <= 1.1


def test_a_boot_whose_lift_is_not_at_its_largest_keeps_a_degree_from_its_stop() -> None:
    has = known(answers())
    body, boots, stance, crouch = some_of(MANY, has)
    lift, cant = answers().lift[:, has], answers().cant[:, has]
    mounted = replace(
        stance,
        front=Mount(stance.front.angle, lift[0], cant[0]),
        rear=Mount(stance.rear.angle, lift[1], cant[1]),
    )
    legs = solve(body, boots, mounted, replace(crouch, knee_bend=USUAL_TERMS.middle)).legs
    for foot, (leg, boot) in enumerate(zip(legs, boots.both, strict=True)):
        free = np.abs(lift[foot]) < USUAL_TERMS.largest_lift - 1e-9
        left = boot.flex_range - np.abs(leg.boot_flex - boot.forward_lean)
        assert left[free].min() >= TO_THE_STOP - 1e-6


def test_the_answer_never_passes_full_cant_nor_what_is_allowed() -> None:
    cant, full = answers().cant[:, known(answers())], answers().full[:, known(answers())]
    assert (np.abs(cant) <= np.abs(full) + 1e-12).all()
    assert (cant * full >= 0.0).all()
    assert np.abs(cant).max() <= USUAL_TERMS.largest_cant
    assert np.nanmax(np.abs(answers().lift)) <= USUAL_TERMS.largest_lift


def test_a_rider_s_answer_does_not_depend_on_who_else_is_asked() -> None:
    for place in (0, 7, 311):
        alone = answer_of(some_of(MANY, slice(place, place + 1)))
        for name in Answer.__slots__:
            together = getattr(answers(), name)[:, place : place + 1]
            assert getattr(alone, name) == pytest.approx(together, abs=1e-9, nan_ok=True)


def mirrored(asked: PostureInputs) -> PostureInputs:
    """The rider standing the other way round: front and rear change places, angles their signs."""
    body, boots, stance, crouch = asked
    return PostureInputs(
        Body(body.rear, body.front, body.hip_spacing, body.neutral_spacing),
        Boots(boots.rear, boots.front),
        Stance(
            replace(stance.rear, angle=-stance.rear.angle),
            replace(stance.front, angle=-stance.front.angle),
            stance.length,
            -stance.across,
        ),
        replace(crouch, hip_shift=-crouch.hip_shift, hips_turned=-crouch.hips_turned),
    )


def test_the_mirrored_rider_gets_the_mirrored_answer() -> None:
    some = some_of(MANY, slice(0, 200))
    straight, mirror = answer_of(some), answer_of(mirrored(some))
    for name in Answer.__slots__:
        assert getattr(mirror, name)[::-1] == pytest.approx(
            getattr(straight, name), abs=2e-7, nan_ok=True
        )


def test_one_foot_alone_is_answered_with_the_other_as_it_stands() -> None:
    asked = demo(0.0, 0.0)
    free = np.full((2, 1), np.nan)
    held = Mounts(free.copy(), free.copy())
    held.lift[1], held.cant[1] = 0.0, 0.0
    found = answer_of(asked, held=held)
    assert found.cant[1, 0] == found.lift[1, 0] == 0.0
    mounts = Mounts(found.lift, found.cant)
    bend = over_riding_bend(asked, USUAL_TERMS, mounts)
    assert np.abs(bend.off_plane[0]).max() == pytest.approx(LIMIT, abs=1e-6)
    both = answer_of(asked)
    assert found.cant[0, 0] != pytest.approx(both.cant[0, 0], abs=1e-6)


def test_where_no_posture_settles_there_is_no_answer() -> None:
    found = answer_of(demo(0.0, 0.0, length=2000.0))
    for name in Answer.__slots__:
        assert np.isnan(getattr(found, name)).all()


def test_nothing_allowed_leaves_both_soles_flat() -> None:
    found = answer_of(demo(0.0, 0.0), Terms(largest_lift=0.0, largest_cant=0.0))
    assert in_degrees(found.cant) == in_degrees(found.lift) == [0.0, 0.0]
    assert found.low[0, 0] > 0.0
