"""The mounts that are proposed: the answer in half degrees, as parts and patience allow.

Rounded is away from flat, so that what is good enough stays so; a value within a
twenty-fifth of a degree of a half degree is it.  The lifts come first, one boot seen with
the other's rounded lift, then the cants with both lifts in place.  What comes of it is
put on and looked at, so that what is said of it is true of just these half degrees.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

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
"""An off-plane angle that passes its limit by less is shown as the limit itself (rad)."""
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
    """

    mounts: Mounts
    answer: Answer
    left: Values
    in_plane: float

    @property
    def cant_is_enough(self) -> NDArray[np.bool_]:
        """Whether the knee stays in its plane at every depth with the cant proposed."""
        return _in_plane(self.left, self.in_plane)

    @property
    def lift_is_enough(self) -> NDArray[np.bool_]:
        """Whether the boot keeps off its stops at the middle of the bend with this lift."""
        return _holds(self.mounts.lift, self.answer.lift_low, self.answer.lift_high)


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
    cant = cants.seen_to(cants.settled(rounded_cant(found, terms)))
    left = np.abs(cants.farthest(cant))
    return Proposal(Mounts(lift, cant), found, left, terms.in_plane)


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


def _settled(held: Values, found: Values) -> Values:
    return np.where(np.isnan(held), found, held)
