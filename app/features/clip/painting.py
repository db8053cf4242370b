"""One picture of a clip: what moves, the whole sheet, how far it is, caution and date."""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QColor, QImage, QPainter

from app.drawing.styles import Style
from app.drawing.theme import Theme
from app.features.clip.encoding import Pixels
from app.frame import Frame
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


class Caption(NamedTuple):
    """What is written on one picture.

    Attributes:
        title: what moves.
        name: whose clip it is; "" where that is not to be told.
        said: the value, or the time.
        about: what has to be known of what moves; "" for nothing.
        share: how much of the clip is over with this picture, up to 1.
        day: on which it was made, as "2026-01-31".
    """

    title: str
    name: str
    said: str
    about: str
    share: float
    day: str


def painted(shown: Frame, caption: Caption, theme: Theme, scale: float) -> QImage:
    """One picture of a clip.

    Args:
        shown: the moment, its windows those of the whole clip.
        caption: what is written on it.
        theme: its colours.
        scale: device pixels of the picture to each logical one.

    Raises:
        MemoryError: there is no memory for a picture that large.
    """
    image = QImage(round(WIDTH * scale), round(HEIGHT * scale), QImage.Format.Format_RGB32)
    if image.isNull():
        raise MemoryError(
            tr("there is no memory for a picture at scale {scale}", scale=f"{scale:g}")
        )
    image.fill(QColor(theme.paper))
    with QPainter(image) as painter:
        painter.scale(scale, scale)
        painter.setRenderHint(SMOOTH)
        _paint(Easel(painter, theme, live=True), shown, caption)
    return image


def pixels_of(image: QImage) -> Pixels:
    """Red, green and blue of a picture, by row and column."""
    rows = np.frombuffer(image.constBits(), np.uint8)
    # The bytes go with the picture, and nothing here would keep that.
    return rows.reshape(image.height(), image.width(), 4)[..., 2::-1].copy()


def _paint(easel: Easel, shown: Frame, caption: Caption) -> None:
    room = WIDTH - 2.0 * _EDGE
    words = " ".join(filter(None, (caption.about, tr(CAUTION))))
    foot = HEIGHT - 8.0 - paragraph_height(words, room, _SMALL)
    line = foot - _LINE
    _paint_head(easel, caption)
    sheet = QRectF(_EDGE - 10.0, _HEAD, room + 20.0, line - _BAR - _HEAD)
    windows = {key: scene.window for key, scene in shown.scenes.items()}
    paint_sheet(easel, placed(sheet, windows), shown)
    _paint_progress(easel, line - _BAR, caption)
    small = Style(text=easel.theme.quiet, size=_SMALL)
    paragraph(easel, QRectF(_EDGE, foot, room, HEIGHT - foot), words, small)
    easel.finish()


def _paint_head(easel: Easel, caption: Caption) -> None:
    theme = easel.theme
    title = Style(text=theme.ink, size=_TITLE, weight=600)
    quiet = Style(text=theme.quiet, size=_SAID)
    room = WIDTH - 2.0 * _EDGE
    name = shortened(easel, caption.name, quiet, 0.4 * room)
    width = easel.width(name, quiet.size, quiet.weight)
    text = shortened(easel, caption.title, title, room - width - (_EDGE if name else 0.0))
    easel.write(QPointF(_EDGE, 27.0), text, title)
    easel.write(QPointF(WIDTH - _EDGE - width, 27.0), name, quiet)


def _paint_progress(easel: Easel, top: float, caption: Caption) -> None:
    """How far it is as a line, and under it the value and the date."""
    theme, room = easel.theme, WIDTH - 2.0 * _EDGE
    easel.bar(_EDGE, top, room, 3.0, theme.rule)
    easel.bar(_EDGE, top, caption.share * room, 3.0, theme.ink)
    said = Style(text=theme.ink, size=_SAID, weight=600)
    dated = f"Kneeline · {caption.day}"
    quiet = Style(text=theme.quiet, size=_SMALL)
    base = top + _BAR + 16.0
    easel.write(QPointF(_EDGE, base), caption.said, said)
    width = easel.width(dated, quiet.size, quiet.weight)
    easel.write(QPointF(WIDTH - _EDGE - width, base), dated, quiet)
