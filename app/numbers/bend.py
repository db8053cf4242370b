"""The legs through the whole bend and over turned hips."""

from __future__ import annotations

from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from app.features.bend.model import Bend, Curves
from app.numbers.values import nothing, number, numbers_in
from app.stance.findings import Limits

LEGS: Final = ("front", "rear")
MOVEMENTS: Final = {"over_bend": "knee_bend", "over_turn": "hips_turned"}
"""The two movements, and what rises along each."""


def bend_numbers(bend: Bend, limits: Limits) -> dict[str, Any]:
    """The worst of each knee, and the flex of each boot, along both movements."""
    if np.isnan(bend.over_bend.settled[0]):
        return nothing(MOVEMENTS, "no posture settles at any bend")
    along = zip(MOVEMENTS.items(), bend.curves, strict=True)
    told = {name: _movement(what, curves, limits) for (name, what), curves in along}
    return {**told, "reason": None}


def curves_numbers(bend: Bend) -> dict[str, Any]:
    """Both movements point by point."""
    along = zip(MOVEMENTS.items(), bend.curves, strict=True)
    return {name: _curves(what, curves) for (name, what), curves in along}


def _movement(what: str, curves: Curves, limits: Limits) -> dict[str, Any]:
    least, largest = curves.settled
    legs = {
        leg: _along(what, (curves.x, curves.off_plane[i], curves.boot_flex[i]), limits)
        for i, leg in enumerate(LEGS)
    }
    return {f"least_{what}_deg": number(least), f"largest_{what}_deg": number(largest), **legs}


def _along(
    what: str, curve: tuple[NDArray[Any], NDArray[Any], NDArray[Any]], limits: Limits
) -> dict[str, Any]:
    """One leg along one movement; all of it None where no posture settles."""
    names = (
        "worst_off_plane_deg", f"worst_at_{what}_deg", "share_in_plane",
        "least_boot_flex_deg", "largest_boot_flex_deg",
    )  # fmt: skip
    there = np.isfinite(curve[1])
    if not there.any():
        return dict.fromkeys(names)
    x, off_plane, flex = (values[there] for values in curve)
    worst = np.argmax(np.abs(off_plane))
    share = np.mean(np.abs(off_plane) <= limits.in_plane_deg)
    values = off_plane[worst], x[worst], share, flex.min(), flex.max()
    return dict(zip(names, map(float, values), strict=True))


def _curves(what: str, curves: Curves) -> dict[str, Any]:
    told: dict[str, Any] = {f"{what}_deg": numbers_in(curves.x)}
    for i, leg in enumerate(LEGS):
        told[f"{leg}_off_plane_deg"] = numbers_in(curves.off_plane[i])
        told[f"{leg}_boot_flex_deg"] = numbers_in(curves.boot_flex[i])
    return told
