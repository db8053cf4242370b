"""Where a scene in mm stands on a paint device in logical pixels."""

from __future__ import annotations

from collections.abc import Sequence
from ctypes import addressof, c_double, sizeof
from functools import cache
from typing import Final, NamedTuple, cast

from PySide6.QtCore import QLineF, QPointF, QRectF
from PySide6.QtGui import QPolygonF
from shiboken6 import Shiboken

from app.drawing.marks import Point, Window

_shared: Final[dict[int, tuple[QPolygonF, memoryview[float]]]] = {}


def _shared_polygon(count: int) -> tuple[QPolygonF, memoryview[float]]:
    """A polygon of so many corners, and its numbers: x, y, x, y and so on."""
    made = QPolygonF()
    made.resize(count)
    (address,) = Shiboken.getCppPointer(cast(Shiboken.Object, made.data()))
    # A corner is two doubles, wherever Qt was not built for machines without them.
    numbers = memoryview((c_double * (2 * count)).from_address(address)).cast("B").cast("d")
    _shared[count] = made, numbers
    return _shared[count]


def corners(*numbers: float) -> QPolygonF:
    """A polygon of corners in logical pixels, x, y, x, y and so on.

    Paint it before asking for the next one of as many: see :meth:`Viewport.polygon`.
    """
    count = len(numbers) // 2
    shared, memory = _shared.get(count) or _shared_polygon(count)
    for i, number in enumerate(numbers):
        memory[i] = number
    return shared


class _Sides:
    """The sides of the polygons of some number of corners, in memory of their own."""

    def __init__(self, count: int, *, closed: bool) -> None:
        _, corner = _shared.get(count) or _shared_polygon(count)
        most, pieces = count - 1, count if closed else count - 1
        self._memory = (c_double * (4 * pieces))()
        start = addressof(self._memory)
        # Python's own objects for that memory, made once: Qt is given them again and again.
        self._lines = [
            cast(QLineF, Shiboken.wrapInstance(start + 4 * sizeof(c_double) * i, QLineF))
            for i in range(pieces)
        ]
        side = memoryview(self._memory).cast("B").cast("d")
        self._copied = [
            (side[0::4], corner[0 : 2 * pieces : 2]),
            (side[1::4], corner[1 : 2 * pieces : 2]),
            (side[2 : 4 * most : 4], corner[2::2]),
            (side[3 : 4 * most : 4], corner[3::2]),
        ]
        if closed:
            self._copied.append((side[-2:], corner[:2]))

    def lines(self) -> list[QLineF]:
        """The sides of the polygon that was asked for last."""
        for theirs, ours in self._copied:
            theirs[:] = ours
        return self._lines


@cache
def _sides(count: int, closed: bool) -> _Sides:
    return _Sides(count, closed=closed)


def sides(count: int, *, closed: bool) -> list[QLineF]:
    """The sides of the polygon of so many corners that was asked for last, each by itself.

    Paint them before asking for the next ones: they share their memory as polygons do.
    """
    return _sides(count, closed).lines()


class Viewport(NamedTuple):
    """Where a scene stands: paper mm to logical pixels, and the band over it.

    The band for call-outs reaches from ``left`` to ``right`` and begins at ``top``.
    """

    scale: float
    x: float
    y: float
    left: float
    right: float
    top: float = 0.0

    def xy(self, p: Point) -> Point:
        """A point of the paper, in logical pixels, as two numbers."""
        return self.x + self.scale * p[0], self.y - self.scale * p[1]

    def point(self, p: Point) -> QPointF:
        """A point of the paper, in logical pixels."""
        return QPointF(*self.xy(p))

    def polygon(self, points: Sequence[Point]) -> QPolygonF:
        """Points of the paper, in logical pixels; paint it before asking for the next one.

        Polygons of the same number of corners share their memory: making one point
        after the other takes seven times as long, and a drawing has hundreds.
        """
        if not points:
            return QPolygonF()
        scale, x, y = self.scale, self.x, self.y
        shared, numbers = _shared.get(len(points)) or _shared_polygon(len(points))
        i = 0
        for across, up in points:
            numbers[i] = x + scale * across
            numbers[i + 1] = y - scale * up
            i += 2
        return shared

    def back(self, x: float, y: float) -> Point:
        """The point of the paper under a pixel."""
        return (x - self.x) / self.scale, (self.y - y) / self.scale


def fitted(window: Window, area: QRectF, largest: float = 10.0) -> Viewport:
    """The fit that shows a whole window in the middle of an area."""
    # Words round a low area may leave less than nothing of it.
    high, wide = max(area.height(), 1.0), max(area.width(), 1.0)
    scale = min(wide / window.width, high / window.height, largest)
    centre = area.center()
    return Viewport(
        scale,
        centre.x() - scale * 0.5 * (window.left + window.right),
        centre.y() + scale * 0.5 * (window.bottom + window.top),
        area.left(),
        area.right(),
    )
