"""A scene as large as its letters allow: nothing of them is cut off.

Letters keep their size while a drawing shrinks, so that the part of the paper
they need grows.  A scene's own window cannot know that.
"""

from __future__ import annotations

from typing import Any, Final

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QRectF

from app.drawing.marks import Area, Dot, Label, Line, Mark, Scene, Span
from app.drawing.styles import Style, book
from app.drawing.theme import Theme
from app.qt.painting.lettering import text_width
from app.qt.painting.painting import LEVEL
from app.qt.painting.scene_picture import ScenePicture, letters_in
from app.qt.painting.viewport import Viewport, fitted
from app.qt.themes import current_theme

LARGEST: Final = 4.0
"""Logical px to the mm beyond which no drawing grows."""
_ROUNDS: Final = 18
"""Halvings in which the scale is found: to a hundred thousandth of the largest."""


class SnugPicture(ScenePicture):
    """Shows a scene with all its letters inside."""

    def fit(self, scene: Scene, area: QRectF) -> Viewport:
        """Where the scene stands."""
        return snug(scene, area, current_theme(), letters_in(area))


def snug(scene: Scene, area: QRectF, theme: Theme, letters: float = 1.0) -> Viewport:
    """The largest fit that shows every mark with its letters, in the middle of an area.

    Where not even the letters have room, the scene's own window is shown.

    Args:
        scene: to be shown.
        area: in which it is (logical px).
        theme: in which it is painted.
        letters: how much larger than usual they are written.
    """
    boxes = boxes_of(scene, theme) * np.array([1.0, 1.0, *4 * [letters]])
    low, high = 0.0, LARGEST
    for _ in range(_ROUNDS):
        scale = 0.5 * (low + high)
        left, top, right, bottom = _extent(boxes, scale)
        fits = right - left <= area.width() and bottom - top <= area.height()
        low, high = (scale, high) if fits else (low, scale)
    if low == 0.0:
        return fitted(scene.window, area)
    left, top, right, bottom = _extent(boxes, low)
    centre = area.center()
    x, y = centre.x() - 0.5 * (left + right), centre.y() - 0.5 * (top + bottom)
    return Viewport(low, x, y, area.left(), area.right())


def boxes_of(scene: Scene, theme: Theme) -> NDArray[Any]:
    """What each mark needs: a point of the paper, and px to its left, right, top and bottom.

    Returns:
        Rows of x and y (mm), and the px beyond that point, shape (n, 6).
    """
    styles = book(theme)
    return np.array([row for mark in scene.marks for row in _rows(mark, styles[mark.role])])


def _rows(mark: Mark, look: Style) -> list[tuple[float, ...]]:
    if isinstance(mark, Line | Area):
        pen = 0.5 * look.width
        return [(x, y, pen, pen, pen, pen) for x, y in mark.points]
    if isinstance(mark, Dot):
        reach = mark.radius + look.width
        return [(*mark.at, reach, reach, reach, reach)]
    if isinstance(mark, Span):
        return _span_rows(mark, look)
    if isinstance(mark, Label):
        return [_label_row(mark, look)]
    return []


def _span_rows(mark: Span, look: Style) -> list[tuple[float, ...]]:
    """Both ends, with room for the line's level and for a figure that stands beyond the end."""
    out = LEVEL * mark.level
    right, up = out * mark.out[0], out * mark.out[1]
    room = 0.5 * look.size + text_width(mark.text, look.size, look.weight)
    across = look.size + 6.0
    # Along the line a short dimension writes beyond its end; across it there is a line of type.
    upright = abs(mark.end[0] - mark.start[0]) < abs(mark.end[1] - mark.start[1])
    wide, high = (across, room + 18.0) if upright else (0.0, across)
    return [
        (*p, max(wide - right, 0.0), max(right, 0.0), max(up + high, 0.0), max(5.0 - up, 0.0))
        for p in (mark.start, mark.end)
    ]


def _label_row(mark: Label, look: Style) -> tuple[float, ...]:
    width, (right, down) = text_width(mark.text, look.size, look.weight), mark.shift
    before = {-1: width, 0: 0.5 * width, 1: 0.0}[mark.align]
    half = 0.6 * look.size
    return (*mark.at, before - right, width - before + right, half - down, half + down)


def _extent(boxes: NDArray[Any], scale: float) -> tuple[float, float, float, float]:
    """Left, top, right and bottom (px) of everything at a scale, from the paper's origin."""
    x, y = scale * boxes[:, 0], -scale * boxes[:, 1]
    left, right, above, below = boxes[:, 2:].T
    first_x, first_y, last_x, last_y = x - left, y - above, x + right, y + below
    return first_x.min(), first_y.min(), last_x.max(), last_y.max()
