"""Outlines of a body for drawings that explain: nobody's in particular, drawn for this program.

Lengths in mm at about the size of a grown-up.  Side views look at the outer side
of the right leg, toes to the right, the ankle over x = 0, the floor at y = 0.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, pi, sin
from typing import Final

from app.drawing.marks import Point

STEPS: Final = 6
"""Straight pieces between two points of a curve."""


def curve(points: Sequence[Point], *, closed: bool = False) -> tuple[Point, ...]:
    """A smooth curve through points.

    Cubic pieces whose slope at each point is that of the line between its
    neighbours (Catmull and Rom 1974).
    """
    count = len(points)
    last = count if closed else count - 1

    def at(i: int) -> Point:
        return points[i % count] if closed else points[min(max(i, 0), count - 1)]

    drawn = [
        _between(at(i - 1), at(i), at(i + 1), at(i + 2), k / STEPS)
        for i in range(last)
        for k in range(STEPS)
    ]
    return (*drawn, at(last))


def _between(before: Point, start: Point, end: Point, after: Point, t: float) -> Point:
    def axis(i: int) -> float:
        a, b, c, d = before[i], start[i], end[i], after[i]
        bend = (2.0 * a - 5.0 * b + 4.0 * c - d) * t * t + (3.0 * (b - c) + d - a) * t**3
        return 0.5 * (2.0 * b + (c - a) * t + bend)

    return axis(0), axis(1)


def ellipse(centre: Point, across: float, up: float, turn: float = 0.0) -> tuple[Point, ...]:
    """A closed ellipse with these half axes, turned to the left by an angle (rad)."""
    angles = [pi * i / 24.0 for i in range(49)]
    return tuple(
        (
            centre[0] + across * cos(a) * cos(turn) - up * sin(a) * sin(turn),
            centre[1] + across * cos(a) * sin(turn) + up * sin(a) * cos(turn),
        )
        for a in angles
    )


def below(points: Sequence[Point], top: float) -> tuple[Point, ...]:
    """The part of a line that lies at or under a height, cut off level there."""
    kept: list[Point] = []
    for start, end in zip(points, [*points[1:], points[-1]], strict=True):
        if start[1] <= top:
            kept.append(start)
        if (start[1] - top) * (end[1] - top) < 0.0:
            share = (top - start[1]) / (end[1] - start[1])
            kept.append((start[0] + share * (end[0] - start[0]), top))
    return tuple(kept)


FRONT_OF_LEG: Final = (
    (98.0, 1080.0), (108.0, 1010.0), (100.0, 930.0), (102.0, 850.0), (104.0, 760.0),
    (98.0, 660.0), (84.0, 580.0), (72.0, 538.0), (80.0, 510.0), (74.0, 478.0), (62.0, 452.0),
    (64.0, 410.0), (58.0, 330.0), (46.0, 230.0), (38.0, 150.0), (42.0, 106.0), (62.0, 78.0),
    (104.0, 56.0), (150.0, 38.0), (178.0, 28.0), (189.0, 14.0), (184.0, 2.0),
)  # fmt: skip
"""From the belly over kneecap and shin to the tip of the toes, seen from the side."""

BACK_OF_LEG: Final = (
    (-58.0, 2.0), (-70.0, 16.0), (-68.0, 44.0), (-54.0, 78.0), (-44.0, 120.0), (-46.0, 170.0),
    (-66.0, 240.0), (-84.0, 320.0), (-82.0, 390.0), (-64.0, 450.0), (-58.0, 492.0),
    (-68.0, 560.0), (-84.0, 650.0), (-96.0, 730.0), (-112.0, 800.0), (-150.0, 850.0),
    (-166.0, 920.0), (-150.0, 990.0), (-118.0, 1050.0), (-104.0, 1080.0),
)  # fmt: skip
"""From the heel over calf and buttock to the waist."""

THIGH_BONE: Final = (
    (-14.0, 880.0), (10.0, 878.0), (18.0, 850.0), (14.0, 780.0), (20.0, 660.0), (24.0, 570.0),
    (36.0, 536.0), (40.0, 512.0), (22.0, 497.0), (-8.0, 497.0), (-32.0, 508.0), (-34.0, 532.0),
    (-16.0, 556.0), (-6.0, 600.0), (-8.0, 680.0), (-14.0, 780.0), (-26.0, 850.0),
)  # fmt: skip
"""From the knob at the hip to the round end at the knee, seen from outside."""

SHIN_BONE: Final = (
    (-28.0, 482.0), (4.0, 486.0), (34.0, 482.0), (40.0, 462.0), (28.0, 430.0), (26.0, 340.0),
    (20.0, 220.0), (14.0, 130.0), (22.0, 98.0), (0.0, 92.0), (-20.0, 98.0), (-10.0, 140.0),
    (-8.0, 240.0), (-6.0, 340.0), (-14.0, 430.0), (-30.0, 462.0),
)  # fmt: skip
CALF_BONE: Final = (
    (-26.0, 456.0), (-14.0, 452.0), (-14.0, 420.0), (-18.0, 300.0), (-14.0, 160.0), (-2.0, 108.0),
    (8.0, 78.0), (2.0, 60.0), (-10.0, 60.0), (-18.0, 84.0), (-22.0, 160.0), (-26.0, 300.0),
    (-26.0, 420.0), (-34.0, 446.0),
)  # fmt: skip
KNEECAP: Final = ellipse((62.0, 518.0), 11.0, 24.0, -0.12)

SOLE_OF_FOOT: Final = (
    (0.0, 0.0), (5.0, 18.0), (20.0, 29.0), (48.0, 31.0), (85.0, 25.0), (120.0, 22.0),
    (155.0, 31.0), (184.0, 44.0), (204.0, 45.0), (216.0, 36.0), (218.0, 22.0), (213.0, 4.0),
    (206.0, -14.0), (194.0, -32.0), (180.0, -45.0), (158.0, -49.0), (125.0, -44.0),
    (85.0, -36.0), (48.0, -32.0), (20.0, -28.0), (5.0, -17.0),
)  # fmt: skip
"""A right foot from above without its toes: the heel's back at x = 0, the inner side up."""

