"""Each view against the stance, the posture and the other views."""

from __future__ import annotations

from math import atan2, cos, degrees, dist, radians, sin
from typing import Any

import numpy as np
import pytest

from app.drawing.front import LOOKS, front_view
from app.drawing.marks import Callout, Label
from app.drawing.side import side_view
from app.frame import Frame, frame
from app.rider.setup import Setup, edited

EVEN = {"front_angle_deg": 60, "rear_angle_deg": 60}
"""Feet that stand as far apart across their axes as the legs hang: both knees in plane."""
OUTWARD = {"front_angle_deg": 0, "rear_angle_deg": 0}
"""Feet much farther apart than the legs hang: both knees are pushed outward."""
UPRIGHT = {"hip_spacing_mm": 200, "neutral_spacing_mm": 200}
"""Legs that hang straight down: the boots are fitted without a lean to the side."""


def framed(look: str = "facing", **changes: float | str) -> Frame:
    return frame(edited(Setup(), **changes), look)


def marks(shown: Frame, view: str) -> dict[str, Any]:
    return {mark.key: mark for mark in shown.scenes[view].marks}


def turn(start: Any, end: Any) -> float:
    """Direction on paper from one point to another (deg)."""
    return degrees(atan2(end[1] - start[1], end[0] - start[0]))


@pytest.mark.parametrize("lead_foot", ["left", "right"])
def test_what_is_seen_at_the_right_is_at_the_right_of_whoever_looks(
    lead_foot: str,
) -> None:
    inputs = edited(Setup(), hips_turned_deg=12.0, lead_foot=lead_foot).inputs
    # To the nose, to the toes and up are a left-handed frame with the left foot in front.
    hand = -1.0 if lead_foot == "left" else 1.0
    for view in (*(front_view(inputs, look) for look in LOOKS), side_view(inputs)):
        assert np.cross(view.right, view.up) == pytest.approx(hand * np.asarray(view.toward))
        assert np.linalg.norm(view.toward) == pytest.approx(1.0)


def test_under_the_sole_stands_its_part_and_on_it_its_boot() -> None:
    for view in ("front", "side", "front_foot"):
        order = list(marks(framed(front_cant_deg=5.0, front_lift_deg=5.0), view))
        parts = [f"front.{part}" for part in ("plate", "mount", "shell", "sole")]
        assert [key for key in order if key in parts] == parts


@pytest.mark.parametrize("view", ["above", "front", "side", "front_foot", "rear_foot"])
def test_words_stand_mirrored_for_a_rider_with_the_right_foot_in_front(view: str) -> None:
    left, right = (framed(lead_foot=foot).scenes[view].marks for foot in ("left", "right"))
    for one, other in zip(left, right, strict=True):
        if isinstance(one, Label) and isinstance(other, Label):
            assert (other.at[0], other.align) == pytest.approx((-one.at[0], -one.align))
            assert other.shift == pytest.approx((-one.shift[0], one.shift[1]))
        if isinstance(one, Callout) and isinstance(other, Callout):
            assert other.edge == -one.edge


# From above


def test_the_nose_is_where_the_front_foot_is_and_the_tail_behind_the_rear_one() -> None:
    plan = marks(framed(), "above")
    assert (plan["board.nose"].text, plan["board.tail"].text) == ("nose", "tail")
    assert plan["board.nose"].at[1] > plan["front.centre"].at[1] > 0.0
    assert plan["board.tail"].at[1] < plan["rear.centre"].at[1] < 0.0
    # Toes point to the right, and the words stand behind the heels.
    assert plan["board.nose"].at[0] == plan["board.tail"].at[0] < 0.0


@pytest.mark.parametrize("spacing", [-100.0, 0.0, 5.0, 300.0, 600.0])
def test_both_feet_stand_on_the_board_and_their_across_spacing_is_measured(spacing: float) -> None:
    plan = marks(framed(across_spacing_mm=spacing), "above")
    edge = max(x for x, y in plan["board"].points if abs(y) < 1.0)
    assert all(abs(plan[f"{name}.centre"].at[0]) < edge - 50.0 for name in ("front", "rear"))
    assert ("across" in plan) == (abs(spacing) > 8.0)
    if "across" in plan:
        assert plan["across"].text == f"{abs(spacing):.0f}"
        assert dist(plan["across"].start, plan["across"].end) == pytest.approx(abs(spacing))


def test_what_is_no_distance_is_not_dimensioned() -> None:
    in_line = marks(framed(front_angle_deg=90, rear_angle_deg=90), "above")
    assert "long_axes" not in in_line
    assert in_line["short_axes"].text == in_line["length"].text == "505"
    assert "length" not in marks(framed(stance_length_mm=0, across_spacing_mm=250), "above")


