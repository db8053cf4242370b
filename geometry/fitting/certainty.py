"""How sure the answer is: what the errors of all measurements together do to it.

The ends of what is good enough, and full cant, follow the measurements smoothly, the
answer itself does not: it is clipped at flat, at full cant and at what is allowed.  So
the ends are taken to first order, by a shift of each measurement either way, and the
clips are left to some thousand draws of such ends.  First order alone would call an
answer certain wherever it stands at a clip.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

import numpy as np

from geometry.fitting.answer import Answer, Mounts, Terms, Values, answer_of, between, nearest_flat
from geometry.fitting.errors import (
    Correlations,
    checked_spreads,
    correlation_matrix,
    shifts_each_way,
)
from geometry.fitting.inputs import shifted
from geometry.posture import PostureInputs

DRAWS = 4000
SEED = 20_260_101
"""The draws are always the same, so that the range of an answer does not flicker."""
RANGE = (0.16, 0.84)
"""Ends of the range told: 68 of 100 draws lie within, as many as within one standard error."""


@dataclass(frozen=True, eq=False, slots=True)
class Certainty:
    """How sure an answer is (rad); front and rear foot on the first axis.

    Attributes:
        answer: the answer itself, of one rider.
        lift_range: least and largest lift that are likely, shape (2, 2).
        cant_range: least and largest cant that are likely, shape (2, 2).
        full_error: standard error of full cant, shape (2,).
        names: of the uncertain inputs.
        cant_shares: part of each of them in the variance of the end that decides the
            cant, shape (2, names); 0 where none moves it.
    """

    answer: Answer
    lift_range: Values
    cant_range: Values
    full_error: Values
    names: tuple[str, ...]
    cant_shares: Values

    def sources(self, foot: int, least: float = 0.1) -> tuple[str, ...]:
        """Names of the inputs that carry a foot's uncertainty, those that carry most first.

        None that carries less than a share ``least`` of it.
        """
        shares = self.cant_shares[foot]
        return tuple(self.names[i] for i in np.argsort(-shares) if shares[i] >= least)


def certainty_of(
    asked: PostureInputs,
    terms: Terms,
    spreads: Mapping[str, float],
    correlations: Correlations = MappingProxyType({}),
    held: Mounts | None = None,
) -> Certainty:
    """The answer for one rider, and how sure it is.

    Args:
        asked: the rider and the stance, single values.
        terms: the riding bend, and what is allowed.
        spreads: standard error of each input, as in
            :func:`geometry.fitting.margins.margins_of`.
        correlations: of the errors.
        held: lifts and cants that stay as they are, of shape (2, 1).

    Raises:
        ValueError: a name is unknown, or a spread or a correlation is not one.
    """
    steps = checked_spreads(spreads)
    together = correlation_matrix(list(steps), correlations)
    n = 2 * len(steps) + 1
    batch = shifted(asked, shifts_each_way(steps)) if steps else asked
    all_held = None if held is None else Mounts(*(np.repeat(each, n, axis=1) for each in held))
    whole = answer_of(batch, terms, all_held)
    one = Answer(*(getattr(whole, name)[:, -1:] for name in Answer.__slots__))
    moved = {name: _first_order(getattr(whole, name), len(steps)) for name in _ENDS}
    drawn = {
        name: getattr(one, name) + moves @ _root(together) @ _draws(len(steps))
        for name, moves in moved.items()
    }
    lift = np.clip(
        between(drawn["lift_low"], drawn["lift_high"]), -terms.largest_lift, terms.largest_lift
    )
    cant = nearest_flat(
        drawn["low"], drawn["high"], drawn["even"], drawn["full"], terms.largest_cant
    )
    full = moved["full"]
    return Certainty(
        answer=one,
        lift_range=_likely(lift, None if held is None else held.lift),
        cant_range=_likely(cant, None if held is None else held.cant),
        full_error=np.sqrt(np.maximum(((full @ together) * full).sum(axis=1), 0.0)),
        names=tuple(steps),
        cant_shares=_shares(one, moved, together),
    )


_ENDS = ("lift_low", "lift_high", "low", "high", "even", "full")


def _first_order(values: Values, n: int) -> Values:
    """How much a standard error of each input moves values, shape (2, inputs).

    A shift that leaves no posture counts as the one the other way.
    """
    up, down, one = values[:, :n], values[:, n : 2 * n], values[:, -1:]
    halves = np.stack([up - one, one - down])
    known = ~np.isnan(halves)
    total = np.where(known, halves, 0.0).sum(axis=0)
    return np.asarray(total / np.maximum(known.sum(axis=0), 1))


def _root(together: Values) -> Values:
    """A matrix that turns independent errors into such as go together so."""
    values, axes = np.linalg.eigh(together)
    return np.asarray(axes * np.sqrt(np.maximum(values, 0.0)))


@cache
def _draws(inputs: int) -> Values:
    """Standard normal draws, every second the opposite of the one before."""
    half = np.random.default_rng(SEED).standard_normal((inputs, DRAWS // 2))
    return np.concatenate([half, -half], axis=1)


def _likely(drawn: Values, held: Values | None) -> Values:
    """Ends of the likely values of each foot; what is held is certain."""
    ends = np.stack([np.quantile(drawn, end, axis=1) for end in RANGE], axis=1)
    return np.asarray(ends) if held is None else np.where(np.isnan(held), ends, held)


def _shares(one: Answer, moved: Mapping[str, Values], together: Values) -> Values:
    """Part of each input in the variance of the end that is nearest to decide the cant.

    What two inputs do together counts half for either.
    """
    ends = np.stack([one.low, one.high])[..., 0]
    nearest = np.where(np.abs(ends[0]) <= np.abs(ends[1]), 0, 1)
    moves = np.stack([moved["low"], moved["high"]])[nearest, np.arange(2)]
    parts = moves * (moves @ together)
    total = parts.sum(axis=1, keepdims=True)
    shares: Values = np.divide(parts, total, out=np.zeros_like(parts), where=total > 0.0)
    return shares
