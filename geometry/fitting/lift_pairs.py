"""The smallest pair of lifts that leaves each of two boots within its allowance of rest.

Each boot's flex follows its own lift nearly one to one, and the other's by a tenth
or so, since the pelvis settles again.  A lift is what its boot needs while the
other stands as it does: none where the boot is within its allowance without, else
the one that leaves just the allowance.  With ``x`` a lift, ``y`` how far off rest
its boot then is and ``r`` the allowance, all of this is the one equation

    y = clip(y - x, -r, r)

for each boot: ``x`` may only differ from zero where ``y`` stands at the end of the
allowance that it is led to.  Newton's steps with Broyden's slopes solve the pair.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import NamedTuple

from geometry.elementary import (
    Real,
    Truth,
    clipped,
    every,
    larger,
    magnitude,
    ratio,
    unknown,
    where,
    where_in_tuples,
    where_true,
    within,
)

STEEPEST = math.radians(60.0)
"""Steepest lift and cant looked for (rad): what a mount accepts."""
CLOSE = 1e-9
"""Largest residual of a pair that is given out (rad)."""
MOST_STEPS = 25
"""Steps before a pair counts as not to be found; five or six usually do."""
LONGEST_STEP = math.radians(30.0)
"""Bound of a single step of either lift (rad)."""
OWN_SLOPE, OTHER_SLOPE = 1.0, 0.1
"""How fast a boot's flex grows with its own lift and with the other, at first."""

Pair = tuple[Real, Real]


class _Slopes(NamedTuple):
    """How the two values grow with the two lifts, value by value."""

    front_front: Real
    front_rear: Real
    rear_front: Real
    rear_rear: Real


class _State(NamedTuple):
    """A pair of lifts, what it leaves, and the slopes from there."""

    lifts: Pair
    off: Pair
    slopes: _Slopes
    step: Pair


def lifts_within(off_rest: Callable[[Real, Real], Pair], flat: Pair, allowances: Pair) -> Pair:
    """The lifts of the front and the rear foot nearest zero that leave the allowances.

    Args:
        off_rest: how far off rest the two boots are on two lifts (rad); takes
            floats or arrays that broadcast with its own elements, never beyond
            :data:`STEEPEST`, and answers nan where no posture settles.
        flat: its value without lift; where nan there is no answer.
        allowances: what is left to each boot (rad), at least 0.

    Returns:
        The lifts (rad), positive toe up; nan where there are none.
    """
    nothing = 0.0 * (flat[0] + flat[1])
    start = where(unknown(nothing), 0.0, nothing)
    known = tuple(where(unknown(each), 0.0, each) for each in flat)
    slopes = _Slopes(OWN_SLOPE + start, OTHER_SLOPE + start, OTHER_SLOPE + start, OWN_SLOPE + start)
    lifts, off = (start, start), (known[0] + start, known[1] + start)
    state = _State(lifts, off, slopes, _step(lifts, off, slopes, allowances))
    done = _is_done(state, allowances) | unknown(nothing)
    for _ in range(MOST_STEPS):
        if every(done):
            break
        ahead = _advanced(off_rest, state, allowances)
        # Each element of an array keeps what it had found when it was done.
        state = where_in_tuples(done, state, ahead)
        done = done | _is_done(state, allowances)
    found = where_true(unknown(nothing), False, _is_done(state, allowances))
    return where(found, state.lifts[0], math.nan), where(found, state.lifts[1], math.nan)


def _advanced(off_rest: Callable[[Real, Real], Pair], state: _State, allowances: Pair) -> _State:
    """One step on; a step to where no posture settles is taken back by half."""
    lifts = tuple(
        clipped(lift + step, -STEEPEST, STEEPEST)
        for lift, step in zip(state.lifts, state.step, strict=True)
    )
    pair = lifts[0], lifts[1]
    off = off_rest(*pair)
    lost = unknown(off[0] + off[1])
    halved = state._replace(step=(0.5 * state.step[0], 0.5 * state.step[1]))
    slopes = _learnt(state, pair, off)
    ahead = _State(pair, off, slopes, _step(pair, off, slopes, allowances))
    found: _State = where_in_tuples(lost, halved, ahead)
    return found


def _is_done(state: _State, allowances: Pair) -> Truth:
    """Whether each boot is where its lift is to leave it."""
    front, rear = (
        within(off - clipped(off - lift, -allowance, allowance), CLOSE)
        for lift, off, allowance in zip(state.lifts, state.off, allowances, strict=True)
    )
    return front & rear


def _step(lifts: Pair, off: Pair, slopes: _Slopes, allowances: Pair) -> Pair:
    """Newton's step: a boot that needs no lift has it taken away, else it is led to its end."""
    ends = tuple(
        clipped(each - lift, -allowance, allowance)
        for each, lift, allowance in zip(off, lifts, allowances, strict=True)
    )
    needs = tuple(
        magnitude(each - lift) > allowance
        for each, lift, allowance in zip(off, lifts, allowances, strict=True)
    )
    # Rows of the equations: slopes where a lift is needed, else the lift itself.
    a = where(needs[0], slopes.front_front, 1.0)
    b = where(needs[0], slopes.front_rear, 0.0)
    c = where(needs[1], slopes.rear_front, 0.0)
    d = where(needs[1], slopes.rear_rear, 1.0)
    front = where(needs[0], ends[0] - off[0], -lifts[0])
    rear = where(needs[1], ends[1] - off[1], -lifts[1])
    per = ratio(1.0, a * d - b * c)
    step = (d * front - b * rear) * per, (a * rear - c * front) * per
    too_long = larger(larger(magnitude(step[0]), magnitude(step[1])) / LONGEST_STEP, 1.0)
    bounded = step[0] / too_long, step[1] / too_long
    # Slopes that lead nowhere, or out of all bounds, end the search where it stands.
    lost = unknown(bounded[0] + bounded[1])
    return where(lost, 0.0, bounded[0]), where(lost, 0.0, bounded[1])


def _learnt(state: _State, lifts: Pair, off: Pair) -> _Slopes:
    """Broyden's slopes after a step: the least change that agrees with what it did."""
    x, y = lifts[0] - state.lifts[0], lifts[1] - state.lifts[1]
    squared = x * x + y * y
    per = where(squared > 0.0, ratio(1.0, squared), 0.0)
    a, b, c, d = state.slopes
    front = (off[0] - state.off[0] - a * x - b * y) * per
    rear = (off[1] - state.off[1] - c * x - d * y) * per
    return _Slopes(a + front * x, b + front * y, c + rear * x, d + rear * y)
