"""How fast stances are solved.  Measured, never asserted.

Run with ``sh tests/run.sh --benchmark-only tests/bench/test_geometry_speed.py``.
"""

from __future__ import annotations

import math
from statistics import median, quantiles
from timeit import repeat
from typing import Any

import mujoco
import numpy as np
import pytest
from numpy.typing import NDArray
from pytest_benchmark.fixture import BenchmarkFixture
from riders import demo
from scipy.optimize import least_squares

from geometry import Mount, Stance, cuff_angle, posture_reasons, solve
from geometry.fitting.inputs import PostureInputs
from geometry.joints import beyond_range, joint_angles

STANCES = 100_000


def tell(benchmark: BenchmarkFixture, per_round: int = 1) -> None:
    """Put median and 95th percentile, and the rate, beside the benchmark."""
    if benchmark.disabled:
        return
    times = sorted(benchmark.stats.stats.data)
    middle = benchmark.stats.stats.median
    slow = quantiles(times, n=20)[-1] if len(times) > 1 else middle
    benchmark.extra_info["median_ms"] = round(1e3 * middle, 4)
    benchmark.extra_info["p95_ms"] = round(1e3 * slow, 4)
    benchmark.extra_info["per_second"] = round(per_round / middle)
    print(f"\n{benchmark.name}: {benchmark.extra_info}")


def test_one_stance(benchmark: BenchmarkFixture) -> None:
    posture = benchmark(solve, *demo())
    assert posture.exists
    tell(benchmark)


def test_one_stance_out_of_reach(benchmark: BenchmarkFixture) -> None:
    setup = demo()._replace(stance=Stance(Mount(0.0), Mount(0.0), 1900.0))
    posture = benchmark(solve, *setup)
    assert str(posture_reasons(posture)[0])
    tell(benchmark)


def test_one_stance_with_joints_and_ranges(benchmark: BenchmarkFixture) -> None:
    def joints() -> Any:
        return beyond_range(joint_angles(solve(*demo())))

    assert benchmark(joints).rear
    tell(benchmark)


def test_arrays_of_ordinary_stances(benchmark: BenchmarkFixture) -> None:
    random = np.random.default_rng(1)
    front, rear = random.uniform(-20.0, 70.0, (2, STANCES))
    posture = benchmark(solve, *demo(front_angle=front, rear_angle=rear))
    assert np.mean(posture.exists) > 0.99
    tell(benchmark, STANCES)


def test_arrays_of_neighbouring_stances(benchmark: BenchmarkFixture) -> None:
    angles = np.linspace(-30.0, 60.0, STANCES)
    posture = benchmark(solve, *demo(front_angle=angles, rear_angle=angles))
    assert np.all(posture.exists)
    tell(benchmark, STANCES)


LEG_XML = """
<body name="{name}" pos="{x} 0 0" euler="0 0 {turn}">
 <inertial pos="{foot_at} 0 {sole}" mass="0.0133" diaginertia="1 1 1"/>
 <body pos="{back} 0 {above}">
  <joint name="{name}_lean" axis="{inward} 0 0"/><joint name="{name}_flex" axis="0 1 0"/>
  <inertial pos="0 0 {shank_at}" mass="0.0457" diaginertia="1 1 1"/>
  <body pos="0 0 {shank}">
   <joint name="{name}_knee" axis="0 -1 0"/><joint name="{name}_off" axis="{outward} 0 0"/>
   <inertial pos="0 0 {thigh_at}" mass="0.1447" diaginertia="1 1 1"/>
   <body name="{name}_hip" pos="0 0 {thigh}"/>
  </body>
 </body>
</body>"""


LEGS_SHARE = 2.0 * (0.0133 + 0.0457 + 0.1447)
"""Both legs in the weight of a body: de Leva 1996, J Biomech 29:1223-1230, table 4."""


