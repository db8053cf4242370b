"""How a field shows that what stands in it is typed and not entered: by its edge, a sign, words.

A field at rest has a thin edge.  What is typed and not entered has a dashed one with three
dots at its left, what was refused a double one with an exclamation mark, in any colour.
"""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen
from PySide6.QtWidgets import QWidget

from app.qt.drafts import Drafted
from app.qt.literal import say_about
from app.qt.painting.palette import colour
from app.qt.sizes import px, text_scale
from app.qt.themes import current_theme
from app.words.language import tr

MARK_ROOM: Final = 11
"""At the left of a field, for the sign (px)."""


def draft_words(editor: Drafted) -> str:
    """What is to be said of what stands in an editor; "" while that is in force."""
    if editor.draft is None:
        return ""
    if editor.why:
        return tr("Not taken: {reason}. Mend it, or press Escape.", reason=editor.why)
    return tr("Typed, not entered yet.")


def describe(editor: Drafted, about: str) -> None:
    """Say to assistive programs what an editor is for, and whether its text is entered."""
    said = " ".join(filter(None, (draft_words(editor), about)))
    say_about(editor, said)


def paint_edge(
    editor: Drafted,
    *,
    focus: bool,
    onto: QWidget | None = None,
    on: QRectF | None = None,
    sign: bool = True,
) -> None:
    """Draw the edge of an editor, and its sign.

    Args:
        editor: whose text it is.
        focus: whether it has the keyboard.
        onto: what to draw on; the editor itself where nothing else is said.
        on: where; all of the editor where nothing else is said.
        sign: whether there is room for the sign.
    """
    theme = current_theme()
    refused, typed = bool(editor.why), editor.draft is not None
    width, line = (1.5, theme.ink) if focus or typed else (1.0, theme.edge)
    ink = colour(theme.accent_text if refused else line)
    rect = (QRectF(editor.rect()) if on is None else on).adjusted(0.5, 0.5, -0.5, -0.5)
    with QPainter(onto or editor) as painter:
        pen = QPen(ink, width if on is None or not refused else 3.0)
        if typed and not refused:
            pen.setDashPattern([2.5, 1.5])
        painter.setPen(pen)
        painter.drawRect(rect)
        if refused and on is None:
            painter.drawRect(rect.adjusted(2.5, 2.5, -2.5, -2.5))
        if typed and sign:
            _paint_sign(painter, rect, ink, refused=refused)


def _paint_sign(painter: QPainter, rect: QRectF, ink: QColor, *, refused: bool) -> None:
    times = text_scale()
    x, y = (
        rect.left() + times * (MARK_ROOM / 2.0 + 1.0),
        rect.top() + min(rect.height(), px(22)) / 2.0,
    )
    painter.translate(x, y)
    painter.scale(times, times)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(ink)
    if refused:
        painter.drawRect(QRectF(-1.0, -5.5, 2.0, 7.0))
        painter.drawRect(QRectF(-1.0, 3.0, 2.0, 2.0))
    else:
        for dx in (-3.0, 0.0, 3.0):
            painter.drawEllipse(QPointF(dx, 3.0), 0.9, 0.9)
