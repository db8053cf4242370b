"""How far measuring errors carry into what is recommended.

Each measured input has a standard error, and the errors of some go together.  To
first order an answer moves by its slope in an input times the error, and what all
inputs do adds up as the standard error of a sum does.  The slopes are differences
over one standard error to either side.  The least ends have a corner where they
stop at zero; their error is taken as if they passed through it, and then stopped.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from geometry.elementary import Real
from geometry.fitting.errors import (
    Correlations,
    checked_spreads,
    correlation_matrix,
    shifts_each_way,
)
from geometry.fitting.fit import Fit, FootFit
from geometry.fitting.inputs import input_named, shifted
from geometry.fitting.smallest_mounts import cants_leaving, lifted, off_rest
from geometry.posture import PostureInputs
from geometry.stance import straight_leg_cant

FINEST = math.radians(0.5)
"""No recommendation is shown finer than this (rad)."""
LIFT_PROBE = math.radians(0.5)
"""Step over which a boot's answer to lift is measured (rad)."""


@dataclass(frozen=True, eq=False, slots=True)
class Margins:
    """Standard errors of what :class:`geometry.fitting.fit.Fit` recommends (rad).

    Attributes:
        front: of the front binding's values.
        rear: of the rear binding's values.
    """

    front: FootFit
    rear: FootFit


class _Answers(NamedTuple):
    """What is recommended, for each of a batch of shifted inputs, or its error.

    Front and rear foot each; the least ends are given as if they could pass
    through zero.
    """

    full_cant: tuple[Any, Any]
    least_cant: tuple[Any, Any]
    full_lift: tuple[Any, Any]
    least_lift: tuple[Any, Any]
    straight: tuple[Any, Any]


def margins_of(
    setup: PostureInputs,
    found: Fit,
    spreads: Mapping[str, float],
    correlations: Correlations = MappingProxyType({}),
) -> Margins:
    """Standard errors of a fit that come from the inputs' standard errors.

    Args:
        setup: the inputs that were fitted, single values all.
        found: their fit.
        spreads: standard error of each input by its name in :data:`geometry.fitting.inputs.INPUTS`
            (mm or rad); those not named count as exact.  A name without a side is
            one error in both legs, or boots, at once.
        correlations: of the errors.

    Returns:
        The margins.  The start values have those of the least ends; trials
        that settled a share have a spread of their own, for
        :func:`geometry.fitting.shares.angle_from_share`.

    Raises:
        ValueError: a name is unknown, a spread is negative or too large to be
            one, or a correlation is not one.
    """
    steps = checked_spreads(spreads)
    together = correlation_matrix(list(steps), correlations)
    batch = shifted(setup, shifts_each_way(steps))
    answers = _answers(batch, found, len(steps))
    realised = {name: input_named(batch, name) - input_named(setup, name) for name in steps}

    def foot(which: int, fit: FootFit) -> FootFit:
        own = {name: getattr(answers, name)[which] for name in _Answers._fields}
        errors = {n: _error(answer, realised, steps, together) for n, answer in own.items()}
        cant = _stopped_error(float(own["least_cant"][-1]), errors["least_cant"], fit.full_cant)
        lift = _stopped_error(float(own["least_lift"][-1]), errors["least_lift"], fit.full_lift)
        return FootFit(
            full_cant=errors["full_cant"],
            least_cant=cant,
            full_lift=errors["full_lift"],
            least_lift=lift,
            start_cant=cant,
            straight_leg_cant=errors["straight"],
        )

    return Margins(front=foot(0, found.front), rear=foot(1, found.rear))


def shown(angle: Real, finest: float = FINEST) -> Real:
    """A recommended angle as it may be shown: to the nearest 0.5 degrees (rad).

    Args:
        angle: the recommendation (rad).
        finest: the step shown (rad), never taken finer than 0.5 degrees.
    """
    step = max(finest, FINEST)
    nearest: Real = np.round(angle / step) * step + 0.0
    return nearest


def shown_margin(margin: Real) -> Real:
    """A margin as it may be shown: up to the next 0.5 degrees, at least that (rad)."""
    steps: Real = np.maximum(np.ceil(margin / FINEST - 1e-9), 1.0)
    return steps * FINEST


