"""Web pages of set-ups, written to files, and what the program says of the same stances."""

from __future__ import annotations

import random
from datetime import date
from math import degrees
from pathlib import Path
from typing import Any

from browser import Page

from app.features.webpage.document import web_page
from app.features.webpage.model import TOLD, told_inputs
from app.rider.inputs import DEFAULTS, OF_LEG, Inputs, changed
from app.rider.setup import Setup
from app.stance.settled import settled

ON = date(2026, 1, 31)


def written(setup: Setup, file: Path, **told: Any) -> Path:
    file.write_bytes(web_page(setup, ON, **told))
    return file


def random_inputs(dice: random.Random) -> Inputs:
    """A stance from anywhere on the sliders, mostly near a rider's; the legs unequal."""
    changes: dict[str, Any] = {"lead_foot": dice.choice(("left", "right"))}
    for field in TOLD:
        names = [f"{side}_{field.name}" for side in ("left", "right")]
        for name in names if field.name in OF_LEG else [field.name]:
            usual, wide = DEFAULTS.value(field.name), 0.5 * (field.high - field.low)
            value = usual + wide * dice.uniform(-1.0, 1.0) * dice.choice((0.1, 0.3, 0.7))
            changes[name] = min(max(value, field.low), field.high)
    for side in ("left", "right"):
        hip, ankle = changes[f"{side}_hip_height_mm"], changes[f"{side}_ankle_height_mm"]
        share = dice.uniform(0.42, 0.58)
        knee = ankle + share * (hip - ankle)
        changes[f"{side}_knee_height_mm"] = min(max(knee, 200.0), 650.0)
    return changed(DEFAULTS, **changes)


def address(inputs: Inputs) -> str:
    """The address that sets every input, those of legs by their sides."""
    told = told_inputs(inputs)
    flat = {name: value for name, value in told.items() if not isinstance(value, dict)}
    flat |= {f"{s}_{name}": v for s in ("left", "right") for name, v in told[s].items()}
    return "&".join(f"{name}={value}" for name, value in flat.items())


def off_plane(shown: Page) -> list[float]:
    found: list[float] = shown.value(
        "ENDS.map((end) => Number(byId(`${end}-off-plane`).dataset.value))"
    )
    return found


def here(inputs: Inputs) -> list[float]:
    return [degrees(float(leg.off_plane)) for leg in settled(inputs).posture.legs]
