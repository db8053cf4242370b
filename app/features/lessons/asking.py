"""The three ways to answer: one of several, a slider, a knee put where it is expected."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QButtonGroup, QRadioButton, QSizePolicy, QWidget

from app.features.lessons.scene import FARTHEST_MM, outward_sign, scene_knee
from app.features.lessons.words import leg_words, moved_words
from app.frame import Frame
from app.qt.controls.layout import in_column, in_row
from app.qt.controls.page_words import announce
from app.qt.controls.slider import Slider
from app.qt.controls.steps import rate_with
from app.qt.literal import Label
from app.qt.painting.palette import colour, typeface
from app.qt.painting.scene_picture import ScenePicture
from app.qt.painting.viewport import Viewport
from app.qt.themes import current_theme
from app.rider.inputs import FIELD
from app.words.language import tr
from app.words.lengths import Lengths
from app.words.scale import Scale, scale_of
from app.words.sentences import spoken

KNEE_STEP_MM: Final = 5.0
"""How far an arrow key moves a knee."""
DOT: Final = 24
"""How large the button of a choice is (logical px)."""
CLICK: Final = Qt.MouseButton.LeftButton


def place_with(event: QKeyEvent) -> int:
    """Place of the answer that a figure chooses; negative for any other key."""
    place = event.key() - Qt.Key.Key_1.value
    plain = not event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
    return place if plain and 0 <= place < 9 else -1


class OptionDot(QRadioButton):
    """A button of a choice that is seen in every theme, and whether the keyboard is on it."""

    def sizeHint(self) -> QSize:  # noqa: N802
        return QSize(DOT, DOT)

    def event(self, event: QEvent) -> bool:
        """Claim the figures, which choose, before a key of the window takes them."""
        if (
            event.type() == QEvent.Type.ShortcutOverride
            and isinstance(event, QKeyEvent)
            and place_with(event) >= 0
        ):
            event.accept()
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        """Leave the figures to all answers together."""
        if place_with(event) >= 0:
            event.ignore()
        else:
            super().keyPressEvent(event)

    def hitButton(self, at: QPoint) -> bool:  # noqa: N802
        """All of it can be pressed."""
        return self.rect().contains(at)

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802
        theme, middle = current_theme(), QRectF(self.rect()).center()
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(QPen(colour(theme.ink if self.hasFocus() else theme.quiet), 1.5))
            painter.setBrush(colour(theme.field))
            painter.drawEllipse(middle, 0.32 * DOT, 0.32 * DOT)
            if self.isChecked():
                painter.setPen(Qt.PenStyle.NoPen)
                painter.setBrush(colour(theme.ink))
                painter.drawEllipse(middle, 0.16 * DOT, 0.16 * DOT)
            if self.hasFocus():
                painter.setPen(QPen(colour(theme.ink), 1.0))
                painter.setBrush(Qt.BrushStyle.NoBrush)
                painter.drawRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5))


class OptionRow(QWidget):
    """One of the answers: a button to choose it, and its words, which wrap."""

    def __init__(self, place: int, text: str, pixels: int) -> None:
        super().__init__()
        self.button = OptionDot()
        self.button.setAccessibleName(text)
        self.words = Label(f"{place + 1}  {text}")
        self.words.setWordWrap(True)
        self.words.setFont(typeface(pixels))
        in_row(self.button, (self.words, 1), of=self, spacing=6)

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        """The words count as the button."""
        if event.button() == CLICK:
            self.button.click()


class Choosing(QWidget):
    """Answers one below the other; arrows and figures choose."""

    chosen = Signal(int)
    """The answer in this place is chosen."""

    def __init__(self) -> None:
        super().__init__()
        self.rows: list[OptionRow] = []
        self._group: QButtonGroup | None = None
        self._column = in_column(of=self, spacing=6)

    def show_options(self, options: Sequence[str], chosen: int | None, pixels: int) -> None:
        """Offer answers, one of them chosen already or none."""
        for row in self.rows:
            self._column.removeWidget(row)
            row.hide()
            row.deleteLater()
        if self._group is not None:
            self._group.deleteLater()
        self._group = group = QButtonGroup(self)
        self.rows = [OptionRow(place, text, pixels) for place, text in enumerate(options)]
        for place, row in enumerate(self.rows):
            group.addButton(row.button, place)
            row.button.setChecked(place == chosen)
            self._column.addWidget(row)
            row.show()  # at once: what is not in sight yet cannot have the keyboard
        group.idToggled.connect(self._tell)

    def write(self, pixels: int) -> None:
        """Give the words their height."""
        for row in self.rows:
            row.words.setFont(typeface(pixels))

    def _tell(self, place: int, on: bool) -> None:
        if on:
            self.chosen.emit(place)

    def take_keys(self) -> None:
        """Put the keyboard on the answers."""
        if self.rows:
            self.rows[0].button.setFocus(Qt.FocusReason.OtherFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        """A figure chooses."""
        place = place_with(event)
        if 0 <= place < len(self.rows):
            self.rows[place].button.setFocus(Qt.FocusReason.ShortcutFocusReason)
            self.rows[place].button.click()
        else:
            super().keyPressEvent(event)


class Sliding(QWidget):
    """A slider between the ends that a question gives, and its value in words."""

    asked = Signal(float)
    """This value is wanted."""

    def __init__(self) -> None:
        super().__init__()
        self.slider = Slider()
        self._value, self._scale = 0.0, self.slider.scale
        self.words = Label()
        self.words.setAlignment(Qt.AlignmentFlag.AlignHCenter)
        self.low, self.high = Label(), Label()
        ends = in_row(self.low, 1, self.high)
        in_column(self.words, self.slider, ends, of=self, spacing=4)
        self.slider.asked.connect(self.asked)
        self.slider.stepped.connect(
            lambda count, kind: self.asked.emit(self._scale.stepped(self._value, count, kind))
        )

    def write(self, pixels: int) -> None:
        """Give the words their height."""
        for label in (self.words, self.low, self.high):
            label.setFont(typeface(pixels))

    def show_question(
        self, name: str, ends: tuple[float, float], value: float, lengths: Lengths
    ) -> None:
        """Stand at a value between two ends of an input."""
        field = FIELD[name]

        def worded(each: float) -> str:
            return spoken(field, each, lengths)

        scale: Scale = replace(scale_of(field, lengths), low=ends[0], high=ends[1])
        self._scale, self._value = scale, scale.clipped(value)
        self.slider.set_scale(scale)
        self.slider.set_wording(worded)
        self.slider.setAccessibleName(field.label)
        self.slider.show_value(self._value)
        self.words.setText(worded(self._value))
        for label, end in ((self.low, ends[0]), (self.high, ends[1])):
            label.setText(worded(end))

    def take_keys(self) -> None:
        """Put the keyboard on the slider."""
        self.slider.setFocus(Qt.FocusReason.OtherFocusReason)


class KneeView(ScenePicture):
    """The knees, one of them to be dragged or moved by the arrows; keeps nothing itself."""

    asked = Signal(float)
    """The knee is expected so far outward (mm)."""

    def __init__(self) -> None:
        super().__init__()
        self._frame: Frame | None = None
        self._leg, self._moved = "front", 0.0
        self._held: QPointF | None = None
        self._open = False
        self._held_at = 0.0
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumSize(QSize(260, 120))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)

    def show_question(
        self, asked: Frame, leg: str, moved_mm: float | None, real: Frame | None
    ) -> None:
        """Show where a knee is expected, and once it is known where it goes."""
        self._frame, self._leg, self._moved = asked, leg, moved_mm or 0.0
        self._open = real is None
        self.setCursor(Qt.CursorShape.SizeHorCursor if self._open else Qt.CursorShape.ArrowCursor)
        words = moved_words(self._moved, asked.lengths)
        self.show_scene(scene_knee(asked, leg, self._moved, words, real))
        self.setAccessibleName(tr("{knee}: {place}", knee=leg_words(leg), place=words))

    def take_keys(self) -> None:
        """Put the keyboard on the knee."""
        self.setFocus(Qt.FocusReason.OtherFocusReason)

    def _fit(self) -> Viewport | None:
        return None if self.scene is None else self.fit(self.scene, self.area)

    def _move(self, moved_mm: float) -> None:
        moved = min(max(moved_mm, -FARTHEST_MM), FARTHEST_MM)
        if self._open and self._frame is not None:
            self.asked.emit(round(moved, 1))

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        """Take hold of the knee, wherever the press is."""
        if event.button() == CLICK and self._open:
            self._held, self._held_at = event.position(), self._moved

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        """Move it sideways."""
        fit = self._fit()
        if self._held is None or fit is None or self._frame is None:
            return
        by = (event.position().x() - self._held.x()) / fit.scale
        self._move(self._held_at + outward_sign(self._frame, self._leg) * by)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        """Let go."""
        if event.button() == CLICK:
            self._held = None

    def event(self, event: QEvent) -> bool:
        """Claim the arrows before the page turns by them."""
        if (
            event.type() == QEvent.Type.ShortcutOverride
            and isinstance(event, QKeyEvent)
            and self._open
            and event.key() in (Qt.Key.Key_Left, Qt.Key.Key_Right)
        ):
            event.accept()
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        """Arrows move the knee as they point; a fifth with Shift, more with Ctrl."""
        ways = {Qt.Key.Key_Left: -1.0, Qt.Key.Key_Right: 1.0}
        way = ways.get(Qt.Key(event.key()))
        if way is None or not self._open or self._frame is None:
            super().keyPressEvent(event)
            return
        by = way * KNEE_STEP_MM * rate_with(event.modifiers())
        self._move(self._moved + outward_sign(self._frame, self._leg) * by)
        announce(self, moved_words(self._moved, self._frame.lengths))
