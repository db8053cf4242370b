"""A group of controls that folds away under its heading."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QPointF, QRect, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleInterface,
    QAccessibleStateChangeEvent,
    QFont,
    QPainter,
    QPaintEvent,
    QPen,
)
from PySide6.QtWidgets import QWidget

from app.drawing.theme import mixed
from app.qt.controls.entry_row import PAD
from app.qt.controls.layout import in_column
from app.qt.controls.switch import RingedButton
from app.qt.painting.palette import TEXT_PX, colour, typeface
from app.qt.sizes import px, target_px, text_scale
from app.qt.themes import current_theme

HEIGHT: Final = 26
_OPEN: Final = ((-3.5, -2.0), (0.0, 1.5), (3.5, -2.0))
_FOLDED: Final = ((-1.5, -3.5), (2.0, 0.0), (-1.5, 3.5))
"""Corners of the arrow (px)."""


class Heading(RingedButton):
    """The heading of a group: an arrow that shows whether it is open, and its name."""

    ring = (3.5, 3.5, -3.5, -2.5)

    def __init__(self, title: str, *, minor: bool, parent: QWidget) -> None:
        super().__init__(parent)
        self._minor = minor
        self.setText(title)
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setFixedHeight(target_px(HEIGHT))

    def spoken_interface(self) -> QAccessibleInterface:
        """As assistive programs see it."""
        from app.qt.accessible.roles import SpokenButton  # noqa: PLC0415

        return SpokenButton(self, QAccessible.Role.Button)

    def paint_button(self, painter: QPainter) -> None:
        theme = current_theme()
        if self.underMouse():
            painter.fillRect(self.rect(), colour(mixed(theme.field, theme.panel, 0.5)))
        if not self._minor:
            painter.fillRect(QRect(0, 0, self.width(), 1), colour(theme.rule))
        weight = QFont.Weight.Normal if self._minor else QFont.Weight.DemiBold
        painter.setFont(typeface(TEXT_PX, weight))
        painter.setPen(colour(theme.quiet if self._minor else theme.ink))
        text = self.rect().adjusted(px(PAD + 12), 0, -px(PAD), 0)
        painter.drawText(text, Qt.AlignmentFlag.AlignVCenter, self.text())
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(colour(theme.quiet), 1.5))
        painter.drawPolyline(self._arrow())

    def _arrow(self) -> list[QPointF]:
        x, y = px(PAD + 3), self.height() / 2.0 + 0.5
        corners = _OPEN if self.isChecked() else _FOLDED
        return [
            QPointF(x + text_scale() * right, y + text_scale() * down) for right, down in corners
        ]


class _Inset(QWidget):
    """The body of a minor group: set in, along a thin line."""

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802
        with QPainter(self) as painter:
            painter.fillRect(
                QRect(px(PAD + 3), 0, 1, self.height() - px(6)), colour(current_theme().rule)
            )


class Section(QWidget):
    """A heading and what it folds away.

    Attributes:
        is_open: whether the rows can be seen.
    """

    folded = Signal(bool)
    """The group was folded away, or opened."""

    def __init__(self, title: str, *, minor: bool = False, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.is_open = True
        self.heading = Heading(title, minor=minor, parent=self)
        self._body = _Inset(self) if minor else QWidget(self)
        self._rows = in_column(of=self._body, spacing=0, margins=(PAD if minor else 0, 0, 0, 6))
        in_column(self.heading, self._body, of=self, spacing=0)
        self.heading.setAccessibleName(title)
        self.heading.setChecked(True)
        self.heading.toggled.connect(self._fold)

    def add(self, row: QWidget, *, under: QWidget | None = None) -> None:
        """Put a row under another one, or under all others."""
        self._rows.insertWidget(self._rows.indexOf(under) + 1 if under else -1, row)

    def set_open(self, is_open: bool) -> None:
        """Show the rows, or fold them away."""
        self.heading.setChecked(is_open)

    def reveal(self, widget: QWidget) -> None:
        """Open, so that a row can be seen."""
        if widget is not self.heading:
            self.set_open(True)

    def _fold(self, is_open: bool) -> None:
        self.is_open = is_open
        self._body.setVisible(is_open)
        turned = QAccessible.State()
        turned.expanded = turned.collapsed = True
        QAccessible.updateAccessibility(QAccessibleStateChangeEvent(self.heading, turned))
        self.folded.emit(not is_open)
