"""One picture of a clip: what moves, the whole sheet, how far it is, caution and date."""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QColor, QImage, QPainter

from app.drawing.styles import Style
from app.drawing.theme import Theme
from app.features.clip.encoding import Pixels
from app.features.clip.model import Shot
from app.qt.painting.easel import SMOOTH, Easel
from app.qt.painting.page_painting import paragraph, paragraph_height, shortened
from app.qt.painting.sheet_painting import paint_sheet, placed
from app.stance.findings import CAUTION
from app.words.language import tr

WIDTH, HEIGHT = 1000.0, 720.0
"""Of a picture at its usual size (logical px)."""
_EDGE: Final = 16.0
_HEAD: Final = 40.0
_BAR: Final = 5.0
"""Height of the line that says how far it is (logical px)."""
_TITLE: Final = 19.0
_SAID: Final = 15.0
_SMALL: Final = 12.0
_LINE: Final = 24.0
"""Height of the line with the value and the date (logical px)."""
_WORDS: Final = 19.0
"""Of what is to be read (logical px)."""
_ROOM: Final = WIDTH - 2.0 * _EDGE


class Caption(NamedTuple):
    """What is written on a picture beside what is shown.

    Attributes:
        name: at the right of the title: whose clip it is, or how far it has come; "" for neither.
        share: how much of the clip is over with this picture, up to 1.
        day: on which it was made, as "2026-01-31".
        words_height: what the longest text of the clip needs (logical px).
    """

    name: str
    share: float
    day: str
    words_height: float = 0.0


def words_height(words: str) -> float:
    """Height that a text to be read takes on a picture (logical px); 0 for none."""
    return paragraph_height(words, _ROOM, _WORDS) + 6.0 if words else 0.0


def painted(shot: Shot, caption: Caption, theme: Theme, scale: float) -> QImage:
    """One picture of a clip; what is to be read makes it higher, not the drawings smaller.

    Args:
        shot: what is shown and said.
        caption: what else is written on it.
        theme: its colours.
        scale: device pixels of the picture to each logical one.

    Raises:
        MemoryError: there is no memory for a picture that large.
    """
    height = HEIGHT + caption.words_height
    image = QImage(round(WIDTH * scale), round(height * scale), QImage.Format.Format_RGB32)
    if image.isNull():
        raise MemoryError(
            tr("there is no memory for a picture at scale {scale}", scale=f"{scale:g}")
        )
    image.fill(QColor(theme.paper))
    with QPainter(image) as painter:
        painter.scale(scale, scale)
        painter.setRenderHint(SMOOTH)
        _paint(Easel(painter, theme, live=True), shot, caption)
    return image


def pixels_of(image: QImage) -> Pixels:
    """Red, green and blue of a picture, by row and column."""
    rows = np.frombuffer(image.constBits(), np.uint8)
    # The bytes go with the picture, and nothing here would keep that.
    return rows.reshape(image.height(), image.width(), 4)[..., 2::-1].copy()


def _paint(easel: Easel, shot: Shot, caption: Caption) -> None:
    small = " ".join(filter(None, (shot.about, tr(CAUTION))))
    height = HEIGHT + caption.words_height
    foot = height - 8.0 - paragraph_height(small, _ROOM, _SMALL)
    words = foot - caption.words_height
    line = words - _LINE
    _paint_head(easel, shot.title, caption.name)
    sheet = QRectF(_EDGE - 10.0, _HEAD, _ROOM + 20.0, line - _BAR - _HEAD)
    windows = {key: scene.window for key, scene in shot.frame.scenes.items()}
    paint_sheet(easel, placed(sheet, windows), shot.frame, shot.lit)
    _paint_progress(easel, line - _BAR, shot.said, caption)
    if shot.words:
        look = Style(text=easel.theme.ink, size=_WORDS)
        paragraph(easel, QRectF(_EDGE, words, _ROOM, foot - words), shot.words, look)
    quiet = Style(text=easel.theme.quiet, size=_SMALL)
    paragraph(easel, QRectF(_EDGE, foot, _ROOM, height - foot), small, quiet)
    easel.finish()


def _paint_head(easel: Easel, title: str, at_right: str) -> None:
    theme = easel.theme
    large = Style(text=theme.ink, size=_TITLE, weight=600)
    quiet = Style(text=theme.quiet, size=_SAID)
    name = shortened(easel, at_right, quiet, 0.4 * _ROOM)
    width = easel.width(name, quiet.size, quiet.weight)
    text = shortened(easel, title, large, _ROOM - width - (_EDGE if name else 0.0))
    easel.write(QPointF(_EDGE, 27.0), text, large)
    easel.write(QPointF(WIDTH - _EDGE - width, 27.0), name, quiet)


def _paint_progress(easel: Easel, top: float, said: str, caption: Caption) -> None:
    """How far it is as a line, and under it the value and the date."""
    theme = easel.theme
    easel.bar(_EDGE, top, _ROOM, 3.0, theme.rule)
    easel.bar(_EDGE, top, caption.share * _ROOM, 3.0, theme.ink)
    strong = Style(text=theme.ink, size=_SAID, weight=600)
    dated = f"Kneeline · {caption.day}"
    quiet = Style(text=theme.quiet, size=_SMALL)
    base = top + _BAR + 16.0
    easel.write(QPointF(_EDGE, base), said, strong)
    width = easel.width(dated, quiet.size, quiet.weight)
    easel.write(QPointF(WIDTH - _EDGE - width, base), dated, quiet)
