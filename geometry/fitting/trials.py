"""What a rider felt in trial after trial.

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
"""Below this full cant a share says nothing (rad; engineering choice, no source): all of it
is then hardly more than what a rider feels."""
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
