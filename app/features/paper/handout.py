"""The handout: what to begin with, on two pages in large type, as a PDF."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Final, NamedTuple

from PySide6.QtCore import QPointF, QRectF

from app.drawing.styles import Style
from app.drawing.theme import LIGHT, printed
from app.features.paper.handout_text import FootText, HandoutText, handout_text, with_answer_on
from app.features.paper.pages import Block, pages_pdf
from app.frame import Frame, frame
from app.qt.painting.easel import Easel
from app.qt.painting.page_painting import (
    BODY,
    cut_to_height,
    paint_view,
    paragraph,
    paragraph_height,
    shortened,
)
from app.qt.painting.sheet_layout import TITLE_HEIGHT, drawing_area, halves
from app.qt.painting.viewport import fitted
from app.stance.answer import answer_of
from app.words.language import tr

_LEAST_DRAWINGS: Final = 380.0
"""Height of the drawings (logical px)."""
_LARGER: Final = 1.3
"""How much larger than on a sheet is written into the drawings."""
_GAP: Final = 24.0
_PAD: Final = 14.0
"""Between a foot's coloured edge and its words (logical px)."""
SIZES: Final = (23.0, 22.0, 21.0, 20.0, 19.0, 18.0, 17.0, 16.0, 15.0, 14.0, 13.0)
"""Of the type (logical px), of which the first is taken in which all has room: 23 is 14 points."""
_HIGHEST_NOTES: Final = 300.0
"""Height that notes may take (logical px)."""


class Handout(NamedTuple):
    """What a handout is painted from.

    Attributes:
        text: the words.
        drawn: the stance with the answer on.
    """

    text: HandoutText
    drawn: Frame


def handout_of(shown: Frame, on: date, *, named: bool = False, notes: bool = False) -> Handout:
    """The handout of what is shown.

    Args:
        shown: the stance as it stands.
        on: the day.
        named: whether the set-up's name is to be told.
        notes: whether its notes are.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """
    answer = answer_of(shown.setup, shown.limits)
    on_bindings = with_answer_on(shown.setup, answer)
    drawn = frame(on_bindings, "facing", shown.limits, shown.lengths)
    return Handout(handout_text(shown, on, named=named, notes=notes), drawn)


def handout_pdf(handout: Handout, paper: str) -> bytes:
    """A handout as the bytes of a PDF file.

    Args:
        handout: what to paint.
        paper: a key of :data:`app.qt.painting.page_painting.SIZES`.
    """
    title = tr("Handout: {title}", title=handout.text.name or tr("What to begin with"))
    return pages_pdf(paper, title, handout.text.day, lambda area: _pages(handout, area))


def _pages(handout: Handout, area: QRectF) -> list[list[Block]]:
    """The blocks of both pages, in the largest type in which each has room for its own.

    The first shows what to begin with and why, with the drawings as large as they can be; the
    second goes to the bench.
    """
    for size in SIZES:
        words = Words(handout, area.width(), size)
        drawings = area.height() - sum(block.height for block in words.first())
        at_bench = words.second()
        fits = sum(block.height for block in at_bench) <= area.height()
        if fits and drawings >= _LEAST_DRAWINGS:
            break
    title, *rest = words.first()
    return [[title, Block(drawings, words.paint_drawings), *rest], at_bench]


