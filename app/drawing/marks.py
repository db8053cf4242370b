"""Marks: what a scene is made of, in mm on the paper of one view.

A mark has a key, which names what it shows ("front.thigh"), and a role, which
decides how it looks ("front.limb").  Only text offsets and dot sizes are in
logical pixels, since they must not shrink with the drawing.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil
from typing import Final, NamedTuple, TypeAlias

Point: TypeAlias = tuple[float, float]


class Line(NamedTuple):
    """An open polyline."""

    key: str
    role: str
    points: tuple[Point, ...]


class Area(NamedTuple):
    """A filled polygon with an outline."""

    key: str
    role: str
    points: tuple[Point, ...]


class Dot(NamedTuple):
    """A round joint; ``radius`` in logical pixels."""

    key: str
    role: str
    at: Point
    radius: float


class Span(NamedTuple):
    """A dimension line from arrowhead to arrowhead, its text set along it.

    Attributes:
        start: where it measures from (mm).
        end: where it measures to (mm).
        text: its figure.
        out: unit vector towards which parallel lines are stacked.
        level: 0 on the points themselves, 1 for the next line outside, and so on.
    """

    key: str
    role: str
    start: Point
    end: Point
    text: str
    out: Point = (0.0, 0.0)
    level: int = 0


class Label(NamedTuple):
    """Text at a point.

    Attributes:
        align: -1 the text ends at the point, 0 is centred on it, +1 starts there.
        shift: right and down from the point, in logical pixels.
    """

    key: str
    role: str
    at: Point
    text: str
    align: int = 0
    shift: Point = (0.0, 0.0)


class Callout(NamedTuple):
    """The off-plane angle of a knee: state, number and word, with a leader.

    It stands in a band over the drawing, where no limb comes.

    Attributes:
        edge: -1 at the left edge of the band, 0 in its middle, +1 at its right edge.
        target: what the leader points to; None for no leader.
        state: one of :data:`app.stance.findings.STATES`, or where a boot is: "in" its
            range, "near" its stop or "out".
        number: the angle, as text.
        word: what it means, its lines parted by commas.
    """

    key: str
    role: str
    edge: int
    target: Point | None
    state: str
    number: str
    word: str


Mark: TypeAlias = Line | Area | Dot | Span | Label | Callout


class Window(NamedTuple):
    """The part of a view's paper that is shown, in mm."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """From left to right."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From bottom to top."""
        return self.top - self.bottom

    def joined(self, other: Window) -> Window:
        """The smallest window that shows both."""
        return Window(
            min(self.left, other.left),
            min(self.bottom, other.bottom),
            max(self.right, other.right),
            max(self.top, other.top),
        )


def window_around(marks: Iterable[Mark], margin: float, step: float) -> Window:
    """The window that shows every line, area and dimension, in steps.

    Args:
        marks: of the scene.
        margin: left clear around them (mm).
        step: of each of its edges (mm).
    """
    points: list[Point] = []
    for mark in marks:
        if isinstance(mark, Line | Area):
            points += mark.points
        elif isinstance(mark, Span):
            points += (mark.start, mark.end)
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return Window(
        -outward(margin - min(xs), step),
        -outward(margin - min(ys), step),
        outward(max(xs) + margin, step),
        outward(max(ys) + margin, step),
    )


STEP: Final = 10.0
"""Of the edges of a window that grows with a stance (mm): fine enough that no eye sees a jump."""


class Scene(NamedTuple):
    """One view: its marks from back to front.

    Attributes:
        key: "above", "front", "side", "front_foot" or "rear_foot".
        title: what stands over it.
        window: what has to be visible, in steps coarse enough not to flutter.
        marks: from back to front.
        text: the same picture in words, for those who cannot see it.
    """

    key: str
    title: str
    window: Window
    marks: tuple[Mark, ...]
    text: str


def outward(distance: float, step: float) -> float:
    """The next multiple of a step at or above a distance."""
    return step * ceil(distance / step - 1e-9)
