"""The tray under the drawings: tools that need room, one page each, closed until wanted.

A page is made when it is first opened, since some of them draw on libraries that
take time to load.  Only the page that is open is shown frames.  The tabs stay where they
are, along the lower edge of the window; all pages have the one height that the user gave them.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from itertools import pairwise
from typing import Any, Final, NamedTuple, Protocol, runtime_checkable

from PySide6.QtCore import QEvent, QSize, Qt, Signal
from PySide6.QtGui import QAccessible, QAccessibleInterface, QAction, QKeySequence, QResizeEvent
from PySide6.QtWidgets import (
    QFrame,
    QLineEdit,
    QPlainTextEdit,
    QSizePolicy,
    QStackedWidget,
    QToolButton,
    QWidget,
)

from app.drawing.marks import Mark
from app.frame import Frame
from app.qt.controls.flow import Flow
from app.qt.controls.layout import in_column
from app.qt.controls.plain_area import PlainArea
from app.qt.drafts import desk_of
from app.qt.literal import show_tip
from app.qt.sizes import target_px, text_scale
from app.session import Session
from app.window.regions import reached_from
from app.window.tray_grip import TrayGrip

USUAL_HEIGHT: Final = 312
LEAST_HEIGHT: Final = 150
"""Of a page (logical px)."""
_TAB_HEIGHT: Final = 28


class Page(Protocol):
    """What the tray asks of a page, besides being a widget.

    One whose ``plays_along`` is true is also shown what is played, moment by moment.
    """

    def show_frame(self, frame: Frame, *, dragging: bool) -> None:
        """Show a frame; during a drag only what is quick enough for it."""


@runtime_checkable
class MarkingPage(Protocol):
    """A page that draws into the views while it is open.

    Attributes:
        remarked: a signal that something else is to be drawn.
    """

    remarked: Any

    def marks(self, frame: Frame) -> Mapping[str, tuple[Mark, ...]]:
        """What is drawn over the views of a frame, by their keys."""


@runtime_checkable
class RememberingPage(Protocol):
    """A page that keeps what is no part of the set-up, to be found again in one made anew."""

    def remembered(self) -> Any:
        """What it keeps, in no language and no size."""

    def recall(self, remembered: Any) -> None:
        """Keep what another one of its kind did."""


class Entry(NamedTuple):
    """A page that can be opened.

    Attributes:
        title: on its tab.
        help: what it is for.
        make: makes the widget, which is also a :class:`Page`.
    """

    title: str
    help: str
    make: Callable[[Session], QWidget]


class Tray(QWidget):
    """The page that is open, under a strip that tells of it; nothing while none is.

    Attributes:
        entries: the pages that can be opened.
        tab_bar: the tabs of all pages, which stand elsewhere, whatever is open.
        ways: an action for each page, which opens and closes it.
    """

    opened = Signal(bool)
    """Whether a page is open now."""
    turned = Signal(str)
    """The title of the page that is open now; "" for none."""
    remarked = Signal()
    """The page that is open draws something else into the views, or none does any more."""
    pulled = Signal(int)
    """The user gave the pages another height (logical px)."""

    def __init__(self, entries: list[Entry], session: Session) -> None:
        super().__init__()
        self.entries = entries
        self._session = session
        self._frame: Frame | None = None
        self._pages: dict[int, QWidget] = {}
        self._places: dict[int, int] = {}
        self._open = -1
        self._held_at = USUAL_HEIGHT
        self._build()

    def _build(self) -> None:
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self.grip = TrayGrip()
        self.grip.taken.connect(self._take_hold)
        self.grip.pulled.connect(self._pull)
        self.grip.released.connect(self._let_go)
        self.grip.closed.connect(lambda: self.toggle(self._open))
        self._stack = _Stack()
        self.tab_bar = tabs = _TabBar()
        tabs.setObjectName("tabs")
        tabs.setAccessibleName(self.tr("Pages"))
        row = Flow(tabs, spacing=2, margins=(8, 2, 8, 2))
        self.tabs: list[QToolButton] = []
        self.ways: list[QAction] = []
        for i, entry in enumerate(self.entries):
            keys = _keys(i)
            tab = _Tab()
            tab.setText(self.tr(entry.title))
            shown = keys.toString(QKeySequence.SequenceFormat.NativeText)
            show_tip(tab, f"{self.tr(entry.help)} ({shown})")
            tab.setCheckable(True)
            tab.setAutoRaise(True)
            tab.setMinimumHeight(target_px(_TAB_HEIGHT))
            tab.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
            tab.clicked.connect(lambda _=False, i=i: self.toggle(i))
            row.addWidget(tab)
            self.tabs.append(tab)
            way = self.addAction(self.tr(entry.title))
            way.setShortcut(keys)
            way.triggered.connect(lambda _=False, i=i: self._go_to(i))
            self.ways.append(way)
        for each in (self.grip, self._stack):
            each.hide()
        in_column(self.grip, (self._stack, 1), of=self, spacing=0)

    def toggle(self, i: int) -> None:
        """Open a page, or close the tray where that page is open."""
        before = self.current
        desk = desk_of(self)
        if desk is not None and self.current is not None:
            desk.settle(self.current)
        self._open = -1 if self._open == i else i
        for j, tab in enumerate(self.tabs):
            tab.setChecked(j == self._open)
        is_open = self._open >= 0
        if is_open:
            page, entry = self._page(self._open), self.entries[self._open]
            self.grip.show_page(self.tr(entry.title), self.tr(entry.help))
            self._stack.setCurrentIndex(self._places[self._open])
            if self._frame is not None:
                page.show_frame(self._frame, dragging=False)  # type: ignore[attr-defined]
        for each in (self.grip, self._stack):
            each.setVisible(is_open)
        self._settle()
        self.opened.emit(is_open)
        self.turned.emit(self.entries[self._open].title if is_open else "")
        if isinstance(before, MarkingPage) or isinstance(self.current, MarkingPage):
            self.remarked.emit()

    def _go_to(self, i: int) -> None:
        """Open or close a page by its keys; the keyboard stands on its tab then.

        Unless whoever hears of the page puts it elsewhere.
        """
        self.tabs[i].setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.toggle(i)

    def open_page(self, title: str) -> QWidget:
        """Open the page of this title where it is closed; the page."""
        i = [entry.title for entry in self.entries].index(title)
        if i != self._open:
            self.toggle(i)
        return self._pages[i]

    def close_page(self) -> None:
        """Close the page that is open, if one is."""
        if self._open >= 0:
            self.toggle(self._open)

    def set_height(self, height: int) -> None:
        """Give the pages a height (logical px), as far as there is room for it."""
        self._stack.wanted = max(height, LEAST_HEIGHT)
        self._stack.updateGeometry()
        self._settle()

    def raise_to(self, height: int) -> None:
        """Give the pages at least a height for a while (logical px), until they are pulled."""
        self._stack.raised = height
        self._stack.updateGeometry()
        self._settle()

    @property
    def height_given(self) -> int:
        """The height that the pages were given (logical px)."""
        return self._stack.wanted

    def _settle(self) -> None:
        """Lay the column out at once: the tabs never leave their place, not for one paint."""
        for each in (self, self.parentWidget()):
            if each is not None and (layout := each.layout()) is not None:
                layout.activate()

    def _take_hold(self) -> None:
        self._held_at = self._stack.height()

    def _pull(self, higher: int) -> None:
        self._stack.raised = 0
        self.set_height(self._held_at + higher)

    def _let_go(self) -> None:
        """What there was room for is what is remembered."""
        self.set_height(self._stack.height())
        self.pulled.emit(self._stack.height())

    def reveal(self, widget: QWidget) -> None:
        """Open the page in which a widget stands."""
        for i, page in self._pages.items():
            if page.isAncestorOf(widget) or page is widget:
                self.open_page(self.entries[i].title)

    def prepare(self, place: str) -> None:
        """Make the page in which a place is, where it is in one; it need not be opened.

        It shows what the set-up holds: some places are there only then.
        """
        for i, entry in enumerate(self.entries):
            if entry.title in place.split("/"):
                page = self._page(i)
                if self._frame is not None:
                    page.show_frame(self._frame, dragging=False)  # type: ignore[attr-defined]

    @property
    def open_title(self) -> str:
        """The title of the page that is open; "" for none."""
        return self.entries[self._open].title if self._open >= 0 else ""

    def make_room_for(self, place: str) -> None:
        """Open the page in which a place is, where it is in one."""
        for entry in self.entries:
            if entry.title in place.split("/"):
                self.open_page(entry.title)

    def _page(self, i: int) -> QWidget:
        if i not in self._pages:
            page = self._pages[i] = self.entries[i].make(self._session)
            page.setObjectName(self.entries[i].title)
            if isinstance(page, MarkingPage):
                page.remarked.connect(self.remarked)
            # All on it: the page stands alone yet.
            controls = list(reached_from(page))
            let_files_through(page)
            self._places[i] = self._stack.addWidget(
                PlainArea(_Holder(page), sideways=True, keys=False)
            )
            # Made late, they would else come after everything else in the window.
            for before, after in pairwise(
                [self.tabs[-1], self.grip, self.grip.close_button, *controls]
            ):
                QWidget.setTabOrder(before, after)
        return self._pages[i]

    def remembered(self) -> dict[str, Any]:
        """What the pages keep that no set-up holds, by their titles."""
        pages = {self.entries[i].title: page for i, page in self._pages.items()}
        return {
            title: page.remembered()
            for title, page in pages.items()
            if isinstance(page, RememberingPage)
        }

    def recall(self, remembered: Mapping[str, Any]) -> None:
        """Let pages keep it that were made anew."""
        for i, entry in enumerate(self.entries):
            if entry.title in remembered:
                page = self._page(i)
                if isinstance(page, RememberingPage):
                    page.recall(remembered[entry.title])

    @property
    def current(self) -> QWidget | None:
        """The page that is open."""
        return self._pages.get(self._open)

    def marked(self, frame: Frame) -> Frame:
        """A frame with what the page that is open draws into its views."""
        page = self.current
        return frame.marked(page.marks(frame)) if isinstance(page, MarkingPage) else frame

    def show_played(self, frame: Frame) -> None:
        """Hand a moment that is played to the page that is open, if it plays along."""
        if getattr(self.current, "plays_along", False):
            self.current.show_frame(frame, dragging=True)  # type: ignore[union-attr]

    def show_frame(self, frame: Frame, *, dragging: bool) -> None:
        """Hand a frame to the page that is open."""
        self._frame = frame
        if self.current is not None:
            self.current.show_frame(frame, dragging=dragging)  # type: ignore[attr-defined]


def _keys(i: int) -> QKeySequence:
    """Alt+1 for the first page to Alt+0 for the tenth, and with Shift from there on."""
    held = "Alt" if i < 10 else "Alt+Shift"
    return QKeySequence(f"{held}+{(i + 1) % 10}")


class _TabBar(QFrame):
    """What the tabs stand on."""

    def spoken_interface(self) -> QAccessibleInterface:
        """As assistive programs see it."""
        from app.qt.accessible.roles import SpokenWidget  # noqa: PLC0415

        return SpokenWidget(self, QAccessible.Role.PageTabList)


class _Tab(QToolButton):
    """Opens a page, and closes it again."""

    def spoken_interface(self) -> QAccessibleInterface:
        """As assistive programs see it."""
        from app.qt.accessible.roles import SpokenButton  # noqa: PLC0415

        return SpokenButton(self, QAccessible.Role.PageTab)


class _Stack(QStackedWidget):
    """Pages of one height, whatever each would like."""

    wanted = USUAL_HEIGHT
    raised = 0

    def sizeHint(self) -> QSize:  # noqa: N802
        return QSize(super().sizeHint().width(), max(self.wanted, self.raised))

    def minimumSizeHint(self) -> QSize:  # noqa: N802
        return QSize(0, LEAST_HEIGHT)


class _Holder(QWidget):
    """As large as its page must be, even where the page would like to be higher to be wider."""

    def __init__(self, page: QWidget) -> None:
        super().__init__()
        self._page = page
        page.setParent(self)

    def minimumSizeHint(self) -> QSize:  # noqa: N802
        """As wide as the page must be, and so high that no line of its words is cut.

        At the usual size a page may make do with less, where what stands on it scrolls.
        """
        least, layout = self._page.minimumSizeHint(), self._page.layout()
        makes_do = text_scale() <= 1.0 and getattr(self._page, "makes_do", False)
        if makes_do or layout is None or not layout.hasHeightForWidth():
            return least
        wide = max(self.width(), least.width())
        return QSize(least.width(), max(least.height(), layout.totalMinimumHeightForWidth(wide)))

    def event(self, event: QEvent) -> bool:
        """Take the page's size anew where that has changed."""
        if event.type() == QEvent.Type.LayoutRequest:
            self.updateGeometry()
        return super().event(event)

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        super().resizeEvent(event)
        self._page.setGeometry(self.rect())
        if event.size().width() != event.oldSize().width():
            self.updateGeometry()


def let_files_through(page: QWidget) -> None:
    """Leave what is dropped to the window: a field would type a file's address."""
    for kind in (QLineEdit, QPlainTextEdit):
        for field in page.findChildren(kind):
            field.setAcceptDrops(False)
