"""What every stroke needs: pens, brushes, type, and the painter they go to."""

from __future__ import annotations

from functools import cache, lru_cache
from typing import Final, TypeAlias

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QImage, QPaintEngine, QPainter, QPen, QPolygonF

from app.drawing.styles import ByRole, Style, book
from app.drawing.theme import THICK, Theme
from app.qt.painting.lettering import WORDS, font, laid_text, origin, outlines, text_width
from app.qt.painting.viewport import sides

NO_PEN: Final = QPen(Qt.PenStyle.NoPen)
NO_BRUSH: Final = QBrush(Qt.BrushStyle.NoBrush)
SMOOTH: Final = QPainter.RenderHint.Antialiasing


@lru_cache(maxsize=512)
def pen(stroke: str, width: float, dash: tuple[float, ...]) -> QPen:
    """A pen in logical pixels, never cosmetic.

    On a screen a width of up to 1 costs a tenth of any wider one.
    """
    if not stroke:
        return NO_PEN
    made = QPen(QColor(stroke), width)
    made.setCapStyle(Qt.PenCapStyle.RoundCap if not dash else Qt.PenCapStyle.FlatCap)
    made.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    if dash:
        made.setDashPattern([part / width for part in dash])
    return made


@lru_cache(maxsize=256)
def brush(fill: str) -> QBrush:
    """A flat brush; none for an empty colour."""
    return QBrush(QColor(fill)) if fill else NO_BRUSH


_Text: TypeAlias = tuple[float, float, float, str, str]
"""A text to write: x and y of its baseline's start, its turn, what it says, and its colour."""


class Tools:
    """Pen and brush of one style, taken up once and kept.

    Attributes:
        look: the style.
        pen: for its outlines.
        flat_pen: the same with flat ends.
        square_pen: the same with square ends, which reach over corners.
        brush: for its areas.
        hatch: for the lines over an area; None for none.
        outlined: whether it has both an area's fill and an outline.
        thin: whether its outline is one that costs little on a screen.
        plain: whether it is thin and whole: where that still makes some of a screen's
            pixels, its sides one by one cost a fifth of it at once, and a corner of square
            ends looks no other than a round one.
        whole: whether it is a whole line that is a little wider, of which on a screen the
            same holds while it turns little by little.
    """

    __slots__ = (
        "brush",
        "flat_pen",
        "hatch",
        "look",
        "outlined",
        "pen",
        "plain",
        "square_pen",
        "thin",
        "whole",
    )

    def __init__(self, look: Style) -> None:
        self.look = look
        self.pen = pen(look.stroke, look.width, look.dash)
        self.flat_pen = QPen(self.pen)
        self.flat_pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        self.square_pen = QPen(self.pen)
        self.square_pen.setCapStyle(Qt.PenCapStyle.SquareCap)
        self.brush = brush(look.fill)
        self.hatch = QBrush(QColor(look.stroke), Qt.BrushStyle.BDiagPattern) if look.hatch else None
        self.outlined = bool(look.fill and look.stroke)
        self.thin = look.width <= 1.0
        self.plain = self.thin and bool(look.stroke) and not look.dash
        self.whole = 1.0 < look.width <= THICK and not look.dash


@lru_cache(maxsize=64)
def thin(stroke: str) -> Tools:
    """The tools for thin lines of a colour."""
    return Tools(Style(stroke))


@cache
def box(theme: Theme) -> ByRole[Tools]:
    """The tools of a theme by role."""
    return ByRole(lambda role: Tools(book(theme)[role]))