class Words:
    """The blocks of a handout in type of one size.

    Args:
        handout: what to tell.
        width: of the pages' text (logical px).
        size: of the type (logical px).
    """

    def __init__(self, handout: Handout, width: float, size: float) -> None:
        self.handout = handout
        self.text = handout.text
        self.width = width
        self.size = size
        theme = printed(LIGHT)
        self.plain = Style(text=theme.ink, size=size)
        self.quiet = Style(text=theme.quiet, size=size - 3.0)
        self.strong = Style(text=theme.ink, size=size + 4.0, weight=600)

    def first(self) -> list[Block]:
        """What stands on the first page but the drawings, which come after the title."""
        return [self._title(), self._said(self.text.drawing, self.quiet, 16.0), self._feet()]

    def second(self) -> list[Block]:
        """What stands on the second page."""
        text = self.text
        blocks = self._section(tr("At the bench"), text.steps, numbered=True)
        blocks += self._section(tr("What to watch"), text.watch)
        if text.notes:
            ending = tr(" … and more in the set-up's file.")
            room, size = _HIGHEST_NOTES * BODY / self.size, self.width * BODY / self.size
            # Measured in the type of a sheet: as many letters have room in any other.
            notes = cut_to_height(text.notes, size, room, ending)
            blocks += self._section(tr("Notes"), (notes,))
        return blocks + self._section(tr("Caution"), (text.caution,))

    def _height(self, text: str, look: Style, width: float) -> float:
        return paragraph_height(text, width, look.size, look.weight)

    def _said(self, text: str, look: Style, after: float, indent: float = 0.0) -> Block:
        def paint(easel: Easel, area: QRectF) -> None:
            paragraph(easel, area.adjusted(indent, 0.0, 0.0, 0.0), text, look)

        return Block(self._height(text, look, self.width - indent) + after, paint)

    def _section(
        self, heading: str, passages: Sequence[str], *, numbered: bool = False
    ) -> list[Block]:
        """A heading with passages under it; nothing where there are none."""
        if not passages:
            return []
        said = [
            self._said(text, self.plain, 0.5 * self.size, 1.4 * self.size if numbered else 0.0)
            for text in passages
        ]
        if numbered:
            said = [self._numbered(block, place + 1) for place, block in enumerate(said)]
        return [
            self._said(heading, self.strong, 0.3 * self.size),
            *said,
            Block(self.size, _nothing),
        ]

    def _numbered(self, block: Block, number: int) -> Block:
        def paint(easel: Easel, area: QRectF) -> None:
            paragraph(easel, area, f"{number}.", self.plain)
            block.paint(easel, area)

        return Block(block.height, paint)

    def _title(self) -> Block:
        title = self.strong._replace(size=self.size + 14.0)
        stance = " · ".join(f"{pair.name}: {pair.value}" for pair in self.text.stance)
        height = title.size + 10.0

        def paint(easel: Easel, area: QRectF) -> None:
            name = shortened(easel, self.text.name, self.plain, 0.45 * area.width())
            width = easel.width(name, self.plain.size, self.plain.weight)
            base = area.top() + 0.8 * title.size
            easel.write(QPointF(area.left(), base), tr("What to begin with"), title)
            easel.write(QPointF(area.right() - width, base), name, self.plain)
            paragraph(easel, area.adjusted(0.0, height, 0.0, 0.0), stance, self.plain)

        return Block(height + self._height(stance, self.plain, self.width) + 10.0, paint)

    def paint_drawings(self, easel: Easel, area: QRectF) -> None:
        """Plan and front view beside each other, at one scale."""
        scenes = self.handout.drawn.scenes
        large = Easel(easel.painter, easel.theme, _LARGER)
        views = dict(zip(("above", "front"), halves(area), strict=True))
        rooms = {key: drawing_area(key, view, _LARGER) for key, view in views.items()}
        scale = min(fitted(scenes[key].window, room).scale for key, room in rooms.items())
        for key, view in views.items():
            fit = fitted(scenes[key].window, rooms[key], scale)
            fit = fit._replace(left=view.left() + 8.0, right=view.right() - 8.0)
            fit = fit._replace(top=view.top() + TITLE_HEIGHT * _LARGER + 4.0)
            paint_view(
                large, scenes[key], fit, view.adjusted(0.0, 4.0, 0.0, 0.0), scenes[key].title
            )
        large.finish()

    def _feet(self) -> Block:
        """What both feet begin with, beside each other."""
        width = 0.5 * (self.width - _GAP)
        heights = [self._foot_height(foot, width - _PAD) for foot in self.text.feet]

        def paint(easel: Easel, area: QRectF) -> None:
            for i, foot in enumerate(self.text.feet):
                left = area.left() + i * (width + _GAP)
                self._paint_foot(easel, QRectF(left, area.top(), width, max(heights)), foot)

        return Block(max(heights) + 12.0, paint)

    def _foot_lines(self, foot: FootText) -> list[tuple[str, Style, float]]:
        """Each text of a foot, how it is written, and the room after it."""
        theme = printed(LIGHT)
        name = Style(text=theme.leg_text(foot.end), size=self.size, weight=600)
        mount = self.strong._replace(size=self.size + 8.0)
        lines = [
            (foot.foot, name, 4.0),
            (foot.mount, mount, 6.0),
            (foot.sure, self.quiet, 8.0),
            (foot.why, self.plain, 0.0),
        ]
        return [line for line in lines if line[0]]

    def _foot_height(self, foot: FootText, width: float) -> float:
        return sum(
            self._height(text, look, width) + after for text, look, after in self._foot_lines(foot)
        )

    def _paint_foot(self, easel: Easel, area: QRectF, foot: FootText) -> None:
        easel.bar(area.left(), area.top(), 4.0, area.height(), easel.theme.leg(foot.end))
        top = area.top()
        for text, look, after in self._foot_lines(foot):
            at = QRectF(area.left() + _PAD, top, area.width() - _PAD, area.height())
            top = paragraph(easel, at, text, look) + after


def _nothing(_easel: Easel, _area: QRectF) -> None:
    """Paint nothing."""
