"""Going through a lesson: its words, its questions, and the keys."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import Final, NamedTuple

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFont, QPalette
from PySide6.QtWidgets import QPushButton, QWidget

from app.features.lessons.asking import Choosing, KneeView, Sliding
from app.features.lessons.model import (
    ASK,
    REVEAL,
    Going,
    Stage,
    is_right,
    set_to,
    stages_of,
)
from app.features.lessons.words import heading_of, how_words, place_words, verdict
from app.frame import frame
from app.qt.controls.layout import in_column, in_row
from app.qt.controls.page_words import announce, note
from app.qt.controls.plain_area import PlainArea
from app.qt.literal import Label, show_tip
from app.qt.painting.palette import ACCENT, QUIET, typeface
from app.qt.sizes import is_held, px
from app.qt.themes import follow_theme
from app.rider.instead import Instead
from app.rider.lessons import NO_LESSON, Lesson, Question
from app.rider.setup import Setup
from app.session import Session
from app.stance.findings import Limits
from app.words.lengths import Lengths

SIZES: Final = ((1600, 24), (1100, 20), (0, 16))
"""Width of the page from which on its words have a height (px, where letters are as usual)."""


_frame: Final = lru_cache(maxsize=4)(frame)
"""The frames before and after, which a drag shows again and again."""


class Gone(NamedTuple):
    """How far one has come in a lesson.

    Attributes:
        at: place of the stage; negative before the beginning.
        answers: given, by the place of their step.
        tried: values of sliders after their reveal, likewise.
    """

    at: int
    answers: dict[int, float]
    tried: dict[int, float]


class LessonPlayer(QWidget):
    """Shows one stage of a lesson after the other; keeps the answers given."""

    turned = Signal()
    """Another stage is shown, or none."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._going = Going(NO_LESSON)
        self._stages: tuple[Stage, ...] = ()
        self._at = -1
        self._young = False
        self._answers: dict[int, float] = {}
        self._tried: dict[int, float] = {}
        self._pixels = SIZES[-1][1]
        self._build()
        self._connect()
        # A style sheet anew takes the letters away that a widget was given.
        follow_theme(self._write)

    # Building

    def _build(self) -> None:
        self.head, self.words, self.verdict = Label(), note(), note()
        self.head.setForegroundRole(QUIET)
        self.own = Label()
        self.own.setWordWrap(True)
        self.own.setForegroundRole(QUIET)
        self.how = note()
        self.how.setForegroundRole(QUIET)
        self.choosing, self.sliding, self.knee = Choosing(), Sliding(), KneeView()
        told = QWidget()
        in_column(
            self.head, self.verdict, self.words, self.how, self.choosing, self.sliding, 1,
            of=told, spacing=8, margins=(0, 0, 8, 0),
        )  # fmt: skip
        self._area = PlainArea(told, sideways=True, keys=False)
        self.back = QPushButton(self.tr("Back"))
        self.place = Label()
        self.place.setForegroundRole(QUIET)
        self.next = QPushButton()
        self.finish = QPushButton(self.tr("End the lesson"))
        show_tip(self.back, self.tr("Left arrow"))
        show_tip(self.finish, self.tr("Your own set-up is as you left it"))
        under = in_row(self.back, self.place, self.next, (self.own, 1), self.finish, spacing=10)
        beside = in_row((self._area, 3), (self.knee, 2), spacing=10)
        in_column((beside, 1), under, of=self, spacing=6)

    def _connect(self) -> None:
        self.back.clicked.connect(self.go_back)
        self.next.clicked.connect(self.go_on)
        self.finish.clicked.connect(self.end)
        self.choosing.chosen.connect(self._answer)
        self.sliding.asked.connect(self._slide)
        self.knee.asked.connect(self._answer)

    # Going

    @property
    def going(self) -> Going:
        """The lesson that is gone through, under the limits and in the unit in force."""
        return self._going

    @property
    def young(self) -> bool:
        """Whether it is gone through the way children do."""
        return self._young

    @property
    def stage(self) -> Stage | None:
        """What is shown now; None before the beginning and after the end."""
        return self._stages[self._at] if 0 <= self._at < len(self._stages) else None

    def take(self, lesson: Lesson, *, young: bool) -> None:
        """Have a lesson ready to begin."""
        self._going = replace(self._going, lesson=lesson)
        self._young = young
        self._stages = stages_of(lesson, young=young)
        self._answers, self._tried = {}, {}
        self._go_to(-1)

    def begin(self) -> None:
        """Show the first stage."""
        self._go_to(0)

    def go_on(self) -> None:
        """Show what comes next; a question waits for its answer."""
        if self._waits:
            announce(self, self.tr("Answer first: what do you expect?"))
            return
        self.skip()

    def skip(self) -> None:
        """Show what comes next, answered or not."""
        if self._at + 1 < len(self._stages):
            self._go_to(self._at + 1)
        elif self._at >= 0:
            self.end()

    def go_back(self) -> None:
        """Show what came before."""
        if self._at > 0:
            self._go_to(self._at - 1)

    def end(self) -> None:
        """Be ready to begin again; the drawings show the set-up in hand."""
        if self._at >= 0:
            self._answers, self._tried = {}, {}
            self._go_to(-1)

    def remembered(self) -> Gone:
        """How far one has come, and what was answered."""
        return Gone(self._at, dict(self._answers), dict(self._tried))

    def recall(self, gone: Gone) -> None:
        """Go on from there in the same lesson."""
        self._answers, self._tried = dict(gone.answers), dict(gone.tried)
        if gone.at < len(self._stages):
            self._go_to(gone.at)

    @property
    def _waits(self) -> bool:
        stage = self.stage
        return stage is not None and stage.part == ASK and stage.step not in self._answers

    def _go_to(self, at: int) -> None:
        self._at = at
        self._show()
        self.turned.emit()
        stage = self.stage
        if stage is None:
            return
        how = how_words(self._question(stage), stage.part)
        said = (heading_of(stage), self._verdict(stage), self._said(stage), how)
        announce(self, " ".join(filter(None, said)))
        if self.isVisible():
            asked = self._asked(stage)
            target = asked if asked is not None and stage.part == ASK else None
            if target is not None:
                target.take_keys()
            else:
                self.next.setFocus(Qt.FocusReason.OtherFocusReason)

    # Answering

    def _answer(self, answer: float) -> None:
        stage = self.stage
        if stage is None or stage.part != ASK:
            return
        self._answers[stage.step] = answer
        self.next.setEnabled(True)
        # The answers to choose from stay as they are: one of them has just been pressed.
        if self._asked(stage) is not self.choosing:
            self._show_way(stage)

    def _slide(self, value: float) -> None:
        """Predict; after the reveal, try: the drawings follow."""
        stage = self.stage
        if stage is not None and stage.part == REVEAL:
            self._tried[stage.step] = value
            self._show()
        else:
            self._answer(value)

    # Showing

    def show_judged(self, limits: Limits, lengths: Lengths) -> None:
        """Judge by these limits and write lengths in this unit."""
        if (limits, lengths) != (self._going.limits, self._going.lengths):
            self._going = Going(self._going.lesson, limits, lengths)
            self._show()

    def write_for(self, width: int) -> None:
        """Write as large as a page of this width (px) allows."""
        self._pixels = next(size for least, size in SIZES if width >= px(least))
        # No answer is made anew: one of them may have the keyboard.
        self._write()

    def _asked(self, stage: Stage) -> Choosing | Sliding | KneeView | None:
        """The widget by which a stage is answered."""
        question = self._question(stage)
        if question is None:
            return None
        ways: dict[str, Choosing | Sliding | KneeView] = {
            "choice": self.choosing,
            "slider": self.sliding,
            "knee": self.knee,
        }
        return ways[question.kind]

    def _question(self, stage: Stage) -> Question | None:
        return self._going.step(stage.step).question

    def _said(self, stage: Stage) -> str:
        return self._going.said_at(stage, young=self._young)

    def _verdict(self, stage: Stage) -> str:
        if stage.part != REVEAL:
            return ""
        return verdict(self._going, stage.step, self._answers.get(stage.step))

    def _show(self) -> None:
        stage = self.stage
        self._write()
        if stage is None:
            self._show_cover()
            return
        self._session.show_instead(self._instead(stage))
        self._say(heading_of(stage), self._verdict(stage), self._said(stage))
        self._tell_how(how_words(self._question(stage), stage.part))
        answer = self._answers.get(stage.step)
        right = is_right(self._going, stage.step, answer)
        self.verdict.setForegroundRole(QPalette.ColorRole.WindowText if right else ACCENT)
        self.place.setText(place_words(self._at, len(self._stages)))
        last = self._at + 1 == len(self._stages)
        reveal, done = self.tr("Show what happens"), self.tr("Done")
        self.next.setText(reveal if stage.part == ASK else done if last else self.tr("Next"))
        self.next.setEnabled(not self._waits)
        show_tip(self.next, self.tr("Right arrow"))
        self._show_way(stage)

    def _show_cover(self) -> None:
        """What the lesson is about, and how it begins."""
        self._session.show_instead(None)
        lesson = self._going.lesson
        self._say(lesson.title.said, "", lesson.about.said)
        self._tell_how("")
        self.next.setText(self.tr("Begin"))
        show_tip(self.next, self.tr("The drawings show the lesson's own rider until its end"))
        self.next.setEnabled(bool(self._stages))
        self._show_only(None)

    def _say(self, head: str, verdict: str, words: str) -> None:
        """Show the words of a stage; what has nothing to say takes no room."""
        for label, text in ((self.head, head), (self.verdict, verdict), (self.words, words)):
            label.setText(text)
            label.setVisible(bool(text))
        under_way = self._at >= 0
        own = self.tr("Shown is the lesson's rider; your own set-up stays as it is.")
        # Who looks on from afar knows, and the words need the room.
        told = own if under_way and not is_held() else ""
        self.own.setText(told)
        self.own.setVisible(bool(told))
        for each in (self.back, self.place, self.finish):
            each.setVisible(under_way)
        self.back.setEnabled(self._at > 0)

    def _tell_how(self, how: str) -> None:
        self.how.setText(how)
        self.how.setVisible(bool(how))

    def _show_only(self, asked: Choosing | Sliding | KneeView | None) -> None:
        """Show one of the ways to answer, or none."""
        for way in (self.choosing, self.sliding, self.knee):
            way.setVisible(way is asked)

    def _instead(self, stage: Stage) -> Instead:
        """What the drawings show: of a slider that is tried, its state."""
        shown = self._going.shown_at(stage)
        question, tried = self._question(stage), self._tried.get(stage.step)
        if question is None or stage.part != REVEAL or tried is None:
            return shown
        inputs = set_to(self._going.before(stage.step), question, tried)
        return shown._replace(setup=replace(shown.setup, inputs=inputs))

    def _show_way(self, stage: Stage) -> None:
        """The widget of a question while it is asked, and where it still helps, after it."""
        asked = self._asked(stage) if stage.part in (ASK, REVEAL) else None
        if asked is self.choosing and stage.part == ASK:
            chosen = self._answers.get(stage.step)
            options = self._going.options_at(stage)
            self.choosing.show_options(
                options, None if chosen is None else int(chosen), self._pixels
            )
        elif asked is self.choosing:
            asked = None
        elif asked is self.sliding:
            self._show_slider(stage)
        elif asked is self.knee:
            self._show_knee(stage)
        self._show_only(asked)

    def _show_slider(self, stage: Stage) -> None:
        question = self._question(stage)
        if question is None:
            return
        name = question.inputs[0]
        inputs = self._going.before(stage.step)
        if stage.part == ASK:
            value = self._answers.get(stage.step, inputs.value(name))
        else:
            value = self._tried.get(stage.step, self._going.after(stage.step).value(name))
        ends = question.low, question.high
        self.sliding.show_question(name, ends, value, self._going.lengths)

    def _show_knee(self, stage: Stage) -> None:
        going, question = self._going, self._question(stage)
        if question is None:
            return
        before, after = (
            _frame(Setup(inputs=inputs), "facing", going.limits, going.lengths)
            for inputs in (going.before(stage.step), going.after(stage.step))
        )
        revealed = after if stage.part == REVEAL else None
        self.knee.show_question(before, question.leg, self._answers.get(stage.step), revealed)

    def _write(self) -> None:
        """Give all words their height."""
        usual, heavy = typeface(self._pixels), typeface(self._pixels, QFont.Weight.DemiBold)
        for each in (self.words, self.how, self.own, self.back, self.next, self.finish, self.place):
            each.setFont(usual)
        for each in (self.head, self.verdict):
            each.setFont(heavy)
        for way in (self.choosing, self.sliding):
            way.write(self._pixels)
