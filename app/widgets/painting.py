"""Marks on any paint device: screen, picture, PDF and SVG, at any scale.

Scenes come in mm.  A :class:`Fit` places a scene's window in a rectangle; the
painter's own scale carries that to the device, so three times as large is three
times as large everywhere.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from functools import lru_cache
from math import atan2, cos, degrees, hypot, radians, sin
from typing import NamedTuple

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import (
    QBrush,
    QColor,
    QFont,
    QFontMetricsF,
    QPaintEngine,
    QPainter,
    QPen,
    QPolygonF,
    QStaticText,
)

from app.findings import DRIFTING, IN_PLANE, OUT_OF_PLANE
from app.scenes.marks import Area, Callout, Dot, Label, Line, Mark, Point, Scene, Span, Window
from app.styles import SMALL, Style, book
from app.theme import FONT_FAMILY, Theme

LOUD = frozenset({DRIFTING, OUT_OF_PLANE, "out"})
"""States that want attention."""
ARROW = 9.0
"""Length of a dimension line's arrowhead (logical px)."""
LEVEL = 19.0
"""Between two parallel dimension lines (logical px)."""


class Fit(NamedTuple):
    """Where a scene stands: paper mm to logical pixels, and the band over it.

    The band for call-outs reaches from ``left`` to ``right`` and begins at ``top``.
    """

    scale: float
    x: float
    y: float
    left: float
    right: float
    top: float = 0.0

    def point(self, p: Point) -> QPointF:
        """A point of the paper, in logical pixels."""
        return QPointF(self.x + self.scale * p[0], self.y - self.scale * p[1])

    def polygon(self, points: Iterable[Point]) -> QPolygonF:
        """Points of the paper, in logical pixels."""
        scale, x, y = self.scale, self.x, self.y
        return QPolygonF([QPointF(x + scale * px, y - scale * py) for px, py in points])

    def back(self, x: float, y: float) -> Point:
        """The point of the paper under a pixel."""
        return (x - self.x) / self.scale, (self.y - y) / self.scale


def fitted(window: Window, area: QRectF, largest: float = 10.0) -> Fit:
    """The fit that shows a whole window in the middle of an area."""
    scale = min(area.width() / window.width, area.height() / window.height, largest)
    centre = area.center()
    return Fit(
        scale,
        centre.x() - scale * 0.5 * (window.left + window.right),
        centre.y() + scale * 0.5 * (window.bottom + window.top),
        area.left(),
        area.right(),
    )


@lru_cache(maxsize=64)
def font(size: float, weight: int) -> QFont:
    """The drafting face at a height in logical pixels."""
    made = QFont(FONT_FAMILY)
    made.setPixelSize(max(1, round(size)))
    made.setWeight(QFont.Weight(weight))
    return made


@lru_cache(maxsize=64)
def metrics(size: float, weight: int) -> QFontMetricsF:
    """Its measures."""
    return QFontMetricsF(font(size, weight))


@lru_cache(maxsize=512)
def pen(stroke: str, width: float, dash: tuple[float, ...]) -> QPen:
    """A pen in logical pixels, never cosmetic."""
    if not stroke:
        return QPen(Qt.PenStyle.NoPen)
    made = QPen(QColor(stroke), width)
    made.setCapStyle(Qt.PenCapStyle.RoundCap if not dash else Qt.PenCapStyle.FlatCap)
    made.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    if dash:
        made.setDashPattern([part / width for part in dash])
    return made


@lru_cache(maxsize=256)
def brush(fill: str) -> QBrush:
    """A flat brush; none for an empty colour."""
    return QBrush(QColor(fill)) if fill else QBrush(Qt.BrushStyle.NoBrush)


