"""Type: the drafting face, its measures, and words kept as what is quickest to paint."""

from __future__ import annotations

from functools import lru_cache
from math import ceil
from pathlib import Path
from typing import Final

from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import (
    QColor,
    QFont,
    QFontDatabase,
    QFontMetricsF,
    QImage,
    QPainter,
    QPainterPath,
    QStaticText,
)

from app.drawing.theme import FONT_FAMILY

OFTEN: Final = 8
"""Times that a text is written before it is kept as a picture."""
_BESIDE: Final = 2
"""Room for what leans out of a text's width (px)."""


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


@lru_cache(maxsize=2048)
def text_width(text: str, size: float, weight: int) -> float:
    """Width of a text (logical px)."""
    return metrics(size, weight).horizontalAdvance(text)


@lru_cache(maxsize=64)
def outlines(text: str, size: float, weight: int) -> QPainterPath:
    """A text as outlines of its letters, from its baseline's start, in straight pieces.

    At its own size nobody sees the pieces, and they fill in half the time.
    """
    curved, straight = QPainterPath(), QPainterPath()
    curved.addText(QPointF(0.0, 0.0), font(size, weight), text)
    for letter in curved.toSubpathPolygons():
        straight.addPolygon(letter)
    return straight


class Words:
    """Pictures of the texts that are written over and over, on a screen of single pixels.

    Words come back with every frame, and as a picture they cost a fifth; figures
    seldom come back, and a picture of each would cost more than it saves.
    """

    MOST: Final = 800
    """Texts that are counted."""
    ROOM: Final = 800_000
    """Bytes that all pictures together may take; then they are made anew as they come back."""

    def __init__(self) -> None:
        self._times: dict[tuple[str, float, int, str, float], int] = {}
        self._pictures: dict[tuple[str, float, int, str, float], QImage] = {}
        self._bytes = 0

    def picture(
        self, text: str, size: float, weight: int, colour: str, width: float = 0.0
    ) -> QImage | None:
        """The picture of a text; None for a rare one.

        Without a width it is one line, whose baseline starts at :func:`origin`, else
        lines of that width from its top left.
        """
        key = (text, size, weight, colour, width)
        kept = self._pictures.get(key)
        if kept is not None:
            return kept
        if len(self._times) > self.MOST:
            self._times.clear()
        times = self._times[key] = self._times.get(key, 0) + 1
        return self._keep(*key) if times >= OFTEN else None

    def _keep(self, text: str, size: float, weight: int, colour: str, width: float) -> QImage:
        """Make a picture and keep it."""
        made = _lines(text, size, weight, width) if width else _line(text, size, weight)
        with QPainter(made) as painter:
            painter.setFont(font(size, weight))
            painter.setPen(QColor(colour))
            if width:
                painter.drawStaticText(0, 0, laid_text(text, size, weight, width))
            else:
                painter.drawText(QPoint(*origin(size, weight)), text)
        self._bytes += made.sizeInBytes()
        if self._bytes > self.ROOM:
            self._pictures.clear()
            self._bytes = made.sizeInBytes()
        self._pictures[text, size, weight, colour, width] = made
        return made


@lru_cache(maxsize=64)
def origin(size: float, weight: int) -> tuple[int, int]:
    """Where in a picture of a text its baseline starts: from the left, and from the top."""
    return _BESIDE, ceil(metrics(size, weight).ascent()) + 1


def _line(text: str, size: float, weight: int) -> QImage:
    """Room for a text in one line."""
    left, down = origin(size, weight)
    width = ceil(text_width(text, size, weight)) + 2 * left
    return blank(width, down + ceil(metrics(size, weight).descent()) + 1)


def _lines(text: str, size: float, weight: int, width: float) -> QImage:
    """Room for a text in lines of a width."""
    height = laid_text(text, size, weight, width).size().height()
    return blank(ceil(width) + _BESIDE, ceil(height) + 1)


def blank(width: int, height: int) -> QImage:
    """A picture with nothing on it yet, through which the paper shows (px)."""
    made = QImage(width, height, QImage.Format.Format_ARGB32_Premultiplied)
    made.fill(Qt.GlobalColor.transparent)
    return made


WORDS: Final = Words()


@lru_cache(maxsize=256)
def laid_text(text: str, size: float, weight: int, width: float) -> QStaticText:
    """A text broken into lines of a width (logical px): that costs more than drawing it."""
    laid = QStaticText(text)
    laid.setTextFormat(Qt.TextFormat.PlainText)
    laid.setTextWidth(width)
    laid.prepare(font=font(size, weight))
    return laid


def load_fonts(folder: Path) -> bool:
    """Make the drafting face known to Qt; false where its files are missing.

    Needs a running application.  Loading twice is harmless.
    """
    if FONT_FAMILY in QFontDatabase.families():
        return True
    added = [QFontDatabase.addApplicationFont(str(path)) for path in sorted(folder.glob("*.ttf"))]
    return bool(added) and min(added) >= 0
