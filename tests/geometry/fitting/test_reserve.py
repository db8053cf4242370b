"""What a posture has left, against fine steps through the whole bend and to either side."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from fit_riders import demo, rad, uneven

from geometry import solve
from geometry.fitting.inputs import PostureInputs
from geometry.fitting.reserve import (
    FRONT_BOOT_BACK,
    NO_POSTURE,
    REAR_BOOT_FORWARD,
    reserve_of,
)
from geometry.joints import AAOS_MOVEMENTS

RIDERS = {
    "demo": demo(),
    "straight": demo(0.0, 0.0),
    "duck": demo(15.0, -15.0),
    "uneven": uneven(),
}
KNEES = next(each.most for each in AAOS_MOVEMENTS if (each.joint, each.name) == ("knee", "flexion"))


def reserve(asked: PostureInputs) -> object:
    return reserve_of(asked, solve(*asked))


def holds(asked: PostureInputs, **moved: float) -> tuple[bool, float]:
    """Whether nothing is past its end in one posture, and how high its hips are (mm)."""
    body, boots, stance, crouch = asked
    posture = solve(body, boots, stance, replace(crouch, **moved))
    if not posture.exists:
        return False, math.nan
    boots_hold = all(
        abs(leg.boot_flex - boot.forward_lean) <= boot.flex_range
        for leg, boot in zip(posture.legs, boots.both, strict=True)
    )
    knees_hold = all(leg.knee_flexion <= KNEES for leg in posture.legs)
    return bool(boots_hold and knees_hold), float(posture.height)


def farthest(asked: PostureInputs, name: str, step: float) -> float:
    """How far the hips sink or rise, or the weight moves, until something is past its end (mm)."""
    value = start = float(getattr(asked.crouch, name))
    _, height = holds(asked)
    last = height
    while True:
        fine, now = holds(asked, **{name: value})
        if not fine:
            return abs(last - height) if name == "knee_bend" else abs(value - step - start)
        last, value = now, value + step


@pytest.mark.parametrize("asked", [RIDERS["straight"], RIDERS["duck"]], ids=["straight", "duck"])
@pytest.mark.parametrize(("name", "way"), [("sink", 1.0), ("rise", -1.0)])
def test_the_hips_go_as_far_as_fine_steps_say(asked: PostureInputs, name: str, way: float) -> None:
    room = getattr(reserve(asked), name)
    assert room.distance == pytest.approx(farthest(asked, "knee_bend", way * rad(0.05)), abs=1.0)


@pytest.mark.parametrize("asked", [RIDERS["straight"], RIDERS["duck"]], ids=["straight", "duck"])
@pytest.mark.parametrize(("name", "way"), [("lean_ahead", 1.0), ("lean_back", -1.0)])
def test_the_weight_goes_as_far_as_fine_steps_say(
    asked: PostureInputs, name: str, way: float
) -> None:
    room = getattr(reserve(asked), name)
    assert room.distance == pytest.approx(farthest(asked, "weight_ahead", way * 0.25), abs=0.5)


def test_a_boot_past_its_stop_leaves_nothing_and_is_named() -> None:
    # At 60/60 the front boot stands too far back and the rear one too far forward.
    found = reserve(demo(60.0, 60.0))
    assert found.sink.distance == 0.0
    assert {end for end, _ in found.sink.passed} == {FRONT_BOOT_BACK, REAR_BOOT_FORWARD}


def test_the_demo_s_sinking_ends_at_its_rear_boot() -> None:
    assert reserve(demo()).sink.end == REAR_BOOT_FORWARD
    assert 0.0 < reserve(demo()).sink.distance < 30.0


def test_side_give_left_is_what_the_wanted_give_has_not_used() -> None:
    body, boots, stance, crouch = asked = demo(60.0, 60.0)
    posture = solve(body, boots, stance, crouch)
    left = reserve(asked).side_give
    used = [abs(float(leg.wanted_give)) for leg in posture.legs]
    assert np.array(left) + used == pytest.approx([rad(4.0)] * 2)
    assert reserve(demo()).side_give == (0.0, 0.0)


LONG = demo(length=640.0)
"""Its front boot is past its rear stop, its rear boot past its front stop."""
STRETCHED = demo(length=600.0)
"""The same in a lesser degree: both are shown as past their stops by less than two degrees."""


def boot_left(asked: PostureInputs, i: int, **moved: float) -> float:
    """What a boot has left to its nearer stop (rad)."""
    body, boots, stance, crouch = asked
    leg = solve(body, boots, stance, replace(crouch, **moved)).legs[i]
    boot = boots.both[i]
    return float(boot.flex_range - abs(leg.boot_flex - boot.forward_lean))


def way_back(asked: PostureInputs, i: int, step: float) -> float:
    """How far the hips go until a boot is no longer past its stop (mm), in fine steps."""
    _, start = holds(asked)
    bend = float(asked.crouch.knee_bend)
    while boot_left(asked, i, knee_bend=bend) < 0.0:
        bend += step
    return abs(holds(asked, knee_bend=bend)[1] - start)


@pytest.mark.parametrize("asked", [LONG, STRETCHED], ids=["640", "600"])
def test_where_boots_are_past_their_stops_each_one_s_way_back_into_range_is_told(
    asked: PostureInputs,
) -> None:
    found = reserve(asked)
    # Sinking brings the front boot back and takes the rear one further; rising the other way.
    for room, way, back, further in (
        (found.sink, 1.0, FRONT_BOOT_BACK, REAR_BOOT_FORWARD),
        (found.rise, -1.0, REAR_BOOT_FORWARD, FRONT_BOOT_BACK),
    ):
        told = dict(room.passed)
        assert {*told} == {back, further}
        assert (room.distance, room.end) == (0.0, room.passed[0].end)
        which = 0 if back == FRONT_BOOT_BACK else 1
        assert told[back] == pytest.approx(way_back(asked, which, way * rad(0.05)), abs=1.0)
        assert math.isnan(told[further])


def test_where_nothing_is_past_its_end_there_is_nothing_to_come_back_from() -> None:
    assert reserve(demo()).sink.passed == reserve(demo()).rise.passed == ()


def test_a_boot_shown_at_its_stop_is_at_it_and_not_past_it() -> None:
    # At this bend the rear boot of the demo is past its front stop by 0.03°.
    bends = np.radians(np.linspace(45.0, 60.0, 15001))
    body, boots, stance, crouch = demo()
    rear = solve(body, boots, stance, replace(crouch, knee_bend=bends)).rear
    left = boots.rear.flex_range - np.abs(np.asarray(rear.boot_flex) - boots.rear.forward_lean)
    there = float(bends[np.argmin(np.abs(left + rad(0.03)))])
    found = reserve(demo()._replace(crouch=replace(crouch, knee_bend=there)))
    assert (found.sink.distance, found.sink.end) == (pytest.approx(0.0), REAR_BOOT_FORWARD)
    assert found.sink.passed == ()
    assert (found.rise.distance > 5.0, found.rise.end) == (True, FRONT_BOOT_BACK)


@pytest.mark.parametrize("asked", RIDERS.values(), ids=RIDERS)
def test_a_point_just_beyond_the_end_named_is_past_it(asked: PostureInputs) -> None:
    room = reserve(asked).lean_ahead
    ahead = float(asked.crouch.weight_ahead) + room.distance
    assert not holds(asked, weight_ahead=ahead + 2.5)[0]


def test_without_a_posture_nothing_is_left_to_tell() -> None:
    found = reserve(demo(0.0, 0.0, length=2000.0))
    assert math.isnan(found.sink.distance)
    assert found.sink.end == NO_POSTURE
