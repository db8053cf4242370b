"""What a rider's trials say of the present stance: the cant and the lift to put on next.

The answer, the page of trials and the numbers all ask here, so that what is to be tried
next, what is comfortable and what one begins with are never two angles for one leg.

It stands at the middle of the riding bend, hips straight, on the lifts with which the
geometry alone would begin: neither what is set now nor the bend typed has a say in it.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from math import degrees, floor, isnan, nan, radians
from typing import Final, NamedTuple

from app.rider.inputs import FIELD, Inputs, model
from app.rider.parts import Parts
from app.rider.parts import model as parts_model
from app.rider.setup import Setup
from app.rider.trials import Entry, trial_of
from app.stance.findings import USUAL_LIMITS, Limits
from app.stance.needs import STEP_DEG, FootNeeds, Need, needs_in_riding_bend
from app.stance.through import straight, terms_of
from geometry.fitting.margins import shown
from geometry.fitting.next_angle import NextAngle, next_angle
from geometry.fitting.proposal import BEGIN_GROWING, begun_with, proposal_of
from geometry.fitting.shares import (
    OF_CANT,
    OF_LIFT,
    Sense,
    SettledShare,
    angle_from_share,
    settled_share,
)
from geometry.fitting.trials import Tried, bracket, tried_by_leg
from geometry.hardware.cant_step import finest_cant_step

KINDS: Final = ("cant", "lift")
ASKED: Final = "asked"
PARTS: Final = "parts"
USUAL: Final = "usual"
USUAL_STEP_DEG: Final = STEP_DEG
"""Without parts nothing keeps a rider from what is recommended, to the half degree."""
NO_MORE_ALLOWED: Final = "no more allowed"


@dataclass(frozen=True, slots=True)
class Own:
    """What the trials of one leg say of its cant or of its lift in the present stance.

    Attributes:
        kind: "cant" or "lift".
        whole: full cant or full lift of this stance: all that the leg asks for.
        no_whole: key of the reason why there is none; "" where there is one.
        share: the share of it that the trials have settled on.
        bracket: shares between which the comfortable one lies, as far as the trials say.
        likely: the comfortable angle by that share, with its standard error; nan
            without trials.
        put_deg: the one angle to put on now, in half degrees: to try, or found; nan
            where there is none.
        asks: whether going on would leave the range from flat to all that the leg asks
            for, or what was tried beyond it.
        waits: whether that has not been agreed to.
        settled: whether the trials have found the angle.
        why: key of the reason for it.
    """

    kind: str
    whole: Need
    no_whole: str
    share: SettledShare
    bracket: tuple[float, float]
    likely: Need
    put_deg: float
    asks: bool
    waits: bool
    settled: bool
    why: str

    @property
    def trials(self) -> int:
        """How many trials speak of it."""
        return self.share.trials

    @property
    def next_deg(self) -> float:
        """What is to be tried next; nan where that has to be agreed to first."""
        return nan if self.waits else self.put_deg


@dataclass(frozen=True, slots=True)
class LegOutlook:
    """What the trials of one leg say of the present stance.

    Attributes:
        name: "front" or "rear".
        cant: of its cant.
        lift: of its lift.
    """

    name: str
    cant: Own
    lift: Own

    @property
    def both(self) -> tuple[Own, Own]:
        """Of its cant and of its lift."""
        return self.cant, self.lift

    @property
    def asks(self) -> bool:
        """Whether going on with either has to be agreed to."""
        return self.cant.asks or self.lift.asks


class _Starts(NamedTuple):
    """Lifts and cants with which the geometry alone begins (degrees); front and rear."""

    lift: tuple[float, float]
    cant: tuple[float, float]


def outlook_of(
    setup: Setup,
    step_deg: float | None = None,
    agreed: Collection[str] = (),
    limits: Limits = USUAL_LIMITS,
) -> tuple[LegOutlook, LegOutlook]:
    """What the trials say of the present stance, front and rear leg.

    Args:
        setup: the set-up.
        step_deg: step in which the parts at hand set an angle; that of the parts list if
            None.
        agreed: legs whose cant and lift may go one step beyond flat, all that the leg asks
            for, or what was tried.
        limits: up to where a knee counts as in its plane.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """
    step = trial_step(setup.parts, step_deg).deg
    inputs = replace(
        setup.inputs,
        front_lift_deg=0.0,
        front_cant_deg=0.0,
        rear_lift_deg=0.0,
        rear_cant_deg=0.0,
        knee_bend_deg=45.0,
        hips_turned_deg=0.0,
    )
    return _outlook_of(replace(setup, inputs=inputs), step, frozenset(agreed), limits)


@lru_cache(maxsize=4)
def _outlook_of(
    setup: Setup, step_deg: float, agreed: frozenset[str], limits: Limits
) -> tuple[LegOutlook, LegOutlook]:
    inputs = setup.inputs
    starts = _starts(inputs, limits, growing=setup.growing)
    front_lift, rear_lift = starts.lift
    on = replace(inputs, front_lift_deg=front_lift, rear_lift_deg=rear_lift)
    needs = needs_in_riding_bend(replace(setup, inputs=on, trials=()))
    body, boots, _, crouch = model(
        replace(inputs, knee_bend_deg=0.5 * (inputs.bend_from_deg + inputs.bend_to_deg))
    )
    trials = [
        replace(trial_of(entry, inputs.lead_foot), times=times)
        for entry, times in _alike(setup.trials)
    ]
    legs = tried_by_leg(trials, body, boots, crouch)

    def outlook(i: int, foot: FootNeeds) -> LegOutlook:
        asked = _Asked(step_deg, foot.name in agreed)
        cant, lift = (
            _own(
                asked._replace(
                    kind=kind,
                    sense=sense,
                    start=starts_of[i],
                    most=_most(setup, kind, tried, growing=setup.growing),
                ),
                whole,
                no_whole,
                tried,
            )
            for kind, sense, starts_of, whole, no_whole, tried in (
                ("cant", OF_CANT, starts.cant, foot.full_cant, foot.no_cant, legs[i].cants),
                ("lift", OF_LIFT, starts.lift, foot.full_lift, foot.no_lift, legs[i].lifts),
            )
        )
        return LegOutlook(foot.name, cant, lift)

    return outlook(0, needs.front), outlook(1, needs.rear)


def _alike(entries: Sequence[Entry]) -> list[tuple[Entry, int]]:
    """One trial of each kind, and how many say the same."""
    times: dict[tuple[object, ...], int] = {}
    first: dict[tuple[object, ...], Entry] = {}
    for one in entries:
        kind = (
            one.lead_foot,
            one.angles_deg,
            one.stance_length_mm,
            one.across_spacing_mm,
            one.lifts_deg,
            one.cants_deg,
            one.felt,
            one.boots,
        )
        times[kind] = times.get(kind, 0) + 1
        first.setdefault(kind, one)
    return [(first[kind], count) for kind, count in times.items()]


def _starts(inputs: Inputs, limits: Limits, *, growing: bool) -> _Starts:
    """What the geometry alone begins with; flat where it has no answer."""
    begin = begun_with(terms_of(inputs, limits), growing=growing)
    mounts = proposal_of(straight(inputs), begin).mounts
    lift, cant = (
        tuple(0.0 if isnan(angle) else round(degrees(angle), 6) for angle in each[:, 0].tolist())
        for each in mounts
    )
    return _Starts((lift[0], lift[1]), (cant[0], cant[1]))


def _most(setup: Setup, kind: str, tried: Sequence[Tried], *, growing: bool) -> float:
    """The steepest angle that may be put on (rad).

    It is what is allowed, and for a growing rider what such a one begins with, unless more
    has been tried.
    """
    most = min(getattr(setup.inputs, f"largest_{kind}_deg"), FIELD[f"front_{kind}_deg"].high)
    if growing:
        steepest = max([BEGIN_GROWING, *(abs(one.angle) for one in tried)])
        most = min(most, degrees(steepest))
    return radians(floor(most / STEP_DEG + 1e-9) * STEP_DEG)


class _Asked(NamedTuple):
    """What is asked beside a leg's trials; angles in the units that their names tell."""

    step_deg: float
    agreed: bool
    kind: str = ""
    sense: Sense = OF_CANT
    start: float = 0.0
    most: float = 0.0


