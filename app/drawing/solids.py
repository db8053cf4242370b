"""Boot, mount and limb of one leg as simple solids in space.

They are there to be recognised, not measured: only the sole's place, slope,
length and thickness and the joints are exact.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import cos, isnan, pi, sin
from typing import NamedTuple, cast

from app.drawing.marks import Point
from app.drawing.projection import Space, hull, mixed
from app.rider.inputs import LegInputs
from geometry import SETBACK_SHARE, Leg
from geometry.vectors import cross, scaled

SOLE_LENGTH = 1.12
"""Length of a boot's sole over that of the foot."""
PLATE_DEPTH = 34.0
"""From the binding centre down to the board as drawn (mm)."""

# Half steps of a sole's outline: along the foot and to the outer side, as
# shares of the sole's length.  The big toe is the farthest point.
_FOOTPRINT: tuple[Point, ...] = (
    (-0.500, 0.000), (-0.476, 0.088), (-0.400, 0.133), (-0.250, 0.140), (-0.050, 0.146),
    (0.140, 0.172), (0.270, 0.172), (0.370, 0.142), (0.445, 0.086), (0.492, 0.000),
    (0.500, -0.056), (0.481, -0.112), (0.420, -0.150), (0.290, -0.170), (0.120, -0.150),
    (-0.080, -0.116), (-0.250, -0.120), (-0.400, -0.128), (-0.474, -0.090),
)  # fmt: skip
_RING = tuple((cos(i * pi / 3.0), sin(i * pi / 3.0)) for i in range(6))


def _rounded(points: tuple[Point, ...], steps: int) -> tuple[Point, ...]:
    """A closed smooth curve through points (Catmull-Rom)."""
    count, curve = len(points), []
    for i in range(count):
        before, start, end, after = (points[(i + k - 1) % count] for k in range(4))
        curve += [_between(before, start, end, after, j / steps) for j in range(steps)]
    return tuple(curve)


def _between(before: Point, start: Point, end: Point, after: Point, t: float) -> Point:
    def blend(b: float, s: float, e: float, a: float) -> float:
        return 0.5 * (
            2.0 * s
            + (e - b) * t
            + (2.0 * b - 5.0 * s + 4.0 * e - a) * t * t
            + (3.0 * s - b - 3.0 * e + a) * t * t * t
        )

    x, y = map(blend, before, start, end, after)
    return x, y


FOOTPRINT = _rounded(_FOOTPRINT, steps=2)
"""Smooth outline of a sole, in shares of its length."""
_CORNERS = _FOOTPRINT[::2]
"""Enough of it for the silhouette of a sole."""
_BULGES = hull(list(_FOOTPRINT))
"""The corners of it that can show in the silhouette of a boot."""


class Axes(NamedTuple):
    """An origin and three unit vectors: ahead, to the outer side, and up."""

    origin: Space
    ahead: Space
    outer: Space
    up: Space

    def ring(self, outline: Iterable[Point], size: float, up: float) -> list[Space]:
        """An outline in shares of a size, at a height (mm)."""
        (ox, oy, oz), (ax, ay, az), (sx, sy, sz) = self.point(0.0, 0.0, up), self.ahead, self.outer
        return [
            (
                ox + size * (u * ax + v * sx),
                oy + size * (u * ay + v * sy),
                oz + size * (u * az + v * sz),
            )
            for u, v in outline
        ]

    def point(self, ahead: float, outer: float, up: float) -> Space:
        """A point given by its three distances (mm)."""
        o, a, s, u = self
        return (
            o[0] + ahead * a[0] + outer * s[0] + up * u[0],
            o[1] + ahead * a[1] + outer * s[1] + up * u[1],
            o[2] + ahead * a[2] + outer * s[2] + up * u[2],
        )


class Figure(NamedTuple):
    """One leg in plain numbers: its bodies, its joints and its angles.

    Bodies are corner points of convex solids; ``mount`` is empty under a flat
    sole.  The plate is a level disc from the board up to ``plate_top`` (mm).
    Without a posture ``cuff`` is empty and everything above the ankle nan.
    """

    centre: Space
    plate_radius: float
    plate_top: float
    mount: tuple[Space, ...]
    sole: tuple[Space, ...]
    shell: tuple[Space, ...]
    cuff: tuple[Space, ...]
    ankle: Space
    knee: Space
    hip: Space
    sole_axes: Axes
    along: Space
    plane_up: Space
    hinge_axis: Space
    shank: float
    thigh: float
    off_plane: float
    knee_flexion: float
    boot_flex: float
    lean: float
    cuff_lean: float

    @property
    def stands(self) -> bool:
        """Whether there is a posture."""
        return not isnan(self.off_plane)

    @property
    def thigh_in_plane(self) -> Space:
        """Direction that the thigh would have in the hinge plane, at the same bend."""
        swing = self.boot_flex - self.knee_flexion
        return mixed((0.0, 0.0, 0.0), self.plane_up, self.along, 1.0, swing)


