"""Lets the player of the page "Motion" show its moments in the window, and have its keys."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QBoxLayout, QMainWindow, QWidget

from app.frame import Frame
from app.qt.motion import moves
from app.rider.setup import Setup
from app.window.regions import reached_from
from app.window.sheet import Sheet
from app.window.tray import Tray

if TYPE_CHECKING:
    from app.features.player.page import PlayerPage

TITLE: Final = "Motion"
"""Of the page."""


class Playing(QObject):
    """Holds the page once it was opened, and the strip under the drawings.

    Args:
        window: whose keys it may have.
        sheet: shows the moments.
        tray: has the page.
        column: in which the sheet and the tray stand, for the strip between them.
    """

    moved = Signal()
    """Another moment is to be shown, or the set-up in hand again."""
    clip_asked = Signal(str, object)
    """What is chosen to be played is wanted as a clip: its key, and the sweep that is set."""
    strip_turned = Signal()
    """The strip from which it is played came or went: :attr:`has_strip` tells which."""

    def __init__(self, window: QMainWindow, sheet: Sheet, tray: Tray, column: QBoxLayout) -> None:
        super().__init__(window)
        self._window, self._sheet, self._tray, self._column = window, sheet, tray, column
        self._page: PlayerPage | None = None
        self._live: tuple[Frame, Callable[[Setup], Frame], str] | None = None
        self._open = False
        self.has_strip = False
        tray.turned.connect(self._turn)

    def follow_motion(self) -> None:
        """Let the player know whether anything may start by itself now."""
        if self._page is not None:
            self._page.still = not moves()

    def _turn(self, title: str) -> None:
        """Show the strip with the page, and for as long as something is played."""
        was, self._open = self._open, title == TITLE
        if self._open and self._page is None:
            self._take_page()
        page = self._page
        if page is None:
            return
        self._show_strip()
        if self._open and not was:
            if self._live is not None:
                page.player.follow(*self._live, dragging=False)
            page.still = not moves()
            page.strip.slider.setFocus(Qt.FocusReason.OtherFocusReason)
            page.start()
        if page.player.on:
            # A page that was opened meanwhile has been shown the set-up in hand.
            self.moved.emit()

    def _take_page(self) -> None:
        from app.features.player.page import PlayerPage  # noqa: PLC0415

        page = self._tray.current
        if not isinstance(page, PlayerPage):
            raise TypeError(f"the page {TITLE!r} is a {type(page).__name__}")
        self._page = page
        # All on it: the strip stands alone yet.
        controls = list(reached_from(page.strip))
        self._column.insertWidget(1, page.strip)
        page.player.moved.connect(self.moved)
        page.clip_asked.connect(self.clip_asked)
        page.player.changed.connect(self._show_strip)
        for before, after in pairwise([self._sheet, *controls]):
            QWidget.setTabOrder(before, after)
        self._window.installEventFilter(self)

    def _show_strip(self) -> None:
        if self._page is not None:
            shown = self._open or self._page.player.on
            self._page.strip.setVisible(shown)
            self._sheet.set_playing(shown)
            if shown != self.has_strip:
                self.has_strip = shown
                self.strip_turned.emit()

    def stop(self) -> None:
        """Show nothing that is played, since something else is to be shown."""
        if self._page is not None:
            self._page.player.stop()

    # Showing

    def follow(
        self, live: Frame, draw: Callable[[Setup], Frame], look: str, *, dragging: bool
    ) -> None:
        """Take the set-up in hand along."""
        self._live = live, draw, look
        if self._page is not None:
            # The whole way is worth looking through only where it can be seen.
            idle = not (self._open or self._page.player.on)
            self._page.player.follow(live, draw, look, dragging=dragging or idle)

    def frame(self) -> Frame | None:
        """The moment to be shown; None where that is the set-up in hand.

        Raises:
            ValueError: the legs of the moment contradict each other.
        """
        return self._page.player.frame() if self._page is not None else None

    def leaves(self, changes: dict[str, float]) -> bool:
        """Whether what the drawings ask for is left to them: not what is being played."""
        return self._page is None or not self._page.player.moving & changes.keys()

    # Keys

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802
        """Take the keys that nothing else in the window had a use for; rest where it is gone."""
        if event.type() == QEvent.Type.Hide and self._page is not None:
            self._page.player.pause()
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            page = self._page
            if page is not None and page.strip.isVisible():
                from app.features.player.keys import takes_key  # noqa: PLC0415

                return takes_key(page.player, event)
        return super().eventFilter(watched, event)
