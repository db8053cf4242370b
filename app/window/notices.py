"""One line under the bar that tells what is worth knowing and interrupts nobody."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QMainWindow, QToolBar

from app.qt.controls.elided import Elided
from app.qt.controls.page_words import announce
from app.qt.literal import name_command


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
        self._label = Elided()
        self._label.setContentsMargins(6, 0, 6, 0)
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
        self._label.tell(text)
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
