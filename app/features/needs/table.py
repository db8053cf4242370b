"""The table of what each binding needs: cants and lifts of both feet, row by row."""

from __future__ import annotations

from math import nan
from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QLabel, QWidget

from app.features.needs.bar import Band, BarKey, NeedBar, span_of
from app.features.needs.model import RangeNeeds
from app.features.needs.words import WAYS, angle_words, need_words, way_words
from app.qt.controls.layout import grid_of
from app.qt.painting.palette import LEG, TEXT_PX, typeface
from app.rider.inputs import Inputs
from app.stance.needs import Need, Needs
from app.words.language import msgid, tr

COLUMNS: Final = {
    ("cant", "front"): (msgid("Cant, front"), msgid("Band of front cant")),
    ("cant", "rear"): (msgid("Cant, rear"), msgid("Band of rear cant")),
    ("lift", "front"): (msgid("Lift, front"), msgid("Band of front lift")),
    ("lift", "rear"): (msgid("Lift, rear"), msgid("Band of rear lift")),
}
"""Heading of each column, and what the bar under it is called."""
ROWS: Final = {
    "full": (
        msgid("Full", "of cant or lift"),
        msgid(
            "Cant: the hip hangs in the knee's plane, and boot and ankle give nothing. "
            "Lift: both boots sit at rest."
        ),
    ),
    "least": (
        msgid("Least", "of cant or lift"),
        msgid(
            "Cant: boot and ankle give all they can, and the knee is still in its plane. "
            "Lift: both boots flex to the end of their range."
        ),
    ),
    "start": (
        msgid("Start", "of cant or lift"),
        msgid(
            "Where to start trying, in half degrees: the least that is enough, or your own share "
            "of full cant once the trials tell it."
        ),
    ),
    "best": (
        msgid("Whole bend", "of cant or lift"),
        msgid(
            "What keeps the worst of the whole bend smallest, from standing tall to the deepest "
            "crouch, in half degrees: with the hips turning either way or for the bend alone, as "
            "the switch below has it."
        ),
    ),
}
"""Heading and explanation of each row."""
GAP_COLUMN: Final = 3
"""The empty column between cants and lifts."""


