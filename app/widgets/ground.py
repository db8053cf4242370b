"""What stands still under the drawings: paper, rules, titles, and the frames of the cards."""

from __future__ import annotations

from PySide6.QtCore import QLineF, QPointF, QSize
from PySide6.QtGui import QColor, QPainter, QPixmap

from app.styles import book
from app.widgets.easel import SMOOTH, Easel, pen
from app.widgets.findings_painting import paint_cards
from app.widgets.sheet_layout import Layout


def paint_ground(easel: Easel, layout: Layout, titles: dict[str, str]) -> None:
    """Paint it on paper of its colour; titles by view."""
    title = book(easel.theme)["title"]
    for key, area in layout.views.items():
        at = QPointF(area.left() + 6.0, area.top() + 1.25 * title.size * easel.type_scale)
        easel.write(at, titles[key], title)
    _paint_rules(easel, layout)
    paint_cards(easel, layout.findings)
    easel.finish()


def _paint_rules(easel: Easel, layout: Layout) -> None:
    """Thin lines between the views."""
    painter = easel.painter
    # Upright and level lines need no smoothing, which would double their cost.
    painter.setRenderHint(SMOOTH, False)
    painter.setPen(pen(easel.theme.rule, 1.0, ()))
    left = min(area.left() for area in layout.views.values())
    top = min(area.top() for area in layout.views.values())
    for area in layout.views.values():
        if area.left() > left + 1.0:
            x = area.left()
            painter.drawLine(QLineF(x, area.top() + 4.0, x, area.bottom() - 4.0))
        if area.top() > top + 1.0:
            y = area.top()
            painter.drawLine(QLineF(area.left() + 6.0, y, area.right() - 6.0, y))
    painter.setRenderHint(SMOOTH)


class Ground:
    """Keeps the ground of a window as a picture, since a drag changes none of it."""

    def __init__(self) -> None:
        self._made_for: tuple[object, ...] = ()
        self._picture = QPixmap()

    def paint(self, easel: Easel, size: QSize, layout: Layout, titles: dict[str, str]) -> None:
        """Paint the ground of a window of some size (logical px) at its top left.

        The painter may be scaled: the picture is made for the pixels that it fills.
        """
        ratio, times = easel.painter.device().devicePixelRatio(), easel.painter.transform().m11()
        wanted = (size, ratio, times, easel.theme, easel.type_scale, layout, titles)
        if wanted != self._made_for:
            self._made_for = wanted
            self._picture = QPixmap(size * ratio)
            self._picture.setDevicePixelRatio(ratio)
            self._picture.fill(QColor(easel.theme.paper))
            with QPainter(self._picture) as painter:
                painter.scale(times, times)
                paint_ground(Easel(painter, easel.theme, easel.type_scale), layout, titles)
        easel.painter.scale(1.0 / times, 1.0 / times)
        easel.painter.drawPixmap(0, 0, self._picture)
        easel.painter.scale(times, times)
