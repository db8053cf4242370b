"""A box of choices that reports what is wanted and shows what holds."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox


class ChoiceBox(QComboBox):
    """Offers values by their words; whoever owns it keeps which of them holds.

    Args:
        name: what is chosen, for assistive programs.
        choices: the words for each value, translated.
    """

    chosen = Signal(object)
    """This value is wanted."""

    def __init__(self, name: str, choices: Mapping[Any, str]) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self.offer(choices)
        self.activated.connect(self._tell)

    def offer(self, choices: Mapping[Any, str]) -> None:
        """Offer other values; nothing is reported."""
        self.clear()
        for value, words in choices.items():
            self.addItem(words, value)

    def show_choice(self, value: object) -> None:
        """Show which value holds; nothing is reported."""
        self.setCurrentIndex(self.findData(value))

    def _tell(self, index: int) -> None:
        self.chosen.emit(self.itemData(index))
