"""Call-outs: what is said of a knee, at the edge of its view."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

from PySide6.QtCore import QPointF

from app.drawing.marks import Callout
from app.drawing.styles import SMALL, Style
from app.qt.painting.easel import Easel, thin
from app.qt.painting.lettering import text_width
from app.qt.painting.signs import LOUD, paint_sign
from app.qt.painting.viewport import Viewport, corners


class CalloutPlace(NamedTuple):
    """Where the parts of a call-out stand (logical px).

    Attributes:
        left, top, width, height: of the box around all of its text.
        middle: height of the number's middle.
        head: width of sign and number together.
        words: the lines under them.
    """

    left: float
    top: float
    width: float
    height: float
    middle: float
    head: float
    words: Lines


class Lines(NamedTuple):
    """The lines of a call-out's words: their type's size before scaling, and their widths."""

    texts: tuple[str, ...]
    size: float
    widths: tuple[float, ...]


@lru_cache(maxsize=256)
def lines_of(word: str, room: float, type_scale: float, *, shrinks: bool = True) -> Lines:
    """The words of a call-out in lines, no wider than there is room.

    Those that are wider are made smaller, or where they must not be, broken at their blanks.
    """
    # A comma within a number stays there.
    texts = [line.strip() for line in re.split(r",(?!\d)", word)]
    size = SMALL
    if shrinks:
        widest = max(text_width(line, SMALL * type_scale, 500) for line in texts)
        size *= min(1.0, room / widest)
    else:
        texts = [piece for line in texts for piece in _broken(line, room, type_scale)]
    widths = tuple(text_width(line, size * type_scale, 500) for line in texts)
    return Lines(tuple(texts), size, widths)


def _broken(line: str, room: float, type_scale: float) -> list[str]:
    """A line in pieces no wider than there is room, but for single words that are."""
    pieces: list[str] = []
    for word in line.split():
        longer = f"{pieces[-1]} {word}" if pieces else word
        if pieces and text_width(longer, SMALL * type_scale, 500) <= room:
            pieces[-1] = longer
        else:
            pieces.append(word)
    return pieces


def callout_place(easel: Easel, mark: Callout, fit: Viewport, look: Style) -> CalloutPlace:
    """Where a call-out stands at the edge of its view."""
    size, band = look.size * easel.type_scale, fit.right - fit.left
    head = 0.52 * size + 6.0 + easel.width(mark.number, look.size, look.weight)
    room = band if mark.edge == 0 else 0.5 * band - 6.0
    words = lines_of(mark.word, room, easel.type_scale, shrinks=easel.shrinks)
    width = max(head, *words.widths)
    left = fit.left + (band - width) * 0.5 * (1.0 + mark.edge)
    height = 0.90 * size + 4.0 + 1.25 * SMALL * easel.type_scale * len(words.texts)
    return CalloutPlace(left, fit.top, width, height, fit.top + 0.5 * size, head, words)


def paint_callout(easel: Easel, mark: Callout, fit: Viewport, look: Style) -> None:
    """State sign, number and words, with a leader to what they speak of."""
    if mark.state in LOUD:
        look = look._replace(text=easel.theme.accent_text)
    left, top, width, height, y, head, words = callout_place(easel, mark, fit, look)
    if mark.target is not None:
        foot = left + (0.5 - 0.35 * mark.edge) * width
        leader = corners(foot, top + height + 3.0, *fit.xy(mark.target))
        easel.polyline(leader, thin(look.stroke))
    share = 0.5 * (1.0 + mark.edge)
    x, size = left + (width - head) * share, look.size * easel.type_scale
    sign = 0.52 * size
    paint_sign(easel, QPointF(x + 0.5 * sign, y), sign, mark.state, look.stroke)
    base = y + 0.36 * size
    easel.put(x + sign + 6.0, base, mark.number, look)
    said, step = look._replace(size=words.size, weight=500), 1.25 * SMALL * easel.type_scale
    for i, (line, wide) in enumerate(zip(words.texts, words.widths, strict=True)):
        easel.put(left + (width - wide) * share, base + (i + 1) * step + 2.0, line, said)
