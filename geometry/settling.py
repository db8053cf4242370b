"""The pelvis between two legs: where it settles, by Newton's method.

The pelvis hangs at a depth, how far ahead of the origin along the stance
facing, and at a height.  The two knees' flexion averages the bend asked for, so
one leg bends by that plus a difference and the other by that less the
difference.  Depth, height and difference are the unknowns.  The equations are
that each leg, bent so, spans just from its ankle to its hip, and that the
weight of the body stands as far ahead as it should: see
:mod:`geometry.balance`.  All of them are smooth even where a leg is straight,
so Newton's method walks through that limit instead of running up against it; a
knee that ends up bent backwards belongs to a leg that cannot reach.

Every element of an array goes its own way: it stops at its own last step, and
what it finds does not depend on its neighbours.
"""

from __future__ import annotations

import math
from typing import NamedTuple, Protocol

from geometry.arrays import np
from geometry.balance import OF_DEPTH, Load, ahead, ahead_slopes
from geometry.elementary import (
    Real,
    Truth,
    clipped,
    cos,
    every,
    larger,
    magnitude,
    masked,
    ratio,
    sin,
    smaller,
    sqrt,
    where,
    where_in_tuples,
    where_true,
    with_masked,
    within,
)
from geometry.leg import Bend, Links, Span, bend, slopes, span_to
from geometry.vectors import Vector, combined, cross, dot, minus, plus, scaled

LAST_STEP = 5e-7
"""Step that squares itself away when it is taken (twice the shortest bone; rad), even where the
equations bend 400 times as much as their slopes: ACCEPTED over its square; 15 times was seen."""
ACCEPTED = 1e-10
"""Largest residual of a posture that is given out (rad, leg lengths)."""
LONGEST_MOVE, LARGEST_TURN = 0.35, 0.7
"""Bounds of a single step: depth and height in leg lengths, bend in rad."""
MOST_STEPS = 16
"""Newton steps, halved ones included, before a stance counts as impossible; three or
four do as a rule, seven were the most among 40,000 random stances."""
FURTHER_STEPS = 2
"""Newton steps beyond the last one where that was not enough."""
FEW = 500
"""Elements that it costs more to sort out of an array, once done, than to take along."""
SINGULAR = 1e-6
"""Determinant, some 1e7 in a common stance, from which no step is taken (mm3)."""
START_BEND = 0.5
"""Least knee bend of the chain that Newton starts from (rad): a straighter one
has its hips too near straight above the ankles to tell which way to go."""
MOST_START_MORE = 0.4
"""Most by which the legs are supposed to differ at the start (rad)."""
FLEX_OF_BEND = 0.4
"""Boot flex over knee bend, roughly: where the search supposes the knees."""
MOST_OFF_PLANE = math.radians(40.0)
"""Off-plane angle beyond which a leg has no posture (rad; engineering choice, no source)."""


class Hanging(Protocol):
    """A leg under a pelvis: its sole fixed, as in :class:`Pull`, or following the hip."""

    @property
    def links(self) -> Links:
        """Bone lengths and the band of lean."""

    @property
    def load(self) -> Load:
        """What foot and ankle bring to the balance."""

    @property
    def rest(self) -> Vector:
        """Ankle to hip, in the sole's axes, for a pelvis at the origin (mm)."""

    @property
    def fore(self) -> Vector:
        """The stance facing, in which the pelvis moves forward, in the sole's axes."""

    @property
    def lift(self) -> Vector:
        """The upward direction in the sole's axes."""

    def spanned(self, depth: Real, height: Real) -> Span:
        """The leg under a pelvis at a depth and a height."""


class Pull(NamedTuple):
    """A leg's links and how its hip follows the pelvis, all in its sole's axes."""

    links: Links
    load: Load
    rest: Vector
    fore: Vector
    lift: Vector

    def spanned(self, depth: Real, height: Real) -> Span:
        """The leg under a pelvis at a depth and a height."""
        hip = combined((self.rest, 1.0), (self.fore, depth), (self.lift, height))
        return span_to(self.links, hip, (self.fore, self.lift), self.fore)


class Task(NamedTuple):
    """The two legs between which a pelvis settles, and what it settles to.

    Attributes:
        front: the leg nearer the nose.
        rear: the other leg.
        bend: mean knee flexion (rad).
        behind: weighted distance ahead of the upper body over the pelvis, less
            where the whole weight should stand (mm).
    """

    front: Hanging
    rear: Hanging
    bend: Real
    behind: Real


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
        depth: of the pelvis along the stance facing (mm).
        height: of the pelvis (mm).
        front: the front leg.
        rear: the rear leg.
        exists: whether the pelvis settles.
        rear_at_fault: which leg is the reason where it does not.
        leaves_plane: whether that leg would reach, but with its thigh too far
            out of its hinge plane.
    """

    depth: Real
    height: Real
    front: SettledLeg
    rear: SettledLeg
    exists: Truth
    rear_at_fault: Truth
    leaves_plane: Truth


class Place(NamedTuple):
    """The three unknowns.

    Attributes:
        depth: of the pelvis along the stance facing (mm).
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
    """Both legs at a place, and what is off there.

    ``ahead`` is how far ahead of where it should the weight stands (mm).
    """

    front: Span
    rear: Span
    front_bend: Bend
    rear_bend: Bend
    ahead: Real
    possible: Truth


