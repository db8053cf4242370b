"""Dragging and turning the feet in the plan, without a window."""

from __future__ import annotations

from math import cos, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.handles import MOVES, centre_of, dragged, grip_at, marks_moved, nudged
from app.rider.inputs import FIELD, FIELDS, Inputs, changed


def toe_of(inputs: Inputs, name: str, angle_deg: float) -> tuple[float, float]:
    x, y = centre_of(inputs, name)
    angle = radians(angle_deg)
    return x + 130.0 * inputs.hand * cos(angle), y + 130.0 * sin(angle)


@pytest.mark.parametrize("lead", ["left", "right"])
@pytest.mark.parametrize("name", ["front", "rear"])
def test_a_toe_dragged_to_a_direction_turns_the_foot_there(lead: str, name: str) -> None:
    inputs = changed(Inputs(), lead_foot=lead)
    before = getattr(inputs, f"{name}_angle_deg")
    grip = grip_at(inputs, toe_of(inputs, name, before))
    assert grip is not None
    assert grip.turns
    assert dragged(grip, toe_of(inputs, name, 12.0), 1.0) == {f"{name}_angle_deg": 12.0}


@pytest.mark.parametrize("name", ["front", "rear"])
def test_a_foot_dragged_along_the_board_stays_under_the_pointer(name: str) -> None:
    inputs = Inputs()
    grip = grip_at(inputs, centre_of(inputs, name))
    assert grip is not None
    assert not grip.turns
    side = 1.0 if name == "front" else -1.0
    x, y = centre_of(inputs, name)
    moved = changed(inputs, **dragged(grip, (x, y + side * 20.0), 1.0))
    assert centre_of(moved, name) == pytest.approx((x, y + side * 20.0))


def test_a_foot_moves_across_only_where_the_feet_stand_side_by_side() -> None:
    board, skis = Inputs(), changed(Inputs(), across_spacing_mm=160, stance_length_mm=0)
    for inputs, expected in ((board, False), (skis, True)):
        grip = grip_at(inputs, centre_of(inputs, "front"))
        assert grip is not None
        asked = dragged(grip, (grip.start[0] + 30.0, grip.start[1]), 1.0)
        assert ("across_spacing_mm" in asked) is expected


@given(
    st.sampled_from(["front", "rear"]), st.booleans(), st.floats(-900, 900), st.floats(-900, 900)
)
def test_whatever_is_dragged_where_stays_in_its_range(
    name: str, toe: bool, x: float, y: float
) -> None:
    inputs = Inputs()
    start = (
        toe_of(inputs, name, getattr(inputs, f"{name}_angle_deg"))
        if toe
        else centre_of(inputs, name)
    )
    grip = grip_at(inputs, start)
    assert grip is not None
    changed(inputs, **dragged(grip, (x, y), 0.1))


def test_nothing_is_gripped_beside_the_feet_and_slack_helps_small_drawings() -> None:
    inputs = Inputs()
    x, y = centre_of(inputs, "front")
    beside = (x - 60.0 * sin(radians(45.0)), y + 60.0 * cos(radians(45.0)))
    assert grip_at(inputs, beside) is None
    assert grip_at(inputs, beside, slack=20.0) is not None
    assert grip_at(inputs, (0.0, 0.0), slack=20.0) is None


def test_the_arrow_keys_turn_and_move_the_selected_foot() -> None:
    inputs = Inputs()
    assert nudged(inputs, "front", 1.0, 0.0) == {"front_angle_deg": 44.0}
    assert nudged(inputs, "front", 0.0, 5.0) == {"stance_length_mm": 510.0}
    assert nudged(inputs, "rear", 0.0, 5.0) == {"stance_length_mm": 500.0}


def test_every_control_lights_up_something() -> None:
    assert set(MOVES) == {field.name for field in FIELDS}
    assert all(marks_moved(Inputs(), name) for name in FIELD)


def test_a_leg_s_own_control_lights_up_where_that_leg_stands() -> None:
    for lead, end in (("left", "front"), ("right", "rear")):
        inputs = changed(Inputs(), lead_foot=lead)
        assert marks_moved(inputs, "left_hip_height_mm") == {f"{end}.thigh"}
