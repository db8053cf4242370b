"""The mounts that are proposed: the answer in half degrees, as parts and patience allow.

Rounded is away from flat, so that what is good enough stays so; a value within a
twenty-fifth of a degree of a half degree is it.  The lifts come first, one boot seen with
the other's rounded lift, then the cants with both lifts in place.  What comes of it is
put on and looked at, knees and boots, so that what is said of it is true of just these
half degrees.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from geometry.boots import TO_THE_STOP
from geometry.elementary import Real
from geometry.fitting.answer import (
    USUAL_TERMS,
    Answer,
    Mounts,
    Terms,
    Values,
    answer_of,
    between,
    over_riding_bend,
)
from geometry.fitting.margins import FINEST
from geometry.posture import PostureInputs

STEP = FINEST
"""Nothing is proposed finer (rad)."""
AS_GOOD_AS = math.radians(0.04)
"""An end of what is good enough this near to a half degree is it (rad)."""
PAST_FULL = math.radians(0.25)
"""How far rounding may lead past full cant (rad)."""
BEGIN_LIFT, BEGIN_CANT = math.radians(9.0), math.radians(6.0)
"""Nobody begins with more (rad; engineering choices, no source)."""
BEGIN_GROWING = math.radians(3.0)
"""Who still grows begins with no more, lift or cant (rad; engineering choice, no source)."""
SHOWN_AS = math.radians(0.05)
"""An off-plane angle, or a boot's flex, that passes its limit by less is shown as the limit
itself (rad)."""
LOOKED_AT = 11
"""Depths of the riding bend at which what is proposed is looked at."""
MOST_TURNS = 4
"""How often the lifts are looked at in turn until both suit each other."""


@dataclass(frozen=True, eq=False, slots=True)
class Proposal:
    """What is put on; front and rear foot on the first axis, arrays of shape (2, n).

    Attributes:
        mounts: in half degrees (rad); nan where there is no answer.
        answer: before the cants were rounded, these lifts in place.
        left: worst off-plane angle over the riding bend with the mounts on, whatever
            its sign (rad).
        in_plane: what of it still counts as in plane (rad).
        boot_over: by how much each boot at the middle of the bend comes nearer to its stop
            than the degree it is to keep, with the mounts on; negative where it keeps more.
    """

    mounts: Mounts
    answer: Answer
    left: Values
    in_plane: float
    boot_over: Values

    @property
    def cant_is_enough(self) -> NDArray[np.bool_]:
        """Whether the knee stays in its plane at every depth with the cant proposed."""
        return _in_plane(self.left, self.in_plane)

    @property
    def lift_is_enough(self) -> NDArray[np.bool_]:
        """Whether the boot keeps off its stops at the middle of the bend with this lift."""
        return _keeps_off(self.boot_over)


def begun_with(terms: Terms, *, growing: bool = False) -> Terms:
    """The terms with no more allowed than one begins with."""
    lift, cant = (BEGIN_GROWING, BEGIN_GROWING) if growing else (BEGIN_LIFT, BEGIN_CANT)
    return replace(
        terms,
        largest_lift=min(terms.largest_lift, lift),
        largest_cant=min(terms.largest_cant, cant),
    )


def proposal_of(
    asked: PostureInputs,
    terms: Terms = USUAL_TERMS,
    held: Mounts | None = None,
    found: Answer | None = None,
) -> Proposal:
    """The mounts to put on, both feet together, or one with the other as it stands.

    Args:
        asked: riders and stances, as in :func:`geometry.fitting.answer.answer_of`.
        terms: the riding bend, and what is allowed.
        held: lifts and cants that stay as they are; nan where one is proposed.
        found: the answer for just these, if it is known already.
    """
    found = answer_of(asked, terms, held) if found is None else found
    if held is None:
        held = Mounts(np.full_like(found.lift, np.nan), np.full_like(found.lift, np.nan))
    lift = _settled(held.lift, _rounded_lift(found, terms))
    for _ in range(MOST_TURNS):
        found = answer_of(asked, terms, held._replace(lift=lift), near=found)
        better = _settled(held.lift, _suiting(lift, found, terms))
        if np.array_equal(better, lift, equal_nan=True):
            break
        lift = better
    cants = _Cants(asked, terms, found, held.cant, lift)
    cant = cants.proposed()
    boots = _Lifts(asked, terms, held.lift, cant).looked_at(lift)
    for _ in range(MOST_TURNS):
        # A rounded cant moves the boots a little.
        better = _Lifts(asked, terms, held.lift, cant).seen_to(lift, boots)
        if np.array_equal(better, lift, equal_nan=True):
            break
        lift = better
        found = answer_of(asked, terms, held._replace(lift=lift), near=found)
        cants = _Cants(asked, terms, found, held.cant, lift)
        cant = cants.proposed()
        boots = _Lifts(asked, terms, held.lift, cant).looked_at(lift)
    left = np.abs(cants.farthest(cant))
    return Proposal(Mounts(lift, cant), found, left, terms.in_plane, boots.over)


def rounded_cant(found: Answer, terms: Terms) -> Values:
    """The cants in half degrees, shape (2, n)."""
    return _half_degrees(found.low, found.high, found.even, *_cants_allowed(found, terms))


def _cants_allowed(found: Answer, terms: Terms) -> tuple[Values, Values]:
    """Least and largest cant: from flat to a little past full cant, whichever way that is."""
    most = np.minimum(terms.largest_cant, np.abs(found.full) + PAST_FULL)
    outward = found.full < 0.0
    return np.where(outward, -most, 0.0), np.where(outward, 0.0, most)


class _Cants(NamedTuple):
    """Half degrees of cant, and what they do once they are on."""

    asked: PostureInputs
    terms: Terms
    found: Answer
    held: Values
    lift: Values

    def proposed(self) -> Values:
        """The cants in half degrees, but for those that are held."""
        return self.seen_to(self.settled(rounded_cant(self.found, self.terms)))

    def settled(self, cant: Values) -> Values:
        """The cants, but for those that are held."""
        return _settled(self.held, cant)

    def farthest(self, cant: Values) -> Values:
        """How far each knee leaves its plane at its worst depth, with its sign (rad)."""
        mounts = Mounts(self.lift, cant)
        off = over_riding_bend(self.asked, self.terms, mounts, LOOKED_AT).off_plane
        outward, inward = np.fmin.reduce(off, axis=-1), np.fmax.reduce(off, axis=-1)
        return np.asarray(np.where(-outward > inward, outward, inward))

    def seen_to(self, cant: Values) -> Values:
        """A half degree less where that does as well, one more where it is not enough."""
        less = self.settled(cant - STEP * np.sign(cant))
        cant = np.where(_in_plane(self.farthest(less), self.terms.in_plane), less, cant)
        off = self.farthest(cant)
        # What leans outward, negative, asks for more inward cant.
        more = cant - STEP * np.sign(off) * ~_in_plane(off, self.terms.in_plane)
        more = self.settled(_within(more, *_cants_allowed(self.found, self.terms)))
        return np.where(np.abs(self.farthest(more)) < np.abs(off) - 1e-9, more, cant)


class _BootsSeen(NamedTuple):
    """Both boots at the middle of the bend, shape (2, n).

    Attributes:
        off_rest: how far each is off its rest, positive forward (rad).
        over: how much nearer each comes to its stop than it is to keep (rad).
    """

    off_rest: Values
    over: Values


class _Lifts(NamedTuple):
    """Half degrees of lift, and what they do to the boots once the cants are on."""

    asked: PostureInputs
    terms: Terms
    held: Values
    cant: Values

    def seen_to(self, lift: Values, boots: _BootsSeen) -> Values:
        """A half degree less where that does as well, one more where it is not enough.

        One foot at a time, the front one first: its change alters what the rear boot asks.
        """
        # A boot too far forward asks for less toe lift.
        way = np.where(_keeps_off(boots.over), np.sign(lift), np.sign(boots.off_rest))
        most = np.full_like(lift, self.terms.largest_lift)
        other = _settled(self.held, _within(lift - STEP * way, -most, most))
        better = lift.copy()
        for foot in range(2):
            if np.array_equal(other[foot], lift[foot], equal_nan=True):
                continue
            changed = lift.copy()
            changed[foot] = other[foot]
            over, then = boots.over[foot], self.looked_at(changed).over[foot]
            helps = ~_keeps_off(over) & (then < over - 1e-9)
            takes = (_keeps_off(then) | helps) & (better[0] == lift[0])
            better[foot] = np.where(takes, other[foot], lift[foot])
        return better

    def looked_at(self, lift: Values) -> _BootsSeen:
        """The boots at the middle of the bend with these lifts on."""
        middle = replace(self.terms, bend_from=self.terms.middle, bend_to=self.terms.middle)
        flex = over_riding_bend(self.asked, middle, Mounts(lift, self.cant), 1).boot_flex[..., 0]
        front, rear = self.asked.boots.both
        off_rest = flex - _by_foot(front.forward_lean, rear.forward_lean)
        reach = _by_foot(front.flex_range, rear.flex_range) - TO_THE_STOP
        return _BootsSeen(off_rest, np.abs(off_rest) - reach)


def _by_foot(front: Real, rear: Real) -> Values:
    """A value of both boots, front and rear on the first axis, riders on the second."""
    return np.stack(np.broadcast_arrays(np.atleast_1d(front), np.atleast_1d(rear)))


def _rounded_lift(found: Answer, terms: Terms) -> Values:
    even = 0.5 * (found.lift_low + found.lift_high)
    most = np.full_like(even, terms.largest_lift)
    return _half_degrees(found.lift_low, found.lift_high, even, -most, most)


def _suiting(lift: Values, found: Answer, terms: Terms) -> Values:
    """The lifts, another where one does not keep its boot off the stops or needs less."""
    better = _rounded_lift(found, terms)
    less = np.abs(better) < np.abs(lift) - 0.5 * STEP
    enough = _holds(lift, found.lift_low, found.lift_high)
    # One at a time: the front foot's change alters what the rear boot asks.
    changes = ~enough | less
    changes[1] &= ~changes[0]
    return np.where(changes, better, lift)


def _half_degrees(low: Values, high: Values, even: Values, least: Values, most: Values) -> Values:
    """The half degree nearest flat from ``low`` to ``high``, none outside ``least`` to ``most``.

    Where none lies there, the one nearest to them.
    """
    inner, outer = (low - AS_GOOD_AS) / STEP, (high + AS_GOOD_AS) / STEP
    first, last = np.ceil(inner), np.floor(outer)
    nearest = np.where(first > last, np.rint(even / STEP), between(first, last))
    return _within(nearest * STEP, least, most)


def _within(value: Values, least: Values, most: Values) -> Values:
    """Half degrees, none outside ``least`` to ``most``."""
    floor, ceiling = np.ceil(least / STEP - 1e-9), np.floor(most / STEP + 1e-9)
    return np.asarray(np.clip(np.rint(value / STEP), floor, ceiling) * STEP + 0.0)


def _in_plane(off: Values, limit: float) -> NDArray[np.bool_]:
    return np.asarray(np.abs(off) < limit + SHOWN_AS)


def _holds(value: Values | float, low: Values, high: Values) -> NDArray[np.bool_]:
    return np.asarray((low - AS_GOOD_AS <= value) & (value <= high + AS_GOOD_AS))


def _keeps_off(over: Values) -> NDArray[np.bool_]:
    """Whether a boot is shown to keep its degree to the stop."""
    return np.asarray(over < SHOWN_AS)


def _settled(held: Values, found: Values) -> Values:
    return np.where(np.isnan(held), found, held)
