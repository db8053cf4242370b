"""The page of a fit sheet, section by section, on any paint device."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, NamedTuple

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainter

from app import __version__
from app.drawing.styles import Style
from app.drawing.theme import THICK
from app.features.bend.scene import scene_bend
from app.features.paper.fit_sheet_text import FitSheetText
from app.frame import Frame
from app.qt.painting.easel import Easel, pen
from app.qt.painting.page_painting import (
    BODY,
    HEADING,
    PER_MM,
    ROW,
    cut_to_height,
    heading,
    paint_view,
    paragraph,
    paragraph_height,
    shortened,
    table,
    to_whole_scale,
)
from app.qt.painting.sheet_layout import Layout, columns_of, drawing_area, fits_of, halves, laid_out
from app.qt.painting.signs import paint_sign
from app.qt.painting.viewport import Viewport, fitted
from app.stance.findings import Limits
from app.words.language import msgid, tr

_EDGE: Final = 10.0 * PER_MM
_GAP: Final = 12.0
_TITLE_BLOCK: Final = 66.0
_PLOT: Final = 196.0
"""Least height of the section with the plot (logical px)."""
_HIGHEST_PLOT: Final = 300.0
"""Height of that section from which on the views get the rest (logical px)."""
_HIGHEST_NOTES: Final = 84.0
"""Height that notes may take (logical px): five lines of them."""
_WRITTEN_LINE: Final = 26.0
"""Between two lines to write on by hand (logical px)."""


_FEET: Final = {"front": msgid("Front foot"), "rear": msgid("Rear foot")}


class FitSheet(NamedTuple):
    """What a fit sheet is painted from.

    Attributes:
        frame: the stance.
        text: the words.
        limits: by which knees are judged.
    """

    frame: Frame
    text: FitSheetText
    limits: Limits


class Page:
    """One page being painted, from the bottom up: the views get what height is left."""

    def __init__(
        self, easel: Easel, sheet: FitSheet, page: QRectF, paper: str, *, whole_scale: bool
    ) -> None:
        self.easel = easel
        self.sheet = sheet
        self.text = sheet.text
        self.paper = paper
        self.whole_scale = whole_scale
        self.frame = page.adjusted(_EDGE, _EDGE, -_EDGE, -_EDGE)
        self.inner = self.frame.adjusted(_GAP, 4.0, -_GAP, 0.0)
        theme = easel.theme
        self.plain = Style(text=theme.ink, size=BODY)
        self.small = Style(text=theme.quiet, size=11.0)
        self.pairs = _in_two((*self.text.stance, *self.text.posture, *self.text.boots))

    def paint(self) -> None:
        """Paint the whole page."""
        self.easel.painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._outline()
        bottom = self.frame.bottom() - _TITLE_BLOCK
        for height, paint in (
            (paragraph_height(self.text.caution, self.inner.width(), 11.0) + 8.0, self._caution),
            (self._parts_height(), self._parts),
            (self._begin_height(), self._begin),
            (self._trials_height(), self._trials),
            (self._notes_height(), self._notes),
        ):
            bottom -= height
            if height:
                paint(QRectF(self.inner.left(), bottom, self.inner.width(), height))
        self._upper(self.inner.adjusted(0.0, 0.0, 0.0, bottom - self.inner.bottom()))
        self.easel.finish()

    def _upper(self, area: QRectF) -> None:
        """Views, tables and plot, which share what height there is."""
        tables = HEADING + (len(self.text.mounts) + 1 + len(self.pairs)) * ROW + 14.0
        plot = self._second_height()
        free = area.height() - tables
        views = min(free - plot, max(self._views_height(area), free - _HIGHEST_PLOT))
        at = area.top()
        for height, paint in (
            (views, self._views),
            (tables, self._measures_and_mounts),
            (area.height() - views - tables, self._plot_and_findings),
        ):
            paint(QRectF(area.left(), at, area.width(), height))
            at += height

    # The frame and the title block

    def _outline(self) -> None:
        painter, theme = self.easel.painter, self.easel.theme
        painter.setPen(pen(theme.ink, THICK, ()))
        painter.drawRect(self.frame)
        block = self.frame.adjusted(0.0, self.frame.height() - _TITLE_BLOCK, 0.0, 0.0)
        painter.drawLine(block.topLeft(), block.topRight())
        painter.setPen(pen(theme.ink, 1.0, ()))
        cells = columns_of(block, block.height(), (0.50, 0.16, 0.14, 0.10, 0.10))
        for cell in cells[1:]:
            painter.drawLine(cell.topLeft(), cell.bottomLeft())
        fields = (
            (tr("Fit sheet"), self.text.title),
            (tr("Date"), self.text.day),
            (tr("Foot in front"), self.text.lead_foot),
            (tr("Paper"), self.paper),
            ("Kneeline", __version__),
        )
        for i, (cell, (name, value)) in enumerate(zip(cells, fields, strict=True)):
            self._field(cell, name, value, 22.0 if i == 0 else 14.0)

    def _field(self, cell: QRectF, name: str, value: str, size: float) -> None:
        """One field of the title block; a long value is written smaller, then cut short."""
        left, room = cell.left() + _GAP, cell.width() - 1.5 * _GAP
        self.easel.write(QPointF(left, cell.top() + 17.0), name, self.small)
        size = max(11.0, min(size, size * room / max(1.0, self.easel.width(value, size, 600))))
        look = Style(text=self.easel.theme.ink, size=size, weight=600)
        at = QPointF(left, cell.bottom() - 18.0)
        self.easel.write(at, shortened(self.easel, value, look, room), look)

    # Sections

    def _layout(self, area: QRectF) -> tuple[Layout, dict[str, Viewport]]:
        layout = laid_out(area.adjusted(-_GAP, 0.0, _GAP, 6.0), 0.0)
        windows = {key: scene.window for key, scene in self.sheet.frame.scenes.items()}
        return layout, fits_of(layout, windows, 1.0)

    def _views_height(self, area: QRectF) -> float:
        """Height beyond which plan and front view only get more room around them."""
        layout, fits = self._layout(area)
        needed = []
        for key in ("above", "front"):
            around = layout.views[key].height() - drawing_area(key, layout.views[key], 1.0).height()
            window = self.sheet.frame.scenes[key].window
            needed.append(fits[key].scale * window.height + around)
        return max(needed) + 10.0

    def _views(self, area: QRectF) -> None:
        scenes = self.sheet.frame.scenes
        layout, fits = self._layout(area)
        for key, fit in fits.items():
            view, title = layout.views[key], scenes[key].title
            if self.whole_scale:
                place = drawing_area(key, view, 1.0)
                fit, times = to_whole_scale(fit, scenes[key], place)  # noqa: PLW2901
                title = tr("{title}, 1 : {times}", title=title, times=times)
            paint_view(self.easel, scenes[key], fit, view, title)

    def _measures_and_mounts(self, area: QRectF) -> None:
        left, right = halves(area, _GAP)
        text, theme = self.text, self.easel.theme
        top = heading(self.easel, left, tr("Rider's measures, with standard errors"))
        table(self.easel, _from(left, top), text.measures, (0.0, 0.33, 0.62, 0.86))
        top = heading(self.easel, right, tr("Stance, lift and cant"))
        head = ("", tr("Front"), tr("Rear"))
        colours = (theme.quiet, theme.front_text, theme.rear_text)
        columns = (0.0, 0.34, 0.67)
        top = table(self.easel, _from(right, top), (head, *text.mounts), columns, colours)
        by_turns = (theme.quiet, theme.ink, theme.quiet, theme.ink)
        table(self.easel, _from(right, top + 4.0), self.pairs, (0.0, 0.24, 0.52, 0.78), by_turns)

    def _second_height(self) -> float:
        """Height of plot and findings: as much as the findings need."""
        width = 0.5 * (self.inner.width() - 2.0 * _GAP)
        needed = sum(paragraph_height(text, width) + ROW + 10.0 for _, text in self.text.findings)
        return max(_PLOT, HEADING + needed) + 4.0

    def _plot_and_findings(self, area: QRectF) -> None:
        left, right = halves(area, _GAP)
        top = heading(self.easel, left, tr("Through the bend: how far out of its plane"))
        self._plot(_from(left, top).adjusted(0.0, 0.0, 0.0, -6.0))
        top = heading(self.easel, right, tr("Knees in the posture shown, and flags"))
        legs = self.sheet.frame.findings.legs.values()
        for leg, said in zip(legs, self.text.findings, strict=True):
            colour = self.easel.theme.leg_text(leg.name)
            sign = QPointF(right.left() + 7.0, top + 6.0)
            paint_sign(self.easel, sign, 12.0, leg.state, colour)
            at = QPointF(right.left() + 20.0, top + 0.83 * BODY)
            self.easel.write(at, said.name, Style(text=colour, size=BODY, weight=600))
            top = paragraph(self.easel, _from(right, top + ROW), said.value, self.plain) + 8.0
        self._lines_to_write_on(_from(right, top + 6.0))

    def _lines_to_write_on(self, area: QRectF) -> None:
        """Lines for what is found on the day, where there is room for some."""
        lines = int((area.height() - HEADING) / _WRITTEN_LINE)
        if lines < 2:
            return
        top = heading(self.easel, area, tr("Notes by hand"))
        self.easel.painter.setPen(pen(self.easel.theme.rule, 1.0, ()))
        for i in range(1, lines):
            y = top + i * _WRITTEN_LINE
            self.easel.painter.drawLine(QPointF(area.left(), y), QPointF(area.right(), y))

    def _plot(self, area: QRectF) -> None:
        frame = self.sheet.frame
        front, rear = (frame.findings.legs[name].off_plane_deg for name in ("front", "rear"))
        # As high as the area allows at the scale that its width gives.
        scale = area.width() / 122.0
        height = max(20.0, area.height() / scale - 15.0)
        scene = scene_bend(frame.setup.inputs, (front, rear), self.sheet.limits, height)
        paint_view(self.easel, scene, fitted(scene.window, area), area, "")

    def _notes_height(self) -> float:
        if not self.text.notes:
            return 0.0
        return HEADING + paragraph_height(self._notes_shown(), self.inner.width()) + 6.0

    def _notes_shown(self) -> str:
        ending = tr(" … and more in the set-up's file.")
        return cut_to_height(self.text.notes, self.inner.width(), _HIGHEST_NOTES, ending)

    def _notes(self, area: QRectF) -> None:
        top = heading(self.easel, area, tr("Notes"))
        paragraph(self.easel, _from(area, top), self._notes_shown(), self.plain)

    def _trials_height(self) -> float:
        lines = max(1, len(self.text.trials) + bool(self.text.earlier))
        return HEADING + lines * ROW + 4.0

    def _trials(self, area: QRectF) -> None:
        top = heading(self.easel, area, tr("Trials, the latest first"))
        lines = list(self.text.trials) or [tr("None yet.", "of trials")]
        if self.text.earlier:
            lines.append(tr("and {count} earlier, in the set-up's file.", count=self.text.earlier))
        for i, line in enumerate(lines):
            at = QPointF(area.left(), top + i * ROW + 0.80 * BODY)
            self.easel.write(at, shortened(self.easel, line, self.plain, area.width()), self.plain)

    def _parts_height(self) -> float:
        feet, instead = self.text.parts
        if instead:
            return HEADING + paragraph_height(instead, self.inner.width()) + 6.0
        if not feet:
            return 0.0
        width = 0.5 * (self.inner.width() - 2.0 * _GAP)
        each = [paragraph_height(" ".join(foot.steps), width) for foot in feet]
        return HEADING + ROW + max(each) + 6.0

    def _begin_height(self) -> float:
        width = 0.5 * (self.inner.width() - 2.0 * _GAP)
        each = [paragraph_height(foot.text, width) for foot in self.text.begin]
        return HEADING + ROW + max(each) + 6.0

    def _begin(self, area: QRectF) -> None:
        heading(self.easel, area, tr("Begin with"))
        for half, name, foot in zip(halves(area, _GAP), _FEET, self.text.begin, strict=True):
            look = Style(text=self.easel.theme.leg_text(name), size=BODY, weight=600)
            top = half.top() + HEADING
            said = f"{tr(_FEET[name])}: {foot.mount}"
            self.easel.write(QPointF(half.left(), top + 0.8 * BODY), said, look)
            paragraph(self.easel, _from(half, top + ROW), foot.text, self.plain)

    def _parts(self, area: QRectF) -> None:
        top = heading(self.easel, area, tr("Parts, and how to set them"))
        if self.text.parts.instead:
            paragraph(self.easel, _from(area, top), self.text.parts.instead, self.plain)
        for half, foot in zip(halves(area, _GAP), self.text.parts.feet, strict=False):
            look = Style(text=self.easel.theme.leg_text(foot.foot), size=BODY, weight=600)
            top = half.top() + HEADING
            name = tr(_FEET[foot.foot])
            self.easel.write(QPointF(half.left(), top + 0.8 * BODY), name, look)
            paragraph(self.easel, _from(half, top + ROW), " ".join(foot.steps), self.plain)

    def _caution(self, area: QRectF) -> None:
        paragraph(self.easel, _from(area, area.top() + 2.0), self.text.caution, self.small)


def _from(area: QRectF, top: float) -> QRectF:
    """The part of an area below a height."""
    return QRectF(area.left(), top, area.width(), area.bottom() - top)


def _in_two(pairs: Sequence[Sequence[str]]) -> list[tuple[str, ...]]:
    """Pairs of name and value two to a row, read down the columns."""
    half = (len(pairs) + 1) // 2
    right = [*pairs[half:], ("", "")]
    return [(*pair, *other) for pair, other in zip(pairs[:half], right, strict=False)]
