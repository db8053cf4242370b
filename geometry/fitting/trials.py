"""What a rider felt in trial after trial.

A cant is compared with another stance's through its share of that stance's full
cant: 0 is a flat sole, 1 full cant, whichever way full cant goes.  A leg that
felt bow-legged wanted more inward cant, one that felt knock-kneed more outward.

Lifts are compared in the same way, through their share of full lift, at which the boot
is at rest.  A boot that pressed at the calf is held further forward than the leg wants
to stand, and asks for more toe lift; one that pressed at the shin for more heel lift.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import Enum
from typing import TYPE_CHECKING, Any, NamedTuple, TypeVar

from geometry.arrays import np
from geometry.body import Body, LegMeasures
from geometry.boots import Boot, Boots
from geometry.crouch import Crouch
from geometry.elementary import Real
from geometry.fitting.smallest_mounts import full_cants, full_lifts
from geometry.stance import Mount, Stance

if TYPE_CHECKING:
    from numpy.typing import NDArray

SMALLEST_FULL = math.radians(2.0)
"""Below this full cant or full lift a share says nothing (rad; engineering choice, no
source): all of it is then hardly more than what a rider feels."""
ISO_DATE = re.compile(r"\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])")


class Verdict(Enum):
    """How a leg felt with its cant."""

    BOW_LEGGED = "bow-legged"
    EVEN = "even"
    KNOCK_KNEED = "knock-kneed"

    @property
    def wants(self) -> int:
        """+1 for more inward cant, -1 for more outward, 0 for neither."""
        return _WANTS[self]


class Hold(Enum):
    """Where the boot pressed on the leg with its lift."""

    CALF = "calf"
    EVEN = "even"
    SHIN = "shin"

    @property
    def wants(self) -> int:
        """+1 for more toe lift, -1 for more heel lift, 0 for neither."""
        return _WANTS[self]


_WANTS: dict[Verdict | Hold, int] = {
    Verdict.BOW_LEGGED: 1,
    Verdict.EVEN: 0,
    Verdict.KNOCK_KNEED: -1,
    Hold.CALF: 1,
    Hold.EVEN: 0,
    Hold.SHIN: -1,
}


class Pressure(Enum):
    """Where the foot pressed."""

    INSIDE = "inside"
    EVEN = "even"
    OUTSIDE = "outside"


@dataclass(frozen=True, slots=True)
class Felt:
    """What one leg felt.

    Attributes:
        verdict: speaks of the cant.
        pressure: kept for the rider; nothing is made of it.
        hold: speaks of the lift; None where that was not said.
    """

    verdict: Verdict
    pressure: Pressure = Pressure.EVEN
    hold: Hold | None = None


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
        times: how many trials were just like this one.

    Raises:
        ValueError: the date is not written so.
    """

    date: str
    stance: Stance
    front: Felt
    rear: Felt
    notes: str = ""
    other_foot_led: bool = False
    times: int = 1

    def __post_init__(self) -> None:
        if not ISO_DATE.fullmatch(self.date):
            raise ValueError(f"the date is {self.date!r}; it must be written as 2024-01-31")


@dataclass(frozen=True, slots=True)
class Tried:
    """A cant or a lift tried on one leg (rad), the full one of its stance, and what was felt.

    ``times`` is how often that was so.
    """

    angle: float
    full: float
    felt: Verdict | Hold
    times: int = 1

    @property
    def share(self) -> float:
        """The angle as a part of the full one; nan where that is next to none."""
        return self.angle / self.full if abs(self.full) >= SMALLEST_FULL else math.nan

    @property
    def lacked(self) -> int:
        """+1 where the leg wanted a larger share, -1 a smaller one, 0 neither."""
        return self.felt.wants if self.full > 0.0 else -self.felt.wants


class LegTried(NamedTuple):
    """What was tried on one leg."""

    cants: list[Tried]
    lifts: list[Tried]


def tried_by_leg(
    trials: Sequence[Trial], body: Body, boots: Boots, crouch: Crouch
) -> tuple[LegTried, LegTried]:
    """The trials of the front and of the rear leg, each beside its stance's full cant and lift.

    A leg's trials are its own wherever it stood.  The full cants and lifts come from the
    body as it is measured now, its legs as they stood then, so that a better measurement
    serves old trials too.  Trials in which no posture settles are left out.

    Args:
        trials: in any order.
        body: as the rider stands now, single values.
        boots: likewise.
        crouch: in which full cants and lifts are asked for.
    """
    legs = LegTried([], []), LegTried([], [])
    if not trials:
        return legs
    stances, which = np.unique(
        np.array([_numbers(trial) for trial in trials]), axis=0, return_inverse=True
    )
    cants, lifts = _full_in(stances, body, boots, crouch)
    for trial, place in zip(trials, which.ravel().tolist(), strict=True):
        for end, (mount, felt) in enumerate(_by_end(trial)):
            leg = legs[1 - end if trial.other_foot_led else end]
            full_cant, full_lift = cants[end][place], lifts[end][place]
            if not math.isnan(full_cant):
                leg.cants.append(Tried(float(mount.cant), full_cant, felt.verdict, trial.times))
            if felt.hold is not None and not math.isnan(full_lift):
                leg.lifts.append(Tried(float(mount.lift), full_lift, felt.hold, trial.times))
    return legs


def _by_end(trial: Trial) -> tuple[tuple[Mount, Felt], tuple[Mount, Felt]]:
    """Mount and feeling at the front and at the rear binding."""
    return (trial.stance.front, trial.front), (trial.stance.rear, trial.rear)


def _numbers(trial: Trial) -> tuple[float, ...]:
    """All that full cants and lifts can depend on, whether it holds a lift trial too."""
    feet = [getattr(foot, name) for foot, _ in _by_end(trial) for name in Mount.__slots__]
    said = trial.front.hold is not None or trial.rear.hold is not None
    return (*feet, trial.stance.length, trial.stance.across, trial.other_foot_led, said)


def _full_in(
    stances: NDArray[Any], body: Body, boots: Boots, crouch: Crouch
) -> tuple[list[list[float]], list[list[float]]]:
    """Full cants and full lifts at both ends in stances, each a row of :func:`_numbers`."""
    feet = len(Mount.__slots__)
    stance = Stance(
        Mount(*stances.T[:feet]), Mount(*stances.T[feet : 2 * feet]), *stances.T[2 * feet : -2]
    )
    other_way, with_lifts = stances[:, -2] > 0.0, stances[:, -1] > 0.0
    legs, worn = _as_they_stood(body.legs, other_way), _as_they_stood(boots.both, other_way)
    stood, worn_boots = replace(body, front=legs[0], rear=legs[1]), Boots(*worn)
    cants = full_cants(stood, worn_boots, stance, crouch)
    full = _as_lists(cants.front, cants.rear, len(stances))
    if not with_lifts.any():
        return full, _as_lists(math.nan, math.nan, len(stances))
    lifts = full_lifts(stood, worn_boots, stance, crouch)
    return full, _as_lists(lifts.front, lifts.rear, len(stances))


def _as_lists(front: Real, rear: Real, count: int) -> list[list[float]]:
    return [np.broadcast_to(each, (count,)).tolist() for each in (front, rear)]


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
