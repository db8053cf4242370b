"""Marks on any paint device: screen, picture, PDF and SVG, at any scale.

Scenes come in mm.  A :class:`Fit` places a scene's window in a rectangle; the
painter's own scale carries that to the device, so three times as large is three
times as large everywhere.
"""

from __future__ import annotations

from collections.abc import Collection
from itertools import pairwise
from math import atan2, cos, degrees, hypot, radians, sin

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPolygonF

from app.scenes.marks import Area, Dot, Label, Line, Mark, Point, Scene, Span
from app.styles import Style, book
from app.widgets.callouts import paint_callout
from app.widgets.easel import NO_BRUSH, NO_PEN, SMOOTH, Easel, brush, pen
from app.widgets.fit import Fit

ARROW = 9.0
"""Length of a dimension line's arrowhead (logical px)."""
LEVEL = 19.0
"""Between two parallel dimension lines (logical px)."""
FEW = 4
"""Points up to which a wide line is painted piece by piece."""


def paint_scene(
    easel: Easel,
    scene: Scene,
    fit: Fit,
    lit: Collection[str] = (),
    left_out: Collection[str] = (),
) -> None:
    """Paint a scene's marks from back to front.

    Those whose key is ``lit`` stand out; those whose role is ``left_out`` are not painted.
    """
    styles = book(easel.theme)
    for mark in scene.marks:
        if left_out and mark.role in left_out:
            continue
        paint_mark(easel, mark, fit, styles[mark.role], lit=mark.key in lit)


def paint_mark(easel: Easel, mark: Mark, fit: Fit, look: Style, *, lit: bool) -> None:
    """Paint one mark."""
    if lit:
        look = look._replace(width=look.width + 1.8, stroke=look.stroke or easel.theme.ink)
    if isinstance(mark, Area):
        _paint_area(easel.painter, mark, fit, look)
    elif isinstance(mark, Line):
        _paint_line(easel, mark, fit, look)
    elif isinstance(mark, Dot):
        painter = easel.painter
        painter.setPen(pen(look.stroke, look.width, look.dash))
        painter.setBrush(brush(look.fill))
        painter.drawEllipse(fit.point(mark.at), mark.radius, mark.radius)
    elif isinstance(mark, Span):
        _paint_span(easel, mark, fit, look)
    elif isinstance(mark, Label):
        _paint_label(easel, mark, fit, look)
    else:
        paint_callout(easel, mark, fit, look)


def _paint_line(easel: Easel, mark: Line, fit: Fit, look: Style) -> None:
    painter, points = easel.painter, mark.points
    if look.width <= 1.0 or len(points) > FEW or not easel.on_pixels:
        painter.setPen(pen(look.stroke, look.width, look.dash))
        painter.drawPolyline(fit.polygon(points))
        return
    corners = [fit.point(p) for p in points]
    for start, end in pairwise(corners):
        easel.line(start, end, look)
    painter.setPen(NO_PEN)
    painter.setBrush(brush(look.stroke))
    for corner in corners[1:-1]:
        painter.drawEllipse(corner, 0.5 * look.width, 0.5 * look.width)


def _paint_area(painter: QPainter, mark: Area, fit: Fit, look: Style) -> None:
    polygon = fit.polygon(mark.points)
    # Under a smooth outline nobody sees a rough edge, and on a level one none is there:
    # either costs a third.
    level = look.width <= 1.0 and _is_level(mark.points)
    if look.fill and (look.stroke or level):
        painter.setRenderHint(SMOOTH, False)
        painter.setPen(NO_PEN)
        painter.setBrush(brush(look.fill))
        painter.drawPolygon(polygon)
        painter.setBrush(NO_BRUSH)
    else:
        painter.setBrush(brush(look.fill))
    painter.setRenderHint(SMOOTH, not level)
    painter.setPen(pen(look.stroke, look.width, look.dash))
    painter.drawPolygon(polygon)
    painter.setRenderHint(SMOOTH)
    if look.hatch:
        painter.setBrush(QBrush(QColor(look.stroke), Qt.BrushStyle.BDiagPattern))
        painter.drawPolygon(polygon)


def _is_level(points: tuple[Point, ...]) -> bool:
    """Whether the sides of a rectangle stand level and upright, from a level one on."""
    if len(points) != 4:
        return False
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = points
    return ay == by and bx == cx and cy == dy and dx == ax


def _paint_span(easel: Easel, mark: Span, fit: Fit, look: Style) -> None:
    """A dimension: line, arrowheads, and text set along it, readable from below or right."""
    painter, lift = easel.painter, LEVEL * mark.level * easel.type_scale
    out = QPointF(lift * mark.out[0], -lift * mark.out[1])
    start, end = fit.point(mark.start) + out, fit.point(mark.end) + out
    dx, dy = end.x() - start.x(), end.y() - start.y()
    length = hypot(dx, dy)
    if length < 1.0:
        return
    painter.setPen(pen(look.stroke, look.width, look.dash))
    if mark.level:
        past = out * (1.0 + 5.0 / lift)
        painter.drawLine(fit.point(mark.start), fit.point(mark.start) + past)
        painter.drawLine(fit.point(mark.end), fit.point(mark.end) + past)
    along = QPointF(dx / length, dy / length)
    inside = length > 3.2 * ARROW
    beyond = along * (0.0 if inside else 1.8 * ARROW)
    painter.drawLine(start - beyond, end + beyond)
    _arrowhead(painter, start, along * (-1.0 if inside else 1.0), look)
    _arrowhead(painter, end, along * (1.0 if inside else -1.0), look)
    width = easel.width(mark.text, look.size, look.weight)
    middle = (start + end) / 2.0
    if width > length - 4.0:
        middle = end + beyond + along * (0.5 * width + 6.0)
    turn = degrees(atan2(dy, dx))
    # Text reads from below or, on upright lines, from the right.
    if turn > 90.0 - 1e-6 or turn <= -90.0 - 1e-6:
        turn += 180.0
    # From the middle of the line back by half the text, and up off the line.
    across = QPointF(cos(radians(turn)), sin(radians(turn)))
    up = QPointF(across.y(), -across.x())
    easel.write(middle - across * (width / 2.0) + up * 4.0, mark.text, look, turn)


def _arrowhead(painter: QPainter, tip: QPointF, way: QPointF, look: Style) -> None:
    """A slim filled arrowhead that points along a unit vector."""
    back = tip - way * ARROW
    side = QPointF(-way.y(), way.x()) * (0.17 * ARROW)
    painter.setBrush(brush(look.stroke))
    painter.setPen(NO_PEN)
    painter.drawPolygon(QPolygonF([tip, back + side, back - side]))


def _paint_label(easel: Easel, mark: Label, fit: Fit, look: Style) -> None:
    at, width = fit.point(mark.at), easel.width(mark.text, look.size, look.weight)
    left = {-1: at.x() - width, 0: at.x() - width / 2.0, 1: at.x()}[mark.align]
    base = at.y() + (mark.shift[1] + 0.36 * look.size) * easel.type_scale
    if mark.role.endswith(".number"):
        # Only the binding angles stand among lines.
        size = look.size * easel.type_scale
        easel.clear(QRectF(left - 2.0, base - 0.80 * size, width + 4.0, 1.02 * size))
    easel.write(QPointF(left + mark.shift[0], base), mark.text, look)
