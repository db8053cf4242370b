"""The page on which one chooses what is played, and sees both legs along the whole of it."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import Final

from PySide6.QtCore import Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QPushButton, QSizePolicy, QWidget

from app.features.bend.ground import flex_ground, off_plane_ground
from app.features.bend.model import flex_span, off_plane_span
from app.features.bend.plot import CurveKey
from app.features.player.choosing import OWN, SWEEP, SweepRow, sweep_usual, titles
from app.features.player.examples import EXAMPLES
from app.features.player.keys import takes_key
from app.features.player.model import Played, Sweep, Track, comes_back
from app.features.player.player import BACK, LOOP, Player, Playing
from app.features.player.plot import PlayedPlot
from app.features.player.postures import PostureTable
from app.features.player.strip import PlayerStrip
from app.features.player.words import ABOUT_EXAMPLES, NOT_MEASURED, axis_of, readings
from app.frame import Frame
from app.qt.controls.choice_box import ChoiceBox
from app.qt.controls.layout import in_column, in_row
from app.qt.controls.page_words import heading, note
from app.qt.drafts import show_or_put_away
from app.qt.literal import say_about, show_tip
from app.qt.painting.palette import ACCENT, QUIET
from app.qt.sizes import px
from app.rider.inputs import FIELD
from app.rider.movement import Movement, with_one_more
from app.session import Session

FIRST: Final = "crouch"
"""The example that is chosen at first, and that an own movement begins with."""
WIDE: Final = 860
"""From this width on both plots stand side by side (px)."""
COLUMN: Final = 316
"""Width of what is chosen (px)."""
ROOM: Final = 0.012
"""At the ends of a plot, for a dot that stands there, as a share of its width."""


class PlayerPage(QWidget):
    """Keeps what is chosen; the movement of the rider's own is kept in the set-up.

    Attributes:
        player: plays it.
        strip: from which it is played, to be shown under the drawings.
    """

    clip_asked = Signal(str, object)
    """What is chosen is wanted as a clip: its key, and the sweep that is set."""

    makes_do = True

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._frame: Frame | None = None
        self._kind = FIRST
        self._sweep: Sweep = sweep_usual(session.inputs, "front_angle_deg")
        self._track: Track | None = None
        self._repeats_for = ""
        self.player = Player(self)
        self.strip = PlayerStrip(self.player)
        self._build()
        self.player.changed.connect(self._show_track)
        self.player.moved.connect(self._show_place)
        self.strip.destroyed.connect(self.player.pause)

    def _build(self) -> None:
        self.setAccessibleName(self.tr("Motion"))
        self.kind = ChoiceBox(self.tr("What is played"), titles())
        self.kind.chosen.connect(self._choose)
        self.sweep_row = SweepRow()
        self.sweep_row.asked.connect(self._take_sweep)
        self.table = PostureTable()
        self.table.asked.connect(self._take_movement)
        self.more = QPushButton(self.tr("One posture more"))
        self.more.clicked.connect(
            lambda: self._take_movement(with_one_more(self._session.setup.movement))
        )
        self.copy = QPushButton(self.tr("Make it my own"))
        self.copy.clicked.connect(self._make_own)
        self.clip = QPushButton(self.tr("Clip…"))
        show_tip(self.clip, self.tr("As a picture that moves, to take home"))
        self.clip.clicked.connect(self._ask_for_clip)
        self.about = note()
        self.about.setForegroundRole(QUIET)
        self.problem = note()
        self.problem.setForegroundRole(ACCENT)
        self.problem.hide()
        for told in (self.sweep_row.told, self.table.told):
            told.connect(self._tell)
        for each in (self.more, self.copy, self.clip):
            each.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        beside = QWidget()
        beside.setFixedWidth(px(COLUMN))
        in_column(
            self.kind, self.sweep_row, self.table, in_row(self.more, self.copy, self.clip, 1),
            self.about, self.problem, 1, of=beside, spacing=6,
        )  # fmt: skip
        self.plots = {name: PlayedPlot() for name in ("off_plane", "boot_flex")}
        names = {
            "off_plane": self.tr("How far out of its plane"),
            "boot_flex": self.tr("Boot flex"),
        }
        heads = {name: heading(text) for name, text in names.items()}
        key = CurveKey(self.tr("front"), self.tr("rear"), self.tr("now"))
        columns = []
        for name, plot in self.plots.items():
            plot.setAccessibleName(names[name])
            plot.asked.connect(self._seek)
            plot.read_by(partial(self._readings, name))
            # The key stands over the second plot, where there is room beside its name.
            head = in_row(heads[name], 1, *([key] if name == "boot_flex" else []))
            columns.append((in_column(head, (plot, 1), spacing=2), 1))
        self._plots = in_row(*columns, spacing=12)
        in_row(beside, (self._plots, 1), of=self, spacing=12, margins=(10, 6, 12, 4))

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        """Put the plots below each other where there is no room for both side by side."""
        super().resizeEvent(event)
        ways = QBoxLayout.Direction
        self._plots.setDirection(ways.LeftToRight if self.width() >= px(WIDE) else ways.TopToBottom)

    # Showing

    def show_frame(self, frame: Frame, *, dragging: bool) -> None:
        """Take the set-up in hand along."""
        self._frame = frame
        self._show_choice()
        if not dragging:
            self._play_chosen()
        self._show_place()

    def _played(self) -> Played | None:
        """What is chosen; None while there is no movement of the rider's own."""
        if self._kind == SWEEP:
            return self._sweep
        return self._movement() if self._movement().postures else None

    def _movement(self) -> Movement:
        if self._kind == OWN:
            return self._session.setup.movement
        return EXAMPLES[self._kind].movement if self._kind in EXAMPLES else Movement()

    def _show_choice(self) -> None:
        """Show what is chosen, and what can be set of it."""
        kind, lengths = self._kind, self._session.lengths
        own, swept = kind == OWN, kind == SWEEP
        self.kind.show_choice(kind)
        show_or_put_away(self.sweep_row, shown=swept)
        self.table.setVisible(not swept)
        if swept:
            self.sweep_row.show_sweep(self._sweep, self._session.inputs, lengths)
        else:
            self.table.show_movement(self._movement(), lengths, own=own)
        none_yet = own and not self._movement().postures
        self.more.setVisible(own and not none_yet)
        self.clip.setEnabled(not none_yet)
        self.copy.setVisible(kind in EXAMPLES or none_yet)
        self.copy.setText(self.tr("Make one") if none_yet else self.tr("Make it my own"))
        self.about.setText(self._about())
        swept_name = FIELD[self._sweep.name].label
        self.strip.set_title(f"{swept_name}." if swept else self.tr(NOT_MEASURED))

    def _about(self) -> str:
        if self._kind in EXAMPLES:
            return self.tr(ABOUT_EXAMPLES)
        if self._kind == OWN and not self._movement().postures:
            return self.tr("There is none yet. Make one here, or out of an example.")
        if self._kind == OWN:
            return self.tr("Kept in the set-up's file. Between postures one moves softly.")
        return self.tr("Nothing is changed: the set-up in hand comes back when you stop.")

    def _show_track(self) -> None:
        """Show both legs along the whole of it."""
        track = self.player.track
        self._tell(self.player.problem)
        if track is None or self._frame is None:
            self._track = None
            return
        if track is not self._track:
            self._track = track
            self._show_ground(track, self._frame)
        self._show_place()

    def _show_ground(self, track: Track, frame: Frame) -> None:
        axis, inputs = axis_of(track, frame.lengths), frame.setup.inputs
        x = track.curves.x / axis.size
        edge = ROOM * max(float(x.max() - x.min()), 1e-6)
        across = float(x.min()) - edge, float(x.max()) + edge
        span = off_plane_span([track.curves])
        grounds = {
            "off_plane": off_plane_ground(-span, span, frame.limits),
            "boot_flex": flex_ground(*flex_span([track.curves], inputs), inputs),
        }
        for name, plot in self.plots.items():
            plot.show_axis(axis.label, axis.figure)
            plot.show_ground(grounds[name], across)
            say_about(plot, self.player.sentence)

    def _show_place(self) -> None:
        """Show where the player stands."""
        track, inputs = self._track, self.player.inputs
        if track is None or inputs is None or not self.isVisible():
            return
        phase, size = self.player.phase, axis_of(track, self._session.lengths).size
        x, at = track.curves.x / size, track.along(phase, inputs) / size
        for name, plot in self.plots.items():
            plot.show_curves(x, getattr(track.curves, name), at, track.at(phase, name))

    def _readings(self, what: str) -> list[str]:
        """What a plot tells those who cannot see it."""
        if self._track is None:
            return [self.player.sentence]
        return readings(self._track, what, self._session.lengths)

    def remembered(self) -> tuple[str, Sweep, Playing]:
        """What is chosen, and how and where it plays."""
        return self._kind, self._sweep, self.player.remembered()

    def recall(self, remembered: tuple[str, Sweep, Playing]) -> None:
        """Choose it again, and go on from there."""
        self._kind, self._sweep, playing = remembered
        self._show_choice()
        self._play_chosen()
        self.player.recall(playing)

    # Asking

    def _choose(self, kind: str) -> None:
        """Play something else; it starts by itself where that was not asked against."""
        self._kind = kind
        self._show_choice()
        self.player.stop()
        self._play_chosen()
        self.start()

    def _play_chosen(self) -> None:
        """Play what is chosen, again and again or there and back as it ends."""
        played = self._played()
        if played is not None and self._repeats_for != self._kind:
            self._repeats_for = self._kind
            self.player.set_repeat(LOOP if comes_back(played) else BACK)
        self.player.play_of(played)

    def start(self) -> None:
        """Start by itself, where that is not unwelcome and it does not stand at a moment."""
        if not self.still and not self.player.on:
            self.player.play()

    still = False
    """Whether nothing may start by itself."""

    def _take_sweep(self, sweep: Sweep) -> None:
        self._sweep = sweep
        self._show_choice()
        self.player.play_of(sweep)

    def _take_movement(self, movement: Movement) -> None:
        """Keep another movement in the set-up: that is a step of its history."""
        setup = replace(self._session.setup, movement=movement)
        self._session.take(self.tr("Own movement"), setup)

    def _make_own(self) -> None:
        """Keep what is shown as one's own; where there is nothing, what one begins with."""
        movement = EXAMPLES.get(self._kind, EXAMPLES[FIRST]).movement
        self._kind = OWN
        self._take_movement(movement)
        self._show_choice()

    def _ask_for_clip(self) -> None:
        self.player.pause()
        self.clip_asked.emit(self._kind, self._sweep)

    def _tell(self, words: str) -> None:
        problem = words or self.player.problem
        self.problem.setText(problem)
        self.problem.setVisible(bool(problem))

    def _seek(self, x: float) -> None:
        """Go to the place of the plots that the hand is at."""
        track = self._track
        if track is not None:
            self.player.seek(track.phase_at(x * axis_of(track, self._session.lengths).size))

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        """Play by the keys, before the page scrolls by them."""
        if not takes_key(self.player, event):
            super().keyPressEvent(event)
