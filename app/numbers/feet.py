"""Each foot by itself: its leg where it settles, what its binding needs and begins with."""

from __future__ import annotations

from dataclasses import asdict
from math import degrees, isfinite
from typing import Any, Final

from app.features.board.model import overhang_of
from app.numbers.answer import answer_numbers
from app.numbers.values import number, point
from app.rider.setup import Setup
from app.stance.answer import answer_of
from app.stance.findings import (
    BOOT_IN,
    BOOT_NEAR,
    BOOT_OUT,
    USUAL_LIMITS,
    LegFinding,
    findings_of,
)
from app.stance.needs import FootNeeds, needs_of
from app.stance.settled import settled
from geometry import Leg
from geometry.hardware.board import FootReach

NEEDED: Final = ("full_cant", "least_cant", "full_lift", "least_lift")
"""The angles told of each binding with their margins."""


_BOOT: Final = {BOOT_IN: "in range", BOOT_NEAR: "near its stop", BOOT_OUT: "past its range"}
"""What is told of where a boot is."""


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
        "boot_left_deg": number(finding.boot_left_deg),
        "boot": _BOOT[finding.boot] if isfinite(finding.boot_left_deg) else None,
        "state": finding.state,
        "reason": finding.sentence,
        "flags": [*finding.flags],
    }


def need_numbers(foot: FootNeeds) -> dict[str, Any]:
    """What one binding needs, each angle with its margin after it."""
    told: dict[str, Any] = {}
    for name in NEEDED:
        need = getattr(foot, name)
        told[f"{name}_deg"] = number(need.deg)
        told[f"{name}_margin_deg"] = number(need.margin_deg)
    return told


def reach_numbers(reach: FootReach) -> dict[str, Any]:
    """How far one boot reaches beyond the board, and the edge angle at which it touches snow."""
    sides = {"toe_side": reach.toe_side, "heel_side": reach.heel_side}
    told = {f"{name}_overhang_mm": number(side.overhang) for name, side in sides.items()}
    for name, side in sides.items():
        told[f"{name}_edge_angle_deg"] = number(degrees(float(side.edge_angle)))
    return told


def foot_numbers(setup: Setup, name: str) -> dict[str, Any]:
    """All that is told of the "front" or the "rear" foot.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """
    stood = settled(setup.inputs)
    posture, finding = stood.posture, findings_of(stood, USUAL_LIMITS).legs[name]
    needs = needs_of(setup)
    leg, need = (posture.front, needs.front) if name == "front" else (posture.rear, needs.rear)
    return {
        **leg_numbers(leg, finding),
        **need_numbers(need),
        **answer_numbers(answer_of(setup, USUAL_LIMITS).foot(name)),
        **reach_numbers(overhang_of(setup).boots[name].reach),
    }


def stance_numbers(setup: Setup) -> dict[str, Any]:
    """How the feet stand to each other, and what the rule for straight legs says of them."""
    stance = findings_of(settled(setup.inputs), USUAL_LIMITS).stance
    return {
        **{name: number(value) for name, value in asdict(stance).items()},
        **{
            f"{foot.name}_straight_leg_cant_margin_deg": number(foot.straight_leg.margin_deg)
            for foot in needs_of(setup).feet
        },
    }


def pelvis_numbers(setup: Setup) -> dict[str, Any]:
    """Where the pelvis settles, and the middle of the body's mass."""
    posture = settled(setup.inputs).posture
    return {
        "depth_mm": number(posture.depth),
        "height_mm": number(posture.height),
        "mass_centre_mm": [number(each) for each in posture.mass_centre],
    }
