"""The knees from the front, near enough to put one of them where it is expected."""

from __future__ import annotations

from typing import Final

from app.drawing.front import front_view
from app.drawing.marks import Area, Dot, Label, Line, Mark, Point, Scene, Window
from app.drawing.solids import Figure, figure_of
from app.frame import Frame
from app.words.language import tr
from app.words.sentences import as_sentence

HALF_HEIGHT: Final = 190.0
"""How much of the legs is shown over and under the knees (mm)."""
ROOM: Final = 120.0
"""Beside the knees (mm)."""
FARTHEST_MM: Final = 150.0
"""A knee can be put so far from where it is."""


def outward_sign(frame: Frame, leg: str) -> float:
    """+1 where outward of a leg is to the right on the paper of the front view, else -1."""
    hand = frame.setup.inputs.hand
    return hand if leg == "front" else -hand


def scene_knee(
    asked: Frame, leg: str, moved_mm: float, words: str, real: Frame | None = None
) -> Scene:
    """The knees as they stand, and one of them as it is expected.

    Args:
        asked: the state over which the question is asked.
        leg: whose knee is expected elsewhere.
        moved_mm: how far outward.
        words: written beside it.
        real: the state after it, drawn in place of the other once it is revealed.
    """
    shown = real or asked
    marks: list[Mark] = [
        mark for mark in shown.scenes["front"].marks if isinstance(mark, Line | Area | Dot)
    ]
    ankle, knee, hip = _joints(asked, leg)
    there = (knee[0] + outward_sign(asked, leg) * moved_mm, knee[1])
    marks += [
        Line("expected", "ghost" if real else "plot.limit", (ankle, there, hip)),
        Dot("expected.knee", "landmark", there, 8.0),
        Label("expected.word", "balance.word", there, words, 0, (0.0, 30.0)),
    ]
    said = asked.findings.legs[leg].headline if real is None else real.findings.legs[leg].headline
    return Scene(
        "knees", tr("Knees from the front"), _window(asked), tuple(marks), as_sentence(said)
    )


def scene_knees(asked: Frame, leg: str) -> Scene:
    """The knees as they stand, to be printed, with the height at which one may be put elsewhere."""
    marks = [mark for mark in asked.scenes["front"].marks if isinstance(mark, Line | Area | Dot)]
    _, (_, height), _ = _joints(asked, leg)
    window = _window(asked)
    across = Line("expected", "plot.limit", ((window.left, height), (window.right, height)))
    said = as_sentence(asked.findings.legs[leg].headline)
    return Scene("knees", tr("Knees from the front"), window, (*marks, across), said)


def _joints(frame: Frame, leg: str) -> tuple[Point, Point, Point]:
    """Ankle, knee and hip on the paper."""
    view, figure = front_view(frame.setup.inputs, "facing"), _figure(frame, leg)
    return view.seen(figure.ankle), view.seen(figure.knee), view.seen(figure.hip)


def _figure(frame: Frame, leg: str) -> Figure:
    return figure_of(getattr(frame.settled.posture, leg), frame.setup.inputs.leg(leg))


def _window(frame: Frame) -> Window:
    """About both knees of the state asked over, so that nothing jumps at the reveal."""
    knees = [_joints(frame, leg)[1] for leg in ("front", "rear")]
    half = max(abs(x) for x, _ in knees) + ROOM
    middle = sum(y for _, y in knees) / 2.0
    return Window(-half, middle - HALF_HEIGHT, half, middle + HALF_HEIGHT)
