"""What can be said of a rider's legs before they are measured, and how surely.

Straight lines through the figures of a large survey give the heights of hip,
knee and ankle and the length of the foot from what a newcomer knows: stature,
inseam, knee height seated.  Each comes with the standard error of a single
person's value.  Of several lines whose measurements are known, the one with the
smallest standard error speaks; of a rider of whom nothing is known, the survey's
mean and standard deviation do.

Lines and figures: ANSUR II (Gordon et al. 2014, *2012 Anthropometric Survey of
U.S. Army Personnel: Methods and Summary Statistics*, NATICK/TR-15/007), fitted
to its public data: 4082 men and 1986 women from 17 to 58 years, barefoot.  They
are grown-ups; for children see :mod:`geometry.riders.growth`.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import reduce
from typing import Literal, NamedTuple, TypeAlias

from geometry.checks import require_between, require_order
from geometry.elementary import Real, smaller, sqrt, where

Figures: TypeAlias = Literal["either", "men", "women"]
"""Whose figures an estimate rests on.  "either" takes the rider for a man or a
woman with equal chances: the mean of both estimates, its error widened by how far
they lie apart."""


class Estimate(NamedTuple):
    """A value and the standard error of a single person's value (mm, mm)."""

    value: Real
    standard_error: Real


class _Line(NamedTuple):
    """A straight line through a survey: the constant, a slope for each measurement."""

    constant: float
    stature: float
    inseam: float
    sitting_knee_height: float
    standard_error: float


_LINES: dict[str, dict[str, tuple[_Line, ...]]] = {
    "men": {
        "hip_height": (
            _Line(900.9, 0.0, 0.0, 0.0, 49.2),
            _Line(-169.9, 0.6098, 0.0, 0.0, 25.9),
            _Line(77.9, 0.0, 0.9729, 0.0, 19.3),
            _Line(-35.2, 0.1649, 0.7643, 0.0, 18.4),
        ),
        "knee_height": (
            _Line(491.7, 0.0, 0.0, 0.0, 26.6),
            _Line(-93.1, 0.3330, 0.0, 0.0, 13.6),
            _Line(50.3, 0.0, 0.5218, 0.0, 10.9),
            _Line(-2.8, 0.0, 0.0, 0.8923, 9.2),
        ),
        "ankle_height": (
            _Line(72.9, 0.0, 0.0, 0.0, 5.7),
            _Line(5.0, 0.0387, 0.0, 0.0, 5.0),
        ),
        "foot_length": (
            _Line(271.2, 0.0, 0.0, 0.0, 13.1),
            _Line(30.1, 0.1373, 0.0, 0.0, 9.1),
        ),
    },
    "women": {
        "hip_height": (
            _Line(845.4, 0.0, 0.0, 0.0, 44.7),
            _Line(-126.9, 0.5970, 0.0, 0.0, 23.0),
            _Line(113.7, 0.0, 0.9352, 0.0, 15.9),
            _Line(5.4, 0.1610, 0.7386, 0.0, 15.0),
        ),
        "knee_height": (
            _Line(465.9, 0.0, 0.0, 0.0, 27.1),
            _Line(-84.4, 0.3379, 0.0, 0.0, 16.3),
            _Line(34.2, 0.0, 0.5518, 0.0, 11.4),
            _Line(-7.8, 0.0, 0.0, 0.9265, 10.4),
        ),
        "ankle_height": (
            _Line(62.8, 0.0, 0.0, 0.0, 5.1),
            _Line(6.0, 0.0348, 0.0, 0.0, 4.6),
        ),
        "foot_length": (
            _Line(246.3, 0.0, 0.0, 0.0, 12.4),
            _Line(18.5, 0.1399, 0.0, 0.0, 8.6),
        ),
    },
}
"""By whose figures and by dimension, the lines in the same order for men and women."""

