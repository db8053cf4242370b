"""Where words stand on a map: on their lines, clear of each other and of the edge."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil
from typing import Any, Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

SPACING: Final = 4.0
"""Between the points by which a line is known, as it is drawn (px)."""
CELL: Final = 4.0
"""Size of the squares in which lines are counted (px)."""
BLOCKED: Final = 1e6
"""Ink of a cell that no label may touch: more than all lines together have."""
GAP: Final = 3.0
"""Kept free around a label (px)."""


class Box(NamedTuple):
    """A rectangle of the drawing (px), downward positive."""

    left: float
    top: float
    right: float
    bottom: float


class Wanted(NamedTuple):
    """A label that asks for a place.

    Attributes:
        pieces: the connected parts of its line, shape (n, 2) each (px).
        width: of its words (px).
        beside: whether it may stand next to its line, not only across it.
    """

    pieces: Sequence[NDArray[Any]]
    width: float
    beside: bool = False


def placed(
    labels: Sequence[Wanted], height: float, within: Box, taken: Sequence[Box], spine: float
) -> list[Box | None]:
    """A box for each label, the first ones first; None where there is no room.

    No box touches another one, a taken one, or the edge.  Among the places left,
    those that cover few other lines are preferred, then those near the spine, so
    that the labels of neighbouring lines stand under each other.

    Args:
        labels: lines and the widths of their words.
        height: of every label (px).
        within: the drawing.
        taken: boxes to stay clear of.
        spine: where across the drawing labels stand best (px).
    """
    lines = [_spaced(label.pieces) for label in labels]
    inks = [_ink(line, within) for line in lines]
    all_ink = np.sum([_ink(np.empty((0, 2)), within), *inks], axis=0)
    for box in taken:
        _block(all_ink, box, within)
    found: list[Box | None] = []
    for label, line, own in zip(labels, lines, inks, strict=True):
        half = 0.5 * label.width + GAP, 0.5 * height
        middles = _inside(_middles(line, label, height), half, within)
        hidden = _hidden(all_ink if label.beside else all_ink - own, middles, half, within)
        middles, hidden = middles[hidden < BLOCKED], hidden[hidden < BLOCKED]
        costs = CELL * hidden + 0.1 * np.abs(middles[:, 0] - spine)
        best = _around(middles[np.argmin(costs)], half) if len(costs) else None
        if best is not None:
            # Over and under it, too, as its width already leaves room beside it.
            _block(all_ink, Box(best[0], best[1] - GAP, best[2], best[3] + GAP), within)
        found.append(best)
    return found


def _middles(line: NDArray[Any], label: Wanted, height: float) -> NDArray[Any]:
    """Where the middle of a label may stand, shape (n, 2)."""
    if not label.beside:
        return line
    over, aside = 0.5 * height + GAP, 0.5 * label.width + GAP
    sides = ((0.0, -over), (0.0, over), (-aside, -over), (aside, over), (-aside, 0.0), (aside, 0.0))
    return np.asarray((line + np.array(sides)[:, np.newaxis]).reshape(-1, 2))


def _inside(middles: NDArray[Any], half: tuple[float, float], within: Box) -> NDArray[Any]:
    """Those of the places at which a label stays within the drawing."""
    x, y = middles.T
    inside = (x - half[0] >= within.left) & (x + half[0] <= within.right)
    inside &= (y - half[1] >= within.top) & (y + half[1] <= within.bottom)
    return np.asarray(middles[inside])


def _ink(line: NDArray[Any], within: Box) -> NDArray[Any]:
    """In which cells of the drawing a line runs, 1 or 0, shape (rows, columns)."""
    across = ceil((within.right - within.left) / CELL)
    down = ceil((within.bottom - within.top) / CELL)
    ink = np.zeros((max(down, 1), max(across, 1)))
    column, row = np.floor((line - (within.left, within.top)) / CELL).astype(int).T
    inside = (column >= 0) & (column < across) & (row >= 0) & (row < down)
    ink[row[inside], column[inside]] = 1.0
    return ink


def _block(ink: NDArray[Any], box: Box, within: Box) -> None:
    """Fill the cells that a box touches with more ink than lines could."""
    left, top, right, bottom = (int(x) for x in _cells(np.array([box]), within)[0])
    ink[max(top, 0) : max(bottom, 0), max(left, 0) : max(right, 0)] += BLOCKED


def _cells(boxes: NDArray[Any], within: Box) -> NDArray[Any]:
    """The cells that boxes touch: first column and row, and those after the last, shape (n, 4)."""
    places = (boxes - (*within[:2], *within[:2])) / CELL
    places[:, :2], places[:, 2:] = np.floor(places[:, :2]), np.ceil(places[:, 2:])
    return np.asarray(places.astype(int))


def _hidden(
    ink: NDArray[Any], middles: NDArray[Any], half: tuple[float, float], within: Box
) -> NDArray[Any]:
    """How much ink a label at each place would hide, shape (n,).

    Summed once from the top left corner, the ink in any box is the difference of
    four of the sums.
    """
    sums = np.zeros((ink.shape[0] + 1, ink.shape[1] + 1))
    sums[1:, 1:] = ink.cumsum(axis=0).cumsum(axis=1)
    left, top, right, bottom = _cells(np.hstack((middles - half, middles + half)), within).T
    right, bottom = np.minimum(right, ink.shape[1]), np.minimum(bottom, ink.shape[0])
    return np.asarray(sums[bottom, right] - sums[top, right] - sums[bottom, left] + sums[top, left])


def _around(middle: NDArray[Any], half: tuple[float, float]) -> Box:
    x, y = middle.tolist()
    return Box(x - half[0], y - half[1], x + half[0], y + half[1])


def _spaced(pieces: Sequence[NDArray[Any]]) -> NDArray[Any]:
    """Points along lines at even steps, shape (n, 2)."""
    runs = [_run(piece) for piece in pieces]
    return np.concatenate(runs) if runs else np.empty((0, 2))


def _run(piece: NDArray[Any]) -> NDArray[Any]:
    """Points along one connected line."""
    along = np.concatenate(((0.0,), np.cumsum(np.hypot(*np.diff(piece, axis=0).T))))
    wanted = np.arange(0.0, along[-1], SPACING)
    return np.column_stack([np.interp(wanted, along, part) for part in piece.T])
