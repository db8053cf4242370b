"""A frameless area that gives what is in it its width, and scrolls what has no height."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QScrollArea, QWidget


class PlainArea(QScrollArea):
    """Scrolls what has no room; the arrow keys do where it has the keyboard.

    Args:
        inside: what is scrolled; None for what is put in later.
        name: for assistive programs.
        sideways: whether it scrolls sideways too, rather than making do with the width.
        keys: whether the keyboard comes to it.
    """

    def __init__(
        self,
        inside: QWidget | None = None,
        name: str = "",
        *,
        sideways: bool = False,
        keys: bool = True,
    ) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setWidgetResizable(True)
        if not sideways:
            self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        if not keys:
            self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        if inside is not None:
            self.setWidget(inside)
