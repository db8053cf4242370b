"""Two legs as hinge chains in a physics engine, closed by a general root-finder.

Written apart from the package: the engine's own kinematics carry the hip up
from the sole through a chain of hinges, and scipy closes the chains.  Nothing
here knows the closed forms.

Foot, shank and thigh carry their shares of the weight, and the engine says where the
weight of both legs is.

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

from geometry import Boot, LegMeasures, Mount
from geometry.fitting.inputs import PostureInputs

LEG = """
<body name="{name}" pos="{x} {y} 0">
 <body euler="0 0 {turn}">
  <body euler="0 {pitch} 0">
   <joint name="{name}_lift" axis="0 -1 0"/><inertial pos="0 0 0" mass="1e-9" diaginertia="1 1 1"/>
   <body>
    <joint name="{name}_tilt" axis="1 0 0"/>
    <inertial pos="{foot_at} 0 {sole}" mass="0.0133" diaginertia="1 1 1"/>
    <body pos="{back} 0 {above}" euler="0 0 {track}">
     <joint name="{name}_lean" axis="1 0 0"/>
     <joint name="{name}_flex" axis="0 1 0"/>
     <inertial pos="0 0 {shank_at}" mass="0.0457" diaginertia="1 1 1"/>
     <body pos="0 0 {shank}">
      <joint name="{name}_knee" axis="0 -1 0"/>
      <joint name="{name}_off" axis="1 0 0"/>
      <inertial pos="0 0 {thigh_at}" mass="0.1447" diaginertia="1 1 1"/>
      <site name="{name}_hip" pos="0 0 {thigh}"/>
     </body>
    </body>
   </body>
  </body>
 </body>
</body>"""
LEGS_SHARE = 2.0 * (0.0133 + 0.0457 + 0.1447)
"""Foot, shank and thigh of both legs in the weight of a body, mean of men and women: de
Leva 1996, J Biomech 29:1223-1230, table 4; so are the centres along them."""


@dataclass
class Chain:
    """Both legs of one rider; ``leans`` and ``cants`` are what is held fixed."""

    setup: PostureInputs
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
        leg, boot, mount = self.side(0 if side > 0 else 1)
        stance = self.setup.stance
        shank, thigh = leg.knee_height - leg.ankle_height, leg.hip_height - leg.knee_height
        return LEG.format(
            name=name,
            x=0.5 * side * stance.length,
            y=-0.5 * side * stance.across,
            turn=0.5 * math.pi - mount.angle,
            pitch=0.0,
            back=-0.3 * leg.foot_length,
            foot_at=(0.22 - 0.3) * leg.foot_length,
            above=leg.ankle_height + boot.sole_thickness,
            sole=boot.sole_thickness,
            track=side * leg.knee_tracking,
            shank=shank,
            shank_at=(1.0 - 0.4438) * shank,
            thigh=thigh,
            thigh_at=(1.0 - 0.3854) * thigh,
        )

    def side(self, which: int) -> tuple[LegMeasures, Boot, Mount]:
        """Leg, boot and mount of the front (0) or the rear side (1)."""
        body, boots, stance, _ = self.setup
        return body.legs[which], boots.both[which], (stance.front, stance.rear)[which]

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

    def legs_weight(self) -> np.ndarray:
        """Where the engine has the weight of both legs, as they were last posed."""
        mujoco.mj_comPos(self.model, self.data)
        return self.data.subtree_com[0].copy()

    def held(self, which: int) -> float:
        """Inward lean at which a boot holds its shank."""
        body, (leg, boot, _) = self.setup.body, self.side(which)
        spread = 0.5 * (body.neutral_spacing - body.hip_spacing)
        return math.atan2(spread, leg.hip_height - leg.ankle_height) + boot.cuff_offset

    def closed(self, free: tuple[str, str], fixed: list[dict[str, float]], lifts=(False, False)):
        """Close both chains on a pelvis, the weight where it should be, and return the angles.

        Args:
            free: for the front and the rear leg the sideways angle that is
                sought: "cant", "lean" or "off".
            fixed: for each leg its lift, cant, lean and off-plane angle, where
                not sought.
            lifts: whose lift is sought, so that its boot has the ``fixed`` flex.
        """
        body, _, stance, crouch = self.setup
        balanced = 0.5 * (stance.front.angle + stance.rear.angle)
        faced = balanced + crouch.hips_turned
        ahead, aside = level(balanced)
        forward, across = level(faced)
        hips = 0.5 * (body.front.hip_height + body.rear.hip_height)
        trunk = 0.35 * hips * math.sin(crouch.back_lean) * forward

        def legs(x: np.ndarray) -> list[dict[str, float]]:
            both = []
            for i in (0, 1):
                leg = {**fixed[i], "knee": x[3 * i + 1], free[i]: x[3 * i + 2]}
                both.append({**leg, ("lift" if lifts[i] else "flex"): x[3 * i]})
            return both

        def gaps(x: np.ndarray) -> np.ndarray:
            front, rear = legs(x)
            pelvis = 1e3 * x[6] * ahead + crouch.hip_shift * aside + [0.0, 0.0, 1e3 * x[7]]
            half = 0.5 * body.hip_spacing * across
            missed = [
                (self.hip("front", 1.0, **front) - pelvis - half) / 1e3,
                (self.hip("rear", -1.0, **rear) - pelvis + half) / 1e3,
            ]
            weight = LEGS_SHARE * self.legs_weight() + (1.0 - LEGS_SHARE) * (pelvis + trunk)
            missed += [
                [(weight @ ahead - crouch.weight_ahead) / 1e3],
                [0.5 * (front["knee"] + rear["knee"]) - crouch.knee_bend],
            ]
            return np.concatenate(missed)

        knee = crouch.knee_bend
        sideways = [0.0 if lift else 0.4 * knee for lift in lifts]
        start = np.array([sideways[0], knee, 0.05, sideways[1], knee, 0.05, -0.12, 0.9e-3 * hips])
        found = root(gaps, start, tol=1e-13)
        if np.abs(found.fun).max() > 1e-9:
            raise ArithmeticError("the chains do not close")
        return legs(found.x)


def level(angle: float) -> tuple[np.ndarray, np.ndarray]:
    """Ahead and across of a direction on the board."""
    s, c = math.sin(angle), math.cos(angle)
    return np.array([s, c, 0.0]), np.array([c, -s, 0.0])