TOES: Final = (
    ellipse((233.0, 28.0), 22.0, 13.0, 0.02),
    ellipse((231.0, 5.0), 18.0, 8.0, -0.04),
    ellipse((222.0, -11.0), 16.0, 7.5, -0.12),
    ellipse((210.0, -26.0), 14.0, 7.0, -0.22),
    ellipse((195.0, -40.0), 12.0, 7.0, -0.38),
)
LONGEST_TOE: Final = 255.0
"""Where the big toe ends (mm from the heel's back)."""

HALF_PELVIS: Final = (
    (0.0, 985.0), (24.0, 1000.0), (52.0, 1012.0), (74.0, 1046.0), (104.0, 1064.0),
    (132.0, 1054.0), (142.0, 1024.0), (132.0, 992.0), (119.0, 972.0), (106.0, 950.0),
    (108.0, 926.0), (117.0, 904.0), (112.0, 872.0), (92.0, 850.0), (80.0, 818.0),
    (62.0, 786.0), (42.0, 792.0), (36.0, 826.0), (14.0, 838.0), (0.0, 842.0),
)  # fmt: skip
"""The right half of a pelvis from the front; the hip joint at (85, 880), the front
point of the hip bone at (119, 972)."""

HALF_THIGH_BONE: Final = (
    (92.0, 904.0), (118.0, 894.0), (146.0, 900.0), (154.0, 876.0), (148.0, 840.0),
    (144.0, 780.0), (138.0, 700.0), (112.0, 700.0), (118.0, 780.0), (120.0, 826.0),
    (104.0, 852.0), (92.0, 857.0),
)  # fmt: skip
"""The neck, the knob and the shaft of the thigh bone below that hip joint."""


def mirrored(points: Sequence[Point]) -> list[Point]:
    """The points on the other side of x = 0, in turned order."""
    return [(-x, y) for x, y in reversed(points)]
