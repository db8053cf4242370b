"""Riders and stances that the tests of the fit share, written in degrees."""

from __future__ import annotations

import math

import numpy as np

from geometry import Body, Boots, Crouch, Mount, Stance
from geometry.fitting.inputs import Setup


def rad(degrees: float) -> float:
    return math.radians(degrees)


HARD = Boots(25.0, rad(18.0), rad(15.0), rad(4.0))
"""Hard boots as the program's defaults have them (invented)."""


def stance_of(front: float, rear: float, length: float = 500.0, across: float = 0.0) -> Stance:
    return Stance(Mount(rad(front)), Mount(rad(rear)), length, across)


def demo(front: float = 45.0, rear: float = 40.0, length: float = 500.0) -> Setup:
    """The demo rider in hard boots (invented)."""
    return Setup(
        Body(880.0, 490.0, 70.0, 170.0, 250.0, 255.0),
        HARD,
        stance_of(front, rear, length),
        Crouch(rad(45.0)),
    )


def practice(front: float, rear: float) -> Setup:
    """The rider of the checks from practice.

    Neutral spacing 270, hip height 950, stance length 540, knee bent 45 deg,
    hard boots.  The stature that goes with the hip height, and the knee, ankle
    and foot that go with the stature, are by the men's regressions on ANSUR II
    (Gordon et al. 2014, NATICK/TR-15/007): stature 1836.5 mm.
    """
    return Setup(
        Body(950.0, 518.5, 76.1, 171.0, 270.0, 282.3),
        HARD,
        stance_of(front, rear, 540.0),
        Crouch(rad(45.0)),
    )


def random_setups(count: int, seed: int) -> list[Setup]:
    """Riders and stances of every kind that people ride, single values each."""
    draws = np.random.default_rng(seed)

    def between(low: float, high: float) -> float:
        return float(draws.uniform(low, high))

    def setup() -> Setup:
        hip = between(560.0, 1050.0)
        rear = between(-20.0, 80.0)
        body = Body(
            hip,
            hip * between(0.52, 0.58),
            hip * between(0.065, 0.09),
            between(130.0, 200.0),
            between(160.0, 330.0),
            between(170.0, 310.0),
            rad(between(-8.0, 8.0)),
        )
        boots = Boots(
            between(10.0, 50.0),
            rad(between(5.0, 25.0)),
            rad(between(8.0, 22.0)),
            rad(between(1, 9)),
        )
        stance = Stance(
            Mount(
                rad(rear + between(-5.0, 25.0)), rad(between(-6.0, 8.0)), rad(between(-4.0, 4.0))
            ),
            Mount(rad(rear), rad(between(-8.0, 6.0)), rad(between(-4.0, 4.0))),
            hip * between(0.42, 0.62),
        )
        crouch = Crouch(rad(between(30.0, 80.0)), rad(between(-12.0, 12.0)), between(-30.0, 30.0))
        return Setup(body, boots, stance, crouch)

    return [setup() for _ in range(count)]
