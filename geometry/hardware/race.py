"""Many candidates, few winners: the first in the order of :mod:`geometry.hardware.order`.

Most of a candidate's place is known before any posture is solved: its cants, its stacks
and how far the feet move.  So no candidate is looked at that comes too late even if its
boots and knees were right.  Those that are left are looked at in one posture, at the
middle of the riding bend, which says what their boots do and at least how far the knees
are out; and who can still win is judged over the whole bend, the most promising first,
so that the bar falls fast.

Candidates belong to groups, of which each has one winner: stances, or choices of parts.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from geometry.hardware.candidates import Candidates
from geometry.hardware.order import (
    LAST,
    OUT,
    Codes,
    Rank,
    pair_code,
    places_of,
    rank_of,
    sole_code,
    with_posture,
)
from geometry.hardware.rules import Rules
from geometry.hardware.screening import screen_of
from geometry.hardware.wishes import Soles, Wishes
from geometry.rows import row_keys
from geometry.stance import Mount, Stance

BLOCK = 4096
"""Candidates that wait before they are judged."""
TOGETHER = 256
"""Candidates that are judged together."""
FIRST_LOOK = 0.6
"""Share of the time that the first look takes, about."""
ALL = slice(None)
SAME_SOLE = 1e-6
"""Lifts and cants that differ by less are the same (rad)."""

Many = NDArray[Any]


class Winner(NamedTuple):
    """The best candidate of a group.

    Attributes:
        rank: why it stands where it stands.
        stance: number of the stance.
        pair: number of the pair of stacks.
    """

    rank: Rank
    stance: int
    pair: int


class _Waiting(NamedTuple):
    """Candidates not yet judged over the whole bend, arrays of one length.

    Attributes:
        stance: number of each one's stance.
        pair: place of its pair among the sorted pairs.
        soles: lift and cant of the front and of the rear sole, shape (n, 4).
        known: what is known of its place without a posture.
        least: the first place that it can have.
    """

    stance: Many
    pair: Many
    soles: Many
    known: Codes
    least: Codes

    def only(self, which: Any) -> _Waiting:
        """Some of them."""
        return _Waiting(*(each[which] for each in self))

    def and_also(self, others: _Waiting) -> _Waiting:
        """These and others."""
        return _Waiting(*(np.concatenate(each) for each in zip(self, others, strict=True)))


class Race:
    """One search; the bar falls as candidates are judged."""

    def __init__(
        self,
        rules: Rules,
        field: Candidates,
        places: int,
        *,
        choices: Many | None = None,
        wishes: Wishes | None = None,
    ) -> None:
        """A race about to start.

        Args:
            rules: by what candidates are judged.
            field: all that take part.
            places: how many groups can win.
            choices: group of each pair of stacks; the stances are the groups where None.
            wishes: the answers for the stances, if they are known already and few.
        """
        self._rules, self._field, self._places = rules, field, places
        stacks = field.stacks
        place = places_of(stacks.height, stacks.size, field.front_stacks, field.rear_stacks)
        # The lowest stacks first: so those in question stand together.  Few bits sort fast.
        few = place.astype(np.uint16) if place.max() < 2**16 else place
        self._pairs = np.argsort(few, kind="stable")
        self._front, self._rear = (
            each[self._pairs] for each in (field.front_stacks, field.rear_stacks)
        )
        self._place = place[self._pairs]
        self._choice = None if choices is None else choices[self._pairs]
        groups = len(field.lengths) if choices is None else int(choices.max()) + 1
        self._best = np.full(groups, LAST, dtype=np.int64)
        self._best_at = np.zeros((groups, 2), dtype=int)
        self._wishes: list[Wishes] = [] if wishes is None else [wishes]
        self._kinds = row_keys(field.stacks.kinds)
        counts = np.array([part.count for part in stacks.parts.parts] or [0])
        self._twice = np.all(2 * stacks.used <= counts, axis=1)
        self._waiting = _nobody()

    def rounds(self) -> Iterator[float]:
        """Go through all candidates; yields the share that is done, after each batch."""
        field, done = self._field, 0
        for i, stances in enumerate(field.groups()):
            if i == len(self._wishes):
                self._wishes.append(self._rules.wishes(field.bare_of(stances)))
            known = self._known(stances, self._wishes[i])
            for rows, columns in field.batches(len(stances)):
                codes = self._codes(known, rows, columns)
                self._wait_for_first(stances, known, codes, (rows, columns))
                done += codes.size
                yield FIRST_LOOK * done / len(field)
        self._judge_all()
        done = 0
        for stances, wishes in zip(field.groups(), self._wishes, strict=True):
            known = self._known(stances, wishes)
            screen = screen_of(
                self._rules.rider.body, self._rules.rider.boots, known.stances, self._rules.middle
            )
            for rows, columns in field.batches(len(stances)):
                codes = self._codes(known, rows, columns)
                self._look_at(stances, known, screen, codes, (rows, columns))
                done += codes.size
                yield FIRST_LOOK + (1.0 - FIRST_LOOK) * done / len(field)
        self._judge_all()

    def wishes_of(self, stance: int) -> Wishes:
        """The answer for one of the stances, once the first look is over."""
        for stances, wishes in zip(self._field.groups(), self._wishes, strict=True):
            if stance <= stances[-1]:
                return wishes.only(stance - int(stances[0]))
        raise IndexError(stance)

    def winners(self) -> list[Winner]:
        """The best candidates of the best groups, best first."""
        order = np.argsort(self._best, kind="stable")[: self._places]
        height, size = self._field.height, self._field.size
        told = []
        for group in order[self._best[order] < OUT]:
            stance, at = (int(each) for each in self._best_at[group])
            pair = int(self._pairs[at])
            rank = rank_of(int(self._best[group]), height[pair], size[pair])
            told.append(Winner(rank, stance, pair))
        return told

    def _known(self, stances: Many, wishes: Wishes) -> _Known:
        soled = self._field.soled(stances)
        front, rear = (
            wishes.judged(foot, mount) for foot, mount in enumerate((soled.front, soled.rear))
        )
        return _Known(soled, front, rear, wishes.alike)

    def _codes(self, known: _Known, rows: slice, columns: slice) -> Codes:
        front, rear = self._front[columns], self._rear[columns]
        one, other = (each[rows] for each in known.codes)
        place = self._place[columns]
        if not known.alike[rows].any():
            return pair_code(one[:, front], other[:, rear], place, 0)
        same = self._kinds[front] == self._kinds[rear]
        unlike = known.alike[rows, np.newaxis] & ~(same & known.same_sole(rows, front, rear))
        code = pair_code(one[:, front], other[:, rear], place, unlike)
        # Where either stack can be had twice, one of the two serves both feet as well.
        twice = self._twice & known.same_sole(rows, ALL, ALL)
        return np.where(unlike & twice[:, front] & twice[:, rear], OUT, code)

    def _bar(self, group: Any) -> Codes:
        """Places behind which candidates of some groups win nothing any more."""
        best = self._best
        bar = best[group]
        if len(best) > self._places:
            bar = np.minimum(bar, np.partition(best, self._places - 1)[self._places - 1])
        return np.asarray(np.minimum(bar, OUT))

    def _groups(self, stance: Any, pair: Any) -> Any:
        return stance if self._choice is None else self._choice[pair]

    def _wait_for_first(
        self, stances: Many, known: _Known, codes: Codes, block: tuple[slice, slice]
    ) -> None:
        """Let wait whatever comes first of each group in a block, by what is known."""
        rows, columns = block
        if self._choice is None:
            row = np.arange(len(codes))
            column = np.argmin(codes, axis=1)
        else:
            order = np.argsort(codes[0], kind="stable")
            _, first = np.unique(self._choice[columns][order], return_index=True)
            row, column = np.zeros(len(first), dtype=int), order[first]
        code = codes[row, column]
        self._let_wait(stances, known, (row + rows.start, column + columns.start), (code, code))

    def _look_at(
        self,
        stances: Many,
        known: _Known,
        screen: Any,
        codes: Codes,
        block: tuple[slice, slice],
    ) -> None:
        """Look at one posture of whoever can still win in a block, and let those wait."""
        rows, columns = block
        pairs = np.arange(columns.start, columns.start + codes.shape[1])
        groups = self._groups(stances[rows][:, np.newaxis], pairs)
        in_question = codes < self._bar(groups)
        some = np.flatnonzero(in_question.any(axis=0))
        if not some.size:
            return
        asked = screen.asked(rows, self._front[pairs[some]], self._rear[pairs[some]])
        least = with_posture(
            codes[:, some],
            self._rules.boots_past(asked.off_rest),
            self._rules.out_of_plane(asked.off_plane),
        )
        bar = self._bar(np.broadcast_to(groups, codes.shape)[:, some])
        still = in_question[:, some] & (least < bar)
        row, column = np.nonzero(still)
        at = row + rows.start, some[column] + columns.start
        self._let_wait(stances, known, at, (codes[row, some[column]], least[row, column]))

    def _let_wait(
        self, stances: Many, known: _Known, at: tuple[Many, Many], codes: tuple[Codes, Codes]
    ) -> None:
        row, pair = at
        soles = known.soles(row, self._front[pair], self._rear[pair])
        self._waiting = self._waiting.and_also(_Waiting(stances[row], pair, soles, *codes))
        if len(self._waiting.pair) >= BLOCK:
            self._judge_all()

    def _judge_all(self) -> None:
        """Judge those who wait, the most promising first."""
        waiting = self._waiting.only(np.argsort(self._waiting.least, kind="stable"))
        self._waiting = _nobody()
        for start in range(0, len(waiting.pair), TOGETHER):
            some = waiting.only(slice(start, start + TOGETHER))
            groups = self._groups(some.stance, some.pair)
            self._judge(some.only(some.least < self._bar(groups)))

    def _judge(self, some: _Waiting) -> None:
        """Judge candidates over the whole bend, and keep the best of each group."""
        if not len(some.pair):
            return
        bare, soles = self._field.bare_of(some.stance), some.soles.T
        judged = self._rules.judged(
            Stance(
                Mount(bare.front.angle, soles[0], soles[1]),
                Mount(bare.rear.angle, soles[2], soles[3]),
                bare.length,
                bare.across,
            )
        )
        boots = self._rules.boots_past(judged.off_rest)
        code = with_posture(some.known, boots, self._rules.out_of_plane(judged.off_plane))
        code = np.where(judged.allowed, code, LAST)
        order = np.argsort(code, kind="stable")
        group, first = np.unique(self._groups(some.stance, some.pair)[order], return_index=True)
        best = order[first]
        better = code[best] < self._best[group]
        group, best = group[better], best[better]
        self._best[group] = code[best]
        self._best_at[group] = np.stack((some.stance[best], some.pair[best]), axis=1)


class _Known(NamedTuple):
    """Stances with every sole for either foot, and what is known of these."""

    stances: Stance
    front: Soles
    rear: Soles
    alike: NDArray[np.bool_]

    @property
    def codes(self) -> tuple[Codes, Codes]:
        """What is known of each sole's share in a place, shape (stances, soles)."""
        front, rear = (
            sole_code(
                cant_off=each.cant_off,
                moved=each.moved,
                from_answer=each.from_answer,
                out=each.out,
            )
            for each in (self.front, self.rear)
        )
        return front, rear

    def same_sole(self, rows: slice, front: Any, rear: Any) -> NDArray[np.bool_]:
        """Whether the soles of some pairs slope alike."""
        lift = self.front.lift[rows][:, front] - self.rear.lift[rows][:, rear]
        cant = self.front.cant[rows][:, front] - self.rear.cant[rows][:, rear]
        return np.asarray((np.abs(lift) < SAME_SOLE) & (np.abs(cant) < SAME_SOLE))

    def soles(self, row: Many, front: Many, rear: Many) -> Many:
        """Lift and cant of the front and the rear sole of some pairs, shape (n, 4)."""
        return np.stack(
            (
                self.front.lift[row, front],
                self.front.cant[row, front],
                self.rear.lift[row, rear],
                self.rear.cant[row, rear],
            ),
            axis=1,
        )


def _nobody() -> _Waiting:
    none, codes = np.zeros(0, dtype=int), np.zeros(0, dtype=np.int64)
    return _Waiting(none, none, np.zeros((0, 4)), codes, codes)
