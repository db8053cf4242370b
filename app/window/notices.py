"""One line under the bar that tells what is worth knowing and interrupts nobody."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QMainWindow, QSizePolicy, QToolBar

from app.qt.controls.page_words import announce
from app.qt.literal import Label, name_command, show_tip


class NoticeBar(QToolBar):
    """Shows one notice at a time; hidden while there is none.

    Args:
        window: gets the bar below those that it has.

    Attributes:
        text: what is told; empty for nothing.
    """

    def __init__(self, window: QMainWindow) -> None:
        super().__init__(window)
        self.setWindowTitle(self.tr("Notice"))
        self.setMovable(False)
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.PreventContextMenu)
        self._label = _Elided()
        self.addWidget(self._label)
        self._offer = self.addAction("")
        self._offer.triggered.connect(self._take_offer)
        self.addAction(self.tr("Dismiss")).triggered.connect(self.clear_notice)
        self._taken: Callable[[], object] = self.clear_notice
        window.addToolBarBreak()
        window.addToolBar(self)
        self.clear_notice()

    def tell(self, text: str, offer: str = "", taken: Callable[[], object] | None = None) -> None:
        """Show a notice, with a button that does something about it where there is one."""
        self.text = text
        self._label.setText(text)
        show_tip(self._label, text)
        name_command(self._offer, offer)
        self._offer.setVisible(bool(offer))
        self._taken = taken or self.clear_notice
        self.show()
        announce(self, text)

    def clear_notice(self) -> None:
        """Show nothing."""
        self.text = ""
        self._label.setText("")
        self.hide()

    def _take_offer(self) -> None:
        self.clear_notice()
        self._taken()


class _Elided(Label):
    """A line that is cut with dots where there is no room; its tool tip has the whole."""

    def __init__(self) -> None:
        super().__init__()
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self.setContentsMargins(6, 0, 6, 0)

    def minimumSizeHint(self) -> QSize:  # noqa: N802
        return QSize(80, super().minimumSizeHint().height())

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802
        """Paint what there is room for."""
        with QPainter(self) as painter:
            room = self.contentsRect()
            words = self.fontMetrics().elidedText(
                self.text(), Qt.TextElideMode.ElideRight, room.width()
            )
            painter.setPen(self.palette().windowText().color())
            painter.drawText(room, int(Qt.AlignmentFlag.AlignVCenter), words)
