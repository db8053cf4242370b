"""A lesson on paper: predicted first, pencil in hand; what is right comes after all questions."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import partial
from typing import Final, NamedTuple

from PySide6.QtCore import QPointF, QRectF, Qt

from app.drawing.marks import Window
from app.drawing.styles import Style
from app.drawing.theme import LIGHT, printed
from app.features.clip.model import windows_of
from app.features.lessons.film import drawn_as
from app.features.lessons.handout_text import LessonText, Side, Solution, Task, lesson_text
from app.features.lessons.model import Going
from app.features.lessons.scene import scene_knees
from app.features.paper.pages import Block, pages_pdf
from app.frame import Frame
from app.qt.painting.easel import Easel, pen
from app.qt.painting.page_painting import paint_view, paragraph, paragraph_height
from app.qt.painting.painting import paint_scene
from app.qt.painting.sheet_layout import TITLE_HEIGHT, columns_of, drawing_area
from app.qt.painting.sheet_painting import LEFT_OUT
from app.qt.painting.viewport import fitted
from app.rider.instead import Instead
from app.words.language import tr

BODY: Final = 19.0
"""Of the type (logical px): 11.4 points."""
_HEADING: Final = 23.0
_TITLE: Final = 34.0
_SMALL: Final = 16.0
_VIEWS: Final = {"above": 0.36, "front": 0.34, "side": 0.30}
"""The views of a step, and the share of the width that each has."""
_DRAWN, _DRAWN_SMALL, _DRAWN_CASE = 300.0, 270.0, 290.0
"""Height of the drawings of a step, of an answer, and of its cases (logical px), at least."""
_LEAST_DIMENSIONED: Final = 0.2
"""Scale (logical px to the mm) below which slopes and dimensions have no room beside each other."""
_CASE_ASIDE: Final = 0.12
"""How much of its width a case leaves free at either side of its drawing."""
_DRAWN_MOST: Final = 430.0
_KNEES: Final = 300.0
"""Height of the drawing into which a knee is drawn (logical px)."""
_WRITTEN: Final = 40.0
"""Height of a line to write on (logical px)."""
_LINES: Final = 2
_BOX: Final = 18.0
"""Of a box to tick (logical px)."""
_GAP: Final = 16.0


class Piece(NamedTuple):
    """A block, and how much higher it may become where there is room (logical px)."""

    block: Block
    grows: float = 0.0


class Group(NamedTuple):
    """Pieces that stand on one page, and whether what follows is not to be seen with them."""

    pieces: list[Piece]
    ends_page: bool = False

    @property
    def height(self) -> float:
        return sum(piece.block.height for piece in self.pieces)


def lesson_pdf(going: Going, paper: str, day: str, *, young: bool = False) -> bytes:
    """The pages of a lesson as the bytes of a PDF file.

    Args:
        going: the lesson, under the limits and in the unit of who takes it home.
        paper: a key of :data:`app.qt.painting.page_painting.SIZES`.
        day: that stands on them, as "2026-01-31".
        young: whether it is told the way it is told to children.

    Raises:
        ValueError: the lesson has no steps, or the leg dimensions contradict each other.
    """
    text = lesson_text(going, day, young=young)
    title = tr("Lesson: {title}", title=text.title)
    drawings = Drawings(going, text)
    return pages_pdf(
        paper, title, day, lambda area: paged(Written(drawings, area.width()).groups(text), area)
    )


def paged(groups: Iterable[Group], area: QRectF) -> list[list[Block]]:
    """The blocks of each page; drawings take what a page has left.

    What stands together stays together where a page has room for it.
    """
    pages: list[list[Piece]] = [[]]
    left, closed = area.height(), False
    for group in groups:
        whole = group.height <= area.height()
        if pages[-1] and (closed or (whole and group.height > left)):
            pages.append([])
            left = area.height()
        for piece in group.pieces:
            if pages[-1] and piece.block.height > left:
                pages.append([])
                left = area.height()
            pages[-1].append(piece)
            left -= piece.block.height
        closed = group.ends_page
    return [_filled(page, area.height()) for page in pages]


def _filled(page: list[Piece], height: float) -> list[Block]:
    spare = max(0.0, height - sum(piece.block.height for piece in page))
    growing = sum(piece.grows > 0.0 for piece in page)
    return [
        piece.block._replace(height=piece.block.height + min(piece.grows, spare / max(growing, 1)))
        for piece in page
    ]


class Drawings:
    """The frames of what a lesson's pages show, all at one scale.

    Args:
        going: the lesson.
        text: what stands on its pages.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """

    def __init__(self, going: Going, text: LessonText) -> None:
        shown = [task.shown for task in text.tasks]
        shown += [solution.shown for solution in text.solutions]
        shown += [case.shown for each in text.solutions for case in each.cases]
        self._frames = {each: drawn_as(going, each) for each in shown}
        self._windows = windows_of(self._frames.values())

    def frame(self, shown: Instead) -> Frame:
        """The frame of what is shown."""
        return self._frames[shown]

    def telling_view(self, one: Instead, other: Instead) -> str:
        """The view that tells two states apart: whether it is in the knees or in the boots."""
        legs = [self.frame(each).findings.legs for each in (one, other)]
        pairs = [(legs[0][end], legs[1][end]) for end in legs[0]]
        knees = max(abs(a.off_plane_deg - b.off_plane_deg) for a, b in pairs)
        boots = max(abs(a.boot_flex_deg - b.boot_flex_deg) for a, b in pairs)
        return "side" if boots > knees else "front"

    def window(self, key: str) -> Window:
        """The window of a view, with room for all that is shown in it."""
        return self._windows[key]


class Written:
    """The groups of a lesson's pages, for a width.

    Args:
        drawings: what is drawn on them.
        width: of the pages' text (logical px).
    """

    def __init__(self, drawings: Drawings, width: float) -> None:
        self._drawings, self._width = drawings, width
        theme = printed(LIGHT)
        self._plain = Style(text=theme.ink, size=BODY)
        self._quiet = Style(text=theme.quiet, size=_SMALL)
        self._strong = Style(text=theme.ink, size=BODY, weight=600)
        self._heading = Style(text=theme.ink, size=_HEADING, weight=600)
        self._title = Style(text=theme.ink, size=_TITLE, weight=600)

    def groups(self, text: LessonText) -> list[Group]:
        """All that stands on the pages, in its order."""
        head = [self._said(text.title, self._title, 8.0), self._said(text.about, self._plain, 8.0)]
        if text.solutions:
            how = tr(
                "Answer each question before you turn the page. What is right stands at the end."
            )
            head.append(self._said(how, self._quiet, 20.0))
        tasks = [self._task(task) for task in text.tasks]
        groups = [Group([*head, *tasks[0].pieces], tasks[0].ends_page), *tasks[1:]]
        if not text.solutions:
            return groups
        solutions = [self._solution(each) for each in text.solutions]
        answers = self._said(tr("Answers"), self._title, 14.0)
        return [*groups, Group([answers, *solutions[0].pieces]), *solutions[1:]]

    # Text

    def _said(self, text: str, look: Style, after: float, indent: float = 0.0) -> Piece:
        """A text; nothing where there is none."""
        if not text:
            return Piece(Block(0.0, _nothing))
        width = self._width - indent

        def paint(easel: Easel, area: QRectF) -> None:
            paragraph(easel, area.adjusted(indent, 0.0, 0.0, 0.0), text, look)

        return Piece(Block(paragraph_height(text, width, look.size, look.weight) + after, paint))

    # Steps

    def _task(self, task: Task) -> Group:
        pieces = [self._said(task.heading, self._heading, 6.0), self._drawn(task.shown, _DRAWN)]
        pieces.append(self._said(task.words, self._strong if task.kind else self._plain, 10.0))
        if not task.kind:
            return Group([*pieces, Piece(Block(_GAP, _nothing))])
        pieces += [self._option(each) for each in task.options]
        if task.ends:
            pieces.append(Piece(Block(84.0, partial(self._paint_scale, task.ends))))
        if task.leg:
            pieces.append(self._knees(task))
        because = tr("Because:")
        pieces += [
            Piece(Block(_WRITTEN, partial(self._paint_line, because if not i else "")))
            for i in range(_LINES)
        ]
        return Group(pieces, ends_page=True)

    def _option(self, text: str) -> Piece:
        """An answer with a box to tick before it."""
        said = self._said(text, self._plain, 10.0, _BOX + 12.0)

        def paint(easel: Easel, area: QRectF) -> None:
            easel.painter.setPen(pen(easel.theme.ink, 1.5, ()))
            easel.painter.setBrush(Qt.BrushStyle.NoBrush)
            easel.painter.drawRect(QRectF(area.left() + 1.0, area.top() + 3.0, _BOX, _BOX))
            said.block.paint(easel, area)

        return Piece(Block(max(said.block.height, _BOX + 12.0), paint))

    def _paint_scale(self, ends: Sequence[str], easel: Easel, area: QRectF) -> None:
        """A line to mark, with what stands at its ends."""
        y = area.top() + 34.0
        left, right = area.left() + 8.0, area.right() - 8.0
        easel.painter.setPen(pen(easel.theme.ink, 1.5, ()))
        easel.painter.drawLine(QPointF(left, y), QPointF(right, y))
        for i in range(11):
            x = left + 0.1 * i * (right - left)
            half = 10.0 if i in (0, 5, 10) else 5.0
            easel.painter.drawLine(QPointF(x, y - half), QPointF(x, y + half))
        low, high = ends
        base = y + 34.0
        easel.write(QPointF(area.left(), base), low, self._plain)
        width = easel.width(high, self._plain.size, self._plain.weight)
        easel.write(QPointF(area.right() - width, base), high, self._plain)

    def _paint_line(self, words: str, easel: Easel, area: QRectF) -> None:
        """A line to write on, after a word."""
        base = area.bottom() - 8.0
        easel.write(QPointF(area.left(), base), words, self._quiet)
        width = easel.width(words, self._quiet.size, self._quiet.weight) if words else 0.0
        easel.painter.setPen(pen(easel.theme.faint, 1.0, ()))
        start = QPointF(area.left() + width + (8.0 if words else 0.0), base + 2.0)
        easel.painter.drawLine(start, QPointF(area.right(), base + 2.0))

    def _knees(self, task: Task) -> Piece:
        """Both knees from the front, large enough to draw one of them elsewhere."""
        scene = scene_knees(self._drawings.frame(task.shown), task.leg)

        def paint(easel: Easel, area: QRectF) -> None:
            words = tr("Draw the knee where you expect it.")
            easel.write(QPointF(area.left(), area.top() + _SMALL), words, self._quiet)
            room = area.adjusted(0.0, _SMALL + 10.0, 0.0, -10.0)
            easel.finish()  # what was written so far is not to be cut off
            easel.painter.save()
            easel.painter.setClipRect(room)
            paint_scene(easel, scene, fitted(scene.window, room))
            easel.finish()
            easel.painter.restore()
            easel.painter.setPen(pen(easel.theme.rule, 1.0, ()))
            easel.painter.setBrush(Qt.BrushStyle.NoBrush)
            easel.painter.drawRect(room)

        return Piece(Block(_KNEES, paint))

    # Answers

    def _solution(self, solution: Solution) -> Group:
        pieces = [
            self._said(solution.heading, self._heading, 4.0),
            self._said(solution.right, self._strong, 6.0),
            self._said(solution.words, self._plain, 8.0),
            self._drawn(solution.shown, _DRAWN_SMALL),
        ]
        if solution.cases:
            pieces.append(self._cases(solution.cases))
        return Group([*pieces, Piece(Block(_GAP, _nothing))])

    def _cases(self, cases: Sequence[Side]) -> Piece:
        """Two cases beside each other, each under its words."""
        width = 0.5 * (self._width - _GAP)
        heights = [paragraph_height(case.words, width, _SMALL) for case in cases]
        words = max(heights) + 6.0
        view = self._drawings.telling_view(*(case.shown for case in cases))

        def paint(easel: Easel, area: QRectF) -> None:
            for i, case in enumerate(cases):
                left = area.left() + i * (width + _GAP)
                column = QRectF(left, area.top(), width, area.height())
                look = self._quiet._replace(text=easel.theme.ink)
                paragraph(easel, column, case.words, look)
                # Narrower than its words, so that what is called out stands near the legs.
                aside = _CASE_ASIDE * width
                under = column.adjusted(aside, words, -aside, 0.0)
                self._paint_views(easel, under, case.shown, {view: 1.0})

        return Piece(Block(words + _DRAWN_CASE, paint))

    # Drawings

    def _drawn(self, shown: Instead, least: float) -> Piece:
        """The views of a step beside each other."""

        def paint(easel: Easel, area: QRectF) -> None:
            self._paint_views(easel, area.adjusted(0.0, 0.0, 0.0, -10.0), shown, _VIEWS)

        return Piece(Block(least, paint), _DRAWN_MOST - least)

    def _paint_views(
        self, easel: Easel, area: QRectF, shown: Instead, shares: dict[str, float]
    ) -> None:
        """Views beside each other at one scale."""
        frame = self._drawings.frame(shown)
        columns = columns_of(area, area.height(), tuple(shares.values()))
        rooms = {
            key: drawing_area(key, column, 1.0) for key, column in zip(shares, columns, strict=True)
        }
        windows = {key: self._drawings.window(key) for key in shares}
        scale = min(fitted(windows[key], room).scale for key, room in rooms.items())
        for key, column in zip(shares, columns, strict=True):
            fit = fitted(windows[key], rooms[key], scale)
            fit = fit._replace(
                left=column.left() + 4.0,
                right=column.right() - 4.0,
                top=column.top() + TITLE_HEIGHT + 4.0,
            )
            scene = frame.scenes[key]
            left_out = LEFT_OUT.get(key, ()) if fit.scale < _LEAST_DIMENSIONED else ()
            lit = {mark.key for mark in scene.marks if mark.role not in left_out} & shown.marks
            paint_view(easel, scene, fit, column, scene.title, lit=lit, left_out=left_out)


def _nothing(_easel: Easel, _area: QRectF) -> None:
    """Paint nothing."""