class EngineStance:
    """The same stance for a general optimiser on a physics engine's kinematics.

    Ten unknowns: depth and height of the pelvis, and for each leg the wanted
    sideways give, boot flex, knee flexion and the turn out of the hinge plane,
    which may be nothing but what the boot's give leaves over.
    """

    def __init__(self, setup: PostureInputs) -> None:
        self.setup = setup
        legs = self._leg("front", 1.0) + self._leg("rear", -1.0)
        self.model = mujoco.MjModel.from_xml_string(
            '<mujoco><compiler angle="radian" eulerseq="xyz"/>'
            f"<worldbody>{legs}</worldbody></mujoco>"
        )
        self.data = mujoco.MjData(self.model)
        facing = setup.stance.mean_angle
        self.forward = np.array([math.sin(facing), math.cos(facing), 0.0])
        self.across = np.array([math.cos(facing), -math.sin(facing), 0.0])

    def _leg(self, name: str, side: float) -> str:
        body, boots, stance, _ = self.setup
        mount = stance.front if side > 0.0 else stance.rear
        leg, sole = body.front, boots.front.sole_thickness
        return LEG_XML.format(
            name=name,
            x=0.5 * side * stance.length,
            turn=0.5 * math.pi - mount.angle,
            back=-leg.setback,
            foot_at=0.22 * leg.foot_length - leg.setback,
            above=leg.ankle_height + sole,
            sole=sole,
            shank=leg.shank,
            shank_at=(1.0 - 0.4438) * leg.shank,
            thigh=leg.thigh,
            thigh_at=(1.0 - 0.3854) * leg.thigh,
            inward=-side,
            outward=side,
        )

    def off(self, x: NDArray[np.float64]) -> NDArray[np.float64]:
        """What is off: both hips and the weight (mm), mean knee flexion (mrad)."""
        body, boots, _, crouch = self.setup
        give = float(boots.front.side_give)
        cuff = float(cuff_angle(body, body.front, boots.front))
        for leg in (0, 1):
            wanted, flex, knee, off = x[2 + 4 * leg : 6 + 4 * leg]
            given = min(max(wanted, -give), give)
            self.data.qpos[4 * leg : 4 * leg + 4] = cuff + given, flex, knee, off
        mujoco.mj_kinematics(self.model, self.data)
        mujoco.mj_comPos(self.model, self.data)
        pelvis = x[0] * self.forward + np.array([0.0, 0.0, x[1]])
        half = 0.5 * body.hip_spacing * self.across
        hips = [self.data.body(name).xpos for name in ("front_hip", "rear_hip")]
        trunk = pelvis + 0.35 * 880.0 * math.sin(crouch.back_lean) * self.forward
        weight = LEGS_SHARE * self.data.subtree_com[0] + (1.0 - LEGS_SHARE) * trunk
        balance = weight @ self.forward - crouch.weight_ahead
        bend = 1e3 * (0.5 * (x[4] + x[8]) - crouch.knee_bend)
        missed = hips[0] - pelvis - half, hips[1] - pelvis + half
        return np.concatenate([*missed, [balance, bend], self._knees(x)])

    def _knees(self, x: NDArray[np.float64]) -> NDArray[np.float64]:
        """A knee leaves its plane only where the wanted give is used up (mrad).

        Beyond the give, the wanted give is made to grow along with the turn out of
        the plane, so that its excess measures it.
        """
        give = self.setup.boots.front.side_give
        wanted, off = x[[2, 6]], x[[5, 9]]
        return np.asarray(1e3 * (wanted - np.clip(wanted, -give, give) + off))

    def solved(self) -> Any:
        """The stance, from the same kind of start that any rider would take."""
        bend = self.setup.crouch.knee_bend
        leg = [0.0, 0.4 * bend, bend, 0.0]
        start = np.array([-100.0, 800.0, *leg, *leg])
        scale = np.array([100.0, 100.0, *8 * [0.1]])
        return least_squares(self.off, start, x_scale=scale, xtol=1e-12, ftol=1e-12, gtol=1e-12)


def test_the_same_stance_by_a_general_optimiser_on_a_physics_engine(
    benchmark: BenchmarkFixture,
) -> None:
    setup = demo()
    engine = EngineStance(setup)
    found = benchmark(engine.solved)
    ours = solve(*setup)
    assert found.cost < 1e-6
    assert found.x[:2] == pytest.approx([ours.depth, ours.height], abs=1e-3)
    if not benchmark.disabled:
        own = median(repeat(lambda: solve(*setup), number=20, repeat=25)) / 20.0
        benchmark.extra_info["times_ours"] = round(benchmark.stats.stats.median / own, 1)
    tell(benchmark)
