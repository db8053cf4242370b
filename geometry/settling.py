"""The pelvis between two legs: where it settles, by Newton's method.

The pelvis hangs at a depth, how far ahead of the origin along the facing, and
at a height.  The two knees' flexion averages the bend asked for, so one leg
bends by that plus a difference and the other by that less the difference.
Depth, height and difference are the unknowns.  The equations are that each leg,
bent so, spans just from its ankle to its hip, and that the two boots' flex
averages the forward lean.  All of them are smooth even where a leg is straight,
so Newton's method walks through that limit instead of running up against it; a
knee that ends up bent backwards belongs to a leg that cannot reach.
"""

from __future__ import annotations

import math
from typing import NamedTuple, Protocol

from geometry.arrays import np
from geometry.elementary import (
    Real,
    Truth,
    atan2,
    choose,
    chosen,
    cos,
    either,
    every,
    larger,
    magnitude,
    picked,
    placed,
    ratio,
    sin,
    sqrt,
    within,
)
from geometry.leg import Bend, Links, Span, bend, slopes, span_to
from geometry.vectors import Vector, combined, cross, dot, minus, plus, scaled

LAST_STEP = 3e-6
"""Step that squares itself away when it is taken (leg lengths; rad)."""
ACCEPTED = 1e-10
"""Largest residual of a posture that is given out (rad)."""
LONGEST_MOVE, LARGEST_TURN = 0.35, 0.7
"""Bounds of a single step: depth and height in leg lengths, bend in rad."""
MOST_STEPS = 25
"""Newton steps, halved ones included, before a stance counts as impossible."""
SINGULAR = 1e-6
"""Determinant, some 1e6 in a common stance, from which no step is taken (mm3)."""
START_BEND = 0.5
"""Least knee bend of the chain that Newton starts from (rad): a straighter one
has its hips too near straight above the ankles to tell which way to go."""


class Hanging(Protocol):
    """A leg under a pelvis: its sole fixed, as in :class:`Pull`, or following the hip."""

    @property
    def links(self) -> Links:
        """Bone lengths and the band of lean."""

    @property
    def rest(self) -> Vector:
        """Ankle to hip, in the sole's axes, for a pelvis at the origin (mm)."""

    @property
    def fore(self) -> Vector:
        """The pelvis's forward direction in the sole's axes."""

    @property
    def lift(self) -> Vector:
        """The upward direction in the sole's axes."""

    def spanned(self, depth: Real, height: Real) -> Span:
        """The leg under a pelvis at a depth and a height."""


class Pull(NamedTuple):
    """A leg's links and how its hip follows the pelvis, all in its sole's axes."""

    links: Links
    rest: Vector
    fore: Vector
    lift: Vector

    def spanned(self, depth: Real, height: Real) -> Span:
        """The leg under a pelvis at a depth and a height."""
        hip = combined((self.rest, 1.0), (self.fore, depth), (self.lift, height))
        return span_to(self.links, hip, self.fore, self.lift)


class Task(NamedTuple):
    """The two legs between which a pelvis settles, and what it settles to."""

    front: Hanging
    rear: Hanging
    lean: Real
    bend: Real


class SettledLeg(NamedTuple):
    """One leg under the settled pelvis.

    Attributes:
        span: from its ankle to its hip.
        knee_flexion: angle of the thigh behind the shank's line (rad).
        boot_flex: angle of the shank forward of the sole's normal (rad).
    """

    span: Span
    knee_flexion: Real
    boot_flex: Real


class Settled(NamedTuple):
    """Where the pelvis settles; the numbers mean nothing where it does not.

    Attributes:
        depth: of the pelvis along the facing (mm).
        height: of the pelvis (mm).
        front: the front leg.
        rear: the rear leg.
        exists: whether the pelvis settles.
        rear_at_fault: which leg cannot reach where it does not.
    """

    depth: Real
    height: Real
    front: SettledLeg
    rear: SettledLeg
    exists: Truth
    rear_at_fault: Truth


