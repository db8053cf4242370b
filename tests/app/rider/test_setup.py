"""Where each leg dimension comes from: default, estimate or measurement."""

from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from refused import refused

from app.rider.inputs import DEFAULTS, FIELD, checked, model
from app.rider.setup import (
    FIGURES,
    KNOWN_FIELDS,
    LEAST_THIGH_MM,
    LEG_NAMES,
    Known,
    Setup,
    as_estimated,
    edited,
    estimated,
    estimates,
    unmeasured,
)
from app.session import Session


def known_values() -> st.SearchStrategy[dict[str, float | str | None]]:
    lengths = {field.name: st.none() | st.floats(field.low, field.high) for field in KNOWN_FIELDS}
    return st.fixed_dictionaries({**lengths, "figures": st.sampled_from(FIGURES)})


def test_a_mans_stature_gives_the_published_heights() -> None:
    """ANSUR II lines for men (Gordon et al. 2014, NATICK/TR-15/007, fitted to its public data).

    hip = 0.6098 T - 169.9 +- 25.9, knee = 0.3330 T - 93.1 +- 13.6, for T = 1800 mm.
    """
    setup = estimated(Setup(), stature_mm=1800.0, figures="men")
    assert setup.inputs.left.hip_height_mm == round(0.6098 * 1800.0 - 169.9)
    assert setup.inputs.left.knee_height_mm == round(0.3330 * 1800.0 - 93.1)
    assert dict(setup.spreads)["left_hip_height_mm"] == 25.9
    assert dict(setup.spreads)["left_knee_height_mm"] == 13.6
    assert setup.origin("hip_height_mm") == "estimated"


def test_knowing_more_makes_the_estimate_surer() -> None:
    first = estimated(Setup(), stature_mm=1750.0)
    second = estimated(first, inseam_mm=820.0, sitting_knee_mm=540.0)
    for name in ("left_hip_height_mm", "right_knee_height_mm"):
        assert dict(second.spreads)[name] < dict(first.spreads)[name]


def test_estimates_leave_alone_what_was_measured() -> None:
    setup = edited(Setup(), knee_height_mm=501.0)
    setup = estimated(setup, stature_mm=1800.0)
    assert setup.inputs.left.knee_height_mm == 501.0
    assert setup.origin("knee_height_mm") == "measured"
    assert setup.origin("foot_length_mm") == "estimated"
    assert setup.origin("neutral_spacing_mm") == "estimated"
    assert setup.origin("knee_tracking_deg") == "default"


def test_a_dropped_measurement_gives_way_to_the_estimate() -> None:
    before = estimated(Setup(), stature_mm=1800.0)
    assert as_estimated(edited(before, hip_height_mm=930.0), "hip_height_mm") == before
    plain = as_estimated(edited(Setup(), hip_height_mm=930.0), "hip_height_mm")
    assert plain == Setup()


def test_forgetting_the_height_brings_the_demo_rider_back() -> None:
    setup = estimated(estimated(Setup(), stature_mm=1800.0), stature_mm=None)
    assert setup == Setup()


def test_a_setup_of_unknown_origin_keeps_what_nothing_bears_on() -> None:
    soft = Setup(inputs=edited(Setup(), knee_tracking_deg=5.0).inputs)
    assert estimated(soft, stature_mm=1700.0).inputs.left.knee_tracking_deg == 5.0


def test_lengths_that_contradict_each_other_are_refused_in_words() -> None:
    with refused("inseam is 1050 mm; it must be less than the stature"):
        estimated(Setup(), stature_mm=1000.0, inseam_mm=1050.0)
    assert estimates(Known(stature_mm=1000.0, inseam_mm=1050.0)) == {}


@given(known_values(), st.sets(st.sampled_from(["hip_height_mm", "knee_height_mm"]), max_size=1))
def test_estimates_are_whole_millimetres_in_range_and_in_order(
    known: dict[str, float | str | None], measured: set[str]
) -> None:
    assume(estimates(Known(**known)))  # type: ignore[arg-type]
    setup = estimated(edited(Setup(), **{name: FIELD[name].low for name in measured}), **known)
    inputs = checked(setup.inputs)
    model(inputs)
    assert inputs.left.hip_height_mm - inputs.left.knee_height_mm >= LEAST_THIGH_MM
    assert all(inputs.value(name) == round(inputs.value(name)) for name in LEG_NAMES)


@pytest.mark.parametrize("name", LEG_NAMES)
def test_without_anything_known_each_length_is_the_demo_riders(name: str) -> None:
    assert unmeasured(Known(), name) == DEFAULTS.value(name)


def test_a_length_dragged_back_is_no_measurement_and_no_step() -> None:
    session = Session()
    session.begin_drag()
    session.edit(hip_height_mm=900.0)
    session.edit(hip_height_mm=880.0)
    session.end_drag()
    assert session.setup == Setup()
    assert not session.undo_name


def test_a_linked_drag_past_a_limit_comes_back_to_where_it_began() -> None:
    session = Session(edited(Setup(), rear_angle_deg=80.0))
    session.link = "together"
    session.begin_drag()
    session.edit(front_angle_deg=75.0)
    assert session.inputs.rear_angle_deg == 90.0
    session.edit(front_angle_deg=43.0)
    session.end_drag()
    assert session.inputs.rear_angle_deg == 80.0
    assert not session.undo_name