def settle(task: Task) -> Settled:
    """Where the pelvis settles between two legs."""
    start = _start(task)
    place = _rounds(task, start, MOST_STEPS)
    legs = legs_at(task, place)
    holds = legs.possible & _is_settled(task, legs)
    if not every(holds):
        place = _taken_further(task, place, holds)
        legs = legs_at(task, place)
        holds = legs.possible & _is_settled(task, legs)
    front_flexion, rear_flexion = task.bend + place.more, task.bend - place.more
    fits = holds & _hangs_above(legs)
    front_bends, rear_bends = _is_bent(front_flexion), _is_bent(rear_flexion)
    bends = fits & front_bends & rear_bends
    front_off, rear_off = (
        magnitude(span.miss) / leg.links.thigh
        for leg, span in ((task.front, legs.front), (task.rear, legs.rear))
    )
    most_off = larger(front_off, rear_off)
    stays, too_far = most_off <= math.sin(MOST_OFF_PLANE), most_off > 1.0
    rear_at_fault = where_true(bends, rear_off > front_off, front_bends)
    if not every(fits):
        rear_at_fault = where_true(fits, rear_at_fault, _rear_is_farther(task, _stepped(start)))
    return Settled(
        depth=place.depth,
        height=place.height,
        front=SettledLeg(legs.front, front_flexion, legs.front_bend.boot_flex),
        rear=SettledLeg(legs.rear, rear_flexion, legs.rear_bend.boot_flex),
        exists=bends & stays,
        rear_at_fault=rear_at_fault,
        leaves_plane=where_true(stays | too_far, False, bends),
    )


def _rear_is_farther(task: Task, place: Place) -> Truth:
    """Whether the rear leg lacks more of its span than the front one at a place."""
    legs, front, rear = legs_at(task, place), task.front.links, task.rear.links
    return legs.rear_bend.gap * front.squares >= legs.front_bend.gap * rear.squares


def _start(task: Task) -> _State:
    """Above the ankles, about to step to where the pelvis of an ordinary crouch would hang.

    Should a leg not get there, half the way is tried, and so on: Newton's rule
    for any step.
    """
    front, rear = task.front, task.rear
    above = -0.5 * (dot(front.rest, front.fore) + dot(rear.rest, rear.fore))
    flex = FLEX_OF_BEND * task.bend
    forward, upward = sin(flex), cos(flex)
    weight = task.behind + _supposed(front, forward, upward) + _supposed(rear, forward, upward)
    depth = weight * (-1.0 / OF_DEPTH)
    bent = larger(task.bend, START_BEND)
    front_height, rear_height = _height_at(front, depth, bent), _height_at(rear, depth, bent)
    height = 0.5 * (front_height + rear_height)
    # A leg that would carry the pelvis higher has to bend more to carry it there.
    bones = front.links.shank * front.links.thigh + rear.links.shank * rear.links.thigh
    more = (front_height - rear_height) * height / (bones * sin(bent))
    more = clipped(more, -MOST_START_MORE, MOST_START_MORE)
    nothing = 0.0 * height
    return _State(Place(above, height, more), Place(above - depth, nothing, nothing))


def _supposed(leg: Hanging, forward: Real, upward: Real) -> Real:
    """Weighted distance ahead of a leg whose shank leans as most do (mm)."""
    load, facing = leg.load, leg.fore
    knee = forward * facing[0] + upward * facing[2]
    return load.still + load.upward * facing[2] + load.shank * knee


def _height_at(leg: Hanging, depth: Real, knee_bend: Real) -> Real:
    """Height of a pelvis at a depth that bends a leg by an angle."""
    links = leg.links
    reach_squared = links.squares + 2.0 * links.shank * links.thigh * cos(knee_bend)
    level = plus(leg.rest, scaled(leg.fore, depth))
    down = dot(level, leg.lift)
    spread_squared = dot(level, level) - down * down
    return sqrt(larger(reach_squared - spread_squared, 0.01 * reach_squared)) - down


def legs_at(task: Task, place: Place) -> Legs:
    """Both legs bent as asked under a pelvis at a place."""
    front, rear = task.front, task.rear
    front_span = front.spanned(place.depth, place.height)
    rear_span = rear.spanned(place.depth, place.height)
    front_bend = bend(front.links, front_span, task.bend + place.more)
    rear_bend = bend(rear.links, rear_span, task.bend - place.more)
    weight = (
        OF_DEPTH * place.depth
        + task.behind
        + ahead(front.load, front_span, front_bend)
        + ahead(rear.load, rear_span, rear_bend)
    )
    possible = front_span.possible & rear_span.possible
    return Legs(front_span, rear_span, front_bend, rear_bend, weight, possible)


