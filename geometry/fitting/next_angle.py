"""Which cant or lift a leg is to try next, and when its trials have found the comfortable one.

All trials speak together: what to try next is where they hold the comfortable
angle to lie (:mod:`geometry.fitting.shares`), in steps of the parts at hand.  So
"even" is a verdict like any other, and a single wrong one is outvoted by the next.
Half of all simulated riders are settled after 5 trials.

There is one angle to put on at any time: what is to be tried next until the trials
have found the comfortable angle, and that from then on.

Below, angles are counted along full cant or full lift: positive on its side of flat,
whichever way that goes.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from geometry.fitting.margins import FINEST, shown
from geometry.fitting.shares import FEWEST, OF_CANT, Sense, SettledShare, settled_share
from geometry.fitting.trials import SMALLEST_FULL, Tried

OFTEN = 6
"""So often one angle is tried at most (engineering choice): where the parts' steps are coarse,
or the last of them ends well short of the full angle, more of the same tells next to nothing."""
TWICE = 2
"""So often a leg must have wanted to leave the range before the rider is asked to go on
(engineering choice): a single verdict may be a slip."""
NEAR = math.radians(2.0)
"""No angle further than this from all that was tried is asked for at once, if the parts' step
allows (rad; engineering choice): a leg gets used to a change, and one that is too large says
less.  It costs simulated riders 0.2 trials on average, and saves them errors after a slip."""
_OUT = {
    1: ("beyond full, asking", "beyond full, agreed"),
    -1: ("beyond flat, asking", "beyond flat, agreed"),
}
_SAME = 0.01
"""Angles nearer to each other than this part of a step are one angle."""
_DUST = 1e-9
"""What a conversion from degrees may leave of a step, as a part of it."""


@dataclass(frozen=True, slots=True)
class NextAngle:
    """What to put on next.

    Attributes:
        angle: what to put on now (rad): in steps of the parts until the trials have
            found one, then the comfortable angle itself, to the half degree.  Where
            going on has to be asked for, the last one that need not be.
        asks: whether going on means leaving the range from flat to the full angle, or
            what was tried beyond it, which needs the rider's consent.
        waits: whether that consent has not been given.
        settled: whether the trials have found the angle.
        why: key of the reason.
    """

    angle: float
    asks: bool
    waits: bool
    settled: bool
    why: str


class _Range(NamedTuple):
    """Angles along the full one from one to another (rad), and the steps of the parts in it."""

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

    def nearest(self, angle: float) -> float:
        """The step nearest to an angle within the range, of two the one nearer to flat."""
        steps = math.copysign(math.ceil(abs(angle) / self.step - 0.5 - _DUST), angle)
        return min(max(steps * self.step, self.lowest), self.highest)

    def held(self, angle: float) -> float:
        """An angle to the half degree in which it is shown, within the range."""
        halves = self._replace(step=FINEST)
        return min(max(float(shown(angle)), halves.lowest), halves.highest)

    def with_all(self, angles: Iterable[float]) -> _Range:
        """The range, wide enough for these angles too."""
        wide = [self.low, self.high, *angles]
        return _Range(min(wide), max(wide), self.step)

    def within(self, most: float) -> _Range:
        """The part of the range that is no steeper than ``most`` (rad), either way."""
        low, high = (min(max(end, -most), most) for end in (self.low, self.high))
        return _Range(low, high, self.step)


class _Felt(NamedTuple):
    """An angle tried, along the full one of the stance in hand (rad), what it lacked, how often."""

    angle: float
    lacked: int
    times: int


class _Asked(NamedTuple):
    """What is asked beside the trials.

    Attributes:
        full: size of the full angle (rad).
        ends: from flat to it, in steps of the parts.
        most: nothing steeper is allowed (rad).
        beyond: whether the rider agreed to go one step further.
        sense: how finely the angle is felt.
    """

    full: float
    ends: _Range
    most: float
    beyond: bool
    sense: Sense


def next_angle(
    tried: Sequence[Tried],
    full: float,
    step: float,
    *,
    start: float = 0.0,
    beyond: bool = False,
    most: float = math.inf,
    sense: Sense = OF_CANT,
) -> NextAngle:
    """The cant, or the lift, of one leg to put on next in a stance.

    Without trials it is the start; then where all trials together hold the
    comfortable angle to lie, in steps of the parts at hand, until it is found.

    Args:
        tried: the leg's trials, in any stances and any order.
        full: full cant or lift of the stance (rad).
        step: step in which the parts at hand set it (rad).
        start: angle from which to start (rad).
        beyond: whether the rider agreed to go one step further than from flat to
            the full angle, or than what was tried beyond it.
        most: nothing steeper may be put on, either way (rad).
        sense: how finely a rider feels it.

    Raises:
        ValueError: the step is not above zero.
    """
    if not step > 0.0:
        raise ValueError(f"the step is {math.degrees(step):g} deg; it must be above 0 deg")
    if math.isnan(full):
        return NextAngle(math.nan, False, False, False, "no full angle")
    settled = settled_share(tried, sense)
    if abs(full) < SMALLEST_FULL:
        return _next_to_none(settled, full, start, most)
    # The full angle goes on the mount in half degrees, so the range ends where that does.
    ends = _Range(0.0, max(abs(full), float(shown(abs(full)))), step)
    if not settled.trials:
        along = math.copysign(1.0, full) * start
        begin = ends.within(most).nearest(along)
        return _signed(NextAngle(begin, False, False, False, "begin"), full)
    felt = [
        _Felt(share * abs(full), one.lacked, one.times)
        for one in tried
        for share in [one.share]
        if not math.isnan(share)
    ]
    return _signed(_sought(felt, settled, _Asked(abs(full), ends, most, beyond, sense)), full)


def is_settled(settled: SettledShare, full: float, sense: Sense = OF_CANT) -> bool:
    """Whether trials tell a leg's angle well enough where the full one is ``full`` (rad)."""
    return settled.trials >= FEWEST and settled.error * abs(full) <= sense.settled


