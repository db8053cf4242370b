"""Start from your height: what a newcomer knows of the body, before measuring."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from app.qt.controls.entry_row import PAD, EntryRow
from app.qt.controls.page_words import note
from app.qt.controls.section import Section
from app.qt.controls.switch import Choice, SwitchRow
from app.qt.sizes import px
from app.rider.inputs import FIELD
from app.rider.setup import FIGURES, KNOWN_FIELDS, Known
from app.words.field import Field
from app.words.language import msgid, tr, within
from app.words.scale import scale_of
from app.words.sentences import listed

_FIGURES_HELP: Final = {
    "either": msgid("Between men's and women's figures, with an error that allows for both."),
    "men": msgid("Estimate from the published figures of men."),
    "women": msgid("Estimate from the published figures of women."),
}
_FIGURES: Final = {
    "either": msgid("either"),
    "men": msgid("men"),
    "women": msgid("women"),
}


class KnownRow(EntryRow):
    """One thing that may be known of the body, in a field that may stand empty."""

    known = Signal(str, object)
    """The value of this name is now known, or is None."""

    def __init__(self, field: Field, parent: QWidget | None = None, *, stacks: bool = True) -> None:
        super().__init__(field, stacks=stacks, parent=parent)
        self._value: float | None = None
        self.number.allow_empty(self.tr("not known"))
        self.number.committed.connect(lambda value: self.known.emit(self.name, value))
        self.number.emptied.connect(lambda: self.known.emit(self.name, None))
        self.number.stepped.connect(self._step)
        self.rescale()

    def show_value(self, value: float | None) -> None:
        """Show a value or none; nothing is reported."""
        self._value = value
        self.number.show_value(value)

    def rescale(self) -> None:
        scale = scale_of(self.field, self._lengths)
        self.take_scale(scale, self.tr("From {}, or empty.").format(scale.range_text))

    def _step(self, count: int, kind: int) -> None:
        if self._value is not None:
            self.known.emit(self.name, self._scale.stepped(self._value, count, kind))


class HeightBox(Section):
    """Asks what is known of the body; changes nothing by itself."""

    known = Signal(str, object)
    """The value of this name in :class:`~app.rider.setup.Known` is now this, or None."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(self.tr("Start from your height"), minor=True, parent=parent)
        self._known: Known | None = None
        self._kept: tuple[str, ...] | None = None
        self.rows = {field.name: KnownRow(field, self) for field in KNOWN_FIELDS}
        choices = [
            Choice(key, self.tr(_FIGURES[key]), self.tr(_FIGURES_HELP[key])) for key in FIGURES
        ]
        self.figures = SwitchRow("figures", self.tr("Figures of"), choices, self)
        for row in self.rows.values():
            row.known.connect(self.known)
            self.add(row)
        self.figures.chosen.connect(lambda key: self.known.emit("figures", key))
        self.add(self.figures)
        self.kept = note()
        self.kept.setContentsMargins(px(PAD), px(2), px(PAD), px(4))
        self.add(self.kept)
        self.show_kept([])
        self.set_open(False)

    def show_known(self, known: Known) -> None:
        """Show what is known; nothing is reported."""
        if known == self._known:
            return
        self._known = known
        for name, row in self.rows.items():
            row.show_value(getattr(known, name))
        self.figures.show_choice(known.figures)

    def show_kept(self, names: Sequence[str]) -> None:
        """Say which dimensions stay what they are, since they were measured."""
        if tuple(names) == self._kept:
            return
        self._kept = tuple(names)
        if names:
            labels = listed([within(FIELD[name].label) for name in names])
            self.kept.setText(tr("Stays as it was measured: {names}.", names=labels))
        self.kept.setVisible(bool(names))

    def refuse(self, name: str, value: object, details: str) -> None:
        """Say that a length contradicts another; the old one is in force, what was typed stays."""
        row = self.rows[name]
        row.show_value(getattr(self._known, name))
        typed = row.number.words_of(value) if isinstance(value, float) else ""
        why = self.tr("does not fit the others")
        row.number.keep_refused(why)
        row.refuse(typed, why, details)
