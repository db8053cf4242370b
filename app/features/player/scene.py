"""Frames of what is played: all at one scale, with traces left behind and the worst as a ghost."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Final, TypeAlias

from app.drawing.marks import Area, Dot, Line, Mark, Point, Scene, Window
from app.features.compare.scene import with_ghost
from app.features.player.frames import Course, moments
from app.frame import Frame
from app.rider.inputs import ENDS, Inputs
from app.words.language import tr

SAMPLES: Final = 41
"""Moments of which the views' windows and the traces are made."""
AXES_EACH: Final = 5
"""An axis is left behind at every so many of them."""
NEARLY: Final = 0.5
"""What moved by less leaves no trace (mm)."""

Drawn: TypeAlias = Callable[[Inputs], Frame]
"""Solves and draws some inputs."""


@dataclass(frozen=True, eq=False)
class Backdrop:
    """What stays while it plays.

    Attributes:
        phases: of the samples.
        windows: of each view, with room for every moment.
        knees: of each view and leg, where the knee is at each sample; without those that rest.
        axes: of each view, lines left behind, with the place of their sample.
        ghost: the frame of the worst moment.
    """

    phases: tuple[float, ...]
    windows: dict[str, Window]
    knees: dict[tuple[str, str], tuple[Point, ...]]
    axes: dict[str, tuple[tuple[int, Line], ...]]
    ghost: Frame | None


def backdrop_of(course: Course, drawn: Drawn, ghost: Frame | None) -> Backdrop:
    """What stays while a course is played.

    Args:
        course: what is played.
        drawn: solves and draws some inputs.
        ghost: the frame of the worst moment.

    Raises:
        ValueError: the legs cannot be solved on the way.
    """
    made = moments(course, SAMPLES)
    frames = [drawn(each.inputs) for each in made]
    views = list(frames[0].scenes)
    scenes = {view: [each.scenes[view] for each in frames] for view in views}
    return Backdrop(
        phases=tuple(each.phase for each in made),
        windows={view: _joined(each) for view, each in scenes.items()},
        knees={
            (view, end): path
            for view in views
            for end in ENDS
            if (path := _knee_path(scenes[view], end))
        },
        axes={view: tuple(_axes(scenes[view])) for view in views},
        ghost=ghost,
    )


def _joined(scenes: list[Scene]) -> Window:
    window = scenes[0].window
    for scene in scenes[1:]:
        window = window.joined(scene.window)
    return window


def _knee_path(scenes: list[Scene], end: str) -> tuple[Point, ...]:
    """Where a knee is from sample to sample; nothing where it rests, or has no posture."""
    key = f"{end}.knee"
    dots = [next((mark for mark in scene.marks if mark.key == key), None) for scene in scenes]
    path = tuple(dot.at for dot in dots if isinstance(dot, Dot))
    if len(path) < len(scenes) or not _moves(path):
        return ()
    return path


def _moves(path: tuple[Point, ...]) -> bool:
    (x, y), rest = path[0], path[1:]
    return any(abs(px - x) > NEARLY or abs(py - y) > NEARLY for px, py in rest)


def _axes(scenes: list[Scene]) -> Iterator[tuple[int, Line]]:
    """The axes of the feet and the hinge planes' traces, each where it has moved on."""
    for end in ENDS:
        for part in ("axis", "trace"):
            last: tuple[Point, ...] = ()
            for place in range(0, len(scenes), AXES_EACH):
                line = _line(scenes[place], f"{end}.{part}")
                if line is None or (last and not _moved_on(last, line.points)):
                    continue
                last = line.points
                yield place, Line(f"{end}.left.{part}.{place}", f"{end}.left", line.points)


def _line(scene: Scene, key: str) -> Line | None:
    return next((m for m in scene.marks if m.key == key and isinstance(m, Line)), None)


def _moved_on(one: tuple[Point, ...], other: tuple[Point, ...]) -> bool:
    pairs = zip(one, other, strict=False)
    return any(abs(a - c) > NEARLY or abs(b - d) > NEARLY for (a, b), (c, d) in pairs)


def dressed(live: Frame, backdrop: Backdrop, passed: float, *, ghost: bool, traces: bool) -> Frame:
    """A frame of what is played.

    Args:
        live: the frame of the moment.
        backdrop: what stays.
        passed: how far it has been played, as a phase: traces are left up to there.
        ghost: whether the worst moment stands behind it.
        traces: whether knees and axes leave traces.
    """
    scenes = {}
    for key, scene in live.scenes.items():
        made = scene
        if ghost and backdrop.ghost is not None:
            made = with_ghost(made, backdrop.ghost.scenes[key], tr("the worst moment"))
        if traces:
            left = _left_behind(key, backdrop, passed)
            made = made._replace(marks=_between(made.marks, left))
        # The scale never changes while it plays.
        scenes[key] = made._replace(window=backdrop.windows[key])
    return live._replace(scenes=scenes)


def _between(marks: tuple[Mark, ...], left: list[Mark]) -> tuple[Mark, ...]:
    """Marks with traces among them: over all that is filled, under joints and words."""
    filled = [i for i, mark in enumerate(marks) if isinstance(mark, Area)]
    at = filled[-1] + 1 if filled else 0
    return (*marks[:at], *left, *marks[at:])


def _left_behind(view: str, backdrop: Backdrop, passed: float) -> list[Mark]:
    """The traces in a view up to a phase."""
    last = sum(phase <= passed for phase in backdrop.phases)
    marks: list[Mark] = [line for place, line in backdrop.axes[view] if place < last]
    for end in ENDS:
        path = backdrop.knees.get((view, end), ())[:last]
        if len(path) > 1:
            marks.append(Line(f"{end}.left.knee", f"{end}.path", path))
    return marks
