"""One leg through the riding bend, hips straight: where its knee and its boot are at fault."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import isnan, nan, radians
from typing import Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

from app.rider.inputs import Inputs, LegInputs, model
from app.stance.findings import Limits
from app.stance.needs import Mounts, mounts_now
from geometry import PostureInputs
from geometry.fitting.answer import Mounts as Held
from geometry.fitting.answer import Terms, over_riding_bend
from geometry.fitting.proposal import LOOKED_AT

SHOWN_DEG: Final = 0.05
"""What passes a limit by less is shown as the limit itself (degrees)."""

Stretches = tuple[tuple[float, float], ...]
"""Stretches of the bend, each from one depth to another (degrees)."""


class Through(NamedTuple):
    """One leg over the riding bend (degrees).

    Attributes:
        worst_deg: off-plane angle at the worst depth, positive knock-kneed; nan where
            no posture settles at any depth.
        worst_at_deg: that depth.
        out: depths at which the knee is out of its plane.
        boot_flex_deg: at the middle of the bend.
        boot_left_deg: from there to the nearer stop of the boot; negative past it.
        boot_forward: whether that is the stop in front.
        boot_out: depths at which the boot is past a stop.
        nowhere: depths at which no posture settles.
    """

    worst_deg: float
    worst_at_deg: float
    out: Stretches
    boot_flex_deg: float
    boot_left_deg: float
    boot_forward: bool
    boot_out: Stretches
    nowhere: Stretches

    @property
    def in_plane(self) -> bool:
        """Whether the knee stays in its plane at every depth that has a posture."""
        return not self.out and not isnan(self.worst_deg)


class Legs(NamedTuple):
    """Both legs over the riding bend."""

    front: Through
    rear: Through


def straight(inputs: Inputs) -> PostureInputs:
    """The geometry's view of the inputs with the hips straight."""
    asked = model(inputs)
    return asked._replace(crouch=replace(asked.crouch, hips_turned=0.0))


def terms_of(inputs: Inputs, limits: Limits) -> Terms:
    """What is asked of the answer."""
    return Terms(
        bend_from=radians(inputs.bend_from_deg),
        bend_to=radians(inputs.bend_to_deg),
        largest_lift=radians(inputs.largest_lift_deg),
        largest_cant=radians(inputs.largest_cant_deg),
        in_plane=radians(limits.in_plane_deg),
    )


def through_of(inputs: Inputs, limits: Limits, mounts: Sequence[Mounts]) -> list[Legs]:
    """Front and rear leg over the riding bend with each of some lifts and cants on (degrees)."""
    return _legs(straight(inputs), inputs, limits, mounts)


def as_it_stands(inputs: Inputs, limits: Limits) -> Legs:
    """Front and rear leg over the riding bend with what is on, the hips turned as they are.

    Hips straight it is what the answer tells of the stance before anything is put on.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """
    return _legs(model(inputs), inputs, limits, [mounts_now(inputs)])[0]


def _legs(
    asked: PostureInputs, inputs: Inputs, limits: Limits, mounts: Sequence[Mounts]
) -> list[Legs]:
    angles = np.radians(np.array(mounts, dtype=np.float64)).T
    on = Held(angles[[0, 2]], angles[[1, 3]])
    bend = over_riding_bend(asked, terms_of(inputs, limits), on, LOOKED_AT)
    # Depths as they were typed, without the dust of a conversion.
    depths, off = np.degrees(bend.bends).round(9), np.degrees(bend.off_plane)
    flex, legs = np.degrees(bend.boot_flex), (inputs.front, inputs.rear)

    def leg(foot: int, which: int) -> Through:
        return _through(depths, off[foot, which], flex[foot, which], legs[foot], limits)

    return [Legs(leg(0, which), leg(1, which)) for which in range(len(mounts))]


def _through(
    depths: NDArray[np.float64],
    off: NDArray[np.float64],
    flex: NDArray[np.float64],
    leg: LegInputs,
    limits: Limits,
) -> Through:
    away = flex - leg.forward_lean_deg
    left = leg.flex_range_deg - np.abs(away)
    middle = len(depths) // 2
    settled = ~np.isnan(off)
    worst = int(np.argmax(np.where(settled, np.abs(off), -1.0)))
    return Through(
        worst_deg=float(off[worst]),
        worst_at_deg=float(depths[worst]) if settled.any() else nan,
        out=_where(depths, np.abs(off) - limits.in_plane_deg - SHOWN_DEG),
        boot_flex_deg=float(flex[middle]),
        boot_left_deg=float(left[middle]),
        boot_forward=bool(away[middle] > 0.0),
        boot_out=_where(depths, -left - SHOWN_DEG),
        nowhere=_where(depths, np.where(settled, -1.0, 1.0)),
    )


def _where(depths: NDArray[np.float64], over: NDArray[np.float64]) -> Stretches:
    """The stretches over which something is not below zero; between two depths as if straight."""
    beyond = np.concatenate([[False], over >= 0.0, [False]])
    first, after = (np.flatnonzero(np.diff(beyond.astype(int)) == way) for way in (1, -1))
    last = len(depths)
    return tuple(
        (
            float(depths[0]) if start == 0 else _crossing(depths, over, start),
            float(depths[-1]) if end == last else _crossing(depths, over, end),
        )
        for start, end in zip(first.tolist(), after.tolist(), strict=True)
    )


def _crossing(depths: NDArray[np.float64], over: NDArray[np.float64], i: int) -> float:
    """The depth between two points at which zero is passed; the one that is known beside nan."""
    before, after = float(over[i - 1]), float(over[i])
    if isnan(before) or isnan(after):
        return float(depths[i] if isnan(before) else depths[i - 1])
    share = before / (before - after)
    return float(depths[i - 1] + share * (depths[i] - depths[i - 1]))


def rounded_left(through: Through) -> float:
    """How far the boot is from its stop at the middle, as it is shown (degrees)."""
    return round(through.boot_left_deg, 1)


def most_out(through: Through) -> float:
    """The worst off-plane angle without its sign, as it is shown (degrees)."""
    return round(abs(through.worst_deg), 1)
