"""One rider's set-up: the inputs, and where each leg dimension comes from."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache
from typing import Any, Final, cast

from app.rider.board import USUAL_BOARD, BoardInputs
from app.rider.inputs import DEFAULTS, FIELD, FIELDS, Inputs, changed, default_of
from app.rider.parts import NO_PARTS, Parts
from app.rider.trials import Entry
from app.rider.wedge import USUAL_WEDGE, WedgeInputs
from app.words.field import Field, adjustable, fields_of
from geometry.riders.estimates import (
    Estimate,
    Figures,
    KnownLengths,
    estimated_ankle_height,
    estimated_foot_length,
    estimated_hip_height,
    estimated_hip_spacing,
    estimated_knee_height,
)

LEG_NAMES: Final = tuple(field.name for field in FIELDS if field.group == "legs")
BOOT_NAMES: Final = tuple(field.name for field in FIELDS if field.group == "boots")

FIGURES: Final = ("either", "men", "women")
"""Whose published body figures an estimate rests on."""

LONGEST_NAME: Final = 80
LONGEST_NOTES: Final = 2000
"""Letters that can be typed; a file with more is taken whole."""

LEAST_THIGH_MM: Final = 50.0
"""How far an estimated knee stays below the hip (engineering choice, no source)."""


@dataclass(frozen=True, slots=True)
class Known:
    """What a newcomer can say of the body without measuring a leg.

    Attributes:
        figures: whose figures the estimates rest on, one of :data:`FIGURES`.
    """

    # fmt: off
    figures: str = "either"
    stature_mm: float | None = adjustable(
        None, "known", "Height", "mm", 1000.0, 2200.0, 5.0,
        "Your standing height, barefoot, from the floor to the top of the head.",
    )
    inseam_mm: float | None = adjustable(
        None, "known", "Inseam", "mm", 400.0, 1100.0, 5.0,
        "Barefoot, from the floor to the crotch: where a book, held level and pulled up "
        "firmly between the legs, marks the wall.",
    )
    sitting_knee_mm: float | None = adjustable(
        None, "known", "Knee height, seated", "mm", 250.0, 750.0, 5.0,
        "Barefoot and seated with the knee bent square, from the floor to the top of the knee.",
    )
    # fmt: on


KNOWN_FIELDS: Final = fields_of(Known)
"""What can be said of a body without feeling for its joints."""


@dataclass(frozen=True, slots=True)
class Setup:
    """Inputs with their origin.

    Attributes:
        inputs: the values in force.
        known: what the estimates rest on.
        measured: names of the leg dimensions that were measured by hand.
        spreads: standard error of each estimated dimension (name, value).
        name: what the user calls the set-up.
        notes: whatever the user wrote about it, in lines.
        repeats: what was measured several times, by name (mm or degrees); the mean is
            in force unless another value was set by hand since.
        trials: what was tried, oldest first.
        board: what overhang depends on.
        wedge: what a printed wedge is made to.
        parts: what there is to build mounts from.
    """

    inputs: Inputs = DEFAULTS
    known: Known = Known()
    measured: frozenset[str] = frozenset()
    spreads: tuple[tuple[str, float], ...] = ()
    name: str = "Demo rider"
    notes: str = ""
    repeats: tuple[tuple[str, tuple[float, ...]], ...] = ()
    trials: tuple[Entry, ...] = ()
    board: BoardInputs = USUAL_BOARD
    wedge: WedgeInputs = USUAL_WEDGE
    parts: Parts = NO_PARTS

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


@cache
def estimates(known: Known) -> dict[str, tuple[float, float]]:
    """What can be estimated of the legs: by name, the value and its standard error (mm).

    Values are whole millimetres within the range of their input.  Without any
    length known, or from lengths that contradict each other, there are none.
    """
    try:
        found = _published(known)
    except ValueError:
        return {}
    return {
        name: (_on_scale(FIELD[name], float(value)), float(error))
        for name, (value, error) in found.items()
    }


def _published(known: Known) -> dict[str, Estimate]:
    """The estimates as they come; none without any length known."""
    lengths = KnownLengths(known.stature_mm, known.inseam_mm, known.sitting_knee_mm)
    if all(length is None for length in lengths):
        return {}
    whose = cast(Figures, known.figures)
    return {
        "hip_height_mm": estimated_hip_height(lengths, whose),
        "knee_height_mm": estimated_knee_height(lengths, whose),
        "ankle_height_mm": estimated_ankle_height(lengths, whose),
        "foot_length_mm": estimated_foot_length(lengths, whose),
        "hip_spacing_mm": estimated_hip_spacing(),
    }


def _on_scale(field: Field, value: float) -> float:
    return min(max(float(round(value)), field.low), field.high)


def estimated(setup: Setup, **known: Any) -> Setup:
    """The set-up with more (or less) known of the body, and estimates from it.

    Measured dimensions stay.  Every other one takes its estimate; where nothing
    known bears on it any more it goes back to the demo rider's.

    Raises:
        ImpossibleError: the known lengths contradict each other.
    """
    setup = replace(setup, known=replace(setup.known, **known))
    _published(setup.known)
    concerned = {*estimates(setup.known), *dict(setup.spreads)} - setup.measured
    return _with_estimates(setup, concerned)


def as_estimated(setup: Setup, name: str) -> Setup:
    """The set-up with one leg dimension taken as estimated, not as measured.

    Where there is no estimate it becomes the demo rider's.
    """
    return _with_estimates(replace(setup, measured=setup.measured - {name}), {name})


def unmeasured(known: Known, name: str) -> float:
    """What a leg dimension is when nobody measured it: an estimate or the demo rider's."""
    value, _ = estimates(known).get(name, (default_of(FIELD[name]), 0.0))
    return value


def _with_estimates(setup: Setup, names: set[str]) -> Setup:
    """The set-up with these leg dimensions as they are when nobody measured them."""
    given = estimates(setup.known)
    values = {name: unmeasured(setup.known, name) for name in names}
    spreads = {name: spread for name, spread in setup.spreads if name not in names}
    spreads |= {name: given[name][1] for name in names if name in given}
    return replace(
        setup,
        inputs=changed(setup.inputs, **_in_order(setup.inputs, values)),
        spreads=tuple(sorted(spreads.items())),
    )


def _in_order(inputs: Inputs, values: dict[str, float]) -> dict[str, float]:
    """New values such that the knee stays below the hip; what was measured does not move."""
    hip = values.get("hip_height_mm", inputs.hip_height_mm)
    knee = values.get("knee_height_mm", inputs.knee_height_mm)
    if hip - knee >= LEAST_THIGH_MM:
        return values
    if "knee_height_mm" in values:
        return {**values, "knee_height_mm": hip - LEAST_THIGH_MM}
    if "hip_height_mm" in values:
        return {**values, "hip_height_mm": knee + LEAST_THIGH_MM}
    return values
