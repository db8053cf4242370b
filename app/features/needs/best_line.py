"""The best of the whole bend: which is sought, in a line under plots, and how to put it on."""

from __future__ import annotations

from functools import partial
from math import degrees
from typing import Final

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QLabel, QPushButton, QWidget

from app.features.needs.model import RangeNeeds, range_needs_steps
from app.features.needs.words import best_words, mounts_words, range_words, why_not
from app.qt.background import Unhurried
from app.qt.controls.layout import in_column, in_row
from app.qt.controls.switch import Choice, Segment
from app.qt.painting.palette import LEG
from app.rider.inputs import Inputs
from app.rider.setup import Setup
from app.session import Session
from app.stance.needs import Mounts, with_mounts
from app.words.language import msgid, tr
from geometry.fitting.sweep import TURN


class RangeFoot(QWidget):
    """Shows the best mounts of the range that is chosen; they are sought in a quiet time."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._setup: Setup | None = None
        self._search = RangeSearch(session, self)
        self._search.found.connect(self._show)
        self._build()

    def _build(self) -> None:
        self.switch = RangeSwitch()
        self.switch.chosen.connect(self._choose)
        self.lines = {leg: QLabel() for leg in LEG}
        self.put = QPushButton(self.tr("Put on the mounts"))
        self.put.clicked.connect(self._put)
        self.put.setEnabled(False)
        for leg, line in self.lines.items():
            line.setForegroundRole(LEG[leg])
            line.setMinimumHeight(line.fontMetrics().height())
        words = in_column(*self.lines.values(), spacing=0)
        label = QLabel(self.tr("Best for"))
        in_row(label, self.switch, (words, 1), self.put, of=self, spacing=12)

    def show_setup(self, setup: Setup, *, dragging: bool) -> None:
        """Show what suits a set-up, or what suited it a moment ago, fainter."""
        self._setup = setup
        self._search.seek(setup, dragging=dragging)
        self._show()

    def _show(self) -> None:
        setup, best = self._setup, self._search.best
        if setup is None:
            return
        self.switch.show_choice(turning=self._session.turning)
        stale = self._search.is_stale(setup)
        for which, line in enumerate(self.lines.values()):
            line.setEnabled(not stale)
            line.setText(best_words(best)[which] if best else self._waiting()[which])
        if best:
            update_apply_button(self.put, best.mounts, setup)
        if stale:
            self.put.setEnabled(False)
        self.setToolTip("" if best is None or stale else f"<p>{range_words(best)}</p>")
        self.setAccessibleDescription("" if best is None or stale else range_words(best))

    def _waiting(self) -> tuple[str, str]:
        return self.tr("The best mounts are being sought."), ""

    # Asking

    def _choose(self, turning: bool) -> None:
        self._session.turning = turning
        if self._setup is not None:
            self.show_setup(self._setup, dragging=False)

    def _put(self) -> None:
        best = self._search.best
        if best is not None:
            mounted = with_mounts(self._session.setup, best.mounts)
            self._session.take(self.tr("Range's best"), mounted)


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


class RangeSearch(QObject):
    """Holds the last answer of each of the two kinds, and seeks the one that is wanted.

    Which one is wanted the session says, so that all pages ask the same.
    """

    found = Signal()
    """There is another answer."""

    def __init__(self, session: Session, parent: QObject) -> None:
        super().__init__(parent)
        self._session = session
        self._answers: dict[bool, tuple[Inputs, RangeNeeds]] = {}
        self._sought: tuple[bool, Inputs] | None = None
        self._unhurried = Unhurried(self)
        self._unhurried.done.connect(self._take)

    @property
    def best(self) -> RangeNeeds | None:
        """The last answer of the kind that is wanted."""
        answer = self._answers.get(self._session.turning)
        return answer[1] if answer else None

    def is_stale(self, setup: Setup) -> bool:
        """Whether the last answer is not that of a set-up."""
        answer = self._answers.get(self._session.turning)
        return answer is None or answer[0] != setup.inputs

    def seek(self, setup: Setup, *, dragging: bool) -> None:
        """Seek the answer for a set-up, unless it is known or a hand is at work."""
        if dragging or not self.is_stale(setup):
            self._unhurried.drop()
            return
        turning = self._session.turning
        self._sought = turning, setup.inputs
        self._unhurried.submit(range_needs_steps(setup, turning=turning))

    def _take(self, best: RangeNeeds) -> None:
        if self._sought is not None:
            turning, inputs = self._sought
            self._answers[turning] = inputs, best
            self.found.emit()


def update_apply_button(button: QPushButton, mounts: Mounts, setup: Setup) -> None:
    """Let a button put mounts on, or say why it cannot."""
    reason = why_not(mounts, setup)
    button.setEnabled(not reason)
    words = reason or mounts_words(mounts)
    button.setToolTip(words[:1].upper() + words[1:])
    button.setAccessibleDescription(words)