class Easel:
    """What every stroke needs: the painter, the colours, and how large to write.

    Text is kept until :meth:`finish`, which writes it font by font: changing the
    font costs a painter several times what writing a word does.

    Args:
        painter: where everything goes.
        theme: its colours.
        type_scale: how large to write.
        live: whether the same is painted again and again, as in a window.

    Attributes:
        on_pixels: whether it goes to a screen or a picture, and not on paper.
        pictures: whether what comes back is painted as a picture made beforehand.
        ratio: pixels of the screen to the logical one; 1 where nothing is live.
        fine: whether that is any other, so that even a thin line may be some pixels wide.
        shrinks: whether words without room become smaller; else they are broken.
    """

    shrinks = True

    def __init__(
        self, painter: QPainter, theme: Theme, type_scale: float = 1.0, *, live: bool = False
    ) -> None:
        self.painter = painter
        self.theme = theme
        self.type_scale = type_scale
        # Some ways of painting gain on pixels only; paper keeps text as text and lines whole.
        self.on_pixels = painter.paintEngine().type() == QPaintEngine.Type.Raster
        # Words as pictures are for what is painted over and over.
        self.live = live
        self.pictures = live and self.on_pixels
        self.ratio = painter.deviceTransform().m11() if self.pictures else 1.0
        self.fine = self.ratio != 1.0
        self._texts: dict[tuple[float, int], list[_Text]] = {}

    def width(self, text: str, size: float, weight: int) -> float:
        """Width of a text at a size before scaling (logical px)."""
        return text_width(text, size * self.type_scale, weight)

    def write(self, at: QPointF, text: str, look: Style, turn: float = 0.0) -> None:
        """Text at its baseline, turned clockwise about ``at`` (degrees)."""
        self.put(at.x(), at.y(), text, look, turn)

    def put(self, x: float, y: float, text: str, look: Style, turn: float = 0.0) -> None:
        """The same, at two numbers."""
        key = (look.size * self.type_scale, look.weight)
        self._texts.setdefault(key, []).append((x, y, turn, text, look.text))

    def polyline(self, polygon: QPolygonF, tools: Tools) -> None:
        """A line in one pen, through the corners of the polygon that was made last."""
        if (self.fine and tools.plain) or (self.pictures and tools.whole):
            self.painter.setPen(tools.square_pen)
            self.painter.drawLines(sides(polygon.size(), closed=False))
        else:
            self.painter.setPen(tools.pen)
            self.painter.drawPolyline(polygon)

    def outline(self, polygon: QPolygonF, tools: Tools) -> None:
        """A plain line all round the polygon that was made last, on a fine screen."""
        self.painter.setPen(tools.square_pen)
        self.painter.drawLines(sides(polygon.size(), closed=True))

    def bar(self, x: float, y: float, width: float, height: float, colour: str) -> None:
        """A rectangle of one colour, upright."""
        self.painter.fillRect(QRectF(x, y, width, height), brush(colour))

    def clear(self, box: QRectF) -> None:
        """Take the lines away where text is to stand."""
        self.painter.fillRect(box, brush(self.theme.paper))

    def write_lines(self, area: QRectF, text: str, look: Style) -> None:
        """Text broken into lines, from the top left of an area."""
        face, width = (look.size * self.type_scale, look.weight), area.width()
        if self.pictures:
            kept = WORDS.picture(text, *face, look.text, width=width, ratio=self.ratio)
            if kept is not None:
                self.painter.drawImage(self._pixel(area.left(), area.top()), kept)
                return
        self.painter.setFont(font(*face))
        self.painter.setPen(pen(look.text, 1.0, ()))
        at = self._pixel(area.left(), area.top())
        self.painter.drawStaticText(at, laid_text(text, *face, width))

    def lines_height(self, width: float, text: str, look: Style) -> float:
        """Height of a text broken into lines (logical px)."""
        size = look.size * self.type_scale
        return laid_text(text, size, look.weight, width).size().height()

    def finish(self) -> None:
        """Write all text that was kept."""
        painter, ratio = self.painter, self.ratio
        rest: list[_Text] = []
        for face, texts in self._texts.items():
            left, down = origin(*face, ratio)
            for text in texts:
                x, y, turn, said, colour = text
                kept = None
                if self.pictures and not turn:
                    kept = WORDS.picture(said, *face, colour, ratio=ratio)
                if kept is not None:
                    self.show(kept, round(ratio * x) - left, round(ratio * y) - down)
                else:
                    rest.append(text)
            if not rest:
                continue
            painter.setFont(font(*face))
            for x, y, turn, said, colour in rest:
                if turn:
                    self._write_turned(QPointF(x, y), turn, said, colour, face)
                else:
                    painter.setPen(pen(colour, 1.0, ()))
                    painter.drawText(self._pixel(x, y), said)
            rest.clear()
        self._texts.clear()

    def show(self, picture: QImage, across: int, down: int) -> None:
        """A picture made for this screen, its top left on one of the screen's pixels."""
        if self.fine:
            self.painter.drawImage(QPointF(across / self.ratio, down / self.ratio), picture)
        else:
            # Whole numbers go a third of the way.
            self.painter.drawImage(across, down, picture)

    def _pixel(self, x: float, y: float) -> QPointF:
        """A point; on a whole pixel where text may also stand as a picture."""
        if not self.pictures:
            return QPointF(x, y)
        ratio = self.ratio
        return QPointF(round(ratio * x) / ratio, round(ratio * y) / ratio)

    def _write_turned(
        self, at: QPointF, turn: float, text: str, colour: str, face: tuple[float, int]
    ) -> None:
        painter = self.painter
        painter.save()
        painter.translate(at)
        painter.rotate(turn)
        slanting = bool(turn % 90.0)
        if slanting:
            # Only in the plan are figures set at a slant, where the feet's axes may cross them.
            size = face[0]
            self.clear(QRectF(-2.0, -0.78 * size, text_width(text, *face) + 4.0, 0.92 * size))
        if slanting and self.pictures:
            # Else every letter would be rastered anew for every angle, and kept.
            painter.fillPath(outlines(text, *face, self.ratio), brush(colour))
        else:
            painter.setPen(pen(colour, 1.0, ()))
            painter.drawText(QPointF(0.0, 0.0), text)
        painter.restore()
