"""Growing riders: what changed since last season, and what to expect of the next.

A forecast is no measurement.  It takes the rider to keep to the same place among
children of the same age, as the growth figures have it, and its spread says how
far children stray from that place.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np

from geometry.body import Body
from geometry.checks import require_between
from geometry.elementary import real
from geometry.riders.growth import AGES, Children, Growth, growth

HEIGHTS = ("hip_height", "knee_height", "ankle_height")
"""Lengths that grow as the legs do."""
WIDTHS = ("hip_spacing", "neutral_spacing", "foot_length")
"""Lengths that grow as the stature does (engineering choice, no source)."""
KEEPS_PLACE = 0.98
"""Correlation of a child's place among its peers with that a year later
(engineering choice, no source)."""


class Change(NamedTuple):
    """One length then and now (mm)."""

    name: str
    before: float
    after: float

    @property
    def growth(self) -> float:
        """By how much it grew (mm), negative where it shrank."""
        return self.after - self.before


@dataclass(frozen=True, eq=False, slots=True)
class Forecast:
    """What growth figures expect of a body: not measured, and never to be shown as such.

    Attributes:
        body: the expected body.
        spreads: standard error of each length that grows, by its name (mm), as
            :func:`geometry.fitting.margins.margins_of` takes them.
        age: for which the forecast is (years).
    """

    body: Body
    spreads: Mapping[str, float]
    age: float


class _Factors(NamedTuple):
    """What the lengths of a rider are multiplied by."""

    legs: float
    stature: float


def changes(before: Body, after: Body) -> tuple[Change, ...]:
    """Every length of a rider last season and now, single values."""
    return tuple(
        Change(name, float(getattr(before, name)), float(getattr(after, name)))
        for name in HEIGHTS + WIDTHS
    )


def forecast(
    body: Body,
    age: float,
    years: float,
    *,
    children: Children = "either",
    stature: float | None = None,
) -> Forecast:
    """The body to expect of a growing rider.

    Args:
        body: as measured now, single values.
        age: now (years), 6 to 18.
        years: from now to the time asked about, 0 to 12; growth ends at 18.
        children: whose growth figures to use.
        stature: standing height now (mm); it tells the rider's place among
            peers, and without it the spread is wider.

    Raises:
        ValueError: the age, the years or the stature are outside their range.
    """
    require_between("years ahead", years, 0.0, 12.0, "years")
    then = min(age + years, AGES[-1])
    now_figures, then_figures = growth(age, children), growth(then, children)
    place = 0.0 if stature is None else _place(stature, now_figures)
    factors = _factors(now_figures, then_figures, place)
    stray = _stray(then_figures, then - age, place)
    unknown = _unknown_place(now_figures, then_figures) if stature is None else 0.0
    lengths = {
        name: float(getattr(body, name)) * factor
        for names, factor in ((HEIGHTS, factors.legs), (WIDTHS, factors.stature))
        for name in names
    }
    spread = math.hypot(stray, unknown)
    return Forecast(
        body=replace(body, **lengths),
        spreads={name: length * spread for name, length in lengths.items()},
        age=then,
    )


def _place(stature: float, figures: Growth) -> float:
    """How many standard deviations a stature lies above the mean of its age, at most 3."""
    require_between("stature", real(stature), 500.0, 2600.0, "mm")
    mean, deviation = figures.stature
    return float(np.clip((stature - mean) / deviation, -3.0, 3.0))


def _factors(now: Growth, then: Growth, place: float) -> _Factors:
    """How much longer a rider gets who keeps to a place among peers."""
    stature = _stature_at(then, place) / _stature_at(now, place)
    shares = [float(figures.leg_length.value / figures.stature.value) for figures in (now, then)]
    return _Factors(stature * shares[1] / shares[0], stature)


def _stature_at(figures: Growth, place: float) -> float:
    return float(figures.stature.value + place * figures.stature.standard_error)


def _stray(then: Growth, years: float, place: float) -> float:
    """How far children stray from their place in some years, as a share of their stature."""
    kept = KEEPS_PLACE**years
    strayed = float(then.stature.standard_error) * math.sqrt(1.0 - kept * kept)
    return strayed / _stature_at(then, place)


def _unknown_place(now: Growth, then: Growth) -> float:
    """What not knowing the place among peers adds, as a share of the growth factor."""
    high, low = (_factors(now, then, place).stature for place in (1.0, -1.0))
    return 0.5 * abs(high - low)
