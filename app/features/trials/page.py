"""The page of trials: the log, the form for one of them, and what follows for both legs."""

from __future__ import annotations

from datetime import date
from typing import Final

from PySide6.QtCore import QSignalBlocker
from PySide6.QtWidgets import QCheckBox, QPushButton, QWidget

from app.features.answer.put_button import put_on, update_apply_button
from app.features.trials.form import Told, TrialForm, told_in
from app.features.trials.model import (
    LEGS,
    OF_PARTS,
    all_found,
    likely_words,
    mounts_to_put,
    next_words,
    source_words,
    tells_lift,
    with_changed_trial,
    with_trial,
    without_trial,
)
from app.features.trials.table import TrialTable
from app.files.drafts import Draft
from app.frame import Frame
from app.qt.controls.choice_box import ChoiceBox
from app.qt.controls.first_actions import FirstActions
from app.qt.controls.layout import grid_of, in_column, in_row
from app.qt.controls.page_words import PAD, caution_note, note
from app.qt.controls.plain_area import PlainArea
from app.qt.controls.steady_button import SteadyButton
from app.qt.drafts import Editor
from app.qt.literal import Label, Markup, markup
from app.qt.settling import Settling
from app.qt.sizes import px
from app.qt.themes import current_theme, follow_theme
from app.rider.setup import Setup
from app.rider.trials import STEPS_DEG, Entry, entry_of, felt_word
from app.session import Session
from app.stance.findings import USUAL_LIMITS
from app.stance.needs import with_mounts
from app.stance.own import USUAL_STEP_DEG, LegOutlook, Own, outlook_of, parts_step_deg
from app.words.language import msgid, tr
from app.words.lengths import IN_MM
from app.words.units import DEGREES, amount

FORM_WIDTH: Final = 322
LEAST_TABLE: Final = 96
"""Height of the log: a heading and two trials, or why there are none (px)."""
_LEG: Final = "<span style='color:{ink}; font-weight:600'>{name}</span> {told}"
_BOTH: Final = "{cant}<br>{lift}"
_OWN: Final = "<span style='font-weight:500'>{next}</span> {rest}"
_BEYOND: Final = {
    "front": msgid("Go on beyond, for the front leg"),
    "rear": msgid("Go on beyond, for the rear leg"),
}
_NAMES: Final = {"front": msgid("Front leg."), "rear": msgid("Rear leg.")}


