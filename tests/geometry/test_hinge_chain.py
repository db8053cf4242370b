"""Our joint angles, put into a physics engine's hinges, land the hips on the pelvis."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from hinge_chain import HingeChain
from numpy.typing import NDArray
from riders import demo, ordinary_values, random_values, setup_of, single

from geometry import Leg, solve
from geometry.fitting.inputs import Setup

STANCES = 200


@pytest.fixture(scope="module")
def chain() -> HingeChain:
    return HingeChain()


def pelvis_hip(setup: Setup, depth: float, height: float, side: float) -> NDArray[np.float64]:
    """A hip joint centre, from where the pelvis is and which way it faces."""
    stance, crouch = setup.stance, setup.crouch
    facing = 0.5 * (stance.front.angle + stance.rear.angle) + crouch.hips_turned
    forward = np.array([math.sin(facing), math.cos(facing), 0.0])
    across = np.array([math.cos(facing), -math.sin(facing), 0.0])
    sideways = crouch.hip_shift + 0.5 * side * setup.body.hip_spacing
    return depth * forward + sideways * across + np.array([0.0, 0.0, height])


def bend_as(chain: HingeChain, setup: Setup, leg: Leg) -> None:
    chain.stand(setup, is_front=leg.side > 0.0)
    chain.bent(leg.lean, leg.boot_flex, leg.knee_flexion, leg.off_plane)


def largest_gap(chain: HingeChain, setup: Setup) -> float:
    """How far the engine's hips end up from the pelvis (mm)."""
    posture = solve(*setup)
    gaps = []
    for leg in posture.legs:
        bend_as(chain, setup, leg)
        hip = pelvis_hip(setup, posture.depth, posture.height, leg.side)
        gaps.append(math.dist(chain.point("hip"), hip))
    return max(gaps)


def indices_with_posture(values: dict[str, NDArray[Any]]) -> list[int]:
    found = np.flatnonzero(solve(*setup_of(values)).exists)[:STANCES]
    assert len(found) == STANCES
    return [int(i) for i in found]


@pytest.mark.parametrize(
    "values", [ordinary_values(260, 11), random_values(600, 12)], ids=["ordinary", "any"]
)
def test_the_engines_hips_land_on_the_pelvis_in_200_random_stances(
    chain: HingeChain, values: dict[str, NDArray[Any]]
) -> None:
    gaps = [largest_gap(chain, single(values, i)) for i in indices_with_posture(values)]
    assert max(gaps) < 1e-6


def test_the_engines_knees_and_ankles_are_ours(chain: HingeChain) -> None:
    setup = demo(front_cant=5.0, rear_lift=7.0, rear_cant=-3.0, knee_tracking=6.0, hip_shift=10.0)
    for leg in solve(*setup).legs:
        bend_as(chain, setup, leg)
        assert chain.point("sole") == pytest.approx(leg.ankle, abs=1e-9)
        assert chain.point("thigh") == pytest.approx(leg.knee, abs=1e-9)


def test_a_hinge_turned_a_little_farther_misses_the_pelvis(chain: HingeChain) -> None:
    # Else landing on it would prove little.
    setup = demo()
    leg = solve(*setup).front
    right = (leg.lean, leg.boot_flex, leg.knee_flexion, leg.off_plane)
    for hinge in range(4):
        angles = [angle + 1e-6 * (i == hinge) for i, angle in enumerate(right)]
        chain.stand(setup, is_front=True)
        chain.bent(*angles)
        assert math.dist(chain.point("hip"), leg.hip) > 1e-4
