"""Showing the drawings to others: the whole screen, larger type, and what is moved said large.

Bars and tabs are gone until the pointer comes to their edge; one slider stands large under the
drawings, for the input that a figure key picks; a light and a pen point things out.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property
from math import ceil
from typing import Final

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QAction, QFont, QKeySequence, QShortcut
from PySide6.QtWidgets import QApplication, QBoxLayout, QMainWindow, QToolBar, QWidget

from app.qt.painting.lettering import font
from app.qt.painting.palette import SMALL_PX, TEXT_PX
from app.qt.sizes import px
from app.rider.inputs import Inputs
from app.session import Session
from app.window.caption import Caption, moved
from app.window.edge_bars import Bar, EdgeBars
from app.window.ink import LIGHT, PEN, Ink
from app.window.large_slider import KEYS, LargeSlider
from app.window.sheet import LARGER, Sheet
from app.window.tray import Tray
from app.words.lengths import Lengths

LIGHT_KEY: Final = "L"
PEN_KEY: Final = "P"
"""Keys of the light and of the pen, while presenting."""
LEAST_PX: Final = 20
"""Height of the smallest letters that are presented (px)."""
LEAST_WIDTH: Final = 1280
"""Of a window in which that holds for bars too (logical px)."""
PAGE_SHARE: Final = 0.46
"""Of the window's height that a page has at least which tells of what is drawn: a lesson's."""
PERCENT: Final = 10 * ceil(10.0 * LEAST_PX / SMALL_PX)
"""Size of letters at which the smallest of a page are as high as that."""


class Presenting(QObject):
    """Turns a window into one to be shown, and back as it was.

    Pages, menus and dialogs are written larger by making the window anew, as whoever owns it
    does where :attr:`resize_wanted` tells of it; the size that is chosen stays in the settings.

    Args:
        window: fills the screen.
        action: is checked while presenting.
        session: is shown and changed by the large slider.
        panel: goes out of the way.
        bar, sheet, tray: stay, and are written larger; the bar and the tabs out of sight.
        column: lays the sheet and what stands under it.
        whole: lays the tabs under all of it.
        caption: says what is moved.

    Attributes:
        on: whether the window is being presented.
    """

    resize_wanted = Signal()
    """Letters are to be of another size now: :meth:`percent` tells which."""

    def __init__(
        self,
        window: QMainWindow,
        action: QAction,
        session: Session,
        *,
        panel: QWidget,
        bar: QToolBar,
        sheet: Sheet,
        tray: Tray,
        column: QBoxLayout,
        whole: QBoxLayout,
        caption: Caption,
    ) -> None:
        super().__init__(window)
        self._window, self._action, self._panel = window, action, panel
        self._bar, self._sheet, self._tray, self._caption = bar, sheet, tray, caption
        self._whole = whole
        self._inputs: Inputs | None = None
        self.on = self._higher = False
        self._session, self._column = session, column
        self._bars: EdgeBars | None = None
        # Before the drawings, which let go of a foot with the same key.
        self._keys = [self._key(Qt.Key.Key_Escape, lambda: action.setChecked(False))]
        for place, name in enumerate(KEYS):
            self._key_for(place, name)
        self._keys.append(self._key(LIGHT_KEY, lambda: self.ink.take(LIGHT)))
        self._keys.append(self._key(PEN_KEY, lambda: self.ink.take(PEN)))
        action.toggled.connect(self._turn)
        window.installEventFilter(self)

    @cached_property
    def slider(self) -> LargeSlider:
        """The large slider, made when it is first asked for."""
        made = LargeSlider(self._session)
        self._column.insertWidget(self._column.indexOf(self._sheet) + 1, made)
        return made

    @cached_property
    def ink(self) -> Ink:
        """What points things out, made when it is first asked for."""
        return Ink(self._sheet)

    def _key_for(self, place: int, name: str) -> None:
        key = QKeySequence(str(place + 1))
        self._keys.append(self._key(key, lambda: self.slider.pick(name)))

    def _key(self, keys: QKeySequence | Qt.Key | str, do: Callable[[], object]) -> QShortcut:
        """A key that does something while presenting."""
        shortcut = QShortcut(QKeySequence(keys), self._window)
        shortcut.setEnabled(False)
        shortcut.activated.connect(do)
        return shortcut

    def percent(self, chosen: int) -> int:
        """The size of letters that is to be in force where one is chosen (percent)."""
        return max(chosen, PERCENT) if self.on else chosen

    def follow(self, inputs: Inputs, lengths: Lengths) -> None:
        """Say what was moved since the last call, while presenting."""
        before, self._inputs = self._inputs, inputs
        if self.on and before is not None:
            told = moved(before, inputs, lengths)
            shown_large = told and before.value(self.slider.name) != inputs.value(self.slider.name)
            self._caption.show_value("" if shown_large else told)

    def _turn(self, on: bool) -> None:
        self.on = on
        state = self._window.windowState()
        for key in self._keys:
            key.setEnabled(on)
        self._panel.setVisible(not on)
        self._sheet.set_presented(on)
        self.slider.setVisible(on)
        # The other bits stay, so that a maximised window comes back maximised.
        full = Qt.WindowState.WindowFullScreen
        self._window.setWindowState(state | full if on else state & ~full)
        self._float(on)
        self._write_bars()
        self._raise_page()
        if on:
            # Who is at work on a page stays there.
            at = QApplication.focusWidget()
            page = self._tray.current
            busy = at is not None and page is not None and page.isAncestorOf(at)
            if not busy:
                self.slider.pick(self.slider.name)
        else:
            self._caption.hide()
            self.ink.take("")
        self.resize_wanted.emit()

    def _float(self, on: bool) -> None:
        if self._bars is None:
            self._bars = EdgeBars(self._window, [self._top(), self._bottom()])
        self._bars.set_floating(on)

    def _top(self) -> Bar:
        window, bar = self._window, self._bar
        return Bar(
            bar,
            Qt.Edge.TopEdge,
            lambda: window.removeToolBar(bar),
            lambda: window.insertToolBar(_first_other(window, bar), bar),
        )

    def _bottom(self) -> Bar:
        tabs = self._tray.tab_bar
        return Bar(
            tabs,
            Qt.Edge.BottomEdge,
            lambda: self._whole.removeWidget(tabs),
            lambda: self._whole.addWidget(tabs),
        )

    def share_room(self, *, slider: bool, page: bool) -> None:
        """Share the window out: whether there is the large slider, and a page that is higher."""
        self._higher = page
        if self.on:
            self.slider.setVisible(slider)
        self._raise_page()

    def _raise_page(self) -> None:
        raised = self.on and self._higher
        self._tray.raise_to(round(PAGE_SHARE * self._window.height()) if raised else 0)

    def _write_bars(self) -> None:
        """Write the bar and the tabs as large as there is room for; as usual when over."""
        wide = self._window.width() >= LEAST_WIDTH
        least = LEAST_PX if self.on and wide else TEXT_PX if self.on else px(TEXT_PX)
        largest = max(least, round(LARGER * TEXT_PX)) if self.on else least
        for bar in (self._bar, self._tray.tab_bar):
            # What has no room even so is in the bar's menu; in a smaller window all shrinks.
            for pixels in range(largest, least - 1, -1):
                _write(bar, pixels)
                if bar.sizeHint().width() <= self._window.width():
                    break

    def eventFilter(self, _window: QObject, event: QEvent) -> bool:  # noqa: N802
        """Whatever else ends the full screen ends it too."""
        if not self.on:
            return False
        kind = event.type()
        if kind == QEvent.Type.Resize:
            self._write_bars()
            self._raise_page()
        elif kind == QEvent.Type.WindowStateChange and self._window.isVisible():
            self._action.setChecked(self._window.isFullScreen())
        return False


def _first_other(window: QMainWindow, bar: QToolBar) -> QToolBar:
    """The bar before which one stood: the notices'."""
    return next(each for each in window.findChildren(QToolBar) if each is not bar)


def _write(bar: QWidget, pixels: int) -> None:
    """Set the type of all that stands on a bar: under a style sheet it is not passed on."""
    for child in bar.findChildren(QWidget):
        child.setFont(font(pixels, QFont.Weight.Normal))
