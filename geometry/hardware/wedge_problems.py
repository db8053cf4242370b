"""Why a wedge cannot be made, in words."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Any, Final, NamedTuple, Protocol

import numpy as np
from numpy.typing import NDArray

from geometry.hardware.footprint import distance_inside
from geometry.hardware.plane import Spot
from geometry.hardware.wedge import Wedge

LEAST_WALL = 2.0
"""Least material between two holes, and between a hole and the outside (mm;
engineering choice, no source)."""
TELLABLE = 0.1
"""A thickness below it is told as nothing: it would be written as 0 mm."""


PROBLEMS: Final = {
    "thin": "the wedge would be {found} thin at its lowest place, less than the smallest "
    "thickness of {smallest}: make its centre {needed} high or more",
    "nothing": "the wedge would end in nothing at its lowest place, less than the smallest "
    "thickness of {smallest}: make its centre {needed} high or more",
    "head": "the wedge is too thin for the head of screw {number}: only {found} would be left "
    "under it, less than the smallest thickness of {smallest}: make its centre {needed} high "
    "or more, or leave the heads on top",
    "head on nothing": "the wedge is too thin for the head of screw {number}: nothing would be "
    "left under it, less than the smallest thickness of {smallest}: make its centre {needed} "
    "high or more, or leave the heads on top",
    "outside": "hole {number} lies outside the footprint: move it in or leave it out",
    "through": "hole {number} breaks through the outline of the footprint: "
    "move it in by {needed} or more",
    "wall": "hole {number} leaves {found} of wall to the outside, and it needs {least}: "
    "move it in by {needed} or more",
    "same place": "holes {number} and {other} are in the same place: leave one out",
    "thin between": "holes {number} and {other} stand {apart} apart and leave {found} of wall "
    "between them: at {across} across they need {needed} from centre to centre",
    "cut": "holes {number} and {other} stand {apart} apart and cut each other: at {across} "
    "across they need {needed} from centre to centre",
}
"""What can be wrong with a wedge: sentences with named places for lengths and numbers."""


class Written(Protocol):
    """Writes a length (mm) with its unit."""

    def __call__(self, length: float, toward: int = 0) -> str:
        """The length as text.

        Args:
            length: in mm.
            toward: +1 for a figure that is enough, rounded up; -1 for one that
                is all there is, rounded down; 0 for the nearest.
        """


class Told(Protocol):
    """Tells one of :data:`PROBLEMS`, for people who do not speak English."""

    def __call__(self, sentence: str, /, **places: object) -> str:
        """The sentence with its places filled."""


def in_english(sentence: str, /, **places: object) -> str:
    """A sentence as it stands here, its places filled."""
    return sentence.format(**places)


class _Words(NamedTuple):
    """How to write lengths and to tell sentences."""

    written: Written
    told: Told


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


def wedge_problems(
    wedge: Wedge, written: Written = millimetres, told: Told = in_english
) -> tuple[str, ...]:
    """Why a wedge cannot be made, a sentence for each reason; empty where it can.

    Args:
        wedge: what is asked for.
        written: writes the lengths, for people who do not think in millimetres.
        told: tells the sentences, for people who do not speak English.
    """
    words = _Words(written, told)
    return (
        *_thickness_problems(wedge, words),
        *_head_problems(wedge, words),
        *_hole_problems(wedge, words),
    )


def require_possible(wedge: Wedge) -> None:
    """Refuse a wedge that cannot be made.

    Raises:
        ValueError: every reason, in words.
    """
    problems = wedge_problems(wedge)
    if problems:
        raise ValueError("; ".join(problems))


def _thickness_problems(wedge: Wedge, words: _Words) -> Iterator[str]:
    written, told = words
    if wedge.thinnest < wedge.smallest - 1e-9:
        yield told(
            PROBLEMS["thin" if wedge.thinnest >= TELLABLE else "nothing"],
            found=written(wedge.thinnest, -1),
            smallest=written(wedge.smallest, 1),
            needed=written(wedge.level + wedge.smallest - wedge.thinnest, 1),
        )


def _head_problems(wedge: Wedge, words: _Words) -> Iterator[str]:
    written, told = words
    if not wedge.screws.sunk:
        return
    for i, centre in enumerate(wedge.screws.centres):
        left = wedge.hole_height(centre)
        if left < wedge.smallest - 1e-9:
            yield told(
                PROBLEMS["head" if left >= TELLABLE else "head on nothing"],
                number=i + 1,
                found=written(left, -1),
                smallest=written(wedge.smallest, 1),
                needed=written(wedge.level + wedge.smallest - left, 1),
            )


def _hole_problems(wedge: Wedge, words: _Words) -> Iterator[str]:
    centres, radius = wedge.screws.centres, wedge.screws.widest
    outline = wedge.footprint.outline()
    for i, centre in enumerate(centres):
        wall = distance_inside(outline, centre) - radius
        yield from _edge_problem(i + 1, wall, radius, words)
    for i, j in _close_pairs(centres, 2.0 * radius + LEAST_WALL):
        yield _pair_problem((i + 1, j + 1), math.dist(centres[i], centres[j]), radius, words)


def _edge_problem(number: int, wall: float, radius: float, words: _Words) -> Iterator[str]:
    """What is wrong with the place of one hole, if anything; ``wall`` is beside it (mm)."""
    written, told = words
    if wall < -2.0 * radius + 1e-9:
        yield told(PROBLEMS["outside"], number=number)
    elif wall < LEAST_WALL - 1e-9:
        yield told(
            PROBLEMS["through" if wall < 0.0 else "wall"],
            number=number,
            found=written(wall, -1),
            least=written(LEAST_WALL),
            needed=written(LEAST_WALL - wall, 1),
        )


def _pair_problem(numbers: tuple[int, int], apart: float, radius: float, words: _Words) -> str:
    """What is wrong with two holes that stand too close (mm)."""
    (number, other), (written, told) = numbers, words
    if apart < 1e-6:
        return told(PROBLEMS["same place"], number=number, other=other)
    wall = apart - 2.0 * radius
    return told(
        PROBLEMS["thin between" if wall > 0.0 else "cut"],
        number=number,
        other=other,
        apart=written(apart, -1),
        found=written(wall, -1),
        across=written(2.0 * radius),
        needed=written(2.0 * radius + LEAST_WALL, 1),
    )


def _close_pairs(centres: Sequence[Spot], least: float) -> list[tuple[int, int]]:
    """Pairs of places that are closer together than they may be."""
    spots: NDArray[Any] = np.array(centres).reshape(-1, 2)
    apart = np.hypot(*(spots[:, None] - spots[None, :]).transpose(2, 0, 1))
    close = np.triu(apart < least - 1e-9, k=1)
    return [(int(i), int(j)) for i, j in np.argwhere(close)]
