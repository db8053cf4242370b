"""Type: the drafting face, its measures, and words kept as what is quickest to paint."""

from __future__ import annotations

from functools import lru_cache
from math import ceil
from pathlib import Path
from typing import Final, TypeAlias

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import (
    QColor,
    QFont,
    QFontDatabase,
    QFontMetricsF,
    QImage,
    QPainter,
    QPainterPath,
    QStaticText,
    QTransform,
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
def outlines(text: str, size: float, weight: int, ratio: float = 1.0) -> QPainterPath:
    """A text as outlines of its letters, from its baseline's start, in straight pieces.

    On a screen of so many pixels to the logical one nobody sees the pieces, and they fill
    in half the time.
    """
    curved, straight = QPainterPath(), QPainterPath()
    curved.addText(QPointF(0.0, 0.0), font(size, weight), text)
    for letter in curved.toSubpathPolygons(QTransform.fromScale(ratio, ratio)):
        straight.addPolygon(letter)
    return QTransform.fromScale(1.0 / ratio, 1.0 / ratio).map(straight)


_Key: TypeAlias = tuple[str, float, int, str, float, float]
"""A text, its size, weight and colour, the width of its lines, and the screen's ratio."""


class Words:
    """Pictures of the texts that are written over and over, one for each ratio of a screen.

    Words come back with every frame, and as a picture they cost a fifth; figures
    seldom come back, and a picture of each would cost more than it saves.
    """

    MOST: Final = 800
    """Texts that are counted."""
    ROOM: Final = 800_000
    """Bytes that all pictures together may take on a screen of single pixels; then they are
    made anew as they come back."""

    def __init__(self) -> None:
        self._times: dict[_Key, int] = {}
        self._pictures: dict[_Key, QImage] = {}
        self._bytes = 0

    def picture(
        self,
        text: str,
        size: float,
        weight: int,
        colour: str,
        *,
        width: float = 0.0,
        ratio: float = 1.0,
    ) -> QImage | None:
        """The picture of a text; None for a rare one.

        Without a width it is one line, whose baseline starts at :func:`origin`, else
        lines of that width from its top left.
        """
        key = (text, size, weight, colour, width, ratio)
        kept = self._pictures.get(key)
        if kept is not None:
            return kept
        if len(self._times) > self.MOST:
            self._times.clear()
        times = self._times[key] = self._times.get(key, 0) + 1
        return self._keep(key) if times >= OFTEN else None

    def _keep(self, key: _Key) -> QImage:
        """Make a picture and keep it."""
        text, size, weight, colour, width, ratio = key
        if width:
            made = _lines(text, size, weight, width, ratio)
        else:
            made = _line(text, size, weight, ratio)
        with QPainter(made) as painter:
            painter.setFont(font(size, weight))
            painter.setPen(QColor(colour))
            if width:
                painter.drawStaticText(0, 0, laid_text(text, size, weight, width))
            else:
                left, down = origin(size, weight, ratio)
                painter.drawText(QPointF(left / ratio, down / ratio), text)
        self._bytes += made.sizeInBytes()
        if self._bytes > self.ROOM * ratio * ratio:
            self._pictures.clear()
            self._bytes = made.sizeInBytes()
        self._pictures[key] = made
        return made


@lru_cache(maxsize=64)
def origin(size: float, weight: int, ratio: float = 1.0) -> tuple[int, int]:
    """Where in a picture of a text its baseline starts: from the left, and from the top.

    On a whole pixel of the screen, as many of which make a logical one as the ratio says.
    """
    return ceil(_BESIDE * ratio), ceil(metrics(size, weight).ascent() * ratio) + 1


def _line(text: str, size: float, weight: int, ratio: float) -> QImage:
    """Room for a text in one line."""
    left, down = origin(size, weight, ratio)
    width = ceil(text_width(text, size, weight) * ratio) + 2 * left
    return blank(width, down + ceil(metrics(size, weight).descent() * ratio) + 1, ratio)


def _lines(text: str, size: float, weight: int, width: float, ratio: float) -> QImage:
    """Room for a text in lines of a width."""
    height = laid_text(text, size, weight, width).size().height()
    return blank(ceil((width + _BESIDE) * ratio), ceil(height * ratio) + 1, ratio)


def blank(width: int, height: int, ratio: float = 1.0) -> QImage:
    """A picture with nothing on it yet, through which the paper shows (pixels of the screen)."""
    made = QImage(width, height, QImage.Format.Format_ARGB32_Premultiplied)
    made.setDevicePixelRatio(ratio)
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