class TrialsPage(Editor, QWidget):
    """Keeps the log and says what it teaches.

    What is told of a trial that is not added yet waits in the form: it belongs to the
    stance in which it is added, so nothing but its button adds it.
    """

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._setup: Setup | None = None
        self._in_hand: Entry | None = None
        self._draft = Told(date.today().isoformat())
        self._agreed: set[str] = set()
        self._outlook: tuple[LegOutlook, ...] = ()
        self._step: float | None = USUAL_STEP_DEG
        self._parts_step: float | None = None
        self._told_of: Setup | None = None
        self._limits = USUAL_LIMITS
        self._told_as = IN_MM, ""
        self._settling = Settling(self, self._compute)
        self._build()
        self._connect()
        follow_theme(self._say)

    # Building

    def _build(self) -> None:
        self.table = TrialTable()
        self.table.setMinimumHeight(px(LEAST_TABLE))
        self.form = TrialForm(self._draft.date)
        self.form.setFixedWidth(px(FORM_WIDTH))
        self.begin = SteadyButton(self.tr("Put on what to begin with"))
        self.say = QPushButton(self.tr("Say how it feels"))
        self.first = FirstActions(self.table, self.table.empty_words, self.begin, self.say)
        grid = grid_of(self, (16, 8), margins=(8, 8, 12, 8))
        grid.addWidget(self.table, 0, 0, 1, 2)
        grid.addWidget(self.form, 1, 0)
        grid.addWidget(self._outlook_column(), 1, 1)
        grid.setColumnStretch(1, 1)
        grid.setRowStretch(0, 1)

    def _outlook_column(self) -> QWidget:
        self.words = {leg: note() for leg in LEGS}
        self.agree = {leg: QCheckBox(tr(_BEYOND[leg])) for leg in LEGS}
        self.step = ChoiceBox(self.tr("Step in which the parts at hand set a cant"), {})
        self.step.setSizeAdjustPolicy(ChoiceBox.SizeAdjustPolicy.AdjustToContents)
        self._offer_steps()
        self.step_source = note()
        self.step_source.hide()
        self.put = SteadyButton(self.tr("Try next"))
        side, inside = QWidget(), QWidget()
        legs = [widget for leg in LEGS for widget in (self.words[leg], self.agree[leg])]
        in_column(*legs, 1, of=inside, spacing=2, margins=(0, 0, PAD, 0))
        told = PlainArea(inside, self.tr("What the trials say"))
        row = in_row(Label(self.tr("Steps of")), self.step, (self.put, 1), spacing=6)
        in_column((told, 1), self.step_source, row, caution_note(), of=side, spacing=2)
        return side

    def _offer_steps(self) -> None:
        """Offer the steps, those of the parts first (None), where the parts make any."""
        of_parts = {} if self._parts_step is None else {None: tr(OF_PARTS, "steps of")}
        self.step.offer(of_parts | {step: amount(step, DEGREES) for step in STEPS_DEG})
        self.step.show_choice(self._step)

    def _connect(self) -> None:
        self.table.chosen.connect(self._choose)
        self.table.delete_requested.connect(self._delete)
        self.form.told.connect(self._tell)
        self.form.added.connect(self._add)
        self.form.deleted.connect(self._delete)
        self.form.deselect_requested.connect(lambda: self._choose(-1))
        self.step.chosen.connect(self._choose_step)
        for leg in LEGS:
            self.agree[leg].toggled.connect(lambda yes, leg=leg: self._agree(leg, yes))
        self.put.clicked.connect(self._put)
        self.begin.clicked.connect(self._put)
        self.say.clicked.connect(self.take_keyboard)

    # Showing

    def show_frame(self, frame: Frame, *, dragging: bool) -> None:
        """Show the log of the set-up in hand; what follows from it when nothing is dragged."""
        setup, before = frame.setup, self._setup
        self._setup = setup
        if frame.limits != self._limits:
            # What to begin with stands within other limits now.
            self._limits, self._told_of = frame.limits, None
        if before is None or setup.parts != before.parts:
            self._take_parts(parts_step_deg(setup.parts))
        logged = before is None or setup.trials != before.trials
        if logged:
            self._agreed.clear()
            if self._in_hand not in setup.trials:
                self._in_hand = None
        told = frame.lengths, setup.inputs.lead_foot
        if logged or told != self._told_as:
            self._told_as = told
            self._show_log(setup)
        if logged and not dragging:
            self._compute()
        self._settling.follow(stale=setup != self._told_of, dragging=dragging)
        self._mark_stale()

    def _take_parts(self, made: float | None) -> None:
        """Take the step that the parts make; one chosen by hand holds while that stays."""
        if made == self._parts_step:
            return
        self._parts_step = made
        if made is not None:
            self._step = None
        elif self._step is None:
            self._step = USUAL_STEP_DEG
        self._offer_steps()

    def _choose_step(self, step: float | None) -> None:
        self._step = step
        self._compute()

    def _show_log(self, setup: Setup) -> None:
        which = self._which(setup)
        self.table.show_trials(setup.trials, setup.inputs.lead_foot, which, self._told_as[0])
        told = self._draft if self._in_hand is None else _told_in(self._in_hand)
        self.form.show_told(told, in_hand=self._in_hand is not None)
        self.first.show_when(empty=not setup.trials)

    def _which(self, setup: Setup) -> int:
        return setup.trials.index(self._in_hand) if self._in_hand in setup.trials else -1

    def _compute(self) -> None:
        """What the trials say of the stance in hand."""
        self._settling.stop()
        if self._setup is not None:
            self._outlook = outlook_of(self._setup, self._step, self._agreed, self._limits)
            self._told_of = self._setup
            self.step_source.setText(source_words(self._parts_step, self._step))
            self.step_source.setVisible(self._parts_step is not None)
            self._say()
            self._mark_stale()

    def _mark_stale(self) -> None:
        """What follows is faint, and not to be had, while it is that of another stance."""
        current = self._setup == self._told_of
        for words in self.words.values():
            words.setEnabled(current)
        if not current:
            self.put.setEnabled(False)
            self.begin.setEnabled(False)

    def _say(self) -> None:
        for leg in self._outlook:
            self.words[leg.name].setText(self._in_html(leg))
            box = self.agree[leg.name]
            box.setVisible(leg.asks or leg.name in self._agreed)
            with QSignalBlocker(box):
                box.setChecked(leg.name in self._agreed)
        found = all_found(self._outlook)
        self.put.setText(self.tr("Use comfortable") if found else self.tr("Try next"))
        if self._setup is not None and self._setup == self._told_of:
            mounts = mounts_to_put(self._setup, self._outlook)
            update_apply_button(self.put, mounts, self._setup)
            update_apply_button(self.begin, mounts, self._setup)

    def _in_html(self, leg: LegOutlook) -> Markup:
        """What follows for one leg: its name in its colour, the next cant and lift, the rest."""
        name, ink = tr(_NAMES[leg.name]), current_theme().leg_text(leg.name)
        told = _own_html(leg.cant)
        if self._setup is not None and tells_lift(self._setup, leg):
            told = markup(_BOTH, cant=told, lift=_own_html(leg.lift))
        return markup(_LEG, ink=ink, name=name, told=told)

    # Asking

    def _choose(self, row: int) -> None:
        """Take a trial of the log in hand, or none."""
        if self._setup is not None:
            self._in_hand = self._setup.trials[row] if row >= 0 else None
            self._show_log(self._setup)

    def _add(self) -> None:
        told, inputs = self._draft, self._session.inputs
        entry = entry_of(inputs, told.date, told.felt, notes=told.notes, boots=told.boots)
        self._keep_draft(Told(date.today().isoformat()))
        self._take(self.tr("Trial of {} added"), entry, with_trial(self._session.setup, entry))

    def _delete(self) -> None:
        entry, setup = self._in_hand, self._session.setup
        if entry is not None and entry in setup.trials:
            self._in_hand = None
            without = without_trial(setup, setup.trials.index(entry))
            self._take(self.tr("Trial of {} deleted"), entry, without)

    def _tell(self, what: str, told: Told) -> None:
        """Keep what was said: of the trial in hand, or of one to be added."""
        entry, setup = self._in_hand, self._session.setup
        if entry is None or entry not in setup.trials:
            self._keep_draft(told)
            self.form.show_told(told, in_hand=False)
            return
        self._in_hand = told.into(entry)
        changed = with_changed_trial(setup, setup.trials.index(entry), self._in_hand)
        self._take(self.tr("Trial of {}: {}").format("{}", what), self._in_hand, changed)

    def _take(self, what: str, entry: Entry, setup: Setup) -> None:
        self._session.take(what.format(entry.date), setup)

    # What is not added yet

    def finish(self) -> None:
        """Leave what is told of a new trial in the form, and say what it waits for."""
        if self.draft is not None:
            self._keep_draft(self._draft)

    def resume(self, draft: Draft) -> None:
        """Let what was told of a new trial stand in the form again."""
        self._keep_draft(told_in(draft.detail, self._draft))
        self._choose(-1)

    def forget(self) -> None:
        """Let what is told of a new trial go."""
        self._keep_draft(Told(date.today().isoformat()))
        if self._setup is not None:
            self._show_log(self._setup)

    def take_keyboard(self) -> None:
        """Have the keyboard in the form of the new trial."""
        self._choose(-1)
        self.form.take_keyboard()

    def _keep_draft(self, told: Told) -> None:
        """Have this told of a trial that is not added yet."""
        self._draft = told
        if told == Told(told.date):
            self.keep(None)
            return
        waits = (
            self.tr("it is added by its button")
            if told.complete
            else self.tr("it waits for what both legs felt")
        )
        words = ", ".join(filter(None, (*map(_felt, told.felt), told.notes))) or told.date
        label = self.tr("Trial of {}, not added").format(told.date)
        self.keep(words, waits, label=label, detail=told.as_text())

    def _agree(self, leg: str, yes: bool) -> None:
        (self._agreed.add if yes else self._agreed.discard)(leg)
        self._compute()

    def _put(self) -> None:
        """Put on what comes next, or what was found; far beyond what was tried is asked about."""
        setup = self._session.setup
        mounts = mounts_to_put(setup, self._outlook)
        what = self.tr("Comfortable angles") if all_found(self._outlook) else self.tr("To try next")
        put_on(self, self._session, what, with_mounts(setup, mounts), mounts)


def _own_html(own: Own) -> Markup:
    """What to put on in words that stand out, and what is behind it."""
    return markup(_OWN, next=next_words(own), rest=likely_words(own))


def _felt(verdict: str) -> str:
    return felt_word(verdict) if verdict else ""


def _told_in(entry: Entry) -> Told:
    return Told(entry.date, entry.felt, entry.boots, entry.notes)
