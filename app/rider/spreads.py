"""How surely each dimension is known: the standard errors that margins rest on.

An estimate brings its own.  Repeated measurements tell theirs; a single one is
given an experienced hand's.  A dimension of a real rider that nobody has said
anything of is as uncertain as people differ.  What a boot does counts as exact
until it is measured again and again.
"""

from __future__ import annotations

from math import degrees, hypot, radians
from typing import Final

from app.rider.inputs import FIELD, Inputs
from app.rider.setup import BOOT_NAMES, LEG_NAMES, Setup
from geometry.riders.repeats import repeats_of

MEASURED_ONCE: Final = {"mm": 5.0, "deg": 2.0}
"""Standard error of a single measurement by unit (engineering choice, no source)."""
SUREST_MM: Final = 1.0
SUREST_DEG: Final = 0.5
"""However well repeats agree, a landmark is found no better (engineering choices, no source)."""
OF_THE_RULE: Final = {"hip_spacing_mm": 10.0}
"""Standard error that stays however well one measures: hip joints are found from
the front points of the hip bones, by a share that differs among people (mm;
engineering choice, no source)."""
AMONG_PEOPLE: Final = {
    "hip_height_mm": 49.2,
    "knee_height_mm": 26.6,
    "ankle_height_mm": 5.7,
    "foot_length_mm": 13.1,
    "hip_spacing_mm": 14.4,
    "neutral_spacing_mm": 25.0,
    "knee_tracking_deg": 3.0,
}
"""Standard deviation among people.

Heights and foot: the men of ANSUR II (Gordon et al. 2014, NATICK/TR-15/007,
from its public data).  Hip spacing: 0.72 (Bell, Brand and Pedersen 1989, Human
Movement Science 8:3-16) of the 20 mm by which the front hip-bone points differ
(Augustine 2018, Clinical Anatomy, doi 10.1002/ca.23273).  Neutral spacing and
knee tracking: engineering choices, no source.
"""
LARGEST_MM: Final = 150.0


def spreads_of(setup: Setup) -> dict[str, float]:
    """Standard error of each leg dimension by its name in the geometry (mm or rad).

    None is so large that a leg shifted by it would contradict itself.
    """
    spreads = {}
    for name in LEG_NAMES:
        if FIELD[name].unit == "deg":
            spreads[name.removesuffix("_deg")] = radians(spread_of(setup, name))
        else:
            most = _largest(setup.inputs, name)
            spreads[name.removesuffix("_mm")] = min(spread_of(setup, name), most)
    return spreads


def boot_spreads_of(setup: Setup) -> dict[str, float]:
    """Standard error of what the boots do, where repeats tell it, by name in the geometry.

    In mm or rad.
    """
    errors = {name: repeats_error(setup, name) for name in BOOT_NAMES}
    return {
        name.rpartition("_")[0]: radians(error) if FIELD[name].unit == "deg" else error
        for name, error in errors.items()
        if error is not None
    }


def spread_of(setup: Setup, name: str) -> float:
    """Standard error of one leg dimension, by its name among the inputs (mm or degrees)."""
    origin = setup.origin(name)
    if origin == "estimated":
        return dict(setup.spreads)[name]
    if origin == "default" and somebody(setup):
        return AMONG_PEOPLE[name]
    return _measured(setup, name)


def somebody(setup: Setup) -> bool:
    """Whether the legs are a real rider's, at least one of them: not the demo rider's."""
    return bool(setup.measured or setup.spreads)


def unsaid(setup: Setup) -> list[str]:
    """Names of the leg dimensions that nobody has said anything of, if the rider is real."""
    if not somebody(setup):
        return []
    return [name for name in LEG_NAMES if setup.origin(name) == "default"]


def _measured(setup: Setup, name: str) -> float:
    """Standard error of a measurement, from its repeats where they made the value in force."""
    return hypot(_by_tape(setup, name), OF_THE_RULE.get(name, 0.0))


def _by_tape(setup: Setup, name: str) -> float:
    error = repeats_error(setup, name)
    return MEASURED_ONCE[FIELD[name].unit] if error is None else error


def repeats_error(setup: Setup, name: str) -> float | None:
    """Standard error of the mean of a dimension's repeats (mm or degrees).

    None where there are fewer than two, or another value is in force.
    """
    values, unit = dict(setup.repeats).get(name, ()), FIELD[name].unit
    if len(values) < 2 or abs(sum(values) / len(values) - getattr(setup.inputs, name)) >= 1.0:
        return None
    if unit == "deg":
        turns = repeats_of([radians(value) for value in values], unit)
        return max(degrees(turns.standard_error), SUREST_DEG)
    return max(repeats_of(values).standard_error, SUREST_MM)


def _largest(inputs: Inputs, name: str) -> float:
    """A standard error that leaves the length above zero and in order with its neighbours (mm)."""
    value = float(getattr(inputs, name))
    heights = (0.0, inputs.ankle_height_mm, inputs.knee_height_mm, inputs.hip_height_mm)
    gaps = [abs(value - height) for height in heights if height != value]
    apart = 0.5 * min(gaps) if name.endswith("height_mm") else value
    return min(LARGEST_MM, 0.25 * value, apart)
