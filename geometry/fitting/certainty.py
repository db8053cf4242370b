"""How sure the answer is: what the errors of all measurements together do to it.

The ends of what is good enough, and full cant, follow the measurements smoothly, the
answer itself does not: it is clipped at flat, at full cant and at what is allowed.  So
the ends are taken to first order, by a shift of each measurement either way, and the
clips are left to some thousand draws of such ends.  First order alone would call an
answer certain wherever it stands at a clip.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import NamedTuple

import numpy as np

from geometry.fitting.answer import Answer, Mounts, Terms, Values, answer_of, nearest_flat
from geometry.fitting.inputs import PostureInputs, shifted

DRAWS = 4000
SEED = 20_260_101
"""The draws are always the same, so that the range of an answer does not flicker."""
RANGE = (0.16, 0.84)
"""Ends of the range told: 68 of 100 draws lie within, as many as within one standard error."""


class Source(NamedTuple):
    """One independent source of error.

    Attributes:
        name: what it is called by the caller.
        shifts: by how much one standard deviation of it moves each input, by the names of
            :data:`geometry.fitting.inputs.INPUTS` (mm or rad): several for what is
            measured once and counts twice, or for errors that go together.
    """

    name: str
    shifts: Mapping[str, float]


@dataclass(frozen=True, eq=False, slots=True)
class Certainty:
    """How sure an answer is (rad); front and rear foot on the first axis.

    Attributes:
        answer: the answer itself, of one rider.
        lift_range: least and largest lift that are likely, shape (2, 2).
        cant_range: least and largest cant that are likely, shape (2, 2).
        full_error: standard error of full cant, shape (2,).
        cant_shares: part of each source in the variance of the end that decides the
            cant, shape (2, sources); 0 where no source moves it.
    """

    answer: Answer
    lift_range: Values
    cant_range: Values
    full_error: Values
    cant_shares: Values

    def main_source(self, foot: int) -> int | None:
        """Place of the source that carries most of a foot's uncertainty; None if none does."""
        shares = self.cant_shares[foot]
        return int(shares.argmax()) if shares.size and shares.max() > 0.0 else None


def certainty_of(
    asked: PostureInputs,
    terms: Terms,
    sources: Sequence[Source],
    held: Mounts | None = None,
) -> Certainty:
    """The answer for one rider, and how sure it is.

    Args:
        asked: the rider and the stance, single values.
        terms: the riding bend, and what is allowed.
        sources: what is uncertain, each independent of the others.
        held: lifts and cants that stay as they are, of shape (2, 1).
    """
    whole = answer_of(_shifted_each_way(asked, sources), terms, _repeated(held, sources))
    one = Answer(*(getattr(whole, name)[:, :1] for name in Answer.__slots__))
    moved = {name: _first_order(getattr(whole, name), len(sources)) for name in _ENDS}
    drawn = {name: _drawn(getattr(one, name), moved[name]) for name in _ENDS}
    lift = np.clip(
        np.clip(0.0, drawn["lift_low"], np.maximum(drawn["lift_low"], drawn["lift_high"])),
        -terms.largest_lift,
        terms.largest_lift,
    )
    cant = nearest_flat(
        drawn["low"], drawn["high"], drawn["even"], drawn["full"], terms.largest_cant
    )
    return Certainty(
        one,
        _likely(lift, None if held is None else held.lift),
        _likely(cant, None if held is None else held.cant),
        np.sqrt(np.square(moved["full"]).sum(axis=1)),
        _shares(one, moved),
    )


_ENDS = ("lift_low", "lift_high", "low", "high", "even", "full")


def _shifted_each_way(asked: PostureInputs, sources: Sequence[Source]) -> PostureInputs:
    """The rider as measured, then with each source up by one standard deviation, then down."""
    n = len(sources)
    shifts: dict[str, Values] = {}
    for i, source in enumerate(sources):
        for name, shift in source.shifts.items():
            each = shifts.setdefault(name, np.zeros(1 + 2 * n))
            each[1 + i] += shift
            each[1 + n + i] -= shift
    return shifted(asked, shifts)


def _repeated(held: Mounts | None, sources: Sequence[Source]) -> Mounts | None:
    if held is None:
        return None
    return Mounts(*(np.repeat(each, 1 + 2 * len(sources), axis=1) for each in held))


def _first_order(values: Values, n: int) -> Values:
    """How much a standard deviation of each source moves values, shape (2, sources).

    A shift that leaves no posture counts as the one the other way.
    """
    one, up, down = values[:, :1], values[:, 1 : 1 + n], values[:, 1 + n :]
    halves = np.stack([up - one, one - down])
    known = ~np.isnan(halves)
    total = np.where(known, halves, 0.0).sum(axis=0)
    return np.asarray(total / np.maximum(known.sum(axis=0), 1))


def _drawn(value: Values, moved: Values) -> Values:
    """Values as the draws of all sources would have them, shape (2, draws)."""
    return np.asarray(value + moved @ _draws(moved.shape[1]))


@cache
def _draws(sources: int) -> Values:
    """Standard normal draws, every second the opposite of the one before."""
    half = np.random.default_rng(SEED).standard_normal((sources, DRAWS // 2))
    return np.concatenate([half, -half], axis=1)


def _likely(drawn: Values, held: Values | None) -> Values:
    """Ends of the likely values of each foot; what is held is certain."""
    ends = np.stack([np.quantile(drawn, end, axis=1) for end in RANGE], axis=1)
    return ends if held is None else np.where(np.isnan(held), ends, held)


def _shares(one: Answer, moved: Mapping[str, Values]) -> Values:
    """Part of each source in the variance of the end that is nearest to decide the cant."""
    ends = np.stack([one.low, one.high])[..., 0]
    # At a clip at flat it is the end nearer to flat, which may pass it.
    nearest = np.where(np.abs(ends[0]) <= np.abs(ends[1]), 0, 1)
    both = np.stack([moved["low"], moved["high"]])
    variance = np.square(both[nearest, np.arange(2)])
    total = variance.sum(axis=1, keepdims=True)
    return np.divide(variance, total, out=np.zeros_like(variance), where=total > 0.0)