USUAL_HIP_SPACING = Estimate(170.0, 14.4)
"""Between the hip joint centres when nothing is known (mm): 0.72 of the distance
between the front hip-bone points, 238 mm with a standard deviation of 20 in
grown-ups (Augustine 2018, Clin Anat, doi 10.1002/ca.23273)."""
_BELL_ERROR = 10.0
"""Of 0.72 times the measured distance (mm; engineering choice, no source)."""
_HARRINGTON_ERROR, _HARA_ERROR = 6.4, 7.6
"""Twice the leave-one-out error sideways of one hip joint centre, 3.2 and 3.8 mm
(figures of the two papers, seen second-hand)."""

HIP_SPACING_PER_LEG = 2.0 * 0.086
"""How much the hip spacing grows with the length of a leg (Hara et al. 2016)."""
NEUTRAL_PER_LEG, NEUTRAL_ERROR = 0.111, 25.0
"""By how much the neutral spacing exceeds the hip spacing, over the height of the hip
above the ankle, and how far off that may be (mm).  Both are guesses: engineering
choices, no source."""


class KnownLengths(NamedTuple):
    """Measurements that a newcomer may know of, barefoot (mm); None where unknown.

    Attributes:
        stature: standing height.
        inseam: floor to crotch, standing.
        sitting_knee_height: floor to the top of the knee, seated.
    """

    stature: Real | None = None
    inseam: Real | None = None
    sitting_knee_height: Real | None = None


def estimated_hip_height(known: KnownLengths, figures: Figures = "either") -> Estimate:
    """Height of the hip joint centre, from stature and inseam.

    Raises:
        ValueError: a measurement is outside its possible range.
    """
    return _estimate("hip_height", known, figures)


def estimated_knee_height(known: KnownLengths, figures: Figures = "either") -> Estimate:
    """Height of the knee joint line, from stature, inseam and sitting knee height.

    Raises:
        ValueError: a measurement is outside its possible range.
    """
    return _estimate("knee_height", known, figures)


def estimated_ankle_height(known: KnownLengths, figures: Figures = "either") -> Estimate:
    """Height of the ankle centre, from stature.

    Raises:
        ValueError: a measurement is outside its possible range.
    """
    return _estimate("ankle_height", known, figures)


def estimated_foot_length(known: KnownLengths, figures: Figures = "either") -> Estimate:
    """Heel to longest toe, from stature.

    Raises:
        ValueError: a measurement is outside its possible range.
    """
    return _estimate("foot_length", known, figures)


def estimated_hip_spacing(
    *,
    front_points_apart: Real | None = None,
    pelvis_depth: Real | None = None,
    leg_length: Real | None = None,
    hip_height: Real | None = None,
) -> Estimate:
    """Distance between the two hip joint centres.

    Args:
        front_points_apart: between the front hip-bone points, the anterior
            superior iliac spines (mm).  Alone: 0.72 of it (Bell, Brand &
            Pedersen 1989, Human Movement Science 8:3-16).
        pelvis_depth: from the middle of the front points to the middle of the
            rear ones (mm).  With the first: Harrington et al. 2007, J Biomech
            40:595-602.
        leg_length: front hip-bone point to the inner ankle bone, lying (mm).
            Alone: Hara et al. 2016, Sci Rep 6:37707, which serves children too.
        hip_height: hip joint centre over the floor (mm), which stands in for the leg
            length where that is not known.

    Returns:
        The estimate with the smallest standard error; the usual spacing when
        nothing is given.

    Raises:
        ValueError: a measurement is outside its possible range.
    """
    estimates = [USUAL_HIP_SPACING]
    if front_points_apart is not None:
        require_between("front hip-bone points apart", front_points_apart, 80.0, 500.0, "mm")
        estimates.append(Estimate(0.72 * front_points_apart, _BELL_ERROR))
    if pelvis_depth is not None:
        require_between("pelvis depth", pelvis_depth, 40.0, 400.0, "mm")
    if front_points_apart is not None and pelvis_depth is not None:
        half = 0.28 * pelvis_depth + 0.16 * front_points_apart + 7.9
        estimates.append(Estimate(2.0 * half, _HARRINGTON_ERROR))
    if leg_length is not None:
        require_between("leg length", leg_length, 200.0, 1500.0, "mm")
        estimates.append(_by_hara(leg_length))
    elif hip_height is not None:
        require_between("hip height", hip_height, 200.0, 1500.0, "mm")
        estimates.append(_by_hara(hip_height))
    return _surest(estimates)


