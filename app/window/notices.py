"""One line under the bar that tells what is worth knowing and interrupts nobody."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Final, NamedTuple

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QApplication, QMainWindow, QToolBar

from app.qt.controls.elided import Elided
from app.qt.controls.page_words import announce
from app.qt.literal import name_command
from app.qt.sizes import px

NEWS_MS: Final = 10_000
"""How long news stay that ask for nothing; longer while the mouse or the keyboard is on them."""
_MOST_OFFERS: Final = 2


class Offer(NamedTuple):
    """A button beside a notice.

    Attributes:
        words: on the button.
        do: what it does.
    """

    words: str
    do: Callable[[], object]


class Notice(NamedTuple):
    """What is told, and what can be done about it."""

    text: str
    offers: tuple[Offer, ...] = ()


class NoticeBar(QToolBar):
    """Shows one notice at a time; hidden while there is none.

    What was told stays until it is dismissed; news stand before it for a moment.

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
        self._label.setContentsMargins(px(6), 0, px(6), 0)
        self.addWidget(self._label)
        self._offers = [self.addAction("") for _ in range(_MOST_OFFERS)]
        for i, action in enumerate(self._offers):
            action.triggered.connect(partial(self._take_offer, i))
        self.addAction(self.tr("Dismiss")).triggered.connect(self._dismiss)
        self._shown = self._told = Notice("")
        self._patience = QTimer(self, singleShot=True, interval=NEWS_MS)
        self._patience.setObjectName("patience")
        self._patience.timeout.connect(self._let_pass)
        window.addToolBarBreak()
        window.addToolBar(self)
        self.clear_notice()

    @property
    def text(self) -> str:
        """What is told; empty for nothing."""
        return self._shown.text

    def tell(self, text: str, offer: str = "", taken: Callable[[], object] | None = None) -> Notice:
        """Show a notice, with a button that does something about it where there is one."""
        offers = (Offer(offer, taken or self.clear_notice),) if offer else ()
        self._told = Notice(text, offers)
        self._show(self._told)
        return self._told

    def tell_news(self, text: str, *offers: Offer) -> Notice:
        """Show for a while what was done; what was told before comes back then."""
        news = Notice(text, offers)
        self._show(news)
        self._patience.start()
        return news

    def take_back(self, notice: Notice) -> None:
        """Tell a notice no more, which is not so any more; nothing where it has gone."""
        if self._told is notice:
            self._told = Notice("")
        if self._shown is notice:
            self._show(self._told)

    def clear_notice(self) -> None:
        """Show nothing."""
        self._told = Notice("")
        self._show(self._told)

    def _show(self, notice: Notice) -> None:
        self._patience.stop()
        self._shown = notice
        self._label.tell(notice.text)
        for i, action in enumerate(self._offers):
            name_command(action, notice.offers[i].words if i < len(notice.offers) else "")
            action.setVisible(i < len(notice.offers))
        self.setVisible(bool(notice.text))
        if notice.text:
            announce(self, notice.text)

    def _let_pass(self) -> None:
        focus = QApplication.focusWidget()
        if self.underMouse() or (focus is not None and self.isAncestorOf(focus)):
            self._patience.start()
        else:
            self._show(self._told)

    def _dismiss(self) -> None:
        if self._shown is self._told:
            self.clear_notice()
        else:
            self._show(self._told)

    def _take_offer(self, i: int) -> None:
        do = self._shown.offers[i].do
        if self._shown is self._told:
            self.clear_notice()
        else:
            # A desktop that cannot open a file may not say so: its place stays readable.
            self._patience.start()
        do()
