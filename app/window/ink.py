"""What a coach points with: a light that follows the pointer, and strokes that fade."""

from __future__ import annotations

from time import monotonic
from typing import Final, NamedTuple

from PySide6.QtCore import QEvent, QObject, QPointF, Qt, QTimer
from PySide6.QtGui import QColor, QMouseEvent, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from app.qt.themes import current_theme

LIGHT, PEN = "light", "pen"
RADIUS: Final = 11.0
"""Of the light (logical px)."""
WIDTH: Final = 5.0
"""Of a stroke (logical px)."""
STAYS_S: Final = 4.0
FADES_S: Final = 1.5
"""How long a stroke stands, and how long it takes to go then (seconds)."""
_STEP_MS: Final = 40


class Stroke(NamedTuple):
    """A line drawn by hand, and when it was finished."""

    points: list[QPointF]
    finished: float


class Ink(QWidget):
    """Lies over the drawings; with the light it lets the mouse through, with the pen it draws.

    Args:
        over: the widget that it covers.

    Attributes:
        tool: :data:`LIGHT`, :data:`PEN`, or "" for none.
        strokes: that have not faded yet.
    """

    def __init__(self, over: QWidget) -> None:
        super().__init__(over)
        self._over = over
        self.tool = ""
        self.strokes: list[Stroke] = []
        self._drawn: list[QPointF] | None = None
        self._at: QPointF | None = None
        self._fading = QTimer(self, interval=_STEP_MS)
        self._fading.timeout.connect(self._fade)
        self.setMouseTracking(True)
        over.installEventFilter(self)
        self.hide()

    def take(self, tool: str) -> None:
        """Take a tool in hand, or put it away where it is the one in hand."""
        self.tool = "" if tool == self.tool else tool
        self._at = self._drawn = None
        through = self.tool != PEN
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents, through)
        self.setCursor(Qt.CursorShape.CrossCursor)
        if not self.tool:
            self.strokes.clear()
            self._fading.stop()
        self.setGeometry(self._over.rect())
        self.setVisible(bool(self.tool))
        self.raise_()
        self.update()

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        """Begin a stroke."""
        if event.button() == Qt.MouseButton.LeftButton:
            self._drawn = [event.position()]
            self.update()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        """Go on with it."""
        if self._drawn is not None:
            self._drawn.append(event.position())
            self.update()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        """End it; from now on it fades."""
        if event.button() == Qt.MouseButton.LeftButton and self._drawn is not None:
            self.strokes.append(Stroke(self._drawn, monotonic()))
            self._drawn = None
            self._fading.start()
            self.update()

    def _fade(self) -> None:
        now = monotonic()
        self.strokes = [s for s in self.strokes if strength(s, now) > 0.0]
        if not self.strokes:
            self._fading.stop()
        self.update()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802
        """Cover what lies under it, and follow the pointer there."""
        if watched is self._over and self.tool:
            if event.type() == QEvent.Type.Resize:
                self.setGeometry(self._over.rect())
            elif event.type() == QEvent.Type.MouseMove and isinstance(event, QMouseEvent):
                self._at = event.position()
                self.update()
            elif event.type() == QEvent.Type.Leave:
                self._at = None
                self.update()
        return False

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802
        """The strokes, the fresh ones strongest, and the light with its rim."""
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            now = monotonic()
            for stroke in self.strokes:
                _paint_stroke(painter, stroke.points, strength(stroke, now))
            if self._drawn:
                _paint_stroke(painter, self._drawn, 1.0)
            if self.tool == LIGHT and self._at is not None:
                colour = QColor(current_theme().accent)
                painter.setPen(QPen(QColor(current_theme().paper), 2.0))
                painter.setBrush(colour)
                painter.drawEllipse(self._at, RADIUS, RADIUS)


def strength(stroke: Stroke, now: float) -> float:
    """How strongly a stroke is seen at a moment, from 1 down to 0."""
    left = stroke.finished + STAYS_S + FADES_S - now
    return min(max(left / FADES_S, 0.0), 1.0)


def _paint_stroke(painter: QPainter, points: list[QPointF], strong: float) -> None:
    colour = QColor(current_theme().accent)
    colour.setAlphaF(strong)
    pen = QPen(colour, WIDTH)
    pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    painter.setPen(pen)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    if len(points) == 1:
        painter.drawPoint(points[0])
    else:
        painter.drawPolyline(QPolygonF(points))
