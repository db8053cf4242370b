"""The page on which the legs are turned about and looked at from any side."""

from __future__ import annotations

from math import exp
from typing import Final

from PySide6.QtCore import (
    QEasingCurve,
    QEvent,
    QPointF,
    QRectF,
    QSize,
    Qt,
    QVariantAnimation,
    Signal,
)
from PySide6.QtGui import (
    QKeyEvent,
    QMouseEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QPushButton, QSizePolicy, QWidget

from app.drawing.marks import Scene
from app.drawing.solids import Figure
from app.features.orbit.scene import HOME, Look, figures_of, scene_orbit, standard_looks
from app.frame import Frame
from app.qt.controls.layout import in_column, in_row
from app.qt.controls.page_words import note
from app.qt.literal import show_tip
from app.qt.motion import moves
from app.qt.painting.palette import QUIET
from app.qt.painting.scene_picture import ScenePicture
from app.qt.painting.viewport import Viewport
from app.session import Session
from app.words.language import msgid

STEP_DEG: Final = 5.0
"""How far an arrow key turns."""
DEG_PER_PX: Final = 0.5
"""How far a drag turns."""
TURN_MS: Final = 200
"""How long it takes to come to another look."""
NEAREST, FARTHEST = 4.0, 0.5
"""How much larger and smaller than usual the wheel draws."""
_VIEWS: Final = {
    "front": msgid("From the front"),
    "side": msgid("From the side"),
    "above": msgid("From above"),
    "nose": msgid("From the nose"),
    "behind": msgid("From behind"),
    "home": msgid("Aslant"),
}
"""The looks that have a button and a key: 1 for the first, and so on."""
_ARROWS: Final = {
    Qt.Key.Key_Left: (STEP_DEG, 0.0),
    Qt.Key.Key_Right: (-STEP_DEG, 0.0),
    Qt.Key.Key_Up: (0.0, STEP_DEG),
    Qt.Key.Key_Down: (0.0, -STEP_DEG),
}


class OrbitView(ScenePicture):
    """Shows the legs; what is asked of it by hand leaves as a signal."""

    turned = Signal(float, float)
    """So many more degrees around and from above are wanted."""
    wanted = Signal(str)
    """One of the looks that have a name is wanted."""
    scaled = Signal(float)
    """So many times larger is wanted."""

    def __init__(self) -> None:
        super().__init__()
        self._held: QPointF | None = None
        self._times = 1.0
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumSize(QSize(240, 150))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.OpenHandCursor)

    def show_times(self, times: float) -> None:
        """Draw so many times as large as usual."""
        self._times = times
        self.update()

    def fit(self, scene: Scene, area: QRectF) -> Viewport:
        """Where the scene stands, larger or smaller about its middle."""
        usual = super().fit(scene, area)
        middle = area.center()
        times = self._times
        return usual._replace(
            scale=usual.scale * times,
            x=middle.x() + times * (usual.x - middle.x()),
            y=middle.y() + times * (usual.y - middle.y()),
        )

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        """Take hold."""
        if event.button() == Qt.MouseButton.LeftButton:
            self._held = event.position()
            self.setCursor(Qt.CursorShape.ClosedHandCursor)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        """Turn what is held."""
        if self._held is not None:
            by = event.position() - self._held
            self._held = event.position()
            self.turned.emit(-DEG_PER_PX * by.x(), DEG_PER_PX * by.y())

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        """Let go."""
        if event.button() == Qt.MouseButton.LeftButton:
            self._held = None
            self.setCursor(Qt.CursorShape.OpenHandCursor)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        """Go home."""
        if event.button() == Qt.MouseButton.LeftButton:
            self.wanted.emit("home")

    def wheelEvent(self, event: QWheelEvent) -> None:  # noqa: N802
        """Larger or smaller."""
        self.scaled.emit(exp(event.angleDelta().y() / 800.0))
        event.accept()

    def event(self, event: QEvent) -> bool:
        """Claim the figures before a shortcut of the window takes them."""
        claims = event.type() == QEvent.Type.ShortcutOverride
        if claims and isinstance(event, QKeyEvent) and _place(event) is not None:
            event.accept()
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        """Arrows turn, figures look from one of the standard sides, plus and minus zoom."""
        key = Qt.Key(event.key())
        place = _place(event)
        if key in _ARROWS:
            self.turned.emit(*_ARROWS[key])
        elif place is not None:
            self.wanted.emit(list(_VIEWS)[place])
        elif key == Qt.Key.Key_Home:
            self.wanted.emit("home")
        elif key in (Qt.Key.Key_Plus, Qt.Key.Key_Equal, Qt.Key.Key_Minus):
            self.scaled.emit(1.0 / 1.2 if key == Qt.Key.Key_Minus else 1.2)
        else:
            super().keyPressEvent(event)


