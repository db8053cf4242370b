"""The parts among the numbers: what a reader of them builds is what was promised."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from math import atan2, degrees, radians, tan
from typing import Any

import numpy as np
import pytest
from answer_riders import some_riders
from bend_by_bend import worst_over_bend

from app.files.parts_file import parts_opened
from app.files.resources import SHARED
from app.numbers import numbers
from app.numbers.question import question_of
from app.rider.inputs import changed
from app.rider.parts import PartEntry, Parts
from app.rider.setup import Setup, edited
from app.stance.answer import answer_of
from geometry.hardware.parts import stack_lift_and_cant

ROUND = parts_opened(SHARED / "parts-round-wedges.json").parts
SETUP = Setup(parts=ROUND)


@cache
def parts_numbers(setup: Setup, **asked: str) -> dict[str, Any]:
    parts: dict[str, Any] = numbers(setup, question_of(frozenset(), asked, None))["parts"]
    return parts


def test_what_is_wanted_is_what_each_foot_begins_with_and_the_cants_that_keep_it_in_plane() -> None:
    told = parts_numbers(SETUP)["wanted"]
    for foot in answer_of(SETUP).feet:
        lift, cant = foot.begin
        assert told[foot.name]["start_lift_deg"] == lift
        assert told[foot.name]["start_cant_deg"] == cant
        assert told[foot.name]["in_plane_cants_deg"] == list(foot.in_plane)


def test_parts_stacked_as_told_give_the_lift_and_cant_that_are_told() -> None:
    found = parts_numbers(SETUP)["combinations"]
    assert any(len(each["rear"]["parts"]) == 2 for each in found)
    for foot in (each[name] for each in found for name in ("front", "rear")):
        slopes = [radians(part["slope_deg"]) for part in foot["parts"]]
        bearings = [radians(part["bearing_deg"]) for part in foot["parts"]]
        stacked = [degrees(float(angle)) for angle in stack_lift_and_cant(slopes, bearings)]
        assert [foot["lift_deg"], foot["cant_deg"]] == pytest.approx(stacked, abs=1e-9)
        assert len(foot["what_to_set"]) == max(len(slopes), 1)


def test_on_the_mounts_told_both_knees_do_over_the_bend_what_is_told() -> None:
    best = parts_numbers(SETUP)["combinations"][0]
    mounts = {f"{foot}_{what}_deg": best[foot][f"{what}_deg"]
              for foot in ("front", "rear") for what in ("lift", "cant")}  # fmt: skip
    worst = worst_over_bend(changed(SETUP.inputs, **mounts))
    told = [best[foot]["worst_off_plane_deg"] for foot in ("front", "rear")]
    assert told == pytest.approx(worst, abs=0.01)
    assert max(told) > 0.5


def test_the_mounts_in_hand_can_be_built_instead_of_what_the_bindings_need() -> None:
    # By hand: tan 4.5° times cos and sin of 40° are the tangents of 3.45° and 2.90°.
    mounted = edited(SETUP, front_lift_deg=3.45, front_cant_deg=2.9)
    told = parts_numbers(mounted, wanted="mounts")
    wanted = {"start_lift_deg": 3.45, "start_cant_deg": 2.9, "in_plane_cants_deg": None}
    assert told["wanted"]["front"] == wanted
    best = told["combinations"][0]["front"]
    assert [part["bearing_deg"] for part in best["parts"]] == pytest.approx([40.0])
    assert told["combinations"][0]["rear"]["parts"] == []


def test_combinations_stand_in_the_order_that_their_ranks_tell() -> None:
    ranks = [[*each["rank"].values()] for each in parts_numbers(SETUP)["combinations"]]
    assert ranks == sorted(ranks)
    assert len(ranks) == 10
    assert ranks[0] != ranks[-1]


@pytest.mark.parametrize("setup", some_riders(5, seed=8))
def test_any_riders_combinations_are_near_what_one_begins_with_and_within_what_is_allowed(
    setup: Setup,
) -> None:
    told = parts_numbers(replace(setup, parts=ROUND))
    if told["combinations"] is None:
        assert told["reason"]
        return
    within, begun = told["within"], told["wanted"]
    for each in told["combinations"]:
        differs = 0.0
        for foot in ("front", "rear"):
            made, start = each[foot], begun[foot]
            for kind in ("lift", "cant"):
                angle, wants = made[f"{kind}_deg"], start[f"start_{kind}_deg"]
                assert abs(angle) <= within[f"largest_{kind}_deg"] + 0.05
                assert not wants or angle * wants >= -0.25 * abs(wants)
            differs += tilt(made["lift_deg"], made["cant_deg"], *start.values())
        assert each["rank"]["from_answer_deg"] == pytest.approx(differs, abs=0.11)
    ranks = [[*each["rank"].values()] for each in told["combinations"]]
    assert ranks == sorted(ranks)


def tilt(lift: float, cant: float, start_lift: float, start_cant: float, _: object) -> float:
    """Angle between two soles (degrees), by their normals."""
    one, other = (
        np.array([-tan(radians(along)), -tan(radians(across)), 1.0])
        for along, across in ((lift, cant), (start_lift, start_cant))
    )
    return degrees(atan2(float(np.linalg.norm(np.cross(one, other))), float(one @ other)))


def test_a_part_that_stays_on_the_board_tilts_the_foot_otherwise_once_the_binding_is_turned() -> (
    None
):
    told = parts_numbers(replace(SETUP, parts=replace(ROUND, turns_with_binding=False)))
    turned = told["turning_the_binding_alone"]["rear"]
    as_is = turned["turned_by_deg"].index(0.0)
    assert turned["angles_deg"][as_is] == pytest.approx(SETUP.inputs.rear_angle_deg)
    best = told["combinations"][0]["rear"]
    assert turned["cants_deg"][as_is] == pytest.approx(best["cant_deg"], abs=1e-9)
    assert max(turned["lifts_deg"]) - min(turned["lifts_deg"]) > 0.1


def test_without_parts_there_are_no_combinations_and_the_reason_says_what_to_do() -> None:
    for parts in (Parts(), Parts(parts=(PartEntry("wedge", "across", 4.0, 8.0, count=0),))):
        told = parts_numbers(Setup(parts=parts))
        assert told["combinations"] is None
        assert "--parts FILE" in told["reason"]


def test_parts_that_come_nowhere_near_are_told_with_a_remark() -> None:
    steep = Parts("Steep", (PartEntry("wedge", "across", 20.0, 8.0, count=1),), largest_stack=0)
    told = parts_numbers(Setup(parts=steep))
    assert told["remark"].startswith("The largest stack is 0")
    assert told["combinations"][0]["front"]["parts"] == []


def test_where_no_posture_settles_the_reason_is_told() -> None:
    far = edited(SETUP, stance_length_mm=800.0, across_spacing_mm=600.0, knee_height_mm=300.0)
    far = edited(far, hip_height_mm=560.0, knee_bend_deg=5.0)
    told = parts_numbers(far)
    assert told["combinations"] is None
    assert "cannot reach" in told["reason"]