class NeedsTable(QWidget):
    """Shows needs; asks for nothing."""

    def __init__(self) -> None:
        super().__init__()
        self._cells: dict[tuple[str, str, str], QLabel] = {}
        self._words: dict[tuple[str, str, str], str] = {}
        self._headings: dict[tuple[str, str], QLabel] = {}
        self._bars: dict[tuple[str, str], NeedBar] = {}
        self._spans = {"cant": 0.0, "lift": 0.0}
        self._build()

    def _build(self) -> None:
        grid = grid_of(self, (12, 4))
        grid.setColumnMinimumWidth(GAP_COLUMN, 6)
        for row, (name, (title, about)) in enumerate(ROWS.items(), start=1):
            label = QLabel(tr(title, "of cant or lift"))
            label.setToolTip(f"<p>{self.tr(about)}</p>")
            grid.addWidget(label, row, 0)
            for kind, leg in COLUMNS:
                cell = self._cells[name, kind, leg] = QLabel()
                cell.setForegroundRole(LEG[leg])
                cell.setMinimumWidth(cell.fontMetrics().horizontalAdvance(_widest()))
                grid.addWidget(cell, row, _column(kind, leg))
        for (kind, leg), (title, name) in COLUMNS.items():
            heading = self._headings[kind, leg] = QLabel(self.tr(title))
            heading.setFont(typeface(TEXT_PX, QFont.Weight.DemiBold))
            heading.setForegroundRole(LEG[leg])
            bar = self._bars[kind, leg] = NeedBar(leg, way_words(kind))
            bar.setAccessibleName(self.tr(name))
            grid.addWidget(heading, 0, _column(kind, leg))
            grid.addWidget(bar, len(ROWS) + 1, _column(kind, leg))
            grid.setColumnStretch(_column(kind, leg), 1)
        grid.setRowStretch(len(ROWS) + 1, 1)
        self._key = BarKey(self.tr("now"), self.tr("whole bend"))
        grid.addWidget(self._key, len(ROWS) + 1, 0, Qt.AlignmentFlag.AlignTop)

    def show_needs(
        self, inputs: Inputs, needs: Needs, best: RangeNeeds | None, *, stale: bool, dragging: bool
    ) -> None:
        """Show other needs; ``stale`` when the best of the range is that of a moment ago."""
        for kind, leg in COLUMNS:
            foot = getattr(needs, leg)
            full, least = getattr(foot, f"full_{kind}"), getattr(foot, f"least_{kind}")
            margin = getattr(foot, f"start_{kind}").margin_deg
            start = Need(getattr(needs.start, f"{leg}_{kind}_deg"), margin)
            for name, need in (("full", full), ("least", least), ("start", start)):
                self._write((name, kind, leg), need_words(kind, need))
            angle = getattr(best.mounts, f"{leg}_{kind}_deg") if best else nan
            self._write(("best", kind, leg), angle_words(kind, angle) if best else "…")
        self._dim_best(stale=stale)
        for kind in WAYS:
            self._show_bars(kind, inputs, needs, best, stale=stale, dragging=dragging)

    def _write(self, place: tuple[str, str, str], words: str) -> None:
        self._words[place] = words
        self._cells[place].setText(words)

    def _dim_best(self, *, stale: bool) -> None:
        """Show the best of the range as true or as that of a moment ago."""
        for kind, leg in COLUMNS:
            self._cells["best", kind, leg].setEnabled(not stale)

    def _show_bars(
        self,
        kind: str,
        inputs: Inputs,
        needs: Needs,
        best: RangeNeeds | None,
        *,
        stale: bool,
        dragging: bool,
    ) -> None:
        """Show the bands of both feet on lines of one length, which does not shrink in a drag."""
        bands = {leg: _band(kind, leg, inputs, needs, best) for leg in ("front", "rear")}
        span = span_of(list(bands.values()))
        self._spans[kind] = max(span, self._spans[kind]) if dragging else span
        for leg, band in bands.items():
            bar, foot = self._bars[kind, leg], getattr(needs, leg)
            bar.show_band(band, self._spans[kind], stale=stale)
            ends = (getattr(foot, f"{end}_{kind}").shown_deg for end in ("least", "full"))
            words = self.tr("From least {} to full {}; now {}").format(
                *(angle_words(kind, angle) for angle in (*ends, band.now))
            )
            bar.setAccessibleDescription(words)

    def said(self) -> str:
        """The whole table, row by row, for those who cannot see it."""
        rows = []
        for name, (title, _) in ROWS.items():
            cells = {f"{leg}_{kind}": self._words[name, kind, leg] for kind, leg in COLUMNS}
            rows.append(tr(_ROW_SAID, row=tr(title, "of cant or lift"), **cells))
        return " ".join(rows)


_ROW_SAID: Final = msgid(
    "{row}: front cant {front_cant}, rear cant {rear_cant}, "
    "front lift {front_lift}, rear lift {rear_lift}."
)


def _widest() -> str:
    """What takes as much room as any cell."""
    return tr("{angle}° ± {margin}° outward", angle="00.0", margin="0.0")


def _column(kind: str, leg: str) -> int:
    place = list(COLUMNS).index((kind, leg)) + 1
    return place if place < GAP_COLUMN else place + 1


def _band(kind: str, leg: str, inputs: Inputs, needs: Needs, best: RangeNeeds | None) -> Band:
    foot, name = getattr(needs, leg), f"{leg}_{kind}_deg"
    return Band(
        least=getattr(foot, f"least_{kind}").deg,
        full=getattr(foot, f"full_{kind}").deg,
        now=getattr(inputs, name),
        best=getattr(best.mounts, name) if best else nan,
    )
