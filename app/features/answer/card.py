"""The card of one binding: what to begin with, why, and what it does."""

from __future__ import annotations

from functools import partial
from typing import Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFont, QPainter, QPaintEvent
from PySide6.QtWidgets import (
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from app.features.answer.model import Told
from app.features.answer.scale import Cants, CantScale
from app.features.answer.words import (
    BINDINGS,
    alone_words,
    in_plane_words,
    range_about,
    whole_cant_words,
)
from app.qt.controls.page_words import heading, note
from app.qt.controls.steady_button import SteadyButton
from app.qt.explained import explain
from app.qt.literal import Label, say_about, show_tip
from app.qt.painting.palette import ACCENT, LEG, QUIET, SMALL_PX, colour, typeface
from app.qt.sizes import px
from app.qt.themes import current_theme
from app.stance.answer import FootAnswer
from app.stance.answer_words import (
    bench_words,
    boot_words,
    knee_words,
    left_words,
    mount_words,
    next_words,
    range_words,
    why_words,
)
from app.stance.topics import CANT, LIFT
from app.words.language import tr
from app.words.lengths import Lengths

BIG_PX: Final = 22
"""Of the letters of what to begin with."""
EDGE: Final = 4
"""Width of the coloured edge (px)."""


class BindingCard(QWidget):
    """Shows one foot's answer; asks to have it put on."""

    put_asked = Signal()
    """The answer of this foot shall be put on."""
    why_asked = Signal(str)
    """The reasons of its cant or of its lift are wanted: a topic."""

    def __init__(self, leg: str) -> None:
        super().__init__()
        self._leg = leg
        self._said: dict[QLabel, str] = {}
        self._build()

    def _build(self) -> None:
        self.cant, self.lift = Label(), Label()
        for label, pixels in ((self.cant, BIG_PX), (self.lift, BIG_PX - 4)):
            label.setFont(typeface(pixels, QFont.Weight.DemiBold))
            label.setForegroundRole(LEG[self._leg])
        self.put = SteadyButton(self.tr("Put it on this foot"))
        self.put.clicked.connect(self.put_asked)
        self.alone, self.sure, self.why = note(), note(), note()
        self.left, self.bench = note(), note()
        self.left.setForegroundRole(ACCENT)
        for label in (self.alone, self.bench):
            label.setForegroundRole(QUIET)
            label.setFont(typeface(SMALL_PX))
        self.scale = CantScale(self._leg)
        column = QVBoxLayout(self)
        column.setContentsMargins(px(EDGE + 9), px(6), px(9), px(6))
        column.setSpacing(px(3))
        column.addLayout(self._head())
        column.addWidget(self.alone)
        show_tip(self.sure, range_about())
        column.addWidget(self.sure)
        column.addWidget(self.why)
        column.addWidget(self.scale)
        column.addLayout(self._through())
        column.addWidget(self.left)
        column.addWidget(self.bench)
        column.addStretch(1)

    def _head(self) -> QHBoxLayout:
        title = heading(tr(BINDINGS[self._leg]))
        title.setForegroundRole(LEG[self._leg])
        begin = Label(self.tr("Begin with"))
        begin.setForegroundRole(QUIET)
        words, line = QVBoxLayout(), QHBoxLayout()
        line.setSpacing(px(8))
        self.whys: dict[str, QToolButton] = {}
        for topic, label, tip in (
            (CANT, self.cant, self.tr("Why this cant?")),
            (LIFT, self.lift, self.tr("Why this lift?")),
        ):
            line.addWidget(label, 0, Qt.AlignmentFlag.AlignBaseline)
            key = self.whys[topic] = QToolButton()
            key.setText(self.tr("why?"))
            key.setFont(typeface(SMALL_PX))
            key.setAutoRaise(True)
            key.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
            key.setAccessibleName(tip)
            show_tip(key, tip)
            key.clicked.connect(partial(self.why_asked.emit, topic))
            explain(key, topic)
            line.addWidget(key, 0, Qt.AlignmentFlag.AlignVCenter)
        line.addStretch(1)
        top = QHBoxLayout()
        top.addWidget(title)
        top.addSpacing(px(4))
        top.addWidget(begin)
        top.addStretch(1)
        top.addWidget(self.put)
        words.addLayout(top)
        words.addLayout(line)
        words.setSpacing(px(2))
        row = QHBoxLayout()
        row.addLayout(words, 1)
        return row

    def _through(self) -> QGridLayout:
        """Knee and boot over the riding bend, now and with the answer on."""
        grid = QGridLayout()
        grid.setHorizontalSpacing(px(8))
        grid.setVerticalSpacing(1)
        grid.setColumnStretch(1, 1)
        self.cells: dict[tuple[str, str], QLabel] = {}
        self.heads: dict[str, QLabel] = {}
        for column, (when, title) in enumerate(
            (("now", self.tr("Now")), ("then", self.tr("Then")))
        ):
            head = self.heads[when] = Label(title)
            head.setForegroundRole(QUIET)
            head.setFont(typeface(SMALL_PX))
            if when == "then":
                show_tip(head, self.tr("With both answers on"))
            grid.addWidget(head, 2 * column, 0, 2, 1, Qt.AlignmentFlag.AlignTop)
            for row, what in enumerate(("knee", "boot")):
                cell = self.cells[what, when] = note()
                cell.setFont(typeface(SMALL_PX))
                grid.addWidget(cell, 2 * column + row, 1)
        return grid

    # Showing

    def show_told(self, told: Told, lengths: Lengths, span: float) -> None:
        """Show another answer on a line of this span."""
        answer, inputs = told.answer, told.setup.inputs
        foot = answer.foot(self._leg)
        self._write(self.cant, mount_words("cant", foot.begin.cant_deg))
        self._write(self.lift, mount_words("lift", foot.begin.lift_deg))
        self._write(self.alone, alone_words(told, foot))
        self._write(self.sure, self._sure(foot))
        self._write(self.why, why_words(foot, answer, inputs, lengths))
        mend = told.mends.get(self._leg)
        left = (left_words(foot, mend, lengths), next_words(foot, mend, lengths))
        self._write(self.left, " ".join(filter(None, left)))
        self._write(self.bench, bench_words(foot, inputs))
        for when, through in (("now", foot.now), ("then", foot.then)):
            knee = self.tr("Knee: {}").format(knee_words(through, answer))
            boot = self.tr("Boot: {}").format(boot_words(through, answer))
            self._write(self.cells["knee", when], knee)
            self._write(self.cells["boot", when], boot)
            loud = not through.in_plane
            role = ACCENT if loud else LEG[self._leg]
            self.cells["knee", when].setForegroundRole(role)
        # What is on already is said once.
        for part in (*(self.cells[what, "then"] for what in ("knee", "boot")), self.heads["then"]):
            part.setVisible(foot.now != foot.then)
        self._show_scale(told, foot, span)

    def _show_scale(self, told: Told, foot: FootAnswer, span: float) -> None:
        self.scale.show_cants(cants_of(told, foot), span)
        self.scale.setAccessibleName(self.tr("Cants"))
        about = f"{in_plane_words(foot)} {whole_cant_words(foot)}" if foot.exists else ""
        say_about(self.scale, about)
        show_tip(self.scale, about)

    def _sure(self, foot: FootAnswer) -> str:
        if not foot.exists:
            return ""
        return self.tr("Likely: cant {}, lift {}").format(
            range_words("cant", foot), range_words("lift", foot)
        )

    def _write(self, label: QLabel, text: str) -> None:
        if self._said.get(label) != text:
            self._said[label] = text
            label.setText(text)
            label.setVisible(bool(text))

    def said(self) -> str:
        """All words of the card, for those who cannot see it."""
        return " ".join(filter(None, self._said.values()))

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802
        """The frame, and the edge in the leg's colour."""
        theme = current_theme()
        with QPainter(self) as painter:
            painter.fillRect(self.rect(), colour(theme.rule))
            painter.fillRect(self.rect().adjusted(1, 1, -1, -1), colour(theme.paper))
            edge = self.rect()
            edge.setWidth(EDGE)
            painter.fillRect(edge, colour(theme.leg(self._leg)))


def cants_of(told: Told, foot: FootAnswer) -> Cants:
    """What the scale of a foot shows."""
    return Cants(
        now=getattr(told.setup.inputs, f"{foot.name}_cant_deg"),
        begin=foot.begin.cant_deg,
        low=foot.in_plane[0],
        high=foot.in_plane[1],
        full=foot.full_cant,
    )
