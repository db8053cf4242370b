"""Plays a sweep or a movement: what is played, where it stands, and how it goes on."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from dataclasses import replace
from math import ceil, floor
from typing import Final, NamedTuple, TypeAlias

from PySide6.QtCore import QElapsedTimer, QObject, Qt, QTimer, Signal

from app.features.player.frames import Course
from app.features.player.model import (
    Played,
    Sweep,
    Track,
    course_of,
    frames_of,
    seconds_of,
    track_of,
)
from app.features.player.scene import Backdrop, backdrop_of, dressed
from app.features.player.words import readout, worst_words
from app.frame import Frame
from app.rider.inputs import Inputs
from app.rider.movement import MOVED
from app.rider.setup import Setup
from app.words.language import msgid
from app.words.lengths import IN_MM, Lengths
from app.words.reasons import reason_sentence

TICK_MS: Final = 16
"""Between two frames while it plays: 60 in a second."""
SPEEDS: Final = {1.0: msgid("full speed"), 0.5: msgid("half speed"), 0.25: msgid("quarter speed")}
ONCE, LOOP, BACK = "once", "loop", "back"
REPEATS: Final = {
    ONCE: msgid("once"),
    LOOP: msgid("again and again"),
    BACK: msgid("there and back"),
}
"""What comes at the end."""

Drawing: TypeAlias = Callable[[Setup], Frame]


class Playing(NamedTuple):
    """How and where a player plays.

    Attributes:
        on: whether it shows a moment.
        playing: whether it goes on by itself.
        phase: of the moment.
        speed: how fast, as a share of its own speed.
        repeat: what is done at the end.
        ghost: whether the worst moment stands behind it.
        traces: whether knees and axes leave traces.
    """

    on: bool
    playing: bool
    phase: float
    speed: float
    repeat: str
    ghost: bool
    traces: bool


class Player(QObject):
    """Shows moments of its own; the set-up in hand is never touched.

    Attributes:
        on: whether a moment of it is to be shown, rather than the set-up in hand.
        playing: whether it goes on by itself.
        phase: where it stands, from 0 to 1.
        speed: a key of :data:`SPEEDS`.
        repeat: a key of :data:`REPEATS`.
        ghost: whether the worst moment stands behind it.
        traces: whether knees and axes leave traces.
        problem: why it cannot be played; "" where it can.
        track: it, looked through.
        sentence: its worst moments in words.
    """

    moved = Signal()
    """Another moment is to be shown, or none any more."""
    changed = Signal()
    """Something else is played, or in another way."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.on = self.playing = False
        self.phase = self._passed = 0.0
        self._way = 1.0
        self.speed, self.repeat = 1.0, LOOP
        self.ghost = self.traces = True
        self.problem = self.sentence = ""
        self.track: Track | None = None
        self._backdrop: Backdrop | None = None
        self._live: Frame | None = None
        self._played: Played | None = None
        self._course: Course | None = None
        self._now: tuple[float, Inputs] | None = None
        self._look_of_front = ""
        self._draw: Drawing | None = None
        self._looked_at: object = None
        self._clock = QElapsedTimer()
        self._timer = QTimer(self, interval=TICK_MS, timerType=Qt.TimerType.PreciseTimer)
        self._timer.timeout.connect(self._tick)
        self.destroyed.connect(self._timer.stop)

    # What is played

    def play_of(self, played: Played | None) -> None:
        """Play something else, from its beginning; None for nothing."""
        if played == self._played:
            return
        self._played = played
        if played is None:
            self.stop()
        self.phase = self._passed = 0.0
        self._way = 1.0
        self._set_out()
        self._look_through()
        self.changed.emit()
        self.moved.emit()

    def _set_out(self) -> None:
        """Take the course anew, of the set-up in hand and of what is played."""
        self._course = self._now = None
        if self._live is not None and self._played is not None:
            with suppress(ValueError):  # said when it is looked through
                self._course = course_of(self._live.setup.inputs, self._played)

    def follow(self, live: Frame, draw: Drawing, look: str, *, dragging: bool) -> None:
        """Take the set-up in hand along: what is not played of it stays as it is there.

        Args:
            live: its frame.
            draw: solves and draws a set-up as the window does.
            look: how the front view looks then.
            dragging: whether a hand is at it: only the moment follows then.
        """
        self._live, self._draw, self._look_of_front = live, draw, look
        self._set_out()
        if not dragging:
            self._look_through()

    def _look_through(self) -> None:
        """Solve and draw along the way, where that was not done for the same things."""
        live, draw, played = self._live, self._draw, self._played
        if live is None or draw is None:
            return
        asked = (live.setup.inputs, played, live.limits, live.lengths, self._look_of_front)
        if asked == self._looked_at:
            return
        self._looked_at = asked
        self.track = self._backdrop = None
        self.problem = self.sentence = ""
        if played is not None:
            try:
                self._look(live, draw, played)
            except ValueError as problem:
                self.problem = reason_sentence(problem, live.lengths)
                self.stop()
        self.changed.emit()

    def _look(self, live: Frame, draw: Drawing, played: Played) -> None:
        inputs = live.setup.inputs
        course = self._course or course_of(inputs, played)

        def drawn(at: Inputs) -> Frame:
            return draw(replace(live.setup, inputs=at))

        track = track_of(inputs, played, live.limits)
        worst = [(each, drawn(course(each.phase))) for each in track.worst]
        self.sentence = worst_words(track, worst)
        self._backdrop = backdrop_of(course, drawn, worst[0][1])
        self.track = track

    @property
    def sweeping(self) -> str:
        """Name of the input that is swept; "" for a movement."""
        return self._played.name if isinstance(self._played, Sweep) else ""

    @property
    def moving(self) -> frozenset[str]:
        """Names of the inputs that are not as in the set-up in hand, while a moment is shown."""
        if not self.on or self._played is None:
            return frozenset()
        return frozenset([self.sweeping] if self.sweeping else MOVED)

    @property
    def frames(self) -> int:
        """How many frames there are for the arrow keys."""
        return 2 if self._played is None else frames_of(self._played)

    @property
    def seconds(self) -> float:
        """How long it takes at full speed."""
        return 1.0 if self._played is None else seconds_of(self._played)

    # Where it stands

    @property
    def inputs(self) -> Inputs | None:
        """The inputs of the moment; None where there is none."""
        if self._course is None or self.problem:
            return None
        if self._now is None or self._now[0] != self.phase:
            self._now = self.phase, self._course(self.phase)
        return self._now[1]

    @property
    def lengths(self) -> Lengths:
        """In which lengths are written."""
        return self._live.lengths if self._live else IN_MM

    def readout(self) -> str:
        """Where it stands, in figures."""
        inputs = self.inputs
        if inputs is None or self.track is None:
            return ""
        return readout(self.track, self.phase, inputs, self.lengths)

    def frame(self) -> Frame | None:
        """What is to be shown now; None where that is the set-up in hand.

        Raises:
            ValueError: the legs of the moment contradict each other.
        """
        inputs = self.inputs if self.on else None
        if inputs is None or self._live is None or self._draw is None or self._backdrop is None:
            return None
        live = self._draw(replace(self._live.setup, inputs=inputs))
        return dressed(live, self._backdrop, self._passed, ghost=self.ghost, traces=self.traces)

    # Going on

    def play(self) -> None:
        """Go on; from the end, once more from the beginning."""
        if self.track is None:
            return
        if self.repeat == ONCE and self.phase >= 1.0:
            self.phase = self._passed = 0.0
        self.on = self.playing = True
        self._clock.start()
        self._timer.start()
        self.changed.emit()
        self.moved.emit()

    def pause(self) -> None:
        """Stay where it is."""
        self._timer.stop()
        if self.playing:
            self.playing = False
            self.changed.emit()

    def toggle(self) -> None:
        """Go on, or stay."""
        if self.playing:
            self.pause()
        else:
            self.play()

    def stop(self) -> None:
        """Bring back the set-up in hand."""
        self.pause()
        self._way = 1.0
        self.phase = self._passed = 0.0
        if self.on:
            self.on = False
            self.changed.emit()
            self.moved.emit()

    def seek(self, phase: float) -> None:
        """Stay at a moment."""
        if self.track is None:
            return
        self.pause()
        self._show_at(min(max(phase, 0.0), 1.0))

    def step(self, count: int) -> None:
        """Stay at a frame, so many further on."""
        last = self.frames - 1
        here = self.phase * last
        # From between two frames the next is the nearer one that way.
        there = (floor(here + 1e-6) if count > 0 else ceil(here - 1e-6)) + count
        self.seek(min(max(there, 0), last) / last)

    def _tick(self) -> None:
        by = self.speed * self._clock.restart() / 1000.0 / self.seconds
        self._advance(by)

    def _advance(self, by: float) -> None:
        phase = self.phase + self._way * by
        if self.repeat == BACK:
            while not 0.0 <= phase <= 1.0:
                self._way = -self._way
                phase = -phase if phase < 0.0 else 2.0 - phase
        elif self.repeat == LOOP:
            if phase > 1.0:
                self._passed = 1.0
            phase %= 1.0
        elif phase >= 1.0:
            phase = 1.0
        self._show_at(phase)
        if self.repeat == ONCE and phase == 1.0:
            self.pause()

    def _show_at(self, phase: float) -> None:
        was, self.on = self.on, True
        self.phase, self._passed = phase, max(self._passed, phase)
        if not was:
            self.changed.emit()
        self.moved.emit()

    # Being made anew

    def remembered(self) -> Playing:
        """How and where it plays."""
        return Playing(
            self.on, self.playing, self.phase, self.speed, self.repeat, self.ghost, self.traces
        )

    def recall(self, playing: Playing) -> None:
        """Go on as another one did."""
        self.speed, self.repeat = playing.speed, playing.repeat
        self.ghost, self.traces = playing.ghost, playing.traces
        self.pause()
        if playing.on:
            self._show_at(playing.phase)
        else:
            self.stop()
        if playing.playing:
            self.play()
        self.changed.emit()

    # How it goes

    def set_speed(self, speed: float) -> None:
        """Go at another speed."""
        self.speed = speed
        self.changed.emit()

    def set_repeat(self, repeat: str) -> None:
        """Do something else at the end."""
        self.repeat, self._way = repeat, 1.0
        self.changed.emit()

    def set_ghost(self, shown: bool) -> None:
        """Have the worst moment stand behind what plays, or not."""
        self.ghost = shown
        self.changed.emit()
        self.moved.emit()

    def set_traces(self, shown: bool) -> None:
        """Have knees and axes leave traces, or not."""
        self.traces = shown
        self._passed = self.phase
        self.changed.emit()
        self.moved.emit()
