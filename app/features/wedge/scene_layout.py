"""Where the elevations, the notes and the caution of one wedge stand on their paper."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from textwrap import wrap
from typing import Any

from numpy.typing import NDArray

from app.drawing.marks import Area, Label, Line, Mark, Point, Span, Window, outward
from app.features.wedge.units import PartLengths
from app.features.wedge.words import CAUTION, Part, facts
from app.words.language import tr
from geometry.hardware.plane import Spot
from geometry.hardware.wedge import Wedge
from geometry.hardware.wedge_problems import wedge_problems
from geometry.hardware.wedge_views import Elevation

GAP = 44.0
"""Between two views (mm), with room for their dimension lines."""
SMALL_GAP = 64.0
"""Least room over the plan where the drawing is small (mm)."""
MARGIN = 30.0
"""Around all views (mm)."""
LINE = 9.0
"""Room for a line of the notes on the paper (mm): enough from 1.9 logical px to the mm on."""
STRAY = 12.0
"""How far outside the footprint a hole is still drawn (mm); beyond are other views and notes."""
LETTERS = (46, 120)
"""Letters in a line of the facts beside the plan, and of the caution under it."""


class Sheet:
    """Where the views of one wedge stand on the paper.

    In the plan the paper's x is ahead along the foot and its y to the foot's
    left, both from the binding's centre.
    """

    def __init__(
        self,
        part: Part,
        lengths: PartLengths,
        *,
        noted: bool = True,
    ) -> None:
        self.part = part
        self.lengths = lengths
        self.wedge = part.wedge
        self.hand = part.outer_side
        (self.back, low), (self.front, high) = self.wedge.footprint.bounds
        self.right, self.left = sorted((self.hand * low, self.hand * high))
        top = outward(max(self.wedge.thickest, 1.0), 10.0)
        gap = GAP if noted else self._small_gap
        self.base = self.left + gap
        self.end_at = self.front + (GAP if noted else 1.35 * gap) + self.left
        self.rise_at = self.front + (0.62 * GAP if noted else 0.5 * gap)
        self.facts, self.problems = _note_lines(part, lengths) if noted else ([], [])
        beside = self.left - LINE * (len(self.problems) + len(self.facts) + 2)
        self.notes_at = min(self.right - 1.3 * MARGIN, beside)
        self.window = Window(
            self.back - MARGIN,
            self.notes_at - LINE * (len(wrap(tr(CAUTION), LETTERS[1])) - 0.5),
            max(self.end_at - self.right + MARGIN, self.front + GAP + 100.0),
            self.base + top + 0.6 * MARGIN,
        )

    @property
    def _small_gap(self) -> float:
        """Room over the plan where the drawing is small (mm).

        Letters do not shrink with the drawing, so it grows with what shrinks it: a share
        of the height of both views, and of the width of all.
        """
        deep, long = self.left - self.right, self.front - self.back
        return max(SMALL_GAP, 0.58 * (deep + self.wedge.thickest), 0.2 * (long + deep))

    @property
    def drawn_holes(self) -> list[tuple[int, Spot]]:
        """Numbers and centres of the holes on the footprint or close to it."""
        (back, low), (front, high) = self.wedge.footprint.bounds
        return [
            (i + 1, (ahead, outer))
            for i, (ahead, outer) in enumerate(self.wedge.screws.centres)
            if back - STRAY <= ahead <= front + STRAY and low - STRAY <= outer <= high + STRAY
        ]

    @property
    def drawn_wedge(self) -> Wedge:
        """The wedge with those holes only."""
        centres = tuple(centre for _, centre in self.drawn_holes)
        return replace(self.wedge, screws=replace(self.wedge.screws, centres=centres))

    def plan(self, spot: Spot) -> Point:
        """A place of the wedge in the plan."""
        return spot[0], self.hand * spot[1]

    def side(self, p: Point) -> Point:
        """A point of the elevation from the foot's right."""
        return p[0], self.base + p[1]

    def end(self, p: Point) -> Point:
        """A point of the elevation from the heel."""
        return self.end_at + p[0], self.base + p[1]


def _note_lines(part: Part, lengths: PartLengths) -> tuple[list[str], list[str]]:
    """Facts and problems, broken into the lines that stand beside the plan."""
    problems = lengths.reasons(wedge_problems(part.wedge))
    told = (tr("Cannot be made: {problem}.", problem=problem) for problem in problems)
    return (
        [line for fact in facts(part, lengths) for line in wrap(fact, LETTERS[0])],
        [line for problem in told for line in wrap(problem, LETTERS[0])],
    )


def elevation_marks(
    key: str,
    seen: Elevation,
    place: Callable[[Point], Point],
    title: str,
    *,
    rises_away: bool,
    figure: Callable[[float], str],
) -> list[Mark]:
    """The marks of one elevation.

    Args:
        key: "side" or "end".
        seen: the wedge from there.
        place: from its points to those of the paper.
        title: what stands under it.
        rises_away: whether the top is seen from there, rather than its far edge hidden.
        figure: writes a height.
    """
    outline, rim = _points(seen.silhouette, place), _points(seen.rim, place)
    least, most = float(seen.silhouette[0, 0]), float(seen.silhouette[1, 0])
    return [
        Area(key, "part.face", outline),
        *(
            Line(f"{key}.hidden.{i + 1}", "part.hidden", _points(line, place))
            for i, line in enumerate(seen.hidden)
        ),
        Line(f"{key}.rim", "part.thin" if rises_away else "part.hidden", (*rim, rim[0])),
        Line(f"{key}.outline", "part", (*outline, outline[0])),
        Label(f"{key}.title", "word", place((0.5 * (least + most), 0.0)), title, 0, (0.0, 24.0)),
        *(
            _height(f"{key}.{end}", place, top, way, figure(top[1]))
            for end, top, way in (
                ("left", (least, float(seen.silhouette[-1, 1])), -1.0),
                ("right", (most, float(seen.silhouette[2, 1])), 1.0),
            )
        ),
    ]


def _height(key: str, place: Callable[[Point], Point], top: Point, way: float, text: str) -> Mark:
    """The height at one end, its dimension line outside."""
    return Span(key, "dimension", place((top[0], 0.0)), place(top), text, (way, 0.0), 1)


def _points(points: NDArray[Any], place: Callable[[Point], Point]) -> tuple[Point, ...]:
    return tuple(place((x, y)) for x, y in points.tolist())
