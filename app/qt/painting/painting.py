"""Marks on any paint device: screen, picture, PDF and SVG, at any scale.

Scenes come in mm.  A :class:`Viewport` places a scene's window in a rectangle; the
painter's own scale carries that to the device, so three times as large is three
times as large everywhere.
"""

from __future__ import annotations

from collections.abc import Collection
from functools import lru_cache
from itertools import pairwise
from math import atan2, degrees, hypot
from typing import NamedTuple

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter

from app.drawing.marks import Area, Dot, Label, Line, Mark, Point, Scene, Span
from app.drawing.styles import Style
from app.drawing.theme import mixed
from app.qt.painting.callouts import paint_callout
from app.qt.painting.easel import NO_BRUSH, NO_PEN, SMOOTH, Easel, Tools, box, brush
from app.qt.painting.signs import paint_dot
from app.qt.painting.viewport import Viewport, corners

ARROW = 9.0
"""Length of a dimension line's arrowhead (logical px)."""
LEVEL = 19.0
"""Between two parallel dimension lines (logical px)."""
FEW = 4
"""Points up to which a wide line is painted piece by piece."""


def paint_scene(
    easel: Easel,
    scene: Scene,
    fit: Viewport,
    lit: Collection[str] = (),
    left_out: Collection[str] = (),
    *,
    kept: Collection[str] = (),
) -> None:
    """Paint a scene's marks from back to front.

    Those whose key is ``lit`` stand out; others whose role is ``left_out`` are not painted,
    unless their key is ``kept``.
    """
    tools = box(easel.theme)
    for mark in scene.marks:
        if mark.role in left_out and mark.key not in lit and mark.key not in kept:
            continue
        if lit and mark.key in lit:
            paint_mark(easel, mark, fit, _lit(tools[mark.role].look, easel.theme.ink))
        else:
            paint_mark(easel, mark, fit, tools[mark.role])


@lru_cache(maxsize=256)
def _lit(look: Style, ink: str) -> Tools:
    """What makes a mark stand out: an area by its tone, anything else by a wider line."""
    if look.fill and look.stroke:
        return Tools(look._replace(stroke=ink, fill=mixed(look.stroke, look.fill, 0.55)))
    return Tools(look._replace(width=look.width + 1.8, stroke=look.stroke or ink))


def paint_mark(easel: Easel, mark: Mark, fit: Viewport, tools: Tools) -> None:
    """Paint one mark."""
    if isinstance(mark, Area):
        _paint_area(easel, mark, fit, tools)
    elif isinstance(mark, Line):
        _paint_line(easel, mark, fit, tools)
    elif isinstance(mark, Dot):
        paint_dot(easel, *fit.xy(mark.at), mark.radius, tools.look)
    elif isinstance(mark, Span):
        _paint_span(easel, mark, fit, tools)
    elif isinstance(mark, Label):
        _paint_label(easel, mark, fit, tools.look)
    else:
        paint_callout(easel, mark, fit, tools.look)


def _paint_line(easel: Easel, mark: Line, fit: Viewport, tools: Tools) -> None:
    painter, points = easel.painter, mark.points
    if tools.thin or len(points) > FEW or not easel.on_pixels:
        easel.polyline(fit.polygon(points), tools)
        return
    # Straight pieces with square ends cost a fifth of a polyline, and of round ends.
    places = [fit.point(p) for p in points]
    painter.setPen(tools.flat_pen)
    for start, end in pairwise(places):
        painter.drawLine(start, end)
    if not tools.look.jointed:
        half = 0.5 * tools.look.width
        painter.setPen(NO_PEN)
        painter.setBrush(brush(tools.look.stroke))
        for corner in places[1:-1]:
            painter.drawEllipse(corner, half, half)


def _paint_area(easel: Easel, mark: Area, fit: Viewport, tools: Tools) -> None:
    painter, polygon = easel.painter, fit.polygon(mark.points)
    # Under a smooth outline nobody sees a rough edge, and on a level one none is there:
    # either costs a third.
    at_once = tools.outlined and tools.thin and _is_level(mark.points)
    if tools.outlined:
        painter.setRenderHint(SMOOTH, False)
        painter.setPen(tools.pen if at_once else NO_PEN)
        painter.setBrush(tools.brush)
        painter.drawPolygon(polygon)
        if tools.hatch is not None:
            painter.setPen(NO_PEN)
            painter.setBrush(tools.hatch)
            painter.drawPolygon(polygon)
        painter.setRenderHint(SMOOTH)
    if at_once:
        return
    if easel.fine and tools.plain:
        easel.outline(polygon, tools)
    else:
        painter.setPen(tools.pen)
        painter.setBrush(NO_BRUSH if tools.outlined else tools.brush)
        painter.drawPolygon(polygon)


