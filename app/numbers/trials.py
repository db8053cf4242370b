"""What the trials of each leg say of the present stance."""

from __future__ import annotations

from typing import Any

from app.features.trials.model import LegOutlook, outlook_of, trial_step
from app.numbers.question import Question
from app.numbers.values import number
from app.rider.setup import Setup


def trials_numbers(setup: Setup, question: Question) -> dict[str, Any]:
    """The share of full cant that the trials have settled on, and what follows from it."""
    step = trial_step(setup.parts, question.cant_step_deg)
    legs = outlook_of(setup, step.deg, question.agreed)
    return {
        "logged": len(setup.trials),
        "cant_step_deg": step.deg,
        "cant_step_from": step.source,
        **{leg.name: _leg(leg) for leg in legs},
    }


def _leg(leg: LegOutlook) -> dict[str, Any]:
    spoken = leg.share.trials > 0
    low, high = leg.bracket
    full = leg.full_cant.deg
    return {
        "trials": leg.share.trials,
        "settled_share": number(leg.share.share),
        "settled_share_error": number(leg.share.error),
        "says_little": leg.share.says_little,
        "bracket_shares": [low, high] if spoken else None,
        "bracket_cants_deg": [number(low * full), number(high * full)] if spoken else None,
        "comfortable_cant_deg": number(leg.comfortable.deg),
        "comfortable_cant_margin_deg": number(leg.comfortable.margin_deg),
        "next_cant_deg": number(leg.next_deg),
        "settled": leg.settled,
        "asks_consent": leg.asks,
        "reason": leg.no_cant or leg.why,
    }
