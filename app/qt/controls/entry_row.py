"""Rows that know which input they are and light up, with a number field or another control."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QEvent, QRect, Qt, Signal
from PySide6.QtGui import (
    QEnterEvent,
    QFontMetrics,
    QPainter,
    QPaintEvent,
    QResizeEvent,
)
from PySide6.QtWidgets import QWidget

from app.drawing.theme import mixed
from app.qt.controls import number_field
from app.qt.controls.number_field import NumberField
from app.qt.controls.page_words import announce
from app.qt.literal import Label, markup, show_tip
from app.qt.painting.palette import LEG, SMALL_PX, colour, typeface
from app.qt.sizes import px, stacked
from app.qt.themes import current_theme
from app.words.field import Field
from app.words.language import tr
from app.words.lengths import IN_MM, Lengths
from app.words.scale import Scale, scale_of
from app.words.terms import term_of

PAD: Final = 12
"""From the edge of the panel to what stands in it."""
TOP: Final = 1
FIELD_WIDTH: Final = 72
GAP: Final = 6


class Row(QWidget):
    """Background of one control; lit when the drawing points at what it moves."""

    hovered = Signal(str, bool)
    """The mouse came to the row of this name, or left it."""
    focused = Signal(str, bool)
    """The keyboard came to the row of this name, or left it."""

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.name = name
        self.lit = False
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)  # painted anew as the mouse comes and goes

    def set_lit(self, lit: bool) -> None:
        """Light the row up, or not."""
        if lit != self.lit:
            self.lit = lit
            self.update()

    def enterEvent(self, event: QEnterEvent) -> None:  # noqa: N802
        super().enterEvent(event)
        self.hovered.emit(self.name, True)

    def leaveEvent(self, event: QEvent) -> None:  # noqa: N802
        super().leaveEvent(event)
        self.hovered.emit(self.name, False)

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802
        with QPainter(self) as painter:
            self.paint_row(painter)

    def paint_row(self, painter: QPainter) -> None:
        """Draw the row's background; rows with more to draw add to it."""
        if not (self.lit or self.underMouse()):
            return
        theme = current_theme()
        # Towards the ground of the fields, on which words stand out more than on the panel.
        share = 1.0 if self.lit else 0.5
        painter.fillRect(self.rect(), colour(mixed(theme.field, theme.panel, share)))
        if self.lit:
            painter.fillRect(QRect(0, 0, px(3), self.height()), colour(theme.ink))


