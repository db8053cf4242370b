"""Left and right: whatever belongs to a leg or a boot stays with it, wherever it stands."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.drawing.marks import Area
from app.features.trials.model import row_texts
from app.frame import frame
from app.numbers.rider import body_numbers
from app.rider.inputs import DEFAULTS, InputError, LegInputs, changed
from app.rider.setup import BOOTS, LEGS, Setup, edited, with_sides
from app.rider.spreads import correlations_of, spreads_of
from app.rider.trials import Entry
from app.stance.own import outlook_of

LONG_LEFT = edited(
    Setup(apart=frozenset({LEGS})), left_hip_height_mm=890.0, right_hip_height_mm=872.0
)


def trial(lead_foot: str, felt: tuple[str, str], cants: tuple[float, float] = (4.0, 4.0)) -> Entry:
    return Entry("2026-01-31", lead_foot, (0.0, 0.0), 505.0, 0.0, (0.0, 0.0), cants, felt)


def test_another_foot_in_front_swaps_which_leg_stands_there_and_nothing_else() -> None:
    logged = replace(LONG_LEFT, trials=(trial("left", ("even", "bow-legged")),))
    turned = edited(logged, lead_foot="right")
    assert turned == replace(logged, inputs=replace(logged.inputs, lead_foot="right"))
    assert turned.inputs.front == logged.inputs.rear == logged.inputs.right
    assert turned.inputs.side("front") == "right"


def test_a_bare_name_sets_both_sides_and_a_side_counts_for_itself() -> None:
    both = changed(DEFAULTS, hip_height_mm=900)
    assert (both.left.hip_height_mm, both.right.hip_height_mm) == (900.0, 900.0)
    one = changed(DEFAULTS, right_hip_height_mm=910, hip_height_mm=900)
    assert (one.left.hip_height_mm, one.right.hip_height_mm) == (900.0, 910.0)
    with pytest.raises(InputError, match="left_hip_height_mm is 20; it must lie between"):
        changed(DEFAULTS, left_hip_height_mm=20)


def test_each_leg_is_drawn_as_long_as_it_is() -> None:
    for lead, longer in (("left", "front"), ("right", "rear")):
        posture = frame(edited(LONG_LEFT, lead_foot=lead)).settled.posture
        legs = {"front": posture.front, "rear": posture.rear}
        assert legs[longer].chain.links.thigh == 400.0
    short = edited(LONG_LEFT, right_foot_length_mm=240.0)
    drawn = {mark.key: mark for mark in frame(short).scenes["above"].marks}

    def area_of(key: str) -> float:
        sole = drawn[key]
        assert isinstance(sole, Area)
        xs, ys = zip(*sole.points, strict=True)
        return (max(xs) - min(xs)) * (max(ys) - min(ys))

    assert area_of("front.sole") > area_of("rear.sole")


def test_a_trial_speaks_of_the_side_that_it_was_made_with() -> None:
    # Felt by the left leg while the right one led, so by the rear leg of then.
    setup = replace(LONG_LEFT, trials=(trial("right", ("even", "bow-legged")),))
    front, rear = outlook_of(setup)
    assert (front.cant.bracket[0] > 0.0, rear.cant.trials) == (True, 1)
    assert "right foot in front" in row_texts(setup.trials[0], "left")[1]
    assert "in front" not in row_texts(setup.trials[0], "right")[1]


def test_put_together_both_sides_are_as_the_one_in_front() -> None:
    together = with_sides(LONG_LEFT, LEGS, apart=False)
    assert together.inputs.right == together.inputs.left == LONG_LEFT.inputs.left
    assert not together.is_apart(LEGS)
    assert with_sides(Setup(), BOOTS, apart=True).is_apart(BOOTS)


def test_measured_as_one_both_legs_are_wrong_together_and_apart_each_by_itself() -> None:
    assert "hip_height" in spreads_of(Setup())
    assert {"front_hip_height", "rear_hip_height"} < set(spreads_of(LONG_LEFT))
    guessed = edited(Setup(apart=frozenset({LEGS})), front_angle_deg=30.0)
    assert correlations_of(guessed) == {}


def test_the_numbers_tell_the_body_side_by_side_where_it_is_apart() -> None:
    assert "hip_height" in body_numbers(Setup())
    told = body_numbers(LONG_LEFT)
    assert told["left_hip_height"]["value_mm"] == 890.0
    assert told["right_hip_height"]["value_mm"] == 872.0
    assert "hip_height" not in told
    assert "side_give" in told["boots"]


def test_a_leg_is_one_side_of_the_inputs() -> None:
    assert isinstance(DEFAULTS.left, LegInputs)
    assert DEFAULTS.value("right_knee_height_mm") == DEFAULTS.right.knee_height_mm
