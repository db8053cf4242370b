"""What the lines and areas of the stance map mean, each beside a sample of it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QLabel, QWidget

from app.drawing.theme import Theme
from app.features.map.painting import (
    blank_brush,
    paint_inserts,
    paint_margin,
    straight_pen,
    zero_pen,
)
from app.qt.controls.layout import grid_of
from app.qt.literal import Label
from app.qt.painting.palette import SMALL_PX, colour, typeface
from app.qt.sizes import px
from app.qt.themes import current_theme
from app.words.language import msgid, tr

Sample = Callable[[QPainter, QRectF, Theme], None]


def _line(pen: Callable[[Theme], QPen]) -> Sample:
    def paint(painter: QPainter, area: QRectF, theme: Theme) -> None:
        middle = area.center().y()
        painter.setPen(pen(theme))
        painter.drawLine(QPointF(area.left(), middle), QPointF(area.right(), middle))

    return paint


def _margin(painter: QPainter, area: QRectF, theme: Theme) -> None:
    paint_margin(painter, area.center(), (0.4 * area.width(), 0.45 * area.height()), theme)


def _blank(painter: QPainter, area: QRectF, theme: Theme) -> None:
    painter.fillRect(area, blank_brush(theme))


_ROWS: Final[dict[str, tuple[Sample, str]]] = {
    "zero": (_line(zero_pen), msgid("no cant, from the solved legs")),
    "straight": (_line(straight_pen), msgid("no cant by straight legs: 1 ÷ cos(angle)")),
    "inserts": (paint_inserts, msgid("what your inserts allow, by the parts list")),
    "margin": (_margin, ""),
    "blank": (_blank, msgid("no posture: a leg cannot reach")),
}


class MapKey(QWidget):
    """The key to the map."""

    def __init__(self) -> None:
        super().__init__()
        grid = grid_of(self, (8, 2))
        grid.setColumnStretch(1, 1)
        self._samples: dict[str, _Swatch] = {}
        self._words: dict[str, QLabel] = {}
        for i, (name, (sample, text)) in enumerate(_ROWS.items()):
            self._samples[name] = _Swatch(sample)
            self._words[name] = Label(tr(text))
            self._words[name].setFont(typeface(SMALL_PX))
            grid.addWidget(self._samples[name], i, 0)
            grid.addWidget(self._words[name], i, 1)
        self.show_blank(False)

    def show_margin(self, words: str) -> None:
        """Say how large the ellipse is."""
        self._words["margin"].setText(words)

    def show_blank(self, there_is: bool) -> None:
        """Explain the hatching only where there is some."""
        self._samples["blank"].setVisible(there_is)
        self._words["blank"].setVisible(there_is)


class _Swatch(QWidget):
    """A sample of a line or an area."""

    def __init__(self, sample: Sample) -> None:
        super().__init__()
        self._sample = sample
        self.setFixedSize(px(34), px(16))

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setBrush(Qt.BrushStyle.NoBrush)
            area = QRectF(self.rect()).adjusted(0.0, 1.0, 0.0, -1.0)
            theme = current_theme()
            painter.fillRect(area, colour(theme.paper))
            self._sample(painter, area, theme)
