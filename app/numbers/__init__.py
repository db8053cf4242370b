"""The solved posture as plain numbers under fixed names, for programs to read.

Lengths are mm and angles degrees, unrounded.  Points are [x, y, z] in the axes
of the geometry: x to the nose, y to the toe side, z up, from midway between the
binding centres.  Cants are positive inward, lifts toe up; a margin is the standard
error of the angle before it.
"""

from __future__ import annotations

import json
from dataclasses import asdict
from math import degrees, isfinite
from typing import Any, Final, SupportsFloat

from app.findings import USUAL_LIMITS, LegFinding, StanceFinding, findings_of
from app.inputs import model
from app.setup import Setup
from app.tools.needs import FootNeeds, needs_of
from app.tools.overhang import overhang_of
from app.tools.range_needs import RangeNeeds, range_needs_of
from geometry import Leg, Posture, solve
from geometry.hardware.board import FootReach

NEEDED: Final = (
    "full_cant", "least_cant", "full_lift", "least_lift", "start_cant", "start_lift",
)  # fmt: skip
"""The angles told of each binding."""


def numbers(setup: Setup) -> dict[str, Any]:
    """All results for one set-up, ready for JSON; None where there is no answer.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """
    posture = solve(*model(setup.inputs))
    findings = findings_of(setup.inputs, posture, USUAL_LIMITS)
    needs, best = needs_of(setup), range_needs_of(setup)
    boots = overhang_of(setup).boots
    legs = ((posture.front, needs.front), (posture.rear, needs.rear))
    feet = {
        foot.name: {
            **_leg_numbers(leg, findings.legs[foot.name]),
            **_foot_numbers(foot),
            **_range_numbers(foot.name, best),
            **_reach_numbers(boots[foot.name].reach),
        }
        for leg, foot in legs
    }
    straight_margin = _number(needs.straight_leg.margin_deg)
    return {
        **feet,
        "stance": {
            **_stance_numbers(findings.stance),
            "straight_leg_cant_margin_deg": straight_margin,
        },
        "pelvis": _pelvis_numbers(posture),
        "range": {
            "tallest_deg": _number(best.tallest_deg),
            "deepest_deg": _number(best.deepest_deg),
            "hips_turned_deg": _number(best.turn_deg),
        },
        "inputs": asdict(setup.inputs),
    }


def as_json(setup: Setup) -> str:
    """The numbers as JSON text of several lines.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """
    return json.dumps(numbers(setup), indent=2, ensure_ascii=False, allow_nan=False)


def _leg_numbers(leg: Leg, finding: LegFinding) -> dict[str, Any]:
    """One leg's numbers.  The ankle stands where the boot does, posture or not."""
    return {
        "ankle_mm": _point(leg.ankle),
        "knee_mm": _point(leg.knee),
        "hip_mm": _point(leg.hip),
        "off_plane_deg": _number(finding.off_plane_deg),
        "knee_flexion_deg": _number(finding.knee_flexion_deg),
        "boot_flex_deg": _number(finding.boot_flex_deg),
        "wanted_give_deg": _number(finding.wanted_give_deg),
        "state": finding.state,
        "reason": finding.sentence,
    }


def _foot_numbers(foot: FootNeeds) -> dict[str, Any]:
    """What one binding needs, each angle with its margin after it."""
    told: dict[str, Any] = {}
    for name in NEEDED:
        need = getattr(foot, name)
        told[f"{name}_deg"] = _number(need.deg)
        told[f"{name}_margin_deg"] = _number(need.margin_deg)
    return told


def _range_numbers(name: str, found: RangeNeeds) -> dict[str, Any]:
    """What suits one foot over the whole bend, and the worst of its knee now and then."""
    which = ("front", "rear").index(name)
    return {
        "range_cant_deg": _number(getattr(found.best, f"{name}_cant_deg")),
        "range_lift_deg": _number(getattr(found.best, f"{name}_lift_deg")),
        "range_worst_off_plane_deg": _number(found.worst_now_deg[which]),
        "range_best_off_plane_deg": _number(found.worst_then_deg[which]),
    }


def _reach_numbers(reach: FootReach) -> dict[str, Any]:
    """How far one boot reaches beyond the board, and the edge angle at which it touches snow."""
    sides = {"toe_side": reach.toe_side, "heel_side": reach.heel_side}
    told = {f"{name}_overhang_mm": _number(side.overhang) for name, side in sides.items()}
    angles = {
        f"{name}_edge_angle_deg": _number(degrees(float(side.edge_angle)))
        for name, side in sides.items()
    }
    return {**told, **angles}


def _stance_numbers(stance: StanceFinding) -> dict[str, Any]:
    return {name: _number(value) for name, value in asdict(stance).items()}


def _pelvis_numbers(posture: Posture) -> dict[str, Any]:
    return {"depth_mm": _number(posture.depth), "height_mm": _number(posture.height)}


def _number(value: SupportsFloat) -> float | None:
    """A finite number, or None for what JSON has no word for."""
    plain = float(value)
    return plain if isfinite(plain) else None


def _point(xyz: Any) -> list[float] | None:
    """Three finite coordinates, or None."""
    return [float(each) for each in xyz] if all(map(isfinite, xyz)) else None
