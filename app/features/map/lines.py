"""The lines of the stance map: what is computed for it, off the window's path.

Across runs the binding angle in degrees, upward the stance length over the
neutral spacing.  Nothing here knows how large the map is drawn.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, replace
from math import ceil, floor, radians
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from app.drawing.marks import Window
from app.rider.inputs import DEFAULTS, Inputs, model
from geometry.fitting.contours import contour
from geometry.fitting.stance_map import StanceMap, stance_map_of

GRID: Final = (120, 100)
"""Columns and rows at which the map is solved."""
STEPS_DEG: Final = (1, 2, 5, 10, 20)
"""Between two lines of equal cant, the finest first."""
MOST_LINES: Final = 18
"""More lines than these and the next wider step is taken."""
EDGE_DEG: Final = 4.0
EDGE_RATIO: Final = 0.05
"""How far the map reaches beyond its last marks, so that a dot on them is whole."""

_NOT_OF_THE_MAP: Final = (
    *("lead_foot", "front_angle_deg", "rear_angle_deg", "stance_length_mm"),
    *("front_cant_deg", "rear_cant_deg"),
)
"""Inputs that move the dot, or nothing, but no line."""


@dataclass(frozen=True, eq=False, slots=True)
class Line:
    """Where the full cant has one value.

    Attributes:
        cant_deg: the value, positive inward.
        pieces: connected parts, each rows of angle and ratio, shape (n, 2).
    """

    cant_deg: int
    pieces: tuple[NDArray[Any], ...]


@dataclass(frozen=True, eq=False, slots=True)
class MapLines:
    """Everything drawn on the map but the stance itself.

    Attributes:
        extent: the part of the map that was computed, in degrees and ratios.
        levels: lines of equal full cant, from outward to inward, that of no cant too.
        straight_leg: where the rule for straight legs asks for no cant, rows of
            angle and ratio.
        no_cant: rows of angle and ratio at which the solved legs need none.
        blanks: strips where no posture settles, rows of left, right, bottom, top.
        uneven: whether the two feet need different cants, so that their mean is drawn.
    """

    extent: Window
    levels: tuple[Line, ...]
    straight_leg: NDArray[Any]
    no_cant: NDArray[Any]
    blanks: NDArray[Any]
    uneven: bool

    def no_cant_ratio(self, angle_deg: float) -> float:
        """Length over neutral spacing at which no cant is needed; nan off the map."""
        angles, ratios = self.no_cant.T
        return float(np.interp(angle_deg, angles, ratios, left=np.nan, right=np.nan))


def map_inputs(inputs: Inputs) -> Inputs:
    """The inputs with all that moves no line as the demo rider has it: equal inputs, equal maps."""
    usual = {name: getattr(DEFAULTS, name) for name in _NOT_OF_THE_MAP}
    # Which side stands in front draws no line; which leg does, does.
    return replace(inputs, left=inputs.front, right=inputs.rear, **usual)


def extent_of(angle_deg: float, ratio: float) -> Window:
    """The usual map, or as much more as holds a stance."""
    left, right = min(0.0, 15.0 * floor(angle_deg / 15.0)), 90.0
    bottom, top = min(0.8, 0.2 * floor(ratio / 0.2)), max(2.6, 0.2 * ceil(ratio / 0.2))
    return Window(left - EDGE_DEG, bottom - EDGE_RATIO, right + EDGE_DEG, top + EDGE_RATIO)


def map_lines(inputs: Inputs, extent: Window) -> MapLines:
    """Solve the map and draw its lines.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """
    angles = np.linspace(extent.left, extent.right, GRID[0])
    ratios = np.linspace(max(extent.bottom, 0.0), extent.top, GRID[1])
    solved = stance_map_of(model(inputs), np.radians(angles), ratios)
    return MapLines(
        extent=extent,
        levels=tuple(_line(angles, ratios, solved, level) for level in levels_of(solved.cant)),
        straight_leg=np.column_stack((angles, solved.straight_leg)),
        no_cant=np.column_stack((angles, solved.no_cant)),
        blanks=blanks_of(angles, ratios, solved.cant),
        uneven=bool(np.nanmax(np.abs(solved.front - solved.rear), initial=0.0) > radians(0.25)),
    )


def levels_of(cant: NDArray[Any]) -> list[int]:
    """The whole degrees of full cant worth a line; none where no posture settles.

    Args:
        cant: full cant (rad), any shape.
    """
    if np.isnan(cant).all():
        return []
    low, high = np.degrees(np.nanmin(cant)), np.degrees(np.nanmax(cant))
    for step in STEPS_DEG:
        levels = list(range(step * ceil(low / step), floor(high) + 1, step))
        if len(levels) <= MOST_LINES:
            break
    return levels


def _line(angles: NDArray[Any], ratios: NDArray[Any], solved: StanceMap, level: int) -> Line:
    return Line(level, tuple(joined(contour(angles, ratios, solved.cant, radians(level)))))


def joined(pieces: NDArray[Any]) -> list[NDArray[Any]]:
    """Short straight pieces put end to end, so that dashes and labels can follow them.

    Args:
        pieces: as :func:`geometry.contour` gives them, shape (3 n, 2).

    Returns:
        Connected lines, each shape (m, 2); closed ones end where they begin.
    """
    ends = pieces.reshape(-1, 3, 2)[:, :2].reshape(-1, 2)
    # Two triangles find their common end apart, so it may differ in the last digit.
    places, name = np.unique(np.round(ends, 9), axis=0, return_inverse=True)
    pairs = [(a, b) for a, b in name.reshape(-1, 2).tolist() if a != b]
    beside: dict[int, list[int]] = defaultdict(list)
    for a, b in pairs:
        beside[a].append(b)
        beside[b].append(a)
    starts = [place for place, near in beside.items() if len(near) != 2] + list(beside)
    walks = (_walk(beside, start) for start in starts)
    return [places[walk] for walk in walks if len(walk) > 1]


def _walk(beside: dict[int, list[int]], start: int) -> list[int]:
    """The places from one end of a line to its other, taken out of what is left."""
    walk = [start]
    while beside[walk[-1]]:
        place = beside[walk[-1]].pop()
        beside[place].remove(walk[-1])
        walk.append(place)
    return walk


def blanks_of(angles: NDArray[Any], ratios: NDArray[Any], cant: NDArray[Any]) -> NDArray[Any]:
    """Upright strips, one to a run of grid points without a posture, shape (n, 4)."""
    half_column, half_row = 0.5 * (angles[1] - angles[0]), 0.5 * (ratios[1] - ratios[0])
    missing = np.zeros((cant.shape[0] + 2, cant.shape[1]), dtype=np.int8)
    missing[1:-1] = np.isnan(cant)
    # Along each column a run begins where the step is up and ends where it is down.
    steps = np.diff(missing, axis=0).T
    column, first = np.nonzero(steps == 1)
    last = np.nonzero(steps == -1)[1] - 1
    return np.column_stack(
        (
            angles[column] - half_column,
            angles[column] + half_column,
            ratios[first] - half_row,
            ratios[last] + half_row,
        )
    )