class Place(NamedTuple):
    """The three unknowns.

    Attributes:
        depth: of the pelvis along the facing (mm).
        height: of the pelvis (mm).
        more: knee flexion of the front leg over the mean of the two (rad).
    """

    depth: Real
    height: Real
    more: Real


class _State(NamedTuple):
    """Where Newton stands: the last place held and the step from it to try."""

    held: Place
    step: Place


class Legs(NamedTuple):
    """Both legs at a place, and what is off there."""

    front: Span
    rear: Span
    front_bend: Bend
    rear_bend: Bend
    flex_off: Real
    possible: Truth


def settle(task: Task) -> Settled:
    """Where the pelvis settles between two legs."""
    place = _rounds(task, _start(task), MOST_STEPS)
    legs = legs_at(task, place)
    front_flexion, rear_flexion = task.bend + place.more, task.bend - place.more
    fits = legs.possible & _is_settled(task, legs)
    front_bends, rear_bends = _is_bent(front_flexion), _is_bent(rear_flexion)
    return Settled(
        depth=place.depth,
        height=place.height,
        front=SettledLeg(legs.front, front_flexion, legs.front_bend.boot_flex),
        rear=SettledLeg(legs.rear, rear_flexion, legs.rear_bend.boot_flex),
        exists=fits & front_bends & rear_bends,
        rear_at_fault=either(fits, front_bends, legs.rear_bend.gap >= legs.front_bend.gap),
    )


def _start(task: Task) -> _State:
    """Above the ankles, about to step to where a chain of two equal legs would hang.

    Should a leg not get there, half the way is tried, and so on: Newton's rule
    for any step.
    """
    front, rear = task.front, task.rear
    shank, thigh = front.links.shank, front.links.thigh
    bent = larger(task.bend, START_BEND)
    reach_squared = shank * shank + thigh * thigh + 2.0 * shank * thigh * cos(bent)
    above = -0.5 * (dot(front.rest, front.fore) + dot(rear.rest, rear.fore))
    ahead = shank * sin(task.lean) + thigh * sin(task.lean - bent)
    # Feet that point past the facing carry the knees only partly along it.
    ahead = ahead * 0.5 * (front.fore[0] + rear.fore[0])
    depth = above + ahead
    height = _height_at(front, depth, reach_squared) + _height_at(rear, depth, reach_squared)
    nothing = 0.0 * ahead
    return _State(Place(above, 0.5 * height, nothing), Place(-ahead, nothing, nothing))


def _height_at(leg: Hanging, depth: Real, reach_squared: Real) -> Real:
    """Height of a pelvis at a depth that stretches a leg to a reach."""
    level = plus(leg.rest, scaled(leg.fore, depth))
    down = dot(level, leg.lift)
    spread_squared = dot(level, level) - down * down
    return sqrt(larger(reach_squared - spread_squared, 0.01 * reach_squared)) - down


def legs_at(task: Task, place: Place) -> Legs:
    """Both legs bent as asked under a pelvis at a place."""
    front = task.front.spanned(place.depth, place.height)
    rear = task.rear.spanned(place.depth, place.height)
    front_links, rear_links = task.front.links, task.rear.links
    front_bend = bend(front_links, front, task.bend + place.more)
    rear_bend = bend(rear_links, rear, task.bend - place.more)
    possible = front.possible & rear.possible
    flex_off = _flex_off(front_bend, rear_bend, task.lean)
    return Legs(front, rear, front_bend, rear_bend, flex_off, possible)


def _flex_off(front: Bend, rear: Bend, lean: Real) -> Real:
    """Mean boot flex less the forward lean (rad).

    One turned by the other and back by twice the lean: a single arc tangent.
    """
    both_forward = front.forward * rear.upward + front.upward * rear.forward
    both_upward = front.upward * rear.upward - front.forward * rear.forward
    back_cos, back_sin = cos(2.0 * lean), sin(2.0 * lean)
    return 0.5 * atan2(
        both_forward * back_cos - both_upward * back_sin,
        both_upward * back_cos + both_forward * back_sin,
    )


