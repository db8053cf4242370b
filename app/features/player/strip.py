"""The strip under the drawings from which a sweep or a movement is played."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QCheckBox, QFrame, QSizePolicy, QToolButton

from app.features.player.keys import FAR, takes_key
from app.features.player.player import REPEATS, SPEEDS, Player
from app.qt.controls.choice_box import ChoiceBox
from app.qt.controls.elided import Elided
from app.qt.controls.layout import in_column, in_row
from app.qt.controls.slider import Slider
from app.qt.literal import Label, button_text, show_tip
from app.qt.painting.palette import QUIET, SMALL_PX, TARGET, typeface
from app.qt.sizes import px, stacked, target_px
from app.words.language import tr
from app.words.scale import COARSE, Scale
from app.words.units import SECONDS

READOUT: Final = 76
"""Width of the figure beside the slider (px)."""


class PlayerStrip(QFrame):
    """Shows where the player stands, and asks it to go on.

    Args:
        player: is shown.

    Attributes:
        title: names what is played; set by whoever chooses that.
    """

    def __init__(self, player: Player) -> None:
        super().__init__()
        self.player = player
        self.title = ""
        self.setAccessibleName(self.tr("Player"))
        self.play = self._button(self.tr("Play"), self.tr("Space"), player.toggle)
        # Both words fit, so that nothing moves as it plays.
        widths = []
        for word in (self.tr("Pause"), self.tr("Play")):
            self.play.setText(word)
            widths.append(self.play.sizeHint().width())
        self.play.setFixedWidth(max(widths))
        self.back = self._button("‹", self.tr("A frame back (arrow key)"), lambda: player.step(-1))
        self.ahead = self._button("›", self.tr("A frame on (arrow key)"), lambda: player.step(1))
        self.back.setAccessibleName(self.tr("A frame back"))
        self.ahead.setAccessibleName(self.tr("A frame on"))
        for each in (self.back, self.ahead):
            each.setMinimumWidth(target_px(TARGET))
        self.slider = Slider()
        self.slider.setAccessibleName(self.tr("Place"))
        self.slider.set_wording(lambda _: player.readout())
        self.slider.asked.connect(lambda seconds: player.seek(seconds / player.seconds))
        self.slider.stepped.connect(self._step)
        self.slider.reset.connect(lambda: player.seek(0.0))
        self.readout = Label()
        self.readout.setFixedWidth(px(READOUT))
        self.readout.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.speed = self._choice(self.tr("Speed"), {k: tr(v) for k, v in SPEEDS.items()})
        self.speed.chosen.connect(player.set_speed)
        self.repeat = self._choice(self.tr("At the end"), {k: tr(v) for k, v in REPEATS.items()})
        self.repeat.chosen.connect(player.set_repeat)
        self.ghost = self._switch(
            self.tr("Worst"),
            self.tr("The moment at which a knee or a boot is worst stands behind, dashed"),
        )
        self.ghost.clicked.connect(player.set_ghost)
        self.traces = self._switch(
            self.tr("Traces"), self.tr("Knees and axes leave traces behind where they have been")
        )
        self.traces.clicked.connect(player.set_traces)
        self.stop = self._button(
            self.tr("Stop"), self.tr("Bring back the set-up in hand (Esc)"), player.stop
        )
        self.said = Elided(told=True)
        self.said.setForegroundRole(QUIET)
        self.said.setFont(typeface(SMALL_PX))
        self._build()
        player.changed.connect(self._show)
        player.moved.connect(self._show_place)
        self._show()

    def _build(self) -> None:
        way = in_row(self.play, self.back, self.ahead, (self.slider, 1), self.readout, spacing=4)
        kept = in_row(self.speed, self.repeat, self.ghost, self.traces, spacing=4)
        if stacked():
            way.addWidget(self.stop)
        else:
            kept.addWidget(self.stop)
        rows = (way, kept) if stacked() else (in_row((way, 1), kept, spacing=4),)
        in_column(*rows, self.said, of=self, spacing=0, margins=(10, 4, 10, 3))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def _button(self, text: str, tip: str, act: Callable[[], None]) -> QToolButton:
        button = QToolButton()
        button.setText(text)
        show_tip(button, tip)
        # A click leaves the keyboard where it is: the keys go on playing.
        button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        button.setMinimumHeight(target_px(TARGET))
        button.clicked.connect(lambda _=False: act())
        return button

    def _switch(self, text: str, tip: str) -> QCheckBox:
        box = QCheckBox(button_text(text))
        show_tip(box, tip)
        box.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        return box

    def _choice(self, name: str, choices: dict[object, str]) -> ChoiceBox:
        box = ChoiceBox(name, choices)
        box.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        show_tip(box, name)
        return box

    def set_title(self, title: str) -> None:
        """Name what is played."""
        if title != self.title:
            self.title = title
            self._show()

    def _step(self, count: int, kind: int) -> None:
        self.player.step(count * (FAR if kind == COARSE else 1))

    def _show(self) -> None:
        """Show how it is played."""
        player = self.player
        self.play.setText(self.tr("Pause") if player.playing else self.tr("Play"))
        able = player.track is not None
        # Not the slider: the keyboard would go elsewhere, and do something else there.
        for each in (self.play, self.back, self.ahead):
            each.setEnabled(able)
        self.stop.setEnabled(player.on)
        self.speed.show_choice(player.speed)
        self.repeat.show_choice(player.repeat)
        self.ghost.setChecked(player.ghost)
        self.traces.setChecked(player.traces)
        frame_s = player.seconds / (player.frames - 1)
        scale = Scale(0.0, player.seconds, (frame_s, frame_s, FAR * frame_s), SECONDS)
        if scale != self.slider.scale:
            self.slider.set_scale(scale)
        said = f"{self.title} {player.problem or player.sentence}".strip()
        self.said.tell(said)
        self._show_place()

    def _show_place(self) -> None:
        """Show where it stands."""
        self.slider.show_value(self.player.phase * self.player.seconds)
        self.readout.setText(self.player.readout())

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        """Play by the keys."""
        if not takes_key(self.player, event):
            super().keyPressEvent(event)
