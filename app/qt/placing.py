"""Where a window opens: where it was closed, on a screen that exists now."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final, NamedTuple

from app.files.settings import WindowPlace

TITLE_BAR: Final = 32
"""Room above a window for its title bar (logical px); thicker ones are rare."""


class Area(NamedTuple):
    """What a screen has free for windows, in logical pixels of the desktop."""

    x: int
    y: int
    width: int
    height: int


def placed(place: WindowPlace, areas: Sequence[Area]) -> WindowPlace:
    """The place moved, and made smaller where it must be, to lie on one screen whole.

    The screen that shows most of it keeps it; where none shows any, the first
    one gets it.

    Raises:
        ValueError: there is no screen.
    """
    if not areas:
        raise ValueError("there is no screen to place a window on")
    area = max(areas, key=lambda each: _shared(place, each))
    width = min(place.width, area.width)
    height = min(place.height, area.height - TITLE_BAR)
    return replace(
        place,
        x=_within(place.x, area.x, area.x + area.width - width),
        y=_within(place.y, area.y + TITLE_BAR, area.y + area.height - height),
        width=width,
        height=height,
    )


def _shared(place: WindowPlace, area: Area) -> int:
    """Square pixels of a place that a screen shows."""
    wide = min(place.x + place.width, area.x + area.width) - max(place.x, area.x)
    high = min(place.y + place.height, area.y + area.height) - max(place.y, area.y)
    return max(wide, 0) * max(high, 0)


def _within(value: int, low: int, high: int) -> int:
    return min(max(value, low), high)
