"""Signs of a state and round joints: on a screen as pictures made beforehand.

A sign is a ring with a tick, a half-filled lozenge, a filled triangle, or an arrow at a stop.
"""

from __future__ import annotations

from functools import lru_cache
from math import ceil, floor
from typing import Final

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QImage, QPainter, QPainterPath, QPainterPathStroker, QPolygonF

from app.drawing.marks import Point
from app.drawing.styles import Style
from app.qt.painting.easel import SMOOTH, Easel, brush, pen
from app.qt.painting.lettering import blank
from app.stance.findings import (
    BOOT_IN,
    BOOT_NEAR,
    BOOT_OUT,
    DRIFTING,
    IN_PLANE,
    OUT_OF_PLANE,
)

LOUD: Final = frozenset({DRIFTING, OUT_OF_PLANE, BOOT_NEAR, BOOT_OUT})
"""States that want attention."""

_STROKE: Final = 1.6
"""Width of a sign's lines (logical px)."""
_TICK: Final = ((-0.42, 0.02), (-0.10, 0.36), (0.46, -0.36))
_LOZENGE: Final = ((0.0, -1.0), (1.0, 0.0), (0.0, 1.0), (-1.0, 0.0))
_LEFT_HALF: Final = ((0.0, -1.0), (0.0, 1.0), (-1.0, 0.0))
_TRIANGLE: Final = ((0.0, -1.0), (1.0, 0.85), (-1.0, 0.85))
_TO_STOP: Final = ((-1.0, 0.0), (0.55, 0.0), (0.05, -0.45), (0.55, 0.0), (0.05, 0.45))
_STOP: Final = ((0.95, -0.95), (0.95, 0.95))
_BAR: Final = ((-1.0, 0.0), (1.0, 0.0))


def paint_sign(easel: Easel, centre: QPointF, size: float, state: str, quiet: str) -> None:
    """Paint a state's sign; ``quiet`` is the colour of one that wants no attention."""
    colour = easel.theme.accent if state in LOUD else quiet
    if easel.pictures:
        ratio = easel.ratio
        made = _picture(state, size, colour, ratio)
        half = made.width() // 2
        easel.show(made, round(ratio * centre.x()) - half, round(ratio * centre.y()) - half)
        return
    easel.painter.translate(centre)
    easel.painter.fillPath(sign(state, size), brush(colour))
    easel.painter.translate(-centre)


@lru_cache(maxsize=64)
def _picture(state: str, size: float, colour: str, ratio: float) -> QImage:
    """A sign in the middle of a picture of an even number of pixels."""
    half = ceil((0.5 * size + _STROKE) * ratio)
    made = blank(2 * half, 2 * half, ratio)
    with QPainter(made) as painter:
        painter.setRenderHint(SMOOTH)
        painter.translate(half / ratio, half / ratio)
        painter.fillPath(sign(state, size), brush(colour))
    return made


@lru_cache(maxsize=64)
def sign(state: str, size: float) -> QPainterPath:
    """A sign about the origin, its lines as the areas they cover: they are painted often."""
    half = 0.5 * size
    if state in {IN_PLANE, BOOT_IN}:
        ring = QPainterPath()
        ring.addEllipse(QPointF(), half - 0.5 * _STROKE, half - 0.5 * _STROKE)
        return _drawn(ring).united(_drawn(_polyline(_TICK, half)))
    if state == DRIFTING:
        left = _closed(_LEFT_HALF, half)
        return left.united(_drawn(left)).united(_drawn(_closed(_LOZENGE, half)))
    if state == BOOT_NEAR:
        return _drawn(_polyline(_TO_STOP, half)).united(_drawn(_polyline(_STOP, half)))
    if state in {OUT_OF_PLANE, BOOT_OUT}:
        triangle = _closed(_TRIANGLE, half)
        return triangle.united(_drawn(triangle))
    return _drawn(_polyline(_BAR, half))


def _polyline(points: tuple[Point, ...], size: float) -> QPainterPath:
    path = QPainterPath()
    path.addPolygon(QPolygonF([QPointF(size * x, size * y) for x, y in points]))
    return path


def _closed(points: tuple[Point, ...], size: float) -> QPainterPath:
    path = _polyline(points, size)
    path.closeSubpath()
    return path


def _drawn(path: QPainterPath) -> QPainterPath:
    """The area that a line along a path covers."""
    stroker = QPainterPathStroker()
    stroker.setWidth(_STROKE)
    stroker.setCapStyle(Qt.PenCapStyle.RoundCap)
    stroker.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    return stroker.createStroke(path)


FINE = 4
"""Places within a pixel, either way, on which a dot can stand: a drag must not look jerky."""


def paint_dot(easel: Easel, x: float, y: float, radius: float, look: Style) -> None:
    """Paint a dot about a point (logical px)."""
    if not easel.pictures:
        _draw_dot(easel.painter, QPointF(x, y), radius, look)
        return
    ratio = easel.ratio
    across, down = floor(FINE * ratio * x + 0.5), floor(FINE * ratio * y + 0.5)
    made = _dot_picture(radius, look, across % FINE, down % FINE, ratio)
    reach = made.width() // 2
    easel.show(made, across // FINE - reach, down // FINE - reach)


def _draw_dot(painter: QPainter, at: QPointF, radius: float, look: Style) -> None:
    painter.setPen(pen(look.stroke, look.width, look.dash))
    painter.setBrush(brush(look.fill))
    painter.drawEllipse(at, radius, radius)


@lru_cache(maxsize=512)
def _dot_picture(radius: float, look: Style, across: int, down: int, ratio: float) -> QImage:
    """A dot so many parts of a pixel to the right of and under the middle's corner."""
    reach = ceil((radius + 0.5 * look.width) * ratio) + 1
    made = blank(2 * reach + 1, 2 * reach + 1, ratio)
    at = QPointF((reach + across / FINE) / ratio, (reach + down / FINE) / ratio)
    with QPainter(made) as painter:
        painter.setRenderHint(SMOOTH)
        _draw_dot(painter, at, radius, look)
    return made
