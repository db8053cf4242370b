"""Why a wedge cannot be made."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from geometry.hardware.footprint import distance_inside
from geometry.hardware.plane import Spot
from geometry.hardware.wedge import Wedge
from geometry.reasons import Amount, ImpossibleError, Reason

LEAST_WALL = 2.0
"""Least material between two holes, and between a hole and the outside (mm;
engineering choice, no source)."""
TELLABLE = 0.1
"""A thickness below it is told as nothing: it would be written as 0 mm."""


def wedge_problems(wedge: Wedge) -> tuple[Reason, ...]:
    """Why a wedge cannot be made: every reason; empty where it can."""
    return (*_thickness_problems(wedge), *_head_problems(wedge), *_hole_problems(wedge))


def require_possible(wedge: Wedge) -> None:
    """Refuse a wedge that cannot be made.

    Raises:
        ImpossibleError: for every reason.
    """
    problems = wedge_problems(wedge)
    if problems:
        raise ImpossibleError(*problems)


def _thickness_problems(wedge: Wedge) -> Iterator[Reason]:
    if wedge.thinnest < wedge.smallest - 1e-9:
        yield Reason(
            "wedge too thin" if wedge.thinnest >= TELLABLE else "wedge ends in nothing",
            found=_all_there_is(wedge.thinnest),
            smallest=_enough(wedge.smallest),
            needed=_enough(wedge.level + wedge.smallest - wedge.thinnest),
        )


def _head_problems(wedge: Wedge) -> Iterator[Reason]:
    if not wedge.screws.sunk:
        return
    for i, centre in enumerate(wedge.screws.centres):
        left = wedge.hole_height(centre)
        if left < wedge.smallest - 1e-9:
            yield Reason(
                "too little under a head" if left >= TELLABLE else "nothing under a head",
                number=i + 1,
                found=_all_there_is(left),
                smallest=_enough(wedge.smallest),
                needed=_enough(wedge.level + wedge.smallest - left),
            )


def _hole_problems(wedge: Wedge) -> Iterator[Reason]:
    centres, radius = wedge.screws.centres, wedge.screws.widest
    outline = wedge.footprint.outline()
    for i, centre in enumerate(centres):
        wall = distance_inside(outline, centre) - radius
        yield from _edge_problem(i + 1, wall, radius)
    for i, j in _close_pairs(centres, 2.0 * radius + LEAST_WALL):
        yield _pair_problem((i + 1, j + 1), math.dist(centres[i], centres[j]), radius)


def _edge_problem(number: int, wall: float, radius: float) -> Iterator[Reason]:
    """What is wrong with the place of one hole, if anything; ``wall`` is beside it (mm)."""
    if wall < -2.0 * radius + 1e-9:
        yield Reason("hole outside", number=number)
    elif wall < LEAST_WALL - 1e-9:
        yield Reason(
            "hole breaks through" if wall < 0.0 else "wall too thin",
            number=number,
            found=_all_there_is(wall),
            least=Amount(LEAST_WALL, "mm", 0),
            needed=_enough(LEAST_WALL - wall),
        )


def _pair_problem(numbers: tuple[int, int], apart: float, radius: float) -> Reason:
    """What is wrong with two holes that stand too close (mm)."""
    number, other = numbers
    if apart < 1e-6:
        return Reason("holes in one place", number=number, other=other)
    wall = apart - 2.0 * radius
    return Reason(
        "holes too close" if wall > 0.0 else "holes cut each other",
        number=number,
        other=other,
        apart=_all_there_is(apart),
        found=_all_there_is(wall),
        across=Amount(2.0 * radius, "mm", 0),
        needed=_enough(2.0 * radius + LEAST_WALL),
    )


def _enough(length: float) -> Amount:
    return Amount(length, "mm", +1)


def _all_there_is(length: float) -> Amount:
    return Amount(length, "mm", -1)


def _close_pairs(centres: Sequence[Spot], least: float) -> list[tuple[int, int]]:
    """Pairs of places that are closer together than they may be."""
    spots: NDArray[Any] = np.array(centres).reshape(-1, 2)
    apart = np.hypot(*(spots[:, None] - spots[None, :]).transpose(2, 0, 1))
    close = np.triu(apart < least - 1e-9, k=1)
    return [(int(i), int(j)) for i, j in np.argwhere(close)]
