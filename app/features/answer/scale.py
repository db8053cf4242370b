"""One foot's cants as a small drawing: now, to begin with, in its plane, and whole cant."""

from __future__ import annotations

from math import isfinite
from typing import Final, NamedTuple

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QAccessibleInterface, QPainter, QPaintEvent, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.drawing.theme import THICK, THIN, Theme, mixed
from app.qt.painting.easel import brush, pen
from app.qt.painting.palette import SMALL_PX, colour, typeface
from app.qt.sizes import px
from app.qt.themes import current_theme
from app.stance.answer_words import mount_words
from app.words.language import msgid, tr

HEIGHT: Final = 54
"""Of the drawing (px)."""
SPANS: Final = (5.0, 10.0, 15.0, 30.0)
"""Angles at the ends of the line (degrees)."""
LINE_Y: Final = 9.0
"""Where the line runs (px from the top)."""
BAND: Final = 7.0
"""Half the height of the band of cants that keep the knee in its plane (px)."""
DOT: Final = 5.0
"""Half the size of the sign of what to begin with (px)."""
EDGE: Final = 12.0
"""Room beside the ends of the line (px)."""
FIGURES_Y: Final = 35.0
"""Foot of the figures, clear of the sign of what is on (px from the top)."""
KEY_Y: Final = 50.0
"""Foot of the words that say what the signs are (px from the top)."""
SIGN: Final = 14.0
"""Width of a sign before its word (px)."""
BESIDE: Final = 12.0
"""Between one word and the next sign, where there is room (px)."""


class Cants(NamedTuple):
    """What a scale shows (degrees); nan where there is none.

    Attributes:
        now: on the binding.
        begin: to begin with.
        low: least cant that keeps the knee in its plane.
        high: largest that does; below the least one where none does.
        full: whole cant.
    """

    now: float
    begin: float
    low: float
    high: float
    full: float


def span_of(cants: list[Cants]) -> float:
    """The smallest line that holds what counts of some scales (degrees)."""
    counts = [angle for one in cants for angle in (one.now, one.begin, one.full)]
    ends = [min(abs(end), SPANS[1]) for one in cants for end in (one.low, one.high)]
    most = max((abs(angle) for angle in (*counts, *ends) if isfinite(angle)), default=0.0)
    return next((span for span in SPANS if span >= most - 1e-9), SPANS[-1])