def _is_settled(task: Task, legs: Legs) -> Truth:
    """Whether all three equations hold."""
    front, rear = task.front.links, task.rear.links
    # Over shank and thigh a gap is about twice an angle of the knee.
    return (
        within(legs.front_bend.gap, ACCEPTED * front.shank * front.thigh)
        & within(legs.rear_bend.gap, ACCEPTED * rear.shank * rear.thigh)
        & within(legs.ahead, ACCEPTED * (front.shank + front.thigh))
    )


def _hangs_above(legs: Legs) -> Truth:
    """Whether both hips are above their ankles, seen in the hinge planes."""
    return (legs.front.rise > 0.0) & (legs.rear.rise > 0.0)


def _is_bent(flexion: Real) -> Truth:
    """Whether a knee bends as knees do: straight, give or take rounding, or more."""
    return (flexion > -ACCEPTED) & (flexion < math.pi)


def _stepped(state: _State) -> Place:
    """The place that the state is about to try."""
    return Place(*minus(state.held, state.step))


def _rounds(task: Task, state: _State, steps: int) -> Place:
    """Up to so many Newton steps, every element until its own last one.

    Of an array the elements that are done drop out once they are many.
    """
    state, done = _advanced(task, state)
    place, ended = _stepped(state), done
    for left in range(steps - 1, 0, -1):
        if every(ended):
            break
        if not isinstance(ended, bool) and np.count_nonzero(ended) > max(0.5 * np.size(ended), FEW):
            open_ones = ~ended
            rest = _rounds(masked(task, open_ones), masked(state, open_ones), left)
            return Place(*(with_masked(a, open_ones, b) for a, b in zip(place, rest, strict=True)))
        state, done = _advanced(task, state)
        place = where_in_tuples(ended, place, _stepped(state))
        ended = ended | done
    return place


def _taken_further(task: Task, place: Place, holds: Truth) -> Place:
    """Where the equations do not hold yet, a place some steps on.

    Just where a leg's lean comes to an end of the band that its boot gives, the equations have
    a kink: there the last step does not square itself away.
    """
    if isinstance(holds, bool) or not holds.shape:
        return _further(task, place)
    open_ones = ~holds
    on = _further(masked(task, open_ones), masked(place, open_ones))
    return Place(*(with_masked(a, open_ones, b) for a, b in zip(place, on, strict=True)))


def _further(task: Task, place: Place) -> Place:
    for _ in range(FURTHER_STEPS):
        place = Place(*minus(place, _bounded(task, newton_step(task, legs_at(task, place)))))
    return place


def _advanced(task: Task, state: _State) -> tuple[_State, Truth]:
    """One step on, and whether no other is needed.

    A step to where a leg cannot be is taken back by half.
    """
    place = _stepped(state)
    legs = legs_at(task, place)
    ahead = _State(place, _bounded(task, newton_step(task, legs)))
    if not every(legs.possible):
        ahead = where_in_tuples(legs.possible, ahead, _State(state.held, _halved(state.step)))
    return ahead, _is_tiny(task, ahead.step)


def _is_tiny(task: Task, step: Place) -> Truth:
    """Whether a step is the last: next to a posture, or to the edge of the possible."""
    tiny = 2.0 * LAST_STEP * smaller(task.front.links.shorter, task.rear.links.shorter)
    return within(step.depth, tiny) & within(step.height, tiny) & within(step.more, LAST_STEP)


def _halved(step: Place) -> Place:
    return Place(*scaled(step, 0.5))


def _bounded(task: Task, step: Place) -> Place:
    """The step, shortened where it would lead too far for its slopes to be trusted."""
    front, rear = task.front.links, task.rear.links
    longest = 0.5 * LONGEST_MOVE * (front.shank + front.thigh + rear.shank + rear.thigh)
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
    moved = ahead_slopes(task.front.load, legs.front, legs.front_bend, front)
    also = ahead_slopes(task.rear.load, legs.rear, legs.rear_bend, rear)
    weight = (OF_DEPTH + moved[0] + also[0], moved[1] + also[1], moved[2] - also[2])
    by_weight = cross(one, other)
    determinant = dot(weight, by_weight)
    singular = within(determinant, SINGULAR)
    # No step from where there is none: the search ends there.
    per = where(singular, 0.0, ratio(1.0, where(singular, 1.0, determinant)))
    gaps = minus(scaled(other, legs.front_bend.gap), scaled(one, legs.rear_bend.gap))
    step = plus(cross(gaps, weight), scaled(by_weight, legs.ahead))
    return Place(*scaled(step, per))
