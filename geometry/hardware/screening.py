"""What one posture does to the legs, for every pair of soles in many stances, quickly.

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
from geometry.crouch import Crouch
from geometry.elementary import Real, atan2, sqrt, where
from geometry.pelvis import chains_of, pelvis_of, pulls_of, task_of
from geometry.settling import Place, Pull, Settled, Task, legs_at, newton_step, settle
from geometry.stance import Stance
from geometry.vectors import minus

SURE = 0.1
"""Longest last step after which the place counts as found (mm): what is left is
of the order of its square over the length of a leg."""
SLACK = math.radians(0.05)
"""By how much less than found the knees may be off plane (rad): far more than the largest
error seen among 240 random riders, a millionth of a degree."""
FLEX_SLACK = math.radians(0.1)
"""The same for the boots, whose flex is read before the last step (rad): there the
largest error seen was 0.01 degrees."""

ALL, FIRST = slice(None), slice(0, 1)


class Asked(NamedTuple):
    """The least of one posture, shape (2, stances, pairs); 0 or below where nothing is sure.

    Attributes:
        off_plane: of the front and the rear leg, whatever the sign (rad).
        off_rest: flex of the front and of the rear boot away from rest, whatever
            its sign (rad).
    """

    off_plane: NDArray[Any]
    off_rest: NDArray[Any]


class _Approach(NamedTuple):
    """Two Newton steps from a place near where the pelvis settles.

    Attributes:
        place: after the steps.
        boot_flex: of the front and the rear leg, before the last step (rad).
        last_step: length of the last step (mm); what is left is of the order of
            its square over the length of a leg.  nan where a leg cannot be there.
    """

    place: Place
    boot_flex: tuple[Real, Real]
    last_step: Real


class Screen(NamedTuple):
    """Many stances, each with many soles for either foot, in one crouch."""

    pulls: tuple[Pull, Pull]
    places: tuple[Place, Place]
    boots: Boots
    crouch: Crouch
    behind: Any

    def asked(self, rows: slice, front: NDArray[Any], rear: NDArray[Any]) -> Asked:
        """The least that there can be over pairs of soles.

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
        behind = _picked(self.behind, rows, ALL)
        task = Task(*pulls, bend=self.crouch.knee_bend, behind=behind)
        place, flexes, last_step = _approached(task, near)
        off_plane = np.abs(np.array([_off_plane(pull, place) for pull in pulls]))
        # No step at all is taken where Newton's method is at a loss.
        sure = (last_step > 0.0) & (last_step <= SURE)
        off_rest = np.abs(
            np.array(
                [
                    flex - boot.forward_lean
                    for flex, boot in zip(flexes, self.boots.both, strict=True)
                ]
            )
        )
        return Asked(
            np.where(sure, off_plane - SLACK, 0.0), np.where(sure, off_rest - FLEX_SLACK, 0.0)
        )


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
    pelvis = pelvis_of(body, stances, crouch)
    chains = chains_of(body, boots, stances)
    pulls = front, rear = pulls_of(body, boots, stances, chains, pelvis)
    over_front = settle(task_of(body, crouch, pelvis, (front, _picked(rear, ALL, FIRST))))
    over_rear = settle(task_of(body, crouch, pelvis, (_picked(front, ALL, FIRST), rear)))
    behind = task_of(body, crouch, pelvis, pulls).behind
    places = _place(over_front, crouch), _place(over_rear, crouch)
    return Screen(pulls, places, boots, crouch, behind)


def _approached(task: Task, near: Place) -> _Approach:
    """Towards where the pelvis settles from near by, without looking whether it gets there."""
    place = Place(*minus(near, newton_step(task, legs_at(task, near))))
    legs = legs_at(task, place)
    step = newton_step(task, legs)
    length = sqrt(step.depth * step.depth + step.height * step.height)
    return _Approach(
        Place(*minus(place, step)),
        (legs.front_bend.boot_flex, legs.rear_bend.boot_flex),
        where(legs.possible, length, float("nan")),
    )


def _off_plane(pull: Pull, place: Place) -> NDArray[Any]:
    span = pull.spanned(place.depth, place.height)
    return np.asarray(atan2(span.miss, span.thigh))


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
