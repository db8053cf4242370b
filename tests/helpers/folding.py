"""Both legs of many stances folded to any place of the pelvis, written apart from the package.

Arc cosines and turns only, on plain arrays: what a pelvis place makes of knees, boots
and weight, whatever the stance asks for.  Nothing here solves anything.
"""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray
from riders import SIDED

from geometry.fitting.inputs import is_angle

Array = NDArray[np.float64]

# Mean of men and women, de Leva 1996, J Biomech 29:1223-1230, table 4.
THIGH, SHANK, FOOT, UPPER_BODY = 0.1447, 0.0457, 0.0133, 0.5926


class Fold(NamedTuple):
    """One leg folded to its hip; nan where no fold reaches it."""

    flexion: Array
    off_plane: Array
    boot_flex: Array
    weight: Array


class Folded(NamedTuple):
    """Both legs folded to hips.

    Attributes:
        legs: front and rear.
        knee_bend: mean of the two knees' flexion (rad).
        ahead: of the centre of mass along the stance facing (mm).
    """

    legs: tuple[Fold, Fold]
    knee_bend: Array
    ahead: Array

    @property
    def most_off_plane(self) -> Array:
        """The larger off-plane angle of the two legs, whatever its sign (rad)."""
        return np.maximum(*(np.abs(leg.off_plane) for leg in self.legs))

    @property
    def is_bent_forward(self) -> NDArray[np.bool_]:
        """Whether both knees bend, and the right way."""
        bends = [(leg.flexion >= 0.0) & (leg.flexion < np.pi) for leg in self.legs]
        return bends[0] & bends[1]


class Stances:
    """Stances from values by name, in mm and degrees, as arrays of one shape."""

    def __init__(self, values: dict[str, Any]) -> None:
        shape = np.broadcast_shapes(*(np.shape(value) for value in values.values()))
        inner = {n: np.radians(v) if is_angle(n) else v for n, v in values.items()}
        # A last axis of one, for the places of the pelvis.
        self.values = {n: np.broadcast_to(v, shape)[..., None] for n, v in inner.items()}

    def folded(self, depth: Array, height: Array) -> Folded:
        """Legs folded to pelvis places, shape (stances, places)."""
        v = self.values
        balanced = 0.5 * (v["front_angle"] + v["rear_angle"])
        ahead, aside = _level(balanced)
        forward, across = _level(balanced + v["hips_turned"])
        middle = depth[..., None] * ahead + v["hip_shift"][..., None] * aside
        middle = middle + height[..., None] * np.array([0.0, 0.0, 1.0])
        half = 0.5 * v["hip_spacing"][..., None] * across
        legs = (
            self._leg("front", 1.0, middle + half, ahead),
            self._leg("rear", -1.0, middle - half, ahead),
        )
        hip_height = 0.5 * (v["front_hip_height"] + v["rear_hip_height"])
        leaned = 0.35 * hip_height * np.sin(v["back_lean"]) * _dot(forward, ahead)
        upper = UPPER_BODY * (depth + leaned)
        return Folded(
            legs,
            knee_bend=0.5 * (legs[0].flexion + legs[1].flexion),
            ahead=upper + legs[0].weight + legs[1].weight,
        )

    def _leg(self, end: str, side: float, hip: Array, ahead: Array) -> Fold:
        v = {name: self.values[f"{end}_{name}"] for name in SIDED}
        toes, normal, outer, ankle = self._foot(v, side)
        turn = v["knee_tracking"][..., None]
        along = np.cos(turn) * toes - np.sin(turn) * outer
        beside = np.cos(turn) * outer + np.sin(turn) * toes
        d = hip - ankle
        inward = 0.5 * (self.values["neutral_spacing"] - self.values["hip_spacing"])
        cuff = np.arctan2(inward, v["hip_height"] - v["ankle_height"]) + v["cuff_offset"]
        give = v["side_give"]
        wanted = np.arctan2(-_dot(beside, d), _dot(normal, d)) - cuff
        lean = (cuff + np.clip(wanted, -give, give))[..., None]
        up = np.cos(lean) * normal - np.sin(lean) * beside
        hinge = np.cos(lean) * beside + np.sin(lean) * normal
        u, rise, miss = _dot(along, d), _dot(up, d), _dot(hinge, d)
        shank, thigh = v["knee_height"] - v["ankle_height"], v["hip_height"] - v["knee_height"]
        boot_flex = _boot_flex(u, rise, miss, shank, thigh)
        flexed = boot_flex[..., None]
        knee = ankle + shank[..., None] * (np.sin(flexed) * along + np.cos(flexed) * up)
        rest = hip - knee
        flexion = boot_flex - np.arctan2(_dot(rest, along), _dot(rest, up))
        foot = ankle - v["ankle_height"][..., None] * normal
        foot = foot + 0.22 * v["foot_length"][..., None] * toes
        weighed = THIGH * (hip + 0.3854 * (knee - hip)) + SHANK * (knee + 0.4438 * (ankle - knee))
        return Fold(
            flexion=np.where(flexion < -1.0, flexion + 2.0 * np.pi, flexion),
            off_plane=np.arcsin(np.clip(miss / thigh, -1.0, 1.0)),
            boot_flex=boot_flex,
            weight=_dot(weighed + FOOT * foot, ahead),
        )

    def _foot(self, v: dict[str, Array], side: float) -> tuple[Array, Array, Array, Array]:
        """Toes, normal and outer side of a sole, and the ankle over it."""
        along, aside = _level(v["angle"])
        up = np.array([0.0, 0.0, 1.0])
        rise, outer_rise = (np.tan(v[name])[..., None] for name in ("lift", "cant"))
        normal = _unit(up - rise * along - outer_rise * side * aside)
        toes = _unit(along + rise * up)
        centre = (
            side
            * 0.5
            * np.stack(
                np.broadcast_arrays(
                    self.values["stance_length"], -self.values["across_spacing"], 0.0
                ),
                axis=-1,
            )
        )
        above = (v["ankle_height"] + v["sole_thickness"])[..., None]
        ankle = centre + above * normal - 0.30 * v["foot_length"][..., None] * toes
        return toes, normal, side * np.cross(toes, normal), ankle


def _boot_flex(along: Array, rise: Array, miss: Array, shank: Array, thigh: Array) -> Array:
    """Flex of a shank whose thigh reaches a hip, by the law of cosines; nan where it cannot."""
    in_plane_squared = along**2 + rise**2
    cosine = (shank**2 + in_plane_squared - (thigh**2 - miss**2)) / (
        2.0 * shank * np.sqrt(in_plane_squared)
    )
    reached = (np.abs(cosine) <= 1.0) & (np.abs(miss) < thigh) & (rise > 0.0)
    return np.arctan2(along, rise) + np.arccos(np.where(reached, cosine, np.nan))


def _level(angle: Array) -> tuple[Array, Array]:
    """Ahead and across of a direction on the board."""
    s, c, none = np.sin(angle), np.cos(angle), 0.0 * angle
    return np.stack((s, c, none), axis=-1), np.stack((c, -s, none), axis=-1)


def _dot(a: Array, b: Array) -> Array:
    return (a * b).sum(axis=-1)


def _unit(a: Array) -> Array:
    return a / np.linalg.norm(a, axis=-1, keepdims=True)
