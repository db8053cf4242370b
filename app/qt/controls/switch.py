"""A switch of a few words, one of which holds, and buttons that the keyboard rings."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, NamedTuple

from PySide6.QtCore import QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleInterface,
    QFocusEvent,
    QFont,
    QFontMetrics,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import QAbstractButton, QButtonGroup, QWidget

from app.drawing.theme import mixed
from app.qt.controls.entry_row import PAD, Row
from app.qt.literal import Label, say_about, show_tip
from app.qt.painting.palette import TEXT_PX, colour, typeface
from app.qt.sizes import px, stacked, target_px
from app.qt.themes import current_theme

HEIGHT: Final = 24
SIDES: Final = 16
"""Beside the words of a segment, on both sides together (px)."""


_BY_KEYBOARD = (
    Qt.FocusReason.TabFocusReason,
    Qt.FocusReason.BacktabFocusReason,
    Qt.FocusReason.ShortcutFocusReason,
)


class RingedButton(QAbstractButton):
    """A button that is ringed where the keyboard came to it by a key."""

    ringed = False
    ring = (2.5, 2.5, -2.5, -4.5)
    """How far within the button's edges the ring stands: left, top, right, bottom (px)."""

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802
        with QPainter(self) as painter:
            self.paint_button(painter)
            if self.ringed:
                painter.setBrush(Qt.BrushStyle.NoBrush)
                painter.setPen(QPen(colour(current_theme().ink), 1.0))
                painter.drawRect(QRectF(self.rect()).adjusted(*self.ring))

    def paint_button(self, painter: QPainter) -> None:
        """Draw all but the ring."""

    def focusInEvent(self, event: QFocusEvent) -> None:  # noqa: N802
        self.ringed = event.reason() in _BY_KEYBOARD
        super().focusInEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:  # noqa: N802
        self.ringed = False
        super().focusOutEvent(event)


class Choice(NamedTuple):
    """One position of a switch."""

    key: str
    text: str
    help: str


class Segment(RingedButton):
    """One word of a switch; the chosen one is underlined, set on paper and heavier."""

    role = QAccessible.Role.RadioButton

    def __init__(self, choice: Choice, parent: QWidget) -> None:
        super().__init__(parent)
        self.setText(choice.text)
        show_tip(self, choice.help)
        say_about(self, choice.help)
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)

    def spoken_interface(self) -> QAccessibleInterface:
        """As assistive programs see it."""
        from app.qt.accessible.roles import SpokenButton  # noqa: PLC0415

        return SpokenButton(self, self.role)

    @property
    def holds(self) -> bool:
        """Whether it is the one that is chosen."""
        return self.isChecked()

    def sizeHint(self) -> QSize:  # noqa: N802
        return self._around_words(px(SIDES))

    def minimumSizeHint(self) -> QSize:  # noqa: N802
        return self._around_words(2)

    def _around_words(self, sides: int) -> QSize:
        metrics = QFontMetrics(typeface(TEXT_PX, QFont.Weight.Medium))
        high = target_px(HEIGHT)
        return QSize(max(metrics.horizontalAdvance(self.text()) + sides, high), high)

    def paint_button(self, painter: QPainter) -> None:
        theme, chosen = current_theme(), self.isChecked()
        frame = QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5)
        painter.setPen(QPen(colour(theme.edge), 1.0))
        hover = mixed(theme.field, theme.panel, 0.5 if self.underMouse() else 0.0)
        painter.setBrush(colour(theme.field if chosen else hover))
        painter.drawRect(frame)
        if chosen:
            line = px(2)
            under = QRect(1, self.height() - 1 - line, self.width() - 1, line)
            painter.fillRect(under, colour(theme.ink))
        weight = QFont.Weight.Medium if chosen else QFont.Weight.Normal
        painter.setFont(typeface(TEXT_PX, weight))
        painter.setPen(colour(theme.ink if chosen else theme.quiet))
        painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, self.text())


class PageSegment(Segment):
    """One word of a switch that turns to another page."""

    role = QAccessible.Role.PageTab


class SwitchRow(Row):
    """A label and a switch beside it; reports a choice and changes nothing itself."""

    chosen = Signal(str)
    """This position is wanted."""

    def __init__(
        self,
        name: str,
        label: str,
        choices: Sequence[Choice],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(name, parent)
        self._keys = [choice.key for choice in choices]
        self._label = Label(label, self)
        self._label.setHidden(not label)
        self._group = QButtonGroup(self)
        self.setAccessibleName(label)
        self.segments = [Segment(choice, self) for choice in choices]
        for index, (segment, choice) in enumerate(zip(self.segments, choices, strict=True)):
            segment.setAccessibleName(f"{label}: {choice.text}" if label else choice.text)
            self._group.addButton(segment, index)
        self._group.idClicked.connect(lambda index: self.chosen.emit(self._keys[index]))
        self._stacked = stacked() and bool(label)
        self.setFixedHeight((1 + self._stacked) * target_px(HEIGHT) + px(6))

    def spoken_interface(self) -> QAccessibleInterface:
        """As assistive programs see it."""
        from app.qt.accessible.roles import SpokenWidget  # noqa: PLC0415

        return SpokenWidget(self, QAccessible.Role.Grouping)

    def show_choice(self, key: str) -> None:
        """Show which position holds; nothing is reported."""
        self.segments[self._keys.index(key)].setChecked(True)

    @property
    def chosen_segment(self) -> Segment:
        """Where the keyboard goes: on what holds, or on the first of all."""
        return next((each for each in self.segments if each.holds), self.segments[0])

    def show_none(self) -> None:
        """Show that nothing has been chosen yet; nothing is reported."""
        self._group.setExclusive(False)
        for segment in self.segments:
            segment.setChecked(False)
        self._group.setExclusive(True)

    def resizeEvent(self, _event: QResizeEvent) -> None:  # noqa: N802
        """The words stand in a row at the right, their frames on top of each other."""
        pad, high, top = px(PAD), target_px(HEIGHT), px(3)
        widths = [segment.sizeHint().width() - 1 for segment in self.segments]
        over = sum(widths) - (self.width() - pad - 1)
        if over > 0:  # the words come nearer to their frames, before the last one is cut
            less = min(-(-over // len(widths)), px(SIDES) - 2)
            widths = [width - less for width in widths]
        x = pad if self._stacked else self.width() - pad - sum(widths)
        room = self.width() - 2 * pad if self._stacked else max(x - pad, 0)
        self._label.setGeometry(pad, top, room, high)
        if self._stacked:
            top += high
        for segment, width in zip(self.segments, widths, strict=True):
            segment.setGeometry(x - 1, top, width + 1, high)
            x += width
