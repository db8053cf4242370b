"""How far measuring errors carry into what is recommended.

Each measured input has a standard error.  To first order an answer moves by its
slope in that input times the error, and independent errors add as squares.  The
slopes are differences over one standard error to either side.  The least ends
have a corner where they stop at zero; their error is taken as if they passed
through it, and then stopped.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from geometry.checks import require_between
from geometry.elementary import Real
from geometry.fitting.fit import Fit, FootFit
from geometry.fitting.inputs import ANGLES, INPUTS, Setup, input_named, shifted
from geometry.fitting.smallest_mounts import cants_leaving, front_off_rest, lifted
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
        straight_leg_cant: of the cross-check.
    """

    front: FootFit
    rear: FootFit
    straight_leg_cant: float


class _Answers(NamedTuple):
    """What is recommended, for each of a batch of shifted inputs, or its error.

    The least ends are given as if they could pass through zero.
    """

    full_front: Any
    full_rear: Any
    least_front: Any
    least_rear: Any
    full_lift: Any
    least_lift: Any
    straight: Any


def margins_of(setup: Setup, found: Fit, spreads: Mapping[str, float]) -> Margins:
    """Standard errors of a fit that come from the inputs' standard errors.

    Args:
        setup: the inputs that were fitted, single values all.
        found: their fit.
        spreads: standard error of each input by its name in :data:`geometry.fitting.inputs.INPUTS`
            (mm or rad); those not named count as exact.

    Returns:
        The margins.  The start values have those of the least ends; trials
        that settled a share have a spread of their own, for
        :func:`geometry.fitting.shares.cant_from_share`.

    Raises:
        ValueError: a name is unknown, or a spread is negative or too large to
            be one.
    """
    steps = _checked(spreads)
    shifts = _shifts(steps)
    batch = shifted(setup, shifts)
    answers = _answers(batch, found, len(steps))
    realised = {name: input_named(batch, name) - input_named(setup, name) for name in steps}
    errors = _Answers(*(_error(answer, realised, steps) for answer in answers))
    ends = _Answers(*(float(answer[-1]) for answer in answers))
    lift = _stopped_error(ends.least_lift, errors.least_lift, found.front.full_lift)
    front = _stopped_error(ends.least_front, errors.least_front, found.front.full_cant)
    rear = _stopped_error(ends.least_rear, errors.least_rear, found.rear.full_cant)
    return Margins(
        front=FootFit(errors.full_front, front, errors.full_lift, lift, front, lift),
        rear=FootFit(errors.full_rear, rear, errors.full_lift, lift, rear, lift),
        straight_leg_cant=errors.straight,
    )


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


def _checked(spreads: Mapping[str, float]) -> dict[str, float]:
    """The spreads that are not zero."""
    for name, spread in spreads.items():
        if name not in INPUTS:
            raise ValueError(f"there is no input {name!r}; the inputs are {', '.join(INPUTS)}")
        most, unit = (30.0, "deg") if name in ANGLES else (150.0, "mm")
        require_between(f"standard error of {name}", float(spread), 0.0, most, unit)
    return {name: float(spread) for name, spread in spreads.items() if spread > 0.0}


def _shifts(steps: Mapping[str, float]) -> dict[str, NDArray[Any]]:
    """For each input its shift in every element of a batch.

    Element ``i`` adds the ``i``-th step, element ``n + i`` takes it off, and the
    last one leaves all as it is.
    """
    n = len(steps)
    shifts = {name: np.zeros(2 * n + 1) for name in steps}
    for i, (name, step) in enumerate(steps.items()):
        shifts[name][i], shifts[name][n + i] = step, -step
    return shifts


def _answers(batch: Setup, found: Fit, n: int) -> _Answers:
    """The fit of every element of the batch, to first order in the lifts."""
    body, boots, stance, crouch = batch
    none = np.zeros(2 * n + 1)

    def gives(full_cant: Real) -> NDArray[Any]:
        """None, as full cant leaves, and what least cant leaves."""
        return np.stack((none, math.copysign(1.0, full_cant) * boots.side_give + none))

    cants = cants_leaving(*batch, (gives(found.front.full_cant), gives(found.rear.full_cant)))
    probes = [0.0 if math.isnan(lift) else float(lift) for lift in _lifts(found)]
    lifts = np.array([lift + step for lift in probes for step in (0.0, LIFT_PROBE)])
    probed = lifted(stance, lifts[:, np.newaxis] + none)
    off_rest: Any = front_off_rest(body, boots, probed, crouch)
    left = -math.copysign(1.0, found.front.full_lift) * boots.flex_range
    front, rear = np.asarray(cants.front), np.asarray(cants.rear)
    return _Answers(
        *(front[0], rear[0], front[1], rear[1]),
        full_lift=found.front.full_lift + _lift_step(off_rest[:2], 0.0),
        least_lift=found.front.least_lift + _lift_step(off_rest[2:], left),
        straight=straight_leg_cant(stance, body) + none,
    )


def _lifts(found: Fit) -> tuple[Any, Any]:
    return found.front.full_lift, found.front.least_lift


def _lift_step(off_rest: Any, left: Real) -> Any:
    """Further lift that leaves the boot this far off rest, by its slope (rad)."""
    return (left - off_rest[0]) * LIFT_PROBE / (off_rest[1] - off_rest[0])


def _error(
    answer: NDArray[Any], realised: Mapping[str, NDArray[Any]], steps: Mapping[str, float]
) -> float:
    """Standard error of one answer, from its values in every element of the batch."""
    n = len(steps)
    squares = 0.0
    for i, (name, step) in enumerate(steps.items()):
        # An answer that exists on one side only gives the slope on that side.
        ends = [k for k in (i, n + i) if not math.isnan(answer[k])] + [2 * n]
        first, last = ends[0], ends[1] if len(ends) > 1 else ends[0]
        width = realised[name][first] - realised[name][last]
        moved = answer[first] - answer[last]
        squares += (moved / width * step) ** 2 if width else math.nan
    return math.sqrt(squares + 0.0 * answer[2 * n])


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
