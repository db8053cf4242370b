"""The solved posture as plain numbers under fixed names, for programs to read.

Lengths are mm and angles degrees, unrounded.  Points are [x, y, z] in the axes
of the geometry: x to the nose, y to the toe side, z up, from midway between the
binding centres.
"""

from __future__ import annotations

import json
from dataclasses import asdict
from math import isfinite
from typing import Any, SupportsFloat

from app.findings import LegFinding, Limits, StanceFinding, findings_of
from app.inputs import Inputs, model
from geometry import Leg, Posture, solve


def numbers(inputs: Inputs) -> dict[str, Any]:
    """All results for one stance, ready for JSON; None where there is no posture.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """
    posture = solve(*model(inputs))
    findings = findings_of(inputs, posture, Limits())
    return {
        "front": _leg_numbers(posture.front, findings.legs["front"]),
        "rear": _leg_numbers(posture.rear, findings.legs["rear"]),
        "stance": _stance_numbers(findings.stance),
        "pelvis": _pelvis_numbers(posture),
        "inputs": asdict(inputs),
    }


def as_json(inputs: Inputs) -> str:
    """The numbers as JSON text of several lines.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """
    return json.dumps(numbers(inputs), indent=2, ensure_ascii=False, allow_nan=False)


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