def _is_level(points: tuple[Point, ...]) -> bool:
    """Whether the sides of a rectangle stand level and upright, from a level one on."""
    if len(points) != 4:
        return False
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = points
    return ay == by and bx == cx and cy == dy and dx == ax


class _Placed(NamedTuple):
    """A dimension line in logical pixels: its ends, its unit vector, and its length."""

    start: Point
    end: Point
    along: Point
    length: float


def _placed(mark: Span, fit: Viewport, lift: float) -> _Placed:
    """Where a dimension line stands, lifted so far off what it measures."""
    (ax, ay), (bx, by) = fit.xy(mark.start), fit.xy(mark.end)
    dx, dy, (x, y) = bx - ax, by - ay, mark.out
    length = hypot(dx, dy)
    along = (dx / length, dy / length) if length else (1.0, 0.0)
    return _Placed((ax + lift * x, ay - lift * y), (bx + lift * x, by - lift * y), along, length)


def _paint_span(easel: Easel, mark: Span, fit: Viewport, tools: Tools) -> None:
    """A dimension: line, arrowheads, and text set along it, readable from below or right."""
    lift = LEVEL * mark.level * easel.type_scale
    (sx, sy), (ex, ey), (ux, uy), length = place = _placed(mark, fit, lift)
    if length < 1.0:
        return
    painter = easel.painter
    if mark.level:
        _paint_projections(easel, mark, fit, lift + 5.0, tools)
    inside = length > 3.2 * ARROW
    beyond = 0.0 if inside else 1.8 * ARROW
    bx, by = beyond * ux, beyond * uy
    easel.polyline(corners(sx - bx, sy - by, ex + bx, ey + by), tools)
    painter.setPen(NO_PEN)
    painter.setBrush(brush(tools.look.stroke))
    way = ARROW if inside else -ARROW
    _arrowhead(painter, sx, sy, -way * ux, -way * uy)
    _arrowhead(painter, ex, ey, way * ux, way * uy)
    _write_along(easel, mark.text, place, beyond, tools.look)


def _paint_projections(easel: Easel, mark: Span, fit: Viewport, past: float, tools: Tools) -> None:
    """The thin lines from what is measured out to its dimension line."""
    ox, oy = past * mark.out[0], -past * mark.out[1]
    for x, y in (fit.xy(mark.start), fit.xy(mark.end)):
        easel.polyline(corners(x, y, x + ox, y + oy), tools)


def _write_along(easel: Easel, text: str, place: _Placed, beyond: float, look: Style) -> None:
    """A dimension's figure over the middle of its line, or past its end where it is too short."""
    (sx, sy), (ex, ey), (ux, uy), length = place
    width = easel.width(text, look.size, look.weight)
    x, y = 0.5 * (sx + ex), 0.5 * (sy + ey)
    if width > length - 4.0:
        off = beyond + 0.5 * width + 6.0
        x, y = ex + off * ux, ey + off * uy
    turn = degrees(atan2(uy, ux))
    # Text reads from below or, on upright lines, from the right.
    if turn > 90.0 - 1e-6 or turn <= -90.0 - 1e-6:
        turn, ux, uy = turn + 180.0, -ux, -uy
    # From the middle of the line back by half the text, and up off the line.
    half = 0.5 * width
    easel.put(x - half * ux + 4.0 * uy, y - half * uy - 4.0 * ux, text, look, turn)


def _arrowhead(painter: QPainter, x: float, y: float, dx: float, dy: float) -> None:
    """A slim filled arrowhead whose tip is at a point and that is so long."""
    bx, by, side_x, side_y = x - dx, y - dy, -0.17 * dy, 0.17 * dx
    painter.drawPolygon(corners(x, y, bx + side_x, by + side_y, bx - side_x, by - side_y))


def _paint_label(easel: Easel, mark: Label, fit: Viewport, look: Style) -> None:
    (x, y), width = fit.xy(mark.at), easel.width(mark.text, look.size, look.weight)
    left = x - 0.5 * width * (1.0 - mark.align) + mark.shift[0]
    base = y + (mark.shift[1] + 0.36 * look.size) * easel.type_scale
    if look.cleared:
        size = look.size * easel.type_scale
        easel.clear(QRectF(left - 2.0, base - 0.80 * size, width + 4.0, 1.02 * size))
    if look.kept_in:
        # Under feet that stand wide apart, words may be wider than what is left of the view.
        left = min(max(left, fit.left), fit.right - width)
    easel.put(left, base, mark.text, look)
