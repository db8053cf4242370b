"""The rider's legs: each dimension, where it comes from and how surely it is known."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from app.setup import LEG_NAMES, Setup
from app.tools.measuring import finding_words, repeats_named
from app.tools.spreads import spread_of


def body_numbers(setup: Setup) -> dict[str, Any]:
    """Every leg dimension with its standard error, and what estimates rest on."""
    legs = {name.rpartition("_")[0]: _dimension(setup, name) for name in LEG_NAMES}
    return {**legs, "known": asdict(setup.known)}


def _dimension(setup: Setup, name: str) -> dict[str, Any]:
    unit = name.rpartition("_")[2]
    return {
        f"value_{unit}": float(getattr(setup.inputs, name)),
        f"standard_error_{unit}": spread_of(setup, name),
        "origin": setup.origin(name),
        f"repeats_{unit}": list(repeats_named(setup, name)),
        "remark": finding_words(setup, name) or None,
    }
