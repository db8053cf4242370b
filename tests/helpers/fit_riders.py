"""Riders and stances that the tests of the fit share, written in degrees."""

from __future__ import annotations

import math

import numpy as np

from geometry import Body, Boot, Boots, Crouch, LegMeasures, Mount, Stance
from geometry.fitting.inputs import PostureInputs


def rad(degrees: float) -> float:
    return math.radians(degrees)


def boots_of(sole: float, lean: float, flex_range: float, give: float) -> Boots:
    """Two boots alike, in mm and degrees."""
    return Boots.equal(
        sole_thickness=sole,
        forward_lean=rad(lean),
        flex_range=rad(flex_range),
        side_give=rad(give),
    )


def body_of(
    hip: float, knee: float, ankle: float, foot: float, *, hips: float, neutral: float
) -> Body:
    """Two legs alike, in mm."""
    return Body.equal(
        hip_height=hip,
        knee_height=knee,
        ankle_height=ankle,
        foot_length=foot,
        hip_spacing=hips,
        neutral_spacing=neutral,
    )


HARD = boots_of(25.0, 18.0, 15.0, 4.0)
"""Hard boots as the program's defaults have them (invented)."""
NEUTRAL, LENGTH = 260.0, 505.0
"""Neutral spacing and stance length of the demo rider (mm; invented)."""


def stance_of(front: float, rear: float, length: float = LENGTH, across: float = 0.0) -> Stance:
    return Stance(Mount(rad(front)), Mount(rad(rear)), length, across)


def demo(front: float = 43.0, rear: float = 38.0, length: float = LENGTH) -> PostureInputs:
    """The demo rider in hard boots (invented)."""
    return PostureInputs(
        body_of(880.0, 490.0, 70.0, 255.0, hips=170.0, neutral=NEUTRAL),
        HARD,
        stance_of(front, rear, length),
        Crouch(rad(45.0)),
    )


def practice(front: float, rear: float) -> PostureInputs:
    """The rider of the checks from practice (common practice, no source).

    Hip 950, knee 527, ankle 75, foot 275, hip spacing 175, neutral spacing 270,
    stance length 540, knee bent 45 deg, hard boots.
    """
    return PostureInputs(
        body_of(950.0, 527.0, 75.0, 275.0, hips=175.0, neutral=270.0),
        HARD,
        stance_of(front, rear, 540.0),
        Crouch(rad(45.0)),
    )


def uneven() -> PostureInputs:
    """A rider whose legs and boots differ, turned and leaning (invented)."""
    body = Body(
        LegMeasures(905.0, 500.0, 72.0, 262.0, rad(3.0)),
        LegMeasures(893.0, 492.0, 70.0, 258.0, rad(-2.0)),
        172.0,
        262.0,
    )
    boots = Boots(
        Boot(25.0, rad(14.0), rad(13.0), rad(3.0), rad(1.0)),
        Boot(30.0, rad(20.0), rad(16.0), rad(5.0), rad(-0.5)),
    )
    stance = Stance(Mount(rad(35.0), rad(4.0), rad(2.0)), Mount(rad(24.0), rad(-3.0)), 520.0, 12.0)
    return PostureInputs(body, boots, stance, Crouch(rad(45.0), rad(-8.0), 15.0, rad(35.0), -10.0))


def random_setups(count: int, seed: int) -> list[PostureInputs]:
    """Riders and stances of every kind that people ride, legs and boots of their own."""
    draws = np.random.default_rng(seed)

    def between(low: float, high: float) -> float:
        return float(draws.uniform(low, high))

    def leg(hip: float, knee: float, ankle: float) -> LegMeasures:
        own = hip * between(0.985, 1.015)
        foot = hip * between(0.26, 0.33)
        return LegMeasures(own, own * knee, own * ankle, foot, rad(between(-8.0, 8.0)))

    def boot() -> Boot:
        return Boot(
            between(10.0, 50.0),
            rad(between(5.0, 25.0)),
            rad(between(8.0, 22.0)),
            rad(between(1.0, 9.0)),
            rad(between(-3.0, 3.0)),
        )

    def mount(angle: float) -> Mount:
        return Mount(rad(angle), rad(between(-6.0, 6.0)), rad(between(-4.0, 4.0)))

    def setup() -> PostureInputs:
        hip, knee, ankle = between(560.0, 1050.0), between(0.52, 0.58), between(0.065, 0.09)
        rear = between(-20.0, 80.0)
        legs = leg(hip, knee, ankle), leg(hip, knee, ankle)
        body = Body(*legs, between(130.0, 200.0), between(160.0, 330.0))
        stance = Stance(
            mount(rear + between(-5.0, 25.0)),
            mount(rear),
            hip * between(0.42, 0.62),
            between(-20.0, 20.0),
        )
        crouch = Crouch(
            rad(between(35.0, 80.0)),
            rad(between(-12.0, 12.0)),
            between(-30.0, 30.0),
            rad(between(10.0, 45.0)),
            between(-25.0, 25.0),
        )
        return PostureInputs(body, Boots(boot(), boot()), stance, crouch)

    return [setup() for _ in range(count)]


def many_riders(count: int, seed: int) -> PostureInputs:
    """As many riders and stances of every kind in arrays, legs and boots of their own."""
    draws = np.random.default_rng(seed)

    def between(low: float, high: float) -> np.ndarray:
        return draws.uniform(low, high, count)

    hip = between(750.0, 980.0)

    def leg() -> LegMeasures:
        own, knee = hip + draws.normal(0.0, 4.0, count), between(0.53, 0.57)
        return LegMeasures(own, own * knee, own * 0.08, own * 0.29, np.radians(between(-4.0, 4.0)))

    def boot() -> Boot:
        lean, reach, give = between(8.0, 22.0), between(8.0, 22.0), between(0.5, 8.0)
        return Boot(25.0, np.radians(lean), np.radians(reach), np.radians(give), 0.0)

    front = between(-20.0, 90.0)
    rear = front - between(-5.0, 25.0)
    body = Body(leg(), leg(), between(150.0, 190.0), between(180.0, 340.0))
    stance = Stance(Mount(np.radians(front)), Mount(np.radians(rear)), between(350.0, 620.0))
    return PostureInputs(body, Boots(boot(), boot()), stance, Crouch(rad(45.0)))
