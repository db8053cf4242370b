"""Riders, parts and limits that the tests of the parts share, written in degrees (invented)."""

from __future__ import annotations

import math
from dataclasses import replace

from riders import demo

from geometry import Boots
from geometry.hardware.candidates import StanceLimits
from geometry.hardware.parts import Inserts, Kind, Part, PartsList
from geometry.posture import PostureInputs


def rad(degrees: float) -> float:
    return math.radians(degrees)


def rider(front: float = 45.0, rear: float = 40.0, side_give: float = 4.0) -> PostureInputs:
    """The demo rider on flat mounts."""
    own = {"front_angle": front, "rear_angle": rear, "side_give": side_give}
    return demo(stance_length=500.0, neutral_spacing=250.0, **own)


def uneven(front: float = 45.0, rear: float = 40.0) -> PostureInputs:
    """The same rider with a shorter rear leg, a looser front boot and a leaning rear cuff."""
    setup = rider(front, rear)
    body, boots = setup.body, setup.boots
    short = replace(body.rear, hip_height=868.0, knee_height=484.0)
    loose = replace(boots.front, side_give=rad(6.0), flex_range=rad(18.0))
    leaning = replace(boots.rear, forward_lean=rad(14.0), cuff_offset=rad(1.5))
    return setup._replace(body=replace(body, rear=short), boots=Boots(loose, leaning))


def turnable(slope: float = 6.0, step: float = 30.0, count: int = 2) -> Part:
    return Part("round wedge", Kind.TURNABLE, rad(slope), rad(step), thickness=9.0, count=count)


def along(slope: float = 3.0, count: int = 2) -> Part:
    return Part("block", Kind.ALONG, rad(slope), thickness=6.0, count=count)


def across(slope: float = 2.0, count: int = 2) -> Part:
    return Part("side wedge", Kind.ACROSS, rad(slope), thickness=4.0, count=count)


def parts_of(
    *parts: Part, stack: int = 2, angle_step: float = 5.0, turns_with_binding: bool = True
) -> PartsList:
    inserts = Inserts(40.0, 420.0, 580.0)
    return PartsList(parts, stack, rad(angle_step), inserts, turns_with_binding)


def limits(
    front: tuple[float, float],
    rear: tuple[float, float],
    lengths: tuple[float, float] = (400.0, 600.0),
    splay: tuple[float, float] = (-180.0, 180.0),
) -> StanceLimits:
    def both(span: tuple[float, float]) -> tuple[float, float]:
        return rad(span[0]), rad(span[1])

    return StanceLimits(both(front), both(rear), lengths, both(splay))


def degrees_of(radians: float) -> float:
    return math.degrees(radians)