class Easel:
    """What every stroke needs: the painter, the colours, and how large to write.

    Text is kept until :meth:`finish`, which writes it font by font: changing the
    font costs a painter several times what writing a word does.
    """

    def __init__(self, painter: QPainter, theme: Theme, type_scale: float = 1.0) -> None:
        self.painter = painter
        self.theme = theme
        self.type_scale = type_scale
        self._texts: dict[tuple[float, int], list[tuple[QPointF, float, str, str]]] = {}

    def width(self, text: str, size: float, weight: int) -> float:
        """Width of a text at a size before scaling (logical px)."""
        return text_width(text, size * self.type_scale, weight)

    def write(self, at: QPointF, text: str, look: Style, turn: float = 0.0) -> None:
        """Text at its baseline, turned clockwise about ``at`` (degrees)."""
        key = (look.size * self.type_scale, look.weight)
        self._texts.setdefault(key, []).append((at, turn, text, look.text))

    def clear(self, box: QRectF) -> None:
        """Take the lines away where text is to stand."""
        self.painter.fillRect(box, brush(self.theme.paper))

    def write_lines(self, area: QRectF, text: str, look: Style) -> None:
        """Text broken into lines, from the top left of an area."""
        size = look.size * self.type_scale
        self.painter.setFont(font(size, look.weight))
        self.painter.setPen(pen(look.text, 1.0, ()))
        laid = laid_text(text, size, look.weight, area.width())
        self.painter.drawStaticText(area.topLeft(), laid)

    def lines_height(self, width: float, text: str, look: Style) -> float:
        """Height of a text broken into lines (logical px)."""
        size = look.size * self.type_scale
        return laid_text(text, size, look.weight, width).size().height()

    def finish(self) -> None:
        """Write all text that was kept."""
        painter = self.painter
        # Only pixels gain from letters laid out before; paper keeps its text as text.
        on_pixels = painter.paintEngine().type() == QPaintEngine.Type.Raster
        for (size, weight), texts in self._texts.items():
            painter.setFont(font(size, weight))
            rise = metrics(size, weight).ascent()
            for at, turn, text, colour in texts:
                painter.setPen(pen(colour, 1.0, ()))
                if turn:
                    painter.save()
                    painter.translate(at)
                    painter.rotate(turn)
                    painter.drawText(QPointF(0.0, 0.0), text)
                    painter.restore()
                elif on_pixels and (laid := often_written(text, size, weight)):
                    painter.drawStaticText(QPointF(at.x(), at.y() - rise), laid)
                else:
                    painter.drawText(at, text)
        self._texts.clear()


@lru_cache(maxsize=2048)
def text_width(text: str, size: float, weight: int) -> float:
    """Width of a text (logical px)."""
    return metrics(size, weight).horizontalAdvance(text)


_written: dict[tuple[str, float, int], QStaticText | int] = {}


def often_written(text: str, size: float, weight: int) -> QStaticText | None:
    """A text laid out once for all, from the third time on that it is written.

    Words come back with every frame, figures seldom: laying those out would cost
    more than it saves.
    """
    key = (text, size, weight)
    known = _written.get(key, 0)
    if isinstance(known, QStaticText):
        return known
    if known < 2:
        if len(_written) > 4000:
            _written.clear()
        _written[key] = known + 1
        return None
    laid = QStaticText(text)
    laid.setTextFormat(Qt.TextFormat.PlainText)
    laid.prepare(font=font(size, weight))
    _written[key] = laid
    return laid


@lru_cache(maxsize=256)
def laid_text(text: str, size: float, weight: int, width: float) -> QStaticText:
    """A text broken into lines of a width (logical px): that costs more than drawing it."""
    laid = QStaticText(text)
    laid.setTextFormat(Qt.TextFormat.PlainText)
    laid.setTextWidth(width)
    laid.prepare(font=font(size, weight))
    return laid


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
    painter, theme = easel.painter, easel.theme
    if lit:
        look = look._replace(width=look.width + 1.8, stroke=look.stroke or theme.ink)
    if isinstance(mark, Line):
        painter.setPen(pen(look.stroke, look.width, look.dash))
        painter.drawPolyline(fit.polygon(mark.points))
    elif isinstance(mark, Area):
        _paint_area(painter, mark, fit, look)
    elif isinstance(mark, Dot):
        painter.setPen(pen(look.stroke, look.width, look.dash))
        painter.setBrush(brush(look.fill))
        painter.drawEllipse(fit.point(mark.at), mark.radius, mark.radius)
    elif isinstance(mark, Span):
        _paint_span(easel, mark, fit, look)
    elif isinstance(mark, Label):
        _paint_label(easel, mark, fit, look)
    else:
        _paint_callout(easel, mark, fit, look)


def _paint_area(painter: QPainter, mark: Area, fit: Fit, look: Style) -> None:
    polygon = fit.polygon(mark.points)
    if look.fill and look.stroke:
        # Under a smooth outline nobody sees a rough edge, and it costs a third.
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(brush(look.fill))
        painter.drawPolygon(polygon)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setBrush(Qt.BrushStyle.NoBrush)
    else:
        painter.setBrush(brush(look.fill))
    painter.setPen(pen(look.stroke, look.width, look.dash))
    painter.drawPolygon(polygon)
    if look.hatch:
        painter.setBrush(QBrush(QColor(look.stroke), Qt.BrushStyle.BDiagPattern))
        painter.drawPolygon(polygon)


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
    painter.setPen(Qt.PenStyle.NoPen)
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


