"""What each binding needs, in the rider's units: lifts and cants with their margins."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from math import degrees, isfinite, isnan, radians
from typing import Final, NamedTuple, SupportsFloat

from app.rider.inputs import FIELD, Inputs, model
from app.rider.setup import Setup, edited
from app.rider.spreads import boot_spreads_of, correlations_of, spreads_of
from app.rider.trials import trial_of
from app.words.language import msgid, tr
from app.words.sentences import plain
from app.words.units import fixed
from geometry import PostureInputs
from geometry.fitting.fit import FootFit, Shares, fit_of, fit_reasons
from geometry.fitting.margins import margins_of, shown, shown_margin
from geometry.fitting.shares import SettledShare, cant_from_share, settled_share
from geometry.fitting.trials import Tried, tried_by_leg

STEP_DEG: Final = 0.5
"""Nothing is recommended finer than this."""


class Need(NamedTuple):
    """An angle that is needed and its standard error (degrees); nan where there is none."""

    deg: float
    margin_deg: float

    @property
    def exists(self) -> bool:
        """Whether there is such an angle."""
        return isfinite(self.deg)

    @property
    def shown_deg(self) -> float:
        """The angle to the nearest half degree."""
        return degrees(float(shown(radians(self.deg))))

    @property
    def shown_margin_deg(self) -> float:
        """The margin up to the next half degree."""
        return degrees(float(shown_margin(radians(self.margin_deg))))


class Mounts(NamedTuple):
    """Lifts and cants of both feet, under their names among the inputs (degrees)."""

    front_lift_deg: float
    front_cant_deg: float
    rear_lift_deg: float
    rear_cant_deg: float


def mounts_now(inputs: Inputs) -> Mounts:
    """The lifts and cants that are on."""
    return Mounts(*(getattr(inputs, name) for name in Mounts._fields))


@dataclass(frozen=True, slots=True)
class FootNeeds:
    """What one binding needs.

    Cants are positive inward, lifts positive toe up.

    Attributes:
        name: "front" or "rear".
        full_cant: leaves boot and ankle nothing to give.
        least_cant: leaves them what they can give.
        start_cant: the least cant, or the leg's own once trials tell it.
        full_lift: puts the boot at rest.
        least_lift: leaves the boot its flex range.
        no_cant: key of the reason why there is no cant; empty where there is one.
        no_lift: key of the reason why there is no lift; empty where there is one.
        straight_leg: the cant by the rule of the trade for straight legs, a cross-check.
        share: the part of full cant that the leg's trials have settled on.
        held_back: whether the start keeps short of that share, which lies beyond
            flat or full cant and beyond what was tried.
    """

    name: str
    full_cant: Need
    least_cant: Need
    start_cant: Need
    full_lift: Need
    least_lift: Need
    straight_leg: Need
    no_cant: str
    no_lift: str
    share: SettledShare
    held_back: bool


@dataclass(frozen=True, slots=True)
class Needs:
    """What both bindings need.

    Attributes:
        front: what the front binding needs.
        rear: what the rear binding needs.
    """

    front: FootNeeds
    rear: FootNeeds

    @property
    def feet(self) -> tuple[FootNeeds, FootNeeds]:
        """Front and rear."""
        return self.front, self.rear


@lru_cache(maxsize=8)
def needs_of(setup: Setup) -> Needs:
    """What both bindings need, the posture solved again with each answer.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """
    solved = model(setup.inputs)
    front, rear = _own_shares(setup, solved)
    fit = fit_of(*solved, Shares(front.start, rear.start))
    spreads = spreads_of(setup) | boot_spreads_of(setup)
    margins = margins_of(solved, fit, spreads, correlations_of(setup))
    no_front, no_rear, no_lift = (str(reason) for reason in fit_reasons(fit))
    return Needs(
        _foot("front", fit.front, margins.front, (no_front, no_lift), front),
        _foot("rear", fit.rear, margins.rear, (no_rear, no_lift), rear),
    )


def needs_in_riding_bend(setup: Setup) -> Needs:
    """What both bindings need at the middle of the riding bend, the hips straight.

    What trials tell is carried by these: neither the bend that is set now nor how far the
    hips are turned has a say in it, so all that speaks of trials speaks alike.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """
    inputs = setup.inputs
    middle = 0.5 * (inputs.bend_from_deg + inputs.bend_to_deg)
    asked = replace(inputs, knee_bend_deg=middle, hips_turned_deg=0.0)
    return needs_of(replace(setup, inputs=asked))


def shares_within(tried: Sequence[Tried]) -> tuple[float, float]:
    """Shares that need no asking: flat to full cant, and what a leg has tried outside."""
    known = [one.share for one in tried if not isnan(one.share)]
    return min([0.0, *known]), max([1.0, *known])


class _Own(NamedTuple):
    """A leg's settled share, and as much of it as needs no asking; None without trials."""

    share: SettledShare
    start: float | None


def _own_shares(setup: Setup, solved: PostureInputs) -> tuple[_Own, _Own]:
    trials = [trial_of(entry, setup.inputs.lead_foot) for entry in setup.trials]
    front, rear = tried_by_leg(trials, solved.body, solved.boots, solved.crouch)
    return _own_share(front), _own_share(rear)


def _own_share(tried: Sequence[Tried]) -> _Own:
    share, (low, high) = settled_share(tried), shares_within(tried)
    return _Own(share, min(max(share.share, low), high) if share.trials else None)


def with_mounts(setup: Setup, mounts: Mounts) -> Setup:
    """The set-up with other lifts and cants.

    Raises:
        InputError: one of them cannot be set.
    """
    return edited(setup, **mounts._asdict())


def obstacle(mounts: Mounts) -> str:
    """Why mounts cannot be set, in words; empty where they can."""
    for name, value in mounts._asdict().items():
        field = FIELD[name]
        if isnan(value):
            return tr("there is no such lift or cant")
        if not field.low <= value <= field.high:
            most = plain(field.high if value > 0.0 else -field.low, 0)
            steep = _TOO_STEEP["lift" if "lift" in name else "cant"]
            return tr(steep, angle=fixed(abs(value), 1), most=most)
    return ""


_TOO_STEEP: Final = {
    "lift": msgid("{angle}° of lift is more than the {most}° that can be set"),
    "cant": msgid("{angle}° of cant is more than the {most}° that can be set"),
}


def _foot(
    name: str,
    fit: FootFit,
    margins: FootFit,
    reasons: tuple[str, str],
    own: _Own,
) -> FootNeeds:
    start_error = float(margins.start_cant)
    if own.share.trials:
        start_error = float(cant_from_share(own.share, fit.full_cant, margins.full_cant)[1])
    return FootNeeds(
        name=name,
        full_cant=_need(fit.full_cant, margins.full_cant),
        least_cant=_need(fit.least_cant, margins.least_cant),
        start_cant=_need(fit.start_cant, start_error),
        full_lift=_need(fit.full_lift, margins.full_lift),
        least_lift=_need(fit.least_lift, margins.least_lift),
        straight_leg=_need(fit.straight_leg_cant, margins.straight_leg_cant),
        no_cant=reasons[0],
        no_lift=reasons[1],
        share=own.share,
        held_back=own.start not in (None, own.share.share),
    )


def _need(angle: SupportsFloat, error: SupportsFloat) -> Need:
    return Need(degrees(float(angle)), degrees(float(error)))
