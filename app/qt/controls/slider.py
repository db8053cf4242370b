"""A slider drawn like the cursor of a drafting scale.

It stands on the grid of the fine step but shows, speaks and reports exact values:
it never rounds what it was given.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QEvent, QSignalBlocker, Qt, Signal
from PySide6.QtGui import (
    QAccessibleInterface,
    QFocusEvent,
    QHideEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QSlider, QWidget

from app.qt.controls.slider_face import (
    Face,
    half_handle,
    height,
    paint,
    value_at,
    x_of,
)
from app.qt.controls.steps import Grip, Wheel, key_step, kind_with
from app.qt.themes import current_theme
from app.words.scale import FINE, PLAIN, UNTOLD, Scale

_FINE_RATE = 0.1
"""How fast the value follows the mouse with Shift, for a tenth of the step."""


@dataclass(frozen=True, slots=True)
class _Drag:
    """Where a drag, or its stretch under one modifier, set out from."""

    x: float
    value: float
    kind: int


class Slider(QSlider):
    """Shows one value on a scale and reports what is asked of it.

    It changes nothing by itself: whoever owns it answers by :meth:`show_value`.

    Attributes:
        scale: on which it stands.
    """

    asked = Signal(float)
    """A value is wanted: dragged to, clicked at, or an end of the scale."""
    stepped = Signal(int, int)
    """So many steps of this kind are wanted."""
    reset = Signal()
    """The default is wanted."""
    click_withdrawn = Signal()
    """What a click asked for was not meant: it was the first half of a double-click."""
    focused = Signal(bool)
    """The keyboard came or went."""

    def __init__(self, hue: str = "", parent: QWidget | None = None) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self.grip = Grip(self)
        self._hue = hue
        self.scale = UNTOLD
        self._value = 0.0
        self._drag: _Drag | None = None
        self._start = 0.0
        self._wheel = Wheel()
        self._worded: Callable[[float], str] | None = None
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)  # looks otherwise under the mouse
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setFixedHeight(height())
        self.setTracking(True)
        self.valueChanged.connect(self._ask_position)

    def set_hue(self, hue: str) -> None:
        """Draw it in the colour of the "front" or "rear" leg, or in none."""
        if hue != self._hue:
            self._hue = hue
            self.update()

    def set_scale(self, scale: Scale) -> None:
        """Stand on another scale; the value is shown anew by :meth:`show_value`."""
        self.scale = scale
        with QSignalBlocker(self):
            fine = scale.steps[FINE]
            self.setRange(0, round((scale.high - scale.low) / fine))
            self.setSingleStep(round(scale.steps[PLAIN] / fine))
        self.update()

    def show_value(self, value: float) -> None:
        """Show a value; nothing is reported."""
        self._value = value
        with QSignalBlocker(self):
            self.setValue(round((value - self.scale.low) / self.scale.steps[FINE]))
        self.update()

    # For assistive programs

    def set_wording(self, worded: Callable[[float], str]) -> None:
        """Put values into words in this way where they are spoken."""
        self._worded = worded

    def words(self) -> str:
        """The value in words, or else with its unit."""
        if self._worded is not None:
            return self._worded(self._value)
        return self.scale.text(self._value)

    def figures(self) -> tuple[float, float, float, float]:
        """The value, its least and largest and the fine step, in the unit shown."""
        scale = self.scale
        told = (self._value, scale.low, scale.high, scale.steps[FINE])
        value, low, high, fine = (round(each / scale.unit.size, 6) for each in told)
        return (value, low, high, fine)

    def spoken_interface(self) -> QAccessibleInterface:
        """As assistive programs see it."""
        from app.qt.controls.spoken_slider import SpokenSlider  # noqa: PLC0415

        return SpokenSlider(self)

    def ask_figure(self, figure: float) -> None:
        """Ask for a value given in the unit shown."""
        self.asked.emit(self.scale.clipped(figure * self.scale.unit.size))

    def _ask_position(self, position: int) -> None:
        """A position set from outside, by a screen reader for one."""
        self.asked.emit(self.scale.clipped(self.scale.low + position * self.scale.steps[0]))

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        if event.button() != Qt.MouseButton.LeftButton:
            event.ignore()
            return
        x, kind = event.position().x(), kind_with(PLAIN, event.modifiers())
        on_handle = abs(x - x_of(self.scale, self._value, self.width())) <= half_handle() + 2
        under = value_at(self.scale, x, self.width())
        target = self._value if on_handle else self.scale.snapped(under, kind)
        self._start, self._drag = self._value, _Drag(x, target, kind)
        self.grip.hold()
        if not on_handle:
            self.asked.emit(target)
        self.update()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        if self._drag is None:
            event.ignore()
            return
        x, kind = event.position().x(), kind_with(PLAIN, event.modifiers())
        if kind != self._drag.kind:
            self._drag = _Drag(x, self._value, kind)
        self.asked.emit(self._dragged_to(self._drag, x))

    def _dragged_to(self, drag: _Drag, x: float) -> float:
        """The value under a drag; back at its start it is the very value there."""
        if x == drag.x:
            return drag.value
        scale, width = self.scale, self.width()
        moved = value_at(scale, x, width) - value_at(scale, drag.x, width)
        rate = _FINE_RATE if drag.kind == FINE else 1.0
        return scale.snapped(drag.value + rate * moved, drag.kind)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        if event.button() != Qt.MouseButton.LeftButton:
            event.ignore()
            return
        self._end_drag()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        if event.button() == Qt.MouseButton.LeftButton:
            self.click_withdrawn.emit()
            self.reset.emit()

    def _end_drag(self) -> None:
        self._drag = None
        self.grip.let_go()
        self.update()

    def wheelEvent(self, event: QWheelEvent) -> None:  # noqa: N802
        if not self.hasFocus() or self._drag is not None:
            event.ignore()
            return
        count = self._wheel.notches(event)
        if count:
            self.stepped.emit(count, kind_with(PLAIN, event.modifiers()))
        event.accept()

    def event(self, event: QEvent) -> bool:
        """Claim the keys used here before a shortcut of the window takes them."""
        if (
            event.type() == QEvent.Type.ShortcutOverride
            and isinstance(event, QKeyEvent)
            and self._uses(event)
        ):
            event.accept()
            return True
        return super().event(event)

    def _uses(self, event: QKeyEvent) -> bool:
        if event.key() == Qt.Key.Key_Escape:
            return self._drag is not None
        ends = (Qt.Key.Key_Home, Qt.Key.Key_End)
        return event.key() in ends or key_step(event, sideways=True) is not None

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        if self._drag is not None:
            if event.key() == Qt.Key.Key_Escape:
                self.asked.emit(self._start)
                self._end_drag()
            return
        step = key_step(event, sideways=True)
        if step is not None:
            self.grip.hold()
            self.stepped.emit(*step)
        elif event.key() in (Qt.Key.Key_Home, Qt.Key.Key_End):
            at_low = event.key() == Qt.Key.Key_Home
            self.asked.emit(self.scale.low if at_low else self.scale.high)
        elif event.key() in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            self.reset.emit()
        else:
            event.ignore()

    def keyReleaseEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        if event.isAutoRepeat() or self._drag is not None:
            return
        self.grip.let_go()
        event.ignore()

    def focusInEvent(self, event: QFocusEvent) -> None:  # noqa: N802
        super().focusInEvent(event)
        self.focused.emit(True)

    def focusOutEvent(self, event: QFocusEvent) -> None:  # noqa: N802
        if self._drag is None:
            self.grip.let_go()
        super().focusOutEvent(event)
        self.focused.emit(False)

    def hideEvent(self, event: QHideEvent) -> None:  # noqa: N802
        self._end_drag()
        super().hideEvent(event)

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802
        with QPainter(self) as painter:
            paint(painter, self._face())

    def _face(self) -> Face:
        """All that its picture depends on."""
        return Face(
            scale=self.scale,
            value=self._value,
            width=self.width(),
            theme=current_theme(),
            hue=self._hue,
            focused=self.hasFocus(),
            busy=self._drag is not None or self.underMouse(),
        )
