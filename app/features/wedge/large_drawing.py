"""A drawing in a window of its own, as large as its letters ask for."""

from __future__ import annotations

from math import ceil
from typing import Final

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QFrame, QScrollArea, QVBoxLayout, QWidget

from app.drawing.marks import Scene
from app.qt.painting.scene_picture import ScenePicture

USUAL: Final = QSize(1000, 740)
LEAST_SCALE: Final = 1.9
"""Logical px to the mm from which on the letters of a drawing stay apart."""


class LargeDrawing(QWidget):
    """Shows a scene; where the window is too small for its letters, it scrolls."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent, Qt.WindowType.Window)
        self.picture = ScenePicture()
        self._area = QScrollArea()
        self._area.setFrameShape(QFrame.Shape.NoFrame)
        self._area.setWidgetResizable(True)
        self._area.setWidget(self.picture)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self._area)
        self.resize(USUAL)
        close = QShortcut(QKeySequence(Qt.Key.Key_Escape), self)
        close.activated.connect(self.close)

    def show_scene(self, scene: Scene) -> None:
        """Show a scene, and its title over the window."""
        self.setWindowTitle(scene.title)
        window = scene.window
        self.picture.setMinimumSize(
            ceil(LEAST_SCALE * window.width), ceil(LEAST_SCALE * window.height)
        )
        self.picture.show_scene(scene)
