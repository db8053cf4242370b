"""Which cant a leg is to try next, and when its trials have found the comfortable one.

All trials speak together: what to try next is where they hold the comfortable
cant to lie (:mod:`geometry.fitting.shares`), in steps of the parts at hand.  So
"even" is a verdict like any other, and a single wrong one is outvoted by the next.
Half of all simulated riders are settled after 5 trials.

Below, cants are counted along full cant: positive on its side of flat, whichever
way that goes.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from geometry.fitting.margins import FINEST, shown
from geometry.fitting.shares import FEWEST, SettledShare, settled_share
from geometry.fitting.trials import SMALLEST_FULL, Tried

SETTLED = math.radians(0.6)
"""Standard error of the comfortable cant below which trials stop (rad; engineering
choice): little more than the half degree in which cants are recommended, and less than
what a rider feels."""
OFTEN = 6
"""So often one cant is tried at most (engineering choice): where the parts' steps are coarse,
or the last of them ends well short of full cant, more of the same tells next to nothing."""
TWICE = 2
"""So often a leg must have wanted to leave the range before the rider is asked to go on
(engineering choice): a single verdict may be a slip."""
NEAR = math.radians(2.0)
"""No cant further than this from all that was tried is asked for at once, if the parts' step
allows (rad; engineering choice): a leg gets used to a change, and one that is too large says
less.  It costs simulated riders 0.2 trials on average, and saves them errors after a slip."""
_OUT = {
    1: ("beyond full, asking", "beyond full, agreed"),
    -1: ("beyond flat, asking", "beyond flat, agreed"),
}
_SAME = 0.01
"""Cants nearer to each other than this part of a step are one cant."""
_DUST = 1e-9
"""What a conversion from degrees may leave of a step, as a part of it."""


@dataclass(frozen=True, slots=True)
class NextCant:
    """What to try next.

    Attributes:
        cant: the cant (rad), in steps of the parts until the trials have found
            one, then the comfortable cant itself; nan where there is nothing to
            try without asking.
        asks: whether going on means leaving the range from flat to full cant, or
            what was tried beyond it, which needs the rider's consent.
        settled: whether the trials have found the cant.
        why: key of the reason.
        comfortable: the comfortable cant by the trials so far (rad), to the half
            degree, no further out than may be tried now; nan without trials.
    """

    cant: float
    asks: bool
    settled: bool
    why: str
    comfortable: float = math.nan


class _Range(NamedTuple):
    """Cants along full cant from one to another (rad), and the steps of the parts in it."""

    low: float
    high: float
    step: float

    @property
    def lowest(self) -> float:
        """The first step in the range."""
        return math.ceil(self.low / self.step - _DUST) * self.step

    @property
    def highest(self) -> float:
        """The last step in the range."""
        return math.floor(self.high / self.step + _DUST) * self.step

    def nearest(self, cant: float) -> float:
        """The step nearest to a cant within the range, of two the one nearer to flat."""
        steps = math.copysign(math.ceil(abs(cant) / self.step - 0.5 - _DUST), cant)
        return min(max(steps * self.step, self.lowest), self.highest)

    def held(self, cant: float) -> float:
        """A cant to the half degree in which it is shown, within the range."""
        halves = self._replace(step=FINEST)
        return min(max(float(shown(cant)), halves.lowest), halves.highest)

    def with_all(self, cants: Iterable[float]) -> _Range:
        """The range, wide enough for these cants too."""
        wide = [self.low, self.high, *cants]
        return _Range(min(wide), max(wide), self.step)


class _Felt(NamedTuple):
    """A cant tried, along full cant of the stance in hand (rad), and what it lacked."""

    cant: float
    lacked: int


def next_cant(
    tried: Sequence[Tried], full: float, step: float, *, start: float = 0.0, beyond: bool = False
) -> NextCant:
    """The cant of one leg to try next in a stance.

    Without trials it is the start; then where all trials together hold the
    comfortable cant to lie, in steps of the parts at hand, until it is found.

    Args:
        tried: the leg's trials, in any stances and any order.
        full: full cant of the stance (rad).
        step: step in which the parts at hand set a cant (rad).
        start: cant from which to start (rad).
        beyond: whether the rider agreed to go one step further than from flat to
            full cant, or than what was tried beyond it.

    Raises:
        ValueError: the step is not above zero.
    """
    if not step > 0.0:
        raise ValueError(f"the step is {math.degrees(step):g} deg; it must be above 0 deg")
    if math.isnan(full):
        return NextCant(math.nan, False, False, "no full cant")
    settled = settled_share(tried)
    if abs(full) < SMALLEST_FULL:
        return _next_to_none(settled, full)
    # Full cant goes on the mount in half degrees, so the range ends where that does.
    ends = _Range(0.0, max(abs(full), float(shown(abs(full)))), step)
    if not settled.trials:
        along = math.copysign(1.0, full) * start
        return _signed(NextCant(ends.nearest(along), False, False, "begin"), full)
    felt = [_Felt(one.share * abs(full), one.lacked) for one in tried if not math.isnan(one.share)]
    return _signed(_sought(felt, settled, ends, abs(full), beyond=beyond), full)


def is_settled(settled: SettledShare, full: float) -> bool:
    """Whether trials tell a leg's cant well enough where full cant is ``full`` (rad)."""
    return settled.trials >= FEWEST and settled.error * abs(full) <= SETTLED


