"""Each leg where it settles, what its binding needs, and how far its boot reaches."""

from __future__ import annotations

from math import degrees
from typing import Any, Final

from app.numbers.values import number, numbers_in, point
from app.stance.answer import FootAnswer
from app.stance.findings import LegFinding
from app.stance.needs import FootNeeds
from app.stance.through import Stretches, Through
from geometry import Leg
from geometry.hardware.board import FootReach

NEEDED: Final = ("full_cant", "least_cant", "full_lift", "least_lift")
"""The angles told of each binding with their margins."""


def leg_numbers(leg: Leg, finding: LegFinding) -> dict[str, Any]:
    """One leg's numbers.  The ankle stands where the boot does, posture or not."""
    return {
        "ankle_mm": point(leg.ankle),
        "knee_mm": point(leg.knee),
        "hip_mm": point(leg.hip),
        "off_plane_deg": number(finding.off_plane_deg),
        "knee_flexion_deg": number(finding.knee_flexion_deg),
        "boot_flex_deg": number(finding.boot_flex_deg),
        "wanted_give_deg": number(finding.wanted_give_deg),
        "state": finding.state,
        "reason": finding.sentence,
    }


def need_numbers(foot: FootNeeds) -> dict[str, Any]:
    """What one binding needs, each angle with its margin after it."""
    told: dict[str, Any] = {}
    for name in NEEDED:
        need = getattr(foot, name)
        told[f"{name}_deg"] = number(need.deg)
        told[f"{name}_margin_deg"] = number(need.margin_deg)
    return told


def answer_numbers(foot: FootAnswer) -> dict[str, Any]:
    """What one binding begins with, how sure that is, and what it does over the riding bend."""
    low, high = foot.in_plane
    return {
        "start_lift_deg": number(foot.begin.lift_deg),
        "start_cant_deg": number(foot.begin.cant_deg),
        "start_lift_range_deg": numbers_in(foot.lift_range),
        "start_cant_range_deg": numbers_in(foot.cant_range),
        "in_plane_cants_deg": [low, high] if low <= high else None,
        "whole_lift_deg": number(foot.whole.lift_deg),
        "whole_cant_deg": number(foot.whole.cant_deg),
        "most_doubt_from": foot.source or None,
        "as_it_stands": _through_numbers(foot.now),
        "with_both_on": _through_numbers(foot.then),
    }


def _through_numbers(through: Through) -> dict[str, Any]:
    """A leg over the riding bend; depths from one to another where something is amiss."""
    return {
        "worst_off_plane_deg": number(through.worst_deg),
        "worst_at_knee_bend_deg": number(through.worst_at_deg),
        "out_of_plane_deg": _stretches(through.out),
        "boot_left_deg": number(through.boot_left_deg),
        "boot_out_of_range_deg": _stretches(through.boot_out),
        "no_posture_deg": _stretches(through.nowhere),
    }


def _stretches(stretches: Stretches) -> list[list[float]]:
    return [[start, end] for start, end in stretches]


def reach_numbers(reach: FootReach) -> dict[str, Any]:
    """How far one boot reaches beyond the board, and the edge angle at which it touches snow."""
    sides = {"toe_side": reach.toe_side, "heel_side": reach.heel_side}
    told = {f"{name}_overhang_mm": number(side.overhang) for name, side in sides.items()}
    angles = {
        f"{name}_edge_angle_deg": number(degrees(float(side.edge_angle)))
        for name, side in sides.items()
    }
    return {**told, **angles}
