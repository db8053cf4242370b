"""A wedge seen from a side: what a drawing of it needs."""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from geometry.hardware.plane import Spot
from geometry.hardware.wedge import Wedge

_BESIDE = 1e-6
"""How far beside each corner an outline is looked at (mm), so that a step stays a step."""


class Elevation(NamedTuple):
    """A wedge seen square to a level direction; across along it, up from the base (mm).

    Attributes:
        silhouette: corners of all that is seen, anticlockwise, shape (n, 2); the
            base comes first.
        rim: the edge of the top, closed, shape (m, 2).
        bores: of each hole the two walls, two points each, shape (h, 2, 2, 2).
        heads: of each recess the same, up from its floor; empty without recesses.
    """

    silhouette: NDArray[Any]
    rim: NDArray[Any]
    bores: NDArray[Any]
    heads: NDArray[Any]

    @property
    def hidden(self) -> NDArray[Any]:
        """All lines inside it: walls of holes and recesses, and floors of these, (k, 2, 2)."""
        walls = np.concatenate((self.bores, self.heads)).reshape(-1, 2, 2)
        return np.concatenate((walls, self.heads[:, :, 0, :]))


def elevation(wedge: Wedge, across: Spot) -> Elevation:
    """How a wedge looks square to a direction.

    Args:
        wedge: possible or not.
        across: unit vector that lies to the right in the picture, ahead along
            the foot and to the little-toe side.
    """
    outline = wedge.footprint.outline()
    right = outline @ np.array(across)
    rim = np.column_stack((right, wedge.height(outline[:, 0], outline[:, 1])))
    bores = _walls(wedge, across, heads=False)
    heads = _walls(wedge, across, heads=True) if wedge.screws.sunk else bores[:0]
    return Elevation(_silhouette(rim), rim, bores, heads)


def _silhouette(rim: NDArray[Any]) -> NDArray[Any]:
    """The highest place of the rim over every place across, down to the base."""
    least, most = rim[:, 0].min(), rim[:, 0].max()
    places = np.unique(np.concatenate((rim[:, 0] - _BESIDE, rim[:, 0] + _BESIDE)))
    places = np.clip(places, least, most)
    start, end = rim, np.roll(rim, -1, axis=0)
    low, high = np.minimum(start[:, 0], end[:, 0]), np.maximum(start[:, 0], end[:, 0])
    over = (places[:, None] >= low) & (places[:, None] <= high)
    width = end[:, 0] - start[:, 0]
    upright = np.abs(width) < _BESIDE
    share = (places[:, None] - start[:, 0]) / np.where(upright, 1.0, width)
    height = start[:, 1] + np.clip(share, 0.0, 1.0) * (end[:, 1] - start[:, 1])
    height = np.where(upright, np.maximum(start[:, 1], end[:, 1]), height)
    top = np.where(over, height, -np.inf).max(axis=1)
    upper = np.column_stack((places, top))[::-1]
    return np.concatenate(([[least, 0.0], [most, 0.0]], upper))


def _walls(wedge: Wedge, across: Spot, *, heads: bool) -> NDArray[Any]:
    """The two walls of each hole below its head, or of each recess above it."""
    screws = wedge.screws
    radius = screws.widest if heads else 0.5 * screws.diameter
    walls = []
    for ahead, outer in screws.centres:
        floor = wedge.hole_height((ahead, outer))
        for way in (-radius, radius):
            spot = (ahead + way * across[0], outer + way * across[1])
            right = spot[0] * across[0] + spot[1] * across[1]
            top = float(wedge.height(*spot)) if heads or not screws.sunk else floor
            walls.append([[right, floor if heads else 0.0], [right, top]])
    return np.array(walls).reshape(-1, 2, 2, 2)