class CantScale(QWidget):
    """Shows cants; asks for nothing."""

    def __init__(self, leg: str) -> None:
        super().__init__()
        self._leg = leg
        self._cants, self._span = Cants(0.0, 0.0, 0.0, 0.0, 0.0), SPANS[0]
        self.setFixedHeight(px(HEIGHT))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_cants(self, cants: Cants, span: float) -> None:
        """Show other cants."""
        if (cants, span) != (self._cants, self._span):
            self._cants, self._span = cants, span
            self.update()

    def spoken_interface(self) -> QAccessibleInterface:
        """As assistive programs see it."""
        from app.qt.accessible.drawing import SpokenDrawing  # noqa: PLC0415

        return SpokenDrawing(self)

    def spoken_values(self) -> list[str]:
        """Each sign on it with its cant."""
        cants = self._cants
        said = [
            tr("now: {cant}", cant=mount_words("cant", cants.now)),
            tr("to begin with: {cant}", cant=mount_words("cant", cants.begin)),
            tr("all of it: {cant}", cant=mount_words("cant", cants.full)),
        ]
        shown = [isfinite(each) for each in (cants.now, cants.begin, cants.full)]
        return [each for each, there in zip(said, shown, strict=True) if there]

    def minimumSizeHint(self) -> QSize:  # noqa: N802
        """Room for the words at both ends."""
        return QSize(px(200), px(HEIGHT))

    def x_of(self, angle: float) -> float:
        """Where an angle lies (px), inside the line at the most."""
        half = 0.5 * self.width()
        inside = min(max(angle / self._span, -1.0), 1.0)
        return half + inside * (half - EDGE)

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            theme = current_theme()
            self._paint_band(painter, theme)
            self._paint_line(painter, theme)
            self._paint_signs(painter, theme)
            self._paint_key(painter, theme)

    def _paint_band(self, painter: QPainter, theme: Theme) -> None:
        low, high = self._cants.low, self._cants.high
        if not low <= high:
            return
        left, right = self.x_of(low), self.x_of(high)
        self._fill_band(painter, theme, QRectF(left, LINE_Y, max(right - left, 1.0), 0.0))

    def _fill_band(self, painter: QPainter, theme: Theme, along: QRectF) -> None:
        """The band about a line."""
        hue = mixed(theme.leg(self._leg), theme.panel, 0.28 if self.isEnabled() else 0.14)
        painter.fillRect(along.adjusted(0.0, -BAND, 0.0, BAND), colour(hue))

    def _paint_line(self, painter: QPainter, theme: Theme) -> None:
        painter.setPen(pen(theme.quiet if self.isEnabled() else theme.faint, THIN, ()))
        start, end = self.x_of(-self._span), self.x_of(self._span)
        painter.drawLine(QPointF(start, LINE_Y), QPointF(end, LINE_Y))
        step = 5.0 if self._span > 5.0 else 1.0
        ticks = round(self._span / step)
        for i in range(-ticks, ticks + 1):
            x, length = self.x_of(i * step), 3.0 if i else 6.0
            painter.drawLine(QPointF(x, LINE_Y - length), QPointF(x, LINE_Y + length))
        self._paint_figures(painter)

    def _paint_figures(self, painter: QPainter) -> None:
        painter.setFont(typeface(SMALL_PX))
        figure = f"{self._span:.0f}°"
        texts = (
            (tr("{angle} outward", angle=figure), 0.0),
            ("0°", 0.5),
            (tr("{angle} inward", angle=figure), 1.0),
        )
        for text, side in texts:
            width = painter.fontMetrics().horizontalAdvance(text)
            painter.drawText(QPointF(side * (self.width() - width), FIGURES_Y), text)

    def _paint_signs(self, painter: QPainter, theme: Theme) -> None:
        cants = self._cants
        if isfinite(cants.full):
            self._paint_full(painter, theme, (self.x_of(0.0), self.x_of(cants.full)), LINE_Y)
        self._paint_now(painter, theme, self.x_of(cants.now), LINE_Y + DOT + 1.0)
        if isfinite(cants.begin):
            self._paint_begin(painter, theme, QPointF(self.x_of(cants.begin), LINE_Y))

    def _hue(self, theme: Theme) -> str:
        return theme.leg(self._leg) if self.isEnabled() else theme.faint

    def _paint_full(
        self, painter: QPainter, theme: Theme, ends: tuple[float, float], y: float
    ) -> None:
        """A thick line from no cant to whole cant."""
        painter.setPen(pen(self._hue(theme), 2.0 * THICK, ()))
        painter.drawLine(QPointF(ends[0], y), QPointF(ends[1], y))

    def _paint_begin(self, painter: QPainter, theme: Theme, at: QPointF) -> None:
        """A ring at what to begin with."""
        painter.setPen(pen(self._hue(theme), THICK, ()))
        painter.setBrush(brush(theme.field))
        painter.drawEllipse(at, DOT, DOT)

    def _paint_now(self, painter: QPainter, theme: Theme, x: float, top: float) -> None:
        """A triangle under the line that points at what is on the binding."""
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(brush(theme.ink if self.isEnabled() else theme.faint))
        corners = QPointF(x, top), QPointF(x + 4.5, top + 7.0), QPointF(x - 4.5, top + 7.0)
        painter.drawPolygon(QPolygonF(corners))

    def _paint_key(self, painter: QPainter, theme: Theme) -> None:
        """What the signs are, in a row; as near to each other as the width asks."""
        painter.setFont(typeface(SMALL_PX))
        words = self.key_words()
        widths = [painter.fontMetrics().horizontalAdvance(word) for word in words.values()]
        free = self.width() - sum(widths) - SIGN * len(words)
        x, gap = 0.0, min(BESIDE, free / max(len(words) - 1, 1))
        for (sign, word), width in zip(words.items(), widths, strict=True):
            self._paint_sign(painter, theme, sign, x)
            painter.setPen(colour(theme.quiet if self.isEnabled() else theme.faint))
            painter.drawText(QPointF(x + SIGN, KEY_Y), word)
            x += SIGN + width + gap

    def key_words(self) -> dict[str, str]:
        """What the signs that are there are called, by the names of what they show."""
        cants = self._cants
        there = {
            "now": True,
            "begin": isfinite(cants.begin),
            "band": cants.low <= cants.high,
            "full": isfinite(cants.full),
        }
        return {sign: tr(_KEY[sign]) for sign, shown in there.items() if shown}

    def _paint_sign(self, painter: QPainter, theme: Theme, sign: str, x: float) -> None:
        """A sign as it stands on the line, before its word."""
        y, width = KEY_Y - 4.0, SIGN - 4.0
        if sign == "now":
            self._paint_now(painter, theme, x + 0.5 * width, y - 3.5)
        elif sign == "begin":
            self._paint_begin(painter, theme, QPointF(x + 0.5 * width, y))
        elif sign == "band":
            self._fill_band(painter, theme, QRectF(x, y, width, 0.0).adjusted(0.0, 2.0, 0.0, -2.0))
        else:
            self._paint_full(painter, theme, (x, x + width), y)


_KEY: Final = {
    "now": msgid("now"),
    "begin": msgid("begin with"),
    "band": msgid("knee in its plane"),
    "full": msgid("whole cant"),
}
"""What the signs are called."""
