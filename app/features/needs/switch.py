"""The switch between a bend with turning hips and the bend alone."""

from __future__ import annotations

from functools import partial
from math import degrees
from typing import Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QWidget

from app.qt.controls.switch import Choice, Segment
from app.words.language import msgid, tr
from geometry.fitting.sweep import TURN

_TURN: Final = f"{degrees(TURN):.0f}"
CHOICES: Final = {
    True: Choice(
        "turning",
        msgid("hips turning ±{turn}°"),
        msgid(
            "The best mounts from standing tall to the deepest crouch, with the hips turned up to "
            "{turn}° to the nose and to the tail at every bend"
        ),
    ),
    False: Choice(
        "alone",
        msgid("bend alone"),
        msgid(
            "The best mounts from standing tall to the deepest crouch, with the hips turned as "
            "they are now"
        ),
    ),
}
"""Whether the hips turn, and what the switch says of it."""


class RangeSwitch(QWidget):
    """Reports a choice and changes nothing itself."""

    chosen = Signal(bool)
    """Whether the hips are to turn."""

    def __init__(self) -> None:
        super().__init__()
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        group = QButtonGroup(self)
        self.segments: dict[bool, Segment] = {}
        for turning, choice in CHOICES.items():
            text, about = (tr(each, turn=_TURN) for each in (choice.text, choice.help))
            translated = choice._replace(text=text, help=about)
            segment = self.segments[turning] = Segment(translated, self)
            segment.setAccessibleName(self.tr("Whole bend: {}").format(text))
            segment.setFixedSize(segment.sizeHint())
            segment.clicked.connect(partial(self._choose, turning))
            group.addButton(segment)
            row.addWidget(segment)

    def _choose(self, turning: bool) -> None:
        self.chosen.emit(turning)

    def show_choice(self, *, turning: bool) -> None:
        """Show which choice holds; nothing is reported."""
        self.segments[turning].setChecked(True)
