"""Growing riders: what changed since last season, and what to expect."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any, Final

from app.features.growing.model import (
    TOLD,
    Ahead,
    ahead_of,
    change_error,
    full_cants,
    lengths_of,
)
from app.features.measuring.model import finding_words, repeats_named
from app.numbers.question import Question
from app.numbers.values import nothing, number
from app.rider.inputs import Inputs, differing
from app.rider.setup import BOOTS, LEGS, Setup
from app.rider.spreads import repeats_error, spread_of
from app.stance.own import LegOutlook, Own, outlook_of, trial_step
from app.words.reasons import reason_phrase

GROWTH_TOLD: Final = ("last_season", "forecast", "lengths", "full_cants", "changed_inputs")
NOTHING_ASKED: Final = (
    "nothing to compare with: give last season's set-up with --last-season FILE, "
    "or the rider's age with --ask age_years=N"
)


def growth_numbers(setup: Setup, question: Question) -> dict[str, Any]:
    """Lengths and full cants then, now and as forecast.

    Raises:
        ValueError: the leg dimensions of last season contradict each other.
    """
    then, age = question.last_season, question.age_years
    if then is None and age is None:
        return nothing(GROWTH_TOLD, NOTHING_ASKED)
    ahead, problem = _ahead(setup, question)
    return {
        "last_season": then.name if then else None,
        "forecast": _forecast(ahead, question),
        "lengths": _lengths(setup, then, ahead),
        "full_cants": _cants(setup, then, ahead),
        "changed_inputs": _changed(setup.inputs, then.inputs) if then else None,
        "reason": problem,
    }


def _ahead(setup: Setup, question: Question) -> tuple[Ahead | None, str | None]:
    """The forecast, or why there is none although an age was said."""
    if question.age_years is None:
        return None, None
    try:
        return ahead_of(setup, question.age_years, question.years_ahead, question.children), None
    except ValueError as error:
        # Legs of a grown rider, said to be a child's, outgrow what legs can be.
        return None, f"no forecast at this age: {reason_phrase(error)}"


def _forecast(ahead: Ahead | None, question: Question) -> dict[str, Any] | None:
    if ahead is None:
        return None
    return {
        "age_years": question.age_years,
        "forecast_age_years": number(ahead.legs.age),
        "figures_of": question.children,
        "caution": ahead.words,
    }


def _lengths(now: Setup, then: Setup | None, ahead: Ahead | None) -> dict[str, Any]:
    """Every length that grows, then, now and as forecast, with standard errors."""
    return {
        name.removesuffix("_mm"): {
            "now_mm": after,
            "now_error_mm": spread_of(now, name),
            **_since(before, after, change_error(then, now, name) if then else None),
            "forecast_mm": number(ahead.inputs.value(name)) if ahead else None,
            "forecast_error_mm": number(ahead.spread_mm(name)) if ahead else None,
        }
        for name, before, after in lengths_of(then or now, now)
    }


def _since(before: float, after: float, error: float | None) -> dict[str, Any]:
    """What became of a length; all None where there is no last season."""
    names = ("then_mm", "change_mm", "change_error_mm", "shrank")
    if error is None:
        return dict.fromkeys(names)
    values = (before, after - before, error, before - after > error)
    return dict(zip(names, values, strict=True))


def _cants(now: Setup, then: Setup | None, ahead: Ahead | None) -> dict[str, Any]:
    """Full cants of the present stance for the legs of then, of now and of the forecast."""
    legs = {
        "then": full_cants(then, now.inputs) if then else None,
        "now": full_cants(now, now.inputs),
        "forecast": ahead.full_cants if ahead else None,
    }
    return {
        foot: {
            f"{when}_{name}": number(getattr(cants[i], name)) if cants else None
            for when, cants in legs.items()
            for name in ("deg", "margin_deg")
        }
        for i, foot in enumerate(("front", "rear"))
    }


def _changed(now: Inputs, then: Inputs) -> dict[str, Any]:
    """What differs in stance, mounts and boots."""
    feet = {"lead_foot": {"then": then.lead_foot, "now": now.lead_foot}}
    changed = {
        field.name: {"then": then.value(field.name), "now": now.value(field.name)}
        for field in differing(then, now)
        if field.group in TOLD
    }
    return changed if then.lead_foot == now.lead_foot else feet | changed


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
    return {**_own(leg.cant), "lift": _own(leg.lift)}


def _own(own: Own) -> dict[str, Any]:
    """What trials say of a leg's cant, or of its lift."""
    low, high = own.bracket
    full, spoken = own.whole.deg, own.trials > 0
    return {
        "trials": own.trials,
        "settled_share": number(own.share.share),
        "settled_share_error": number(own.share.error),
        "says_little": own.share.says_little,
        "bracket_shares": [low, high] if spoken else None,
        f"bracket_{own.kind}s_deg": [number(low * full), number(high * full)] if spoken else None,
        f"full_{own.kind}_deg": number(full),
        f"comfortable_{own.kind}_deg": number(own.likely.deg),
        f"comfortable_{own.kind}_margin_deg": number(own.likely.margin_deg),
        f"next_{own.kind}_deg": number(own.next_deg),
        "settled": own.settled,
        "asks_consent": own.asks,
        "reason": reason_phrase(own.no_whole or own.why),
    }


def body_numbers(setup: Setup) -> dict[str, Any]:
    """Every dimension of legs and boots with its standard error, and what estimates rest on.

    What boots do is exact unless repeats tell how surely it is known.
    """
    legs = {
        name: _dimension(setup, name, spread_of(setup, name), origin=setup.origin(name))
        for name in setup.names_told(LEGS)
    }
    boots = {
        name: _dimension(setup, name, repeats_error(setup, name))
        for name in setup.names_told(BOOTS)
    }
    return {
        **_unitless(legs),
        "boots": _unitless(boots),
        "cuffs": setup.cuffs or None,
        "known": asdict(setup.known),
    }


def _dimension(setup: Setup, name: str, error: float | None, **origin: str) -> dict[str, Any]:
    unit = name.rpartition("_")[2]
    return {
        f"value_{unit}": setup.inputs.value(name),
        f"standard_error_{unit}": error,
        **origin,
        f"repeats_{unit}": list(repeats_named(setup, name)),
        "remark": finding_words(setup, name) or None,
    }


def _unitless(told: dict[str, Any]) -> dict[str, Any]:
    """The same under names without their units."""
    return {name.rpartition("_")[0]: value for name, value in told.items()}
