"""The line under the plots of the bend: what to begin with, and what it does over the bend."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from app.features.answer.put_button import put_on, update_apply_button
from app.frame import Frame
from app.qt.background import Unhurried
from app.qt.controls.elided import Elided
from app.qt.controls.page_words import caution_note
from app.qt.controls.steady_button import SteadyButton
from app.qt.literal import Label, say_about
from app.qt.painting.palette import LEG
from app.qt.sizes import px
from app.session import Session
from app.stance.answer import Answer, FootAnswer, answer_of
from app.stance.answer_words import both_words, knee_words
from app.stance.findings import Limits
from app.stance.needs import with_mounts
from app.words.language import tr
from app.words.reasons import reason_phrase
from app.words.sentences import as_sentence
from geometry.fitting.steps import Steps


class AnswerLine(QWidget):
    """Shows what to begin with; it is sought in a quiet time."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._frame: Frame | None = None
        self._answer: tuple[Frame, Answer] | None = None
        self._search = Unhurried(self)
        self._search.done.connect(self._take)
        self._build()

    def _build(self) -> None:
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(px(12))
        self.lines = {leg: Elided() for leg in LEG}
        self.put = SteadyButton(self.tr("Put both on"))
        self.put.clicked.connect(self._put)
        self.put.setEnabled(False)
        words = QVBoxLayout()
        words.setSpacing(0)
        for leg, line in self.lines.items():
            line.setForegroundRole(LEG[leg])
            line.tell("…")  # while it is worked out
            line.setMinimumHeight(line.fontMetrics().height())
            words.addWidget(line)
        words.addWidget(caution_note())
        row.addWidget(Label(self.tr("Begin with")))
        row.addLayout(words, 1)
        row.addWidget(self.put)

    def show_frame(self, frame: Frame, *, dragging: bool) -> None:
        """Show what suits a set-up, or what suited it a moment ago, fainter."""
        self._frame = frame
        if self._is_stale and not dragging:
            self._search.submit(_steps(frame, frame.limits))
        else:
            self._search.drop()
        self._show()

    @property
    def _is_stale(self) -> bool:
        if self._frame is None or self._answer is None:
            return True
        known = self._answer[0]
        return (known.setup, known.limits) != (self._frame.setup, self._frame.limits)

    def _take(self, found: tuple[Frame, Answer]) -> None:
        self._answer = found
        self._show()

    def _show(self) -> None:
        stale = self._is_stale
        for line in self.lines.values():
            line.setEnabled(not stale)
        self.put.setEnabled(False)
        if self._answer is None or self._frame is None or stale:
            return
        answer = self._answer[1]
        said = {foot.name: self._said(foot, answer) for foot in answer.feet}
        for name, words in said.items():
            self.lines[name].tell(words)
        say_about(self, " ".join(said.values()))
        if answer.exists:
            update_apply_button(self.put, answer.mounts, self._frame.setup)

    def _said(self, foot: FootAnswer, answer: Answer) -> str:
        if not foot.exists:
            return as_sentence(reason_phrase(foot.why_not))
        now = knee_words(foot.now, answer)
        # Over which bend stands there once.
        then = tr("in its plane") if foot.then.in_plane else knee_words(foot.then, answer)
        return self.tr("{}; knee {} → {}").format(both_words(foot.begin), now, then)

    def _put(self) -> None:
        if self._answer is None or self._is_stale:
            return
        mounts = self._answer[1].mounts
        after = with_mounts(self._session.setup, mounts)
        put_on(self, self._session, tr("To begin with"), after, mounts)


def _steps(frame: Frame, limits: Limits) -> Steps[tuple[Frame, Answer]]:
    """The answer of a frame, in one step."""
    yield
    return frame, answer_of(frame.setup, limits)
