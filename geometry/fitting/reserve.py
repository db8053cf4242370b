"""What a posture has left: how far it can sink, rise and lean until something is at its end.

The knee bend, or the place of the weight, is moved away from where it is in small
steps, and the first limit that is passed on the way is the end: a boot at its stop, a
knee as far as knees bend, or no posture any more.  Where something is past its end
already nothing is left, but going that way may bring it back, if at the cost of the other.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from geometry.fitting.proposal import SHOWN_AS
from geometry.joints import AAOS_MOVEMENTS
from geometry.posture import Posture, PostureInputs, solve

BEND_STEP = math.radians(1.0)
"""Step in which the bend is moved (rad)."""
SHALLOWEST, DEEPEST = math.radians(1.0), math.radians(150.0)
"""Knee bends between which a posture is sought (rad)."""
LEAN_STEP, FARTHEST_LEAN = 2.0, 250.0
"""Step in which the weight is moved, and how far at most (mm)."""
MOST_KNEE_FLEXION = next(
    each.most for each in AAOS_MOVEMENTS if (each.joint, each.name) == ("knee", "flexion")
)

FRONT_BOOT_FORWARD = "front_boot_forward"
FRONT_BOOT_BACK = "front_boot_back"
REAR_BOOT_FORWARD = "rear_boot_forward"
REAR_BOOT_BACK = "rear_boot_back"
FRONT_KNEE_BENT = "front_knee_bent"
REAR_KNEE_BENT = "rear_knee_bent"
NO_POSTURE = "no_posture"
ENDS = (
    FRONT_BOOT_FORWARD,
    FRONT_BOOT_BACK,
    REAR_BOOT_FORWARD,
    REAR_BOOT_BACK,
    FRONT_KNEE_BENT,
    REAR_KNEE_BENT,
    NO_POSTURE,
)
"""Keys of what can be at its end."""


class Passed(NamedTuple):
    """Something that is past its end already.

    Attributes:
        end: which end, one of :data:`ENDS`.
        back: the way until it is no longer past it (mm); nan where it never comes back.
    """

    end: str
    back: float


class Room(NamedTuple):
    """How far something can go one way.

    Attributes:
        distance: until the end (mm), never negative; 0 where one is passed already.
        end: which end is reached, one of :data:`ENDS`; empty where none is as far as
            was looked.
        passed: what is past its end already, the farthest first.
    """

    distance: float
    end: str
    passed: tuple[Passed, ...] = ()


@dataclass(frozen=True, slots=True)
class Reserve:
    """What a posture has left.

    Attributes:
        sink: how far the hips can sink with the knees bending.
        rise: how far they can rise.
        lean_ahead: how far the weight can move ahead along the stance facing.
        lean_back: how far it can move back.
        side_give: what boot and ankle of the front and the rear leg can still give
            sideways (rad); 0 where they give all they can.
    """

    sink: Room
    rise: Room
    lean_ahead: Room
    lean_back: Room
    side_give: tuple[float, float]


def reserve_of(asked: PostureInputs, posture: Posture) -> Reserve:
    """What a rider's posture has left; nan distances where there is none.

    Args:
        asked: the rider and the stance, single values.
        posture: as it settles in them.
    """
    if not posture.exists:
        nothing = Room(math.nan, NO_POSTURE)
        return Reserve(nothing, nothing, nothing, nothing, (math.nan, math.nan))
    bend, ahead = float(asked.crouch.knee_bend), float(asked.crouch.weight_ahead)
    deeper = np.arange(bend, DEEPEST, BEND_STEP)
    taller = np.arange(bend, SHALLOWEST, -BEND_STEP)
    leans = np.arange(0.0, FARTHEST_LEAN + LEAN_STEP, LEAN_STEP)
    return Reserve(
        sink=_room(asked, "knee_bend", deeper),
        rise=_room(asked, "knee_bend", taller),
        lean_ahead=_room(asked, "weight_ahead", ahead + leans),
        lean_back=_room(asked, "weight_ahead", ahead - leans),
        side_give=_side_give_left(asked, posture),
    )


def _side_give_left(asked: PostureInputs, posture: Posture) -> tuple[float, float]:
    front, rear = (
        max(float(boot.side_give) - abs(float(leg.wanted_give)), 0.0)
        for boot, leg in zip(asked.boots.both, posture.legs, strict=True)
    )
    return front, rear


def _room(asked: PostureInputs, name: str, values: NDArray[np.float64]) -> Room:
    """How far the hips, or the weight, go along values of an input until an end is reached."""
    body, boots, stance, crouch = asked
    posture = solve(body, boots, stance, replace(crouch, **{name: values}))
    left = _left(asked, posture)
    gone = posture.height if name == "knee_bend" else values
    way = np.abs(np.asarray(gone) - np.asarray(gone)[0])
    passed = [i for i in np.argsort(left[:, 0]).tolist() if left[i, 0] < 0.0]
    if passed:
        backs = tuple(Passed(ENDS[i], _way_back(way, left[i])) for i in passed)
        return Room(0.0, backs[0].end, backs)
    places = [_first_end(way, each) for each in left]
    place = min(places)
    if math.isinf(place):
        return Room(float(np.nanmax(way)), "")
    return Room(place, ENDS[places.index(place)])


def _left(asked: PostureInputs, posture: Posture) -> NDArray[np.float64]:
    """How much each of :data:`ENDS` has left at each point (rad): below zero it is passed."""
    rows = []
    for leg, boot in zip(posture.legs, asked.boots.both, strict=True):
        off_rest = np.asarray(leg.boot_flex) - boot.forward_lean
        rows += [boot.flex_range - off_rest, boot.flex_range + off_rest]
    rows += [MOST_KNEE_FLEXION - np.asarray(leg.knee_flexion) for leg in posture.legs]
    left = np.stack([*rows, np.where(posture.exists, 1.0, -1.0)])
    # What begins within what is shown as the end itself is at it, not past it.
    left[:, 0] = np.where(left[:, 0] > -SHOWN_AS, np.maximum(left[:, 0], 0.0), left[:, 0])
    return left


def _way_back(way: NDArray[np.float64], left: NDArray[np.float64]) -> float:
    """The way until something is no longer past its end; nan where it stays there."""
    well = np.flatnonzero(left >= 0.0)
    if not well.size:
        return math.nan
    at = int(well[0])
    share = left[at - 1] / (left[at - 1] - left[at])
    return float(way[at - 1] + share * (way[at] - way[at - 1]))


def _first_end(way: NDArray[np.float64], left: NDArray[np.float64]) -> float:
    """The way until what is left is gone; infinite where it never is."""
    passed = np.flatnonzero(left < 0.0)
    if not passed.size:
        return math.inf
    at = int(passed[0])
    if math.isnan(way[at]) or math.isnan(left[at - 1]):
        return float(way[at - 1])
    share = left[at - 1] / (left[at - 1] - left[at])
    return float(way[at - 1] + share * (way[at] - way[at - 1]))