def _next_to_none(settled: SettledShare, full: float) -> NextCant:
    """Where full cant is next to none: the share from elsewhere, without trying any more."""
    share = min(max(settled.share, 0.0), 1.0) if settled.trials else 0.0
    cant = float(shown(share * full))
    known = cant if settled.trials else math.nan
    return NextCant(cant, False, True, "next to no cant needed", known)


def _sought(
    felt: Sequence[_Felt], settled: SettledShare, ends: _Range, full: float, *, beyond: bool
) -> NextCant:
    """What the trials ask for, along full cant."""
    found = settled.share * full
    allowed = ends.with_all(one.cant for one in felt)
    for way in (1, -1):
        if _points_out(felt, found, ends, allowed, way):
            return _outside(found, allowed, way, beyond=beyond)
    comfortable, cant = allowed.held(found), _near(felt, allowed).nearest(found)
    if is_settled(settled, full):
        return NextCant(comfortable, False, True, "found", comfortable)
    times = sum(abs(one.cant - cant) < _SAME * ends.step for one in felt)
    if times >= OFTEN:
        return NextCant(comfortable, False, True, "steps tell no more", comfortable)
    return NextCant(cant, False, False, _why(felt, again=times > 0), comfortable)


def _near(felt: Sequence[_Felt], allowed: _Range) -> _Range:
    """The part of what is allowed that lies near what was tried."""
    reach = max(math.floor(NEAR / allowed.step + _DUST), 1) * allowed.step
    low, high = min(felt).cant - reach, max(felt).cant + reach
    return _Range(max(low, allowed.low), min(high, allowed.high), allowed.step)


def _points_out(
    felt: Sequence[_Felt], found: float, ends: _Range, allowed: _Range, way: int
) -> bool:
    """Whether trials point out of what is allowed, past full cant (+1) or past flat (-1).

    They do where the comfortable cant lies more than half a step outside, and the
    leg has often enough wanted to go on from the last step inside or beyond it.
    """
    half = 0.5 * ends.step
    limit, last = (allowed.high, ends.highest) if way > 0 else (allowed.low, ends.lowest)
    wanted = sum(one.lacked == way and way * (one.cant - last) > -half for one in felt)
    return way * (found - limit) > half and wanted >= TWICE


def _outside(found: float, allowed: _Range, way: int, *, beyond: bool) -> NextCant:
    """One step out of what is allowed, if the rider agrees."""
    asking, agreed = _OUT[way]
    if not beyond:
        return NextCant(math.nan, True, False, asking, allowed.held(found))
    further = (allowed.highest if way > 0 else allowed.lowest) + way * allowed.step
    comfortable = allowed.with_all([further]).held(found)
    return NextCant(further, True, False, agreed, comfortable)


def _why(felt: Sequence[_Felt], *, again: bool) -> str:
    """Why a cant is to be tried: all trials, and what is worth knowing beside that."""
    too_little = [one.cant for one in felt if one.lacked > 0]
    too_much = [one.cant for one in felt if one.lacked < 0]
    if too_little and too_much and max(too_little) >= min(too_much):
        return "trials contradict"
    return "try again" if again else "all trials"


def _signed(along: NextCant, full: float) -> NextCant:
    """An answer along full cant as one with inward positive."""
    sign = math.copysign(1.0, full)
    cant, comfortable = sign * along.cant + 0.0, sign * along.comfortable + 0.0
    return NextCant(cant, along.asks, along.settled, along.why, comfortable)