def test_the_plan_tells_the_axes_apart_at_thirty_degrees() -> None:
    shown = framed(front_angle_deg=30, rear_angle_deg=30, stance_length_mm=480)
    plan = marks(shown, "above")
    assert plan["long_axes"].text == f"feet {480.0 * cos(radians(30.0)):.0f}"
    assert plan["short_axes"].text == f"{480.0 * sin(radians(30.0)):.0f}"
    said = "the feet's long axes are 416 mm apart, your natural spacing is 260 mm."
    assert shown.scenes["above"].text.endswith(said)


@pytest.mark.parametrize("turned", [-20.0, 0.0, 20.0])
def test_the_hips_face_half_way_between_the_feet_and_as_far_on_as_they_are_turned(
    turned: float,
) -> None:
    plan = marks(framed(**EVEN, hips_turned_deg=turned), "above")
    start, end = plan["facing"].points
    rear, front = plan["pelvis"].points
    assert turn(start, end) == pytest.approx(60.0 + turned)
    assert start == pytest.approx(np.mean([rear, front], axis=0))
    assert turn(rear, front) == pytest.approx(60.0 + turned + 90.0)
    assert dist(rear, front) == pytest.approx(Setup().inputs.hip_spacing_mm)


def test_in_boots_that_give_nothing_the_hinge_plane_is_traced_through_the_ankle() -> None:
    plan = marks(framed(**OUTWARD, **UPRIGHT, side_give_deg=0), "above")
    for name in ("front", "rear"):
        ankle, knee, hip = plan[f"{name}.bones"].points
        from_plane, to_hip = plan[f"{name}.miss"].points
        # Feet at 0 degrees point to the right, so that their planes are level lines.
        assert [y for _, y in plan[f"{name}.trace"].points] == pytest.approx([ankle[1]] * 2)
        assert from_plane[1] == pytest.approx(knee[1]) == pytest.approx(ankle[1])
        assert to_hip == hip


# From the front and from the side


def test_seen_from_the_front_the_hips_are_as_far_apart_as_they_are_and_from_the_side_not() -> None:
    shown = framed(front_angle_deg=50, rear_angle_deg=20, hips_turned_deg=15)
    spread = [dist(*marks(shown, view)["pelvis"].points) for view in ("front", "side")]
    assert spread == pytest.approx([Setup().inputs.hip_spacing_mm, 0.0])


def test_feet_side_by_side_are_both_near_and_seen_from_the_side_the_rear_one_is() -> None:
    shown = framed(**OUTWARD)
    front, side = marks(shown, "front"), marks(shown, "side")
    roles = [part[f"{name}.bones"].role for part in (front, side) for name in ("front", "rear")]
    assert roles == ["front.bone.near", "rear.bone.near", "front.bone.far", "rear.bone.near"]


@pytest.mark.parametrize("view", ["front", "side"])
def test_lifts_and_cants_are_written_under_their_own_feet(view: str) -> None:
    shown = framed(front_cant_deg=2, rear_cant_deg=-3, front_lift_deg=4, rear_lift_deg=-5)
    seen = marks(shown, view)
    if view == "front":
        assert [seen[f"{name}.cant"].text for name in ("front", "rear")] == [
            "2.0° inward cant",
            "3.0° outward cant",
        ]
    else:
        assert [seen[f"{name}.lift"].text for name in ("front", "rear")] == [
            "front, 4.0° toe lift",
            "rear, 5.0° heel lift",
        ]


@pytest.mark.parametrize("angle", [0.0, 60.0, 85.0])
def test_the_words_under_the_feet_stand_on_the_side_of_their_foot(angle: float) -> None:
    for look in ("facing", "front"):
        front = marks(framed(look, front_angle_deg=angle, rear_angle_deg=angle), "front")
        apart = front["front.name"].at[0] - front["rear.name"].at[0]
        assert apart >= 80.0
        assert front["front.name"].shift[0] == -front["rear.name"].shift[0] >= 0.0


def test_feet_in_line_have_their_words_pushed_farther_apart_than_feet_side_by_side() -> None:
    shift = [
        marks(framed(front_angle_deg=angle, rear_angle_deg=angle), "front")["front.name"].shift[0]
        for angle in (0.0, 60.0, 90.0)
    ]
    assert 0.0 == shift[0] < shift[1] < shift[2]


@pytest.mark.parametrize("view", ["front", "side"])
def test_thigh_and_bend_are_drawn_to_where_the_hip_is(view: str) -> None:
    shown = framed(**EVEN)
    seen = marks(shown, view)
    for name in ("front", "rear"):
        _, knee, hip = seen[f"{name}.bones"].points
        if view == "front":
            # In plane the wedge is thin and the leader points to the thigh.
            assert seen[f"{name}.wedge"].points[-1] == pytest.approx(hip)
            way = turn(knee, seen[f"{name}.callout"].target)
        else:
            way = turn(knee, seen[f"{name}.bend"].points[-1])
        assert way == pytest.approx(turn(knee, hip), abs=1e-6)


