"""The bend, the turned hips and the map of stances among the numbers."""

from __future__ import annotations

from math import degrees, radians
from typing import Any

import numpy as np
import pytest

from app.numbers import numbers
from app.numbers.question import SECTIONS, Question
from app.rider.inputs import changed, model
from app.rider.setup import Setup, edited
from geometry import solve
from geometry.fitting.smallest_mounts import full_cants

EVEN = edited(Setup(), front_angle_deg=30.0, rear_angle_deg=30.0)


@pytest.fixture(scope="module")
def told() -> dict[str, Any]:
    return numbers(EVEN, Question(frozenset({"curves", "map"})))


def test_what_is_long_or_slow_is_told_only_where_it_is_asked_for(told: dict[str, Any]) -> None:
    assert not set(SECTIONS) & set(numbers(EVEN))
    assert {"curves", "map"} <= set(told)
    assert "reachable" not in told


@pytest.mark.parametrize(
    ("movement", "what"), [("over_bend", "knee_bend_deg"), ("over_turn", "hips_turned_deg")]
)
def test_at_the_place_told_the_knee_is_as_far_off_plane_as_told(
    told: dict[str, Any], movement: str, what: str
) -> None:
    for leg in ("front", "rear"):
        found = told["bend"][movement][leg]
        there = solve(*model(changed(EVEN.inputs, **{what: found[f"most_at_{what}"]})))
        assert found["most_off_plane_deg"] == pytest.approx(
            degrees(getattr(there, leg).off_plane), abs=1e-6
        )


def test_the_worst_over_the_riding_bend_is_the_answer_s_and_stands_first() -> None:
    both = numbers(EVEN, Question(only=frozenset({"front", "rear", "bend"})))
    assert next(iter(both["bend"])) == "over_riding_bend"
    riding = both["bend"]["over_riding_bend"]
    assert (riding["least_knee_bend_deg"], riding["largest_knee_bend_deg"]) == (30.0, 55.0)
    for leg in ("front", "rear"):
        worst = both[leg]["as_it_stands"]
        assert riding[leg] == {name: worst[name] for name in riding[leg]}
        assert riding[leg]["worst_off_plane_deg"] is not None


def test_no_point_of_a_curve_is_worse_than_the_worst_told(told: dict[str, Any]) -> None:
    for movement in ("over_bend", "over_turn"):
        for leg in ("front", "rear"):
            curve = [abs(angle) for angle in told["curves"][movement][f"{leg}_off_plane_deg"]]
            worst = abs(told["bend"][movement][leg]["most_off_plane_deg"])
            in_plane = sum(angle <= 1.0 for angle in curve) / len(curve)
            assert max(curve) == worst
            assert told["bend"][movement][leg]["share_in_plane"] == pytest.approx(in_plane)


def test_where_no_posture_settles_at_any_bend_the_reason_is_told() -> None:
    apart = edited(Setup(), across_spacing_mm=600.0, stance_length_mm=800.0, hip_height_mm=600.0,
                   knee_height_mm=330.0)  # fmt: skip
    found = numbers(apart)["bend"]
    assert found["over_bend"] is None
    assert found["reason"] == "no posture settles at any bend"


def test_the_map_holds_the_full_cants_of_an_independent_solver(told: dict[str, Any]) -> None:
    # Full cants of the demo rider from a separate program whose poses closed in a
    # physics engine's chain; its 505 mm stand between two rows, nearly on a line.
    chart = told["map"]
    columns = [chart["angles_deg"].index(angle) for angle in (0.0, 30.0, 60.0, 90.0)]
    rows = np.array(chart["front_full_cant_deg"], dtype=float)[:, columns]
    found = [np.interp(505.0 / 260.0, chart["length_ratios"], column) for column in rows.T]
    assert found == pytest.approx([8.651, 6.437, 0.116, -8.919], abs=5e-3)


def test_at_the_no_cant_length_neither_foot_needs_any_cant(told: dict[str, Any]) -> None:
    length = told["place"]["no_cant_length_mm"]
    cants = full_cants(*model(changed(EVEN.inputs, stance_length_mm=length)))
    assert 0.5 * (cants.front + cants.rear) == pytest.approx(0.0, abs=radians(0.01))


def test_the_place_is_the_stances_own(told: dict[str, Any]) -> None:
    place = told["place"]
    assert (place["angle_deg"], place["length_ratio"]) == (
        pytest.approx(30.0),
        pytest.approx(505.0 / 260.0),
    )
    assert not place["angle_is_mean"]
    assert place["full_cant_at_angle_deg"] == pytest.approx(6.437, abs=6e-4)
    assert numbers(Setup())["place"]["angle_is_mean"]
