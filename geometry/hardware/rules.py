"""By what the stances in a search are judged."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any

import numpy as np
from numpy.typing import NDArray

from geometry.body import Body
from geometry.boots import Boots
from geometry.crouch import Crouch
from geometry.fitting.sweep import RidingRange
from geometry.fitting.worst import Worst, demands_at, points_of, worst_over
from geometry.posture import PostureInputs
from geometry.stance import Stance

TELLING = 3
"""Points of the range that are put in order."""


@dataclass(frozen=True, eq=False, slots=True)
class Rules:
    """A rider, the points of a riding range, and what must not happen there.

    Attributes:
        body: leg dimensions.
        boots: boots.
        points: the points of the range, shape (points,), the rider's own crouch among them.
        needed: at which of them a posture has to settle.
        most_off_rest: how far from rest the front and the rear boot may be bent (rad).
    """

    body: Body
    boots: Boots
    points: Crouch
    needed: NDArray[Any]
    most_off_rest: tuple[float, float]

    def worst(self, stances: Stance) -> Worst:
        """The worst of each of some stances over all points."""
        return worst_over(self.body, self.boots, stances, self.points)

    def allow(self, worst: Worst) -> NDArray[Any]:
        """Which of some stances settle where they have to and bend no boot too far."""
        settles = worst.settled[:, self.needed].all(axis=1)
        return np.asarray(settles & self.bend_boots_little(*worst.off_rest))

    def bend_boots_little(self, front: NDArray[Any], rear: NDArray[Any]) -> NDArray[Any]:
        """Whether neither boot is bent too far, by how far off rest each one is (rad).

        Where none settles the flex is nan, and too far for nobody.
        """
        front_most, rear_most = self.most_off_rest
        too_far = (front > front_most + 1e-12) | (rear > rear_most + 1e-12)
        return np.asarray(~too_far)

    @property
    def first(self) -> Crouch:
        """The first of the points."""
        bends, turns = np.asarray(self.points.knee_bend), np.asarray(self.points.hips_turned)
        return replace(self.points, knee_bend=float(bends[0]), hips_turned=float(turns[0]))

    def only(self, which: slice | NDArray[Any]) -> Rules:
        """The same rules for some of the points."""
        bends, turns = np.asarray(self.points.knee_bend), np.asarray(self.points.hips_turned)
        points = replace(self.points, knee_bend=bends[which], hips_turned=turns[which])
        return replace(self, points=points, needed=self.needed[which])

    def hardest_first(self, sample: Stance) -> Rules:
        """The same rules, the points that tell most of a sample's worst first.

        The first is one at which a posture has to settle; each further one raises
        the worst of the sample, so far, by the most.
        """
        demands = np.nan_to_num(demands_at(self.body, self.boots, sample, self.points))
        so_far = np.zeros((len(demands), 1))
        order: list[int] = []
        for _ in range(min(TELLING, len(self.needed))):
            gains = np.maximum(demands - so_far, 0.0).sum(axis=0)
            gains[order] = -1.0
            order.append(int(np.argmax(gains if order else np.where(self.needed, gains, -1.0))))
            so_far = np.maximum(so_far, demands[:, order[-1:]])
        others = np.setdiff1d(np.arange(len(self.needed)), order)
        return self.only(np.append(order, others))

    def first_last(self) -> Rules:
        """The same rules, the first point moved to the end."""
        return self.only(np.roll(np.arange(len(self.needed)), -1))

    def in_stages(self, *ends: int) -> tuple[Rules, ...]:
        """The same rules for the points up to each end, and for those after the last."""
        bounds = (0, *(end for end in ends if end < len(self.needed)), len(self.needed))
        return tuple(self.only(slice(start, end)) for start, end in pairwise(bounds))


def rules_of(setup: PostureInputs, over: RidingRange) -> Rules:
    """The rules that a present stance and a riding range set.

    They are told at :func:`geometry.hardware.reachable.reachable_stances`.
    """
    body, boots, stance, crouch = setup
    swept = points_of(crouch, over)
    points = replace(
        crouch,
        knee_bend=np.append(crouch.knee_bend, swept.knee_bend),
        hips_turned=np.append(crouch.hips_turned, swept.hips_turned),
    )
    present = worst_over(body, boots, stance, points)
    needed = present.settled[0] & (np.asarray(points.knee_bend) >= crouch.knee_bend)
    needed[0] = True
    front, rear = (
        float(np.fmax(boot.flex_range, off[0]))
        for boot, off in zip(boots.both, present.off_rest, strict=True)
    )
    return Rules(body, boots, points, needed, (front, rear))
