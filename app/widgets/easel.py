"""What every stroke needs: pens, brushes, type, and the painter they go to."""

from __future__ import annotations

from functools import lru_cache
from typing import Final

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import (
    QBrush,
    QColor,
    QFont,
    QFontMetricsF,
    QPaintEngine,
    QPainter,
    QPainterPath,
    QPen,
    QStaticText,
)

from app.styles import Style
from app.theme import FONT_FAMILY, Theme


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


@lru_cache(maxsize=128)
def flat_pen(stroke: str, width: float, dash: tuple[float, ...]) -> QPen:
    """The same with square ends."""
    made = QPen(pen(stroke, width, dash))
    made.setCapStyle(Qt.PenCapStyle.FlatCap)
    return made


@lru_cache(maxsize=256)
def brush(fill: str) -> QBrush:
    """A flat brush; none for an empty colour."""
    return QBrush(QColor(fill)) if fill else NO_BRUSH


class Easel:
    """What every stroke needs: the painter, the colours, and how large to write.

    Text is kept until :meth:`finish`, which writes it font by font: changing the
    font costs a painter several times what writing a word does.
    """

    def __init__(self, painter: QPainter, theme: Theme, type_scale: float = 1.0) -> None:
        self.painter = painter
        self.theme = theme
        self.type_scale = type_scale
        # Some ways of painting gain on pixels only; paper keeps text as text and lines whole.
        self.on_pixels = painter.paintEngine().type() == QPaintEngine.Type.Raster
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

    def line(self, start: QPointF, end: QPointF, look: Style) -> None:
        """A straight line; on pixels with square ends, which cost a fifth of round ones."""
        if self.on_pixels and look.width > 1.0:
            self.painter.setPen(flat_pen(look.stroke, look.width, look.dash))
        else:
            self.painter.setPen(pen(look.stroke, look.width, look.dash))
        self.painter.drawLine(start, end)

    def finish(self) -> None:
        """Write all text that was kept."""
        painter = self.painter
        for (size, weight), texts in self._texts.items():
            painter.setFont(font(size, weight))
            rise = metrics(size, weight).ascent()
            for at, turn, text, colour in texts:
                painter.setPen(pen(colour, 1.0, ()))
                if turn:
                    self._write_turned(at, turn, text, colour, (size, weight))
                elif self.on_pixels and (laid := often_written(text, size, weight)):
                    painter.drawStaticText(QPointF(at.x(), at.y() - rise), laid)
                else:
                    painter.drawText(at, text)
        self._texts.clear()

    def _write_turned(
        self, at: QPointF, turn: float, text: str, colour: str, face: tuple[float, int]
    ) -> None:
        painter = self.painter
        painter.save()
        painter.translate(at)
        painter.rotate(turn)
        if self.on_pixels and turn % 90.0:
            # Else every letter would be rastered anew for every angle, and kept.
            painter.fillPath(outlines(text, *face), brush(colour))
        else:
            painter.drawText(QPointF(0.0, 0.0), text)
        painter.restore()


@lru_cache(maxsize=1024)
def outlines(text: str, size: float, weight: int) -> QPainterPath:
    """A text as outlines of its letters, from its baseline's start."""
    path = QPainterPath()
    path.addText(QPointF(0.0, 0.0), font(size, weight), text)
    return path


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
