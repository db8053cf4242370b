"""The best stances that the rider can reach with the parts and inserts at hand."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from math import degrees
from typing import Any, Final, TypeAlias

from app.features.parts.reaching import (
    WISH_FIELDS,
    Wishes,
    limits_of,
    ranked_stances,
    search,
    usual_wishes,
)
from app.features.parts.words import trade
from app.numbers.parts import built_numbers, rank_numbers
from app.numbers.question import Question, limit_name
from app.numbers.values import angle, nothing, number
from app.rider.setup import Setup
from app.words.reasons import reason_phrase
from geometry.hardware.reachable import Progress, Reachable, Reached

Searching: TypeAlias = Callable[[float], None]
"""What is told how far a search is, from 0 to 1."""

NAMES: Final = ("searched", "soles_apart_deg", "best", "kept", "present")


def reachable_numbers(setup: Setup, question: Question, searching: Searching) -> dict[str, Any]:
    """The ten best stances within the limits, best first; some seconds' work.

    Args:
        setup: with the present stance and the parts at hand.
        question: with the limits.
        searching: is told again and again which share of the search is done.

    Raises:
        ImpossibleError: a limit's most lies below its least.
    """
    wishes = replace(usual_wishes(setup.inputs), **dict(question.limits))
    # Refused here, before the search begins.
    limits_of(wishes)
    return {"limits": _limits(wishes), **_found(search(setup, wishes), searching, setup)}


def _limits(wishes: Wishes) -> dict[str, float]:
    ends = (end for pair in WISH_FIELDS.values() for end in pair)
    return {limit_name(end): float(getattr(wishes, end.name)) for end in ends}


def _found(steps: Iterator[Progress], searching: Searching, setup: Setup) -> dict[str, Any]:
    result = None
    try:
        for progress in steps:
            searching(progress.done)
            result = progress.result
    except ValueError as error:
        return nothing(NAMES, reason_phrase(error))
    # The last progress always carries the result.
    assert result is not None
    return _told(result, setup)


def _told(found: Reachable, setup: Setup) -> dict[str, Any]:
    told = {
        place.reached: _stance(place.reached, setup, trade(found, place.reached))
        for place in ranked_stances(found)
    }
    return {
        "searched": found.searched,
        "soles_apart_deg": angle(found.apart),
        "best": [told[each] for each in found.best] or None,
        "kept": told[found.kept] if found.kept else None,
        "present": _stance(found.present, setup, ""),
        "reason": reason_phrase(found.reason) or None,
    }


def _stance(reached: Reached, setup: Setup, words: str) -> dict[str, Any]:
    stance = reached.stance
    feet: dict[str, Any] = {
        foot: {
            "angle_deg": round(degrees(float(mount.angle)), 6),
            "worst_off_plane_deg": angle(off_plane),
            "boot_past_range_deg": angle(boot_past),
        }
        for foot, mount, off_plane, boot_past in zip(
            ("front", "rear"),
            (stance.front, stance.rear),
            reached.off_plane,
            reached.boot_past,
            strict=True,
        )
    }
    for foot, built in zip(feet, reached.built or (), strict=False):
        feet[foot] |= built_numbers(built, setup, foot)
    return {
        "stance_length_mm": number(stance.length),
        "worst_off_plane_deg": angle(reached.worst_off_plane),
        "rank": rank_numbers(reached.rank),
        "largest_boot_flex_off_rest_deg": angle(max(reached.off_rest)),
        **feet,
        "in_words": words or None,
    }
