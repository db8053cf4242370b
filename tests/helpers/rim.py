"""Boots on a board point by point: a dense rim instead of closed forms.

Written apart from ``geometry.hardware.edge_contact``: the rim is sampled, the board is
really turned about its edge, and the first touch is looked for by bisection.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from geometry import Mount
from geometry.hardware.board import Board, BootSole
from geometry.sole import sole_of
from geometry.vectors import stacked

STEPS = 2000


def rad(degrees: float) -> float:
    return math.radians(degrees)


def outline(length: float, width: float, radius: float) -> NDArray[np.float64]:
    """Points of a rectangle with round corners: ahead and to the outer side."""
    turns = np.linspace(0.0, 2.0 * math.pi, STEPS, endpoint=False)
    round_part = np.stack((np.cos(turns), np.sin(turns)), axis=-1)
    half = np.array((0.5 * length - radius, 0.5 * width - radius))
    arcs = np.sign(round_part) * half + radius * round_part
    share = np.linspace(-1.0, 1.0, STEPS // 4)[:, None]
    sides = [share * half * (1.0, 0.0) + (0.0, v * 0.5 * width) for v in (-1.0, 1.0)]
    ends = [share * half * (0.0, 1.0) + (u * 0.5 * length, 0.0) for u in (-1.0, 1.0)]
    return np.concatenate((arcs, *sides, *ends))


def rim(
    boot: BootSole, mount: Mount, side: float, centre: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Points around the sole and around the boot's reach above it, shape (n, 3)."""
    sole = sole_of(mount, side)
    axes = np.stack([stacked(v) for v in (sole.foot_axis, sole.outer, sole.normal)])
    radius = 0.5 * boot.width * boot.roundness
    longer = boot.length + boot.toe_reach + boot.heel_reach
    shift = boot.offset + 0.5 * (boot.toe_reach - boot.heel_reach)
    points = []
    for length, ahead, up in ((boot.length, boot.offset, 0.0), (longer, shift, boot.reach_height)):
        flat = outline(length, boot.width, radius)
        flat[:, 0] += ahead
        points.append(np.column_stack((flat, np.full(len(flat), up))) @ axes)
    return np.concatenate(points) + centre


def beyond_edge(points: NDArray[np.float64], board: Board, side: float) -> NDArray[np.float64]:
    """How far each point lies beyond the edge, straight or an arc (mm)."""
    across = side * points[:, 1] - 0.5 * board.waist_width
    if board.sidecut_radius is None:
        return across
    middle = np.stack((points[:, 0] - board.waist_at, across - board.sidecut_radius), axis=-1)
    return board.sidecut_radius - np.hypot(*middle.T)


def touching_angle(points: NDArray[np.float64], board: Board, side: float) -> float:
    """The edge angle at which the first point comes down to the snow, by bisection (rad)."""
    out = beyond_edge(points, board, side)
    up = points[:, 2] + board.plate_height + board.thickness
    low, high = 0.0, math.pi
    for _ in range(60):
        tipped = 0.5 * (low + high)
        above = math.cos(tipped) * up - math.sin(tipped) * out
        low, high = (tipped, high) if above.min() > 0.0 else (low, tipped)
    return 0.5 * (low + high)
