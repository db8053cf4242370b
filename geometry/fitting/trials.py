"""What a rider felt in trial after trial.

A cant is compared with another stance's through its share of that stance's full
cant: 0 is a flat sole, 1 full cant, whichever way full cant goes.  A leg that
felt bow-legged wanted more inward cant, one that felt knock-kneed more outward.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from geometry.arrays import np
from geometry.body import Body
from geometry.boots import Boots
from geometry.fitting.smallest_mounts import smallest_cants
from geometry.posture import Crouch
from geometry.stance import Mount, Stance

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

    Raises:
        ValueError: the date is not written so.
    """

    date: str
    stance: Stance
    front: Felt
    rear: Felt
    notes: str = ""

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

    The full cants come from the body as it is measured now, so that a better
    measurement serves old trials too.  Trials in which no posture settles are
    left out.
    """
    if not trials:
        return [], []
    ordered = sorted(trials, key=lambda trial: trial.date)
    full = smallest_cants(body, boots, _together([t.stance for t in ordered]), crouch, 0.0)
    shape = (len(ordered),)
    fronts, rears = np.broadcast_to(full.front, shape), np.broadcast_to(full.rear, shape)
    front = [
        Tried(float(trial.stance.front.cant), float(cant), trial.front.verdict)
        for trial, cant in zip(ordered, fronts, strict=True)
        if not math.isnan(cant)
    ]
    rear = [
        Tried(float(trial.stance.rear.cant), float(cant), trial.rear.verdict)
        for trial, cant in zip(ordered, rears, strict=True)
        if not math.isnan(cant)
    ]
    return front, rear


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
