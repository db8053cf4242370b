"""The page that shows both legs through the whole bend and over turned hips, live.

Under the plots stand the mounts that suit the bend best.
"""

from __future__ import annotations

from functools import partial
from math import degrees
from typing import Final

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QButtonGroup, QWidget

from app.features.answer.line import AnswerLine
from app.features.bend.ground import Ground, flex_ground, off_plane_ground
from app.features.bend.model import (
    Bend,
    bend_of,
    bend_words,
    deepest_deg,
    flex_readings,
    flex_span,
    flex_words,
    most_words,
    off_plane_readings,
    off_plane_span,
    widest_turn_deg,
)
from app.features.bend.plot import BendPlot, CurveKey
from app.frame import Frame
from app.qt.accessible.factory import tell_changed
from app.qt.controls.layout import in_column, in_row
from app.qt.controls.switch import Choice, Segment
from app.qt.literal import Label, say_about, show_tip
from app.qt.sizes import px
from app.rider.inputs import FIELD, Inputs
from app.session import Session
from app.stance.findings import USUAL_LIMITS
from app.words.language import msgid, tr

OFF_PLANE: Final = "off_plane"
BOOT_FLEX: Final = "boot_flex"
CHOICES: Final = (
    Choice(
        OFF_PLANE,
        msgid("How far out of its plane"),
        msgid("How far each knee is out of its hinge plane"),
    ),
    Choice(
        BOOT_FLEX,
        msgid("Boot flex"),
        msgid("How far each boot bends, and whether it stays in its range"),
    ),
)
AXES: Final = {
    "knee_bend_deg": msgid("Knee bend"),
    "hips_turned_deg": msgid("to the tail  ←  hips turned  →  to the nose"),
}
"""What runs along each plot, by the input that it moves."""
ROOM_DEG: Final = 1.5
"""At the ends of a plot, for a dot that stands there."""
WIDE: Final = 860
"""From this width on, the worst is said beside the key (px)."""


class BendPage(QWidget):
    """Shows off-plane angle or boot flex; moves through the bend where it is clicked."""

    plays_along = True

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._frame: Frame | None = None
        self._bend: tuple[Inputs, Bend] | None = None
        self._shown = OFF_PLANE
        self._reach: dict[str, tuple[float, float]] = {}
        self._build()

    def _build(self) -> None:
        self.setAccessibleName(self.tr("Through the bend"))
        self._group = QButtonGroup(self)
        self.segments: dict[str, Segment] = {}
        for choice in CHOICES:
            shown = choice._replace(text=tr(choice.text), help=tr(choice.help))
            segment = self.segments[choice.key] = Segment(shown, self)
            segment.setFixedSize(segment.sizeHint())
            segment.clicked.connect(partial(self._choose, choice.key))
            self._group.addButton(segment)
        self.segments[OFF_PLANE].setChecked(True)
        self.key = CurveKey(self.tr("front"), self.tr("rear"), self.tr("now"))
        self.most = Label()
        head = in_row(*self.segments.values(), self.key, 1, self.most, spacing=0)
        head.insertSpacing(len(self.segments), 18)
        self.plots = {name: BendPlot(FIELD[name], self.tr(label)) for name, label in AXES.items()}
        for i, (name, plot) in enumerate(self.plots.items()):
            plot.setAccessibleName(FIELD[name].label)
            show_tip(plot, self.tr("Click or drag to go there; the arrow keys go step by step"))
            plot.read_by(partial(self._readings, i))
            plot.drag_began.connect(self._session.begin_drag)
            plot.drag_ended.connect(self._session.end_drag)
            plot.asked.connect(partial(self._go, name))
        plots = in_row(*((plot, 1) for plot in self.plots.values()), spacing=10)
        self.foot = AnswerLine(self._session)
        in_column(head, (plots, 1), self.foot, of=self, spacing=4, margins=(10, 6, 12, 4))

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        """Say the worst where there is room for it."""
        super().resizeEvent(event)
        self.most.setVisible(self.width() >= px(WIDE))

    # Showing

    def show_frame(self, frame: Frame, *, dragging: bool) -> None:
        """Show the curves of the set-up in hand; in a drag the plots never zoom in."""
        self._frame = frame
        inputs = frame.setup.inputs
        if self._bend is None or self._bend[0] != inputs:
            self._bend = inputs, bend_of(inputs)
        self._show(dragging=dragging)
        self.foot.show_frame(frame, dragging=dragging)

    def _show(self, *, dragging: bool = False) -> None:
        if self._frame is None or self._bend is None:
            return
        inputs, bend = self._bend
        ground = self._ground(inputs, bend, dragging=dragging)
        across = self._across(inputs, dragging=dragging)
        now = self._now(self._frame)
        for (name, plot), curves in zip(self.plots.items(), bend, strict=True):
            plot.show_ground(ground, across[name])
            angles = getattr(curves, self._shown)
            plot.show_curves(curves.x, angles, inputs.value(name), now)
        # In a drag it is that of a moment ago, and paler.
        self.most.setEnabled(not dragging)
        if not dragging:
            flex = self._shown == BOOT_FLEX
            self.most.setText(flex_words(bend) if flex else most_words(inputs, USUAL_LIMITS))
            said = bend_words(bend, inputs, USUAL_LIMITS)
            for plot in self.plots.values():
                say_about(plot, said)
                tell_changed(plot)

    def _readings(self, which: int) -> list[str]:
        """What can be read off one of the plots."""
        if self._bend is None:
            return []
        curves = self._bend[1][which]
        return flex_readings(curves) if self._shown == BOOT_FLEX else off_plane_readings(curves)

    def _across(self, inputs: Inputs, *, dragging: bool) -> dict[str, tuple[float, float]]:
        """From where to where each plot runs."""
        deepest, turn = deepest_deg(inputs) + ROOM_DEG, widest_turn_deg(inputs) + ROOM_DEG
        ends = {"knee_bend_deg": (0.0, deepest), "hips_turned_deg": (-turn, turn)}
        return {name: self._kept(name, each, dragging=dragging) for name, each in ends.items()}

    def _now(self, frame: Frame) -> tuple[float, float]:
        """The angle of front and rear leg in the posture in hand (degrees)."""
        front, rear = (
            degrees(float(getattr(leg, self._shown))) for leg in frame.settled.posture.legs
        )
        return front, rear

    def _ground(self, inputs: Inputs, bend: Bend, *, dragging: bool) -> Ground:
        if self._shown == BOOT_FLEX:
            reach = self._kept(BOOT_FLEX, flex_span(bend, inputs), dragging=dragging)
            return flex_ground(*reach, inputs)
        span = off_plane_span(bend)
        low, high = self._kept(OFF_PLANE, (-span, span), dragging=dragging)
        return off_plane_ground(low, high, USUAL_LIMITS)

    def _kept(
        self, what: str, reach: tuple[float, float], *, dragging: bool
    ) -> tuple[float, float]:
        """From where to where something reaches: in a drag at least as far as before."""
        if dragging:
            low, high = self._reach.get(what, reach)
            reach = min(reach[0], low), max(reach[1], high)
        self._reach[what] = reach
        return reach

    # Asking

    def _choose(self, key: str) -> None:
        if key != self._shown:
            self._shown = key
            self._show()

    def _go(self, name: str, value: float) -> None:
        self._session.edit(**{name: value})