def figure_of(leg: Leg, inputs: LegInputs) -> Figure:
    """The figure of one leg, from what is known of it and of its boot."""
    chain, sole = leg.chain, leg.chain.sole
    at_ankle = Axes(
        *(cast(Space, v) for v in (chain.ankle, sole.foot_axis, sole.outer, sole.normal))
    )
    above = inputs.ankle_height_mm + inputs.sole_thickness_mm
    axes = at_ankle._replace(
        origin=at_ankle.point(SETBACK_SHARE * inputs.foot_length_mm, 0.0, -above)
    )
    length = SOLE_LENGTH * inputs.foot_length_mm
    under = axes.ring(_CORNERS, length, 0.0)
    return Figure(
        centre=axes.origin,
        plate_radius=0.30 * length,
        plate_top=max(min(p[2] for p in under), 2.0 - PLATE_DEPTH),
        mount=_wedge(axes, 0.34 * length, 0.13 * length),
        sole=(*under, *axes.ring(_CORNERS, length, inputs.sole_thickness_mm)),
        shell=_shell(axes, at_ankle, length, inputs),
        cuff=_cuff(leg, inputs),
        ankle=at_ankle.origin,
        knee=cast(Space, leg.knee_centre),
        hip=cast(Space, leg.hip_centre),
        sole_axes=axes,
        along=cast(Space, chain.along),
        plane_up=cast(Space, leg.leaned_normal),
        hinge_axis=cast(Space, leg.hinge_axis),
        shank=float(chain.links.shank),
        thigh=float(chain.links.thigh),
        off_plane=float(leg.off_plane),
        knee_flexion=float(leg.knee_flexion),
        boot_flex=float(leg.boot_flex),
        lean=float(leg.lean),
        cuff_lean=float(chain.cuff),
    )


def _wedge(axes: Axes, half_length: float, half_width: float) -> tuple[Space, ...]:
    """The sloped part: between the sole and a level plane under its lowest corner."""
    upper = [axes.point(u * half_length, v * half_width, 0.0) for u in (-1, 1) for v in (-1, 1)]
    level = min(p[2] for p in upper)
    if max(p[2] for p in upper) - level < 0.5:
        return ()
    return tuple(upper) + tuple((x, y, level) for x, y, _ in upper)


def _shell(axes: Axes, at_ankle: Axes, length: float, inputs: LegInputs) -> tuple[Space, ...]:
    """The lower boot: from the sole up over the toes and the instep to the ankle."""
    base = inputs.sole_thickness_mm
    scale = inputs.foot_length_mm / 255.0
    low = axes.ring(_BULGES, 0.94 * length, base)
    toes = [
        axes.point(ahead * length, side * length, base + height * scale)
        for ahead, side, height in (
            (0.44, 0.04, 34.0), (0.43, -0.09, 38.0), (0.30, 0.13, 52.0), (0.30, -0.13, 56.0),
            (0.06, 0.10, 92.0), (0.06, -0.10, 94.0),
        )
    ]  # fmt: skip
    ankle = [at_ankle.point(56.0 * c * scale, 42.0 * s * scale, 14.0 * scale) for c, s in _RING]
    return (*low, *toes, *ankle)


def _cuff(leg: Leg, inputs: LegInputs) -> tuple[Space, ...]:
    """The upper boot around the shank, to a little under half of it."""
    if isnan(float(leg.off_plane)):
        return ()
    side, shank = cast(Space, leg.hinge_axis), cast(Space, leg.shank_axis)
    ahead = cast(Space, scaled(cross(leg.shank_axis, leg.hinge_axis), leg.side))
    axes = Axes(cast(Space, leg.chain.ankle), ahead, side, shank)
    scale = inputs.foot_length_mm / 255.0
    top = 0.46 * (inputs.knee_height_mm - inputs.ankle_height_mm)
    return tuple(
        axes.point(ahead_mm * c * scale + shift, side_mm * s * scale, up)
        for ahead_mm, side_mm, shift, up in ((55.0, 43.0, 4.0, -6.0), (63.0, 55.0, -3.0, top))
        for c, s in _RING
    )
