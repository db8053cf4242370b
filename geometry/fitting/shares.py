"""Where in full cant a leg is comfortable, learnt from its trials.

Each trial says that a cant was too little, right or too much.  A rider feels
this with some blur, so one trial moves the estimate and does not settle it.  For
every possible comfortable share the chance of just these verdicts is told; their
product, over the shares, is what the trials know together (Bayes' rule): its
mean is the settled share, its standard deviation the uncertainty.  Trials in
different stances, or that contradict each other, need no rule of their own.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from geometry.elementary import Real
from geometry.fitting.trials import Tried

FEELS_EVEN = math.radians(0.5)
"""A cant this near to comfortable still feels even (rad; engineering choice, no source)."""
BLUR = math.radians(0.75)
"""Standard deviation of what a rider feels (rad; engineering choice, no source)."""
BEYOND = 0.15
"""How far a comfortable share may lie outside 0 to 1 before any trial (standard
deviation of the falling flanks; engineering choice, no source)."""
SURE_ENOUGH = 0.12
"""Uncertainty of a share above which the trials say little (engineering choice, no source)."""
FEWEST = 3
"""Fewer trials than this say little (engineering choice, no source)."""
SHARES = np.linspace(-0.6, 1.6, 881)

_DEVIATIONS = np.linspace(-8.0, 8.0, 3201)
_CHANCES = np.array([0.5 * math.erfc(-x / math.sqrt(2.0)) for x in _DEVIATIONS.tolist()])
"""The normal distribution, to be read between its values: to 1e-6, in a fiftieth of the time."""


@dataclass(frozen=True, slots=True)
class SettledShare:
    """The share of full cant at which a leg is comfortable.

    Attributes:
        share: the estimate; nan without trials.
        error: its standard deviation; nan without trials.
        trials: how many trials speak.
    """

    share: float
    error: float
    trials: int

    @property
    def says_little(self) -> bool:
        """Whether the trials are too few, or too far apart, to rely on."""
        return self.trials < FEWEST or not self.error <= SURE_ENOUGH


def settled_share(tried: Sequence[Tried]) -> SettledShare:
    """What a leg's trials say together, in any stances.

    Trials in stances that need next to no cant say nothing of a share.
    """
    known = [one for one in tried if not math.isnan(one.share)]
    if not known:
        return SettledShare(math.nan, math.nan, 0)
    weight = _before_trials()
    for one in known:
        weight = weight * _chance(one)
    weight = weight / weight.sum()
    mean = float(weight @ SHARES)
    return SettledShare(mean, math.sqrt(float(weight @ (SHARES - mean) ** 2)), len(known))


def cant_from_share(settled: SettledShare, full: Real, full_error: Real = 0.0) -> tuple[Real, Real]:
    """The comfortable cant of any stance, and its standard error (rad, rad).

    Args:
        settled: the leg's settled share.
        full: full cant of the stance (rad).
        full_error: its standard error (rad).
    """
    of_share, of_full = settled.error * full, settled.share * full_error
    error: Real = np.hypot(of_share, of_full)
    return settled.share * full, error


def _before_trials() -> NDArray[Any]:
    """Anything from flat to full cant is as likely, a little outside is possible."""
    outside = np.maximum(np.maximum(-SHARES, SHARES - 1.0), 0.0)
    return np.exp(-0.5 * (outside / BEYOND) ** 2)


def _chance(one: Tried) -> NDArray[Any]:
    """Chance of a trial's verdict for every possible comfortable share."""
    lacking = (SHARES - one.share) * abs(one.full)
    too_little = _normal((lacking - FEELS_EVEN) / BLUR)
    too_much = _normal((-lacking - FEELS_EVEN) / BLUR)
    chances = {1: too_little, -1: too_much, 0: 1.0 - too_little - too_much}
    # A slip of the pen leaves every share some chance.
    return np.asarray(0.98 * chances[one.lacked] + 0.02 / 3.0)


def _normal(x: NDArray[Any]) -> NDArray[Any]:
    """Chance that a standard normal value lies below each ``x``."""
    return np.asarray(np.interp(x, _DEVIATIONS, _CHANCES))
