"""Why a wedge cannot be made, in words."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Any, Protocol

import numpy as np
from numpy.typing import NDArray

from geometry.hardware.footprint import distance_inside
from geometry.hardware.plane import Spot
from geometry.hardware.wedge import Wedge

LEAST_WALL = 2.0
"""Least material between two holes, and between a hole and the outside (mm;
engineering choice, no source)."""


class Written(Protocol):
    """Writes a length (mm) with its unit."""

    def __call__(self, length: float, toward: int = 0) -> str:
        """The length as text.

        Args:
            length: in mm.
            toward: +1 for a figure that is enough, rounded up; -1 for one that
                is all there is, rounded down; 0 for the nearest.
        """


def rounded(value: float, decimals: int, toward: int = 0) -> float:
    """A value with so many decimals, the nearest or the next one up or down."""
    if toward == 0:
        return round(value, decimals)
    scaled = 10.0**decimals * value
    # What is meant as 14.6 may come as 14.600000001.
    whole = math.ceil(scaled - 1e-6) if toward > 0 else math.floor(scaled + 1e-6)
    return whole / 10.0**decimals


def millimetres(length: float, toward: int = 0) -> str:
    """A length as "14.6 mm"."""
    return f"{rounded(length, 1, toward):g} mm"


def wedge_problems(wedge: Wedge, written: Written = millimetres) -> tuple[str, ...]:
    """Why a wedge cannot be made, a sentence for each reason; empty where it can.

    Args:
        wedge: what is asked for.
        written: writes the lengths, for people who do not think in millimetres.
    """
    return (
        *_thickness_problems(wedge, written),
        *_head_problems(wedge, written),
        *_hole_problems(wedge, written),
    )


def require_possible(wedge: Wedge) -> None:
    """Refuse a wedge that cannot be made.

    Raises:
        ValueError: every reason, in words.
    """
    problems = wedge_problems(wedge)
    if problems:
        raise ValueError("; ".join(problems))


def _thickness_problems(wedge: Wedge, written: Written) -> Iterator[str]:
    if wedge.thinnest < wedge.smallest - 1e-9:
        needed = wedge.level + wedge.smallest - wedge.thinnest
        found = (
            f"would be {written(wedge.thinnest, -1)} thin at its lowest place"
            if wedge.thinnest >= 0.05
            else "would end in nothing at its lowest place"
        )
        yield (
            f"the wedge {found}, less than the smallest thickness of "
            f"{written(wedge.smallest, 1)}: make its centre {written(needed, 1)} high or more"
        )


def _head_problems(wedge: Wedge, written: Written) -> Iterator[str]:
    if not wedge.screws.sunk:
        return
    for i, centre in enumerate(wedge.screws.centres):
        left = wedge.hole_height(centre)
        if left < wedge.smallest - 1e-9:
            under = (
                f"only {written(left, -1)} would be left" if left > 0.0 else "nothing would be left"
            )
            needed = wedge.level + wedge.smallest - left
            yield (
                f"the wedge is too thin for the head of screw {i + 1}: {under} under it, less "
                f"than the smallest thickness of {written(wedge.smallest, 1)}: make its "
                f"centre {written(needed, 1)} high or more, or leave the heads on top"
            )


def _hole_problems(wedge: Wedge, written: Written) -> Iterator[str]:
    centres, radius = wedge.screws.centres, wedge.screws.widest
    outline = wedge.footprint.outline()
    for i, centre in enumerate(centres):
        wall = distance_inside(outline, centre) - radius
        yield from _edge_problem(i + 1, wall, radius, written)
    for i, j in _close_pairs(centres, 2.0 * radius + LEAST_WALL):
        yield _pair_problem((i + 1, j + 1), math.dist(centres[i], centres[j]), radius, written)


def _edge_problem(number: int, wall: float, radius: float, written: Written) -> Iterator[str]:
    """What is wrong with the place of one hole, if anything; ``wall`` is beside it (mm)."""
    if wall < -2.0 * radius + 1e-9:
        yield f"hole {number} lies outside the footprint: move it in or leave it out"
    elif wall < 0.0:
        yield (
            f"hole {number} breaks through the outline of the footprint: "
            f"move it in by {written(LEAST_WALL - wall, 1)} or more"
        )
    elif wall < LEAST_WALL - 1e-9:
        yield (
            f"hole {number} leaves {written(wall, -1)} of wall to the outside, and it needs "
            f"{written(LEAST_WALL)}: move it in by {written(LEAST_WALL - wall, 1)} or more"
        )


def _pair_problem(numbers: tuple[int, int], apart: float, radius: float, written: Written) -> str:
    """What is wrong with two holes that stand too close (mm)."""
    pair = f"holes {numbers[0]} and {numbers[1]}"
    if apart < 1e-6:
        return f"{pair} are in the same place: leave one out"
    wall = apart - 2.0 * radius
    found = f"leave {written(wall, -1)} of wall between them" if wall > 0.0 else "cut each other"
    needed = 2.0 * radius + LEAST_WALL
    return (
        f"{pair} stand {written(apart, -1)} apart and {found}: at {written(2.0 * radius)} "
        f"across they need {written(needed, 1)} from centre to centre"
    )


def _close_pairs(centres: Sequence[Spot], least: float) -> list[tuple[int, int]]:
    """Pairs of places that are closer together than they may be."""
    spots: NDArray[Any] = np.array(centres).reshape(-1, 2)
    apart = np.hypot(*(spots[:, None] - spots[None, :]).transpose(2, 0, 1))
    close = np.triu(apart < least - 1e-9, k=1)
    return [(int(i), int(j)) for i, j in np.argwhere(close)]
