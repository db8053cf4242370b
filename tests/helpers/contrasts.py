"""Contrast as it is rendered: from the pixels of a widget, not from what was asked for."""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np
from looking import written
from numpy.typing import NDArray
from PySide6.QtCore import QPoint, QRect, QRectF
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QAbstractButton, QComboBox, QLabel, QLineEdit, QWidget

Pixels = NDArray[Any]


class Seen(NamedTuple):
    """How well something stands out."""

    contrast: float
    what: str


def pixels(widget: QWidget, part: QRect | None = None) -> Pixels:
    """A widget as it is shown, shape (height, width, 3), red, green and blue from 0 to 255."""
    grabbed = widget.grab(part or widget.rect()).toImage()
    image = grabbed.convertToFormat(QImage.Format.Format_RGB888)
    flat = np.frombuffer(image.constBits(), np.uint8)
    rows = flat.reshape(image.height(), image.bytesPerLine())
    return rows[:, : 3 * image.width()].reshape(image.height(), image.width(), 3).copy()


def luminances(colours: Pixels) -> Pixels:
    """Relative luminance as WCAG 2.1 defines it (w3.org/TR/WCAG21, "relative luminance")."""
    parts = colours / 255.0
    linear = np.where(parts <= 0.04045, parts / 12.92, ((parts + 0.055) / 1.055) ** 2.4)
    return np.asarray(linear @ np.array([0.2126, 0.7152, 0.0722]))


def contrast_of(area: Pixels) -> float:
    """The best contrast of any pixel in an area with the ground, which most of it shows.

    1.0 for an area of one colour.
    """
    if area.size == 0:
        return 1.0
    flat = area.reshape(-1, 3)
    codes = flat.astype(np.int64) @ np.array([65536, 256, 1])
    _values, first, counts = np.unique(codes, return_index=True, return_counts=True)
    ground = luminances(flat[first[np.argmax(counts)]])
    lights = luminances(flat[first])
    high, low = np.maximum(lights, ground), np.minimum(lights, ground)
    return float(((high + 0.05) / (low + 0.05)).max())


def _at(root: QWidget, widget: QWidget, area: QRect) -> QRect:
    """An area of a widget in the pixels of the window, as far as it can be seen."""
    seen = widget.visibleRegion().boundingRect().intersected(area)
    return seen.translated(widget.mapTo(root, QPoint(0, 0)))


def _cropped(all_pixels: Pixels, area: QRect) -> Pixels:
    x, y = max(area.x(), 0), max(area.y(), 0)
    return all_pixels[y : area.y() + area.height(), x : area.x() + area.width()]


def words_seen(root: QWidget) -> list[Seen]:
    """How well the words of all that is enabled and can be seen stand out."""
    found = []
    with written() as painted:
        all_pixels = pixels(root)
    for each in root.findChildren(QWidget):
        kinds = QLabel | QAbstractButton | QComboBox | QLineEdit
        if not isinstance(each, kinds) or not each.isVisible() or not each.isEnabled():
            continue
        words = each.currentText() if isinstance(each, QComboBox) else each.text()
        area = _at(root, each, each.rect().adjusted(3, 3, -3, -3))
        if _lettered(words) and min(area.width(), area.height()) >= 8:
            found.append(Seen(contrast_of(_cropped(all_pixels, area)), words))
    for text in painted:
        if not _lettered(text.text) or not text.widget.isVisible() or not text.widget.isEnabled():
            continue
        room = QRectF(*text.room).toAlignedRect()
        area = _at(root, text.widget, room)
        if area.size() == room.size() and area.height() >= 6:
            found.append(Seen(contrast_of(_cropped(all_pixels, area)), text.text))
    return found


def _lettered(words: str) -> bool:
    """Whether it is more than a sign, which is thinner than letters are."""
    return any(map(str.isalnum, words))


def edge_seen(root: QWidget, widget: QWidget) -> float:
    """How well the edge of a widget stands out from what is around it."""
    area = _at(root, widget, widget.rect())
    around = _cropped(pixels(root), area.adjusted(-2, -2, 2, 2))
    middle = around.shape[0] // 2
    # Across its left edge: the ground, the edge, what is within.
    line = around[middle - 2 : middle + 2, :5]
    ground = luminances(line[:, 0].reshape(-1, 3)).mean()
    lights = luminances(line.reshape(-1, 3))
    high, low = np.maximum(lights, ground), np.minimum(lights, ground)
    return float(((high + 0.05) / (low + 0.05)).max())
