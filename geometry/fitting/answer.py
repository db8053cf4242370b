"""The answer: the lift and the cant with which to begin at each binding.

Asked for is the mount nearest flat that is good enough, not the one that is best.  A
lift is good enough where the boot keeps a degree to its stop at the middle of the
riding bend.  A cant is where the knee stays in its plane at every depth of the riding
bend, hips straight: between a low end, at which the worst leaning outward is just at
the limit, and a high end for the leanings inward.  Nothing passes full cant, where
the hip hangs right in the knee's plane, nor what rider and maker allow.

All of it hangs together: a lift moves the weight and so the other boot and both
knees, a cant asks a little of the other leg.  So both lifts, both ends of both cants
and both full cants are sought side by side, each by secant steps on the one residual
that follows it nearly alone.  Everything is an array over riders and stances; what one
of them gets never depends on which others are there.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from geometry.boots import TO_THE_STOP
from geometry.elementary import Real
from geometry.fitting.inputs import how_many, on_axis, some_of
from geometry.posture import PostureInputs, solve
from geometry.stance import Mount, Stance

Values = NDArray[np.float64]

DEPTHS = 6
"""Depths at which the riding bend is looked at, both its ends among them."""
STEEPEST = math.radians(40.0)
"""Nothing steeper is tried on the way (rad)."""
A_LITTLE = math.radians(0.5)
"""By this a lift is moved to see what follows (rad)."""
CLOSE = 1e-7
"""A round that moves nothing by more is the last (rad)."""
MOST_ROUNDS = 40
LOW, HIGH, EVEN, FULL, BEGIN = range(5)
"""The sets of cants that are looked at side by side; the last follows from the others."""


@dataclass(frozen=True, slots=True)
class Terms:
    """What is asked of the answer, all in rad.

    Attributes:
        bend_from: mean knee bend at the top of the riding bend.
        bend_to: mean knee bend at its deepest.
        largest_lift: that may be proposed, either way.
        largest_cant: that may be proposed, either way.
        in_plane: off-plane angle up to which a knee counts as in its plane.
    """

    bend_from: float = math.radians(30.0)
    bend_to: float = math.radians(55.0)
    largest_lift: float = math.radians(9.0)
    largest_cant: float = math.radians(9.0)
    in_plane: float = math.radians(1.0)

    @property
    def middle(self) -> float:
        """The depth at which lifts and full cant are asked."""
        return 0.5 * (self.bend_from + self.bend_to)


USUAL_TERMS = Terms()


class Mounts(NamedTuple):
    """Lifts and cants of n riders (rad): front and rear foot on the first axis, shape (2, n)."""

    lift: Values
    cant: Values


@dataclass(frozen=True, eq=False, slots=True)
class Answer:
    """What each binding needs, before rounding; nan where no posture settles.

    All arrays of shape (2, n) in rad, front and rear foot on the first axis.

    Attributes:
        lift: nearest to flat that keeps the boot off its stops at the middle of the bend.
        lift_low: least lift that does.
        lift_high: largest lift that does.
        cant: nearest to flat that keeps the knee in its plane at every depth.
        low: low end of the cants that do.
        high: high end; below the low one where no cant does.
        even: cant at which the two worst depths are equally far out.
        full: full cant at the middle of the bend, these lifts in place.
    """

    lift: Values
    lift_low: Values
    lift_high: Values
    cant: Values
    low: Values
    high: Values
    even: Values
    full: Values

    @property
    def mounts(self) -> Mounts:
        """The lifts and cants, to be put on together."""
        return Mounts(self.lift, self.cant)


class RidingBend(NamedTuple):
    """Both legs of n riders over the riding bend; front and rear on the first axis.

    Attributes:
        bends: the depths (rad), shape (depths,).
        off_plane: signed (rad), shape (2, n, depths); nan where no posture settles.
        boot_flex: (rad), the same shape.
    """

    bends: Values
    off_plane: Values
    boot_flex: Values


def answer_of(
    asked: PostureInputs,
    terms: Terms = USUAL_TERMS,
    held: Mounts | None = None,
    near: Answer | None = None,
) -> Answer:
    """The mounts nearest to flat that are good enough.

    Args:
        asked: riders and stances, single values or arrays of shape (n,); the knee bend
            and the mounts' own lifts and cants do not matter.
        terms: the riding bend, and what is allowed.
        held: lifts and cants that stay as they are; nan where one is sought.
        near: an answer that this one will be like, which makes the search shorter.

    Returns:
        Arrays of shape (2, n), n being 1 for single values.
    """
    n = how_many(asked)
    search = _Search(asked, terms, held or _nothing(n))
    guess = search.start(near)
    for _ in range(MOST_ROUNDS):
        going_on = np.flatnonzero(~guess.done)
        if not going_on.size:
            break
        # Riders who have arrived are not looked at again, once it is worth their while.
        some = search.some(going_on) if going_on.size < 0.7 * n else search
        if some is search:
            guess = search.better(guess)
        else:
            guess = _put_back(guess, going_on, some.better(_some_of(guess, going_on)))
    return search.answer(guess)


def over_riding_bend(
    asked: PostureInputs, terms: Terms, mounts: Mounts, depths: int = DEPTHS
) -> RidingBend:
    """Both legs over the riding bend with given mounts.

    Args:
        asked: riders and stances.
        terms: the riding bend.
        mounts: their lifts and cants; nan, where there are none, gives nan.
        depths: how many depths are looked at, both ends among them.
    """
    bends = np.linspace(terms.bend_from, terms.bend_to, depths)
    body, boots, stance, crouch = on_axis(asked)
    lift, cant = (np.nan_to_num(angle)[..., None] for angle in mounts)
    legs = solve(body, boots, _mounted(stance, lift, cant), replace(crouch, knee_bend=bends)).legs
    missing = 0.0 * (mounts.lift + mounts.cant).sum(axis=0)[:, None]
    return RidingBend(
        bends,
        np.stack([np.asarray(leg.off_plane) + missing for leg in legs]),
        np.stack([np.asarray(leg.boot_flex) + missing for leg in legs]),
    )


def nearest_flat(low: Values, high: Values, even: Values, full: Values, most: float) -> Values:
    """The cant nearest flat between a low and a high end, never past full cant or ``most``.

    Where the low end lies above the high one it is the cant at which both are equally
    far away.
    """
    wanted = np.where(low > high, even, np.clip(0.0, low, np.maximum(low, high)))
    within_full = np.clip(wanted, np.minimum(full, 0.0), np.maximum(full, 0.0))
    return np.asarray(np.clip(within_full, -most, most))


def _nothing(n: int) -> Mounts:
    """Mounts of n riders of which all is sought."""
    return Mounts(np.full((2, n), np.nan), np.full((2, n), np.nan))


def _mounted(stance: Stance, lift: Values, cant: Values) -> Stance:
    """A stance with the lifts and cants of its front and rear mount."""
    return replace(
        stance,
        front=Mount(stance.front.angle, lift[0], cant[0]),
        rear=Mount(stance.rear.angle, lift[1], cant[1]),
    )


class _Secants(NamedTuple):
    """Unknowns that are sought each by its own residual; arrays of one shape, riders last.

    Attributes:
        at: where they stand now.
        before: where they stood in the last round.
        off_before: their residuals then.
        slope: how fast each residual grows with its unknown.
        slopes: the least and the largest slope that is believed.
    """

    at: Values
    before: Values
    off_before: Values
    slope: Values
    slopes: tuple[float, float]

    def learnt(self, off: Values) -> _Secants:
        """The same with slopes as the last step showed them."""
        step = self.at - self.before
        seen = np.divide(off - self.off_before, step, out=self.slope.copy(), where=step != 0.0)
        believed = np.clip(seen, *self.slopes)
        slope = np.where(np.isnan(believed), self.slope, believed)
        return self._replace(before=self.at, off_before=off, slope=slope)

    def moved_to(self, at: Values) -> _Secants:
        """The same at another place, not too steep; where that is unknown it stays here."""
        return self._replace(at=np.where(np.isnan(at), self.at, np.clip(at, -STEEPEST, STEEPEST)))


class _Guess(NamedTuple):
    """Where the search stands: lifts (2, n), four sets of cants (4, 2, n), who is done (n,)."""

    lifts: _Secants
    cants: _Secants
    done: NDArray[np.bool_]


class _Search:
    """The riders, and how a guess at their answer becomes a better one."""

    def __init__(self, asked: PostureInputs, terms: Terms, held: Mounts) -> None:
        self.riders, self.asked = asked, on_axis(asked)
        self.terms, self.held, self.n = terms, held, held.lift.shape[1]
        depths = np.linspace(terms.bend_from, terms.bend_to, DEPTHS)
        # The middle stands last, where lifts and full cants are asked.
        self.crouch = replace(self.asked.crouch, knee_bend=np.append(depths, terms.middle))
        boots = self.asked.boots.both
        self.give = self._by_foot([boot.side_give for boot in boots])
        lean = self._by_foot([boot.forward_lean for boot in boots])
        reach = self._by_foot([boot.flex_range for boot in boots]) - TO_THE_STOP
        self.flex_ends = lean + np.stack([-1.0, 1.0])[:, None, None] * np.maximum(reach, 0.0)

    def _by_foot(self, values: list[Real]) -> Values:
        return np.stack([np.broadcast_to(np.ravel(value), (self.n,)) for value in values])

    def some(self, which: NDArray[np.intp]) -> _Search:
        """The search for some of the riders alone, by their places."""
        held = Mounts(self.held.lift[:, which], self.held.cant[:, which])
        return _Search(some_of(self.riders, which), self.terms, held)

    def start(self, near: Answer | None) -> _Guess:
        """Flat soles, and ends a side give away from them; or where a like answer stands."""
        flat = np.zeros((2, self.n))
        enough = self.give + 0.5 * self.terms.in_plane
        cants = np.stack([-enough, enough, flat, flat])
        if near is not None:
            known = np.stack([near.low, near.high, near.even, near.full])
            cants = np.where(np.isnan(known), cants, known)
        return _Guess(
            _secants(_held_or(self.held.lift, flat), 0.8, (0.4, 1.6)),
            _secants(_held_or(self.held.cant, cants), 1.3, (0.5, 4.0)),
            np.zeros(self.n, dtype=bool),
        )

    def better(self, guess: _Guess) -> _Guess:
        """One round of secant steps for all riders who are not done."""
        flex, off = self._looked_at(guess)
        lifts, cants = guess.lifts.learnt(flex), guess.cants.learnt(off)
        low, high = self._lift_ends(lifts)
        most = self.terms.largest_lift
        lifts = lifts.moved_to(_held_or(self.held.lift, np.clip(between(low, high), -most, most)))
        cants = cants.moved_to(_held_or(self.held.cant, cants.at - off / cants.slope))
        moved = np.fmax(
            np.abs(lifts.at - lifts.before).max(axis=0),
            np.abs(cants.at - cants.before).max(axis=(0, 1)),
        )
        # Where no posture settles there is nothing to wait for.
        done = guess.done | ~(moved > CLOSE)
        kept = _kept(guess.lifts, lifts, guess.done), _kept(guess.cants, cants, guess.done)
        return _Guess(*kept, done)

    def _looked_at(self, guess: _Guess) -> tuple[Values, Values]:
        """Flex of the boots (2, n), and how far off each set of cants is (4, 2, n)."""
        cants = np.concatenate([guess.cants.at, self._begin(guess.cants.at)[None]])
        by_foot = cants.swapaxes(0, 1)[..., None]
        mounted = _mounted(self.asked.stance, guess.lifts.at[:, None, :, None], by_foot)
        legs = solve(self.asked.body, self.asked.boots, mounted, self.crouch).legs
        wanted = np.stack([np.asarray(leg.wanted_give) for leg in legs])
        off_plane = np.stack([np.asarray(leg.off_plane) for leg in legs])
        flex = np.stack([np.asarray(leg.boot_flex)[BEGIN, :, -1] for leg in legs])
        give = self.give[:, None, :, None]
        # Boot and ankle take their part first, the knee what is left.
        demand = (off_plane - np.clip(wanted, -give, give))[..., :-1]
        # Depths without a posture do not count; where there is none at all, nan.
        outward, inward = np.fmin.reduce(demand, axis=-1), np.fmax.reduce(demand, axis=-1)
        enough = self.give + self.terms.in_plane
        off = np.stack(
            [
                outward[:, LOW] + enough,
                inward[:, HIGH] - enough,
                0.5 * (outward[:, EVEN] + inward[:, EVEN]),
                -wanted[:, FULL, :, -1],
            ]
        )
        return flex, off

    def _begin(self, cants: Values) -> Values:
        """The cants to begin with, as far as the four sets tell them now."""
        low, high, even, full = cants
        chosen = nearest_flat(low, high, even, full, self.terms.largest_cant)
        return _held_or(self.held.cant, chosen)

    def _lift_ends(self, lifts: _Secants) -> Values:
        """Least and largest lift that keep each boot off its stops, shape (2, 2, n)."""
        flex = lifts.off_before
        return np.asarray(lifts.before + (self.flex_ends - flex) / lifts.slope)

    def _with_true_slopes(self, guess: _Guess) -> _Secants:
        """The lifts with how each boot's flex follows its own, the other's left alone.

        The search learns that by and by, and never of a lift that stays flat.
        """
        cants = self._begin(guess.cants.at)
        lifts = guess.lifts.before
        slope = np.empty_like(lifts)
        for foot in range(2):
            tilted = lifts.copy()
            tilted[foot] += A_LITTLE
            mounted = _mounted(self.riders.stance, tilted, cants)
            middle = replace(self.riders.crouch, knee_bend=self.terms.middle)
            leg = solve(self.riders.body, self.riders.boots, mounted, middle).legs[foot]
            slope[foot] = (np.asarray(leg.boot_flex) - guess.lifts.off_before[foot]) / A_LITTLE
        # At the edge of the possible a little more may be too much.
        learnt = np.isnan(slope)
        return guess.lifts._replace(slope=np.where(learnt, guess.lifts.slope, slope))

    def answer(self, guess: _Guess) -> Answer:
        """What the guess has come to."""
        lift_low, lift_high = self._lift_ends(self._with_true_slopes(guess))
        # Where a residual is unknown no posture settled, and there is no such angle.
        missing = np.where(guess.done, 0.0, np.nan)
        lift = guess.lifts.at + missing + 0.0 * guess.lifts.off_before
        low, high, even, full = cants = guess.cants.at + missing + 0.0 * guess.cants.off_before
        begin = self._begin(cants) + 0.0 * cants.sum(axis=0)
        return Answer(lift, lift_low, lift_high, begin, low, high, even, full)


def _secants(at: Values, slope: float, slopes: tuple[float, float]) -> _Secants:
    missing = np.full(at.shape, np.nan)
    return _Secants(at, at, missing, np.full(at.shape, slope), slopes)


def _each(make: Callable[..., Values], *sought: _Secants) -> _Secants:
    """Unknowns made of the values of others, one kind of value after the other."""
    at, before, off_before, slope = map(make, *(each[:4] for each in sought))
    return _Secants(at, before, off_before, slope, sought[0].slopes)


def _kept(old: _Secants, new: _Secants, done: NDArray[np.bool_]) -> _Secants:
    """The new unknowns, but for riders who had arrived before."""

    def unless_done(before: Values, after: Values) -> Values:
        return np.asarray(np.where(done, before, after))

    return _each(unless_done, old, new)


def _some_of(guess: _Guess, which: NDArray[np.intp]) -> _Guess:
    """The guess for some of the riders, by their places."""

    def some(sought: _Secants) -> _Secants:
        return _each(lambda values: values[..., which], sought)

    return _Guess(some(guess.lifts), some(guess.cants), guess.done[which])


def _put_back(whole: _Guess, which: NDArray[np.intp], part: _Guess) -> _Guess:
    """The whole guess with some riders' parts of it made new."""

    def new(old: Values, some: Values) -> Values:
        both = old.copy()
        both[..., which] = some
        return both

    done = whole.done.copy()
    done[which] = part.done
    return _Guess(_each(new, whole.lifts, part.lifts), _each(new, whole.cants, part.cants), done)


def _held_or(held: Values, sought: Values) -> Values:
    """What is held, and what is sought where nothing is."""
    return np.where(np.isnan(held), sought, held)


def between(low: Values, high: Values) -> Values:
    """The number nearest zero from a low end to a high one."""
    return np.asarray(np.clip(0.0, low, np.maximum(low, high)))
