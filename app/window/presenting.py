"""Showing the drawings to others: the whole screen, larger type, and what is moved said large."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QAction, QKeySequence, QShortcut
from PySide6.QtWidgets import QMainWindow, QToolBar, QWidget

from app.qt.painting.palette import TEXT_PX, typeface
from app.rider.inputs import Inputs
from app.window.caption import Caption, moved
from app.window.sheet import LARGER, Sheet
from app.window.tray import Tray
from app.words.lengths import Lengths


class Presenting(QObject):
    """Turns a window into one to be shown, and back as it was.

    Args:
        window: fills the screen.
        action: is checked while presenting.
        panel: goes out of the way.
        bar, sheet, tray: stay, and are written larger.
        caption: says what is moved.

    Attributes:
        on: whether the window is being presented.
    """

    def __init__(
        self,
        window: QMainWindow,
        action: QAction,
        *,
        panel: QWidget,
        bar: QToolBar,
        sheet: Sheet,
        tray: Tray,
        caption: Caption,
    ) -> None:
        super().__init__(window)
        self._window, self._action, self._panel = window, action, panel
        self._bar, self._sheet, self._tray, self._caption = bar, sheet, tray, caption
        self._inputs: Inputs | None = None
        self.on = False
        # Before the drawings, which let go of a foot with the same key.
        self._escape = QShortcut(QKeySequence(Qt.Key.Key_Escape), window)
        self._escape.setEnabled(False)
        self._escape.activated.connect(lambda: action.setChecked(False))
        action.toggled.connect(self._turn)
        window.installEventFilter(self)

    def follow(self, inputs: Inputs, lengths: Lengths) -> None:
        """Say what was moved since the last call, while presenting."""
        before, self._inputs = self._inputs, inputs
        if self.on and before is not None:
            self._caption.show_value(moved(before, inputs, lengths))

    def _turn(self, on: bool) -> None:
        self.on = on
        state = self._window.windowState()
        self._escape.setEnabled(on)
        self._panel.setVisible(not on)
        self._sheet.set_presented(on)
        # The other bits stay, so that a maximised window comes back maximised.
        full = Qt.WindowState.WindowFullScreen
        self._window.setWindowState(state | full if on else state & ~full)
        self._write_bars()
        if not on:
            self._caption.hide()

    def _write_bars(self) -> None:
        """Write the bar and the tabs as large as there is room for; as usual when over."""
        largest = round(LARGER * TEXT_PX) if self.on else TEXT_PX
        for bar in (self._bar, self._tray.tab_bar):
            for pixels in range(largest, TEXT_PX - 1, -1):
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
        elif kind == QEvent.Type.WindowStateChange and self._window.isVisible():
            self._action.setChecked(self._window.isFullScreen())
        return False


def _write(bar: QWidget, pixels: int) -> None:
    """Set the type of all that stands on a bar: under a style sheet it is not passed on."""
    for child in bar.findChildren(QWidget):
        child.setFont(typeface(pixels))
