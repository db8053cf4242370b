"""The page that tells why a number is as it is, step by step, and draws it into the views."""

from __future__ import annotations

from functools import partial
from typing import Final, NamedTuple

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QPushButton, QWidget

from app.features.why.scene import Marks, marks_of
from app.features.why.step_list import StepArea
from app.features.why.topic_key import TopicKey
from app.features.why.words import NAMES, TERMS, reasoning_of, value_of
from app.frame import Frame
from app.qt.background import Unhurried
from app.qt.controls.layout import in_column, in_row
from app.qt.controls.page_words import heading, note
from app.qt.controls.switch import Choice, SwitchRow
from app.qt.explained import explain
from app.qt.literal import say_about
from app.qt.painting.palette import LEG, QUIET, SMALL_PX, typeface
from app.qt.sizes import px
from app.rider.setup import Setup
from app.session import Session
from app.stance.answer import Answer, answer_of
from app.stance.findings import Limits
from app.stance.topics import KNEE, OF_ANSWER, OF_BOTH, TOPICS, Asked
from app.words.language import tr
from geometry.fitting.steps import Steps

SIDE: Final = 270
"""Width of the keys (px)."""
_SAID, _JOINTS = "said", "joints"


class _Known(NamedTuple):
    """What to begin with, and of which set-up that is true."""

    setup: Setup
    limits: Limits
    answer: Answer


class WhyPage(QWidget):
    """Keeps what is asked about; nothing of it is a part of the set-up."""

    plays_along = True
    remarked = Signal()
    """Something else is to be drawn into the views."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._frame: Frame | None = None
        self._known: _Known | None = None
        self.asked = Asked("front", KNEE)
        self._level = _SAID
        self._search = Unhurried(self)
        self._search.done.connect(self._take)
        self._build()

    def _build(self) -> None:
        self.setAccessibleName(self.tr("Why this number"))
        self.leg = SwitchRow(
            "leg",
            self.tr("Leg"),
            (
                Choice("front", self.tr("Front"), self.tr("The leg in front")),
                Choice("rear", self.tr("Rear"), self.tr("The leg behind")),
            ),
        )
        self.leg.chosen.connect(lambda leg: self.ask(self.asked._replace(leg=leg)))
        self.level = SwitchRow(
            "level",
            "",
            (
                Choice(_SAID, self.tr("In plain words"), self.tr("As riders say it")),
                Choice(_JOINTS, self.tr("In terms of joints"), self.tr("Anatomy and symbols")),
            ),
        )
        self.level.setAccessibleName(self.tr("Words of the reasons"))
        self.level.chosen.connect(self._set_level)
        self.keys: dict[str, TopicKey] = {}
        for topic in TOPICS:
            key = self.keys[topic] = TopicKey(tr(NAMES[topic]))
            key.clicked.connect(partial(self._ask_topic, topic))
            explain(key, TERMS[topic])
        self.title = heading()
        self.title.setWordWrap(True)
        self.term = QPushButton(self.tr("What is this?"))
        self.term.clicked.connect(self._ask_term)
        self.steps = StepArea(self.tr("Step by step"))
        exact = note(self.tr("All digits count in the working; what is written is rounded."))
        exact.setForegroundRole(QUIET)
        exact.setFont(typeface(SMALL_PX))
        side = QWidget()
        side.setFixedWidth(px(SIDE))
        in_column(self.leg, self.level, *self.keys.values(), 1, of=side, spacing=1)
        head = in_row((self.title, 1), self.term, spacing=8)
        right = in_column(head, (self.steps, 1), exact, spacing=4)
        in_row(side, (right, 1), of=self, spacing=14, margins=(4, 4, 12, 2))

    # Showing

    def show_frame(self, frame: Frame, *, dragging: bool) -> None:
        """Show the reasons as they are now; those of the answer in a quiet time."""
        self._frame = frame
        if self._answer_for(frame) is None and not dragging:
            self._search.submit(_found(frame))
        else:
            self._search.drop()
        self._show()

    def marks(self, frame: Frame) -> Marks:
        """What is drawn into the views of a frame."""
        return marks_of(frame, self.asked, self._answer_for(frame))

    def _answer_for(self, frame: Frame) -> Answer | None:
        known = self._known
        if known is None or (known.setup, known.limits) != (frame.setup, frame.limits):
            return None
        return known.answer

    def _take(self, known: _Known) -> None:
        self._known = known
        self._show()
        if self.asked.topic in OF_ANSWER:
            self.remarked.emit()

    def _show(self) -> None:
        frame, asked = self._frame, self.asked
        if frame is None:
            return
        answer = self._answer_for(frame)
        self.leg.show_choice(asked.leg)
        self.level.show_choice(self._level)
        for topic, key in self.keys.items():
            key.setChecked(topic == asked.topic)
            key.show_value(value_of(frame, Asked(asked.leg, topic), answer))
        stale = asked.topic in OF_ANSWER and answer is None
        self.steps.setEnabled(not stale)
        if stale and self._known is not None:
            # What was true a moment ago stays, fainter: nothing jumps during a drag.
            answer = self._known.answer
        said = reasoning_of(frame, asked, answer)
        self.title.setText(said.title)
        self.title.setForegroundRole(
            self.foregroundRole() if asked.topic in OF_BOTH else LEG[asked.leg]
        )
        self.steps.show_steps(said.steps, joints=self._level == _JOINTS)
        if not self._session.dragging:
            say_about(self, f"{said.title}. {self.steps.spoken()}")

    def remembered(self) -> tuple[Asked, str]:
        """What is asked about, and in which words."""
        return self.asked, self._level

    def recall(self, remembered: tuple[Asked, str]) -> None:
        """Ask about it again."""
        asked, self._level = remembered
        self.ask(asked)

    # Asking

    def ask(self, asked: Asked) -> None:
        """Tell and draw the reasons of something else."""
        self.asked = asked
        self._show()
        self.remarked.emit()

    def go_to(self, asked: Asked) -> None:
        """The same, the keyboard on its key."""
        self.ask(asked)
        self.keys[asked.topic].setFocus(Qt.FocusReason.OtherFocusReason)

    def _ask_topic(self, topic: str) -> None:
        self.ask(self.asked._replace(topic=topic))

    def _ask_term(self) -> None:
        self._session.term_asked.emit(TERMS[self.asked.topic])

    def _set_level(self, level: str) -> None:
        self._level = level
        self._show()


def _found(frame: Frame) -> Steps[_Known]:
    """What to begin with in a frame, in one step."""
    yield
    return _Known(frame.setup, frame.limits, answer_of(frame.setup, frame.limits))
