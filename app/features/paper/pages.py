"""Pages to take home: blocks one below the other, with caution, date and number under each."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Final, NamedTuple

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainter

from app.drawing.styles import Style
from app.drawing.theme import LIGHT, printed
from app.features.paper.fit_sheet import RESOLUTION, page_layout, pdf_of
from app.qt.painting.easel import SMOOTH, Easel, pen
from app.qt.painting.page_painting import PER_INCH, PER_MM
from app.stance.findings import IN_A_LINE
from app.words.language import tr

EDGE: Final = 15.0 * PER_MM
"""Around the text of a page (logical px)."""
_FOOT: Final = 44.0
"""Height under the text of a page for caution and date (logical px)."""


class Block(NamedTuple):
    """What stands together on a page: its height (logical px), and what paints it."""

    height: float
    paint: Callable[[Easel, QRectF], object]


def pages_pdf(
    paper: str, title: str, day: str, pages_in: Callable[[QRectF], Sequence[Sequence[Block]]]
) -> bytes:
    """Pages as the bytes of a PDF file.

    Args:
        paper: a key of :data:`app.qt.painting.page_painting.SIZES`.
        title: of the document.
        day: that stands under each page, as "2026-01-31".
        pages_in: gives the blocks of each page for the room that its text has.
    """
    layout = page_layout(paper)
    scale = RESOLUTION / PER_INCH
    whole = QRectF(layout.fullRectPixels(RESOLUTION))
    page = QRectF(0.0, 0.0, whole.width() / scale, whole.height() / scale)
    text_area = page.adjusted(EDGE, EDGE, -EDGE, -EDGE - _FOOT)
    pages = pages_in(text_area)

    def painting(number: int) -> Callable[[QPainter, QRectF], None]:
        def paint(painter: QPainter, _page: QRectF) -> None:
            painter.save()
            painter.scale(scale, scale)
            painter.setRenderHint(SMOOTH)
            easel = Easel(painter, printed(LIGHT))
            _paint_blocks(easel, text_area, pages[number])
            _paint_foot(easel, text_area, day, number + 1, len(pages))
            easel.finish()
            painter.restore()

        return paint

    return pdf_of(layout, title, *map(painting, range(len(pages))))


def _paint_blocks(easel: Easel, area: QRectF, blocks: Sequence[Block]) -> None:
    top = area.top()
    for block in blocks:
        block.paint(easel, QRectF(area.left(), top, area.width(), block.height))
        top += block.height


def _paint_foot(easel: Easel, area: QRectF, day: str, number: int, count: int) -> None:
    """Under every page: the caution in a line, the date, and which page it is."""
    theme, y = easel.theme, area.bottom() + 14.0
    easel.painter.setPen(pen(theme.rule, 1.0, ()))
    easel.painter.drawLine(QPointF(area.left(), y), QPointF(area.right(), y))
    look = Style(text=theme.quiet, size=14.0)
    base = y + 22.0
    easel.write(QPointF(area.left(), base), tr(IN_A_LINE), look)
    page = tr("page {number} of {count}", number=number, count=count)
    dated = f"Kneeline · {day} · {page}"
    width = easel.width(dated, look.size, look.weight)
    easel.write(QPointF(area.right() - width, base), dated, look)
