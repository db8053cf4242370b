"""The best stances in reach among the numbers: whoever stands so finds what was promised."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from bend_by_bend import worst_over_bend
from refused import refused

from app.numbers import numbers
from app.numbers.question import LIMITS, Question, question_of
from app.rider.inputs import changed
from app.rider.parts import PartEntry, Parts
from app.rider.setup import Setup

WEDGES = Parts("Few", (PartEntry("wedge", "across", 4.0, 8.0),), largest_stack=1)
SETUP = Setup(parts=WEDGES)
NEAR = {
    "front_angle_least_deg": 42.0, "front_angle_most_deg": 48.0,
    "rear_angle_least_deg": 36.0, "rear_angle_most_deg": 42.0,
    "stance_length_least_mm": 480.0, "stance_length_most_mm": 520.0,
}  # fmt: skip


def reachable(setup: Setup, question: Question) -> dict[str, Any]:
    found: dict[str, Any] = numbers(setup, question)["reachable"]
    return found


def asked(**limits: float) -> Question:
    return question_of(frozenset({"reachable"}), {**NEAR, **limits}, None)


@pytest.fixture(scope="module")
def told() -> dict[str, Any]:
    return reachable(SETUP, asked())


def test_whoever_stands_as_told_has_knees_as_far_off_plane_as_told(told: dict[str, Any]) -> None:
    for place in told["best"]:
        stance = {
            f"{foot}_{name}": place[foot][name]
            for foot in ("front", "rear")
            for name in ("angle_deg", "lift_deg", "cant_deg")
        }
        there = changed(SETUP.inputs, stance_length_mm=place["stance_length_mm"], **stance)
        assert place["worst_off_plane_deg"] == pytest.approx(max(worst_over_bend(there)), abs=0.01)


def test_the_best_stances_come_first_and_none_leaves_the_limits(told: dict[str, Any]) -> None:
    ranks = [[*place["rank"].values()] for place in told["best"]]
    assert ranks == sorted(ranks)
    present = told["present"]["worst_off_plane_deg"]
    assert told["best"][0]["worst_off_plane_deg"] < present
    for place in told["best"]:
        assert 42.0 <= place["front"]["angle_deg"] <= 48.0
        assert 480.0 <= place["stance_length_mm"] <= 520.0


def test_keeping_angles_and_length_is_told_beside_the_best(told: dict[str, Any]) -> None:
    kept = told["kept"]
    assert (kept["front"]["angle_deg"], kept["rear"]["angle_deg"]) == (43.0, 38.0)
    assert [*kept["rank"].values()] >= [*told["best"][0]["rank"].values()]
    assert "what_to_set" in kept["front"]
    assert "what_to_set" not in told["present"]["front"]


def test_limits_that_were_not_said_lie_round_the_present_stance(told: dict[str, Any]) -> None:
    assert told["limits"] == {**NEAR, "splay_least_deg": 0.0, "splay_most_deg": 14.0}
    assert list(told["limits"]) == list(LIMITS)


def test_a_most_below_its_least_is_refused() -> None:
    with refused("front binding angle"):
        reachable(SETUP, asked(front_angle_most_deg=40.0))


def test_limits_between_two_steps_of_the_parts_allow_nothing_and_the_reason_says_so() -> None:
    found = reachable(SETUP, asked(front_angle_least_deg=43.0, front_angle_most_deg=44.0))
    assert found["best"] is None
    assert "front" in found["reason"]


def test_whoever_waits_is_told_how_far_the_search_is() -> None:
    shares: list[float] = []
    numbers(SETUP, asked(), shares.append)
    assert shares == sorted(shares)
    assert shares[-1] == 1.0
    assert len(shares) > 2


def test_without_parts_the_best_stance_is_flat() -> None:
    found = reachable(replace(SETUP, parts=Parts()), asked())
    assert {place["front"]["cant_deg"] for place in found["best"]} == {0.0}
