"""One rider's set-up: the inputs, and where each leg dimension comes from."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from app.inputs import DEFAULTS, FIELDS, Inputs, changed

LEG_NAMES: Final = tuple(field.name for field in FIELDS if field.group == "legs")

FIGURES: Final = ("either", "men", "women")
"""Whose published body figures an estimate rests on."""


@dataclass(frozen=True, slots=True)
class Known:
    """What a newcomer can say of the body without measuring a leg.

    Attributes:
        figures: whose figures the estimates rest on, one of :data:`FIGURES`.
        stature_mm: standing height, barefoot.
        inseam_mm: floor to crotch, barefoot.
        sitting_knee_mm: floor to the top of the knee, seated, barefoot.
    """

    figures: str = "either"
    stature_mm: float | None = None
    inseam_mm: float | None = None
    sitting_knee_mm: float | None = None


@dataclass(frozen=True, slots=True)
class Setup:
    """Inputs with their origin.

    Attributes:
        inputs: the values in force.
        known: what the estimates rest on.
        measured: names of the leg dimensions that were measured by hand.
        spreads: standard error of each estimated dimension (name, value).
        name: what the user calls the set-up.
    """

    inputs: Inputs = DEFAULTS
    known: Known = Known()
    measured: frozenset[str] = frozenset()
    spreads: tuple[tuple[str, float], ...] = ()
    name: str = "Demo rider"

    def origin(self, name: str) -> str:
        """Whether a leg dimension is "measured", "estimated" or "default": where it comes from."""
        if name in self.measured:
            return "measured"
        return "estimated" if name in dict(self.spreads) else "default"


def edited(setup: Setup, **changes: float | str) -> Setup:
    """The set-up with some inputs changed by hand: leg dimensions become measured.

    Raises:
        InputError: a name is unknown or a value cannot be taken.
    """
    inputs = changed(setup.inputs, **changes)
    by_hand = {
        name
        for name in LEG_NAMES
        if name in changes and getattr(inputs, name) != getattr(setup.inputs, name)
    }
    return replace(setup, inputs=inputs, measured=setup.measured | by_hand)
