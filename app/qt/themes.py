"""The theme in force: asked by what paints, told to what keeps colours of its own.

There is one for the whole program.  A widget that only paints asks for it in its
paint event and needs nothing else: Qt repaints everything when the application is
dressed anew.  A label takes a role of the palette (:mod:`app.qt.painting.palette`).
What holds brushes, pens or coloured words follows the theme.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QApplication

from app.drawing.theme import LIGHT, Theme
from app.qt.painting.palette import dress


class _InForce(QObject):
    """Holds the theme, and tells of another one."""

    changed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.theme = LIGHT


_IN_FORCE: Final = _InForce()


def current_theme() -> Theme:
    """The colours of everything on the screen."""
    return _IN_FORCE.theme


def set_theme(theme: Theme) -> None:
    """Put a theme in force: dress the application, then tell those who follow the theme."""
    _IN_FORCE.theme = theme
    app = QApplication.instance()
    if isinstance(app, QApplication):
        dress(app, theme)
    _IN_FORCE.changed.emit()


def follow_theme(recolour: Callable[[], object]) -> None:
    """Call a method of a widget now, and after each change of the theme while the widget lives.

    It must be a bound method: Qt forgets it with its widget, and would keep a function for good.
    """
    recolour()
    _IN_FORCE.changed.connect(recolour)
