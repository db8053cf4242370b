"""The moments of a sweep or of a movement, as inputs: what plays, and what a clip is made of.

    sweep(inputs, "front_angle_deg", 30.0, 60.0, steps=30)
    motion(inputs, movement.postures, frames=106)

Both give :class:`Moment` after :class:`Moment`; :func:`swept` and :func:`moved` give the
inputs at any phase between.  Nothing here solves or draws: ``frame(replace(setup,
inputs=moment.inputs))`` does.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import NamedTuple, TypeAlias

from app.rider.inputs import Inputs, changed
from app.rider.movement import MOVED, KeyPosture

Course: TypeAlias = Callable[[float], Inputs]
"""The inputs at a phase from 0, the beginning, to 1, the end; beyond, those at the nearer."""


class Moment(NamedTuple):
    """One moment of a sweep or of a movement.

    Attributes:
        phase: how far along it is, from 0 to 1; of a movement, the share of its time.
        inputs: as they are then.
    """

    phase: float
    inputs: Inputs


def minimum_jerk(share: float) -> float:
    """How much of the way is behind one at a share of the time, from rest to rest.

    The path of least jerk between two points (Flash & Hogan 1985, J Neurosci 5:1688-1703);
    before 0 and after 1 one rests.
    """
    t = min(max(share, 0.0), 1.0)
    return t * t * t * (10.0 + t * (-15.0 + 6.0 * t))


def swept(inputs: Inputs, name: str, start: float, end: float, steps: int = 0) -> Course:
    """The course of one input from a value to another, evenly; the rest stays as it is.

    Args:
        inputs: as they are.
        name: of the input; one of a leg's without a side moves both legs.
        start: where it begins.
        end: where it ends, which may be less.
        steps: how many steps it takes, each held until the next; 0 for a smooth sweep.

    Raises:
        InputError: there is no such input, or an end is beyond its range.
    """
    ends = changed(inputs, **{name: start}), changed(inputs, **{name: end})

    def at(phase: float) -> Inputs:
        share = min(max(phase, 0.0), 1.0)
        if steps:
            # The last step is held as long as each of the others.
            share = min(int(share * (steps + 1) + 1e-9), steps) / steps
        if share in {0.0, 1.0}:
            return ends[int(share)]
        return changed(inputs, **{name: round(start + share * (end - start), 6)})

    return at


def moved(inputs: Inputs, key_postures: Sequence[KeyPosture]) -> Course:
    """The course of a movement: from posture to posture by minimum jerk, at rest in each.

    Args:
        inputs: all that the movement leaves as it is.
        key_postures: in the order of their times, two at least, no two at one time.

    Raises:
        InputError: a posture is beyond the range of an input.
        ValueError: there are too few postures, or they are out of order.
    """
    times = [each.at_s for each in key_postures]
    if len(times) < 2 or any(b <= a for a, b in pairwise(times)):
        raise ValueError(f"postures come at {times}; there must be two at least, one after another")
    values = [{name: getattr(each, name) for name in MOVED} for each in key_postures]
    whole = [changed(inputs, **each) for each in values]

    def at(phase: float) -> Inputs:
        time = times[0] + min(max(phase, 0.0), 1.0) * (times[-1] - times[0])
        after = min(bisect_right(times, time), len(times) - 1)
        before = after - 1
        share = minimum_jerk((time - times[before]) / (times[after] - times[before]))
        if share in {0.0, 1.0}:
            return whole[before + int(share)]
        one, other = values[before], values[after]
        return changed(inputs, **{n: one[n] + share * (other[n] - one[n]) for n in MOVED})

    return at


def moments(course: Course, count: int) -> list[Moment]:
    """So many moments of a course, two at least, evenly from its beginning to its end.

    Raises:
        ValueError: fewer than two are asked for.
    """
    if count < 2:
        raise ValueError(f"{count} moments are asked for; there must be two at least")
    phases = [i / (count - 1) for i in range(count)]
    return [Moment(phase, course(phase)) for phase in phases]


def sweep(inputs: Inputs, name: str, start: float, end: float, steps: int) -> list[Moment]:
    """One input from a value to another in so many even steps: one moment more than steps.

    Raises:
        InputError: there is no such input, or an end is beyond its range.
        ValueError: there is no step.
    """
    return moments(swept(inputs, name, start, end), steps + 1)


def motion(inputs: Inputs, key_postures: Sequence[KeyPosture], frames: int) -> list[Moment]:
    """A movement through key postures, as so many frames at even times.

    Raises:
        InputError: a posture is beyond the range of an input.
        ValueError: there are too few postures or frames, or postures are out of order.
    """
    return moments(moved(inputs, key_postures), frames)
