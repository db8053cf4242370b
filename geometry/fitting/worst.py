"""The worst of a riding range, for many stances at once."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from geometry.body import Body
from geometry.boots import Boots
from geometry.crouch import Crouch
from geometry.elementary import Real
from geometry.fitting.sweep import RidingRange
from geometry.posture import Posture, solve
from geometry.stance import Mount, Stance

AT_ONCE = 16_384
"""Postures solved in one go: as many as stay in the processor's cache."""


@dataclass(frozen=True, eq=False, slots=True)
class Worst:
    """The worst over some points of a riding range, for each of n stances.

    Points at which no posture settles do not count; where none does, nan.

    Attributes:
        demand: largest of what the legs ask of boot and knee together (rad),
            whatever its sign: see :func:`demand`.
        off_plane: largest off-plane angle of the front and of the rear leg,
            whatever its sign (rad), shape (2, n).
        off_rest: largest flex of the front and of the rear boot away from rest,
            whatever its sign (rad), shape (2, n).
        settled: at which points a posture settles, shape (n, points).
    """

    demand: NDArray[Any]
    off_plane: NDArray[Any]
    off_rest: NDArray[Any]
    settled: NDArray[Any]


def demand(wanted_give: Real, off_plane: Real, side_give: Real) -> NDArray[Any]:
    """What a leg asks of boot and knee together (rad), positive inward.

    Boot and ankle take their part first, the knee what is left: the wanted give
    within the side give, and beyond it the side give and the off-plane angle.
    So of two stances the one with the larger demand has the larger off-plane
    angle, or the larger wanted give where neither has any.
    """
    absorbed: NDArray[Any] = np.clip(wanted_give, -side_give, side_give)
    return absorbed - off_plane


def worst_over(body: Body, boots: Boots, stances: Stance, points: Crouch) -> Worst:
    """The worst of each of many stances over the same points of a riding range.

    Args:
        body: leg dimensions, single values.
        boots: boots, single values.
        stances: arrays of shape (n,), or single values that serve all.
        points: bends and turns of shape (points,).
    """
    whole = level(stances)
    many, at_once = np.size(whole.length), max(AT_ONCE // max(np.size(points.knee_bend), 1), 1)
    blocks = [
        _worst_of_block(body, boots, some_of(whole, slice(start, start + at_once)), points)
        for start in range(0, max(many, 1), at_once)
    ]
    if len(blocks) == 1:
        return blocks[0]
    return Worst(
        np.concatenate([each.demand for each in blocks]),
        np.concatenate([each.off_plane for each in blocks], axis=1),
        np.concatenate([each.off_rest for each in blocks], axis=1),
        np.concatenate([each.settled for each in blocks]),
    )


def demands_at(body: Body, boots: Boots, stances: Stance, points: Crouch) -> NDArray[Any]:
    """The larger demand of the two legs of each of n stances at each point (rad).

    Arguments as in :func:`worst_over`.

    Returns:
        Whatever its sign, shape (n, points); nan where no posture settles.
    """
    return _demands(boots, _spread(body, boots, level(stances), points))


def points_of(crouch: Crouch, over: RidingRange) -> Crouch:
    """The points of a riding range one after the other, shape (points,).

    None where the range has none; the crouch gives hip shift, back lean and weight.
    """
    turns, bends = np.broadcast_arrays(over.turns[:, np.newaxis], over.bends)
    there = ~np.isnan(bends)
    return replace(crouch, knee_bend=bends[there], hips_turned=turns[there])


def level(stance: Stance) -> Stance:
    """The stances, every field an array of the same shape, of one element at least."""
    front, rear = stance.front, stance.rear
    angles = front.angle, front.lift, front.cant, rear.angle, rear.lift, rear.cant
    whole = np.broadcast_arrays(np.zeros(1), *angles, stance.length, stance.across)
    return Stance(Mount(*whole[1:4]), Mount(*whole[4:7]), *whole[7:])


def some_of(stances: Stance, which: Any) -> Stance:
    """Some of an array of stances whose fields are :func:`level`, by index, slice or mask."""

    def some(value: Any) -> Any:
        return value[which]

    def mount(whole: Mount) -> Mount:
        return Mount(some(whole.angle), some(whole.lift), some(whole.cant))

    return Stance(
        mount(stances.front), mount(stances.rear), some(stances.length), some(stances.across)
    )


def _spread(body: Body, boots: Boots, stances: Stance, points: Crouch) -> Posture:
    """The posture of each stance at each point, shape (n, points)."""
    return solve(body, boots, some_of(stances, (slice(None), np.newaxis)), points)


def _demands(boots: Boots, posture: Posture) -> NDArray[Any]:
    """The larger demand of the two legs, whatever its sign."""
    front, rear = (
        demand(leg.wanted_give, leg.off_plane, boot.side_give)
        for leg, boot in zip(posture.legs, boots.both, strict=True)
    )
    return np.asarray(np.maximum(np.abs(front), np.abs(rear)))


def _worst_of_block(body: Body, boots: Boots, stances: Stance, points: Crouch) -> Worst:
    posture = _spread(body, boots, stances, points)
    off_plane = np.abs(np.array([leg.off_plane for leg in posture.legs]))
    off_rest = np.array(
        [
            leg.boot_flex - boot.forward_lean
            for leg, boot in zip(posture.legs, boots.both, strict=True)
        ]
    )
    return Worst(
        demand=np.fmax.reduce(_demands(boots, posture), axis=1),
        off_plane=np.fmax.reduce(off_plane, axis=2),
        off_rest=np.fmax.reduce(np.abs(off_rest), axis=2),
        settled=np.asarray(posture.exists),
    )
