"""Call-outs: what is said of a knee, at the edge of its view."""

from __future__ import annotations

from typing import NamedTuple

from PySide6.QtCore import QPointF, QRectF

from app.scenes.marks import Callout
from app.styles import SMALL, Style
from app.widgets.easel import Easel, pen
from app.widgets.fit import Fit
from app.widgets.signs import LOUD, paint_sign


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


def paint_callout(easel: Easel, mark: Callout, fit: Fit, look: Style) -> None:
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
