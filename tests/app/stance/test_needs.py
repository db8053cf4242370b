"""What each binding needs, as the window and the command line say it."""

from __future__ import annotations

from dataclasses import replace
from math import degrees, isnan, nan

import pytest
from both_sides import repeats_of_both
from hypothesis import given, settings
from hypothesis import strategies as st

from app.rider.inputs import (
    DEFAULTS,
    SHARED_FIELDS,
    SIDED_FIELDS,
    InputError,
    Inputs,
    changed,
    model,
    sided_names,
)
from app.rider.setup import Setup, edited, estimated
from app.rider.spreads import spreads_of
from app.rider.trials import Entry, entry_of
from app.stance.needs import Mounts, Need, needs_of, obstacle, with_mounts
from app.stance.own import outlook_of
from app.words.reasons import reason_phrase
from geometry import PostureInputs
from geometry.fitting.fit import fit_of
from geometry.fitting.margins import margins_of

HARD = {
    "hip_height_mm": 950.0, "knee_height_mm": 518.5, "ankle_height_mm": 76.1,
    "hip_spacing_mm": 171.0, "neutral_spacing_mm": 270.0, "foot_length_mm": 282.3,
    "stance_length_mm": 540.0, "knee_bend_deg": 45.0,
}  # fmt: skip
"""The rider of the checks from practice in hard boots; knee, ankle and foot are those
of men with this hip height by the regressions on ANSUR II (Gordon et al. 2014,
NATICK/TR-15/007)."""


def practice(front: float, rear: float) -> Setup:
    return edited(Setup(), **HARD, front_angle_deg=front, rear_angle_deg=rear)


def tried(setup: Setup, cant: float, felt: str) -> Entry:
    inputs = changed(setup.inputs, front_cant_deg=cant, rear_cant_deg=cant)
    return entry_of(inputs, "2026-01-31", (felt, felt), ("even", "even"), "")


def practice_log() -> tuple[Entry, ...]:
    """At 0/0 a cant of 6 deg was too much, 4 too little, 5 even: common practice, no source."""
    straight = practice(0.0, 0.0)
    verdicts = {6.0: "knock-kneed", 4.0: "bow-legged", 5.0: "even"}
    return tuple(tried(straight, cant, felt) for cant, felt in verdicts.items())


def test_the_angles_are_those_of_the_geometry_in_degrees() -> None:
    fit = fit_of(*model(DEFAULTS))
    needs = needs_of(Setup())
    assert needs.front.full_cant.deg == degrees(fit.front.full_cant)
    assert needs.rear.least_lift.deg == degrees(fit.rear.least_lift)
    assert needs.rear.straight_leg.deg == degrees(fit.rear.straight_leg_cant)


def test_the_demo_riders_full_cants_are_those_of_an_independent_solver() -> None:
    # Its poses were closed by a physics engine's hinge chain.
    needs = needs_of(Setup())
    full = [foot.full_cant.deg for foot in needs.feet]
    assert full == pytest.approx([3.792, 4.779], abs=6e-4)


def test_margins_come_from_how_surely_the_legs_are_known() -> None:
    setup = estimated(Setup(), stature_mm=1800.0)
    sure, unsure = (needs_of(each).front.full_cant.margin_deg for each in (Setup(), setup))
    assert 0.1 < sure < unsure


@pytest.mark.parametrize(("front", "rear", "cant"), [(0.0, 0.0, 5.0), (90.0, 90.0, -5.0)])
def test_a_comfortable_5_deg_lies_in_the_band_or_within_half_a_degree(
    front: float, rear: float, cant: float
) -> None:
    # Common practice, no source: 5 deg inward at 0/0, about 5 deg outward at 90/90.
    foot = needs_of(practice(front, rear)).front
    least, full = sorted((foot.least_cant.deg, foot.full_cant.deg))
    assert least - 0.5 <= cant <= full + 0.5


def test_at_60_deg_no_cant_is_needed_and_6_deg_of_lift_is_near_the_least() -> None:
    # Common practice, no source: 6 deg toe lift in front with 6 deg heel lift behind.
    needs = needs_of(practice(60.0, 60.0))
    assert needs.front.least_cant.shown_deg == needs.rear.least_cant.shown_deg == 0.0
    assert needs.front.least_lift.deg - 1.0 <= 6.0 <= needs.front.full_lift.deg
    assert needs.rear.full_lift.deg <= -6.0 <= needs.rear.least_lift.deg + 1.0


