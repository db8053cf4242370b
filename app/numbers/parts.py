"""What the parts at hand can build for both feet."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any, Final

from app.features.parts.combining import TURNS_DEG, Turned, combinations_of, turned
from app.features.parts.words import what_to_set
from app.numbers.question import WANTED, Question
from app.numbers.values import angle, nothing, number, numbers_in
from app.rider.inputs import Inputs
from app.rider.parts import Parts
from app.rider.setup import Setup
from app.stance.needs import Mounts
from app.words.reasons import reason_phrase
from geometry.hardware.combinations import Combination, Wanted
from geometry.hardware.parts import PartsList
from geometry.hardware.stacks import Built, Setting

NAMES: Final = ("wanted", "combinations", "turning_the_binding_alone", "remark")
NO_PARTS: Final = "the parts list holds no part: give one with --parts FILE, or save one in FILE"


def parts_numbers(setup: Setup, question: Question) -> dict[str, Any]:
    """The combinations that come nearest to what both feet want, best first."""
    told = {"list": setup.parts.name}
    if holds_none(setup.parts):
        return {**told, **nothing(NAMES, NO_PARTS)}
    try:
        found = combinations_of(setup, _by_hand(setup.inputs, question))
    except ValueError as error:
        return {**told, **nothing(NAMES, reason_phrase(error))}
    best = found.ranked[0]
    return {
        **told,
        "wanted": dict(zip(("front", "rear"), map(_wanted, found.wanted), strict=True)),
        "combinations": [_combination(each, found.parts) for each in found.ranked],
        "turning_the_binding_alone": {
            each.foot: _turned(each) for each in turned(best, found.parts)
        },
        "remark": found.shortfall or None,
        "reason": None,
    }


def _by_hand(inputs: Inputs, question: Question) -> Mounts | None:
    """The lifts and cants to build; None for what the bindings need."""
    if question.wanted == WANTED[0]:
        return None
    return Mounts(**{name: getattr(inputs, name) for name in Mounts._fields})


def holds_none(parts: Parts) -> bool:
    """Whether there is nothing to build from."""
    return not any(part.count for part in parts.parts)


def built_numbers(built: Built, parts: PartsList) -> dict[str, Any]:
    """What stands under one foot, the lowest part first, and what to set."""
    return {
        "lift_deg": angle(built.lift),
        "cant_deg": angle(built.cant),
        "raised_mm": number(built.height),
        "parts": [_setting(each) for each in built.settings],
        "what_to_set": list(what_to_set(built, turns_with_binding=parts.turns_with_binding)),
    }


def _setting(setting: Setting) -> dict[str, Any]:
    """Bearings are from the toe to the little-toe side, and on the board towards the nose."""
    return {
        "name": setting.part.name,
        "slope_deg": angle(setting.part.slope),
        "bearing_deg": angle(setting.bearing),
        "bearing_on_board_deg": angle(setting.on_board),
    }


def _wanted(wanted: Wanted) -> dict[str, Any]:
    """The bands from the least to the full lift and cant, and where to start."""
    bands = {"lift_deg": wanted.lift, "cant_deg": wanted.cant}
    told: dict[str, Any] = {name: [angle(end) for end in band] for name, band in bands.items()}
    start_lift, start_cant = map(angle, wanted.start)
    return {**told, "start_lift_deg": start_lift, "start_cant_deg": start_cant}


def _combination(found: Combination, parts: PartsList) -> dict[str, Any]:
    feet = zip(
        ("front", "rear"), (found.front, found.rear), found.errors, found.off_plane, strict=True
    )
    return {
        "error_deg": angle(found.error),
        **{
            foot: {
                **built_numbers(built, parts),
                "error_deg": angle(error),
                "worst_off_plane_deg": angle(off_plane),
            }
            for foot, built, error, off_plane in feet
        },
    }


def _turned(each: Turned) -> dict[str, Any]:
    return {
        "turned_by_deg": list(TURNS_DEG),
        **{name: numbers_in(values) for name, values in asdict(each).items() if name != "foot"},
    }