class EntryRow(Row):
    """Label, remark and number field; says so when what was typed cannot be taken.

    Args:
        field: what is entered.
        field_width: of the number field, in logical pixels.
        stacks: whether its label stands over the number where letters are large.
    """

    def __init__(
        self,
        field: Field,
        *,
        field_width: int = FIELD_WIDTH,
        stacks: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(field.name, parent)
        self.field = field
        self.hue = next((leg for leg in ("front", "rear") if field.name.startswith(leg)), "")
        self._field_width = px(field_width)
        self._stacked = stacks and stacked()
        self._lengths = IN_MM
        self._remark = self._refusal = ""
        self.label = Label(field.label, self)
        self.number = NumberField(self)
        self.number.setAccessibleName(field.label)
        self.number.setObjectName(field.name)
        self.label.setBuddy(self.number)
        self.number.refused.connect(self.refuse)
        self.number.resumed.connect(self.forget_refusal)
        self.number.focused.connect(lambda here: self.focused.emit(self.name, here))
        self.setFixedHeight((1 + self._stacked) * number_field.height() + 2 * px(TOP))
        if self.hue:
            self.label.setForegroundRole(LEG[self.hue])

    def set_hue(self, hue: str) -> None:
        """Mark the row as that of the leg that stands at the "front" or the "rear" binding."""
        self.hue = hue
        self.label.setForegroundRole(LEG[hue])
        self.update()

    def explain(self, *sentences: str) -> None:
        """Put the tool tip together: the label, what it is, and more."""
        label = markup("<b>{label}</b>", label=self.field.label)
        more = tr("Shift+F1 shows it in a drawing.") if term_of(self.name) else ""
        show_tip(self, label, self.field.help, *sentences, more)

    def show_lengths(self, lengths: Lengths) -> None:
        """Write and read lengths in another unit."""
        if lengths != self._lengths:
            self._lengths = lengths
            self.rescale()

    def rescale(self) -> None:
        """Take the scale of the field anew."""
        scale = scale_of(self.field, self._lengths)
        self.take_scale(scale, self.tr("From {}.").format(scale.range_text))

    def take_scale(self, scale: Scale, *sentences: str) -> None:
        """Write and read the number by this scale, and say so in the tool tip and aloud."""
        self._scale = scale
        self.number.set_scale(scale)
        self.explain(*sentences)
        about = f"{scale.unit.words}, {scale.range_text}. {self.field.help}"
        self.number.explain(about)

    @property
    def remark(self) -> str:
        """The words in the row beside its label; why a number was refused goes first."""
        return self._refusal or self._remark

    def set_remark(self, remark: str) -> None:
        """Change the words beside the label."""
        if remark != self._remark:
            self._remark = remark
            self.update(self.remark_rect())

    def refuse(self, typed: str, why: str, details: str = "") -> None:
        """Say that what was typed is not taken, and why.

        Args:
            typed: what was typed.
            why: in a few words, for the row.
            details: more of it, for the tool tip.
        """
        stands = self.number.shown or self.tr("nothing")
        sentence = self.tr("“{}” was not taken: {}. {} stands.")
        plain = sentence.format(typed, details or why, stands)
        show_tip(self.number, plain)
        self.show_refusal(why)
        announce(self.number, plain)

    def forget_refusal(self) -> None:
        """Take back what was said of a number that was refused, once it is being mended."""
        if self._refusal and not self.number.why:
            show_tip(self.number)
            self.show_refusal("")

    def show_refusal(self, why: str) -> None:
        """Put the reason in the place of the remark, or take it away with ""."""
        self._refusal = why
        self.update()

    def resizeEvent(self, _event: QResizeEvent) -> None:  # noqa: N802
        pad, top, high = px(PAD), px(TOP), number_field.height()
        left = self.width() - pad - self._field_width
        self.number.setGeometry(left, top + self._stacked * high, self._field_width, high)
        room = self.width() - 2 * pad if self._stacked else left - pad
        self.label.setGeometry(pad, top, min(self.label.sizeHint().width(), room), high)

    def remark_rect(self) -> QRect:
        """Where the remark stands: between the label and what follows it, or under the label."""
        high, gap = number_field.height(), px(GAP)
        left = px(PAD) if self._stacked else self.label.geometry().right() + gap
        return QRect(left, self.number.y(), self.number.x() - gap - left, high)

    def paint_row(self, painter: QPainter) -> None:
        super().paint_row(painter)
        if self.hue:
            self._paint_bar(painter)
        if self.remark:
            self._paint_remark(painter, self.remark_rect())

    def _paint_bar(self, painter: QPainter) -> None:
        """The bar of the leg; where its name does not say which, in pieces for the rear one."""
        bar = QRect(px(4), px(TOP + 4), px(3), number_field.height() - px(8))
        shade = colour(current_theme().leg(self.hue))
        painter.fillRect(bar, shade)
        if self.field.side and self.hue == "rear":
            gap = QRect(bar.x(), bar.center().y() - px(1), bar.width(), px(3))
            painter.fillRect(gap, colour(current_theme().panel))

    def _paint_remark(self, painter: QPainter, rect: QRect) -> None:
        theme, font = current_theme(), typeface(SMALL_PX)
        text = QFontMetrics(font).elidedText(self.remark, Qt.TextElideMode.ElideRight, rect.width())
        beside = rect.top() == px(TOP)
        side = Qt.AlignmentFlag.AlignRight if beside else Qt.AlignmentFlag.AlignLeft
        painter.setFont(font)
        painter.setPen(colour(theme.accent_text if self._refusal else theme.quiet))
        painter.drawText(rect, side | Qt.AlignmentFlag.AlignVCenter, text)
