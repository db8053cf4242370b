"""The line over the controls that names the next useful step, and does it when pressed."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QPushButton, QSizePolicy, QToolButton, QWidget

from app.qt.controls.layout import in_row
from app.qt.controls.page_words import announce
from app.qt.literal import Label, show_tip
from app.qt.painting.palette import QUIET
from app.qt.settling import Settling
from app.qt.sizes import px, target_px
from app.session import Session
from app.window.next_steps import Known, NextStep, finished, next_step, words_of
from app.words.language import tr

HEIGHT: Final = 38


class StepLine(QFrame):
    """Shows the first step that is not finished; keeps which ones are, by document."""

    wanted = Signal(str, str)
    """The step is to be done: the page on which that is, and the input to begin with."""

    def __init__(self, session: Session, parent: QWidget) -> None:
        super().__init__(parent)
        self._session = session
        self._done: dict[int, set[str]] = {}
        self._left: dict[int, set[str]] = {}
        self._open = ""
        self._saved = False
        self._step: NextStep | None = None
        self.setFixedHeight(px(HEIGHT))
        self.setAccessibleName(self.tr("Next step"))
        head = Label(self.tr("Next"))
        head.setForegroundRole(QUIET)
        self.go = QPushButton()
        self.go.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.go.clicked.connect(self._want)
        self.put_aside = QToolButton()
        self.put_aside.setText(self.tr("not now"))
        self.put_aside.setAutoRaise(True)
        self.put_aside.setMinimumHeight(target_px(24))
        self.put_aside.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        show_tip(self.put_aside, self.tr("Put this step aside and go on to the one after it"))
        self.put_aside.clicked.connect(self._put_aside)
        in_row(head, (self.go, 1), self.put_aside, of=self, spacing=6, margins=(12, 4, 6, 4))
        self._settling = Settling(self, self._look_at_trials)
        session.changed.connect(self._follow)
        session.drag_ended.connect(self._follow)
        self._show()

    @property
    def taken_note_of(self) -> tuple[dict[int, set[str]], dict[int, set[str]]]:
        """The steps that are finished or put aside, and the pages that were left, by document."""
        return self._done, self._left

    def take_note_of(self, noted: tuple[dict[int, set[str]], dict[int, set[str]]]) -> None:
        """Go on with what another line has taken note of."""
        self._done, self._left = noted
        self._show()

    def show_page(self, title: str) -> None:
        """Take note of the page that is open now, "" for none: one that was left was seen."""
        if self._open and self._open != title:
            self._left.setdefault(self._session.source, set()).add(self._open)
        self._open = title
        self._show()

    def show_saved(self, *, saved: bool) -> None:
        """Take note of whether the set-up in hand stands in a file."""
        if saved != self._saved:
            self._saved = saved
            self._show()

    def _follow(self) -> None:
        if not self._session.dragging:
            self._show()

    def _show(self, *, enough: bool = False) -> None:
        session, source = self._session, self._session.source
        done = self._done.setdefault(source, set())
        left = self._left.get(source, set())
        done |= finished(Known(session.setup, session.start, left, self._saved, enough))
        before, self._step = self._step, next_step(done)
        self.setVisible(self._step is not None)
        if self._step is not None:
            words = words_of(self._step, session.setup)
            self.go.setText(words)
            spoken = self.tr("Next: {}").format(words)
            self.go.setAccessibleName(spoken)
            show_tip(self.go, tr(self._step.help))
            if before is not None and before is not self._step:
                announce(self, spoken)
        at_trials = self._step is not None and self._step.key == "log"
        self._settling.follow(stale=at_trials, dragging=session.dragging)

    def _look_at_trials(self) -> None:
        """Find out whether the trials have found what they are for; slow, so not at once."""
        from app.stance.own import outlook_of  # noqa: PLC0415

        try:
            legs = outlook_of(self._session.setup)
        except ValueError:
            return  # no posture: the trials say nothing of it
        if all(leg.cant.settled for leg in legs):
            self._show(enough=True)

    def _want(self) -> None:
        if self._step is not None:
            self.wanted.emit(self._step.page, self._step.field)

    def _put_aside(self) -> None:
        if self._step is not None:
            self._done.setdefault(self._session.source, set()).add(self._step.key)
            self._show()
