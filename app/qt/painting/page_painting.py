"""What pages on paper are put together from: tables, paragraphs, and views at a whole scale."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Callable, Collection, Sequence
from math import ceil
from typing import Final

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QPointF, QRectF, Qt
from PySide6.QtGui import QPageSize, QPainter

from app.drawing.marks import Scene
from app.drawing.styles import Style, style
from app.qt.painting.easel import Easel, pen
from app.qt.painting.lettering import font, metrics
from app.qt.painting.painting import paint_scene
from app.qt.painting.viewport import Viewport, fitted

SIZES: Final = {"A4": QPageSize.PageSizeId.A4, "Letter": QPageSize.PageSizeId.Letter}
"""Papers by their names."""
PER_INCH: Final = 120.0
"""Logical pixels of a page in an inch: type of 12.5 is 7.5 points high."""
PER_MM: Final = PER_INCH / 25.4
ROW: Final = 16.5
"""Height of a row of a table (logical px)."""
HEADING: Final = 22.0
"""Height of a section's heading (logical px)."""
BODY: Final = 12.5
_BETWEEN_TITLES: Final = 12.0
"""Between the titles of two views beside each other (logical px)."""


def bytes_of(write: Callable[[QIODevice], object]) -> bytes:
    """What a function writes to a device."""
    data = QByteArray()
    buffer = QBuffer(data)
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    write(buffer)
    buffer.close()
    return bytes(data.data())


def heading(easel: Easel, area: QRectF, text: str) -> float:
    """A section's heading over a thin line; gives back where its contents begin."""
    look = Style(text=easel.theme.ink, size=BODY, weight=600)
    easel.write(QPointF(area.left(), area.top() + BODY), text, look)
    y = area.top() + BODY + 4.5
    easel.painter.setPen(pen(easel.theme.rule, 1.0, ()))
    easel.painter.drawLine(QPointF(area.left(), y), QPointF(area.right(), y))
    return area.top() + HEADING


def table(
    easel: Easel,
    area: QRectF,
    rows: Sequence[Sequence[str]],
    columns: Sequence[float],
    colours: Sequence[str] = (),
) -> float:
    """Rows of text from the top of an area; gives back where they end.

    Args:
        easel: to paint on.
        area: its left and top count, and its width.
        rows: text by row and column.
        columns: where each column begins, as a share of the width.
        colours: of each column; the name's column quiet and the others in ink
            where there are none.
    """
    theme = easel.theme
    colours = colours or (theme.quiet, *(theme.ink for _ in columns[1:]))
    for i, row in enumerate(rows):
        base = area.top() + i * ROW + 0.80 * BODY
        for text, share, colour in zip(row, columns, colours, strict=False):
            at = QPointF(area.left() + share * area.width(), base)
            easel.write(at, text, Style(text=colour, size=BODY))
    return area.top() + len(rows) * ROW


def shortened(easel: Easel, text: str, look: Style, room: float, *, keep_end: bool = False) -> str:
    """A text cut short with an ellipsis where it does not fit a room (logical px).

    Cut at its end, or in its middle where its end tells it from others.
    """
    measures = metrics(look.size * easel.type_scale, look.weight)
    where = Qt.TextElideMode.ElideMiddle if keep_end else Qt.TextElideMode.ElideRight
    return measures.elidedText(text, where, room)


def cut_to_height(text: str, width: float, height: float, ending: str) -> str:
    """As much of a text as a height has room for when it is broken into lines of a width.

    Args:
        text: whole where it fits.
        width: of the room (logical px).
        height: of the room (logical px).
        ending: stands after what is left of a text that was cut, at the end of a word.
    """
    if paragraph_height(text, width) <= height:
        return text
    ends = [gap.start() for gap in re.finditer(r"\s+", text)]
    count = bisect_right(
        range(len(ends)),
        height,
        key=lambda i: paragraph_height(text[: ends[i]] + ending, width),
    )
    return (text[: ends[count - 1]] if count else "") + ending


def paragraph_height(text: str, width: float, size: float = BODY, weight: int = 400) -> float:
    """Height that a text takes when it is broken into lines of a width (logical px)."""
    box = metrics(size, weight).boundingRect(
        QRectF(0.0, 0.0, width, 1e4), int(Qt.TextFlag.TextWordWrap), text
    )
    return float(box.height()) + 2.0


def paragraph(easel: Easel, area: QRectF, text: str, look: Style) -> float:
    """A text broken into lines from the top of an area; gives back where it ends."""
    height = paragraph_height(text, area.width(), look.size, look.weight)
    easel.painter.setFont(font(look.size, look.weight))
    easel.painter.setPen(pen(look.text, 1.0, ()))
    box = QRectF(area.left(), area.top(), area.width(), height)
    easel.painter.drawText(box, int(Qt.TextFlag.TextWordWrap), text)
    return area.top() + height


def to_whole_scale(fit: Viewport, scene: Scene, area: QRectF) -> tuple[Viewport, int]:
    """The fit made smaller to a scale of 1 to a whole number, and that number.

    So a ruler on the sheet measures the rider.
    """
    times = max(1, ceil(PER_MM / fit.scale - 1e-6))
    return fitted(scene.window, area, PER_MM / times)._replace(top=fit.top), times


def paint_view(
    easel: Easel,
    scene: Scene,
    fit: Viewport,
    view: QRectF,
    title: str,
    *,
    lit: Collection[str] = (),
    left_out: Collection[str] = (),
) -> None:
    """A view with its title at its top left, written smaller where the view is narrow."""
    easel.painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    paint_scene(easel, scene, fit, lit, left_out)
    look = style(easel.theme, "title")
    at = QPointF(view.left() + 6.0, view.top() + 1.25 * look.size)
    room = (view.width() - _BETWEEN_TITLES) / max(1.0, easel.width(title, look.size, look.weight))
    easel.write(at, title, look._replace(size=look.size * min(1.0, room)))
