"""Each leg where it settles, what its binding needs, and how far its boot reaches."""

from __future__ import annotations

from math import degrees
from typing import Any, Final

from app.features.needs.model import RangeNeeds
from app.numbers.values import number, point
from app.stance.findings import LegFinding
from app.stance.needs import FootNeeds
from geometry import Leg
from geometry.hardware.board import FootReach

NEEDED: Final = (
    "full_cant", "least_cant", "full_lift", "least_lift", "start_cant", "start_lift",
)  # fmt: skip
"""The angles told of each binding."""


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


def range_numbers(name: str, found: RangeNeeds) -> dict[str, Any]:
    """What suits one foot over the whole bend, and the worst of its knee now and then."""
    which = ("front", "rear").index(name)
    return {
        "range_cant_deg": number(getattr(found.best, f"{name}_cant_deg")),
        "range_lift_deg": number(getattr(found.best, f"{name}_lift_deg")),
        "range_worst_off_plane_deg": number(found.worst_now_deg[which]),
        "range_best_off_plane_deg": number(found.worst_then_deg[which]),
    }


def reach_numbers(reach: FootReach) -> dict[str, Any]:
    """How far one boot reaches beyond the board, and the edge angle at which it touches snow."""
    sides = {"toe_side": reach.toe_side, "heel_side": reach.heel_side}
    told = {f"{name}_overhang_mm": number(side.overhang) for name, side in sides.items()}
    angles = {
        f"{name}_edge_angle_deg": number(degrees(float(side.edge_angle)))
        for name, side in sides.items()
    }
    return {**told, **angles}
