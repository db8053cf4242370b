"""Widgets beside each other, in as many lines as the width asks for."""

from __future__ import annotations

from PySide6.QtCore import QMargins, QPoint, QRect, QSize, Qt
from PySide6.QtWidgets import QLayout, QLayoutItem, QWidget

from app.qt.controls.layout import Margins
from app.qt.sizes import px


class Flow(QLayout):
    """Lays widgets out like words of a text; its height follows its width.

    Args:
        of: the widget that they fill.
        spacing: between them, and between the lines (px).
        margins: around all of them (px).
    """

    def __init__(self, of: QWidget, spacing: int, margins: Margins) -> None:
        super().__init__(of)
        self._items: list[QLayoutItem] = []
        self.setSpacing(px(spacing))
        self.setContentsMargins(QMargins(*map(px, margins)))

    def addItem(self, item: QLayoutItem, /) -> None:  # noqa: N802
        self._items.append(item)

    def count(self) -> int:
        return len(self._items)

    def itemAt(self, index: int, /) -> QLayoutItem | None:  # noqa: N802
        return self._items[index] if 0 <= index < len(self._items) else None

    def takeAt(self, index: int, /) -> QLayoutItem | None:  # noqa: N802
        return self._items.pop(index) if 0 <= index < len(self._items) else None

    def expandingDirections(self) -> Qt.Orientation:  # noqa: N802
        return Qt.Orientation(0)

    def hasHeightForWidth(self) -> bool:  # noqa: N802
        return True

    def heightForWidth(self, width: int, /) -> int:  # noqa: N802
        return self._laid_out(QRect(0, 0, width, 0), place=False)

    def sizeHint(self) -> QSize:  # noqa: N802
        """All in one line."""
        hints = [item.sizeHint() for item in self._items if not item.isEmpty()]
        width = sum(hint.width() for hint in hints) + self.spacing() * max(len(hints) - 1, 0)
        height = max((hint.height() for hint in hints), default=0)
        return QSize(width, height).grownBy(self.contentsMargins())

    def minimumSize(self) -> QSize:  # noqa: N802
        """The widest of them alone."""
        hints = [item.minimumSize() for item in self._items if not item.isEmpty()]
        width = max((hint.width() for hint in hints), default=0)
        height = max((hint.height() for hint in hints), default=0)
        return QSize(width, height).grownBy(self.contentsMargins())

    def setGeometry(self, area: QRect, /) -> None:  # noqa: N802
        super().setGeometry(area)
        self._laid_out(area, place=True)

    def _laid_out(self, area: QRect, *, place: bool) -> int:
        """The height that the lines take in an area; places the widgets there as well."""
        inner = area.marginsRemoved(self.contentsMargins())
        x, y, line = inner.left(), inner.top(), 0
        for item in self._items:
            if item.isEmpty():
                continue
            hint = item.sizeHint()
            if line and x + hint.width() > inner.left() + inner.width():
                x, y, line = inner.left(), y + line + self.spacing(), 0
            if place:
                item.setGeometry(QRect(QPoint(x, y), hint))
            x += hint.width() + self.spacing()
            line = max(line, hint.height())
        return y + line - area.top() + self.contentsMargins().bottom()
