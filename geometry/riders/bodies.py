"""All of a rider's lengths from what is known, and how far their errors go together.

Two lengths estimated from one stature are wrong together: whoever has long legs for
a stature has high knees too.  What is recommended depends on all lengths at once, so
its margin needs both the errors and their correlations.

Hip spacing and neutral spacing follow from the heights, measured or estimated, and so
share their errors.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import combinations, product
from typing import NamedTuple

from geometry.riders.estimates import (
    HIP_SPACING_PER_LEG,
    NEUTRAL_PER_LEG,
    Estimate,
    Figures,
    KnownLengths,
    estimated_ankle_height,
    estimated_foot_length,
    estimated_hip_height,
    estimated_hip_spacing,
    estimated_knee_height,
    estimated_neutral_spacing,
    stature_line,
)

_LEG = {
    "hip_height": estimated_hip_height,
    "knee_height": estimated_knee_height,
    "ankle_height": estimated_ankle_height,
    "foot_length": estimated_foot_length,
}
_GROUPS: tuple[Figures, Figures] = ("men", "women")
_HIP_AND_KNEE = {"men": 0.58, "women": 0.66}
"""Correlation of what a stature leaves over of hip and knee height; none is left once
an inseam or a seated knee height is known.  ANSUR II (Gordon et al. 2014,
NATICK/TR-15/007), computed from its public data."""
_STATURE_SPREAD = {"men": 68.5, "women": 64.2}
"""Standard deviation of the stature (mm; same source)."""
Covariances = dict[tuple[str, str], float]


class EstimatedBody(NamedTuple):
    """Lengths of both legs alike, and of the pelvis.

    Attributes:
        lengths: value and standard error by the names of
            :class:`geometry.body.LegMeasures` and :class:`geometry.body.Body` (mm).
        correlations: of the errors, by pairs of names, as
            :func:`geometry.fitting.margins.margins_of` takes them; other pairs have none.
    """

    lengths: Mapping[str, Estimate]
    correlations: Mapping[tuple[str, str], float]


def estimated_body(
    known: KnownLengths,
    figures: Figures = "either",
    measured: Mapping[str, Estimate] | None = None,
) -> EstimatedBody:
    """Every length of a rider: as measured, or as to be expected.

    Args:
        known: what a newcomer may know, single values.
        figures: whose figures to use.
        measured: lengths that were measured, with their errors, by name; they stand
            as they are, and what follows from them shares their errors.

    Raises:
        ValueError: a measurement is outside its possible range.
    """
    given = measured or {}
    lengths = {
        name: given[name] if name in given else estimate(known, figures)
        for name, estimate in _LEG.items()
    }
    covariances = _of_legs(known, figures, given, lengths)
    hip, ankle = lengths["hip_height"].value, lengths["ankle_height"].value
    _add(lengths, covariances, given, "hip_spacing", estimated_hip_spacing(hip_height=hip))
    spacing = lengths["hip_spacing"].value
    neutral = estimated_neutral_spacing(spacing, hip, ankle)
    _add(lengths, covariances, given, "neutral_spacing", neutral)
    return EstimatedBody(lengths, _correlations(lengths, covariances))


_FOLLOWS = {
    "hip_spacing": {"hip_height": HIP_SPACING_PER_LEG},
    "neutral_spacing": {
        "hip_spacing": 1.0,
        "hip_height": NEUTRAL_PER_LEG,
        "ankle_height": -NEUTRAL_PER_LEG,
    },
}
"""How an estimated spacing grows with the lengths that it is estimated from."""


def _add(
    lengths: dict[str, Estimate],
    covariances: Covariances,
    given: Mapping[str, Estimate],
    name: str,
    estimate: Estimate,
) -> None:
    """Add a spacing, and what its error has in common with those before it."""
    before = list(lengths)
    if name in given:
        lengths[name] = given[name]
        return
    follows = _FOLLOWS[name].items()
    for other in before:
        covariances[name, other] = covariances[other, name] = sum(
            slope * _covariance(lengths, covariances, source, other) for source, slope in follows
        )
    inherited = sum(slope * covariances[name, source] for source, slope in follows)
    # The guess at the neutral spacing is as wide as it is with all that it inherits.
    own = 0.0 if name == "neutral_spacing" else float(estimate.standard_error) ** 2
    variance = max(inherited + own, float(estimate.standard_error) ** 2)
    lengths[name] = Estimate(estimate.value, math.sqrt(variance))


def _covariance(
    lengths: Mapping[str, Estimate], covariances: Covariances, one: str, other: str
) -> float:
    if one == other:
        return float(lengths[one].standard_error) ** 2
    return covariances.get((one, other), 0.0)


def _of_legs(
    known: KnownLengths,
    figures: Figures,
    given: Mapping[str, Estimate],
    lengths: Mapping[str, Estimate],
) -> Covariances:
    """Covariances of the estimated lengths of a leg; of measured ones there are none."""
    groups = _GROUPS if figures == "either" else (figures,)
    apart = {
        name: 0.0
        if figures != "either"
        else 0.5 * float(_LEG[name](known, "men").value - _LEG[name](known, "women").value)
        for name in lengths
    }
    estimated = [name for name in lengths if name not in given]
    return {
        (one, other): sum(_within(known, group, one, other) for group in groups) / len(groups)
        + apart[one] * apart[other]
        for one, other in product(estimated, estimated)
        if one != other
    }


def _within(known: KnownLengths, group: str, one: str, other: str) -> float:
    """Covariance of two lengths' errors among men, or among women (mm2)."""
    if known.inseam is not None or known.sitting_knee_height is not None:
        return 0.0
    (slope, error), (other_slope, other_error) = (
        stature_line(name, group) for name in (one, other)
    )
    left_over = 0.0
    if {one, other} == {"hip_height", "knee_height"}:
        left_over = _HIP_AND_KNEE[group] * error * other_error
    if known.stature is not None:
        return left_over
    return left_over + slope * other_slope * _STATURE_SPREAD[group] ** 2


def _correlations(
    lengths: Mapping[str, Estimate], covariances: Covariances
) -> dict[tuple[str, str], float]:
    """Every correlation that is not zero, each pair once."""
    return {
        (one, other): covariances[one, other]
        / float(lengths[one].standard_error * lengths[other].standard_error)
        for one, other in combinations(lengths, 2)
        if covariances.get((one, other))
    }
