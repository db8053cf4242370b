"""The pelvis between two legs: two equations, two unknowns, Newton's method.

The unknowns are how far ahead of the origin the pelvis hangs along the facing
(depth) and how high.  The equations are that the two boots' flex averages the
forward lean and that the two knees' flexion averages the bend asked for.  Their
derivatives are exact.
"""

from __future__ import annotations

from typing import Any, NamedTuple, Protocol

import numpy as np

from geometry.elementary import (
    Real,
    Truth,
    choose,
    cos,
    either,
    every,
    larger,
    picked,
    placed,
    ratio,
    sin,
    sqrt,
    within,
)
from geometry.leg import Fold, Links, bend_gradients, fold
from geometry.vectors import Vector, dot, plus, scaled

NEARLY_SETTLED = 1e-6
"""Residual from which one last Newton step squares itself away (rad)."""
ACCEPTED = 1e-9
"""Largest residual of a posture that is given out (rad)."""
SHORTEST_STEP = 1e-7
"""Step at which Newton is stuck against the limit of a leg (mm)."""
MOST_STEPS = 60
"""Newton steps, halved ones included, before a stance counts as impossible."""
START_BEND = 0.5
"""Least knee bend of the chain that Newton starts from (rad): a straighter leg
is too near its own limit to tell which way to go."""


class Folded(Protocol):
    """A leg folded to a hip: what the two equations and their limits read of it."""

    @property
    def knee_flexion(self) -> Real:
        """Angle of the thigh behind the shank's line (rad)."""

    @property
    def boot_flex(self) -> Real:
        """Angle of the shank forward of the sole's normal (rad)."""

    @property
    def reaches(self) -> Truth:
        """Whether the leg can bring its hip there."""


class Slopes(NamedTuple):
    """How fast one leg's two angles change with the pelvis (rad/mm)."""

    bend_fore: Real
    bend_up: Real
    flex_fore: Real
    flex_up: Real


def slopes_of(links: Links, folded: Fold, fore: Vector, lift: Vector) -> Slopes:
    """Slopes of a folded leg whose hip moves by ``fore`` and ``lift`` in its sole's axes."""
    bend, flex = bend_gradients(links, folded)
    return Slopes(dot(bend, fore), dot(bend, lift), dot(flex, fore), dot(flex, lift))


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

    def fold_at(self, depth: Real, height: Real) -> Any:
        """The leg folded for a pelvis at a depth and a height: a :class:`Folded`."""

    def slopes(self, folded: Any) -> Slopes:
        """Slopes at a fold that :meth:`fold_at` gave."""


class Pull(NamedTuple):
    """A leg's links and how its hip follows the pelvis, all in its sole's axes."""

    links: Links
    rest: Vector
    fore: Vector
    lift: Vector

    def fold_at(self, depth: Real, height: Real) -> Fold:
        """The leg folded for a pelvis at a depth and a height."""
        moved = plus(scaled(self.fore, depth), scaled(self.lift, height))
        return fold(self.links, plus(self.rest, moved))

    def slopes(self, folded: Fold) -> Slopes:
        """How fast the folded leg's angles change with the pelvis."""
        return slopes_of(self.links, folded, self.fore, self.lift)


class Task(NamedTuple):
    """The two legs between which a pelvis settles, and what it settles to."""

    front: Hanging
    rear: Hanging
    lean: Real
    bend: Real

    def folds_at(self, depth: Real, height: Real) -> tuple[Any, Any]:
        """Front and rear leg folded for a pelvis at a depth and a height."""
        return self.front.fold_at(depth, height), self.rear.fold_at(depth, height)


class _State(NamedTuple):
    """Where Newton stands: the last place held and the step from it to try.

    ``lost`` until a place within reach of both legs has been found.
    """

    depth: Real
    height: Real
    depth_step: Real
    height_step: Real
    lost: Truth


def settle(task: Task) -> tuple[Real, Real, Truth]:
    """Depth and height at which the pelvis settles (mm, mm), and whether it does.

    Where no place satisfies both equations the two numbers are finite but mean
    nothing.
    """
    depth, height = _start(task)
    lower = 0.06 * (task.front.links.shank + task.front.links.thigh)
    depth, height = _rounds(
        task, _State(depth, height + lower, 0.0 * depth, lower, lost=True), MOST_STEPS
    )
    folds = task.folds_at(depth, height)
    flex_off, bend_off = _residuals(task, folds)
    inside = folds[0].reaches & folds[1].reaches
    return depth, height, inside & within(flex_off, ACCEPTED) & within(bend_off, ACCEPTED)


