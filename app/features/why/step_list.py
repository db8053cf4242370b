"""The steps of a reasoning under each other: what is said, and its formula beside it."""

from __future__ import annotations

from typing import Final, NamedTuple

from PySide6.QtCore import Qt
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QWidget

from app.features.why.step import Step
from app.qt.controls.layout import grid_of, in_column
from app.qt.controls.page_words import note
from app.qt.controls.plain_area import PlainArea
from app.qt.literal import Label
from app.qt.painting.palette import QUIET, SMALL_PX, TEXT_PX, typeface

MOST: Final = 8
"""Steps that a reasoning has at most."""


class _Line(NamedTuple):
    number: Label
    said: Label
    beside: QWidget
    formula: Label
    filled: Label
    source: Label


class StepArea(PlainArea):
    """Shows steps; scrolls where they have no room."""

    def __init__(self, name: str) -> None:
        super().__init__(name=name)
        self._shown: list[Step | None] = [None] * MOST
        self._joints = False
        inside = QWidget()
        self._grid = grid_of(inside, (14, 8), (0, 2, 10, 6))
        self._grid.setColumnStretch(1, 5)
        self._grid.setColumnStretch(2, 4)
        self._lines = [self._made_line(i) for i in range(MOST)]
        self._grid.setRowStretch(MOST, 1)
        self.setWidget(inside)

    def _made_line(self, i: int) -> _Line:
        number, said, formula, filled, source = Label(f"{i + 1}"), note(), note(), note(), note()
        number.setForegroundRole(QUIET)
        filled.setFont(typeface(TEXT_PX, QFont.Weight.Medium))
        for label in (formula, source):
            label.setForegroundRole(QUIET)
            label.setFont(typeface(SMALL_PX))
        beside = QWidget()
        for widget in (number, said, beside):
            widget.hide()
        in_column(formula, filled, source, 1, of=beside, spacing=1)
        top = Qt.AlignmentFlag.AlignTop
        self._grid.addWidget(number, i, 0, top)
        self._grid.addWidget(said, i, 1)
        self._grid.addWidget(beside, i, 2)
        return _Line(number, said, beside, formula, filled, source)

    def show_steps(self, steps: tuple[Step, ...], *, joints: bool) -> None:
        """Show steps, in terms of joints or in a rider's words; only what is new is written."""
        asked: list[Step | None] = [*steps, *([None] * (MOST - len(steps)))]
        again = joints != self._joints
        self._joints = joints
        for i, (line, step) in enumerate(zip(self._lines, asked, strict=True)):
            if step == self._shown[i] and not again:
                continue
            self._shown[i] = step
            self._write(line, step)

    def _write(self, line: _Line, step: Step | None) -> None:
        for widget in (line.number, line.said, line.beside):
            widget.setVisible(step is not None)
        if step is None:
            return
        joints = self._joints
        line.said.setText((step.joints if joints else "") or step.said)
        for label, text in (
            (line.formula, (step.symbols if joints else "") or step.formula),
            (line.filled, step.filled),
            (line.source, step.source),
        ):
            label.setText(text)
            label.setVisible(bool(text))

    def spoken(self) -> str:
        """All steps behind one another, for those who cannot see them."""
        return " ".join(
            " ".join(
                filter(None, ((step.joints if self._joints else "") or step.said, step.filled))
            )
            for step in self._shown
            if step is not None
        )
