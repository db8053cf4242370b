"""Legs and boots: each dimension, where it comes from and how surely it is known."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from app.features.measuring.model import finding_words, repeats_named
from app.rider.setup import BOOTS, LEGS, Setup
from app.rider.spreads import repeats_error, spread_of


def body_numbers(setup: Setup) -> dict[str, Any]:
    """Every dimension of legs and boots with its standard error, and what estimates rest on."""
    legs = {name.rpartition("_")[0]: _dimension(setup, name) for name in setup.names_told(LEGS)}
    boots = {name.rpartition("_")[0]: _boots(setup, name) for name in setup.names_told(BOOTS)}
    return {**legs, "boots": boots, "cuffs": setup.cuffs or None, "known": asdict(setup.known)}


def _dimension(setup: Setup, name: str) -> dict[str, Any]:
    unit = name.rpartition("_")[2]
    return {
        f"value_{unit}": setup.inputs.value(name),
        f"standard_error_{unit}": spread_of(setup, name),
        "origin": setup.origin(name),
        f"repeats_{unit}": list(repeats_named(setup, name)),
        "remark": finding_words(setup, name) or None,
    }


def _boots(setup: Setup, name: str) -> dict[str, Any]:
    """What boots do, exact unless repeats tell how surely it is known."""
    unit = name.rpartition("_")[2]
    return {
        f"value_{unit}": setup.inputs.value(name),
        f"standard_error_{unit}": repeats_error(setup, name),
        f"repeats_{unit}": list(repeats_named(setup, name)),
        "remark": finding_words(setup, name) or None,
    }
