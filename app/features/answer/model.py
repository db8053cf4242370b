"""All that the page tells of a set-up, found in short steps."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Final

from app.rider.inputs import ENDS, model
from app.rider.setup import Setup
from app.stance.answer import Answer, Others, answer_of, others_of
from app.stance.findings import Limits
from app.stance.mending import Mend, mending_of
from app.stance.needs import Mounts, mounts_now
from app.stance.through import Legs, through_of
from geometry import solve
from geometry.fitting.reserve import Reserve, reserve_of
from geometry.fitting.steps import Steps, finished

BEYOND_TRIED_DEG: Final = 2.0
"""Going further than this beyond what was tried is asked about (degrees)."""


@dataclass(frozen=True, eq=False, slots=True)
class Told:
    """What is told of a set-up.

    Attributes:
        setup: of which it is true.
        limits: up to where a knee counted as in its plane.
        answer: what both bindings begin with.
        others: the same for one foot alone, and for other shares of the weight; None
            while it is sought.
        mends: what would mend a foot at fault.
        reserve: what the posture has left as it stands, and with the answer on; None
            while it is sought.
        share: of the weight on the front foot, now and with the answer on.
    """

    setup: Setup
    limits: Limits
    answer: Answer
    others: Others | None = None
    alone: dict[str, Legs] = field(default_factory=dict)
    mends: dict[str, Mend] = field(default_factory=dict)
    reserve: tuple[Reserve, Reserve] | None = None
    share: tuple[float, float] | None = None


def told_of(setup: Setup, limits: Limits) -> Told:
    """All that is told of a set-up.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """
    return finished(told_steps(setup, limits))


def told_steps(setup: Setup, limits: Limits) -> Steps[Told]:
    """:func:`told_of` in short steps, for a window that must not stand still.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """
    told = Told(setup, limits, answer_of(setup, limits))
    yield
    told = replace(told, others=others_of(setup, limits))
    on = [with_foot(setup, told, end) for end in ENDS]
    legs = through_of(setup.inputs, limits, on)
    told = replace(told, alone=dict(zip(ENDS, legs, strict=True)))
    yield
    told = replace(told, mends=mending_of(setup, told.answer, limits))
    yield
    then = setup.inputs
    if told.answer.exists:
        then = replace(then, **told.answer.mounts._asdict())
    asked = [model(inputs) for inputs in (setup.inputs, then)]
    postures = [solve(*each) for each in asked]
    now_left = reserve_of(asked[0], postures[0])
    yield
    then_left = reserve_of(asked[1], postures[1])
    shares = [float(posture.front_share) for posture in postures]
    return replace(told, reserve=(now_left, then_left), share=(shares[0], shares[1]))


def with_foot(setup: Setup, told: Told, end: str) -> Mounts:
    """The mounts with one foot's answer on, found with the other one as it stands."""
    now = mounts_now(setup.inputs)
    if told.others is None:
        return now
    lift, cant = told.others.alone[end]
    return now._replace(**{f"{end}_lift_deg": lift, f"{end}_cant_deg": cant})


def beyond_tried(setup: Setup, mounts: Mounts) -> list[str]:
    """The bindings, "front" and "rear", that would go far beyond what was tried, cant or lift.

    Without trials there are none: the caution stands at the button.
    """
    if not setup.trials:
        return []
    asked = mounts._asdict()
    return [
        end
        for i, end in enumerate(ENDS)
        if any(
            _is_beyond(asked[f"{end}_{kind}_deg"], _tried_on(setup, kind, i))
            for kind in ("cant", "lift")
        )
    ]


def _is_beyond(deg: float, tried: set[float]) -> bool:
    return not min(tried) - BEYOND_TRIED_DEG <= deg <= max(tried) + BEYOND_TRIED_DEG


def _tried_on(setup: Setup, kind: str, i: int) -> set[float]:
    """Cants or lifts tried by the leg that stands now at the front (0) or the rear binding (1).

    Flat is among them.
    """
    lead = setup.inputs.lead_foot
    return {0.0} | {
        getattr(trial, f"{kind}s_deg")[i if trial.lead_foot == lead else 1 - i]
        for trial in setup.trials
    }
