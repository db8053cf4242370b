"""What the rider is ready to stand in, how many candidates that makes, and the search's state."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QProgressBar, QPushButton, QWidget

from app.features.parts.reaching import wish_words
from app.features.parts.wishes import SPANS, WISH_FIELDS, Wishes
from app.qt.controls.layout import grid_of, in_column
from app.qt.controls.page_words import note
from app.qt.controls.typed_row import PlainNumber
from app.qt.literal import Label, say_about
from app.qt.sizes import px
from app.words.language import tr
from app.words.lengths import IN_MM, Lengths

WIDTH: Final = 232
_WHOLE: Final = 1000
"""The progress bar's end."""


class ReachLimits(QWidget):
    """A column of limits over the button that searches."""

    asked = Signal(str, float)
    """The limit of this name shall be this."""
    told = Signal(str)
    """Why what was typed is not taken; "" when that has been read."""

    def __init__(self) -> None:
        super().__init__()
        self.setFixedWidth(px(WIDTH))
        self.numbers: dict[str, PlainNumber] = {}
        self._lengths = IN_MM
        self.round = QPushButton(self.tr("Limits round the present stance"))
        self.count = note()
        self.count.setMinimumHeight(px(68))
        self.progress = QProgressBar()
        self.progress.setTextVisible(False)
        self.progress.setFixedHeight(px(8))
        self.progress.setRange(0, _WHOLE)
        self.progress.setAccessibleName(self.tr("How far the search is"))
        self.go = QPushButton(self.tr("Search"))
        spans = self._spans()
        in_column(spans, self.round, self.count, 1, self.progress, self.go, of=self, spacing=6)

    def _spans(self) -> QGridLayout:
        """A line for each limit: what it is, the least and the most."""
        grid = grid_of(None, (6, 3))
        for row, (name, ends) in enumerate(WISH_FIELDS.items()):
            grid.addWidget(Label(tr(SPANS[name], "as a limit")), row, 0)
            for place, field in enumerate(ends):
                number = PlainNumber(field)
                number.asked.connect(self.asked)
                number.told.connect(self.told)
                self.numbers[field.name] = number
                grid.addWidget(number, row, 1 + 2 * place)
            grid.addWidget(Label(tr("to", "between two limits")), row, 2)
        grid.setColumnStretch(0, 1)
        return grid

    def show_lengths(self, lengths: Lengths) -> None:
        """Write and read lengths in another unit."""
        self._lengths = lengths
        for number in self.numbers.values():
            number.show_lengths(lengths)

    def show_wishes(self, wishes: Wishes) -> None:
        """Show limits; nothing is reported."""
        for name, number in self.numbers.items():
            number.show_value(getattr(wishes, name))
        say_about(self.go, wish_words(wishes, self._lengths))

    def show_count(self, words: str) -> None:
        """Say how many candidates there are; "" where there are none."""
        pairs = self.tr("In the table the front foot goes before the rear one.")
        self.count.setText(f"{words}\n{pairs}" if words else "")

    def show_progress(self, share: float) -> None:
        """Show how far the search is."""
        self.progress.setValue(round(_WHOLE * share))

    def show_state(self, *, busy: bool, ready: bool) -> None:
        """Offer to search where it is ready, or to stop where it is busy."""
        self.go.setText(self.tr("Stop") if busy else self.tr("Search"))
        self.go.setEnabled(busy or ready)
        self.progress.setEnabled(busy)
        if not busy:
            self.progress.setValue(0)
