"""Two legs as hinge chains in a physics engine, closed by a general root-finder.

Written apart from the package: the engine's own kinematics carry the hip up
from the sole through a chain of hinges, and scipy closes the chains.  Nothing
here knows the closed forms.

Each chain runs, in its own body frame with x along the foot, z up and y to the
rider's left: binding angle, lift, then hinges for the tilt of the sole about
the foot, the sideways lean of the shank, the boot's flex, the knee's flexion
and the thigh's way out of the hinge plane.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import mujoco
import numpy as np
from scipy.optimize import root

from geometry.fitting.inputs import Setup

LEG = """
<body name="{name}" pos="{x} {y} 0">
 <body euler="0 0 {turn}">
  <body euler="0 {pitch} 0">
   <joint name="{name}_lift" axis="0 -1 0"/><inertial pos="0 0 0" mass="1" diaginertia="1 1 1"/>
   <body>
    <joint name="{name}_tilt" axis="1 0 0"/><inertial pos="0 0 0" mass="1" diaginertia="1 1 1"/>
    <body pos="{back} 0 {above}" euler="0 0 {track}">
     <joint name="{name}_lean" axis="1 0 0"/>
     <joint name="{name}_flex" axis="0 1 0"/><inertial pos="0 0 0" mass="1" diaginertia="1 1 1"/>
     <body pos="0 0 {shank}">
      <joint name="{name}_knee" axis="0 -1 0"/>
      <joint name="{name}_off" axis="1 0 0"/><inertial pos="0 0 0" mass="1" diaginertia="1 1 1"/>
      <site name="{name}_hip" pos="0 0 {thigh}"/>
     </body>
    </body>
   </body>
  </body>
 </body>
</body>"""


@dataclass
class Chain:
    """Both legs of one rider; ``leans`` and ``cants`` are what is held fixed."""

    setup: Setup
    model: mujoco.MjModel = field(init=False)

    def __post_init__(self) -> None:
        legs = "".join(self._leg(name, side) for name, side in (("front", 1.0), ("rear", -1.0)))
        text = (
            '<mujoco><compiler angle="radian" eulerseq="xyz"/>'
            f"<worldbody>{legs}</worldbody></mujoco>"
        )
        self.model = mujoco.MjModel.from_xml_string(text)
        self.data = mujoco.MjData(self.model)

    def _leg(self, name: str, side: float) -> str:
        body, boots, stance, _ = self.setup
        mount = stance.front if side > 0 else stance.rear
        return LEG.format(
            name=name,
            x=0.5 * side * stance.length,
            y=-0.5 * side * stance.across,
            turn=0.5 * math.pi - mount.angle,
            pitch=0.0,
            back=-0.3 * body.foot_length,
            above=body.ankle_height + boots.sole_thickness,
            track=side * body.knee_tracking,
            shank=body.knee_height - body.ankle_height,
            thigh=body.hip_height - body.knee_height,
        )

    def hip(self, name: str, side: float, **angles: float) -> np.ndarray:
        """Where a leg's chain carries its hip, for the angles of its hinges."""
        # Inclinometer cant: across the foot in plan the sole rises by tan(cant).
        tilt = math.atan(math.tan(angles["cant"]) * math.cos(angles["lift"]))
        hinges = {
            "lift": angles["lift"],
            "tilt": -side * tilt,
            "lean": -side * angles["lean"],
            "flex": angles["flex"],
            "knee": angles["knee"],
            "off": side * angles["off"],
        }
        for hinge, angle in hinges.items():
            self.data.joint(f"{name}_{hinge}").qpos[0] = angle
        mujoco.mj_kinematics(self.model, self.data)
        return self.data.site(f"{name}_hip").xpos.copy()

    def held(self) -> float:
        """Inward lean at which the boot holds the shank."""
        body = self.setup.body
        spread = 0.5 * (body.neutral_spacing - body.hip_spacing)
        return math.atan2(spread, body.hip_height - body.ankle_height)

    def closed(self, free: tuple[str, str], fixed: list[dict[str, float]], lift: bool = False):
        """Close both chains on a pelvis and return each leg's angles.

        Args:
            free: for the front and the rear leg the sideways angle that is
                sought: "cant", "lean" or "off".
            fixed: for each leg its lift, cant, lean and off-plane angle, where
                not sought.
            lift: whether the lifts are sought too, equal and opposite, so that
                the front boot's flex is ``fixed[0]["flex"]``.
        """
        body, boots, stance, crouch = self.setup
        facing = 0.5 * (stance.front.angle + stance.rear.angle) + crouch.hips_turned
        ahead = np.array([math.sin(facing), math.cos(facing), 0.0])
        across = np.array([math.cos(facing), -math.sin(facing), 0.0])

        def legs(x: np.ndarray) -> list[dict[str, float]]:
            both = []
            for i, side in enumerate((1.0, -1.0)):
                leg = {**fixed[i], "flex": x[3 * i], "knee": x[3 * i + 1], free[i]: x[3 * i + 2]}
                both.append({**leg, "lift": side * x[8]} if lift else leg)
            return both

        def gaps(x: np.ndarray) -> np.ndarray:
            front, rear = legs(x)
            pelvis = 1e3 * x[6] * ahead + crouch.hip_shift * across + [0.0, 0.0, 1e3 * x[7]]
            half = 0.5 * body.hip_spacing * across
            missed = [
                (self.hip("front", 1.0, **front) - pelvis - half) / 1e3,
                (self.hip("rear", -1.0, **rear) - pelvis + half) / 1e3,
                [0.5 * (front["flex"] + rear["flex"]) - boots.forward_lean],
                [0.5 * (front["knee"] + rear["knee"]) - crouch.knee_bend],
            ]
            if lift:
                missed.append([front["flex"] - fixed[0]["flex"]])
            return np.concatenate(missed)

        flex, knee = boots.forward_lean, crouch.knee_bend
        start = np.array([flex, knee, 0.05, flex, knee, 0.05, -0.12, 0.9e-3 * body.hip_height])
        found = root(gaps, np.append(start, 0.1) if lift else start, tol=1e-13)
        if np.abs(found.fun).max() > 1e-9:
            raise ArithmeticError("the chains do not close")
        return legs(found.x)
