"""The stance map as a picture that takes hold of its dot."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final, NamedTuple

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QEvent, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent

from app.drawing.marks import Window
from app.features.map.labels import Box, Wanted, placed
from app.features.map.lines import MapLines
from app.features.map.painting import GRIP, Dot, Ground, Scale, Word, straight_of
from app.features.map.place import MapPlace
from app.features.map.words import INSERTS, MARGIN_ERRORS, NO_CANT, STRAIGHT_LEGS, line_word
from app.qt.controls.plot import MovedPlot
from app.qt.controls.steps import rate_with
from app.qt.painting.lettering import text_width
from app.qt.painting.palette import SMALL_PX
from app.qt.sizes import px
from app.qt.themes import follow_theme
from app.words.language import tr
from app.words.units import fixed

LABEL_HEIGHT: Final = 15.0
SPINE: Final = 0.22
"""Where across the map the labels stand under each other, as a share of its width."""


class _Label(NamedTuple):
    """Words for a line, in angles and ratios."""

    text: str
    pieces: Sequence[NDArray[Any]]
    strong: bool = False
    beside: bool = False


class MapPlot(MovedPlot):
    """Shows the map, and says where its dot is dragged or nudged to."""

    moved = Signal(float, float, float)
    """The angle (deg) and the ratio wanted, and the step: 1, fine 0.1 or coarse 5."""
    nudged = Signal(float, float)
    """By how many steps across and upward."""

    def __init__(self) -> None:
        super().__init__({"bottom": tr("Binding angle"), "left": tr("Length ÷ natural spacing")})
        self._hold = QPointF()
        self._place: MapPlace | None = None
        self._extent = Window(0.0, 0.0, 1.0, 1.0)
        self._ground = Ground(self._box)
        self._dot = Dot(self._box)
        self._box.sigResized.connect(self._scale_anew)
        self.getAxis("left").setWidth(px(52))
        self.getAxis("bottom").setHeight(px(40))
        self.setMinimumSize(px(300), px(160))
        follow_theme(self._recolour)

    # Showing

    def show_extent(self, extent: Window) -> None:
        """Change which part of the map is shown."""
        if extent == self._extent:
            return
        self._extent = extent
        across, upward = (extent.left, extent.right), (extent.bottom, extent.top)
        self._show_range(across, upward)
        angles, ratios = marks(*across, (15, 30)), marks(*upward, (0.2, 0.5, 1.0, 2.0))
        self._show_ticks(
            bottom=[(angle, f"{angle}°".replace("-", "−")) for angle in angles],
            left=[(ratio, fixed(ratio, 1)) for ratio in ratios],
        )
        self._scale_anew()

    def show_lines(self, lines: MapLines | None) -> None:
        """Draw other lines."""
        self._ground.lines = lines
        self.set_stale(False)
        self.place_words()

    def show_inserts(self, ratios: tuple[float, float]) -> None:
        """Show which stance lengths over the neutral spacing the inserts allow."""
        if ratios != self._ground.inserts:
            self._ground.inserts = ratios
            self.place_words()

    def set_stale(self, stale: bool) -> None:
        """Show that the lines are those of a moment ago."""
        self._ground.setOpacity(0.45 if stale else 1.0)

    def show_place(self, place: MapPlace) -> None:
        """Move the dot."""
        self._place = place
        scale = self._ground.scale
        self._dot.setPos(scale.point(place.angle_deg, place.ratio))
        corner = scale.point(
            self._extent.left + MARGIN_ERRORS * place.angle_error_deg,
            self._extent.top - MARGIN_ERRORS * place.ratio_error,
        )
        self._dot.show_margin(corner.x(), corner.y())

    def _recolour(self) -> None:
        super()._recolour()
        self._ground.update()
        self._dot.update()

    def _scale_anew(self) -> None:
        size = self._box.rect()
        self._ground.prepareGeometryChange()
        self._ground.scale = Scale(self._extent, max(size.width(), 1.0), max(size.height(), 1.0))
        self.place_words()
        if self._place is not None:
            self.show_place(self._place)

    def clear_words(self) -> None:
        """Write the labels anew where the dot has come upon one of them."""
        for left, top, right, bottom in self._taken():
            dot = QRectF(QPointF(left, top), QPointF(right, bottom))
            if any(dot.intersects(word.area) for word in self._ground.words):
                self.place_words()

    def place_words(self) -> None:
        """Write the labels, clear of each other and of the dot where it is now.

        Where there is no room a line stays without.
        """
        ground = self._ground
        labels = self._labels()
        width, height = ground.scale.width, ground.scale.height
        within = Box(2.0, 2.0, width - 2.0, height - 2.0)
        wanted = [self._wanted(label) for label in labels]
        boxes = placed(wanted, px(LABEL_HEIGHT), within, self._taken(), SPINE * width)
        ground.words = [
            Word(box, label.text, label.strong)
            for box, label in zip(boxes, labels, strict=True)
            if box
        ]
        ground.update()

    def _labels(self) -> list[_Label]:
        """What is to be written, the most important first."""
        lines = self._ground.lines
        if lines is None:
            return []
        zero = [piece for line in lines.levels if not line.cant_deg for piece in line.pieces]
        right, bottom, top = self._extent.right, self._extent.bottom, self._extent.top
        middle = 0.5 * sum(min(max(ratio, bottom), top) for ratio in self._ground.inserts)
        inserts = np.array([[right - 9.0, middle], [right - 6.0, middle]])
        return [
            _Label(tr(NO_CANT), zero, strong=True, beside=True),
            _Label(tr(STRAIGHT_LEGS), [straight_of(lines)], strong=True, beside=True),
            *([_Label(tr(INSERTS), [inserts], strong=True)] if self._shows_inserts() else []),
            *(
                _Label(line_word(line.cant_deg), line.pieces)
                for line in lines.levels
                if line.cant_deg
            ),
        ]

    def _shows_inserts(self) -> bool:
        """Whether any stance length that the inserts allow lies on the map."""
        least, largest = self._ground.inserts
        return max(least, self._extent.bottom) < min(largest, self._extent.top)

    def _wanted(self, label: _Label) -> Wanted:
        shown = [self._ground.scale.points(piece) for piece in label.pieces]
        return Wanted(shown, text_width(label.text, px(SMALL_PX), 400), label.beside)

    def _taken(self) -> list[Box]:
        """Where the dot is."""
        if self._place is None:
            return []
        at, (across, upward) = self._dot.pos(), self._dot.margin
        across, upward = max(across, GRIP), max(upward, GRIP)
        return [Box(at.x() - across, at.y() - upward, at.x() + across, at.y() + upward)]

    # Hands

    def _at(self, event: QMouseEvent) -> QPointF:
        at: QPointF = self._box.mapFromScene(self.mapToScene(event.position().toPoint()))
        return at

    def _over_dot(self, at: QPointF) -> bool:
        away = at - self._dot.pos()
        return bool(np.hypot(away.x(), away.y()) <= GRIP)

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        at = self._at(event)
        if event.button() == Qt.MouseButton.LeftButton and self._over_dot(at):
            self.held, self._hold = True, at - self._dot.pos()
            self._show_hand()
            self.drag_began.emit()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        at = self._at(event)
        if not self.held:
            self._dot.hovered = self._over_dot(at)
            self._show_hand()
            return
        wanted = self._box.mapToView(at - self._hold)
        left, bottom, right, top = self._extent
        angle, ratio = min(max(wanted.x(), left), right), min(max(wanted.y(), bottom), top)
        self.moved.emit(angle, ratio, rate_with(event.modifiers()))

    def leaveEvent(self, event: QEvent) -> None:  # noqa: N802
        super().leaveEvent(event)
        self._dot.hovered = False
        self._show_hand()

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        across = {Qt.Key.Key_Left: -1.0, Qt.Key.Key_Right: 1.0}
        upward = {Qt.Key.Key_Up: 1.0, Qt.Key.Key_Down: -1.0}
        upward |= {Qt.Key.Key_PageUp: 5.0, Qt.Key.Key_PageDown: -5.0}
        key, step = Qt.Key(event.key()), rate_with(event.modifiers())
        if key in across or key in upward:
            self.nudged.emit(across.get(key, 0.0) * step, upward.get(key, 0.0) * step)
        else:
            event.ignore()

    def _show_hand(self) -> None:
        self._dot.held, self._dot.focused = self.held, self.hasFocus()
        self._dot.update()
        if self._dot.held:
            self.setCursor(Qt.CursorShape.ClosedHandCursor)
        elif self._dot.hovered:
            self.setCursor(Qt.CursorShape.OpenHandCursor)
        else:
            self.unsetCursor()


def marks(low: float, high: float, steps: Sequence[float], most: int = 11) -> list[float]:
    """Round numbers from low to high, no more than ``most`` where a step allows it."""
    for step in steps:
        first, last = int(np.ceil(low / step - 1e-9)), int(np.floor(high / step + 1e-9))
        if last - first < most:
            break
    return [round(step * i, 6) for i in range(first, last + 1)]
