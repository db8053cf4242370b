"""Round joints, of which every drawing has many: on a screen as pictures made beforehand."""

from __future__ import annotations

from functools import lru_cache
from math import ceil, floor

from PySide6.QtCore import QPointF
from PySide6.QtGui import QImage, QPainter

from app.drawing.styles import Style
from app.qt.painting.easel import SMOOTH, Easel, brush, pen
from app.qt.painting.lettering import blank

FINE = 4
"""Places within a pixel, either way, on which a dot can stand: a drag must not look jerky."""


def paint_dot(easel: Easel, x: float, y: float, radius: float, look: Style) -> None:
    """Paint a dot about a point (logical px)."""
    if not easel.pictures:
        _draw(easel.painter, QPointF(x, y), radius, look)
        return
    across, down = floor(FINE * x + 0.5), floor(FINE * y + 0.5)
    made = _picture(radius, look, across % FINE, down % FINE)
    reach = _reach(radius, look)
    easel.painter.drawImage(across // FINE - reach, down // FINE - reach, made)


def _draw(painter: QPainter, at: QPointF, radius: float, look: Style) -> None:
    painter.setPen(pen(look.stroke, look.width, look.dash))
    painter.setBrush(brush(look.fill))
    painter.drawEllipse(at, radius, radius)


def _reach(radius: float, look: Style) -> int:
    """From the middle of a dot to beyond its edge, in whole pixels."""
    return ceil(radius + 0.5 * look.width) + 1


@lru_cache(maxsize=512)
def _picture(radius: float, look: Style, across: int, down: int) -> QImage:
    """A dot so many parts of a pixel to the right of and under the middle's corner."""
    reach = _reach(radius, look)
    made = blank(2 * reach + 1, 2 * reach + 1)
    with QPainter(made) as painter:
        painter.setRenderHint(SMOOTH)
        _draw(painter, QPointF(reach + across / FINE, reach + down / FINE), radius, look)
    return made
