"""The sheet: all views and findings in one painting, live on the screen."""

from __future__ import annotations

from math import sqrt

from PySide6.QtCore import (
    QEasingCurve,
    QEvent,
    QPointF,
    QRectF,
    QSize,
    Qt,
    QVariantAnimation,
    Signal,
)
from PySide6.QtGui import (
    QAccessibleInterface,
    QColor,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.drawing.marks import Window
from app.frame import Frame
from app.handles import Grip, dragged, grip_at, marks_moved, nudged
from app.qt.controls.steps import rate_with
from app.qt.motion import moves
from app.qt.painting.easel import Easel
from app.qt.painting.findings_painting import COMPACT, HEIGHT, PRESENTED, asked_at
from app.qt.painting.sheet_layout import between, grown, seen_of, windows_of
from app.qt.painting.sheet_painting import (
    PLAYER,
    Placing,
    paint_focus,
    paint_notice,
    paint_sheet,
    placed,
)
from app.qt.painting.viewport import Viewport
from app.qt.sizes import stacked, text_scale
from app.qt.themes import current_theme
from app.rider.inputs import FIELD
from app.stance.topics import KNEE, Asked

LARGER = 1.6
"""How much larger everything but the legs is drawn for those who sit far off."""
ROOMY = 400.0
"""Height of a sheet (logical px) from which on there is room for that."""
USUAL = QSize(960, 750)
"""Sheet on which type has its nominal size (logical px)."""
LARGEST = 1.6
"""Type on the sheet, from which on titles would reach into the drawings."""
LEAST = QSize(700, 500)
"""Sheet that type of its nominal size needs, and larger type more of (logical px)."""
LEAST_STACKED = 180
"""Least height where letters are so large that all else needs the room (logical px)."""
GRIP_SLACK = 12.0
"""How far beside a sole a press still takes hold of it (logical px)."""
COARSE_MM = 25.0
"""How far a foot is moved by the keys for a page."""
LEAST_GRIP = 24.0
"""How large what can be taken hold of is at least (logical px)."""
GLIDE_MS = 220
"""How long a drawing that a drag held at its scale takes to come to the one at rest."""


class Sheet(QWidget):
    """Shows a frame, and lets the feet in its plan be dragged and turned.

    It keeps no inputs of its own: what the pointer or the keys ask for leaves
    as a signal, and what is drawn comes back as a frame.
    """

    drag_began = Signal()
    drag_ended = Signal()
    asked = Signal(dict)
    """Changes of inputs, by name."""
    pointed = Signal(str)
    """The input that a press under the pointer would take hold of; empty when none."""
    why_asked = Signal(object)
    """The reasons of a number are wanted: an :class:`~app.stance.topics.Asked`."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._frame: Frame | None = None
        self._windows: dict[str, Window] = {}
        self._placing: Placing | None = None
        self._lit: frozenset[str] = frozenset()
        self._presented = False
        self._compact = False
        self._playing = False
        self.problem = ""
        self._grip: Grip | None = None
        self._held: Viewport | None = None
        self._was_dragged = False
        self._glide = QVariantAnimation(self, startValue=0.0, endValue=1.0, duration=GLIDE_MS)
        self._glide.setEasingCurve(QEasingCurve.Type.InOutCubic)
        self._glide.valueChanged.connect(self._go_on)
        self._way: tuple[dict[str, Window], dict[str, Window]] = ({}, {})
        self._by_keys = False
        self._hovered = self._moves = ""
        self._selected = ""
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumSize(QSize(600, LEAST_STACKED if stacked() else 288))
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(self.tr("Drawings"))

    def show_frame(self, frame: Frame, *, dragging: bool = False) -> None:
        """Show a frame; during a drag the scale stays, or shrinks as far as it must."""
        self._frame, self.problem = frame, ""
        dragging = dragging or self._grip is not None
        if self._grip is not None:
            windows = grown(frame.scenes, self._windows)
        else:
            windows = windows_of(frame.scenes, self._windows, self._seen() if dragging else None)
        released, self._was_dragged = self._was_dragged and not dragging, dragging
        if dragging:
            self._glide.stop()
        if released and windows != self._windows and self.isVisible() and moves():
            self._way = self._windows, windows
            self._glide.start()
        elif self._glide.state() == QVariantAnimation.State.Running:
            self._way = self._way[0], windows
        elif windows != self._windows:
            self._windows = windows
            self._place()
        self.update()

    def _go_on(self, share: float) -> None:
        """Come a share of the way from how a drag left the drawings to how they rest."""
        self._windows = between(*self._way, share)
        self._place()
        self.update()

    def show_problem(self, problem: str) -> None:
        """Say over the last drawing why there is no new one."""
        self.problem = problem
        self.update()

    def set_presented(self, presented: bool) -> None:
        """Draw all for those who sit far off: larger, and with few words under the drawings."""
        self._presented = presented
        self._place()
        self.update()

    def set_compact(self, compact: bool) -> None:
        """Say only the state of each leg under the drawings, where room is needed below."""
        self._compact = compact
        self._place()
        self.update()

    def set_playing(self, playing: bool) -> None:
        """Leave the keys to the player while no foot is selected."""
        if playing != self._playing:
            self._playing = playing
            self.update()

    def spoken_interface(self) -> QAccessibleInterface:
        """As assistive programs see it."""
        from app.qt.accessible.drawing import SpokenDrawing  # noqa: PLC0415

        return SpokenDrawing(self)

    def spoken_values(self) -> list[str]:
        """What the drawings say, view by view and leg by leg, and why."""
        from app.qt.accessible.drawing import sentences_of  # noqa: PLC0415

        if self._frame is None:
            return []
        scenes, legs = self._frame.scenes.values(), self._frame.findings.legs.values()
        said = [piece for scene in scenes for piece in sentences_of(scene.text)]
        for leg in legs:
            said += [*sentences_of(leg.sentence), *leg.flags]
        return [self.problem, *said]

    def light(self, keys: frozenset[str]) -> None:
        """Make the marks with these keys stand out."""
        if keys != self._lit:
            self._lit = keys
            self.update()

    def fit(self, key: str) -> Viewport:
        """How a view lies on the sheet now."""
        if self._placing is None:
            raise RuntimeError("no frame has been shown yet")
        fit, times = self._placing.fits[key], self._magnified()
        return Viewport(*(times * number for number in fit))

    @property
    def cards_top(self) -> int:
        """Where the cards under the drawings begin (logical px)."""
        if self._placing is None:
            return self.height()
        return round(self._placing.layout.findings.top() * self._magnified())

    def _place(self) -> None:
        if self._windows:
            self._placing = placed(
                self._area(), self._windows, self._written(), self._findings_height()
            )

    def _seen(self) -> dict[str, Window]:
        """What of each scene's paper there is room for now."""
        if self._placing is None:
            return {}
        return seen_of(*self._placing, self._written())

    def _findings_height(self) -> float:
        """Of the cards at the usual type: presented over a page, the call-outs say the same."""
        if self._presented:
            return 0.0 if self._compact else PRESENTED
        return COMPACT if self._compact else HEIGHT

    def _magnified(self) -> float:
        """How much larger type, lines and dots are drawn, as far as that leaves room for legs."""
        return min(max(self.height() / ROOMY, 1.0), LARGER) if self._presented else 1.0

    def _area(self) -> QRectF:
        """The sheet before it is magnified (logical px)."""
        times = self._magnified()
        return QRectF(0.0, 0.0, self.width() / times, self.height() / times)

    def _written(self) -> float:
        """How large to write before that: more on a large sheet."""
        if self._presented:  # the same for those far off, whatever room a page leaves
            return LARGER / self._magnified()
        size = self._area().size()
        area = size.width() * size.height() / (USUAL.width() * USUAL.height())
        usual = min(max(sqrt(area), 1.0), 1.3)
        # Larger letters as far as they leave room for legs.
        most = min(size.width() / LEAST.width(), size.height() / LEAST.height(), LARGEST)
        return min(text_scale() * usual, max(usual, most))

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        """Place the views anew."""
        super().resizeEvent(event)
        self._place()

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802
        """Paint the sheet."""
        with QPainter(self) as painter:
            painter.fillRect(event.rect(), QColor(current_theme().paper))
            if self._frame is None or self._placing is None:
                return
            painter.scale(self._magnified(), self._magnified())
            easel = Easel(painter, current_theme(), self._written(), live=True)
            easel.shrinks = not self._presented
            chosen = {name for name in (self._hovered, self._selected) if name}
            lit = self._lit | {f"{name}.sole" for name in chosen}
            lit |= marks_moved(self._frame.setup.inputs, self._moves)
            paint_sheet(easel, self._placing, self._frame, lit, presented=self._presented)
            if self.hasFocus() and self._by_keys:
                plan = self._placing.layout.views["above"]
                keys_for = PLAYER if self._playing and not self._selected else self._selected
                paint_focus(easel, self._area(), plan, keys_for)
            if self.problem:
                paint_notice(easel, self._area(), self.problem)

    def focusInEvent(self, event: QFocusEvent) -> None:  # noqa: N802
        """Coming by the tab key selects the front foot, so that the keys do something."""
        super().focusInEvent(event)
        by_key = event.reason() in {
            Qt.FocusReason.TabFocusReason,
            Qt.FocusReason.BacktabFocusReason,
        }
        self._by_keys = by_key
        if by_key and not self._selected:
            self._select("front")
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:  # noqa: N802
        """Leaving lets go of the foot."""
        super().focusOutEvent(event)
        self._select("")
        self.update()

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        """Take hold of a foot."""
        if event.button() != Qt.MouseButton.LeftButton:
            return
        self._by_keys = False
        asked = self._asked_under(event.position())
        if asked is not None:
            self.why_asked.emit(asked)
            return
        self._glide.stop()
        self._grip = self._grip_under(event.position())
        self._select(self._grip.name if self._grip else "")
        if self._grip:
            self._hover(self._grip)
            # By the scale under the first touch: one that shrinks with what is drawn would let
            # the foot run ahead of the hand.
            self._held = self.fit("above")
            self.drag_began.emit()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        """Drag the foot held, or show what could be held."""
        if self._grip is None or self._held is None:
            self._hover(self._grip_under(event.position()))
            if self._asked_under(event.position()) is not None:
                self.setCursor(Qt.CursorShape.PointingHandCursor)
            return
        at = self._held.back(event.position().x(), event.position().y())
        changes = dragged(self._grip, at, rate_with(event.modifiers()))
        if changes:
            self.asked.emit(changes)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        """Let go."""
        if event.button() == Qt.MouseButton.LeftButton and self._grip is not None:
            self._grip = self._held = None
            self.drag_ended.emit()
            self._hover(self._grip_under(event.position()))

    def leaveEvent(self, event: QEvent) -> None:  # noqa: N802
        """Nothing is pointed at any more."""
        super().leaveEvent(event)
        self._hover(None)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        """Turn and move the selected foot; the space bar selects the next one.

        The keys that make a coarse step on a slider do so here in the stance length, those
        that go to its ends turn the foot to its.
        """
        turns = {Qt.Key.Key_Left: 1.0, Qt.Key.Key_Right: -1.0}
        moves = {Qt.Key.Key_Up: 5.0, Qt.Key.Key_Down: -5.0}
        moves |= {Qt.Key.Key_PageUp: COARSE_MM, Qt.Key.Key_PageDown: -COARSE_MM}
        ends = {Qt.Key.Key_Home: 0, Qt.Key.Key_End: 1}
        key, step = Qt.Key(event.key()), rate_with(event.modifiers())
        if key == Qt.Key.Key_Space and (self._selected or not self._playing):
            self._by_keys = True
            self._select({"": "front", "front": "rear", "rear": ""}[self._selected])
        elif key == Qt.Key.Key_W and not event.modifiers():
            self.why_asked.emit(Asked(self._selected or "front", KNEE))
        elif key == Qt.Key.Key_Escape and self._selected:
            self._select("")
        elif self._frame and self._selected and (key in turns or key in moves):
            turn, move = turns.get(key, 0.0) * step, moves.get(key, 0.0) * step
            hand = self._frame.setup.inputs.hand
            self.asked.emit(nudged(self._frame.setup.inputs, self._selected, hand * turn, move))
        elif self._selected and key in ends:
            name = f"{self._selected}_angle_deg"
            self.asked.emit({name: (FIELD[name].low, FIELD[name].high)[ends[key]]})
        else:
            super().keyPressEvent(event)

    def _select(self, name: str) -> None:
        if name != self._selected:
            self._selected = name
            self.update()

    def _hover(self, grip: Grip | None) -> None:
        name = grip.name if grip else ""
        moves, shape = "", Qt.CursorShape.ArrowCursor
        if grip and grip.turns:
            moves, shape = f"{name}_angle_deg", Qt.CursorShape.PointingHandCursor
        elif grip:
            moves, shape = "stance_length_mm", Qt.CursorShape.SizeVerCursor
        self.setCursor(shape)
        if moves != self._moves:
            self._moves = moves
            self.pointed.emit(moves)
        if name != self._hovered:
            self._hovered = name
            self.update()

    def _asked_under(self, position: QPointF) -> Asked | None:
        """The number on the cards whose reasons a press would ask for."""
        if self._frame is None or self._placing is None:
            return None
        cards, at = self._placing.layout.findings, position / self._magnified()
        return asked_at(cards, at, self._written(), presented=self._presented)

    def _grip_under(self, position: QPointF) -> Grip | None:
        if self._frame is None or self._placing is None:
            return None
        if not self._placing.layout.views["above"].contains(position / self._magnified()):
            return None
        fit = self.fit("above")
        at = fit.back(position.x(), position.y())
        return grip_at(self._frame.setup.inputs, at, GRIP_SLACK / fit.scale, LEAST_GRIP / fit.scale)
