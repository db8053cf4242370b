"""The form for one trial: when, what each leg felt, where its boot pressed, and notes."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import Any, Final, NamedTuple

from PySide6.QtCore import QDate, QEvent, QSignalBlocker, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPaintEvent
from PySide6.QtWidgets import QDateEdit, QPushButton, QWidget

from app.features.trials.model import LEGS
from app.files.drafts import Draft
from app.qt.controls.draft_mark import describe, paint_edge
from app.qt.controls.entry_row import PAD
from app.qt.controls.layout import in_column, in_row
from app.qt.controls.switch import Choice, SwitchRow
from app.qt.controls.text_field import TextField
from app.qt.drafts import Editor
from app.qt.literal import Label
from app.rider.trials import HOLDS, NOT_SAID, VERDICTS, Entry, felt_word, held_word, is_date
from app.words.language import msgid, tr

_DATE: Final = "yyyy-MM-dd"
_EARLIEST: Final = QDate(100, 1, 1)
_HELP: Final = {
    "bow-legged": msgid("The leg was pushed outward, as if it wanted more inward cant."),
    "even": msgid("The leg stood as it likes to."),
    "knock-kneed": msgid("The leg was pushed inward, as if it wanted more outward cant."),
}
_PRESSED: Final = {
    "calf": msgid("The boot pressed at the calf, as if the leg wanted more toe lift."),
    "even": msgid("The boot held the leg as it likes to stand."),
    "shin": msgid("The boot pressed at the shin, as if the leg wanted more heel lift."),
}
_ASKED: Final = {
    "front": (msgid("Front leg felt"), msgid("Front boot pressed")),
    "rear": (msgid("Rear leg felt"), msgid("Rear boot pressed")),
}
"""What stands beside the switches of a leg."""
_FELT_CHANGED: Final = {"front": msgid("front leg felt"), "rear": msgid("rear leg felt")}
_BOOT_CHANGED: Final = {"front": msgid("front boot pressed"), "rear": msgid("rear boot pressed")}


class Told(NamedTuple):
    """What a form says.

    Attributes:
        date: as "2026-01-31".
        felt: of front and rear leg; :data:`NOT_SAID` where not said yet.
        boots: where they pressed; :data:`NOT_SAID` where not said.
        notes: anything else.
    """

    date: str
    felt: tuple[str, str] = (NOT_SAID, NOT_SAID)
    boots: tuple[str, str] = (NOT_SAID, NOT_SAID)
    notes: str = ""

    @property
    def complete(self) -> bool:
        """Whether both legs have been asked."""
        return NOT_SAID not in self.felt

    def as_text(self) -> str:
        """All of it, for :func:`told_in`."""
        return json.dumps(self._asdict())

    def into(self, entry: Entry) -> Entry:
        """The trial with all that the form says."""
        return replace(entry, date=self.date, felt=self.felt, boots=self.boots, notes=self.notes)


def told_in(text: str, otherwise: Told) -> Told:
    """What a text of :meth:`Told.as_text` says; something else where it says nothing."""
    try:
        raw: dict[str, Any] = {
            name: tuple(value) if isinstance(value, list) else value
            for name, value in json.loads(text).items()
        }
        told = Told(**raw)
    except (ValueError, TypeError, AttributeError):
        return otherwise
    known = {"felt": {NOT_SAID, *VERDICTS}, "boots": {NOT_SAID, *HOLDS}}
    sound = all(
        set(getattr(told, name)) <= words and len(getattr(told, name)) == len(LEGS)
        for name, words in known.items()
    )
    return told if sound and is_date(told.date) and isinstance(told.notes, str) else otherwise


class DateField(Editor, QDateEdit):
    """Shows a day and reports the one typed, once, when it is finished.

    Only days can be typed, so none is refused; Escape brings back the one in force.

    Args:
        name: what day it is, for assistive programs.
    """

    committed = Signal(str)
    """This day was typed, as "2026-01-31"."""

    def __init__(self, name: str) -> None:
        super().__init__()
        self._shown = ""
        self.setObjectName("trial date")
        self.setDisplayFormat(_DATE)
        self.setMinimumDate(_EARLIEST)
        self.setAccessibleName(name)
        self.lineEdit().textEdited.connect(self._type)
        self.dateChanged.connect(lambda date: self._type(date.toString(_DATE)))
        self.editingFinished.connect(self.finish)

    def show_date(self, date: str) -> None:
        """Show a day; nothing is reported."""
        self._shown = date
        if self.draft is None:
            self.forget()

    def finish(self) -> None:
        """Report the day typed, if one was."""
        if self.draft is not None:
            self.interpretText()
            self._shown = self.date().toString(_DATE)
            self.forget()
            self.committed.emit(self._shown)

    def resume(self, draft: Draft) -> None:
        """Let a day stand here that was typed and not entered before."""
        self.setDate(QDate.fromString(draft.text, _DATE))

    def forget(self) -> None:
        """Let what is typed go, and show what is in force."""
        with QSignalBlocker(self):
            self.setDate(QDate.fromString(self._shown, _DATE))
        self._type(self._shown)

    def _type(self, text: str) -> None:
        if self._shown:
            self.keep(None if text == self._shown else text)
            describe(self, "")
            self.update()

    def event(self, event: QEvent) -> bool:
        """Keep Escape while typing."""
        escape = isinstance(event, QKeyEvent) and event.key() == Qt.Key.Key_Escape
        if escape and event.type() == QEvent.Type.ShortcutOverride and self.draft is not None:
            event.accept()
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        """Take typing back with Escape."""
        if event.key() == Qt.Key.Key_Escape and self.draft is not None:
            self.forget()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802
        """Show what is typed and not entered as that."""
        super().paintEvent(event)
        if self.draft is not None:
            paint_edge(self, focus=self.hasFocus())


class TrialForm(QWidget):
    """Shows what is said of a trial and reports every change of it."""

    told = Signal(str, object)
    """What was changed, as the end of a sentence, and all that the form says now."""
    added = Signal()
    """What the form says shall be a new trial."""
    deleted = Signal()
    """The trial in hand shall go."""
    deselect_requested = Signal()
    """No trial shall be in hand, so that a new one can be told."""

    def __init__(self, today: str) -> None:
        super().__init__()
        self._told = Told(today)
        self._build()
        self._connect()
        self.show_told(self._told, in_hand=False)

    def _build(self) -> None:
        self.date = DateField(self.tr("Date of the trial"))
        self.notes = TextField(self.tr("Notes on the trial"), "trial notes")
        self.notes.setPlaceholderText(self.tr("snow or carpet, notes"))
        feelings = [Choice(key, felt_word(key), tr(_HELP[key])) for key in VERDICTS]
        sides = [Choice(key, held_word(key), tr(_PRESSED[key])) for key in HOLDS]
        self.felt = {leg: SwitchRow(leg, tr(felt), feelings) for leg, (felt, _) in _ASKED.items()}
        self.boots = {
            leg: SwitchRow(leg, tr(pressed), sides) for leg, (_, pressed) in _ASKED.items()
        }
        self.add = QPushButton()
        self.delete = QPushButton(self.tr("Delete this trial"))
        self.back = QPushButton(self.tr("Tell a new one"))
        head, foot = (
            in_row(*each, spacing=6, margins=(PAD, 0, PAD, 0))
            for each in (
                (Label(self.tr("Trial of")), self.date, self.notes),
                (self.add, self.delete, self.back),
            )
        )
        legs = [row for leg in LEGS for row in (self.felt[leg], self.boots[leg])]
        in_column(head, *legs, foot, of=self, spacing=3)

    def _connect(self) -> None:
        self.date.committed.connect(self._tell_date)
        self.notes.committed.connect(self._tell_notes)
        for i, leg in enumerate(LEGS):
            self.felt[leg].chosen.connect(lambda key, i=i: self._tell_felt(i, key))
            self.boots[leg].chosen.connect(lambda key, i=i: self._tell_boot(i, key))
        self.add.clicked.connect(self.added)
        self.delete.clicked.connect(self.deleted)
        self.back.clicked.connect(self.deselect_requested)

    def take_keyboard(self) -> None:
        """Have the keyboard where a trial is told first."""
        self.felt[LEGS[0]].segments[0].setFocus(Qt.FocusReason.TabFocusReason)

    def show_told(self, told: Told, *, in_hand: bool) -> None:
        """Show what is said of a trial; nothing is reported.

        Args:
            told: what is said.
            in_hand: whether it is said of a trial in the log, not of one to be added.
        """
        self._told = told
        self.date.show_date(told.date)
        self.notes.show_text(told.notes)
        for i, leg in enumerate(LEGS):
            _show(self.felt[leg], told.felt[i])
            _show(self.boots[leg], told.boots[i])
        self.add.setVisible(not in_hand)
        self.add.setEnabled(told.complete)
        ready, not_yet = self.tr("Add trial of the stance in hand"), self.tr("Say what both felt")
        self.add.setText(ready if told.complete else not_yet)
        self.delete.setVisible(in_hand)
        self.back.setVisible(in_hand)

    def _tell_date(self, date: str) -> None:
        self._tell(tr("date"), self._told._replace(date=date))

    def _tell_notes(self, notes: str) -> None:
        self._tell(tr("notes"), self._told._replace(notes=notes))

    def _tell_felt(self, leg: int, key: str) -> None:
        felt = _with(self._told.felt, leg, key)
        self._tell(tr(_FELT_CHANGED[LEGS[leg]]), self._told._replace(felt=felt))

    def _tell_boot(self, leg: int, key: str) -> None:
        boots = _with(self._told.boots, leg, key)
        self._tell(tr(_BOOT_CHANGED[LEGS[leg]]), self._told._replace(boots=boots))

    def _tell(self, what: str, told: Told) -> None:
        if told != self._told:
            self.told.emit(what, told)


def _show(row: SwitchRow, key: str) -> None:
    """What was said, or that nothing was."""
    if key == NOT_SAID:
        row.show_none()
    else:
        row.show_choice(key)


def _with(pair: tuple[str, str], which: int, word: str) -> tuple[str, str]:
    return (word, pair[1]) if which == 0 else (pair[0], word)
