"""Why a wedge cannot be made, in words."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from geometry.hardware.footprint import distance_inside
from geometry.hardware.plane import Spot
from geometry.hardware.wedge import Wedge

LEAST_WALL = 2.0
"""Least material between two holes, and between a hole and the outside (mm;
engineering choice, no source)."""


def wedge_problems(wedge: Wedge) -> tuple[str, ...]:
    """Why a wedge cannot be made, a sentence for each reason; empty where it can."""
    return (*_thickness_problems(wedge), *_head_problems(wedge), *_hole_problems(wedge))


def require_possible(wedge: Wedge) -> None:
    """Refuse a wedge that cannot be made.

    Raises:
        ValueError: every reason, in words.
    """
    problems = wedge_problems(wedge)
    if problems:
        raise ValueError("; ".join(problems))


def _thickness_problems(wedge: Wedge) -> Iterator[str]:
    if wedge.thinnest < wedge.smallest - 1e-9:
        needed = wedge.level + wedge.smallest - wedge.thinnest
        found = (
            f"would be {wedge.thinnest:.1f} mm thin at its lowest place"
            if wedge.thinnest >= 0.05
            else "would end in nothing at its lowest place"
        )
        yield (
            f"the wedge {found}, less than the smallest thickness of {wedge.smallest:g} mm: "
            f"make its centre {_up(needed):g} mm high or more"
        )


def _head_problems(wedge: Wedge) -> Iterator[str]:
    if not wedge.screws.sunk:
        return
    for i, centre in enumerate(wedge.screws.centres):
        left = wedge.hole_height(centre)
        if left < wedge.smallest - 1e-9:
            under = f"only {left:.1f} mm would be left" if left > 0.0 else "nothing would be left"
            needed = wedge.level + wedge.smallest - left
            yield (
                f"the wedge is too thin for the head of screw {i + 1}: {under} under it, less "
                f"than the smallest thickness of {wedge.smallest:g} mm: make its "
                f"centre {_up(needed):g} mm high or more, or leave the heads on top"
            )


def _up(height: float) -> float:
    """The next tenth of a mm that is enough."""
    return math.ceil(10.0 * height - 1e-6) / 10.0


def _hole_problems(wedge: Wedge) -> Iterator[str]:
    centres, radius = wedge.screws.centres, wedge.screws.widest
    outline = wedge.footprint.outline()
    for i, centre in enumerate(centres):
        yield from _edge_problem(i, distance_inside(outline, centre) - radius, radius)
    for i, j in _close_pairs(centres, 2.0 * radius + LEAST_WALL):
        yield (
            f"holes {i + 1} and {j + 1} stand {math.dist(centres[i], centres[j]):.1f} mm apart; "
            f"at {2.0 * radius:g} mm across they need {2.0 * radius + LEAST_WALL:g} mm"
        )


def _edge_problem(number: int, wall: float, radius: float) -> Iterator[str]:
    """What is wrong with the place of one hole, if anything; ``wall`` is beside it (mm)."""
    if wall < -2.0 * radius + 1e-9:
        yield f"hole {number + 1} lies outside the footprint"
    elif wall < 0.0:
        yield f"hole {number + 1} breaks through the outline of the footprint"
    elif wall < LEAST_WALL - 1e-9:
        yield (
            f"hole {number + 1} leaves {wall:.1f} mm of wall to the outside; "
            f"it needs {LEAST_WALL:g} mm"
        )


def _close_pairs(centres: Sequence[Spot], least: float) -> list[tuple[int, int]]:
    """Pairs of places that are closer together than they may be."""
    spots: NDArray[Any] = np.array(centres).reshape(-1, 2)
    apart = np.hypot(*(spots[:, None] - spots[None, :]).transpose(2, 0, 1))
    close = np.triu(apart < least - 1e-9, k=1)
    return [(int(i), int(j)) for i, j in np.argwhere(close)]
