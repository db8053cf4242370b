"""Through the bend, as a drawing: both off-plane angles from standing tall to the deepest crouch.

The paper of this view is a diagram: bend to the right and off-plane angle up, both
in mm of a page rather than of a rider.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, isfinite
from typing import Any, Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

from app.drawing.marks import Area, Dot, Label, Line, Mark, Point, Scene, Window
from app.features.bend.model import Curves, bend_of, largest_of
from app.rider.inputs import Inputs
from app.stance.findings import Limits
from app.words.language import msgid, tr
from app.words.sentences import plain

WIDTH: Final = 100.0
"""Of the diagram (mm)."""


def scene_bend(
    inputs: Inputs, now: tuple[float, float], limits: Limits, height: float = 50.0
) -> Scene:
    """The diagram of a stance.

    Args:
        inputs: the stance.
        now: off-plane angle of front and rear knee in the posture in hand (degrees).
        limits: where a knee counts as drifting and as out of plane.
        height: of the diagram (mm).
    """
    curves = bend_of(inputs).over_bend
    # Room for the words at the edges beyond the limits.
    axes = axes_for(
        max(largest_of(curves.off_plane), 1.4 * limits.drifting_deg), inputs.knee_bend_deg, height
    )
    marks = [*_ground(axes, limits), *_grid(axes)]
    for i, name in ((1, "rear"), (0, "front")):
        marks += _curve(name, curves.x, curves.off_plane[i], axes)
    marks += _present(inputs.knee_bend_deg, now, axes)
    window = Window(-9.0, -13.0, WIDTH + 13.0, height + 2.0)
    return Scene("bend", tr("Through the bend"), window, tuple(marks), _words(curves))


class Axes(NamedTuple):
    """Where values stand in the diagram.

    Attributes:
        most: largest angle shown, up and down (degrees).
        step: between two lines of the grid (degrees).
        deepest: largest bend shown (degrees).
        height: of the diagram (mm).
    """

    most: float
    step: float
    deepest: float
    height: float

    def at(self, bend: float, angle: float) -> Point:
        """The point of a bend and an angle (degrees)."""
        return WIDTH * bend / self.deepest, 0.5 * self.height * (1.0 + angle / self.most)

    def across(self, angle: float) -> tuple[Point, Point]:
        """From the left to the right at an angle."""
        return self.at(0.0, angle), self.at(self.deepest, angle)


def axes_for(largest: float, bend: float, height: float) -> Axes:
    """Axes that show angles up to the largest, in not too many round steps."""
    step = next((s for s in (1.0, 2.0, 5.0, 10.0, 20.0) if 3.0 * s >= largest), 45.0)
    most = step * max(2, ceil(largest / step - 1e-9))
    return Axes(most, step, max(90.0, 10.0 * ceil(bend / 10.0)), height)


def _ground(axes: Axes, limits: Limits) -> list[Mark]:
    """The band in which a knee is in its plane, and the lines where drifting ends."""
    in_plane, out = limits.in_plane_deg, limits.drifting_deg
    band = (*axes.across(-in_plane), *reversed(axes.across(in_plane)))
    lines = [
        Line(f"limit.{word}", "plot.limit", axes.across(angle))
        for word, angle in (("knock", out), ("bow", -out))
    ]
    return [Area("in_plane", "plot.band", band), *lines]


def _grid(axes: Axes) -> Iterator[Mark]:
    corners = (*axes.across(-axes.most), *reversed(axes.across(axes.most)))
    yield Line("frame", "plot.frame", (*corners, corners[0]))
    yield Line("zero", "plot.zero", axes.across(0.0))
    for i in range(round(-axes.most / axes.step), round(axes.most / axes.step) + 1):
        angle = i * axes.step
        start = axes.at(0.0, angle)
        yield Line(f"rung.{i}", "plot.frame", (start, (start[0] - 1.2, start[1])))
        yield Label(f"angle.{i}", "word", start, f"{plain(abs(angle))}°", -1, (-9.0, 0.0))
    for bend in range(0, int(axes.deepest) + 1, 15):
        foot = axes.at(bend, -axes.most)
        yield Line(f"tick.{bend}", "plot.frame", (foot, (foot[0], foot[1] - 1.2)))
        yield Label(f"bend.{bend}", "word", foot, f"{bend}°", 0, (0.0, 15.0))
    middle = axes.at(0.5 * axes.deepest, -axes.most)
    yield Label("bend.name", "word", middle, tr("mean knee bend"), 0, (0.0, 32.0))
    inside = axes.at(0.0, axes.most), axes.at(0.0, -axes.most)
    yield Label("knock.name", "word", inside[0], tr("knock-kneed"), 1, (6.0, 11.0))
    yield Label("bow.name", "word", inside[1], tr("bow-legged"), 1, (6.0, -11.0))


def _curve(name: str, bends: NDArray[Any], angles: NDArray[Any], axes: Axes) -> Iterator[Mark]:
    """A curve with gaps where no posture settles, and its name at its end."""
    points = [axes.at(*each) for each in zip(bends.tolist(), angles.tolist(), strict=True)]
    runs = np.ma.clump_unmasked(np.ma.masked_invalid(angles))  # type: ignore[no-untyped-call]
    lines = [tuple(points[run]) for run in runs if run.stop - run.start > 1]
    for i, line in enumerate(lines):
        yield Line(f"{name}.curve.{i}", f"{name}.curve", line)
    if lines:
        # The front knee's name above the rear one's where the curves end together.
        rise = -7.0 if name == "front" else 7.0
        yield Label(f"{name}.name", f"{name}.word", lines[-1][-1], tr(_NAMES[name]), 1, (6.0, rise))


_NAMES: Final = {"front": msgid("front"), "rear": msgid("rear")}


def _present(bend: float, now: tuple[float, float], axes: Axes) -> Iterator[Mark]:
    """The bend in hand, and both knees there."""
    yield Line("now", "plot.now", (axes.at(bend, -axes.most), axes.at(bend, axes.most)))
    for name, angle in zip(("front", "rear"), now, strict=True):
        if isfinite(angle) and abs(angle) <= axes.most:
            yield Dot(f"{name}.now", f"{name}.joint.near", axes.at(bend, angle), 3.5)


def _words(curves: Curves) -> str:
    """The diagram in words."""
    tallest, deepest = curves.settled
    if not isfinite(tallest):
        return tr("No posture settles at any bend.")
    front, rear = (largest_of(angles) for angles in curves.off_plane)
    return tr(
        "From {tallest}° to {deepest}° of bend the front knee is at most {front}° and the "
        "rear knee {rear}° out of its plane.",
        tallest=plain(tallest, 0),
        deepest=plain(deepest, 0),
        front=plain(front),
        rear=plain(rear),
    )