def _start(task: Task) -> tuple[Real, Real]:
    """Depth and height over the chain that two equal legs would make."""
    front, rear = task.front, task.rear
    shank, thigh = front.links.shank, front.links.thigh
    bend = larger(task.bend, START_BEND)
    ahead = shank * sin(task.lean) + thigh * sin(task.lean - bend)
    depth = ahead - 0.5 * (dot(front.rest, front.fore) + dot(rear.rest, rear.fore))
    reach_squared = shank * shank + thigh * thigh + 2.0 * shank * thigh * cos(bend)
    heights = (_height_within(pull, depth, reach_squared) for pull in (front, rear))
    return depth, 0.5 * sum(heights)


def _height_within(pull: Hanging, depth: Real, reach_squared: Real) -> Real:
    """Height of a pelvis at a depth that stretches a leg to a reach."""
    level = plus(pull.rest, scaled(pull.fore, depth))
    down = dot(level, pull.lift)
    spread_squared = dot(level, level) - down * down
    return sqrt(larger(reach_squared - spread_squared, 0.01 * reach_squared)) - down


def _residuals(task: Task, folds: tuple[Folded, Folded]) -> tuple[Real, Real]:
    """Mean boot flex less the forward lean, mean knee flexion less the bend."""
    front, rear = folds
    return (
        0.5 * (front.boot_flex + rear.boot_flex) - task.lean,
        0.5 * (front.knee_flexion + rear.knee_flexion) - task.bend,
    )


def _rounds(task: Task, state: _State, steps: int) -> tuple[Real, Real]:
    """Up to so many Newton steps; of an array, the done elements drop out."""
    for left in range(steps, 0, -1):
        state, done = _advanced(task, state)
        if every(done):
            break
        if isinstance(done, np.ndarray) and np.count_nonzero(done) > 0.5 * done.size:
            open_ones = ~done
            rest = _rounds(picked(task, open_ones), picked(state, open_ones), left - 1)
            depth, height = state.depth - state.depth_step, state.height - state.height_step
            return placed(depth, open_ones, rest[0]), placed(height, open_ones, rest[1])
    return state.depth - state.depth_step, state.height - state.height_step


def _advanced(task: Task, state: _State) -> tuple[_State, Truth]:
    """One step on, and whether no other is needed.

    A step that takes a leg out of reach is taken back by half.  A start that is
    out of reach is lowered until it is not.
    """
    depth, height = state.depth - state.depth_step, state.height - state.height_step
    folds = task.folds_at(depth, height)
    inside = folds[0].reaches & folds[1].reaches
    flex_off, bend_off = _residuals(task, folds)
    newton = _newton_step(task, folds, flex_off, bend_off)
    go_on = inside | state.lost
    back = choose(state.lost, 1.0, 0.5)
    ahead = _State(
        depth=choose(go_on, depth, state.depth),
        height=choose(go_on, height, state.height),
        depth_step=choose(inside, newton[0], back * state.depth_step),
        height_step=choose(inside, newton[1], back * state.height_step),
        lost=either(inside, False, state.lost),
    )
    near = within(flex_off, NEARLY_SETTLED) & within(bend_off, NEARLY_SETTLED)
    stuck = within(ahead.height_step, SHORTEST_STEP) & within(ahead.depth_step, SHORTEST_STEP)
    sunk = state.lost & (height < 0.0)
    return ahead, (inside & near) | stuck | sunk


def _newton_step(
    task: Task, folds: tuple[Folded, Folded], flex_off: Real, bend_off: Real
) -> tuple[Real, Real]:
    """Newton's step in depth and height: the inverse Jacobian on the residuals."""
    front, rear = task.front.slopes(folds[0]), task.rear.slopes(folds[1])
    bend_fore, bend_up = front.bend_fore + rear.bend_fore, front.bend_up + rear.bend_up
    flex_fore, flex_up = front.flex_fore + rear.flex_fore, front.flex_up + rear.flex_up
    # Twice, since the equations speak of means.
    per_determinant = ratio(2.0, flex_fore * bend_up - flex_up * bend_fore)
    return (
        per_determinant * (flex_off * bend_up - bend_off * flex_up),
        per_determinant * (flex_fore * bend_off - bend_fore * flex_off),
    )
