"""One scene in a widget of its own, as large as fits, or in a window that scrolls."""

from __future__ import annotations

from math import ceil
from typing import Final

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QAccessibleInterface, QKeySequence, QPainter, QPaintEvent, QPen, QShortcut
from PySide6.QtWidgets import QWidget

from app.drawing.marks import Scene
from app.qt.accessible.factory import tell_changed
from app.qt.controls.layout import in_column
from app.qt.controls.plain_area import PlainArea
from app.qt.literal import say_about
from app.qt.painting.easel import Easel
from app.qt.painting.painting import paint_scene
from app.qt.painting.palette import colour
from app.qt.painting.viewport import Viewport, fitted
from app.qt.sizes import is_held, text_scale
from app.qt.themes import current_theme

PAD = 6.0
"""Around the scene (logical px)."""


class ScenePicture(QWidget):
    """Shows a scene; has no say in what it is.

    Attributes:
        scene: that is shown, if any.
    """

    def __init__(self) -> None:
        super().__init__()
        self.scene: Scene | None = None

    def show_scene(self, scene: Scene) -> None:
        """Show a scene, and its words to those who cannot see it."""
        if scene == self.scene:
            return
        self.scene = scene
        self.setAccessibleName(scene.title)
        say_about(self, scene.text)
        tell_changed(self)
        self.update()

    def spoken_interface(self) -> QAccessibleInterface:
        """As assistive programs see it."""
        from app.qt.accessible.drawing import SpokenDrawing  # noqa: PLC0415

        return SpokenDrawing(self)

    def spoken_values(self) -> list[str]:
        """What the scene says in words, piece by piece."""
        from app.qt.accessible.drawing import sentences_of  # noqa: PLC0415

        return sentences_of(self.scene.text) if self.scene is not None else []

    @property
    def area(self) -> QRectF:
        """Where in the widget it stands (logical px)."""
        return QRectF(self.rect()).adjusted(PAD, PAD, -PAD, -PAD)

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802
        """The scene, in a frame where the keyboard is on it."""
        with QPainter(self) as painter:
            self._paint(painter)
            if self.hasFocus():
                painter.setClipping(False)
                painter.setBrush(Qt.BrushStyle.NoBrush)
                painter.setPen(QPen(colour(current_theme().ink), 1.5))
                painter.drawRect(QRectF(self.rect()).adjusted(1.5, 1.5, -1.5, -1.5))

    def _paint(self, painter: QPainter) -> None:
        theme, frame = current_theme(), QRectF(self.rect())
        painter.fillRect(frame, colour(theme.paper))
        painter.setPen(colour(theme.rule))
        painter.drawRect(frame.adjusted(0.5, 0.5, -0.5, -0.5))
        if self.scene is None:
            return
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        area = self.area
        painter.setClipRect(area)
        easel = Easel(painter, theme, letters_in(area))
        paint_scene(easel, self.scene, self.fit(self.scene, area))
        easel.finish()

    def fit(self, scene: Scene, area: QRectF) -> Viewport:
        """Where the scene stands."""
        return fitted(scene.window, area)


def letters_in(area: QRectF) -> float:
    """How much larger than usual letters are written in an area, as far as it has room."""
    room = max(1.0, min(area.width(), area.height()) / ROOMY)
    return text_scale() if is_held() else min(text_scale(), room)


USUAL: Final = QSize(1000, 740)
ROOMY: Final = 300.0
"""Side of a picture in which letters of the usual size have room (logical px)."""
LEAST_SCALE: Final = 1.9
"""Logical px to the mm from which on the letters of a drawing stay apart."""


class LargeDrawing(QWidget):
    """Shows a scene; where the window is too small for its letters, it scrolls."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent, Qt.WindowType.Window)
        self.picture = ScenePicture()
        self._area = PlainArea(self.picture, sideways=True)
        in_column(self._area, of=self)
        self.resize(USUAL)
        close = QShortcut(QKeySequence(Qt.Key.Key_Escape), self)
        close.activated.connect(self.close)

    def show_scene(self, scene: Scene) -> None:
        """Show a scene, and its title over the window."""
        self.setWindowTitle(scene.title)
        window, least = scene.window, LEAST_SCALE * text_scale()
        self.picture.setMinimumSize(ceil(least * window.width), ceil(least * window.height))
        self.picture.show_scene(scene)
