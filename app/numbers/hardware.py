"""What the parts at hand can build for both feet."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict, replace
from math import degrees
from typing import Any, Final, SupportsFloat

from app.features.parts.asked import limits_numbers
from app.features.parts.bench import caution, is_left, what_to_set, within_deg
from app.features.parts.combining import TURNS_DEG, Turned, combinations_of, turned
from app.features.parts.reaching import (
    limits_of,
    ranked_stances,
    search,
    usual_wishes,
)
from app.features.parts.wishes import WISH_FIELDS, Wishes
from app.features.parts.words import trade
from app.features.wedge.model import part_of, slopes_of
from app.features.wedge.words import MILLIMETRES, Part
from app.numbers.groups import Searching
from app.numbers.question import WANTED, Question, limit_name
from app.numbers.values import angle, in_degrees, nothing, number, numbers_in
from app.rider.inputs import Inputs
from app.rider.parts import Parts
from app.rider.setup import Setup
from app.stance.answer import Answer
from app.stance.needs import Mounts, mounts_now
from app.words.reasons import reason_phrase
from geometry.hardware.combinations import Combination
from geometry.hardware.order import Rank
from geometry.hardware.plane import Spot
from geometry.hardware.reachable import Progress, Reachable, Reached
from geometry.hardware.stacks import Built, Setting
from geometry.hardware.wedge import Wedge
from geometry.hardware.wedge_problems import wedge_problems

PARTS_TOLD: Final = ("within", "wanted", "combinations", "turning_the_binding_alone", "remark")
NO_PARTS: Final = "the parts list holds no part: give one with --parts FILE, or save one in FILE"


def parts_numbers(setup: Setup, question: Question) -> dict[str, Any]:
    """The combinations that come nearest to what both feet want, best first."""
    told = {"list": setup.parts.name}
    if holds_none(setup.parts):
        return {**told, **nothing(PARTS_TOLD, NO_PARTS)}
    try:
        found = combinations_of(setup, _by_hand(setup.inputs, question))
    except ValueError as error:
        return {**told, **nothing(PARTS_TOLD, reason_phrase(error))}
    best = found.ranked[0]
    return {
        **told,
        "within": limits_numbers(setup),
        "wanted": _wanted(found.wanted),
        "combinations": [_combination(each, setup) for each in found.ranked],
        "turning_the_binding_alone": {
            each.foot: _turned(each) for each in turned(best, found.parts)
        },
        "remark": " ".join(filter(None, (found.shortfall, found.held_back))) or None,
        "reason": None,
    }


def _by_hand(inputs: Inputs, question: Question) -> Mounts | None:
    """The lifts and cants to build; None for what the bindings need."""
    if question.wanted == WANTED[0]:
        return None
    return mounts_now(inputs)


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
    told: dict[str, Any] = {"rank": rank_numbers(found.rank), "error_deg": in_degrees(found.error)}
    each_foot = zip(found.errors, found.off_plane, found.boot_past, strict=True)
    for foot, built, values in zip(
        ("front", "rear"), (found.front, found.rear), each_foot, strict=True
    ):
        names = ("error_deg", "worst_off_plane_deg", "boot_past_range_deg")
        told[foot] = built_numbers(built, setup, foot) | dict(
            zip(names, map(in_degrees, values), strict=True)
        )
    told["caution"] = caution((found.front, found.rear), setup) or None
    return told


def _turned(each: Turned) -> dict[str, Any]:
    return {
        "turned_by_deg": list(TURNS_DEG),
        **{name: numbers_in(values) for name, values in asdict(each).items() if name != "foot"},
    }


STANCES_TOLD: Final = ("searched", "soles_apart_deg", "best", "kept", "present")


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
        return nothing(STANCES_TOLD, reason_phrase(error))
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
            "worst_off_plane_deg": in_degrees(off_plane),
            "boot_past_range_deg": in_degrees(boot_past),
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
        "worst_off_plane_deg": in_degrees(reached.worst_off_plane),
        "rank": rank_numbers(reached.rank),
        "largest_boot_flex_off_rest_deg": in_degrees(max(reached.off_rest)),
        **feet,
        "in_words": words or None,
    }


WEDGE_TOLD: Final = (
    "lift_deg", "cant_deg", "slope_deg", "bearing_deg", "thinnest_mm", "centre_mm", "thickest_mm",
    "corners", "holes", "volume_cm3", "problems",
)  # fmt: skip


def wedge_numbers(setup: Setup) -> dict[str, Any]:
    """The wedge of each foot, to the footprint and the holes that the set-up says."""
    feet = {foot: _foot(setup, foot) for foot in ("front", "rear")}
    return {"slopes_from": setup.wedge.slopes, **feet}


def _foot(setup: Setup, foot: str) -> dict[str, Any]:
    try:
        wedge = wedge_for(setup, foot).wedge
    except ValueError as error:
        return nothing(WEDGE_TOLD, reason_phrase(error, MILLIMETRES))
    return {**_wedge(wedge), "reason": None}


def wedge_for(setup: Setup, foot: str) -> Part:
    """The wedge of the "front" or the "rear" foot.

    Raises:
        ValueError: there is none; why is said by :func:`reason_phrase` in millimetres.
    """
    if setup.wedge.slopes == "typed" and setup.wedge.foot != foot:
        raise ValueError(
            f"the lift and cant typed are those of the {setup.wedge.foot} foot's wedge"
        )
    own = replace(setup, wedge=replace(setup.wedge, foot=foot))
    return part_of(own, slopes_of(own))


def _wedge(wedge: Wedge) -> dict[str, Any]:
    """All that is told of a wedge, possible or not."""
    values = (
        degrees(wedge.lift),
        degrees(wedge.cant),
        degrees(wedge.slope),
        degrees(wedge.bearing),
        wedge.thinnest,
        wedge.level,
        wedge.thickest,
        [_place(spot, wedge.height(*spot)) for spot in wedge.corner_spots],
        [_place(spot, wedge.hole_height(spot)) for spot in wedge.screws.centres],
        wedge.volume / 1000.0,
        list(MILLIMETRES.reasons(wedge_problems(wedge))),
    )
    return dict(zip(WEDGE_TOLD, values, strict=True))


def _place(spot: Spot, height: SupportsFloat) -> dict[str, float]:
    """A place, ahead of the binding's centre and to the little-toe side, and the height there.

    Over a corner it is that of the top.  Over a hole it ends under the screw's head, so that
    the screw must be longer by as much.
    """
    return {"ahead_mm": spot[0], "outer_mm": spot[1], "height_mm": float(height)}
