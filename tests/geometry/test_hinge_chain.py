"""Our joint angles, put into a physics engine's hinges, land the hips on the pelvis."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from hinge_chain import LEG_SHARE, HingeChain
from numpy.typing import NDArray
from riders import demo, ordinary_values, random_values, setup_of, single

from geometry import Leg, Posture, solve
from geometry.fitting.inputs import PostureInputs

STANCES = 200


@pytest.fixture(scope="module")
def chain() -> HingeChain:
    return HingeChain()


def turned_to(
    setup: PostureInputs, turned: float
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Ahead and across of something turned from the mean of the two binding angles."""
    stance = setup.stance
    facing = 0.5 * (stance.front.angle + stance.rear.angle) + turned
    across = np.array([math.cos(facing), -math.sin(facing), 0.0])
    return np.array([math.sin(facing), math.cos(facing), 0.0]), across


def pelvis_middle(setup: PostureInputs, posture: Posture) -> NDArray[np.float64]:
    """The middle of the hips, which moves with the stance and not with the pelvis's turn."""
    ahead, aside = turned_to(setup, 0.0)
    level = posture.depth * ahead + setup.crouch.hip_shift * aside
    return level + np.array([0.0, 0.0, posture.height])


def pelvis_hip(setup: PostureInputs, posture: Posture, side: float) -> NDArray[np.float64]:
    """A hip joint centre, from where the pelvis is and which way it faces."""
    _, across = turned_to(setup, setup.crouch.hips_turned)
    return pelvis_middle(setup, posture) + 0.5 * side * setup.body.hip_spacing * across


def bend_as(chain: HingeChain, setup: PostureInputs, leg: Leg) -> None:
    chain.stand(setup, is_front=leg.side > 0.0)
    chain.bent(leg.lean, leg.boot_flex, leg.knee_flexion, leg.off_plane)


def largest_gap(chain: HingeChain, setup: PostureInputs) -> float:
    """How far the engine's hips end up from the pelvis (mm)."""
    posture = solve(*setup)
    gaps = []
    for leg in posture.legs:
        bend_as(chain, setup, leg)
        gaps.append(math.dist(chain.point("hip"), pelvis_hip(setup, posture, leg.side)))
    return max(gaps)


def mass_centre(chain: HingeChain, setup: PostureInputs) -> NDArray[np.float64]:
    """The body's centre of mass: the engine's for both legs, and the upper body's own."""
    posture, crouch = solve(*setup), setup.crouch
    hip_height = 0.5 * (setup.body.front.hip_height + setup.body.rear.hip_height)
    ahead, _ = turned_to(setup, crouch.hips_turned)
    leaned = math.sin(crouch.back_lean) * ahead + [0.0, 0.0, math.cos(crouch.back_lean)]
    upper = pelvis_middle(setup, posture) + 0.35 * hip_height * leaned
    total = (1.0 - 2.0 * LEG_SHARE) * upper
    for leg in posture.legs:
        bend_as(chain, setup, leg)
        total = total + LEG_SHARE * chain.mass_centre
    return total


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


@pytest.mark.parametrize(
    "values", [ordinary_values(260, 13), random_values(600, 14)], ids=["ordinary", "any"]
)
def test_the_engines_weight_is_ours_and_stands_as_far_ahead_as_asked(
    chain: HingeChain, values: dict[str, NDArray[Any]]
) -> None:
    for i in indices_with_posture(values):
        setup = single(values, i)
        centre = mass_centre(chain, setup)
        assert solve(*setup).mass_centre == pytest.approx(centre, abs=1e-6)
        ahead, _ = turned_to(setup, 0.0)
        assert centre @ ahead == pytest.approx(setup.crouch.weight_ahead, abs=1e-6)


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