class CalloutPlace(NamedTuple):
    """Where the parts of a call-out stand (logical px).

    Attributes:
        box: around all of its text.
        middle: height of the number's middle.
        head: width of sign and number together.
        words: look of the lines under them.
        widths: of these lines.
    """

    box: QRectF
    middle: float
    head: float
    words: Style
    widths: list[float]


def callout_place(easel: Easel, mark: Callout, fit: Fit, look: Style) -> CalloutPlace:
    """Where a call-out stands at the edge of its view."""
    size, lines = look.size * easel.type_scale, mark.word.split(",")
    head = 0.52 * size + 6.0 + easel.width(mark.number, look.size, look.weight)
    band = fit.right - fit.left
    room = band if mark.edge == 0 else 0.5 * band - 6.0
    widest = max(easel.width(line, SMALL, 500) for line in lines)
    words = look._replace(size=SMALL * min(1.0, room / widest), weight=500)
    widths = [easel.width(line, words.size, 500) for line in lines]
    width = max(head, *widths)
    left = fit.left + (band - width) * 0.5 * (1.0 + mark.edge)
    height = 0.90 * size + 4.0 + 1.25 * SMALL * easel.type_scale * len(widths)
    box = QRectF(left, fit.top, width, height)
    return CalloutPlace(box, fit.top + 0.5 * size, head, words, widths)


def _paint_callout(easel: Easel, mark: Callout, fit: Fit, look: Style) -> None:
    """State sign, number and words, with a leader to what they speak of."""
    if mark.state in LOUD:
        look = look._replace(text=easel.theme.accent_text)
    place = callout_place(easel, mark, fit, look)
    box, y = place.box, place.middle
    if mark.target is not None:
        easel.painter.setPen(pen(look.stroke, 1.0, ()))
        foot = QPointF(box.center().x() - 0.35 * mark.edge * box.width(), box.bottom() + 3.0)
        easel.painter.drawLine(foot, fit.point(mark.target))
    x = box.left() + (box.width() - place.head) * 0.5 * (1.0 + mark.edge)
    size = look.size * easel.type_scale
    sign = 0.52 * size
    paint_sign(easel, QPointF(x + sign / 2.0, y), sign, mark.state, look.stroke)
    base = y + 0.36 * size
    easel.write(QPointF(x + sign + 6.0, base), mark.number, look)
    step = 1.25 * SMALL * easel.type_scale
    for i, (line, width) in enumerate(zip(mark.word.split(","), place.widths, strict=True)):
        x = box.left() + (box.width() - width) * 0.5 * (1.0 + mark.edge)
        easel.write(QPointF(x, base + (i + 1) * step + 2.0), line.strip(), place.words)


def paint_sign(easel: Easel, centre: QPointF, size: float, state: str, quiet: str) -> None:
    """A state's sign: a ring with a tick, a half-filled lozenge, a filled triangle.

    ``quiet`` is the colour of a sign that wants no attention.
    """
    painter, theme = easel.painter, easel.theme
    x, y, r = centre.x(), centre.y(), size / 2.0
    painter.setPen(pen(theme.accent if state in LOUD else quiet, 1.6, ()))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    if state in {IN_PLANE, "in"}:
        painter.drawEllipse(centre, r - 0.8, r - 0.8)
        tick = [(-0.42, 0.02), (-0.10, 0.36), (0.46, -0.36)]
        painter.drawPolyline(QPolygonF([QPointF(x + r * u, y + r * v) for u, v in tick]))
    elif state == DRIFTING:
        lozenge = [(0.0, -1.0), (1.0, 0.0), (0.0, 1.0), (-1.0, 0.0)]
        painter.drawPolygon(QPolygonF([QPointF(x + r * u, y + r * v) for u, v in lozenge]))
        painter.setBrush(brush(theme.accent))
        half = [(0.0, -1.0), (0.0, 1.0), (-1.0, 0.0)]
        painter.drawPolygon(QPolygonF([QPointF(x + r * u, y + r * v) for u, v in half]))
    elif state in {OUT_OF_PLANE, "out"}:
        painter.setBrush(brush(theme.accent))
        triangle = [(0.0, -1.0), (1.0, 0.85), (-1.0, 0.85)]
        painter.drawPolygon(QPolygonF([QPointF(x + r * u, y + r * v) for u, v in triangle]))
    else:
        painter.drawLine(QPointF(x - r, y), QPointF(x + r, y))