@pytest.mark.parametrize("name", ["front", "rear"])
def test_the_wedge_swings_from_the_trace_to_the_hip(name: str) -> None:
    shown = framed(name, **OUTWARD)
    for view in ("front", f"{name}_foot"):
        seen = marks(shown, view)
        knee, first, *_, last = seen[f"{name}.wedge"].points
        _, joint, hip = seen[f"{name}.bones"].points
        assert knee == pytest.approx(joint)
        assert last == pytest.approx(hip)
        assert turn(knee, first) == pytest.approx(turn(knee, seen[f"{name}.trace"].points[-1]))


def test_the_boot_s_range_lies_evenly_about_the_lean_at_which_it_stands() -> None:
    inputs = Setup().inputs
    side = marks(framed(**OUTWARD, **UPRIGHT, side_give_deg=0), "side")
    for name in ("front", "rear"):
        ankle, *fan = side[f"{name}.flex_range"].points
        upright = [90.0 - turn(ankle, end) for end in (fan[0], fan[-1])]
        own = inputs.leg(name)
        lean, play = own.forward_lean_deg, own.flex_range_deg
        assert upright == pytest.approx([lean - play, lean + play])
        assert 90.0 - turn(*side[f"{name}.flex_rest"].points) == pytest.approx(lean)


def test_the_side_view_tells_flex_range_and_bend_of_each_leg() -> None:
    shown = framed(front_angle_deg=90, rear_angle_deg=90)
    side = marks(shown, "side")
    for name, leg in shown.findings.legs.items():
        told = side[f"{name}.bend_callout"]
        assert told.state == "out"
        assert told.number.replace("−", "-") == f"{leg.boot_flex_deg:.1f}°"
        own = Setup().inputs.leg(name)
        low, high = (own.forward_lean_deg + way * own.flex_range_deg for way in (-1, 1))
        bend = f"knee bend {leg.knee_flexion_deg:.0f}°"
        assert told.word == f"{name} boot,past its stop,of {low:.0f}° to {high:.0f}°,{bend}"
    # The demo rider's rear boot has 0.6 of its 15 degrees left, the front one 14.
    demo = marks(framed(), "side")
    assert [demo[f"{name}.bend_callout"].state for name in ("front", "rear")] == ["in", "near"]
    assert demo["rear.bend_callout"].word.startswith("rear boot,near its stop,")


def test_limbs_are_as_thick_as_the_rider_is_tall() -> None:
    def thickness(hip_height: float) -> float:
        seen = marks(framed(hip_height_mm=hip_height), "front")
        return min(dist(seen["front.knee"].at, end) for end in seen["front.thigh"].points)

    assert thickness(968.0) == pytest.approx(1.1 * thickness(880.0))


# Along the foot, unfolded


@pytest.mark.parametrize("name", ["front", "rear"])
def test_unfolded_a_leg_leans_to_the_side_to_which_it_leans_seen_along_its_foot(name: str) -> None:
    for stance in (OUTWARD, {"front_angle_deg": 88, "rear_angle_deg": 88}):
        shown = framed(name, **stance)
        seen, unfolded = marks(shown, "front"), marks(shown, f"{name}_foot")
        for marked in (seen, unfolded):
            _, knee, hip = marked[f"{name}.bones"].points
            ankle, _, beyond = marked[f"{name}.trace"].points
            marked["lean"] = np.sign(knee[0] - ankle[0])
            marked["swing"] = np.sign(turn(knee, hip) - turn(knee, beyond))
        assert (seen["lean"], seen["swing"]) == (unfolded["lean"], unfolded["swing"])


def test_a_shank_whose_boot_gives_no_more_lies_on_the_edge_of_its_band() -> None:
    unfolded = marks(framed(**OUTWARD, **UPRIGHT), "front_foot")
    ankle, first, *_, last = unfolded["front.give"].points
    ends = sorted([turn(ankle, first), turn(ankle, last)])
    assert ends == pytest.approx([86.0, 94.0])
    shank = turn(ankle, unfolded["front.bones"].points[1])
    assert min(abs(shank - end) for end in ends) < 1e-9


def test_unfolded_the_way_of_the_knee_is_told_and_a_part_drawn_only_under_a_slope() -> None:
    out, flat = marks(framed(**OUTWARD), "front_foot"), marks(framed(**EVEN), "front_foot")
    assert (out["front.true_callout"].word, flat["front.true_callout"].word) == (
        "bow-legged",
        "in its plane",
    )
    assert "front.mount" not in flat
    assert "front.mount" in marks(framed(front_cant_deg=5), "front_foot")
