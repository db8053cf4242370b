"""The fewest parts that serve several set-ups."""

from __future__ import annotations

from typing import Any, Final

from app.features.parts.asked import limits_numbers
from app.features.parts.bench import caution
from app.features.parts.several import Kits, Named, kits_of
from app.numbers.hardware import built_numbers, rank_numbers
from app.numbers.question import Question
from app.numbers.values import nothing
from app.rider.parts import PartEntry
from app.rider.setup import Setup
from app.words.language import tr
from app.words.reasons import reason_phrase
from geometry.hardware.combinations import Combination
from geometry.hardware.kits import Counts, Kit

NAMES: Final = ("set_ups", "within", "remarks", "kits")
FEET: Final = ("front", "rear")


def kits_numbers(setup: Setup, question: Question) -> dict[str, Any]:
    """The kits that serve this set-up and the others asked for, fewest parts to get first."""
    first = Named(setup.name or tr("this set-up"), setup)
    others = [Named(name, other) for name, other in question.also]
    try:
        kits = kits_of([first, *others], question.can_get)
    except ValueError as error:
        return nothing(NAMES, reason_phrase(error))
    return {
        "set_ups": [each.name for each in kits.setups],
        "within": [limits_numbers(each.setup) for each in kits.setups],
        "remarks": [each or None for each in kits.held_back],
        "kits": [_kit(each, kits) for each in kits.found],
        "reason": None,
    }


def _kit(kit: Kit, kits: Kits) -> dict[str, Any]:
    return {
        "parts": _counted(kit.counts, kits.parts),
        "to_get": _counted(kit.to_get, kits.parts),
        "set_ups": [
            _served(named, combination)
            for named, combination in zip(kits.setups, kit.combinations, strict=True)
        ],
    }


def _counted(counts: Counts, parts: tuple[PartEntry, ...]) -> list[dict[str, Any]]:
    return [
        {
            "name": part.name,
            "slope_deg": part.slope_deg,
            "thickness_mm": part.thickness_mm,
            "count": count,
        }
        for part, count in zip(parts, counts, strict=True)
        if count
    ]


def _served(named: Named, combination: Combination) -> dict[str, Any]:
    both = combination.front, combination.rear
    feet = zip(FEET, both, strict=True)
    return {
        "name": named.name,
        "rank": rank_numbers(combination.rank),
        **{foot: built_numbers(built, named.setup, foot) for foot, built in feet},
        "caution": caution(both, named.setup) or None,
    }
