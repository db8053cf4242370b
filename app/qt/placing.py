"""Where a window opens: where it was closed, on a screen that exists now."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from PySide6.QtCore import QRect

from app.files.settings import WindowPlace

TITLE_BAR: Final = 32
"""Room above a window for its title bar (logical px); thicker ones are rare."""


def placed(place: WindowPlace, areas: Sequence[QRect]) -> WindowPlace:
    """The place moved, and made smaller where it must be, to lie on one screen whole.

    The screen that shows most of it keeps it; where none shows any, the first
    one gets it.

    Args:
        place: where the window was closed.
        areas: what each screen has free for windows, in logical pixels of the desktop.

    Raises:
        ValueError: there is no screen.
    """
    if not areas:
        raise ValueError("there is no screen to place a window on")
    window = QRect(place.x, place.y, place.width, place.height)
    free = max(areas, key=lambda each: _shown(each, window)).adjusted(0, TITLE_BAR, 0, 0)
    window.setSize(window.size().boundedTo(free.size()))
    x = min(max(window.x(), free.x()), free.x() + free.width() - window.width())
    y = min(max(window.y(), free.y()), free.y() + free.height() - window.height())
    return WindowPlace(x, y, window.width(), window.height(), maximised=place.maximised)


def _shown(area: QRect, window: QRect) -> tuple[int, bool]:
    """How much of a window a screen shows, and whether its title as well."""
    whole = area.adjusted(0, TITLE_BAR, 0, 0).contains(window)
    return _pixels(area.intersected(window)), whole


def _pixels(area: QRect) -> int:
    return area.width() * area.height()
