"""How surely each dimension is known: the standard errors that ranges and margins rest on.

An estimate brings its own.  Repeated measurements tell theirs; a single one is
given an experienced hand's.  A dimension of a real rider that nobody has said
anything of is as uncertain as people differ.  What a boot does counts as exact
until it is measured again and again, but for the little that nobody sees.
"""

from __future__ import annotations

from itertools import product
from math import degrees, hypot, radians
from typing import Final

from app.rider.inputs import ENDS, FIELD, SIDES, Inputs, side_and_name, told_together
from app.rider.setup import BOOT_NAMES, BOOTS, LEG_NAMES, LEGS, Setup, known_correlations, somebody
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
OF_POSTURE: Final = {"hip_shift": 15.0, "side_give": radians(1.0)}
"""What nobody measures: where the hips are held sideways (mm), and what boot and ankle
give (rad; engineering choices, no source)."""
CUFFS_UNKNOWN: Final = radians(2.0)
"""Standard error of how a cuff leans that nobody has adjusted (rad; engineering choice,
no source)."""


def spreads_of(setup: Setup) -> dict[str, float]:
    """Standard error of each leg dimension by its name in the geometry (mm or rad).

    None is so large that a leg shifted by it would contradict itself.  A name without
    an end of the board is one error in both legs: they are measured as one.
    """
    spreads = {}
    for name in LEG_NAMES:
        for of_geometry in _in_geometry(setup, name, LEGS):
            error = spread_of(setup, name)
            spreads[of_geometry] = (
                radians(error)
                if FIELD[name].unit == "deg"
                else min(error, _largest(setup.inputs, name))
            )
    return spreads


def correlations_of(setup: Setup) -> dict[tuple[str, str], float]:
    """How far the errors of estimated dimensions go together, by names as in :func:`spreads_of`.

    What is estimated from one stature is wrong together, in both legs.
    """
    estimated = [
        (side_and_name(name)[1], _in_geometry(setup, name, LEGS))
        for name in LEG_NAMES
        if setup.origin(name) == "estimated"
    ]
    known = known_correlations(setup.known)
    found: dict[tuple[str, str], float] = {}
    for (one, ones), (other, others) in product(estimated, estimated):
        bare = one, other
        together = 1.0 if one == other else known.get(bare, known.get(bare[::-1], 0.0))
        for pair in product(ones, others):
            if together and pair[0] != pair[1] and pair[::-1] not in found:
                found[pair] = together
    return found


def boot_spreads_of(setup: Setup) -> dict[str, float]:
    """Standard error of what the boots do, where repeats tell it, by name in the geometry.

    In mm or rad.
    """
    found = {}
    for name in BOOT_NAMES:
        error = repeats_error(setup, name)
        if error is not None:
            for of_geometry in _in_geometry(setup, name, BOOTS):
                found[of_geometry] = radians(error) if FIELD[name].unit == "deg" else error
    return found


def answer_spreads_of(setup: Setup) -> dict[str, float]:
    """Standard error of everything that the answer rests on, by name in the geometry (mm or rad).

    On top of legs and boots what nobody measures: the hips held a little to one side,
    a boot that gives a little more or less, a cuff that nobody has adjusted.
    """
    told = boot_spreads_of(setup)
    measured = any("side_give" in name for name in told)
    given = {} if measured else {"side_give": OF_POSTURE["side_give"]}
    cuffs = {} if setup.cuffs else {f"{end}_cuff_offset": CUFFS_UNKNOWN for end in ENDS}
    return {**spreads_of(setup), "hip_shift": OF_POSTURE["hip_shift"], **given, **cuffs, **told}


def _in_geometry(setup: Setup, name: str, group: str) -> tuple[str, ...]:
    """What the geometry calls a number of a leg or a boot.

    One that counts for both is told by the left one's name alone.
    """
    side, of_leg = side_and_name(name)
    plain = of_leg.rpartition("_")[0]
    if not side:
        return (plain,)
    if setup.is_apart(group):
        return (f"{'front' if setup.inputs.side('front') == side else 'rear'}_{plain}",)
    return (plain,) if side == SIDES[0] else ()


def spread_of(setup: Setup, name: str) -> float:
    """Standard error of one leg dimension, by its name among the inputs (mm or degrees).

    Without a side it is that of the leg that stands in front.
    """
    name = setup.inputs.in_front(name)
    origin = setup.origin(name)
    if origin == "estimated":
        return dict(setup.spreads)[name]
    if origin in {"default", "example"} and somebody(setup):
        return AMONG_PEOPLE[side_and_name(name)[1]]
    return _measured(setup, name)


def unsaid(setup: Setup) -> list[str]:
    """Names of the leg dimensions that nobody has said anything of, if the rider is real.

    One that nobody has said of either side stands there once, without a side.
    """
    if not somebody(setup):
        return []
    return told_together(name for name in LEG_NAMES if setup.origin(name) in {"default", "example"})


def _measured(setup: Setup, name: str) -> float:
    """Standard error of a measurement, from its repeats where they made the value in force."""
    return hypot(_by_tape(setup, name), OF_THE_RULE.get(side_and_name(name)[1], 0.0))


def _by_tape(setup: Setup, name: str) -> float:
    error = repeats_error(setup, name)
    return MEASURED_ONCE[FIELD[name].unit] if error is None else error


def repeats_error(setup: Setup, name: str) -> float | None:
    """Standard error of the mean of a dimension's repeats (mm or degrees).

    None where there are fewer than two, or another value is in force.
    """
    name, unit = setup.inputs.in_front(name), FIELD[name].unit
    values = dict(setup.repeats).get(name, ())
    if len(values) < 2 or abs(sum(values) / len(values) - setup.inputs.value(name)) >= 1.0:
        return None
    if unit == "deg":
        turns = repeats_of([radians(value) for value in values], unit)
        return max(degrees(turns.standard_error), SUREST_DEG)
    return max(repeats_of(values).standard_error, SUREST_MM)


def _largest(inputs: Inputs, name: str) -> float:
    """A standard error that leaves the length above zero and in order with its neighbours (mm)."""
    value = inputs.value(name)
    side, of_leg = side_and_name(name)
    if not of_leg.endswith("height_mm"):
        return min(LARGEST_MM, 0.25 * value, value)
    leg = inputs.left if side == "left" else inputs.right
    heights = (0.0, leg.ankle_height_mm, leg.knee_height_mm, leg.hip_height_mm)
    gaps = [abs(value - height) for height in heights if height != value]
    return min(LARGEST_MM, 0.25 * value, 0.5 * min(gaps))
