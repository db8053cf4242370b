"""What a rider felt in trial after trial, and which cant to try next.

A cant is compared with another stance's through its share of that stance's full
cant: 0 is a flat sole, 1 full cant, whichever way full cant goes.  A leg that
felt bow-legged wanted more inward cant, one that felt knock-kneed more outward.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import Enum
from typing import TYPE_CHECKING, Any, TypeVar

from geometry.arrays import np
from geometry.body import Body, LegMeasures
from geometry.boots import Boot, Boots
from geometry.crouch import Crouch
from geometry.fitting.smallest_mounts import full_cants
from geometry.stance import Mount, Stance

if TYPE_CHECKING:
    from numpy.typing import NDArray

SMALLEST_FULL = math.radians(2.0)
"""Below this full cant a share says nothing (rad; engineering choice, no source)."""
ISO_DATE = re.compile(r"\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])")


class Verdict(Enum):
    """How a leg felt with its cant."""

    BOW_LEGGED = "bow-legged"
    EVEN = "even"
    KNOCK_KNEED = "knock-kneed"


class Pressure(Enum):
    """Where the foot pressed."""

    INSIDE = "inside"
    EVEN = "even"
    OUTSIDE = "outside"


@dataclass(frozen=True, slots=True)
class Felt:
    """What one leg felt.  The pressure is kept for the rider; the verdict counts."""

    verdict: Verdict
    pressure: Pressure = Pressure.EVEN


@dataclass(frozen=True, eq=False, slots=True)
class Trial:
    """One trial of a mount.

    Attributes:
        date: as "2024-01-31".
        stance: the stance with the lifts and cants tried, single values.
        front: what the front leg felt.
        rear: what the rear leg felt.
        notes: anything else.
        other_foot_led: whether the leg that is the rear one now stood in front then.

    Raises:
        ValueError: the date is not written so.
    """

    date: str
    stance: Stance
    front: Felt
    rear: Felt
    notes: str = ""
    other_foot_led: bool = False

    def __post_init__(self) -> None:
        if not ISO_DATE.fullmatch(self.date):
            raise ValueError(f"the date is {self.date!r}; it must be written as 2024-01-31")


@dataclass(frozen=True, slots=True)
class Tried:
    """A cant tried on one leg (rad), the full cant of its stance, and the verdict."""

    cant: float
    full: float
    verdict: Verdict

    @property
    def share(self) -> float:
        """The cant as a part of full cant; nan where full cant is next to none."""
        return self.cant / self.full if abs(self.full) >= SMALLEST_FULL else math.nan

    @property
    def lacked(self) -> int:
        """+1 where the leg wanted a larger share, -1 a smaller one, 0 neither."""
        inward = {Verdict.BOW_LEGGED: 1, Verdict.EVEN: 0, Verdict.KNOCK_KNEED: -1}[self.verdict]
        return inward if self.full > 0.0 else -inward


@dataclass(frozen=True, slots=True)
class NextCant:
    """What to try next.

    Attributes:
        cant: the cant (rad); nan where there is nothing to try without asking.
        asks: whether going on means leaving the range from flat to full cant,
            which needs the rider's consent.
        settled: whether the trials have found the cant.
        why: key of the reason.
    """

    cant: float
    asks: bool
    settled: bool
    why: str


def tried_by_leg(
    trials: Sequence[Trial], body: Body, boots: Boots, crouch: Crouch
) -> tuple[list[Tried], list[Tried]]:
    """The trials of the front and of the rear leg, each beside its stance's full cant.

    A leg's trials are its own wherever it stood.  The full cants come from the body as
    it is measured now, its legs as they stood then, so that a better measurement serves
    old trials too.  Trials in which no posture settles are left out.

    Args:
        trials: in any order.
        body: as the rider stands now, single values.
        boots: likewise.
        crouch: in which full cants are asked for.
    """
    if not trials:
        return [], []
    ordered = sorted(trials, key=lambda trial: trial.date)
    other_way = np.array([trial.other_foot_led for trial in ordered])
    legs, worn = _as_they_stood(body.legs, other_way), _as_they_stood(boots.both, other_way)
    stood = replace(body, front=legs[0], rear=legs[1])
    full = full_cants(stood, Boots(*worn), _together([t.stance for t in ordered]), crouch)
    shape = (len(ordered),)
    cants = np.broadcast_to(full.front, shape), np.broadcast_to(full.rear, shape)
    tried: tuple[list[Tried], list[Tried]] = ([], [])
    for i, trial in enumerate(ordered):
        for end, (mount, felt) in enumerate(_by_end(trial)):
            leg = tried[1 - end if trial.other_foot_led else end]
            if not math.isnan(cants[end][i]):
                leg.append(Tried(float(mount.cant), float(cants[end][i]), felt.verdict))
    return tried


def _by_end(trial: Trial) -> tuple[tuple[Mount, Felt], tuple[Mount, Felt]]:
    """Mount and feeling at the front and at the rear binding."""
    return (trial.stance.front, trial.front), (trial.stance.rear, trial.rear)


_Own = TypeVar("_Own", LegMeasures, Boot)


def _as_they_stood(now: tuple[_Own, _Own], other_way: NDArray[Any]) -> tuple[_Own, _Own]:
    """Legs or boots in front and behind, as arrays that exchange them where the other led."""
    front, rear = now

    def where(here: _Own, there: _Own) -> _Own:
        fields = type(here).__slots__
        pairs = ((getattr(here, name), getattr(there, name)) for name in fields)
        return type(here)(*(np.where(other_way, other, own) for own, other in pairs))

    return where(front, rear), where(rear, front)


def bracket(tried: Sequence[Tried]) -> tuple[float, float]:
    """Shares between which the comfortable one lies, as far as the trials say.

    The largest share that was too little and the smallest that was too much; 0
    and 1 where no trial says.  The first is not below the second where the
    trials contradict each other.
    """
    known = [one for one in tried if not math.isnan(one.share)]
    low = max((one.share for one in known if one.lacked > 0), default=0.0)
    high = min((one.share for one in known if one.lacked < 0), default=1.0)
    return low, high


def next_cant(
    tried: Sequence[Tried], full: float, step: float, *, start: float = 0.0, beyond: bool = False
) -> NextCant:
    """The cant of one leg to try next in a stance.

    Without trials it is the start; then the middle of the bracket, in steps of
    the parts at hand.

    Args:
        tried: the leg's trials, in any stances.
        full: full cant of the stance (rad).
        step: step in which the parts at hand set a cant (rad).
        start: cant from which to start (rad), the least cant as a rule.
        beyond: whether the rider agreed to leave the range from flat to full cant.

    Raises:
        ValueError: the step is not above zero.
    """
    if not step > 0.0:
        raise ValueError(f"the step is {math.degrees(step):g} deg; it must be above 0 deg")
    if math.isnan(full):
        return NextCant(math.nan, False, False, "no full cant")
    if abs(full) < SMALLEST_FULL:
        return NextCant(0.0, False, True, "next to no cant needed")
    known = [one for one in tried if not math.isnan(one.share)]
    if not known:
        return NextCant(_in_steps(start, full, step), False, False, "least end")
    return _sought(known, full, step, beyond=beyond)


def _sought(known: Sequence[Tried], full: float, step: float, *, beyond: bool) -> NextCant:
    """What the trials ask for: the middle of their bracket, as a rule."""
    low, high = bracket(known)
    verdicts = {one.lacked for one in known}
    if (low >= 1.0 and -1 not in verdicts) or (high <= 0.0 and 1 not in verdicts):
        return _outside(low, high, full, step, beyond=beyond)
    even = [one.share for one in known if not one.lacked and low < one.share < high]
    if even:
        return NextCant(even[-1] * full, False, True, "this felt even")
    if low >= high:
        middle = 0.5 * (max(low, 0.0) + min(high, 1.0)) * full
        return NextCant(_in_steps(middle, full, step), False, False, "trials contradict")
    way = math.copysign(step, full)
    cant = round(0.5 * (low + high) * full / way) * way
    if low < cant / full < high:
        return NextCant(cant, False, False, "middle")
    return _no_step_between(known, full, step, beyond=beyond)


def _no_step_between(known: Sequence[Tried], full: float, step: float, *, beyond: bool) -> NextCant:
    """What is left where no step of the parts lies within the bracket."""
    low, high = bracket(known)
    verdicts = {one.lacked for one in known}
    if -1 not in verdicts:
        # Nothing felt too much yet: the steps up to full cant itself are still to be tried.
        above = _step_past(low, full, step)
        if above <= abs(full) * (1.0 + 1e-9):
            cant = math.copysign(above, full)
            return NextCant(cant, False, False, "next step")
        return _outside(low, high, full, step, beyond=beyond)
    if 1 not in verdicts:
        return NextCant(0.0, False, False, "smallest step too much")
    return NextCant(0.5 * (low + high) * full, False, True, "no step between")


def _outside(low: float, high: float, full: float, step: float, *, beyond: bool) -> NextCant:
    """One step out of the range from flat to full cant, if the rider agrees."""
    too_little = high > 0.0
    asking, agreed = "flat too much, asking", "flat too much, agreed"
    if too_little and low >= 1.0:
        asking, agreed = "full too little, asking", "full too little, agreed"
    elif too_little:
        asking, agreed = "last step too little, asking", "last step too little, agreed"
    if not beyond:
        return NextCant(math.nan, True, False, asking)
    further = _step_past(low if too_little else -high, full, step)
    cant = math.copysign(further, full if too_little else -full)
    return NextCant(cant, True, False, agreed)


def _step_past(share: float, full: float, step: float) -> float:
    """Size of the first cant, in steps from flat, past a share of full cant (rad)."""
    return (math.floor(max(share, 0.0) * abs(full) / step + 1e-9) + 1.0) * step


def _in_steps(cant: float, full: float, step: float) -> float:
    """The step of the parts nearest to a cant, between zero and full cant (rad)."""
    most = math.floor(abs(full) / step + 1e-9)
    steps = round(cant / math.copysign(step, full))
    return max(0, min(steps, most)) * math.copysign(step, full) + 0.0


def _together(stances: Sequence[Stance]) -> Stance:
    """Single stances as one stance of arrays."""

    def mounts(feet: Sequence[Mount]) -> Mount:
        fields = ([float(getattr(foot, name)) for foot in feet] for name in Mount.__slots__)
        return Mount(*(np.array(field) for field in fields))

    return Stance(
        mounts([stance.front for stance in stances]),
        mounts([stance.rear for stance in stances]),
        np.array([float(stance.length) for stance in stances]),
        np.array([float(stance.across) for stance in stances]),
    )
