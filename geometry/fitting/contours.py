"""Lines of equal value over a grid."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray


def contour(x: NDArray[Any], y: NDArray[Any], values: NDArray[Any], level: float) -> NDArray[Any]:
    """Where a gridded value passes a level, as short straight pieces.

    Every cell is cut into two triangles; within each the value is taken to be
    linear, so that a line crosses it once at most and no cell is ambiguous.

    Args:
        x: places of the columns, shape (c,).
        y: places of the rows, shape (r,).
        values: the value at each row and column, shape (r, c); triangles
            with a nan at a corner are left out.
        level: the value sought.

    Returns:
        The pieces one after the other, each its two ends and a row of nan that
        lifts the pen, shape (3 n, 2).
    """
    corners = _triangles(x, y, values, level)
    above = corners[..., 2] > level
    highs = np.count_nonzero(above, axis=1)
    crossed = (highs > 0) & (highs < 3) & ~np.isnan(corners[..., 2]).any(axis=1)
    corners, above, highs = corners[crossed], above[crossed], highs[crossed]
    # The corner that stands alone on its side of the level: both crossings are
    # on its edges.
    alone = np.argmax(above == (highs == 1)[:, np.newaxis], axis=1)
    rows = np.arange(len(alone))
    apex = corners[rows, alone]
    pieces = np.full((len(alone), 3, 2), np.nan)
    for end in (0, 1):
        other = corners[rows, (alone + 1 + end) % 3]
        part = (level - apex[:, 2]) / (other[:, 2] - apex[:, 2])
        pieces[:, end] = apex[:, :2] + part[:, np.newaxis] * (other[:, :2] - apex[:, :2])
    return pieces.reshape(-1, 2)


def _triangles(
    x: NDArray[Any], y: NDArray[Any], values: NDArray[Any], level: float
) -> NDArray[Any]:
    """Corners of two triangles as x, y and value, of each cell the level may pass, shape (n, 3, 3).

    All others are most of the cells, and would be cut for nothing.
    """
    above = values > level
    quarters = above[:-1, :-1], above[:-1, 1:], above[1:, :-1], above[1:, 1:]
    passed = np.logical_or.reduce(quarters) & ~np.logical_and.reduce(quarters)
    row, column = np.nonzero(passed)

    def corner(down: int, right: int) -> NDArray[Any]:
        across, up = column + right, row + down
        return np.column_stack((x[across], y[up], values[up, across]))

    first, beside, over, opposite = corner(0, 0), corner(0, 1), corner(1, 0), corner(1, 1)
    halves = (first, beside, opposite), (first, opposite, over)
    return np.concatenate([np.stack(half, axis=1) for half in halves])