def _own(asked: _Asked, whole: Need, no_whole: str, tried: Sequence[Tried]) -> Own:
    full = radians(whole.deg)
    share = settled_share(tried, asked.sense)
    found = next_angle(
        tried,
        full,
        radians(asked.step_deg),
        start=radians(asked.start),
        beyond=asked.agreed,
        most=asked.most,
        sense=asked.sense,
    )
    likely, error = angle_from_share(share, full, radians(whole.margin_deg))
    return Own(
        kind=asked.kind,
        whole=whole,
        no_whole=no_whole,
        share=share,
        bracket=bracket(tried),
        likely=Need(degrees(likely), degrees(error)),
        put_deg=_in_halves(found),
        asks=found.asks,
        waits=found.waits,
        settled=found.settled,
        why=found.why,
    )


def _in_halves(found: NextAngle) -> float:
    """The angle to the half degree (degrees); nan where there is none."""
    return round(degrees(float(shown(found.angle))), 6) + 0.0


class Step(NamedTuple):
    """The step in which a cant or a lift is tried.

    Attributes:
        deg: the step.
        source: where it comes from: :data:`ASKED`, :data:`PARTS` or :data:`USUAL`.
    """

    deg: float
    source: str


def parts_step_deg(parts: Parts) -> float | None:
    """The finest step of cant that a parts list makes; None where it makes no cant.

    To the nearest half degree, as cants are tried: else what is tried next could be
    what has just been tried.
    """
    try:
        step = finest_cant_step(parts_model(parts))
    except ValueError:
        # The page of parts says what is wrong with the list.
        return None
    return None if isnan(step) else max(round(degrees(step) / STEP_DEG), 1) * STEP_DEG


def trial_step(parts: Parts, asked_deg: float | None = None) -> Step:
    """The step asked for; else that of the parts; else the usual one."""
    if asked_deg is not None:
        return Step(asked_deg, ASKED)
    made = parts_step_deg(parts)
    return Step(USUAL_STEP_DEG, USUAL) if made is None else Step(made, PARTS)