def _next_to_none(settled: SettledShare, full: float, start: float, most: float) -> NextAngle:
    """Where the full angle is next to none: the share from elsewhere, trying no more."""
    found = min(max(settled.share, 0.0), 1.0) * full if settled.trials else start
    angle = min(max(float(shown(found)), -most), most)
    return NextAngle(angle, False, False, True, "next to none needed")


def _sought(felt: Sequence[_Felt], settled: SettledShare, asked: _Asked) -> NextAngle:
    """What the trials ask for, along the full angle."""
    found = settled.share * asked.full
    allowed = asked.ends.with_all(one.angle for one in felt).within(asked.most)
    for way in (1, -1):
        room = way * (allowed.high if way > 0 else allowed.low) < asked.most
        if room and _points_out(felt, found, asked.ends, allowed, way):
            return _outside(found, allowed, way, asked)
    angle = _near(felt, allowed).nearest(found)
    times = sum(one.times for one in felt if abs(one.angle - angle) < _SAME * asked.ends.step)
    on_the_way, capped = angle != allowed.nearest(found), abs(found) > asked.most + 0.5 * FINEST
    if is_settled(settled, asked.full, asked.sense):
        why = "no more allowed" if capped else "found"
        error = settled.error * asked.full
        kept = allowed.held(_felt_even_near(felt, found, error))
        return NextAngle(kept, False, False, True, why)
    if times >= OFTEN:
        why = "no more allowed" if capped else "steps tell no more"
        return NextAngle(allowed.held(found), False, False, True, why)
    if capped and not on_the_way:
        return NextAngle(angle, False, False, False, "no more allowed")
    return NextAngle(angle, False, False, False, _why(felt, again=times > 0, on_the_way=on_the_way))


def _felt_even_near(felt: Sequence[_Felt], found: float, error: float) -> float:
    """The angle nearest to what was found that felt even, within the error; else what was found.

    What was ridden and felt even is not left for one that the trials cannot tell from it.
    """
    even = [one.angle for one in felt if one.lacked == 0]
    nearest = min(even, key=lambda angle: (abs(angle - found), abs(angle)), default=found)
    return nearest if abs(nearest - found) <= error else found


def _near(felt: Sequence[_Felt], allowed: _Range) -> _Range:
    """The part of what is allowed that lies near what was tried, if there is a step in it."""
    reach = max(math.floor(NEAR / allowed.step + _DUST), 1) * allowed.step
    ends = min(felt).angle - reach, max(felt).angle + reach
    low, high = (min(max(end, allowed.low), allowed.high) for end in ends)
    near = _Range(low, high, allowed.step)
    return near if near.lowest <= near.highest else allowed


def _points_out(
    felt: Sequence[_Felt], found: float, ends: _Range, allowed: _Range, way: int
) -> bool:
    """Whether trials point out of what is allowed, past the full angle (+1) or past flat (-1).

    They do where the comfortable angle lies more than half a step outside, and the
    leg has often enough wanted to go on from the last step inside or beyond it.
    """
    half = 0.5 * ends.step
    limit, last = (allowed.high, ends.highest) if way > 0 else (allowed.low, ends.lowest)
    wanted = sum(
        one.times for one in felt if one.lacked == way and way * (one.angle - last) > -half
    )
    return way * (found - limit) > half and wanted >= TWICE


def _outside(found: float, allowed: _Range, way: int, asked: _Asked) -> NextAngle:
    """One step out of what is allowed, if the rider agrees."""
    asking, agreed = _OUT[way]
    if not asked.beyond:
        return NextAngle(allowed.nearest(found), True, True, False, asking)
    further = (allowed.highest if way > 0 else allowed.lowest) + way * allowed.step
    held = min(max(further, -asked.most), asked.most)
    return NextAngle(held, True, False, False, agreed)


def _why(felt: Sequence[_Felt], *, again: bool, on_the_way: bool) -> str:
    """Why an angle is to be tried: all trials, and what is worth knowing beside that."""
    too_little = [one.angle for one in felt if one.lacked > 0]
    too_much = [one.angle for one in felt if one.lacked < 0]
    if too_little and too_much and max(too_little) >= min(too_much):
        return "trials contradict"
    if on_the_way:
        return "on the way"
    return "try again" if again else "all trials"


def _signed(along: NextAngle, full: float) -> NextAngle:
    """An answer along the full angle as one with inward, or toe up, positive."""
    return NextAngle(
        math.copysign(1.0, full) * along.angle + 0.0,
        along.asks,
        along.waits,
        along.settled,
        along.why,
    )
