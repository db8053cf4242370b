"""Making a lesson: one key records the state in hand; steps are worded, ordered, rehearsed."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Final

from PySide6.QtCore import Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QListWidget, QPushButton, QWidget

from app.features.lessons.making import (
    ASKS,
    Slide,
    asked_of,
    can_contrast,
    file_name,
    slide_of,
    step_line,
    with_asked,
    with_contrast,
    with_question,
    with_slide,
)
from app.features.lessons.model import Going
from app.features.lessons.slide_row import SlideRow
from app.features.lessons.words import answer_words
from app.files.lesson_file import LessonDocument, save_lesson
from app.files.safe_files import FileError
from app.qt.controls.choice_box import ChoiceBox
from app.qt.controls.layout import in_column, in_row
from app.qt.controls.page_words import announce, note
from app.qt.controls.text_field import TextField
from app.qt.controls.typed_text import TypedLines
from app.qt.drafts import settle
from app.qt.literal import Label, button_text, cell_text, show_tip
from app.qt.painting.palette import QUIET
from app.qt.questions import asked_where, told_not_saved
from app.qt.sizes import px
from app.rider.inputs import model
from app.rider.lessons import (
    MOST_STEPS,
    NO_LESSON,
    Lesson,
    Question,
    Step,
    moved_step,
    recorded,
    with_step,
    without_step,
)
from app.session import Session
from app.stance.findings import USUAL_LIMITS, Limits
from app.words.language import msgid, tr
from app.words.reasons import reason_sentence

RECORD_KEY: Final = "F9"
"""Records the state in hand, wherever the keyboard is."""
LEAST_WORDS: Final = 56
"""Height of the words, and of the list of steps (px), at least."""
LONGEST: Final = 2000
"""Letters of one step."""
FILTER: Final = msgid("Lesson (*.json);;All files (*)")


class Recorder(QWidget):
    """Shows the lesson that the set-up carries and asks the session for another one."""

    rehearse = Signal()
    """The lesson is to be gone through."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._at = -1
        self._shown, self._lengths = NO_LESSON, session.lengths
        self._limits = USUAL_LIMITS
        self._folder = ""
        self._build()
        self._connect()
        self._show()

    # Building

    def _build(self) -> None:
        self.title = TextField(self.tr("Title of the lesson"), "title")
        self.title.setPlaceholderText(self.tr("Title of the lesson"))
        self.steps = QListWidget()
        self.steps.setAccessibleName(self.tr("Steps of the lesson"))
        self.record = QPushButton(button_text(self.tr("Record this state ({})").format(RECORD_KEY)))
        self.sooner, self.later = QPushButton(self.tr("Sooner")), QPushButton(self.tr("Later"))
        self.remove = QPushButton(self.tr("Remove"))
        self.again = QPushButton(self.tr("Show this state"))
        show_tip(self.again, self.tr("Make the state of this step the set-up in hand"))
        self.ask = ChoiceBox(self.tr("Tell or ask"), {key: tr(text) for key, text in ASKS.items()})
        # It gives way in a small window; what is chosen stands in its list.
        self.ask.setSizeAdjustPolicy(
            ChoiceBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
        )
        self.ask.setMinimumContentsLength(12)
        self.words = TypedLines(LONGEST)
        self.words.setObjectName("words")
        self.words.setMinimumHeight(px(LEAST_WORDS))
        self.steps.setMinimumHeight(px(LEAST_WORDS))
        self.words.setAccessibleName(self.tr("What is said of this state"))
        self.words.setPlaceholderText(
            self.tr("What is said of this state. {} stands for the live number.").format(
                "{rear_off_plane}"
            )
        )
        self.question = TextField(self.tr("Question"), "question")
        self.question.setPlaceholderText(self.tr("Question"))
        self.slide = SlideRow()
        self.right = note()
        self.right.setForegroundRole(QUIET)
        self.contrast = QCheckBox(self.tr("Then both states once more"))
        show_tip(
            self.contrast, self.tr("After the reveal: how the knees were before, and how they are")
        )
        self.go = QPushButton(self.tr("Rehearse"))
        self.save = QPushButton(self.tr("Save as…", "of a lesson"))
        self.clear = QPushButton(self.tr("Throw away"))
        self.hint = note(
            self.tr(
                "Set a stance, press {}, and say something of it. The lesson is kept in the file "
                "of this set-up; each step can be undone."
            ).format(RECORD_KEY)
        )
        self.hint.setForegroundRole(QUIET)
        left = in_column(
            in_row((self.title, 1), self.record, spacing=6),
            (self.steps, 1),
            in_row(self.sooner, self.later, self.remove, self.again, 1, spacing=6),
            spacing=6,
        )
        right = in_column(
            self._asking(),
            self.question,
            self.slide,
            self.right,
            self.contrast,
            (self.words, 1),
            self.hint,
            in_row(self.go, self.save, 1, self.clear, spacing=6),
            spacing=6,
        )
        in_row((left, 3), (right, 2), of=self, spacing=12)

    def _asking(self) -> QHBoxLayout:
        label = Label(self.tr("At this step"))
        label.setBuddy(self.ask)
        return in_row(label, (self.ask, 1), spacing=6)

    def _connect(self) -> None:
        key = QShortcut(QKeySequence(RECORD_KEY), self)
        key.activated.connect(self.add)
        self.record.clicked.connect(self.add)
        self.title.committed.connect(self._entitle)
        self.steps.currentRowChanged.connect(self.look_at)
        self.sooner.clicked.connect(lambda: self._move(-1))
        self.later.clicked.connect(lambda: self._move(1))
        self.remove.clicked.connect(self._remove)
        self.again.clicked.connect(self._put_on)
        self.ask.chosen.connect(self._set_asked)
        self.question.committed.connect(self._put_question)
        self.slide.asked.connect(self._put_slide)
        self.slide.told.connect(self._tell_right)
        self.contrast.toggled.connect(self._set_contrast)
        self.words.typed.connect(self._say)
        self.go.clicked.connect(self._ask_to_rehearse)
        self.save.clicked.connect(self._ask_and_save)
        self.clear.clicked.connect(lambda: self._take(self.tr("Lesson thrown away"), NO_LESSON))
        self._session.changed.connect(self._follow)

    # Showing

    @property
    def _lesson(self) -> Lesson:
        return self._session.setup.lesson

    def show_judged(self, limits: Limits) -> None:
        """Judge by these limits, and write lengths in the unit chosen."""
        if (self._session.lengths, limits) != (self._lengths, self._limits):
            self._limits = limits
            self._show()

    def _follow(self) -> None:
        """Show another lesson; a drag of a slider changes none."""
        if self._lesson is not self._shown:
            self._show()

    def _show(self) -> None:
        lesson = self._shown = self._lesson
        self._lengths = self._session.lengths
        self._at = min(self._at, len(lesson.steps) - 1)
        self.title.show_text(lesson.title.said)
        self._list(lesson)
        step = self._step
        self.words.show_text(step.say.said if step else "")
        self.ask.show_choice(asked_of(step) if step else "")
        asked = step.question if step else None
        self.question.show_text(asked.ask.said if asked else "")
        self.question.setVisible(asked is not None)
        self._show_slide(lesson, asked)
        self.contrast.setVisible(can_contrast(lesson, self._at))
        self.contrast.blockSignals(True)
        self.contrast.setChecked(step is not None and len(step.cases) == 2)
        self.contrast.blockSignals(False)
        for each in (self.words, self.ask, self.remove, self.again):
            each.setEnabled(step is not None)
        self.sooner.setEnabled(self._at > 0)
        self.later.setEnabled(0 <= self._at < len(lesson.steps) - 1)
        for each in (self.go, self.save, self.clear):
            each.setEnabled(lesson != NO_LESSON)
        self.record.setEnabled(len(lesson.steps) < MOST_STEPS)
        # How to begin is said until one has begun.
        self.hint.setVisible(not lesson.steps)

    def _show_slide(self, lesson: Lesson, asked: Question | None) -> None:
        """What a slider asks for, and where it is right."""
        slides = asked is not None and asked.kind == "slider"
        self.slide.setVisible(slides)
        if asked is None or not slides:
            self._tell_right("")
            return
        state = lesson.inputs_with(lesson.steps[self._at].set)
        self.slide.show_slide(slide_of(asked), state, self._lengths)
        going = Going(lesson, self._limits, self._lengths)
        self._tell_right(answer_words(going, self._at))

    def _tell_right(self, words: str) -> None:
        self.right.setText(words)
        self.right.setVisible(bool(words))

    def _list(self, lesson: Lesson) -> None:
        self.steps.blockSignals(True)
        self.steps.clear()
        for place, _ in enumerate(lesson.steps):
            self.steps.addItem(cell_text(step_line(lesson, place, self._session.lengths)))
        self.steps.setCurrentRow(self._at)
        self.steps.blockSignals(False)

    @property
    def _step(self) -> Step | None:
        steps = self._lesson.steps
        return steps[self._at] if 0 <= self._at < len(steps) else None

    # Asking the session

    def _take(self, what: str, lesson: Lesson, visit: object = None) -> None:
        setup = self._session.setup
        self._session.take(what, replace(setup, lesson=lesson), visit)
        self._show()

    def add(self) -> None:
        """Record the state in hand as the last step, where the legs can be at all."""
        if len(self._lesson.steps) >= MOST_STEPS:
            return
        try:
            model(self._session.inputs)
        except ValueError as error:
            why = reason_sentence(error, self._lengths)
            self._tell_right(why)
            announce(self, why)
            return
        lesson = recorded(self._lesson, self._session.inputs)
        self._at = len(lesson.steps) - 1
        said = self.tr("Step {} of the lesson recorded").format(self._at + 1)
        self._take(said, lesson)
        announce(self, said)

    def _entitle(self, title: str) -> None:
        self._take(
            self.tr("Title of the lesson"),
            replace(self._lesson, title=self._lesson.title.with_said(title)),
        )

    @property
    def at(self) -> int:
        """The step that is looked at; −1 for none."""
        return self._at

    def look_at(self, step: int) -> None:
        """Look at another step; −1 for none."""
        self._at = step
        self._show()

    def _move(self, by: int) -> None:
        lesson = moved_step(self._lesson, self._at, by)
        self._at += by
        self._take(self.tr("Order of the lesson"), lesson)

    def _remove(self) -> None:
        self._take(self.tr("Step of the lesson removed"), without_step(self._lesson, self._at))

    def _put_on(self) -> None:
        """Make a recorded state the set-up in hand, to go on from it."""
        step = self._step
        if step is not None:
            inputs = self._lesson.inputs_with(step.set)
            setup = replace(self._session.setup, inputs=inputs)
            self._session.take(self.tr("State of step {}").format(self._at + 1), setup)

    def _set_asked(self, key: object) -> None:
        step = self._step
        if step is not None:
            asking = with_asked(self._lesson, self._at, str(key))
            self._take(self.tr("Question"), with_step(self._lesson, self._at, asking))

    def _put_question(self, words: str) -> None:
        step = self._step
        if step is not None:
            asking = with_question(step, words)
            self._take(self.tr("Question"), with_step(self._lesson, self._at, asking))

    def _set_contrast(self, contrasts: bool) -> None:
        if self._step is not None:
            step = with_contrast(self._lesson, self._at, contrasts=contrasts)
            self._take(self.tr("Contrasting cases"), with_step(self._lesson, self._at, step))

    def _put_slide(self, slide: Slide) -> None:
        step = self._step
        if step is not None:
            asking = with_slide(step, slide)
            self._take(self.tr("Question"), with_step(self._lesson, self._at, asking))

    def _say(self, words: str, visit: object = None) -> None:
        step = self._step
        if step is not None:
            said = replace(step, say=step.say.with_said(words))
            lesson = with_step(self._lesson, self._at, said)
            self._take(self.tr("Words of the lesson"), lesson, visit)

    def _ask_to_rehearse(self) -> None:
        settle(self)
        self.rehearse.emit()

    def _ask_and_save(self) -> None:
        settle(self)
        suggested = Path(self._folder) / f"{file_name(self._lesson.title.said)}.json"
        path = asked_where(self, self.tr("Save the lesson"), suggested, self.tr(FILTER), ".json")
        if path is None:
            return
        self._folder = str(path.parent)
        try:
            save_lesson(path, LessonDocument(self._lesson))
        except FileError as error:
            if told_not_saved(self, str(error)):
                self._ask_and_save()
            return
        self._session.wrote.emit(path)
