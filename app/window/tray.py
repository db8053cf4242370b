"""The tray under the drawings: tools that need room, one page each, closed until wanted.

A page is made when it is first opened, since some of them draw on libraries that
take time to load.  Only the page that is open is shown frames.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from typing import NamedTuple, Protocol

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import (
    QFrame,
    QLineEdit,
    QPlainTextEdit,
    QSizePolicy,
    QStackedWidget,
    QToolButton,
    QWidget,
)

from app.frame import Frame
from app.qt.controls.layout import in_column, in_row
from app.qt.literal import show_tip
from app.session import Session
from app.window.regions import reached_from


class Page(Protocol):
    """What the tray asks of a page, besides being a widget."""

    def show_frame(self, frame: Frame, *, dragging: bool) -> None:
        """Show a frame; during a drag only what is quick enough for it."""


class Entry(NamedTuple):
    """A page that can be opened.

    Attributes:
        title: on its tab.
        help: what it is for.
        make: makes the widget, which is also a :class:`Page`.
        height: that it asks for (logical px).
    """

    title: str
    help: str
    make: Callable[[Session], QWidget]
    height: int


class Tray(QWidget):
    """A row of tabs, and the page of the one that is open."""

    opened = Signal(bool)
    """Whether a page is open now."""

    def __init__(self, entries: list[Entry], session: Session) -> None:
        super().__init__()
        self._entries = entries
        self._session = session
        self._frame: Frame | None = None
        self._pages: dict[int, QWidget] = {}
        self._open = -1
        self._build()

    def _build(self) -> None:
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.tab_bar = tabs = QFrame()
        tabs.setObjectName("tabs")
        self.tabs: list[QToolButton] = []
        for i, entry in enumerate(self._entries):
            tab = QToolButton()
            tab.setText(self.tr(entry.title))
            show_tip(tab, self.tr(entry.help))
            tab.setCheckable(True)
            tab.setAutoRaise(True)
            tab.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
            tab.clicked.connect(lambda _=False, i=i: self.toggle(i))
            self.tabs.append(tab)
        in_row(*self.tabs, 1, of=tabs, spacing=2, margins=(8, 2, 8, 2))
        self._stack = QStackedWidget()
        self._stack.hide()
        in_column(tabs, self._stack, of=self, spacing=0)

    def toggle(self, i: int) -> None:
        """Open a page, or close the tray where that page is open."""
        self._open = -1 if self._open == i else i
        for j, tab in enumerate(self.tabs):
            tab.setChecked(j == self._open)
        self._stack.setVisible(self._open >= 0)
        if self._open >= 0:
            page = self._page(self._open)
            self._stack.setCurrentWidget(page)
            self._stack.setFixedHeight(self._entries[self._open].height)
            if self._frame is not None:
                page.show_frame(self._frame, dragging=False)  # type: ignore[attr-defined]
        self.opened.emit(self._open >= 0)

    def open_page(self, title: str) -> QWidget:
        """Open the page of this title where it is closed; the page."""
        i = [entry.title for entry in self._entries].index(title)
        if i != self._open:
            self.toggle(i)
        return self._pages[i]

    def _page(self, i: int) -> QWidget:
        if i not in self._pages:
            page = self._pages[i] = self._entries[i].make(self._session)
            # All on it: the page stands alone yet.
            controls = list(reached_from(page))
            let_files_through(page)
            self._stack.addWidget(page)
            # Made late, they would else come after everything else in the window.
            for before, after in pairwise([self.tabs[-1], *controls]):
                QWidget.setTabOrder(before, after)
        return self._pages[i]

    @property
    def current(self) -> QWidget | None:
        """The page that is open."""
        return self._pages.get(self._open)

    def show_frame(self, frame: Frame, *, dragging: bool) -> None:
        """Hand a frame to the page that is open."""
        self._frame = frame
        if self.current is not None:
            self.current.show_frame(frame, dragging=dragging)  # type: ignore[attr-defined]

    def sizeHint(self) -> QSize:  # noqa: N802
        """As high as the tabs and the open page."""
        return self.minimumSizeHint()


def let_files_through(page: QWidget) -> None:
    """Leave what is dropped to the window: a field would type a file's address."""
    for kind in (QLineEdit, QPlainTextEdit):
        for field in page.findChildren(kind):
            field.setAcceptDrops(False)
