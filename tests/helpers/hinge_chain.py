"""One leg as a chain of hinges in a physics engine, its base posed from scratch.

Nothing here uses the package's frames: the sole is a turn about the vertical, a
pitch by the lift and a roll about the foot, and the engine's own kinematics carry
the hip up through ankle lean, boot flex, knee and the thigh's way out of its plane.
Foot, shank and thigh carry their shares of a body's weight as point masses, and the
engine says where their common centre is.

The engine's axes are a right foot's: x to the toes, y to the inner side, z up the
sole.  A rear leg is built as its mirror image, a right leg at the nose with its
binding angle reversed, and its points are mirrored back.
"""

from __future__ import annotations

import math

import mujoco
import numpy as np
from numpy.typing import NDArray

from geometry.fitting.inputs import PostureInputs

LEG_XML = """
<mujoco>
  <compiler angle="radian"/>
  <worldbody>
    <body name="foot">
      <inertial pos="0 0 0" mass="0.0133" diaginertia="1 1 1"/>
    </body>
    <body name="sole">
      <joint name="lean" axis="-1 0 0"/>
      <joint name="flex" axis="0 1 0"/>
      <inertial pos="0 0 1" mass="0.0457" diaginertia="1 1 1"/>
      <body name="thigh">
        <joint name="knee" axis="0 -1 0"/>
        <joint name="off" axis="1 0 0"/>
        <inertial pos="0 0 1" mass="0.1447" diaginertia="1 1 1"/>
        <body name="hip"/>
      </body>
    </body>
  </worldbody>
</mujoco>
"""
LEG_SHARE = 0.0133 + 0.0457 + 0.1447
"""Foot, shank and thigh in the weight of a body, mean of men and women: de Leva 1996,
J Biomech 29:1223-1230, table 4; so are the centres along them, 0.4438 of the shank from
the knee and 0.3854 of the thigh from the hip, and 0.22 of a foot ahead of the ankle."""
MIRROR = np.array([-1.0, 1.0, 1.0])
"""Nose and tail exchanged."""


def turn(axis: str, angle: float) -> NDArray[np.float64]:
    """Rotation matrix about a coordinate axis by the right-hand rule."""
    i, j = {"x": (1, 2), "y": (2, 0), "z": (0, 1)}[axis]
    matrix = np.eye(3)
    matrix[i, i] = matrix[j, j] = math.cos(angle)
    matrix[j, i] = math.sin(angle)
    matrix[i, j] = -math.sin(angle)
    return matrix


def sole_rotation(angle: float, lift: float, cant: float) -> NDArray[np.float64]:
    """Board from sole for a right foot: columns are toes, inner side and up.

    Heading first, then the pitch that raises the toes, then the roll about the
    foot that raises the outer side.  An inclinometer that stands square to the
    foot in plan reads ``tan(cant) = tan(roll) / cos(lift)``.
    """
    roll = math.atan(math.tan(cant) * math.cos(lift))
    heading = turn("z", 0.5 * math.pi - angle)
    return heading @ turn("y", -lift) @ turn("x", -roll)


class HingeChain:
    """A leg of hinges; one engine model serves every rider and either leg."""

    def __init__(self) -> None:
        self.model = mujoco.MjModel.from_xml_string(LEG_XML)
        self.data = mujoco.MjData(self.model)

    def stand(self, setup: PostureInputs, *, is_front: bool) -> None:
        """Set bone lengths, and the sole where the mount puts it."""
        body, boots, stance, _ = setup
        leg, boot, mount = (
            (body.front, boots.front, stance.front)
            if is_front
            else (body.rear, boots.rear, stance.rear)
        )
        # The rear leg's mirror image is a front leg that stands at the nose.
        angle, across = (mount.angle, -0.5) if is_front else (-mount.angle, 0.5)
        sole = sole_rotation(angle, mount.lift, mount.cant)
        centre = np.array([0.5 * stance.length, across * stance.across, 0.0])
        above = leg.ankle_height + boot.sole_thickness
        ankle = centre + sole @ np.array([-0.30 * leg.foot_length, 0.0, above])
        quaternion = np.zeros(4)
        mujoco.mju_mat2Quat(quaternion, (sole @ turn("z", leg.knee_tracking)).ravel())
        shank, thigh = leg.knee_height - leg.ankle_height, leg.hip_height - leg.knee_height
        self.model.body("foot").pos = ankle + sole @ [0.22 * leg.foot_length, 0, -leg.ankle_height]
        self.model.body("sole").pos, self.model.body("sole").quat = ankle, quaternion
        self.model.body("sole").ipos = [0.0, 0.0, (1.0 - 0.4438) * shank]
        self.model.body("thigh").pos = [0.0, 0.0, shank]
        self.model.body("thigh").ipos = [0.0, 0.0, (1.0 - 0.3854) * thigh]
        self.model.body("hip").pos = [0.0, 0.0, thigh]
        self.mirror = np.ones(3) if is_front else MIRROR

    def bent(self, lean: float, flex: float, knee: float, off: float) -> None:
        """Turn the hinges: inward lean, boot flex, knee flexion, off-plane angle (rad)."""
        self.data.qpos[:] = lean, flex, knee, off
        mujoco.mj_kinematics(self.model, self.data)
        mujoco.mj_comPos(self.model, self.data)

    def point(self, name: str) -> NDArray[np.float64]:
        """Where a body of the chain has come to be, in board axes (mm)."""
        return self.data.body(name).xpos * self.mirror

    @property
    def mass_centre(self) -> NDArray[np.float64]:
        """Common centre of foot, shank and thigh, in board axes (mm)."""
        return self.data.subtree_com[0] * self.mirror
