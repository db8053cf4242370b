"""What the answer of each stance asks of the soles that parts can make there."""

from __future__ import annotations

import math
from dataclasses import fields
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from geometry.boots import TO_THE_STOP
from geometry.elementary import Real
from geometry.fitting.answer import Answer, Mounts, Terms
from geometry.fitting.proposal import proposal_of
from geometry.hardware.order import NOTHING, fine_steps, millimetres, steps_up
from geometry.hardware.parts import angle_between_soles, within_half_turn
from geometry.posture import PostureInputs
from geometry.stance import Mount, Stance

OPPOSITE = math.radians(0.25)
"""A lift or cant against what is needed counts from this on (rad): half the finest step."""
ALIKE = math.radians(0.25)
"""Feet whose answers differ by less ask alike (rad)."""

LOOSE = 1.25 * TO_THE_STOP
"""So much less lift than the answer's leaves a boot at its stop, about (rad)."""

Values = NDArray[np.float64]


class Soles(NamedTuple):
    """What is known of the soles for one foot before any posture is solved.

    Attributes:
        lift: (rad), shape (stances, soles).
        cant: the same.
        cant_off: how far the cant lies outside those that keep the knee in plane, in steps.
        moved: how far the edge of the sole moves at most from where it is now (mm).
        from_answer: tilt from the sole to begin with, in fine steps.
        out: soles that are never proposed: against the need, worse than no cant at all,
            or more than is allowed.
    """

    lift: Values
    cant: Values
    cant_off: NDArray[np.int64]
    moved: NDArray[np.int64]
    from_answer: NDArray[np.int64]
    out: NDArray[np.bool_]


class Wishes(NamedTuple):
    """The answers for n stances of one rider.

    Attributes:
        answer: what each asks for, the lifts rounded.
        begin: what each begins with, in half degrees.
        terms: of the answers.
        stances: angles and lengths, arrays of shape (n,).
        present: where the rider stands now.
        reaches: half the length of the front and the rear foot (mm).
    """

    answer: Answer
    begin: Mounts
    terms: Terms
    stances: Stance
    present: Stance
    reaches: tuple[Real, Real]

    @property
    def alike(self) -> NDArray[np.bool_]:
        """In which stances both feet ask for the same, shape (n,)."""
        found, begin = self.answer, self.begin
        bounds = (begin.lift, found.lift_low, found.lift_high, found.low, found.high)
        apart = np.max([np.abs(each[0] - each[1]) for each in bounds], axis=0)
        return np.asarray(apart < ALIKE)

    def only(self, which: int) -> Wishes:
        """The answer for one of the stances."""

        def one(values: Any) -> Any:
            return values[..., which : which + 1]

        front, rear = self.stances.front, self.stances.rear
        angles = Mount(one(front.angle)), Mount(one(rear.angle))
        stance = Stance(*angles, one(self.stances.length), self.stances.across)
        answer = Answer(*(one(getattr(self.answer, each.name)) for each in fields(self.answer)))
        begin = Mounts(one(self.begin.lift), one(self.begin.cant))
        return self._replace(answer=answer, begin=begin, stances=stance)

    def judged(self, foot: int, soles: Mount) -> Soles:
        """What is known of some soles.

        Args:
            foot: 0 for the front foot, 1 for the rear one.
            soles: lifts and cants of shape (stances, soles).
        """
        lift, cant = np.asarray(soles.lift), np.asarray(soles.cant)
        found, begin = self.answer, self.begin
        needed_lift, needed_cant, low, high, even, full = (
            each[foot][:, np.newaxis]
            for each in (begin.lift, begin.cant, found.low, found.high, found.even, found.full)
        )
        at_rest = 0.5 * (found.lift_low + found.lift_high)[foot][:, np.newaxis]
        off = _off(cant, low, high, even)
        out = _against(lift, needed_lift) | _against(cant, needed_cant)
        # A foot that needs none is not tilted for what that does to the other leg or boot, nor
        # because some part is at hand.
        out |= _unasked(lift, needed_lift, at_rest) | _unasked(cant, needed_cant, full)
        out |= off > _off(np.zeros_like(low), low, high, even) + OPPOSITE
        out |= np.abs(lift) > self.terms.largest_lift + NOTHING
        out |= np.abs(cant) > self.terms.largest_cant + NOTHING
        # Where no posture settles there is no answer, and nothing to propose.
        out |= np.isnan(off)
        tilt = angle_between_soles((lift, cant), (needed_lift, needed_cant))
        return Soles(
            lift,
            cant,
            steps_up(off),
            millimetres(self._moved(foot, lift, cant)),
            fine_steps(tilt),
            out,
        )

    def lift_off(self, foot: int, lift: Values) -> Values:
        """About how far lifts miss those that keep the boot in range at the middle (rad).

        Only about: the other boot's lift and the cants have their part in it.
        """
        found = self.answer
        low, high = found.lift_low[foot][:, np.newaxis], found.lift_high[foot][:, np.newaxis]
        short, over = low - LOOSE - lift, lift - high - LOOSE
        return np.asarray(np.maximum(np.maximum(short, over), 0.0))

    def _moved(self, foot: int, lift: Values, cant: Values) -> Values:
        """How far the edge of a sole moves at most (mm): with the binding, turned and tilted."""
        now = (self.present.front, self.present.rear)[foot]
        then = (self.stances.front, self.stances.rear)[foot]
        turn = np.abs(within_half_turn(np.asarray(then.angle) - now.angle))
        shift = 0.5 * np.abs(np.asarray(self.stances.length) - self.present.length)
        tilt = angle_between_soles((lift, cant), (now.lift, now.cant))
        return np.asarray(shift[:, np.newaxis] + self.reaches[foot] * (turn[:, np.newaxis] + tilt))


def wishes_for(
    rider: PostureInputs, stances: Stance, terms: Terms, held: Mounts | None = None
) -> Wishes:
    """The answers for stances.

    Args:
        rider: in the present stance, hips straight, single values all.
        stances: angles and lengths, arrays of shape (n,).
        terms: the riding bend, and what is allowed.
        held: lifts and cants that are known otherwise, as from trials; nan where one is
            not.  A cant that is held is the only one that will do.
    """
    made = proposal_of(rider._replace(stance=stances), terms, held)
    legs = rider.body.front, rider.body.rear
    reaches = 0.5 * legs[0].foot_length, 0.5 * legs[1].foot_length
    return Wishes(made.answer, made.mounts, terms, stances, rider.stance, reaches)


def _off(cant: Values, low: Values, high: Values, even: Values) -> Values:
    """How far cants lie outside those that keep the knee in plane (rad)."""
    nearest = np.where(low > high, even, np.clip(cant, low, np.maximum(low, high)))
    return np.asarray(np.abs(cant - nearest))


def _against(angle: Values, needed: Values) -> NDArray[np.bool_]:
    """Whether angles lean the other way than what is needed, if anything is."""
    needs = np.abs(needed) > NOTHING
    return np.asarray(needs & (angle * np.sign(needed) < -OPPOSITE))


def _unasked(angle: Values, needed: Values, whole: Values) -> NDArray[np.bool_]:
    """Whether angles lean where none is needed, but for those on the way to the whole of it."""
    towards = np.where(angle * whole > 0.0, np.abs(whole), 0.0)
    return np.asarray((np.abs(needed) <= NOTHING) & (np.abs(angle) > towards + OPPOSITE))
