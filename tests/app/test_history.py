"""The history of a session: what its steps are called, and where it can go."""

from dataclasses import replace

import pytest

from app.rider.setup import Setup
from app.session import Session


@pytest.fixture
def session():
    return Session()


def names(session):
    return [step.name for step in session.steps]


def test_steps_are_called_by_what_was_moved_and_to_where(session):
    session.edit(front_angle_deg=12.0)
    session.edit(front_lift_deg=-2.0)
    session.edit(lead_foot="right")
    session.rename("Anna")
    assert names(session) == [
        "Start", "Front binding angle: 12.0°", "Front lift: 2.0° heel lift",
        "Lead foot: right", "Name: Anna",
    ]  # fmt: skip


def test_a_step_anywhere_in_the_history_can_be_gone_to(session):
    for angle in (10.0, 20.0, 30.0):
        session.edit(front_angle_deg=angle)
    session.go_to(1)
    assert (session.at, session.inputs.front_angle_deg) == (1, 10.0)
    session.go_to(3)
    assert session.inputs.front_angle_deg == 30.0
    for nowhere in (-1, 4):
        session.go_to(nowhere)
        assert session.at == 3


def test_nobody_goes_anywhere_during_a_drag(session):
    session.edit(front_angle_deg=10.0)
    session.begin_drag()
    session.edit(front_angle_deg=20.0)
    session.go_to(0)
    assert session.inputs.front_angle_deg == 20.0


def test_what_is_dragged_outside_the_inputs_is_a_step_too(session):
    board = replace(session.setup.board, wanted_edge_deg=61.0)
    session.begin_drag()
    session.take("Edge angle", replace(session.setup, board=board))
    session.end_drag()
    assert session.setup.board == board
    assert names(session) == ["Start", "Edge angle"]


def test_opening_during_a_drag_ends_it_and_loses_neither(session):
    session.begin_drag()
    session.edit(front_angle_deg=20.0)
    session.open("Open anna.json", Setup(name="Anna"), 1)
    assert not session.dragging
    assert names(session) == ["Start", "Front binding angle: 20.0°", "Open anna.json"]
    assert (session.source, session.setup.name) == (1, "Anna")
    session.undo()
    assert (session.source, session.inputs.front_angle_deg) == (0, 20.0)


def test_opening_the_same_set_up_again_is_a_step(session):
    session.open("Open again", session.setup, 1)
    assert session.source == 1
    assert session.undo_name == "Open again"


def test_a_rename_to_the_same_name_is_no_step(session):
    session.rename(session.setup.name)
    assert names(session) == ["Start"]


def test_what_is_typed_in_one_visit_of_a_field_is_one_step_until_something_else_is_done(session):
    first, second = object(), object()
    for text in ("a", "ab"):
        session.write_notes(text, first)
    session.edit(front_angle_deg=12.0)
    session.write_notes("abc", first)
    session.write_notes("abcd", second)
    assert names(session) == ["Start", "Notes", "Front binding angle: 12.0°", "Notes", "Notes"]
    session.undo()
    assert session.setup.notes == "abc"


def test_a_visit_that_comes_back_to_its_start_leaves_no_step(session):
    visit = object()
    for text in ("a", "ab", ""):
        session.write_notes(text, visit)
    assert names(session) == ["Start"]
    session.write_notes("again", visit)
    assert names(session) == ["Start", "Notes"]