def test_the_share_settled_at_straight_angles_predicts_the_cant_along_the_board() -> None:
    # Common practice, no source: about 5 deg outward, within 1 deg.
    setup = replace(practice(90.0, 90.0), trials=practice_log())
    own = outlook_of(setup)[0].cant
    assert own.likely.deg == pytest.approx(-5.0, abs=1.0)
    assert own.trials == 3


def test_what_is_put_on_keeps_within_what_was_tried_until_it_is_agreed_to() -> None:
    straight = practice(0.0, 0.0)
    full = needs_of(straight).front.full_cant.deg
    log = [tried(straight, cant, "bow-legged") for cant in (full, 1.1 * full, 1.1 * full)]
    setup = edited(replace(straight, trials=tuple(log)), largest_cant_deg=15.0)
    own = outlook_of(setup)[0].cant
    assert own.waits
    assert own.likely.deg > 1.1 * full > own.put_deg > full - 0.5


def test_few_trials_leave_a_wider_margin_than_many() -> None:
    straight = practice(0.0, 0.0)
    log = practice_log()
    one, many = (
        outlook_of(replace(straight, trials=trials))[0].cant.likely.margin_deg
        for trials in (log[2:], log * 3)
    )
    assert one > 1.5 * many


def test_an_angle_is_shown_to_half_a_degree_and_its_margin_up_to_the_next() -> None:
    need = Need(3.3, 0.61)
    assert (need.shown_deg, need.shown_margin_deg) == (pytest.approx(3.5), pytest.approx(1.0))


def test_a_stance_that_no_leg_reaches_has_reasons() -> None:
    far = {"stance_length_mm": 800.0, "hip_height_mm": 600.0, "knee_height_mm": 330.0}
    needs = needs_of(edited(Setup(), **far, knee_bend_deg=5.0))
    assert reason_phrase(needs.front.no_cant).endswith("leg cannot reach")
    assert reason_phrase(needs.front.no_lift) == "no posture settles on soles without lift"
    assert obstacle(Mounts(nan, nan, nan, nan)) == "there is no such lift or cant"


def test_mounts_beyond_what_can_be_set_are_refused_with_both_numbers() -> None:
    steep = Mounts(front_lift_deg=15.5, front_cant_deg=0.0, rear_lift_deg=-15.5, rear_cant_deg=0.0)
    assert obstacle(steep) == "15.5° of lift is more than the 15° that can be set"
    with pytest.raises(InputError):
        with_mounts(Setup(), steep)


@st.composite
def any_inputs(draw: st.DrawFn) -> Inputs:
    fields = (*SHARED_FIELDS, *SIDED_FIELDS)
    values = {field.name: draw(st.floats(field.low, field.high)) for field in fields}
    values["bend_from_deg"] = DEFAULTS.bend_from_deg
    values["bend_to_deg"] = DEFAULTS.bend_to_deg
    return changed(DEFAULTS, **values)


@settings(max_examples=80)
@given(any_inputs())
def test_anything_the_sliders_allow_has_needs_or_reasons(inputs: Inputs) -> None:
    try:
        model(inputs)
    except ValueError:
        return
    needs = needs_of(Setup(inputs=inputs, measured=frozenset(sided_names("hip_height_mm"))))
    for foot in needs.feet:
        assert isnan(foot.full_cant.deg + foot.least_cant.deg) == bool(foot.no_cant)
        assert isnan(foot.full_lift.deg + foot.least_lift.deg) == bool(foot.no_lift)


def test_the_margins_are_the_geometrys_for_the_same_spreads() -> None:
    solved = PostureInputs(*model(DEFAULTS))
    margins = margins_of(solved, fit_of(*solved), spreads_of(Setup()))
    assert needs_of(Setup()).rear.full_cant.margin_deg == degrees(margins.rear.full_cant)


def test_how_surely_side_give_is_known_reaches_least_cant_and_leaves_full_cant() -> None:
    flat = edited(Setup(), front_angle_deg=0.0, rear_angle_deg=0.0)
    repeated = replace(flat, repeats=repeats_of_both(side_give_deg=(2.0, 6.0)))
    before, after = needs_of(flat).front, needs_of(repeated).front
    # Least cant is full cant less side give (the model), whose error here is 2 degrees.
    assert after.least_cant.margin_deg > 1.5 > before.least_cant.margin_deg
    assert after.full_cant == before.full_cant
