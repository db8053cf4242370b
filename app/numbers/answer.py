"""What each binding begins with, and what holds for both: other wishes, balance, reserve."""

from __future__ import annotations

from math import degrees
from typing import Any

from app.features.answer.model import Told
from app.numbers.values import number, numbers_in
from app.stance.answer import SHARES, FootAnswer
from app.stance.answer_words import bench_steps, why_words
from app.stance.mending import Mend
from app.stance.needs import Mounts
from app.stance.through import Stretches, Through
from app.words.language import in_english
from geometry.fitting.reserve import Reserve


def answer_numbers(foot: FootAnswer) -> dict[str, Any]:
    """What one binding begins with, how sure that is, and what it does over the riding bend."""
    low, high = foot.in_plane
    return {
        "start_lift_deg": number(foot.begin.lift_deg),
        "start_cant_deg": number(foot.begin.cant_deg),
        "start_lift_range_deg": numbers_in(foot.lift_range),
        "start_cant_range_deg": numbers_in(foot.cant_range),
        "in_plane_cants_deg": [low, high] if low <= high else None,
        "later_lift_deg": number(foot.later.lift_deg),
        "later_cant_deg": number(foot.later.cant_deg),
        "later_lift_range_deg": numbers_in(foot.later_lift_range),
        "later_cant_range_deg": numbers_in(foot.later_cant_range),
        "most_doubt_from": [*foot.sources],
        "as_it_stands": _through_numbers(foot.now),
        "with_both_on": _through_numbers(foot.then),
    }


def _through_numbers(through: Through) -> dict[str, Any]:
    """A leg over the riding bend; depths from one to another where something is amiss."""
    return {
        "worst_off_plane_deg": number(through.worst_deg),
        "worst_at_knee_bend_deg": number(through.worst_at_deg),
        "not_in_plane_deg": _stretches(through.out),
        "boot_left_deg": number(through.boot_left_deg),
        "boot_out_of_range_deg": _stretches(through.boot_out),
        "no_posture_deg": _stretches(through.nowhere),
    }


def _stretches(stretches: Stretches) -> list[list[float]]:
    return [[start, end] for start, end in stretches]


def beside_answer_numbers(told: Told) -> dict[str, Any]:
    """Everything beside what each binding begins with."""
    answer, inputs = told.answer, told.setup.inputs
    with in_english():
        why = {foot.name: why_words(foot, answer, inputs) for foot in answer.feet}
        steps = bench_steps(answer, inputs)
    return {
        "growing": answer.growing,
        "front_why": why["front"],
        "rear_why": why["rear"],
        "at_the_bench": steps,
        **_others(told),
        "would_mend": {name: _mend(mend) for name, mend in told.mends.items()},
        **_left(told),
    }


def _others(told: Told) -> dict[str, Any]:
    if told.others is None:
        return {}
    alone = {
        f"{name}_alone": {"lift_deg": number(mount.lift_deg), "cant_deg": number(mount.cant_deg)}
        for name, mount in told.others.alone.items()
    }
    shares = {
        f"at_{round(100 * share)}_percent_on_front": _mounts(told.others.shifted[share])
        for share in SHARES
    }
    return {**alone, **shares}


def _mounts(mounts: Mounts) -> dict[str, Any]:
    return {name: number(value) for name, value in mounts._asdict().items()}


def _mend(mend: Mend) -> dict[str, Any]:
    return {
        "stance_length_by_mm": number(mend.length_mm),
        "both_angles_by_deg": number(mend.turn_deg),
        "no_deeper_than_deg": number(mend.deepest_deg),
        "no_taller_than_deg": number(mend.tallest_deg),
    }


def _left(told: Told) -> dict[str, Any]:
    """What is left to give, and the share of the weight, as it stands and with both on."""
    if told.reserve is None or told.share is None:
        return {}
    names = ("as_it_stands", "with_both_on")
    at = number(told.setup.inputs.knee_bend_deg)
    return {
        name: {"at_knee_bend_deg": at, "front_share": number(share), **_reserve(reserve)}
        for name, share, reserve in zip(names, told.share, told.reserve, strict=True)
    }


def _reserve(reserve: Reserve) -> dict[str, Any]:
    told: dict[str, Any] = {}
    for way in ("sink", "rise", "lean_ahead", "lean_back"):
        room = getattr(reserve, way)
        told[f"{way}_mm"] = number(room.distance)
        told[f"{way}_ends_with"] = room.end or None
        told[f"{way}_passed_already"] = [
            {"end": each.end, "back_in_range_after_mm": number(each.back)} for each in room.passed
        ]
    front, rear = (number(degrees(give)) for give in reserve.side_give)
    return {**told, "front_side_give_left_deg": front, "rear_side_give_left_deg": rear}
