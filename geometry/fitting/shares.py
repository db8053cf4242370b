"""Where in full cant, or in full lift, a leg is comfortable, learnt from its trials.

Each trial says that an angle was too little, right or too much.  A rider feels
this with some blur, so one trial moves the estimate and does not settle it.  For
every possible comfortable share the chance of just these verdicts is told; their
product, over the shares, is what the trials know together (Bayes' rule): its
mean is the settled share, its standard deviation the uncertainty.  Trials in
different stances, or that contradict each other, need no rule of their own.

Riders differ in how wide "even" is to them and in how often a verdict is just
wrong.  Neither is known, and a rule that took one value for all would be too sure
of the others.  So every pair of the two is gone through, and their products are
added up by how common each pair is held to be; the verdicts themselves tell
which of them the rider is like.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from geometry.elementary import Real
from geometry.fitting.trials import Tried

FEELS_EVEN = ((math.radians(0.5), 0.5), (math.radians(1.0), 0.25), (math.radians(1.5), 0.25))
"""How near to comfortable a cant still feels even (rad), and how much of all riders are
held to be so (engineering choice, no source).  Half a degree is the finest step that is
recommended, three times that the widest cant that a rider may well not notice."""
SLIPS = ((0.02, 0.6), (0.10, 0.4))
"""Chance of a verdict that says nothing, and how much of all riders are held to be so
(engineering choice, no source): the careful, and those on bad snow or tired."""
BLUR = math.radians(0.75)
"""Standard deviation of what a rider feels (rad; engineering choice, no source)."""
SETTLED = math.radians(0.6)
"""Standard error of the comfortable cant below which trials stop (rad; engineering
choice): little more than the half degree in which cants are recommended, and less than
what a rider feels."""
BEYOND = 0.15
"""How far a comfortable share may lie outside 0 to 1 before any trial (standard
deviation of the falling flanks; engineering choice, no source)."""
SURE_ENOUGH = 0.12
"""Uncertainty of a share above which it is too vague to be carried to other stances
(engineering choice, no source)."""
FEWEST = 3
"""Fewer trials than this say little (engineering choice, no source)."""
OTHER_STANCE = math.radians(1.0)
"""Full cants that differ by this much or more are those of stances that have little to do
with each other (rad; engineering choice).  A lift that was tried along moves full cant by
less, and its error there is nearly the same one."""
MOST_AT_ONCE = 1000
"""Different trials that are gone through at once, so that no log takes all memory."""
SHARES = np.linspace(-0.5975, 1.5975, 440)
"""Comfortable shares that are gone through: middles of cells from -0.6 to 1.6, so that a sum
over them is the integral to a hundredth of a degree of cant."""

_DEVIATIONS = np.linspace(-8.0, 8.0, 3201)
_CHANCES = np.array([0.5 * math.erfc(-x / math.sqrt(2.0)) for x in _DEVIATIONS.tolist()])
"""The normal distribution, to be read between its values: to 1e-6, in a fiftieth of the time."""


@dataclass(frozen=True, slots=True)
class Sense:
    """How finely a rider feels an angle.

    Attributes:
        evens: how near to comfortable still feels even (rad), and how much of all riders
            are held to be so.
        blur: standard deviation of what is felt (rad).
        settled: standard error of the comfortable angle below which trials stop (rad).
    """

    evens: tuple[tuple[float, float], ...]
    blur: float
    settled: float


OF_CANT = Sense(FEELS_EVEN, BLUR, SETTLED)
OF_LIFT = Sense(tuple((2.0 * even, part) for even, part in FEELS_EVEN), 2.0 * BLUR, 2.0 * SETTLED)
"""A lift is felt half as finely as a cant (engineering choice, no source): the boot gives
way forward and back by ten degrees and more, sideways by a few."""


@dataclass(frozen=True, slots=True)
class SettledShare:
    """The share of full cant, or of full lift, at which a leg is comfortable.

    Attributes:
        share: the estimate; nan without trials.
        error: its standard deviation; nan without trials.
        trials: how many trials speak.
        fulls: the full cants, or lifts, of their stances (rad), and how many trials each has.
    """

    share: float
    error: float
    trials: int
    fulls: tuple[tuple[float, int], ...] = ()

    @property
    def says_little(self) -> bool:
        """Whether the trials are too few, or too far apart, to rely on elsewhere."""
        return self.trials < FEWEST or not self.error <= SURE_ENOUGH


def settled_share(tried: Sequence[Tried], sense: Sense = OF_CANT) -> SettledShare:
    """What a leg's trials say together, in any stances and any order.

    Trials in stances that need next to no cant say nothing of a share, nor do such as
    need next to no lift.
    """
    known = [one for one in tried if not math.isnan(one.share)]
    if not known:
        return SettledShare(math.nan, math.nan, 0)
    alike: Counter[_Kind] = Counter()
    for one in known:
        alike[one.share, abs(one.full), one.lacked] += one.times
    weight = _after_trials(alike, sense)
    mean = float(weight @ SHARES)
    error = math.sqrt(float(weight @ (SHARES - mean) ** 2))
    return SettledShare(mean, error, alike.total(), tuple(sorted(_times_of_full(known).items())))


def angle_from_share(
    settled: SettledShare, full: Real, full_error: Real = 0.0
) -> tuple[Real, Real]:
    """The comfortable cant or lift of any stance, and its standard error (rad, rad).

    The full angle's own error counts as far as the share was found at other full
    angles.  Where it was found at this one, the trials told the angle itself: a
    full cant that is wrong by a tenth makes the share wrong by as much the other
    way round.

    Args:
        settled: the leg's settled share.
        full: full cant or lift of the stance (rad).
        full_error: its standard error (rad).
    """
    of_share = settled.error * full
    of_full = settled.share * full_error * _from_elsewhere(settled, full)
    error: Real = np.hypot(of_share, of_full)
    return settled.share * full, error


def _from_elsewhere(settled: SettledShare, full: Real) -> Real:
    """How much of the evidence comes from other full cants than this one, 0 to 1.

    A verdict is equally sharp in degrees at any full cant, so its weight on the
    share goes by the square of full cant.
    """
    if not settled.fulls:
        return 1.0
    fulls, times = (np.array(each) for each in zip(*settled.fulls, strict=True))
    away = np.abs(fulls - np.asarray(full)[..., None]) / OTHER_STANCE
    part: Real = np.minimum(away, 1.0) @ (times * fulls**2) / (times @ fulls**2)
    return part


def _times_of_full(known: Sequence[Tried]) -> Counter[float]:
    """How many trials there are at each full angle."""
    times: Counter[float] = Counter()
    for one in known:
        times[one.full] += one.times
    return times


_Kind: TypeAlias = tuple[float, float, int]
"""Trials that say the same: their share, the size of their full angle, and what they lacked."""


def _after_trials(alike: Counter[_Kind], sense: Sense) -> NDArray[Any]:
    """How likely each of the shares is after trials; the sum is 1.

    Logarithms are added up, so that no number of trials runs out of floats, and
    in one order always, so that a sum is the same to its last digit.
    """
    rows = sorted((*kind, times) for kind, times in alike.items())
    logs = np.array(
        [
            _before_trials() + math.log(of_even * of_slip)
            for _, of_even in sense.evens
            for _, of_slip in SLIPS
        ]
    )
    for start in range(0, len(rows), MOST_AT_ONCE):
        some = zip(*rows[start : start + MOST_AT_ONCE], strict=True)
        share, size, lacked, times = (np.array(values) for values in some)
        logs += _told_by((share, size, lacked, times), sense)
    weight = np.exp(logs - np.max(logs)).sum(axis=0)
    return np.asarray(weight / weight.sum())


def _told_by(rows: tuple[NDArray[Any], ...], sense: Sense) -> NDArray[Any]:
    """What some trials add to the logarithms, for every kind of rider and every share.

    Args:
        rows: of each trial its share, the size of its full angle (rad), what it lacked,
            and how often there was just such a one.
        sense: how finely the angle is felt.
    """
    share, size, lacked, times = rows
    lacking = (SHARES - share[:, None]) * size[:, None]
    chances = [_chance(lacking, lacked, even, sense.blur) for even, _ in sense.evens]
    return np.array(
        [
            times @ np.log((1.0 - slip) * chance + slip / 3.0)
            for chance in chances
            for slip, _ in SLIPS
        ]
    )


def _before_trials() -> NDArray[Any]:
    """Anything from flat to full cant is as likely, a little outside is possible (log)."""
    outside = np.maximum(np.maximum(-SHARES, SHARES - 1.0), 0.0)
    return np.asarray(-0.5 * (outside / BEYOND) ** 2)


def _chance(lacking: NDArray[Any], lacked: NDArray[Any], even: float, blur: float) -> NDArray[Any]:
    """Chance of each trial's verdict for every possible comfortable share.

    What is felt is what is lacking, with some blur: a verdict says that it lay
    above ``even``, below ``-even``, or between the two.

    Args:
        lacking: from the angle tried to the comfortable one (rad; trial, share).
        lacked: the verdicts as in :attr:`geometry.fitting.trials.Tried.lacked`.
        even: how near to comfortable still feels even (rad).
        blur: standard deviation of what is felt (rad).
    """
    edges = np.array([-np.inf, -even, even, np.inf])
    low, high = edges[lacked + 1][:, None], edges[lacked + 2][:, None]
    return np.asarray(_normal((lacking - low) / blur) - _normal((lacking - high) / blur))


def _normal(x: NDArray[Any]) -> NDArray[Any]:
    """Chance that a standard normal value lies below each ``x``."""
    return np.asarray(np.interp(x, _DEVIATIONS, _CHANCES))
