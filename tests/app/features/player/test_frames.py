"""Sweeps and movements as inputs, moment after moment."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from app.features.player.examples import EXAMPLES, Example
from app.features.player.frames import minimum_jerk, motion, moved, sweep, swept
from app.rider.inputs import DEFAULTS, FIELD, InputError, changed
from app.rider.movement import MOVED, KeyPosture

KEYS = (
    KeyPosture(0.0, 30.0, 0.0, 0.0, 20.0),
    KeyPosture(1.0, 80.0, 10.0, -20.0, 50.0),
    KeyPosture(1.5, 40.0, -5.0, 15.0, 30.0),
)


def test_the_way_from_rest_to_rest_is_the_published_polynomial() -> None:
    # Flash & Hogan 1985, J Neurosci 5:1688: x = 10 t^3 - 15 t^4 + 6 t^5.
    for t in np.linspace(0.0, 1.0, 101).tolist():
        assert minimum_jerk(t) == pytest.approx(10 * t**3 - 15 * t**4 + 6 * t**5, abs=1e-12)
    assert [minimum_jerk(t) for t in (-1.0, 0.0, 0.5, 1.0, 2.0)] == [0.0, 0.0, 0.5, 1.0, 1.0]


def test_the_way_has_neither_speed_nor_acceleration_at_its_ends_and_its_top_speed_in_between() -> (
    None
):
    step = 1e-4
    x = np.array([minimum_jerk(t) for t in np.arange(0.0, 1.0 + step / 2, step).tolist()])
    speed, acceleration = np.gradient(x, step), np.gradient(np.gradient(x, step), step)
    assert abs(speed[[0, -1]]).max() < 1e-6
    assert abs(acceleration[[1, -2]]).max() < 0.1
    # 15/8 of the mean speed, halfway (the derivative of the polynomial there).
    assert speed.max() == pytest.approx(1.875, abs=1e-6)
    assert int(speed.argmax()) == len(x) // 2


def test_a_sweep_goes_in_even_steps_and_ends_on_the_very_values() -> None:
    made = sweep(DEFAULTS, "front_angle_deg", 30.0, 60.0, steps=6)
    assert [moment.inputs.front_angle_deg for moment in made] == [30, 35, 40, 45, 50, 55, 60]
    assert [moment.phase for moment in made] == pytest.approx([i / 6 for i in range(7)])
    assert all(
        changed(moment.inputs, front_angle_deg=DEFAULTS.front_angle_deg) == DEFAULTS
        for moment in made
    )


def test_a_sweep_may_go_down_and_moves_both_legs_or_the_one_that_is_named() -> None:
    both = sweep(DEFAULTS, "hip_height_mm", 900.0, 860.0, steps=2)
    assert [(m.inputs.left.hip_height_mm, m.inputs.right.hip_height_mm) for m in both] == [
        (900.0, 900.0), (880.0, 880.0), (860.0, 860.0),
    ]  # fmt: skip
    one = sweep(DEFAULTS, "right_hip_height_mm", 900.0, 860.0, steps=2)
    assert {m.inputs.left for m in one} == {DEFAULTS.left}
    assert one[1].inputs.right.hip_height_mm == 880.0


@pytest.mark.parametrize("name", FIELD)
def test_every_input_can_be_swept(name: str) -> None:
    start, field = DEFAULTS.value(name), FIELD[name]
    end = start + field.step if start + field.step <= field.high else start - field.step
    made = sweep(DEFAULTS, name, start, end, steps=4)
    assert made[0].inputs == DEFAULTS
    assert made[-1].inputs.value(name) == end


def test_in_steps_each_value_is_held_as_long_as_every_other() -> None:
    at = swept(DEFAULTS, "stance_length_mm", 480.0, 520.0, steps=4)
    values = [at(i / 1000).stance_length_mm for i in range(1000)]
    assert {value: values.count(value) for value in values} == dict.fromkeys(
        (480.0, 490.0, 500.0, 510.0, 520.0), 200
    )
    assert at(1.0).stance_length_mm == 520.0


def test_a_sweep_beyond_the_range_of_its_input_says_so() -> None:
    with pytest.raises(InputError, match="front_angle_deg is 120; it must lie between -60 and 90"):
        sweep(DEFAULTS, "front_angle_deg", 30.0, 120.0, steps=3)
    with pytest.raises(ValueError, match="1 moments"):
        sweep(DEFAULTS, "front_angle_deg", 30.0, 60.0, steps=0)


def test_a_movement_comes_through_every_key_posture_at_its_time() -> None:
    at = moved(DEFAULTS, KEYS)
    for key in KEYS:
        inputs = at(key.at_s / 1.5)
        assert [inputs.value(name) for name in MOVED] == pytest.approx(
            [getattr(key, name) for name in MOVED]
        )
    assert changed(at(0.3), **{name: DEFAULTS.value(name) for name in MOVED}) == DEFAULTS


def test_a_movement_between_two_postures_follows_the_published_polynomial() -> None:
    for moment in motion(DEFAULTS, KEYS[:2], frames=31):
        t = moment.phase
        share = 10 * t**3 - 15 * t**4 + 6 * t**5
        assert moment.inputs.knee_bend_deg == pytest.approx(30.0 + 50.0 * share)
        assert moment.inputs.hip_shift_mm == pytest.approx(-20.0 * share)


def test_beyond_its_ends_a_movement_rests() -> None:
    at = moved(DEFAULTS, KEYS)
    assert at(-0.5) == at(0.0)
    assert at(1.5) == at(1.0)


@pytest.mark.parametrize("keys", [(), KEYS[:1], KEYS[::-1], (KEYS[0], replace(KEYS[1], at_s=0.0))])
def test_postures_out_of_order_make_no_movement(keys: tuple[KeyPosture, ...]) -> None:
    with pytest.raises(ValueError, match="one after another"):
        motion(DEFAULTS, keys, frames=10)


@pytest.mark.parametrize("example", EXAMPLES.values(), ids=EXAMPLES)
def test_the_examples_can_be_played(example: Example) -> None:
    made = motion(DEFAULTS, example.movement.postures, frames=60)
    assert len(made) == 60
    assert made[-1].phase == 1.0


def test_two_linked_turns_take_the_times_and_bends_that_were_measured_on_skis() -> None:
    # Berg, Eiken & Tesch 1995, Med Sci Sports Exerc 27:1666 (abstract): left plus right turn
    # 3.5 s; knee angle 66-114 degrees, 180 being straight; bending 1.0 s, extending 0.5 s.
    movement = EXAMPLES["turns"].movement
    assert movement.seconds == 3.5
    made = motion(DEFAULTS, movement.postures, frames=3501)
    bends = np.array([moment.inputs.knee_bend_deg for moment in made])
    assert sorted([180.0 - bends.min(), 180.0 - bends.max()]) == pytest.approx([66.0, 114.0])
    way = np.sign(np.diff(bends))
    runs = [len(run) / 1000 for run in np.split(way, np.flatnonzero(np.diff(way)) + 1)]
    # Tall, bending, extending; twice.
    assert runs == pytest.approx([0.25, 1.0, 0.5, 0.25, 1.0, 0.5], abs=0.01)
    assert made[0].inputs == made[-1].inputs


def test_the_postures_of_the_examples_lie_in_the_ranges_of_their_inputs_in_order() -> None:
    for example in EXAMPLES.values():
        times = [each.at_s for each in example.movement.postures]
        assert times[0] == 0.0
        assert all(b - a > 0.0 for a, b in pairwise(times))