def _is_settled(task: Task, legs: Legs) -> Truth:
    """Whether all three equations hold."""
    front, rear = task.front.links, task.rear.links
    # Over shank and thigh a gap is about twice an angle of the knee.
    return (
        within(legs.front_bend.gap, ACCEPTED * front.shank * front.thigh)
        & within(legs.rear_bend.gap, ACCEPTED * rear.shank * rear.thigh)
        & within(legs.flex_off, ACCEPTED)
    )


def _is_bent(flexion: Real) -> Truth:
    """Whether a knee bends as knees do: straight, give or take rounding, or more."""
    return (flexion > -ACCEPTED) & (flexion < math.pi)


def _stepped(state: _State) -> Place:
    """The place that the state is about to try."""
    return Place(*minus(state.held, state.step))


def _rounds(task: Task, state: _State, steps: int) -> Place:
    """Up to so many Newton steps; of an array, the done elements drop out."""
    for left in range(steps, 0, -1):
        state, done = _advanced(task, state)
        if every(done):
            break
        if not isinstance(done, bool) and np.count_nonzero(done) > 0.5 * np.size(done):
            open_ones = ~done
            rest = _rounds(picked(task, open_ones), picked(state, open_ones), left - 1)
            here = _stepped(state)
            return Place(
                placed(here.depth, open_ones, rest.depth),
                placed(here.height, open_ones, rest.height),
                placed(here.more, open_ones, rest.more),
            )
    return _stepped(state)


def _advanced(task: Task, state: _State) -> tuple[_State, Truth]:
    """One step on, and whether no other is needed.

    A step to where a leg cannot be is taken back by half.
    """
    place = _stepped(state)
    legs = legs_at(task, place)
    possible = legs.possible
    ahead = _State(
        chosen(possible, place, state.held),
        chosen(possible, _bounded(task, newton_step(task, legs)), _halved(state.step)),
    )
    return ahead, _is_tiny(task, ahead.step)


def _is_tiny(task: Task, step: Place) -> Truth:
    """Whether a step is the last: next to a posture, or to the edge of the possible."""
    links = task.front.links
    tiny = LAST_STEP * (links.shank + links.thigh)
    return within(step.depth, tiny) & within(step.height, tiny) & within(step.more, LAST_STEP)


def _halved(step: Place) -> Place:
    return Place(*scaled(step, 0.5))


def _bounded(task: Task, step: Place) -> Place:
    """The step, shortened where it would lead too far for its slopes to be trusted."""
    links = task.front.links
    longest = LONGEST_MOVE * (links.shank + links.thigh)
    moves_little = within(step.depth, longest) & within(step.height, longest)
    if every(moves_little & within(step.more, LARGEST_TURN)):
        return step
    moves = larger(magnitude(step.depth), magnitude(step.height))
    excess = larger(moves / longest, magnitude(step.more) / LARGEST_TURN)
    return Place(*scaled(step, ratio(1.0, larger(excess, 1.0))))


def newton_step(task: Task, legs: Legs) -> Place:
    """Newton's step: the inverse Jacobian, by Cramer's rule, on what is off."""
    front = slopes(task.front.links, legs.front, legs.front_bend)
    rear = slopes(task.rear.links, legs.rear, legs.rear_bend)
    one, other = front.gap, (rear.gap[0], rear.gap[1], -rear.gap[2])
    flex = (
        front.flex[0] + rear.flex[0],
        front.flex[1] + rear.flex[1],
        front.flex[2] - rear.flex[2],
    )
    by_flex = cross(one, other)
    determinant = dot(flex, by_flex)
    singular = within(determinant, SINGULAR)
    # No step from where there is none: the search ends there.
    per = choose(singular, 0.0, ratio(1.0, choose(singular, 1.0, determinant)))
    gaps = minus(scaled(other, legs.front_bend.gap), scaled(one, legs.rear_bend.gap))
    # The flex is twice off, since its equation speaks of the mean.
    step = plus(cross(gaps, flex), scaled(by_flex, 2.0 * legs.flex_off))
    return Place(*scaled(step, per))