def _place(event: QKeyEvent) -> int | None:
    """Which of the looks a figure key stands for; None for another key."""
    place = event.key() - Qt.Key.Key_1.value
    held = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
    return place if 0 <= place < len(_VIEWS) and not held else None


class OrbitPage(QWidget):
    """Keeps from where one looks; nothing of it is a part of the set-up."""

    plays_along = True

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._frame: Frame | None = None
        self._figures: dict[str, Figure] = {}
        self._times = 1.0
        self.look = HOME
        self._way = HOME, HOME
        self._motion = QVariantAnimation(self, startValue=0.0, endValue=1.0, duration=TURN_MS)
        self._motion.setEasingCurve(QEasingCurve.Type.InOutCubic)
        self._motion.valueChanged.connect(self._go_on)
        self.view = OrbitView()
        self.buttons: dict[str, QPushButton] = {}
        for place, (key, text) in enumerate(_VIEWS.items(), 1):
            button = self.buttons[key] = QPushButton(self.tr(text))
            show_tip(button, self.tr("Key {}").format(place))
            button.clicked.connect(lambda _=False, key=key: self.look_from(key))
        hint = note(
            self.tr(
                "Drag to turn. Arrow keys turn by 5°, the wheel draws larger, a double click "
                "comes back."
            )
        )
        hint.setForegroundRole(QUIET)
        side = in_column(*self.buttons.values(), hint, 1, spacing=4)
        in_row((self.view, 1), side, of=self, spacing=10, margins=(8, 8, 12, 8))
        self.view.turned.connect(self._turn)
        self.view.wanted.connect(self.look_from)
        self.view.scaled.connect(self._scale)

    def show_frame(self, frame: Frame, *, dragging: bool) -> None:  # noqa: ARG002
        """Show the legs as they stand now, from where one looks."""
        self._frame = frame
        self._figures = figures_of(frame)
        self._show()

    def remembered(self) -> tuple[Look, float]:
        """From where one looks, and how large it is drawn."""
        return self.look, self._times

    def recall(self, remembered: tuple[Look, float]) -> None:
        """Look from there again."""
        look, times = remembered
        self._scale(times / self._times)
        self._look(look)

    def look_from(self, name: str) -> None:
        """Come to one of the looks that have a name; home brings the usual size back too."""
        if self._frame is None:
            return
        if name == "home":
            self._scale(1.0 / self._times)
        end = standard_looks(self._frame.settled.inputs)[name]
        # The short way round.
        around = (end.around_deg - self.look.around_deg + 180.0) % 360.0 - 180.0
        self._way = self.look, Look(self.look.around_deg + around, end.above_deg)
        self._motion.stop()
        if moves():
            self._motion.start()
        else:
            self._go_on(1.0)

    def _go_on(self, share: float) -> None:
        start, end = self._way
        by = [share * (b - a) for a, b in zip(start, end, strict=True)]
        self._look(start.turned(*by))

    def _turn(self, around_deg: float, above_deg: float) -> None:
        self._motion.stop()
        self._look(self.look.turned(around_deg, above_deg))

    def _scale(self, times: float) -> None:
        self._times = min(max(self._times * times, FARTHEST), NEAREST)
        self.view.show_times(self._times)

    def _look(self, look: Look) -> None:
        self.look = look
        self._show()

    def _show(self) -> None:
        if self._frame is not None:
            self.view.show_scene(scene_orbit(self._frame, self._figures, self.look))
