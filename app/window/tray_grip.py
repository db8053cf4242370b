"""The strip over an open page: says which it is, closes it, and is pulled to make it higher."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleInterface,
    QColor,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
)
from PySide6.QtWidgets import QSizePolicy, QToolButton, QWidget

from app.qt.controls.elided import Elided
from app.qt.controls.layout import in_row
from app.qt.literal import Label, show_tip
from app.qt.painting.palette import QUIET, typeface
from app.qt.sizes import target_px
from app.qt.themes import current_theme

HEIGHT: Final = 26
"""Of the strip (logical px): enough for a finger."""
STEP: Final = 16
"""How far an arrow key pulls (logical px)."""
_KEYS: Final = {
    Qt.Key.Key_Up: STEP,
    Qt.Key.Key_Down: -STEP,
    Qt.Key.Key_PageUp: 5 * STEP,
    Qt.Key.Key_PageDown: -5 * STEP,
    Qt.Key.Key_Home: 10_000,
    Qt.Key.Key_End: -10_000,
}
_HANDLE: Final = QSize(36, 4)


class TrayGrip(QWidget):
    """Pulled by the mouse or the arrow keys; keeps no height itself."""

    taken = Signal()
    """The pointer took hold of it."""
    pulled = Signal(int)
    """How much higher the page is wanted than when it was taken hold of (logical px)."""
    released = Signal()
    """The pull is over."""
    closed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._from: float | None = None
        self.setFixedHeight(target_px(HEIGHT))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setCursor(Qt.CursorShape.SizeVerCursor)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setAccessibleName(self.tr("Height of the page"))
        show_tip(self, self.tr("Pull up for a higher page, down for larger drawings"))
        self._title = Label()
        self._title.setFont(typeface(weight=typeface().Weight.DemiBold))
        self._help = Elided()
        self._help.setForegroundRole(QUIET)
        self._help.setMinimumWidth(1)  # gives way before anything else does
        self.close_button = QToolButton()
        self.close_button.setText("✕")
        self.close_button.setAutoRaise(True)
        self.close_button.setFixedSize(target_px(HEIGHT), target_px(HEIGHT) - 2)
        self.close_button.setCursor(Qt.CursorShape.ArrowCursor)
        self.close_button.setAccessibleName(self.tr("Close the page"))
        show_tip(self.close_button, self.tr("Close the page"))
        self.close_button.clicked.connect(self.closed)
        in_row(
            self._title,
            (self._help, 1),
            self.close_button,
            of=self,
            spacing=10,
            margins=(12, 0, 6, 0),
        )

    def spoken_interface(self) -> QAccessibleInterface:
        """As assistive programs see it."""
        from app.qt.accessible.roles import SpokenWidget  # noqa: PLC0415

        return SpokenWidget(self, QAccessible.Role.Splitter)

    def show_page(self, title: str, help_text: str) -> None:
        """Say which page is open, and what it is for."""
        self._title.setText(title)
        self._help.tell(help_text)

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802
        """The strip with a handle in its middle, framed while the keyboard is on it."""
        theme = current_theme()
        with QPainter(self) as painter:
            painter.fillRect(event.rect(), QColor(theme.panel))
            painter.fillRect(QRectF(0, 0, self.width(), 1), QColor(theme.rule))
            handle = QRectF(QPointF(), _HANDLE.toSizeF())
            handle.moveCenter(QPointF(0.5 * self.width(), 4.0))
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(theme.front if self.hasFocus() else theme.quiet))
            painter.drawRoundedRect(handle, 2.0, 2.0)
            if self.hasFocus():
                painter.setBrush(Qt.BrushStyle.NoBrush)
                painter.setPen(QColor(theme.front))
                painter.drawRect(self.rect().adjusted(0, 0, -1, -1))

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        """Take hold."""
        if event.button() == Qt.MouseButton.LeftButton:
            self._from = event.globalPosition().y()
            self.taken.emit()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        """Pull."""
        if self._from is not None:
            self.pulled.emit(round(self._from - event.globalPosition().y()))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        """Let go."""
        if event.button() == Qt.MouseButton.LeftButton and self._from is not None:
            self._from = None
            self.released.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        """Pull step by step."""
        pull = _KEYS.get(Qt.Key(event.key()))
        if pull is None:
            super().keyPressEvent(event)
            return
        self.taken.emit()
        self.pulled.emit(pull)
        self.released.emit()

    def focusInEvent(self, event: QFocusEvent) -> None:  # noqa: N802
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:  # noqa: N802
        super().focusOutEvent(event)
        self.update()