def stature_line(dimension: str, group: str) -> tuple[float, float]:
    """Slope of a length over stature alone, and its standard error (mm), for men or for women.

    Args:
        dimension: "hip_height", "knee_height", "ankle_height" or "foot_length".
        group: "men" or "women".
    """
    line = next(line for line in _LINES[group][dimension] if line.stature and not line.inseam)
    return line.stature, line.standard_error


def _by_hara(leg_length: Real) -> Estimate:
    return Estimate(16.0 + HIP_SPACING_PER_LEG * leg_length, _HARA_ERROR)


def estimated_neutral_spacing(hip_spacing: Real, hip_height: Real, ankle_height: Real) -> Estimate:
    """Distance at which a rider's two soles are likely to stand parallel and flat.

    A guess: straight legs run a little outward, the more the longer they are.
    Measure it.

    Args:
        hip_spacing: between the hip joint centres (mm).
        hip_height: hip joint centre over the floor (mm).
        ankle_height: ankle centre over the floor (mm).

    Raises:
        ValueError: the ankle is not below the hip.
    """
    require_order("ankle height", ankle_height, "hip height", hip_height)
    outward = NEUTRAL_PER_LEG * (hip_height - ankle_height)
    return Estimate(hip_spacing + outward, NEUTRAL_ERROR)


def either_of(one: Estimate, other: Estimate) -> Estimate:
    """An estimate for a person who belongs to either of two groups with equal chances.

    Mean and standard deviation of the even mixture of the two.
    """
    apart = 0.5 * (one.value - other.value)
    variance = 0.5 * (one.standard_error**2 + other.standard_error**2)
    return Estimate(0.5 * (one.value + other.value), sqrt(variance + apart * apart))


def _estimate(dimension: str, known: KnownLengths, figures: Figures) -> Estimate:
    _require_possible(known)
    if figures == "either":
        pairs = zip(_LINES["men"][dimension], _LINES["women"][dimension], strict=True)
        return _surest(
            either_of(_along(man, known), _along(woman, known))
            for man, woman in pairs
            if _is_usable(man, known)
        )
    lines = _LINES[figures][dimension]
    return _surest(_along(line, known) for line in lines if _is_usable(line, known))


def _require_possible(known: KnownLengths) -> None:
    if known.stature is not None:
        require_between("stature", known.stature, 500.0, 2600.0, "mm")
    if known.inseam is not None:
        require_between("inseam", known.inseam, 150.0, 1400.0, "mm")
    if known.sitting_knee_height is not None:
        require_between("sitting knee height", known.sitting_knee_height, 100.0, 900.0, "mm")
    if known.stature is not None and known.inseam is not None:
        require_order("inseam", known.inseam, "stature", known.stature)


def _is_usable(line: _Line, known: KnownLengths) -> bool:
    """Whether every measurement that the line has a slope for is known."""
    slopes = (line.stature, line.inseam, line.sitting_knee_height)
    return all(
        value is not None or slope == 0.0 for value, slope in zip(known, slopes, strict=True)
    )


def _along(line: _Line, known: KnownLengths) -> Estimate:
    slopes = (line.stature, line.inseam, line.sitting_knee_height)
    parts = (slope * value for value, slope in zip(known, slopes, strict=True) if value is not None)
    return Estimate(sum(parts, start=line.constant), line.standard_error)


def _surest(estimates: Iterable[Estimate]) -> Estimate:
    """The estimate with the smallest standard error, element by element."""

    def surer(one: Estimate, other: Estimate) -> Estimate:
        better = one.standard_error <= other.standard_error
        return Estimate(
            where(better, one.value, other.value),
            smaller(one.standard_error, other.standard_error),
        )

    return reduce(surer, estimates)
