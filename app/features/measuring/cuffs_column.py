"""The first thing to measure with: what was done about the boots' cuffs, one of three."""

from __future__ import annotations

from functools import partial
from typing import Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QRadioButton, QWidget

from app.qt.controls.layout import in_column
from app.qt.controls.page_words import heading, note
from app.rider.cuffs import cuff_advice, cuff_state_words
from app.rider.setup import CUFFS, Setup
from app.words.language import msgid

CUFFS_GUIDE: Final = (
    (
        msgid("Stand"),
        msgid(
            "In the boots, closed as for riding, legs straight, the soles parallel and as far "
            "apart as the legs come to stand by themselves, weight on both."
        ),
    ),
    (
        msgid("Look at"),
        msgid(
            "The soles: are the cuffs adjusted so that both lie flat? Then a sheet of paper slips "
            "under neither edge of them."
        ),
    ),
    (
        msgid("If not"),
        msgid(
            "Have a boot fitter turn the cuffs until both soles do, before anything else is "
            "measured. Boots whose cuffs cannot be turned are left as they are."
        ),
    ),
)
"""Headings and what stands under them."""


class CuffsColumn(QWidget):
    """Asks what was done about the cuffs; changes nothing itself."""

    chosen = Signal(str)
    """This, one of :data:`CUFFS`, is what was done."""

    def __init__(self) -> None:
        super().__init__()
        self.buttons = {key: QRadioButton(cuff_state_words(key)) for key in CUFFS}
        for key, button in self.buttons.items():
            button.clicked.connect(partial(self._choose, key))
        self.advice = note()
        title = heading(self.tr("The boots’ cuffs"))
        in_column(title, *self.buttons.values(), self.advice, 1, of=self, spacing=4)

    def _choose(self, key: str) -> None:
        self.chosen.emit(key)

    def show_setup(self, setup: Setup) -> None:
        """Show what was done; nothing is reported."""
        self.buttons[setup.cuffs].setChecked(True)
        self.advice.setText(cuff_advice(setup))
