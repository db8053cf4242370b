"""Two stances side by side on one sheet: screen, picture and paper alike."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from itertools import accumulate
from typing import Final, NamedTuple

from PySide6.QtCore import QPointF, QRectF

from app.drawing.marks import Window
from app.drawing.styles import Style
from app.features.compare.model import Comparison, Row, comparison_of
from app.frame import Frame
from app.qt.painting.easel import Easel, pen
from app.qt.painting.page_painting import (
    BODY,
    HEADING,
    ROW,
    heading,
    paint_view,
    paragraph,
    paragraph_height,
    shortened,
    table,
)
from app.qt.painting.sheet_layout import TITLE_HEIGHT, columns_of, drawing_area, halves
from app.qt.painting.viewport import Viewport, fitted
from app.stance.findings import CAUTION
from app.words.language import ntr, tr

_VIEWS: Final = ("above", "front")
_GAP: Final = 14.0
_HEAD: Final = 34.0
_WIDE: Final = 1150.0
"""Width from which on there is room for two columns of inputs (logical px)."""
_MOST_ROWS: Final = 9
"""Inputs in one column where there is room for two."""
_MOST_NARROW: Final = 12
"""Inputs shown where there is room for one column only."""
_MOST_ON_PAPER: Final = 22
"""Inputs shown on paper in one column: the drawings get what height is left."""
_BETWEEN: Final = 12.0
"""Between the columns of a table (logical px)."""
_SHORT_NAME: Final = "A name, shortened"
"""As wide as the name of a set-up needs to be in order to be told from another."""
_BEGINNING: Final = 8
"""Letters; names that begin with the same ones are told apart by their ends."""
_CAUTION_SIZE: Final = 11.0


class Pair(NamedTuple):
    """Two stances to be compared: the live one and the other."""

    live: Frame
    other: Frame

    @property
    def said(self) -> Comparison:
        """What is said of them."""
        return comparison_of(self.live, self.other)


def paint_comparison(easel: Easel, area: QRectF, pair: Pair, on: date | None = None) -> None:
    """Paint both stances and the tables under them into an area.

    Args:
        easel: to paint on.
        area: at least about 900 by 600 logical pixels.
        pair: the stances.
        on: day to put on a picture or a page, along with the caution; None on the
            screen, where both stand elsewhere.
    """
    said = pair.said
    bottom = area.bottom()
    if on is not None:
        height = paragraph_height(tr(CAUTION), area.width(), _CAUTION_SIZE)
        bottom -= height
        look = Style(text=easel.theme.quiet, size=_CAUTION_SIZE)
        paragraph(easel, QRectF(area.left(), bottom, area.width(), height), tr(CAUTION), look)
    columns = _columns_of(easel, said, area.width(), on_paper=on is not None)
    rows = max(*(len(column) for column in columns), len(said.knees))
    tables = HEADING + (rows + 1) * ROW + 10.0
    bottom -= tables
    _paint_tables(easel, QRectF(area.left(), bottom, area.width(), tables), said, columns)
    _paint_both(easel, QRectF(area.left(), area.top(), area.width(), bottom - area.top()), pair, on)
    easel.finish()


def _paint_both(easel: Easel, area: QRectF, pair: Pair, on: date | None) -> None:
    """The live stance at the left, the other at the right, all at one scale."""
    sides = halves(area, _GAP)
    said = pair.said
    dated = f" · {on.isoformat()}" if on is not None else ""
    names = (f"{said.live}{dated}", said.other)
    easel.painter.setPen(pen(easel.theme.rule, 1.0, ()))
    middle = area.center().x()
    easel.painter.drawLine(QPointF(middle, area.top() + 4.0), QPointF(middle, area.bottom() - 8.0))
    places = [_places(half) for half in sides]
    fits = _fits(places, pair)
    for half, place, fit, shown, name in zip(
        sides, places, fits, (pair.live, pair.other), names, strict=True
    ):
        look = Style(text=easel.theme.ink, size=17.0, weight=600)
        fitting = shortened(easel, name, look, half.width() - 12.0)
        easel.write(QPointF(half.left() + 6.0, half.top() + 22.0), fitting, look)
        for key in _VIEWS:
            paint_view(easel, shown.scenes[key], fit[key], place[key], shown.scenes[key].title)


def _places(half: QRectF) -> dict[str, QRectF]:
    """Where the views stand in one half."""
    drawn = half.adjusted(0.0, _HEAD, 0.0, 0.0)
    return dict(zip(_VIEWS, columns_of(drawn, drawn.height(), (0.46, 0.54)), strict=True))


def _fits(places: Sequence[dict[str, QRectF]], pair: Pair) -> list[dict[str, Viewport]]:
    """One scale for all four drawings, so that what looks larger is larger."""
    windows: dict[str, Window] = {
        key: pair.live.scenes[key].window.joined(pair.other.scenes[key].window) for key in _VIEWS
    }
    areas = [{key: drawing_area(key, place[key], 1.0) for key in _VIEWS} for place in places]
    scale = min(fitted(windows[key], area[key]).scale for area in areas for key in _VIEWS)
    return [
        {
            key: fitted(windows[key], area[key], scale)._replace(
                top=place[key].top() + TITLE_HEIGHT + 4.0
            )
            for key in _VIEWS
        }
        for place, area in zip(places, areas, strict=True)
    ]


def _columns_of(easel: Easel, said: Comparison, width: float, *, on_paper: bool) -> list[list[Row]]:
    """The inputs in one column, or in two where they are many and there is room."""
    rows = said.inputs
    if width >= _WIDE and len(rows) > _MOST_ROWS:
        half = (len(rows) + 1) // 2
        halves = [list(rows[:half]), list(rows[half:])]
        needed = [sum(_widths(easel, each)) for each in (*halves, said.knees)]
        if sum(needed) + _BETWEEN + 2.0 * _GAP <= width:
            return halves
    most = _MOST_ON_PAPER if on_paper else _MOST_NARROW
    if len(rows) <= most:
        return [list(rows)]
    return [[*rows[: most - 1], Row(_left_out(len(rows) - most + 1, on_paper), "", "", "")]]


def _left_out(count: int, on_paper: bool) -> str:
    """What stands in place of inputs that there is no room for."""
    if on_paper:
        return ntr("and {count} more, in the window", "and {count} more, in the window", count)
    return ntr("and {count} more, in a wider window", "and {count} more, in a wider window", count)


def _widths(easel: Easel, rows: Sequence[Row]) -> list[float]:
    """What each column of a table needs, with the gap behind it (logical px).

    The names above the columns are cut to what there is, and a line without values
    may run across.
    """
    head = Row("", _SHORT_NAME, _SHORT_NAME, tr("Change"))
    valued = [row for row in rows if row.live]
    return [
        max(easel.width(cell, BODY, 400) for cell in column) + _BETWEEN
        for column in zip(head, *valued, strict=True)
    ]


def shares_of(easel: Easel, rows: Sequence[Row], width: float) -> tuple[float, ...]:
    """Where the columns of a table begin, as shares of its width: each as wide as it needs.

    What is left over goes to all alike.
    """
    needed = _widths(easel, rows)
    spare = max(0.0, width - sum(needed)) / len(needed)
    ends = accumulate(each + spare for each in needed)
    return (0.0, *(end / width for end in ends))[:-1]


def _paint_tables(
    easel: Easel, area: QRectF, said: Comparison, columns: Sequence[Sequence[Row]]
) -> None:
    """What differs at the left, and what it does at the knees at the right."""
    both = [sum(sum(_widths(easel, rows)) for rows in columns), sum(_widths(easel, said.knees))]
    split = area.left() + both[0] / sum(both) * area.width()
    left = area.adjusted(0.0, 0.0, split - _GAP - area.right(), 0.0)
    right = area.adjusted(split + _GAP - area.left(), 0.0, 0.0, 0.0)
    top = heading(easel, left, tr("What differs"))
    at = left.left()
    for rows in columns:
        share = sum(_widths(easel, rows)) / both[0]
        width = share * (left.width() - _BETWEEN * (len(columns) - 1))
        _paint_rows(easel, QRectF(at, top, width, area.height()), said, rows)
        at += width + _BETWEEN
    top = heading(easel, right, tr("At the knees"))
    _paint_rows(easel, right.translated(0.0, top - right.top()), said, said.knees)


def _paint_rows(easel: Easel, box: QRectF, said: Comparison, rows: Sequence[Row]) -> None:
    """Rows under the names of the two set-ups; a sentence where there are none."""
    theme = easel.theme
    if not rows:
        look = Style(text=theme.ink, size=BODY)
        text = tr("Nothing: both stances are the same.")
        easel.write(QPointF(box.left(), box.top() + 0.8 * BODY), text, look)
        return
    shares = shares_of(easel, rows, box.width())
    look = Style(text=theme.ink, size=BODY)
    alike = said.live[:_BEGINNING] == said.other[:_BEGINNING]
    names = (
        shortened(easel, name, look, (end - begin) * box.width() - 8.0, keep_end=alike)
        for name, begin, end in zip((said.live, said.other), shares[1:], shares[2:], strict=False)
    )
    head = ("", *names, tr("Change"))
    table(easel, box, (head,), shares, (theme.quiet,) * 4)
    below = box.adjusted(0.0, ROW, 0.0, 0.0)
    table(easel, below, rows, shares)
