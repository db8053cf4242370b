"""In which steps the next cant is to be tried: as the parts make them, or as asked."""

from __future__ import annotations

from math import degrees, isnan
from typing import Final, NamedTuple

from app.features.trials.model import USUAL_STEP_DEG
from app.rider.parts import Parts, model
from app.stance.needs import STEP_DEG
from app.words.language import msgid, tr
from app.words.units import DEGREES, amount
from geometry.hardware.cant_step import finest_cant_step

ASKED: Final = "asked"
PARTS: Final = "parts"
USUAL: Final = "usual"


OF_PARTS: Final = msgid("the parts", "steps of")
"""The choice of the parts' own step, beside those that are chosen by hand."""


class Step(NamedTuple):
    """The step in which a cant is tried.

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
        step = finest_cant_step(model(parts))
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


def source_words(parts_deg: float | None, chosen_deg: float | None) -> str:
    """Where the step comes from; empty where there are no parts to speak of.

    Args:
        parts_deg: what the parts make, None for nothing.
        chosen_deg: what was chosen by hand; None for the parts' own.
    """
    if parts_deg is None:
        return ""
    made = amount(parts_deg, DEGREES)
    if chosen_deg is None:
        return tr("In steps of {step}, as your parts make them.", step=made)
    return tr(
        "In steps of {step}, chosen by hand; your parts make {made}.",
        step=amount(chosen_deg, DEGREES),
        made=made,
    )
