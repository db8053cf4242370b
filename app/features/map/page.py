"""The page of the stance map: the map, and beside it what it says in words."""

from __future__ import annotations

from functools import partial
from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from app.drawing.marks import Window
from app.features.map.key import MapKey
from app.features.map.lines import MapLines, extent_of, map_inputs, map_lines
from app.features.map.place import MapPlace, full_cants, inserts_of, moved_to, nudged, place_of
from app.features.map.plot import MapPlot, marks
from app.features.map.words import (
    HANDLING,
    UNEVEN,
    length_without_cant_words,
    margin_words,
    needs_words,
    no_cant_words,
    place_words,
    step_words,
)
from app.frame import Frame
from app.qt.accessible.drawing import sentences_of
from app.qt.accessible.factory import tell_changed
from app.qt.background import Background
from app.qt.controls.layout import in_column, in_row
from app.qt.controls.page_words import announce, heading, note
from app.qt.literal import say_about
from app.qt.settling import Settling
from app.qt.sizes import px
from app.rider.inputs import Inputs
from app.rider.setup import edited
from app.session import Session
from app.words.language import tr
from app.words.reasons import reason_sentence

COLUMN: Final = 258
"""Width of what is said beside the map (px)."""


class MapPage(QWidget):
    """Shows where a stance stands among all others, and lets it be dragged there."""

    plays_along = True

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._start = session.inputs
        self._extent: Window | None = None
        self._wanted: tuple[Inputs, Window] | None = None
        self._shown: tuple[Inputs, Window] | None = None
        self._lines: MapLines | None = None
        self._was_dragging = self._speaks = False
        self._told = ""
        self._background = Background(self)
        self._settling = Settling(self, self._compute)
        self._build()
        self._connect()

    def _build(self) -> None:
        self.plot = MapPlot()
        self.plot.setAccessibleName(self.tr("Stance map"))
        self.plot.read_by(self._readings)
        self.heading, self.words, self.key = heading(), note(), MapKey()
        self.heading.setWordWrap(True)
        self.heading.setAlignment(Qt.AlignmentFlag.AlignTop)
        beside = QWidget()
        beside.setFixedWidth(px(COLUMN))
        in_column(self.heading, (self.words, 1), self.key, of=beside, spacing=6)
        in_row((self.plot, 1), beside, of=self, spacing=14, margins=(8, 8, 12, 6))

    def _connect(self) -> None:
        self.plot.drag_began.connect(self._begin_drag)
        self.plot.drag_ended.connect(self._session.end_drag)
        self.plot.moved.connect(self._move)
        self.plot.nudged.connect(self._nudge)
        self._background.done.connect(self._take_lines)
        self._background.failed.connect(self._say_why_none)

    # Showing

    def show_frame(self, frame: Frame, *, dragging: bool) -> None:
        """Move the dot; the lines follow when nothing is being dragged."""
        inputs, place = frame.setup.inputs, place_of(frame.setup)
        extent = extent_of(place.angle_deg, place.ratio)
        if dragging and self._extent is not None:
            # Under the hand that drags the dot the map stands still.
            extent = self._extent if self.plot.held else self._extent.joined(extent)
        self._extent, self._wanted = extent, (map_inputs(inputs), extent)
        self.plot.show_extent(extent)
        self.plot.show_inserts(inserts_of(frame.setup))
        self.plot.show_place(place)
        self._say(inputs, place)
        self._follow(dragging=dragging)

    def _say(self, inputs: Inputs, place: MapPlace) -> None:
        """Everything in words."""
        lengths = self._session.lengths
        said = [needs_words(full_cants(inputs), place)]
        if self._lines is not None and self._shown is not None:
            if self._shown[0] == map_inputs(inputs):
                ratio = self._lines.no_cant_ratio(place.angle_deg)
                said.append(length_without_cant_words(ratio, inputs, lengths))
            said += [tr(UNEVEN)] if self._lines.uneven else []
        where = _kept_together(place_words(place, inputs, lengths))
        words = _kept_together(" ".join(filter(None, said)))
        self.heading.setText(where)
        self.words.setText(words)
        self.key.show_margin(margin_words(place))
        self._told = f"{where}. {words}"
        # A tool tip would lie over the map just where the dot is to be dragged.
        say_about(self.plot, f"{self._told} {tr(HANDLING)}")
        if not self._session.dragging:
            tell_changed(self.plot)

    def _readings(self) -> list[str]:
        """What can be read off the map: the place of the dot, and the line without cant."""
        said = sentences_of(self._told)
        if self._lines is not None and self._extent is not None:
            inputs, lengths = self._session.inputs, self._session.lengths
            for angle in marks(self._extent.left, self._extent.right, (15, 30)):
                ratio = self._lines.no_cant_ratio(angle)
                said.append(no_cant_words(angle, ratio, inputs, lengths))
        return said

    def _say_why_none(self, problem: ValueError) -> None:
        self.words.setText(reason_sentence(problem, self._session.lengths))

    def _follow(self, *, dragging: bool) -> None:
        """Have the lines computed where they are not those of the set-up in hand."""
        current = self._shown == self._wanted
        self.plot.set_stale(not current)
        if current and not dragging:
            self.plot.clear_words()
        at_once = self._was_dragging or self._lines is None
        # What has never been shown does not wait, as while something is played; but then the
        # lines of one moment must come to their end before those of another are asked for.
        waits = dragging and (self._lines is not None or self._background.busy)
        self._settling.follow(stale=not current, dragging=waits, at_once=at_once)
        self._was_dragging = dragging
        if self._speaks and not dragging:
            self._speaks = False
            announce(self.plot, self._told)

    def _compute(self) -> None:
        if self._wanted is not None:
            self._background.submit(partial(map_lines, *self._wanted), self._wanted)

    def _take_lines(self, lines: MapLines) -> None:
        """Show what was computed, if it is still what is wanted."""
        self._shown, self._lines = self._background.key, lines
        self.plot.show_lines(lines)
        self.plot.set_stale(self._shown != self._wanted)
        self.key.show_blank(len(lines.blanks) > 0)
        setup = self._session.setup
        self._say(setup.inputs, place_of(setup))

    # Asking

    def _begin_drag(self) -> None:
        self._start = self._session.inputs
        self._session.begin_drag()

    def _move(self, angle_deg: float, ratio: float, step: float) -> None:
        self._ask(moved_to(self._start, angle_deg, ratio, step))

    def _nudge(self, turn: float, longer: float) -> None:
        self._speaks = True
        self._ask(nudged(self._session.inputs, turn, 5.0 * longer))

    def _ask(self, changes: dict[str, float]) -> None:
        setup = edited(self._session.setup, **changes)
        self._session.take(step_words(setup.inputs, self._session.lengths), setup)


def _kept_together(words: str) -> str:
    """Words in which no line begins with a sign of multiplication."""
    return words.replace(" ×", "\u00a0×")
