"""What stands beside what: widgets in rows, in columns and on grids.

Spacings and margins are given as they are at the usual size of letters.
"""

from __future__ import annotations

from typing import TypeAlias, TypeVar

from PySide6.QtWidgets import QBoxLayout, QGridLayout, QHBoxLayout, QLayout, QVBoxLayout, QWidget

from app.qt.sizes import px

Item: TypeAlias = QWidget | QLayout | tuple[QWidget | QLayout, int] | int
"""A widget or a layout, alone or with its share of the room that is left over; a number
stands for empty room with that share."""
Margins: TypeAlias = tuple[int, int, int, int]
"""At the left, over, at the right and under what stands there (px)."""

NONE: Margins = (0, 0, 0, 0)
_Box = TypeVar("_Box", bound=QBoxLayout)


def in_row(
    *items: Item, of: QWidget | None = None, spacing: int = -1, margins: Margins = NONE
) -> QHBoxLayout:
    """Items beside each other.

    Args:
        items: from the left.
        of: the widget that they fill; None for a row within another layout.
        spacing: between them (px); the usual one where negative.
        margins: around all of them (px).
    """
    box = QHBoxLayout() if of is None else QHBoxLayout(of)
    return _filled(box, items, spacing, margins)


def in_column(
    *items: Item, of: QWidget | None = None, spacing: int = -1, margins: Margins = NONE
) -> QVBoxLayout:
    """Items below each other; arguments as for :func:`in_row`."""
    box = QVBoxLayout() if of is None else QVBoxLayout(of)
    return _filled(box, items, spacing, margins)


def _filled(box: _Box, items: tuple[Item, ...], spacing: int, margins: Margins) -> _Box:
    box.setContentsMargins(*map(px, margins))
    box.setSpacing(spacing if spacing < 0 else px(spacing))
    for item in items:
        if isinstance(item, int):
            box.addStretch(item)
            continue
        what, share = item if isinstance(item, tuple) else (item, 0)
        if isinstance(what, QLayout):
            box.addLayout(what, share)
        else:
            box.addWidget(what, share)
    return box


def grid_of(
    widget: QWidget | None, spacing: tuple[int, int], margins: Margins = NONE
) -> QGridLayout:
    """An empty grid; ``spacing`` is that between its columns and between its rows (px)."""
    grid = QGridLayout(widget)
    grid.setContentsMargins(*map(px, margins))
    grid.setHorizontalSpacing(px(spacing[0]))
    grid.setVerticalSpacing(px(spacing[1]))
    return grid
