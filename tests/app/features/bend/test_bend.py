"""Both legs through the bend, as curves and in words."""

from __future__ import annotations

from dataclasses import replace
from math import degrees

import numpy as np
import pytest

from app.features.bend.model import (
    BENDS,
    TURNS,
    bend_of,
    bend_words,
    flex_span,
    flex_words,
    most_words,
    off_plane_span,
    ticks,
)
from app.rider.inputs import DEFAULTS, Inputs, changed, flex_range, model
from app.rider.setup import Setup
from app.stance.answer import answer_of
from app.stance.findings import USUAL_LIMITS
from geometry import solve

STRAIGHT = changed(DEFAULTS, front_angle_deg=0.0, rear_angle_deg=0.0)
ALONG = changed(DEFAULTS, front_angle_deg=90.0, rear_angle_deg=90.0)
FAR = changed(
    DEFAULTS, stance_length_mm=800.0, hip_height_mm=450.0, knee_height_mm=250.0,
    ankle_height_mm=100.0,
)  # fmt: skip


def alone(inputs: Inputs) -> tuple[float, float]:
    front, rear = solve(*model(inputs)).legs
    return degrees(front.off_plane), degrees(rear.off_plane)


def test_every_point_of_a_curve_is_the_posture_solved_by_itself() -> None:
    bend = bend_of(changed(STRAIGHT, hips_turned_deg=8.0))
    for i in (17, 40, BENDS - 1):
        depth = float(bend.over_bend.x[i])
        expected = alone(changed(STRAIGHT, hips_turned_deg=8.0, knee_bend_deg=depth))
        assert bend.over_bend.off_plane[:, i] == pytest.approx(expected, abs=1e-6)
    for i in (3, 40):
        turn = float(bend.over_turn.x[i])
        expected = alone(changed(STRAIGHT, hips_turned_deg=turn))
        assert bend.over_turn.off_plane[:, i] == pytest.approx(expected, abs=1e-6)


def test_the_bend_runs_from_standing_tall_to_the_deepest_crouch() -> None:
    over = bend_of(DEFAULTS).over_bend
    assert np.isfinite(over.off_plane).all()
    assert over.x[-1] == pytest.approx(90.0)
    lower = changed(DEFAULTS, knee_bend_deg=float(over.x[0]) - 1.0)
    assert np.isnan(alone(lower)).any()


def test_a_deeper_crouch_and_a_wider_turn_in_hand_are_on_the_curves() -> None:
    bend = bend_of(changed(DEFAULTS, knee_bend_deg=105.0, hips_turned_deg=-35.0))
    assert bend.over_bend.x[-1] == pytest.approx(105.0)
    assert bend.over_turn.x[0] == pytest.approx(-35.0)
    assert len(bend.over_turn.x) == TURNS


def test_plots_hold_all_that_they_show() -> None:
    for inputs in (DEFAULTS, STRAIGHT, ALONG):
        bend = bend_of(inputs)
        low, high = flex_span(bend, inputs)
        for curves in bend:
            assert np.nanmax(np.abs(curves.off_plane)) <= off_plane_span(bend)
            assert low < np.nanmin(curves.boot_flex) <= np.nanmax(curves.boot_flex) < high
        assert low < flex_range(inputs.front)[0] < flex_range(inputs.front)[1] < high


def test_what_a_knee_is_out_at_most_is_said_with_its_way_and_its_range() -> None:
    assert most_words(STRAIGHT, USUAL_LIMITS) == (
        "at most as you ride, from 30° to 55°: front 11.7° bow-legged, rear 11.7° bow-legged"
    )
    assert "knock-kneed" in most_words(ALONG, USUAL_LIMITS)
    assert flex_words(bend_of(DEFAULTS)).startswith(
        "boot flex over the bend: front −13° to 18°, rear 17°"
    )


@pytest.mark.parametrize("inputs", [DEFAULTS, STRAIGHT, ALONG])
def test_the_worst_beside_the_plot_is_the_answer_s(inputs: Inputs) -> None:
    answer = answer_of(replace(Setup(), inputs=inputs))
    out = [f"{foot.name} {abs(foot.now.worst_deg):.1f}°" for foot in answer.feet]
    assert all(said in most_words(inputs, USUAL_LIMITS) for said in out)


def test_both_plots_are_told_in_words() -> None:
    said = bend_words(bend_of(STRAIGHT), STRAIGHT, USUAL_LIMITS)
    worst = most_words(STRAIGHT, USUAL_LIMITS)
    assert said.startswith(f"A{worst[1:]}. From 0° to 90° of knee bend: the front knee is out of")
    assert "the front knee is out of its plane, 14.6° bow-legged at 90°, and in it over" in said
    assert "With the hips turned up to 20° either way" in said
    assert "both boots stay in their range" in said
    assert "a boot leaves its range" in bend_words(bend_of(DEFAULTS), DEFAULTS, USUAL_LIMITS)


def test_a_stance_no_leg_reaches_is_told_and_has_no_curve() -> None:
    bend = bend_of(FAR)
    assert np.isnan(bend.over_bend.off_plane).all()
    assert bend_words(bend, FAR, USUAL_LIMITS) == "No posture settles at any bend."
    assert most_words(FAR, USUAL_LIMITS) == "no posture settles from 30° to 55°"
    assert flex_words(bend) == "no posture settles"
    assert off_plane_span(bend) > 0.0


def test_figures_at_an_axis_are_round_and_few() -> None:
    assert ticks(-11.0, 11.0) == [-10.0, -5.0, 0.0, 5.0, 10.0]
    assert ticks(0.0, 91.5) == [0.0, 20.0, 40.0, 60.0, 80.0]
