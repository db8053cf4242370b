"""What each binding needs, in the rider's units: lifts and cants with their margins."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from math import degrees, isfinite, isnan, radians
from typing import Final, NamedTuple, SupportsFloat

from app.rider.inputs import FIELD, Inputs, model
from app.rider.setup import Setup, edited
from app.rider.spreads import boot_spreads_of, correlations_of, spreads_of
from app.words.language import msgid, tr
from app.words.sentences import plain
from app.words.units import fixed
from geometry.fitting.fit import FootFit, fit_of, fit_reasons
from geometry.fitting.margins import FINEST, margins_of, shown, shown_margin

STEP_DEG: Final = round(degrees(FINEST), 9)
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
        full_lift: puts the boot at rest.
        least_lift: leaves the boot its flex range.
        no_cant: key of the reason why there is no cant; empty where there is one.
        no_lift: key of the reason why there is no lift; empty where there is one.
        straight_leg: the cant by the rule of the trade for straight legs, a cross-check.
    """

    name: str
    full_cant: Need
    least_cant: Need
    full_lift: Need
    least_lift: Need
    straight_leg: Need
    no_cant: str
    no_lift: str


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
    fit = fit_of(*solved)
    spreads = spreads_of(setup) | boot_spreads_of(setup)
    margins = margins_of(solved, fit, spreads, correlations_of(setup))
    no_front, no_rear, no_lift = (str(reason) for reason in fit_reasons(fit))
    return Needs(
        _foot("front", fit.front, margins.front, (no_front, no_lift)),
        _foot("rear", fit.rear, margins.rear, (no_rear, no_lift)),
    )


def needs_in_riding_bend(setup: Setup) -> Needs:
    """What both bindings need at the middle of the riding bend, the hips straight.

    What trials tell is carried by these (:mod:`app.stance.own`): neither the bend that is
    set now nor how far the hips are turned has a say in it.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """
    inputs = setup.inputs
    middle = 0.5 * (inputs.bend_from_deg + inputs.bend_to_deg)
    asked = replace(inputs, knee_bend_deg=middle, hips_turned_deg=0.0)
    return needs_of(replace(setup, inputs=asked))


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
) -> FootNeeds:
    return FootNeeds(
        name=name,
        full_cant=_need(fit.full_cant, margins.full_cant),
        least_cant=_need(fit.least_cant, margins.least_cant),
        full_lift=_need(fit.full_lift, margins.full_lift),
        least_lift=_need(fit.least_lift, margins.least_lift),
        straight_leg=_need(fit.straight_leg_cant, margins.straight_leg_cant),
        no_cant=reasons[0],
        no_lift=reasons[1],
    )


def _need(angle: SupportsFloat, error: SupportsFloat) -> Need:
    return Need(degrees(float(angle)), degrees(float(error)))
