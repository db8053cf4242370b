"""Scenes compared with the posture by their marks, in mm."""

from __future__ import annotations

from math import atan2, degrees, hypot, radians, sin

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.drawing.marks import Area, Line, Mark, Scene, Span
from app.frame import Frame, frame
from app.rider.setup import Setup, edited
from app.stance.findings import DRIFTING, IN_PLANE, OUT_OF_PLANE


def framed(**changes: float | str) -> Frame:
    return frame(edited(Setup(), **changes))


def found(scene: Scene, key: str) -> Mark:
    return next(mark for mark in scene.marks if mark.key == key)


def angle_at(apex: tuple[float, float], a: tuple[float, float], b: tuple[float, float]) -> float:
    """Signed angle from a to b seen from the apex (deg)."""
    first = atan2(a[1] - apex[1], a[0] - apex[0])
    second = atan2(b[1] - apex[1], b[0] - apex[0])
    return (degrees(second - first) + 180.0) % 360.0 - 180.0


angles = st.integers(-20, 85)
slopes = st.floats(-8.0, 8.0)


@given(front=angles, rear=angles, cant=slopes, bend=st.floats(20.0, 90.0), tracking=slopes)
def test_the_unfolded_leg_shows_the_true_off_plane_angle(
    front: int, rear: int, cant: float, bend: float, tracking: float
) -> None:
    shown = framed(
        front_angle_deg=front, rear_angle_deg=rear, front_cant_deg=cant,
        knee_bend_deg=bend, knee_tracking_deg=tracking,
    )  # fmt: skip
    for name, leg in shown.findings.legs.items():
        if not shown.settled.posture.exists:
            continue
        scene = shown.scenes[f"{name}_foot"]
        _, knee, hip = found(scene, f"{name}.bones").points
        _, _, beyond = found(scene, f"{name}.trace").points
        drawn = angle_at(knee, beyond, hip)
        assert abs(drawn) == pytest.approx(abs(leg.off_plane_deg), abs=1e-6)


def test_the_plan_measures_the_stance_as_the_rider_would() -> None:
    plan = framed(front_angle_deg=30, rear_angle_deg=30, stance_length_mm=480).scenes["above"]
    lengths = {m.key: hypot(m.end[0] - m.start[0], m.end[1] - m.start[1])
               for m in plan.marks if isinstance(m, Span)}  # fmt: skip
    assert lengths["length"] == pytest.approx(480.0)
    assert lengths["long_axes"] == pytest.approx(480.0 * np.cos(radians(30.0)))
    assert lengths["short_axes"] == pytest.approx(480.0 * sin(radians(30.0)))
    assert lengths["neutral"] == pytest.approx(260.0)


def test_a_right_foot_forward_rider_is_the_mirror_image_in_every_view() -> None:
    left, right = framed(lead_foot="left"), framed(lead_foot="right")
    for key in ("above", "front", "side", "front_foot", "rear_foot"):
        for one, other in zip(left.scenes[key].marks, right.scenes[key].marks, strict=True):
            if isinstance(one, Line):
                assert np.allclose(
                    np.asarray(one.points) * (-1.0, 1.0), np.asarray(other.points), atol=1e-9
                ) or one.key.startswith("board")


def test_seen_along_a_flat_foot_the_trace_of_the_hinge_plane_is_one_straight_line() -> None:
    shown = frame(edited(Setup(), front_angle_deg=0, rear_angle_deg=0), look="front")
    ankle, knee, beyond = found(shown.scenes["front"], "front.trace").points
    assert angle_at(knee, ankle, beyond) % 360.0 == pytest.approx(180.0, abs=1e-6)


@pytest.mark.parametrize(("angle", "state"), [(60, IN_PLANE), (37, DRIFTING), (0, OUT_OF_PLANE)])
def test_the_wedge_carries_the_state_of_its_knee(angle: int, state: str) -> None:
    shown = framed(front_angle_deg=angle, rear_angle_deg=angle, stance_length_mm=480)
    assert shown.findings.legs["front"].state == state
    assert found(shown.scenes["front"], "front.wedge").role == f"wedge.{state}"


def test_the_nearer_leg_is_drawn_last_and_in_the_stronger_tone() -> None:
    marks = framed(front_angle_deg=90, rear_angle_deg=90).scenes["front"].marks
    thighs = [mark for mark in marks if mark.key.endswith(".thigh")]
    assert [mark.role for mark in thighs] == ["rear.limb.far", "front.limb.near"]


def test_a_sloped_part_is_drawn_only_under_a_sloped_sole() -> None:
    flat, sloped = framed(), framed(front_cant_deg=5.0)
    assert not any(mark.key == "front.mount" for mark in flat.scenes["front"].marks)
    assert isinstance(found(sloped.scenes["front"], "front.mount"), Area)
    assert not any(mark.key == "rear.mount" for mark in sloped.scenes["front"].marks)


def test_without_a_posture_the_feet_stay_and_the_reason_is_written() -> None:
    shown = framed(front_angle_deg=80, rear_angle_deg=-20, knee_bend_deg=10, stance_length_mm=700)
    keys = {mark.key for mark in shown.scenes["front"].marks}
    assert {"front.sole", "rear.sole", "notice"} <= keys
    assert "front.thigh" not in keys
    texts = [mark.text for mark in shown.scenes["front"].marks if mark.key == "notice"]
    assert texts == ["No posture", "the front leg cannot reach"]


@given(angle=angles, length=st.floats(300.0, 700.0), across=st.sampled_from([0.0, 150.0]))
def test_every_coordinate_of_every_mark_is_a_number(
    angle: int, length: float, across: float
) -> None:
    shown = framed(
        front_angle_deg=angle, rear_angle_deg=angle, stance_length_mm=length,
        across_spacing_mm=across,
    )  # fmt: skip
    for scene in shown.scenes.values():
        for mark in scene.marks:
            if isinstance(mark, Line | Area):
                assert np.isfinite(np.asarray(mark.points)).all()


def test_small_moves_do_not_change_the_part_of_the_paper_that_is_shown() -> None:
    one, other = framed(front_angle_deg=45), framed(front_angle_deg=45.5)
    assert one.scenes["front"].window == other.scenes["front"].window
    assert one.scenes["side"].window == other.scenes["side"].window


@pytest.mark.parametrize(("front", "rear"), [(43, 38), (15, 40), (40, 40), (60, 55)])
def test_the_rear_angle_keeps_clear_of_the_dimension_ahead_of_it(front: int, rear: int) -> None:
    marks = framed(front_angle_deg=front, rear_angle_deg=rear).scenes["above"].marks
    label = next(mark for mark in marks if mark.key == "rear.angle")
    span = next(mark for mark in marks if mark.key == "short_axes")
    # As on a sheet of 1024 × 700, with the longest name: 3 mm to a pixel, 58 px of German.
    reach = 3.0 * 58.0 * 0.5 * (1 + label.align)
    clear_beside = label.at[0] + reach < span.start[0]
    clear_above = label.at[1] - 3.0 * (label.shift[1] + 8.0) > max(span.start[1], span.end[1])
    assert clear_beside or clear_above
