"""How a slider looks, and where on it a value stands."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from PySide6.QtCore import QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QPainter, QPen

from app.drawing.theme import Theme, mixed
from app.qt.painting.palette import colour
from app.qt.sizes import target_px
from app.words.scale import Scale

HEIGHT: Final = 24
HALF_HANDLE: Final = 5
"""Half the width of the handle: how far the scale stands off the edges."""
_MIDDLE: Final = 10
"""At the usual size of letters (px)."""


def height() -> int:
    """The height of a slider (px)."""
    return target_px(HEIGHT)


def half_handle() -> int:
    """Half the width of the handle (px)."""
    return target_px(HALF_HANDLE)


@dataclass(frozen=True, slots=True)
class Face:
    """All that a slider's picture depends on.

    Attributes:
        scale: on which the value stands.
        value: shown by the handle.
        width: of the slider in logical pixels.
        theme: its colours.
        hue: "front" or "rear" for a control of one leg, else empty.
        focused: whether the keyboard is on it.
        busy: whether the mouse is over it or drags it.
    """

    scale: Scale
    value: float
    width: int
    theme: Theme
    hue: str
    focused: bool
    busy: bool


def x_of(scale: Scale, value: float, width: int) -> float:
    """Where a value stands on a slider of some width."""
    half = half_handle()
    return half + scale.share(value) * (width - 2 * half)


def value_at(scale: Scale, x: float, width: int) -> float:
    """The value that stands at x, beyond the ends of the scale too."""
    half = half_handle()
    share = (x - half) / max(width - 2 * half, 1)
    return scale.low + share * (scale.high - scale.low)


def paint(painter: QPainter, face: Face) -> None:
    """Draw the scale with its marks, then the handle on it, all as large as the letters."""
    times = target_px(HEIGHT) / HEIGHT
    painter.scale(times, times)
    x = _at(face, face.value)
    _paint_scale(painter, face, x)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    _paint_default(painter, face)
    _paint_handle(painter, face, x)


def _at(face: Face, value: float) -> int:
    """Where a value stands on the face as it is at the usual size of letters (px)."""
    return round(x_of(face.scale, value, face.width) * HEIGHT / target_px(HEIGHT))


def _paint_scale(painter: QPainter, face: Face, x: int) -> None:
    """A thin line between end ticks, thick from zero to the value, and a tick at zero."""
    scale, theme = face.scale, face.theme
    thin, quiet = colour(theme.edge), colour(theme.quiet)
    first, last = (_at(face, end) for end in (scale.low, scale.high))
    painter.fillRect(QRect(first, _MIDDLE, last - first + 1, 1), thin)
    for end in (first, last):
        painter.fillRect(QRect(end, _MIDDLE - 2, 1, 5), thin)
    if not scale.low <= 0.0 <= scale.high:
        return
    zero = _at(face, 0.0)
    thick = colour(theme.leg(face.hue) if face.hue else mixed(theme.quiet, theme.panel, 0.7))
    painter.fillRect(QRect(min(x, zero), _MIDDLE - 1, abs(x - zero), 3), thick)
    if scale.low < 0.0:
        painter.fillRect(QRect(zero, _MIDDLE - 5, 1, 11), quiet)


def _paint_default(painter: QPainter, face: Face) -> None:
    """A small arrow under the line, at the default."""
    if face.scale.default is None:
        return
    x = _at(face, face.scale.default) + 0.5
    top = _MIDDLE + 5.5
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour(face.theme.quiet))
    painter.drawPolygon([QPointF(x, top), QPointF(x - 3.0, top + 4.0), QPointF(x + 3.0, top + 4.0)])


def _paint_handle(painter: QPainter, face: Face, x: int) -> None:
    """A cursor with a hairline; filled under the mouse, ringed under the keyboard."""
    theme = face.theme
    line = colour(theme.leg(face.hue) if face.hue else theme.ink)
    painter.setPen(QPen(line, 1.0))
    if face.focused:
        painter.setBrush(colour(mixed(theme.field, theme.panel, 0.5)))
        painter.drawRoundedRect(QRectF(x - 4.5, _MIDDLE - 7.5, 10.0, 16.0), 3.0, 3.0)
    solid = face.busy or face.focused
    painter.setBrush(line if solid else colour(theme.field))
    painter.drawRoundedRect(QRectF(x - 2.5, _MIDDLE - 5.5, 6.0, 12.0), 1.5, 1.5)
    if not solid:
        painter.fillRect(QRectF(x, _MIDDLE - 3.0, 1.0, 7.0), line)
