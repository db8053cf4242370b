"""One input, large enough to be followed from the last row: picked by a key while presenting."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QFont, QMouseEvent, QPainter, QPaintEvent, QShowEvent
from PySide6.QtWidgets import QFrame

from app.qt.controls.layout import in_row
from app.qt.controls.slider import Slider
from app.qt.controls.slider_face import HEIGHT as SLIDER_HEIGHT
from app.qt.controls.slider_face import paint
from app.qt.literal import Label, say_about
from app.qt.painting.lettering import font
from app.qt.sizes import target_px
from app.rider.inputs import FIELD
from app.session import Session
from app.words.language import tr
from app.words.scale import Scale, scale_of
from app.words.sentences import spoken

TIMES: Final = 2.4
"""How much larger than in the panel."""
HEIGHT: Final = 64
LABEL_PX: Final = 22
VALUE_PX: Final = 28
VALUE_WIDTH: Final = 250
LABEL_WIDTH: Final = 250
KEYS: Final = (
    "front_angle_deg",
    "rear_angle_deg",
    "stance_length_mm",
    "front_cant_deg",
    "rear_cant_deg",
    "front_lift_deg",
    "rear_lift_deg",
    "knee_bend_deg",
    "hips_turned_deg",
)
"""The inputs that the keys 1 to 9 pick."""


class WideSlider(Slider):
    """A slider drawn several times as large; its geometry is that of the small one."""

    def __init__(self) -> None:
        super().__init__()
        # As large as ever where that of the panel is larger with its letters.
        self._times = TIMES * SLIDER_HEIGHT / target_px(SLIDER_HEIGHT)
        self.setFixedHeight(round(TIMES * SLIDER_HEIGHT))

    def width(self) -> int:
        """Of the small one that it is drawn from (logical px)."""
        return round(super().width() / self._times)

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        super().mousePressEvent(_smaller(event, self._times))

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        super().mouseMoveEvent(_smaller(event, self._times))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        super().mouseReleaseEvent(_smaller(event, self._times))

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802
        with QPainter(self) as painter:
            painter.scale(self._times, self._times)
            paint(painter, self._face())


def _smaller(event: QMouseEvent, times: float) -> QMouseEvent:
    at: QPointF = event.position() / times
    return QMouseEvent(
        event.type(),
        at,
        event.globalPosition(),
        event.button(),
        event.buttons(),
        event.modifiers(),
    )


class LargeSlider(QFrame):
    """Shows one input of the session and asks for changes of it; keeps which one.

    Args:
        session: takes the edits.

    Attributes:
        name: of the input.
    """

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self.name = KEYS[0]
        self._scale: Scale | None = None
        self.setFixedHeight(HEIGHT)
        self.label, self.value = Label(), Label()
        # Large for those who sit far off, whatever the size of letters.
        self.label.setFont(font(LABEL_PX, QFont.Weight.Medium))
        self.value.setFont(font(VALUE_PX, QFont.Weight.DemiBold))
        self.label.setFixedWidth(LABEL_WIDTH)
        self.value.setFixedWidth(VALUE_WIDTH)
        self.value.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.slider = WideSlider()
        self.slider.asked.connect(self._ask)
        self.slider.stepped.connect(self._step)
        self.slider.reset.connect(self._reset)
        self.slider.grip.grabbed.connect(session.begin_drag)
        self.slider.grip.released.connect(session.end_drag)
        in_row(
            self.label, (self.slider, 1), self.value, of=self, spacing=16, margins=(20, 4, 20, 4)
        )
        session.changed.connect(self._show)
        self.hide()

    def pick(self, name: str) -> None:
        """Show an input, the keyboard on it."""
        self.name = name
        self._show()
        self.slider.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def _show(self) -> None:
        if not self.isVisible():
            return
        field, session = FIELD[self.name], self._session
        value = session.inputs.value(self.name)
        default = session.start.inputs.value(self.name)
        self._scale = scale_of(field, session.lengths, default=default)
        self.slider.set_scale(self._scale)
        self.slider.set_hue(next((end for end in ("front", "rear") if end in self.name), ""))
        self.slider.show_value(value)
        said = spoken(field, value, session.lengths)
        self.label.setText(field.label)
        self.value.setText(said)
        self.slider.setAccessibleName(field.label)
        say_about(self.slider, tr("{value}. {help}", value=said, help=field.help))

    def showEvent(self, event: QShowEvent) -> None:  # noqa: N802
        """Show what was changed meanwhile."""
        super().showEvent(event)
        self._show()

    def _ask(self, value: float) -> None:
        self._session.edit(**{self.name: value})

    def _step(self, count: int, kind: int) -> None:
        if self._scale is not None:
            now = self._session.inputs.value(self.name)
            self._ask(self._scale.stepped(now, count, kind))

    def _reset(self) -> None:
        self._ask(self._session.start.inputs.value(self.name))
