"""What one posture asks of the legs, for every pair of soles in many stances, quickly.

In one stance the pelvis hangs over two soles, and either sole moves it almost as
if the other were flat.  So the place over a pair is nearly the sum of what each
of the two does alone, and two of Newton's steps from there bring it home.  Where
the last step was too long to be sure of that, the answer is left open.
"""

from __future__ import annotations

import math
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from geometry.body import Body
from geometry.boots import Boots
from geometry.elementary import Real, atan2, choose, sqrt
from geometry.fitting.worst import demand
from geometry.leg import Chain, wanted_give
from geometry.posture import Crouch, chains_of, directions, hips_at_origin, pull_of
from geometry.settling import Place, Pull, Settled, Task, legs_at, newton_step, settle
from geometry.stance import Stance
from geometry.vectors import minus

SURE = 0.1
"""Longest last step after which the place counts as found (mm): what is left is
of the order of its square over the length of a leg."""
SLACK = math.radians(0.05)
"""By how much less than found the legs may ask (rad): five times the largest error
seen among 240 random riders, with last steps three times as long."""
FLEX_SLACK = math.radians(0.5)
"""The same for the boots, whose flex is read before the last step (rad)."""

ALL, FIRST = slice(None), slice(0, 1)


class Asked(NamedTuple):
    """The least that one posture can ask, shape (stances, pairs); 0 or below where nothing is sure.

    Attributes:
        demand: of the leg from which more is asked, whatever its sign (rad).
        off_rest: flex of either boot away from rest, whatever its sign (rad).
    """

    demand: NDArray[Any]
    off_rest: NDArray[Any]


class _Approach(NamedTuple):
    """Two Newton steps from a place near where the pelvis settles.

    Attributes:
        place: after the steps.
        front_flex: boot flex of the front leg before the last step (rad).
        last_step: length of the last step (mm); what is left is of the order of
            its square over the length of a leg.  nan where a leg cannot be there.
    """

    place: Place
    front_flex: Real
    last_step: Real


class Screen(NamedTuple):
    """Many stances, each with many soles for either foot, in one crouch."""

    chains: tuple[Chain, Chain]
    pulls: tuple[Pull, Pull]
    places: tuple[Place, Place]
    boots: Boots
    crouch: Crouch

    def asked(self, rows: slice, front: NDArray[Any], rear: NDArray[Any]) -> Asked:
        """The least that the posture can ask over pairs of soles.

        Args:
            rows: which of the stances.
            front: number of the front sole of each pair.
            rear: number of the rear sole of each pair.
        """
        over_front, over_rear = (_picked(place, rows, ALL) for place in self.places)
        near = Place(
            *(
                one[:, front] + other[:, rear] - one[:, :1]
                for one, other in zip(over_front, over_rear, strict=True)
            )
        )
        pulls = _picked(self.pulls[0], rows, front), _picked(self.pulls[1], rows, rear)
        place, front_flex, last_step = _approached(_task(pulls, self.boots, self.crouch), near)
        demands = [
            self._demand(chain, pull, place) for chain, pull in zip(self.chains, pulls, strict=True)
        ]
        # No step at all is taken where Newton's method is at a loss.
        sure = (last_step > 0.0) & (last_step <= SURE)
        least_demand = np.abs(demands).max(axis=0) - SLACK
        least_off_rest = np.abs(front_flex - self.boots.forward_lean) - FLEX_SLACK
        return Asked(np.where(sure, least_demand, 0.0), np.where(sure, least_off_rest, 0.0))

    def _demand(self, chain: Chain, pull: Pull, place: Place) -> NDArray[Any]:
        span = pull.spanned(place.depth, place.height)
        off_plane = atan2(span.miss, span.thigh)
        return demand(wanted_give(chain, span.hip), off_plane, self.boots.side_give)


def screen_of(body: Body, boots: Boots, stances: Stance, crouch: Crouch) -> Screen:
    """Stances and soles made ready for pairing.

    Args:
        body: leg dimensions, single values.
        boots: boots, single values.
        stances: angles and lengths of shape (stances, 1), lifts and cants of
            shape (stances, soles), as many soles for either foot as it has.
            The first sole of each foot should be an ordinary one, best flat.
        crouch: the posture, single values.
    """
    forward, across = directions(stances, crouch)
    hips = hips_at_origin(body, crouch, across)
    chains = chains_of(body, boots, stances)
    front, rear = (pull_of(chain, hip, forward) for chain, hip in zip(chains, hips, strict=True))
    over_front = settle(_task((front, _picked(rear, ALL, FIRST)), boots, crouch))
    over_rear = settle(_task((_picked(front, ALL, FIRST), rear), boots, crouch))
    places = _place(over_front, crouch), _place(over_rear, crouch)
    return Screen(chains, (front, rear), places, boots, crouch)


def _approached(task: Task, near: Place) -> _Approach:
    """Towards where the pelvis settles from near by, without looking whether it gets there."""
    place = Place(*minus(near, newton_step(task, legs_at(task, near))))
    legs = legs_at(task, place)
    step = newton_step(task, legs)
    length = sqrt(step.depth * step.depth + step.height * step.height)
    return _Approach(
        Place(*minus(place, step)),
        legs.front_bend.boot_flex,
        choose(legs.possible, length, float("nan")),
    )


def _task(pulls: tuple[Pull, Pull], boots: Boots, crouch: Crouch) -> Task:
    return Task(*pulls, boots.forward_lean, crouch.knee_bend)


def _place(settled: Settled, crouch: Crouch) -> Place:
    return Place(settled.depth, settled.height, settled.front.knee_flexion - crouch.knee_bend)


def _picked(value: Any, rows: slice, columns: Any) -> Any:
    """Some rows and columns of every array in nested tuples.

    Single columns serve all, and so do single numbers.
    """
    if isinstance(value, np.ndarray):
        return value[rows][:, columns] if value.shape[-1] > 1 else value[rows]
    if isinstance(value, tuple):
        parts = (_picked(part, rows, columns) for part in value)
        return type(value)(*parts) if hasattr(value, "_fields") else tuple(parts)
    return value
