"""The lines of the stance map and what is said of them, without a window."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.features.map.lines import (
    MOST_LINES,
    blanks_of,
    extent_of,
    joined,
    levels_of,
    map_inputs,
    map_lines,
)
from app.features.map.place import full_cants, moved_to, nudged, place_of
from app.features.map.words import cant_words, line_word, needs_words, place_words
from app.rider.inputs import DEFAULTS, Inputs, changed, model
from app.rider.setup import Setup
from app.words.lengths import Lengths
from geometry.fitting.contours import contour
from geometry.fitting.fit import fit_of

USUAL = extent_of(42.5, 2.0)


def full_cant_deg(inputs: Inputs, angle: float, ratio: float) -> float:
    """Full cant of one stance, from the fit and not from the map."""
    length = ratio * inputs.neutral_spacing_mm
    at = replace(inputs, front_angle_deg=angle, rear_angle_deg=angle, stance_length_mm=length)
    fit = fit_of(*model(at))
    return math.degrees(0.5 * (fit.front.full_cant + fit.rear.full_cant))


@pytest.mark.parametrize("hips_turned_deg", [0.0, 20.0])
def test_every_line_runs_where_the_fit_gives_its_cant(hips_turned_deg: float) -> None:
    inputs = replace(DEFAULTS, hips_turned_deg=hips_turned_deg)
    lines = map_lines(inputs, USUAL)
    assert [line.cant_deg for line in lines.levels][:3] == [-10, -8, -6]
    for line in lines.levels:
        for angle, ratio in line.pieces[0][::40]:
            assert full_cant_deg(inputs, angle, ratio) == pytest.approx(line.cant_deg, abs=0.02)


def test_a_line_of_the_map_is_one_piece() -> None:
    for line in map_lines(DEFAULTS, USUAL).levels:
        assert len(line.pieces) == 1
        steps = np.hypot(*np.diff(line.pieces[0], axis=0).T)
        assert steps.max() < 1.5


def test_no_cant_is_found_between_the_columns_and_is_unknown_beside_the_map() -> None:
    lines = map_lines(DEFAULTS, USUAL)
    ratio = lines.no_cant_ratio(42.5)
    assert full_cant_deg(DEFAULTS, 42.5, ratio) == pytest.approx(0.0, abs=0.02)
    assert math.isnan(lines.no_cant_ratio(85.0))
    assert math.isnan(lines.no_cant_ratio(-20.0))


def test_the_straight_leg_line_is_the_neutral_spacing_over_the_cosine() -> None:
    # The rule of the trade on a snowboard, S = N / cos(angle); cos 60 deg is one half.
    angles, ratios = map_lines(DEFAULTS, USUAL).straight_leg.T
    assert np.interp(60.0, angles, ratios) == pytest.approx(2.0, abs=2e-3)
    assert np.interp(0.0, angles, ratios) == pytest.approx(1.0, abs=2e-3)


def test_stances_that_no_posture_reaches_are_blank_and_the_others_are_not() -> None:
    inputs = replace(DEFAULTS, knee_bend_deg=20.0)
    left, right, bottom, top = map_lines(inputs, USUAL).blanks.T

    def is_blank(angle: float, ratio: float) -> bool:
        inside = (left < angle) & (angle < right) & (bottom < ratio) & (ratio < top)
        return bool(inside.any())

    for angle, ratio in [(10.0, 1.0), (60.0, 2.0), (42.5, 2.3), (20.0, 2.0), (80.0, 1.8)]:
        assert is_blank(angle, ratio) == math.isnan(full_cant_deg(inputs, angle, ratio))


def test_every_run_of_missing_points_is_one_strip() -> None:
    missing = np.array([[1, 0, 1], [0, 0, 1], [1, 0, 1], [1, 0, 0]], dtype=bool)
    strips = blanks_of(np.arange(3.0), np.arange(4.0), np.where(missing, np.nan, 0.0))
    expected = [[-0.5, 0.5, -0.5, 0.5], [-0.5, 0.5, 1.5, 3.5], [1.5, 2.5, -0.5, 2.5]]
    np.testing.assert_allclose(sorted(strips.tolist()), expected)


@given(st.floats(-60.0, 0.0), st.floats(0.0, 60.0))
def test_there_are_lines_enough_but_not_too_many(low: float, high: float) -> None:
    levels = levels_of(np.radians([low, high, np.nan]))
    assert len(levels) <= MOST_LINES
    assert all(low <= level <= high for level in levels)
    assert len(levels) >= 3 or high - low < 10.0


def test_a_map_without_any_posture_has_no_lines() -> None:
    assert levels_of(np.full((2, 2), np.nan)) == []


def test_pieces_of_a_ring_are_joined_to_one_closed_line() -> None:
    grid = np.linspace(-2.0, 2.0, 41)
    ring = joined(contour(grid, grid, np.hypot(grid, grid[:, np.newaxis]), 1.5))
    assert len(ring) == 1
    np.testing.assert_array_equal(ring[0][0], ring[0][-1])
    assert np.hypot(*np.diff(ring[0], axis=0).T).sum() == pytest.approx(3.0 * math.pi, rel=0.01)


def test_what_moves_only_the_dot_leaves_the_map() -> None:
    moved = changed(DEFAULTS, front_angle_deg=10.0, stance_length_mm=400.0, rear_cant_deg=3.0)
    assert map_inputs(moved) == map_inputs(DEFAULTS)
    assert map_inputs(changed(DEFAULTS, knee_bend_deg=46.0)) != map_inputs(DEFAULTS)
    assert map_inputs(changed(DEFAULTS, rear_lift_deg=1.0)) != map_inputs(DEFAULTS)


@given(st.floats(-60.0, 90.0), st.floats(0.0, 16.0))
def test_the_map_grows_to_hold_any_stance(angle: float, ratio: float) -> None:
    left, bottom, right, top = extent_of(angle, ratio)
    assert left < angle < right
    assert bottom < ratio < top
    assert left <= -4.0
    assert (right, bottom <= 0.75, top >= 2.65) == (94.0, True, True)


def test_a_dragged_dot_turns_both_bindings_alike_and_keeps_to_the_grid() -> None:
    # Of a neutral spacing of 260 mm 2.213 are 575.4 mm and 2.2146 are 575.8 mm.
    changes = moved_to(DEFAULTS, 50.2, 2.213, 1.0)
    assert changes == {"front_angle_deg": 53.0, "rear_angle_deg": 48.0, "stance_length_mm": 575.0}
    assert moved_to(DEFAULTS, 50.23, 2.213, 0.1)["front_angle_deg"] == 52.7
    assert moved_to(DEFAULTS, 50.2, 2.2146, 0.1)["stance_length_mm"] == 576.0


@given(st.floats(-200.0, 200.0), st.floats(-5.0, 50.0), st.sampled_from([0.1, 1.0, 5.0]))
def test_wherever_the_dot_is_dragged_the_inputs_can_be_taken(
    angle: float, ratio: float, step: float
) -> None:
    start = changed(DEFAULTS, front_angle_deg=30.0, rear_angle_deg=-20.0)
    moved = changed(start, **moved_to(start, angle, ratio, step))
    assert moved.front_angle_deg - moved.rear_angle_deg == pytest.approx(50.0)


def test_arrow_keys_move_by_steps_and_stop_at_the_ends() -> None:
    assert nudged(DEFAULTS, 1.0, 0.0) == {"front_angle_deg": 44.0, "rear_angle_deg": 39.0}
    assert nudged(DEFAULTS, 0.0, -5.0) == {"stance_length_mm": 500.0}
    far = nudged(DEFAULTS, 100.0, 0.0)
    assert far == {"front_angle_deg": 90.0, "rear_angle_deg": 85.0}


def test_the_words_of_a_line_name_its_side_and_never_a_sign() -> None:
    assert [line_word(cant) for cant in (4.0, -6.0, 0.0, -0.0)] == [
        *("4° inward", "6° outward"),
        *("no cant", "no cant"),
    ]
    assert cant_words(3.3) == "3.5° inward"
    assert cant_words(-0.2) == "no cant"
    assert cant_words(math.nan) == "no posture"


def test_two_angles_that_differ_are_said_to_stand_at_their_mean() -> None:
    place = place_of(Setup())
    assert "40.5°, the mean of 43.0° and 38.0°" in place_words(place, DEFAULTS)
    level = changed(DEFAULTS, rear_angle_deg=43.0)
    assert "mean" not in place_words(place_of(Setup(inputs=level)), level)


def test_lengths_are_said_in_the_unit_chosen() -> None:
    assert "19.88 in, 1.94 × natural spacing" in place_words(
        place_of(Setup()), DEFAULTS, Lengths("in")
    )


def test_a_duck_stance_is_told_its_own_cant_beside_that_of_its_mean() -> None:
    # At 15/-15 a foot turned out asks for less than at 0/0, where the map has it.
    inputs = changed(DEFAULTS, front_angle_deg=15.0, rear_angle_deg=-15.0)
    said = needs_words(full_cants(inputs), place_of(Setup(inputs=inputs)))
    own = math.degrees(fit_of(*model(inputs)).front.full_cant)
    assert f"{cant_words(own)}, both feet. With both feet at 0.0°: " in said
    assert f": {cant_words(full_cant_deg(inputs, 0.0, 505.0 / 260.0))}. What to begin" in said


def test_a_stance_that_no_leg_reaches_is_told_so() -> None:
    inputs = changed(DEFAULTS, knee_bend_deg=5.0, stance_length_mm=800.0)
    said = needs_words(full_cants(inputs), place_of(Setup(inputs=inputs)))
    assert said == "No posture settles there: a leg cannot reach."


def test_repeats_of_the_neutral_spacing_make_the_ellipse_smaller() -> None:
    repeats = (("neutral_spacing_mm", (259.0, 261.0, 260.0)),)
    measured = Setup(measured=frozenset({"neutral_spacing_mm"}), repeats=repeats)
    assert place_of(measured).ratio_error < 0.7 * place_of(Setup()).ratio_error
