"""One control: label, slider, number field, and what the value means in words."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QRect, Qt, Signal
from PySide6.QtGui import QContextMenuEvent, QFontMetrics, QMouseEvent, QResizeEvent
from PySide6.QtWidgets import QMenu, QWidget

from app.qt.controls import number_field, slider_face
from app.qt.controls.entry_row import FIELD_WIDTH, GAP, PAD, TOP, EntryRow
from app.qt.controls.origin_mark import OriginMark
from app.qt.controls.slider import Slider
from app.qt.literal import say_about
from app.qt.painting.palette import SMALL_PX, TARGET, typeface
from app.qt.sizes import px, target_px
from app.rider.inputs import default_of
from app.session import Session
from app.words.field import Field
from app.words.scale import scale_of
from app.words.sentences import in_words, spoken
from app.words.terms import term_of

_COMPACT_FIELD_WIDTH: Final = 56
_SIDED_FIELD_WIDTH: Final = 64
"""Narrower, for the longer name."""
_REMARK_HEIGHT: Final = 15


class ControlRow(EntryRow):
    """Shows one input and asks the session for changes of it.

    Args:
        session: takes the edits.
        field: the input.
        compact: half as wide, with the words beneath the slider.
    """

    reset = Signal(str)
    """The input of this name shall go back to where it started."""

    def __init__(
        self,
        session: Session,
        field: Field,
        *,
        compact: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        width = _SIDED_FIELD_WIDTH if field.side else FIELD_WIDTH
        width = _COMPACT_FIELD_WIDTH if compact else width
        super().__init__(field, field_width=width, stacks=True, parent=parent)
        self._session = session
        # Under the slider there is room for words, whatever stands beside the label.
        self._under = compact or self._stacked
        self._default = default_of(field)
        self._value: float | None = None
        self._brief = False
        self._aside = ""
        self._at_grab = 0
        self.slider = Slider(self.hue, self)
        self.slider.setAccessibleName(field.label)
        self.slider.set_wording(lambda value: spoken(field, value, self._lengths))
        self.mark = self._origin_mark() if field.group == "legs" else None
        self._connect_parts()
        self.rescale()
        below = px(TOP) + number_field.height() + slider_face.height()
        self.setFixedHeight(below + (self._under_height() if self._under else 0))

    def _origin_mark(self) -> OriginMark:
        mark = OriginMark(wordless=self.field.signs is not None, parent=self)
        mark.setAccessibleName(self.tr("{}: where it comes from").format(self.field.label))
        mark.dropped.connect(self._reset)
        return mark

    def _connect_parts(self) -> None:
        for part in (self.slider, self.number):
            part.grip.grabbed.connect(self._grab)
            part.grip.released.connect(self._session.end_drag)
            part.stepped.connect(self._step)
        self.slider.focused.connect(lambda here: self.focused.emit(self.name, here))
        self.slider.asked.connect(self._slide)
        self.slider.reset.connect(self._reset)
        self.slider.click_withdrawn.connect(self._drop_jump)
        self.number.committed.connect(self._ask)

    def set_hue(self, hue: str) -> None:
        super().set_hue(hue)
        self.slider.set_hue(hue)

    def show_value(self, value: float) -> None:
        """Show a value; nothing is reported."""
        if value == self._value:
            return
        self._value = value
        self.slider.show_value(value)
        self.number.show_value(value)
        self.forget_refusal()
        self._say()

    def show_aside(self, words: str) -> None:
        """Put words beside a value whose sign needs none, where they fit."""
        if words != self._aside:
            self._aside = words
            self._say()

    def show_default(self, value: float) -> None:
        """Show where a double-click leads."""
        if value != self._default:
            self._default = value
            self.rescale()

    def show_origin(self, origin: str, spread: float) -> None:
        """Show where a leg dimension comes from, with its standard error."""
        if self.mark is not None:
            self.mark.show_origin(origin, self._scale.text(round(spread)))

    def rescale(self) -> None:
        scale = scale_of(self.field, self._lengths, default=self._default)
        self.slider.set_scale(scale)
        limits = self.tr("From {}; the arrow stands at {}.")
        self.take_scale(scale, limits.format(scale.range_text, scale.text(self._default)))
        if self._value is not None:
            self.slider.show_value(self._value)
            self._brief = not self._fits_in_full()
            self._say()

    def _say(self) -> None:
        """Put the value into words: for the eye where the sign needs it, always for the ear."""
        if self._value is not None:
            words = spoken(self.field, self._value, self._lengths)
            say_about(self.slider, f"{words}. {self.field.help}")
            short = in_words(self.field, self._value)
            self.set_remark(short if self._brief or not self.field.signs else words)
            self._say_aside()

    def _say_aside(self) -> None:
        metrics, room = QFontMetrics(typeface(SMALL_PX)), self.remark_rect().width()
        if self._aside and metrics.horizontalAdvance(self._aside) <= room:
            self.set_remark(self._aside)

    def _ask(self, value: float) -> None:
        self._session.edit(**{self.name: value})

    def _slide(self, value: float) -> None:
        """Take the number from the slider, and not from what stands in the field any more."""
        self.number.forget()
        self._ask(value)

    def _step(self, count: int, kind: int) -> None:
        now = self._session.inputs.value(self.name)
        self._ask(self._scale.stepped(now, count, kind))

    def _grab(self) -> None:
        self._at_grab = self._session.at
        self._session.begin_drag()

    def _drop_jump(self) -> None:
        """Take back the step of a double-click's first click, which jumped to where it fell."""
        if self._session.at == self._at_grab + 1:
            self._session.undo()

    def _reset(self) -> None:
        self.number.forget()
        self.reset.emit(self.name)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        if self.label.geometry().contains(event.position().toPoint()):
            self._reset()

    def menu(self) -> QMenu:
        """What a right click offers: the way back, without a double-click."""
        menu = QMenu(self)
        text = self.tr("Back to {}").format(self._scale.text(self._default))
        menu.addAction(text).triggered.connect(self._reset)
        if term := term_of(self.name):
            about = menu.addAction(self.tr("What is this?"))
            about.triggered.connect(lambda: self._session.term_asked.emit(term))
        return menu

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:  # noqa: N802
        menu = self.menu()
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        menu.popup(event.globalPos())

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        super().resizeEvent(event)
        overhang, pad, high = slider_face.half_handle(), px(PAD), number_field.height()
        end = self.number.x() - px(GAP) if self._stacked else self.width() - pad
        left, top = pad - overhang, px(TOP) + high
        self.slider.setGeometry(left, top, end - pad + 2 * overhang, slider_face.height())
        if self.mark is not None:
            wanted = self.mark.wanted_width()
            left = self.number.x() - wanted - px(5)
            if self._stacked:
                left, high = self.width() - pad - wanted, self._under_height()
            self.mark.setGeometry(
                left, self.height() - high if self._stacked else px(TOP), wanted, high
            )
        self._brief = not self._fits_in_full()
        self._say()

    def _fits_in_full(self) -> bool:
        """Whether figure and word fit beside the label, whatever the value."""
        metrics = QFontMetrics(typeface(SMALL_PX))
        ends = (self.field.low, self.field.high)
        longest = (spoken(self.field, value, self._lengths) for value in ends)
        room = self.remark_rect().width()
        return all(metrics.horizontalAdvance(words) <= room for words in longest)

    def show_refusal(self, why: str) -> None:
        super().show_refusal(why)
        if self.mark is not None:
            self.mark.setHidden(bool(why))

    def remark_rect(self) -> QRect:
        if self._under:
            pad, high = px(PAD), self._under_height()
            rect = QRect(pad, self.height() - high, self.width() - 2 * pad, high)
        else:
            rect = super().remark_rect()
        if self.mark is not None and not self._refusal:
            rect.setRight(self.mark.x() - px(4))
        return rect

    def _under_height(self) -> int:
        """Of the line under the slider (px)."""
        return target_px(TARGET) if self.mark is not None else px(_REMARK_HEIGHT)
