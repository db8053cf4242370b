"""Whose legs they are: typed heights, examples, and starting points on one's own legs."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.__main__ import main
from app.files.resources import SHARED, starting_points
from app.files.storage import Document, opened, save
from app.rider.inputs import changed
from app.rider.setup import (
    LEG_NAMES,
    LEGS,
    Setup,
    as_estimated,
    edited,
    estimated,
    kept_as_measured,
    somebody,
    with_stance_of,
)
from app.rider.spreads import unsaid
from app.session import Session
from app.work import Work

DUCK = opened(SHARED / "soft-boots-duck.json").setup


@pytest.mark.parametrize("point", starting_points(), ids=lambda point: point.path.stem)
def test_no_number_of_an_example_rider_counts_as_measured(point) -> None:
    setup = opened(point.path).setup
    assert {setup.origin(name) for name in LEG_NAMES} == {"example"}
    assert not somebody(setup)
    # Twice the neutral spacing is said to be no one's stance.
    assert setup.inputs.stance_length_mm != 2.0 * setup.inputs.neutral_spacing_mm


def test_a_height_typed_after_an_example_re_estimates_its_legs() -> None:
    setup = estimated(DUCK, stature_mm=1700.0)
    assert setup.inputs.left.hip_height_mm != DUCK.inputs.left.hip_height_mm
    assert setup.origin("right_hip_height_mm") == "estimated"
    assert unsaid(setup) == ["knee_tracking_deg"]
    assert kept_as_measured(setup) == []


def test_a_height_says_what_stays_since_it_was_measured() -> None:
    measured = edited(DUCK, knee_height_mm=505.0, left_foot_length_mm=281.0)
    setup = estimated(measured, stature_mm=1700.0)
    assert setup.inputs.left.knee_height_mm == 505.0
    assert kept_as_measured(setup) == ["knee_height_mm", "left_foot_length_mm"]


def test_the_command_line_says_so_too(tmp_path, capsys: pytest.CaptureFixture[str]) -> None:
    save(tmp_path / "me.json", Document(edited(DUCK, knee_height_mm=505.0)))
    assert main([str(tmp_path / "me.json"), "--numbers", "--set", "stature_mm=1700"]) == 0
    said = "kneeline: stays as it was measured: knee height\n"
    assert capsys.readouterr().err == said


def test_a_starting_point_on_my_legs_changes_stance_boots_and_posture_only() -> None:
    mine = edited(Setup(name="Kim"), hip_height_mm=905.0, hip_spacing_mm=174.0)
    stood = with_stance_of(mine, DUCK)
    assert stood.inputs.front_angle_deg == DUCK.inputs.front_angle_deg
    assert stood.inputs.right.forward_lean_deg == DUCK.inputs.right.forward_lean_deg
    assert stood.inputs.knee_bend_deg == DUCK.inputs.knee_bend_deg
    assert (stood.inputs.left.hip_height_mm, stood.inputs.hip_spacing_mm) == (905.0, 174.0)
    assert (stood.inputs.lead_foot, stood.name) == ("left", "Kim")
    assert stood.measured == mine.measured


def test_where_a_double_click_leads_follows_the_starting_point_and_undo() -> None:
    session = Session(edited(Setup(), hip_height_mm=905.0))
    work = Work(session)
    work.stand_as(SHARED / "soft-boots-duck.json", "Stand as duck")
    assert session.start.inputs.stance_length_mm == DUCK.inputs.stance_length_mm
    session.edit(knee_bend_deg=70.0)
    assert session.start == DUCK
    session.go_to(0)
    assert session.start == Setup()


def test_a_measure_dropped_goes_back_to_the_example_that_one_started_from() -> None:
    typed = edited(DUCK, right_hip_height_mm=890.0)
    back = as_estimated(typed, "right_hip_height_mm", DUCK)
    # Both legs are as they were; that either was set by itself stays.
    assert back == replace(DUCK, apart=frozenset({LEGS}))
    assert as_estimated(typed, "right_hip_height_mm").inputs == changed(
        DUCK.inputs, right_hip_height_mm=880
    )
