"""Many candidates, few winners: the smallest worst over the bend, exactly.

What a candidate asks of the legs at one point of the range is the least that it
can ask at its worst.  So once that is more than the last of the best stances
asks at its worst, or than the best candidate of its own stance, the rest of its
range need not be looked at.  All candidates are looked at in one point, where
the worst is likely; the few that are left go through the others, the least
demanding first, so that the bar falls fast.

Candidates whose worst is alike to a tenth of a degree count as equal; then fewer
parts win, then the lower stacks.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from geometry.hardware.candidates import Candidates
from geometry.hardware.rules import Rules
from geometry.hardware.screening import screen_of

ALIKE = math.radians(0.1)
"""Off-plane angles that differ by less are the same to a rider (rad)."""
SAMPLE = 64
"""Candidates that say at which points of the range the worst is likely."""
STAGES = (2,)
"""After so many points of the range those that cannot win any more drop out."""
BLOCK = 2048
"""Candidates that enter the first stage together."""
FINALISTS = 64
"""Candidates that enter the last stage together."""


class _Waiting(NamedTuple):
    """Candidates not yet judged over the whole range.

    Attributes:
        stance: number of each one's stance.
        pair: number of its pair of stacks.
        asked: the least that it can ask of the legs at its worst (rad).
    """

    stance: NDArray[Any]
    pair: NDArray[Any]
    asked: NDArray[Any]

    def only(self, which: Any) -> _Waiting:
        """Some of them."""
        return _Waiting(*(each[which] for each in self))

    def and_also(self, others: _Waiting) -> _Waiting:
        """These and others."""
        return _Waiting(*(np.append(one, two) for one, two in zip(self, others, strict=True)))


class Winner(NamedTuple):
    """The best candidate of a stance.

    Attributes:
        rank: tenths of a degree, parts, height, and the demand itself: the smaller wins.
        stance: number of the stance.
        pair: number of the pair of stacks.
    """

    rank: tuple[float, ...]
    stance: int
    pair: int


class Race:
    """One search; the bar falls as candidates are judged."""

    def __init__(self, rules: Rules, candidates: Candidates, places: int) -> None:
        """A race about to start.

        Args:
            rules: by what candidates are judged.
            candidates: all that take part.
            places: how many stances can win.
        """
        self._candidates, self._places = candidates, places
        self._size, self._height = candidates.size, candidates.height
        strewn = self._strewn()
        rules = rules.hardest_first(candidates.stances(strewn.stance, strewn.pair))
        # All are looked at in the first point anyway, so that one comes last.
        self._first, self._stages = rules.first, rules.first_last().in_stages(*STAGES)
        self._rules, self._waiting = rules, strewn
        # Of each stance's best candidate so far: class, parts, height and worst.
        self._best = np.full((len(candidates.lengths), 4), np.inf)
        self._best_pair = np.zeros(len(candidates.lengths), dtype=int)

    def rounds(self) -> Iterator[float]:
        """Go through all candidates; yields the share that is done, after each batch."""
        rules, field, done = self._rules, self._candidates, 0
        self._judge_all()
        for stances in field.groups():
            screen = screen_of(rules.body, rules.boots, field.soled(stances), self._first)
            for rows, pairs in field.batches(len(stances)):
                asked = screen.asked(rows, field.front_stacks[pairs], field.rear_stacks[pairs])
                in_question = self._can_win(asked.demand, stances[rows, np.newaxis])
                row, column = np.nonzero(in_question & rules.bend_boots_little(*asked.off_rest))
                self._judge_when_many(
                    _Waiting(stances[rows][row], column + pairs.start, asked.demand[row, column])
                )
                done += asked.demand.size
                yield done / len(field)
        self._judge_all()

    def winners(self) -> list[Winner]:
        """The best candidates of the best stances, best first."""
        order = np.lexsort(self._best.T[::-1])[: self._places]
        return [
            Winner(tuple(self._best[stance].tolist()), int(stance), int(self._best_pair[stance]))
            for stance in order
            if np.isfinite(self._best[stance, 0])
        ]

    def _strewn(self) -> _Waiting:
        """Some candidates, strewn over all of them."""
        random = np.random.default_rng(0)
        stances, pairs = len(self._candidates.lengths), len(self._size)
        which = random.integers(stances, size=SAMPLE), random.integers(pairs, size=SAMPLE)
        return _Waiting(*which, np.zeros(SAMPLE))

    def _can_win(self, asked: NDArray[Any], stance: NDArray[Any]) -> NDArray[Any]:
        """Whether candidates of some stances can still win if no more is asked in them."""
        classes = self._best[:, 0]
        bar = classes[stance]
        if len(classes) > self._places:
            bar = np.minimum(bar, np.partition(classes, self._places - 1)[self._places - 1])
        return np.asarray(_class_of(asked) <= bar)

    def _judge_when_many(self, others: _Waiting) -> None:
        """Let others wait, and judge while those who wait make up whole blocks."""
        self._waiting = self._waiting.and_also(others)
        while len(self._waiting.asked) >= BLOCK:
            self._judge_block()

    def _judge_all(self) -> None:
        while len(self._waiting.asked):
            self._judge_block()

    def _judge_block(self) -> None:
        """Judge a block of those who wait, the least demanding ones."""
        order = np.argsort(self._waiting.asked, kind="stable")
        self._judge(self._waiting.only(order[:BLOCK]))
        rest = self._waiting.only(order[BLOCK:])
        self._waiting = rest.only(self._can_win(rest.asked, rest.stance))

    def _judge(self, judged: _Waiting) -> None:
        """Judge candidates over the whole range, and keep the best of each stance."""
        for stage in self._stages[:-1]:
            judged = self._passed(stage, judged)
        # The last stage is the long one: the most promising first, for the bar's sake.
        judged = judged.only(np.argsort(judged.asked, kind="stable"))
        for start in range(0, len(judged.asked), FINALISTS):
            finalists = judged.only(slice(start, start + FINALISTS))
            still = finalists.only(self._can_win(finalists.asked, finalists.stance))
            self._keep(self._passed(self._stages[-1], still))

    def _passed(self, stage: Rules, judged: _Waiting) -> _Waiting:
        """Those that can still win after another stage, with what they ask by then."""
        found = stage.worst(self._candidates.stances(judged.stance, judged.pair))
        asked = np.fmax(judged.asked, found.demand)
        stays = stage.allow(found) & self._can_win(asked, judged.stance)
        return judged._replace(asked=asked).only(stays)

    def _keep(self, judged: _Waiting) -> None:
        """Keep the best candidate of each stance."""
        size, height = self._size[judged.pair], self._height[judged.pair]
        keys = np.stack((_class_of(judged.asked), size, height, judged.asked), axis=1)
        for stance, pair, key in zip(judged.stance, judged.pair, keys, strict=True):
            if tuple(key) < tuple(self._best[stance]):
                self._best[stance], self._best_pair[stance] = key, pair


def _class_of(asked: NDArray[Any]) -> NDArray[Any]:
    """The number of tenths of a degree in what is asked."""
    return np.asarray(np.floor(asked / ALIKE))