def _answers(batch: PostureInputs, found: Fit, n: int) -> _Answers:
    """The fit of every element of the batch, to first order in the lifts."""
    body, boots, stance, _ = batch
    none = np.zeros(2 * n + 1)
    feet = found.front, found.rear

    def gives(foot: FootFit, side_give: Real) -> tuple[NDArray[Any], NDArray[Any]]:
        """None, as full cant leaves, and what least cant leaves: a band without width."""
        left = np.stack((none, math.copysign(1.0, foot.full_cant) * side_give + none))
        return left, left

    front_band, rear_band = (
        gives(foot, boot.side_give) for foot, boot in zip(feet, boots.both, strict=True)
    )
    cants = cants_leaving(*batch, (front_band, rear_band))
    ends = [np.asarray(cant) for cant in (cants.front, cants.rear)]
    straight_front, straight_rear = straight_leg_cant(stance, body)
    full, least = _lifts_nearby(batch, feet, none)
    return _Answers(
        full_cant=(ends[0][0], ends[1][0]),
        least_cant=(ends[0][1], ends[1][1]),
        full_lift=full,
        least_lift=least,
        straight=(straight_front + none, straight_rear + none),
    )


def _lifts_nearby(
    batch: PostureInputs, feet: tuple[FootFit, FootFit], none: NDArray[Any]
) -> tuple[tuple[Any, Any], tuple[Any, Any]]:
    """The full and the least lifts of every element, by the slopes at those found (rad)."""
    body, boots, stance, crouch = batch
    kinds = [(foot.full_lift, foot.least_lift) for foot in feet]
    front, rear = ([0.0 if math.isnan(lift) else float(lift) for lift in each] for each in kinds)
    steps = np.array([[0.0, LIFT_PROBE, 0.0], [0.0, 0.0, LIFT_PROBE]])
    tried = (
        np.add.outer(each, step)[..., np.newaxis] + none
        for each, step in zip((front, rear), steps, strict=True)
    )
    off: tuple[Any, Any] = off_rest(body, boots, lifted(stance, *tried), crouch)
    ranges = [
        none - math.copysign(1.0, foot.full_lift) * boot.flex_range
        for foot, boot in zip(feet, boots.both, strict=True)
    ]
    full, least = (
        _lifts_leaving([each[kind] for each in off], left, (front[kind], rear[kind]))
        for kind, left in enumerate(([none, none], ranges))
    )
    return (
        (kinds[0][0] + full[0], kinds[1][0] + full[1]),
        (kinds[0][1] + least[0], kinds[1][1] + least[1]),
    )


def _lifts_leaving(
    off: Sequence[Any], left: Sequence[Any], lifts: tuple[float, float]
) -> tuple[Any, Any]:
    """Further lifts of both feet that leave their boots so far off rest (rad).

    A foot without lift keeps none where the other one's is asked for.

    Args:
        off: how far off rest each boot is at a pair of lifts, with a little more
            of the front one, and with a little more of the rear one.
        left: how far off each boot is to be.
        lifts: that pair of lifts.
    """
    lacks = [end - each[0] for end, each in zip(left, off, strict=True)]
    (a, b), (c, d) = (
        ((each[1] - each[0]) / LIFT_PROBE, (each[2] - each[0]) / LIFT_PROBE) for each in off
    )
    per = 1.0 / (a * d - b * c)
    return (
        (d * lacks[0] - b * lacks[1]) * per if lifts[1] else lacks[0] / a,
        (a * lacks[1] - c * lacks[0]) * per if lifts[0] else lacks[1] / d,
    )


def _error(
    answer: NDArray[Any],
    realised: Mapping[str, NDArray[Any]],
    steps: Mapping[str, float],
    together: NDArray[Any],
) -> float:
    """Standard error of one answer, from its values in every element of the batch."""
    n = len(steps)
    moves = np.zeros(n)
    for i, (name, step) in enumerate(steps.items()):
        # An answer that exists on one side only gives the slope on that side.
        ends = [k for k in (i, n + i) if not math.isnan(answer[k])] + [2 * n]
        first, last = ends[0], ends[1] if len(ends) > 1 else ends[0]
        width = realised[name][first] - realised[name][last]
        moves[i] = (answer[first] - answer[last]) / width * step if width else math.nan
    variance = float(moves @ together @ moves)
    return math.sqrt(max(variance, 0.0)) + 0.0 * float(answer[2 * n] + variance)


def _stopped_error(end: float, error: float, full: Real) -> float:
    """Standard deviation of a least end that stops at zero (rad).

    ``end`` is where it would lie if it could pass through zero, with a normal
    error.  For ``X`` normal with mean ``m`` and deviation ``s`` the larger of
    ``X`` and 0 has mean ``m P + s p`` and mean square ``(m^2 + s^2) P + m s p``,
    with ``P`` and ``p`` the normal distribution and density at ``m / s``.
    """
    if math.isnan(end + error) or error == 0.0:
        return error
    m, s = math.copysign(1.0, full) * end, error
    below = 0.5 * math.erfc(-m / s / math.sqrt(2.0))
    density = math.exp(-0.5 * (m / s) ** 2) / math.sqrt(2.0 * math.pi)
    mean = m * below + s * density
    return math.sqrt(max((m * m + s * s) * below + m * s * density - mean * mean, 0.0))
