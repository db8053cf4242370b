"""Where a leg dimension comes from, as a small sign and a word."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QFontMetrics, QPainter, QPen
from PySide6.QtWidgets import QWidget

from app.qt.controls.switch import RingedButton
from app.qt.literal import pop_up_tip, say_about, show_tip
from app.qt.painting.palette import SMALL_PX, TARGET, colour, typeface
from app.qt.sizes import px, target_px
from app.qt.themes import current_theme
from app.words.language import msgid, tr

_SIGN: Final = 8.0
_TIPS: Final = {
    "default": msgid(
        "The demo rider's value. Measure your own and type it, or start from your height."
    ),
    "example": msgid(
        "An example rider's value. Measure your own and type it, or start from your height."
    ),
    "estimated": msgid(
        "Estimated from what you know of your height: two in three people lie within "
        "this much of it. Measure your own and type it."
    ),
    "measured": msgid(
        "Your own measurement. Click to drop it and go back to the estimate, or to the "
        "demo rider's value where there is none."
    ),
}
_WORDS: Final = {
    "default": msgid("default"),
    "example": msgid("example"),
    "measured": msgid("measured"),
}


class OriginMark(RingedButton):
    """A circle, empty for a default, half full for an estimate, full for a measurement.

    A click asks to drop a measurement; of the others it says where they come from.

    Attributes:
        word: what stands beside the sign.
    """

    ring = (0.5, 2.5, -0.5, -2.5)
    dropped = Signal()
    """The measurement shall give way to the estimate."""

    def __init__(self, *, wordless: bool, parent: QWidget) -> None:
        super().__init__(parent)
        self._wordless = wordless
        self._origin = ""
        self.word = ""
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.clicked.connect(self._click)

    def _click(self) -> None:
        if self._origin == "measured":
            self.dropped.emit()
        elif self._origin:
            pop_up_tip(self, self.tr(_TIPS[self._origin]))

    def show_origin(self, origin: str, spread: str = "") -> None:
        """Show "default", "example", "estimated" with its spread, or "measured"."""
        word = f"± {spread}" if origin == "estimated" else tr(_WORDS[origin])
        if (origin, word) == (self._origin, self.word):
            return
        self._origin, self.word = origin, word
        show_tip(self, self.tr(_TIPS[origin]))
        say_about(self, self.tr(_TIPS[origin]))
        self.update()

    def wanted_width(self) -> int:
        """Room for the sign and the longest word."""
        metrics = QFontMetrics(typeface(SMALL_PX))
        longest = max(metrics.horizontalAdvance(tr(word)) for word in _WORDS.values())
        words = 0 if self._wordless else longest + px(5)
        return max(px(_SIGN + 4) + words, target_px(TARGET))

    def paint_button(self, painter: QPainter) -> None:
        theme = current_theme()
        shade = theme.ink if self._origin == "measured" or self.underMouse() else theme.quiet
        if not self._wordless:
            painter.setFont(typeface(SMALL_PX))
            painter.setPen(colour(shade))
            words = self.rect().adjusted(0, 0, -px(_SIGN + 6), 0)
            side = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
            painter.drawText(words, side, self.word)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(colour(shade), 1.0))
        size = px(_SIGN)
        sign = QRectF(self.width() - size - 1.5, (self.height() - size) / 2.0 + 0.5, size, size)
        painter.drawEllipse(sign)
        full = {"estimated": 180, "measured": 360}.get(self._origin, 0)
        painter.setBrush(colour(shade))
        painter.drawPie(sign, -90 * 16, full * 16) if full else None
