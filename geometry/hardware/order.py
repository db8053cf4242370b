"""In which order stances on parts are told: one criterion after the other, in steps that show.

A boot past its range at the middle of the riding bend comes first, then cants outside
those that keep the knees in plane, then how far the knees leave their planes at worst.
These are angles in half degrees, rounded up, nought only where nothing is missing: what
is finer is not felt and must not decide.  Each is added up over the two feet, so that
neither is forgotten over the other.  Feet that ask alike stand on like stacks wherever
there are parts enough, and where there are not, what is alike comes first among equals;
then lower stacks come first, fewer parts, and what moves the feet least; and last what is
nearest to the answer.

A place in the order is packed into one whole number, so that half a million of them are
compared at once.
"""

from __future__ import annotations

import math
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

STEP = math.radians(0.5)
"""Step in which angles decide (rad)."""
FINE_STEP = math.radians(0.1)
"""Step of what decides last (rad)."""
NOTHING = math.radians(0.04)
"""An angle that is smaller is none (rad): it would be shown as none."""

Codes = NDArray[np.int64]

# Bits of each criterion, the least telling one first.
_ANSWER, _MOVED, _PLACE, _UNLIKE, _ANGLE = 10, 10, 19, 1, 7
_TO_MOVED = _ANSWER
_TO_PLACE = _TO_MOVED + _MOVED
_TO_UNLIKE = _TO_PLACE + _PLACE
_TO_PLANE = _TO_UNLIKE + _UNLIKE
_TO_CANT = _TO_PLANE + _ANGLE
_TO_BOOT = _TO_CANT + _ANGLE
OUT = 2 ** (_TO_BOOT + _ANGLE)
"""From here on stand places that are never told."""
LAST = np.iinfo(np.int64).max
"""Stands behind everything."""
MOST = 2**_ANGLE - 1
"""The most steps of an angle that are told apart."""


class Rank(NamedTuple):
    """By what one stance on its parts has its place; the smaller comes first.

    All are sums over the two feet, the angles of half degrees but for the last.

    Attributes:
        boot_past: how far the boots are past their range at the middle of the riding
            bend (rad).
        cant_off: how far the cants lie outside those that keep the knees in plane at
            every depth (rad).
        out_of_plane: how far the knees leave their planes at worst over the riding
            bend (rad); 0 for one that counts as in plane.
        unlike: 1 where both feet ask alike and stand on unlike stacks.
        height: of the parts (mm).
        parts: how many there are.
        moved: how far the edge of a sole moves at most from where it is now (mm).
        from_answer: tilt between a sole and the one to begin with (rad), in tenths of a degree.
    """

    boot_past: float
    cant_off: float
    out_of_plane: float
    unlike: int
    height: float
    parts: int
    moved: int
    from_answer: float


def fine_steps(angle: Any) -> NDArray[np.int64]:
    """Tenths of a degree to which an angle (rad) is nearest."""
    return np.asarray(np.nan_to_num(np.rint(angle / FINE_STEP)), dtype=np.int64)


def steps_up(angle: Any) -> NDArray[np.int64]:
    """Half degrees that hold an angle (rad); none for one that is as good as nothing."""
    steps = np.ceil((np.nan_to_num(angle, nan=math.pi) - NOTHING) / STEP)
    return np.asarray(np.clip(steps, 0, MOST), dtype=np.int64)


def sole_code(*, cant_off: Any, moved: Any, from_answer: Any, out: Any) -> Codes:
    """What is known of a sole's share in a place before any posture is solved.

    Args:
        cant_off: in steps.
        moved: in mm.
        from_answer: in fine steps.
        out: whether it is never proposed; then the place is at :data:`OUT` or behind.
    """
    # Half of what there is room for, since two of them are added up.
    code = np.minimum(cant_off, MOST // 2).astype(np.int64) << _TO_CANT
    code += np.minimum(moved, 2 ** (_MOVED - 1) - 1).astype(np.int64) << _TO_MOVED
    code += np.minimum(from_answer, 2 ** (_ANSWER - 1) - 1)
    return np.asarray(np.where(out, OUT, code))


def pair_code(front: Codes, rear: Codes, place: Any, unlike: Any) -> Codes:
    """What is known of a pair of soles before any posture is solved.

    Args:
        front: what is known of the front sole.
        rear: what is known of the rear sole.
        place: number of the pair of stacks, the lower and those of fewer parts first.
        unlike: whether the stacks differ though the feet do not.
    """
    told = np.asarray(place, dtype=np.int64) << _TO_PLACE
    return np.asarray(front + rear + told + (np.asarray(unlike, dtype=np.int64) << _TO_UNLIKE))


def with_posture(code: Codes, boot_past: Any, out_of_plane: Any) -> Codes:
    """The same, with what the posture says: two angles in steps."""
    boot = np.minimum(boot_past, MOST).astype(np.int64) << _TO_BOOT
    return np.asarray(code + boot + (np.minimum(out_of_plane, MOST).astype(np.int64) << _TO_PLANE))


def rank_of(code: int, height: float, parts: int) -> Rank:
    """The place that a whole number stands for.

    Args:
        code: the number.
        height: of the parts under both feet (mm).
        parts: how many.
    """

    def steps(shift: int, bits: int) -> int:
        mask: int = 2**bits - 1
        return (code >> shift) & mask

    return Rank(
        boot_past=STEP * steps(_TO_BOOT, _ANGLE),
        cant_off=STEP * steps(_TO_CANT, _ANGLE),
        out_of_plane=STEP * steps(_TO_PLANE, _ANGLE),
        unlike=steps(_TO_UNLIKE, _UNLIKE),
        height=float(height),
        parts=int(parts),
        moved=steps(_TO_MOVED, _MOVED),
        from_answer=FINE_STEP * steps(0, _ANSWER),
    )


def millimetres(moved: Any) -> NDArray[np.int64]:
    """Movements in whole mm."""
    return np.asarray(np.nan_to_num(np.rint(moved)), dtype=np.int64)


def places_of(
    height: NDArray[Any], size: NDArray[Any], front: NDArray[Any], rear: NDArray[Any]
) -> NDArray[np.int64]:
    """Number of each pair of stacks by its height, then by its parts; equals share one.

    Args:
        height: of each stack (mm).
        size: parts of each stack.
        front: number of the front stack of each pair.
        rear: number of the rear one.
    """
    # Few stacks differ in this, so that pairs of kinds are put in order and not pairs.
    kinds, kind = np.unique(np.stack((height, size), axis=1), axis=0, return_inverse=True)
    both = (kinds[:, np.newaxis] + kinds).reshape(-1, 2)
    both[:, 0] = np.rint(1e3 * both[:, 0])
    _, place = np.unique(both, axis=0, return_inverse=True)
    own = kind.ravel()
    table = place.reshape(len(kinds), len(kinds))
    return np.asarray(table[own[front], own[rear]], dtype=np.int64)
