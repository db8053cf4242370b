"""What the parts at hand can build for both feet."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any, Final

from app.features.parts.bench import caution, is_left, what_to_set, within_deg
from app.features.parts.combining import TURNS_DEG, Turned, combinations_of, turned
from app.numbers.question import WANTED, Question
from app.numbers.values import angle, nothing, number, numbers_in
from app.rider.inputs import Inputs
from app.rider.parts import Parts
from app.rider.setup import Setup
from app.stance.answer import Answer
from app.stance.needs import Mounts
from app.words.reasons import reason_phrase
from geometry.hardware.combinations import Combination
from geometry.hardware.order import Rank
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
        "wanted": _wanted(found.wanted),
        "combinations": [_combination(each, setup) for each in found.ranked],
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


def built_numbers(built: Built, setup: Setup, foot: str) -> dict[str, Any]:
    """What stands under the "front" or the "rear" foot, the lowest part first, and what to set."""
    parts, left = setup.parts, is_left(setup.inputs, foot)
    lift, cant = within_deg(built, parts)
    said = what_to_set(built, turns_with_binding=parts.turns_with_binding, left=left)
    return {
        "lift_deg": angle(built.lift),
        "lift_within_deg": number(lift),
        "cant_deg": angle(built.cant),
        "cant_within_deg": number(cant),
        "raised_mm": number(built.height),
        "parts": [_setting(each) for each in built.settings],
        "what_to_set": list(said),
    }


def _setting(setting: Setting) -> dict[str, Any]:
    """Bearings are from the toe to the little-toe side, and on the board towards the nose."""
    return {
        "name": setting.part.name,
        "slope_deg": angle(setting.part.slope),
        "bearing_deg": angle(setting.bearing),
        "bearing_on_board_deg": angle(setting.on_board),
    }


def _wanted(wanted: Answer | Mounts) -> dict[str, Any]:
    """What each foot begins with and the cants that keep its knee in plane; or what is typed."""
    if isinstance(wanted, Mounts):
        typed = (wanted[:2], wanted[2:])
        return {
            foot: {"start_lift_deg": lift, "start_cant_deg": cant, "in_plane_cants_deg": None}
            for foot, (lift, cant) in zip(("front", "rear"), typed, strict=True)
        }
    return {
        foot.name: {
            "start_lift_deg": number(foot.begin.lift_deg),
            "start_cant_deg": number(foot.begin.cant_deg),
            "in_plane_cants_deg": numbers_in(foot.in_plane),
        }
        for foot in wanted.feet
    }


def rank_numbers(rank: Rank | None) -> dict[str, Any] | None:
    """By what a combination or a stance has its place, the most telling first."""
    if rank is None:
        return None
    return {
        "boots_past_range_deg": angle(rank.boot_past),
        "cants_off_deg": angle(rank.cant_off),
        "knees_out_of_plane_deg": angle(rank.out_of_plane),
        "unlike_stacks": bool(rank.unlike),
        "raised_mm": number(rank.height),
        "parts": rank.parts,
        "moved_mm": rank.moved,
        "from_answer_deg": angle(rank.from_answer),
    }


def _combination(found: Combination, setup: Setup) -> dict[str, Any]:
    told: dict[str, Any] = {"rank": rank_numbers(found.rank), "error_deg": angle(found.error)}
    each_foot = zip(found.errors, found.off_plane, found.boot_past, strict=True)
    for foot, built, values in zip(
        ("front", "rear"), (found.front, found.rear), each_foot, strict=True
    ):
        names = ("error_deg", "worst_off_plane_deg", "boot_past_range_deg")
        told[foot] = built_numbers(built, setup, foot) | dict(
            zip(names, map(angle, values), strict=True)
        )
    told["caution"] = caution((found.front, found.rear), setup.parts) or None
    return told


def _turned(each: Turned) -> dict[str, Any]:
    return {
        "turned_by_deg": list(TURNS_DEG),
        **{name: numbers_in(values) for name, values in asdict(each).items() if name != "foot"},
    }
