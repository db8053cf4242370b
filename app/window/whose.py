"""Says whose numbers the controls show while another set-up is looked at."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtWidgets import QApplication, QFrame, QScrollArea, QWidget

from app.qt.controls.layout import in_row
from app.qt.controls.page_words import announce
from app.qt.literal import Label
from app.qt.painting.palette import ACCENT
from app.rider.setup import Setup
from app.window.step_line import HEIGHT
from app.words.language import tr


class Whose(QFrame):
    """Lies over the line above the controls, which meanwhile can be read but not moved.

    Args:
        side: over whose upper edge it lies.
        panel: the controls, in an area that scrolls.
    """

    def __init__(self, side: QWidget, panel: QScrollArea) -> None:
        super().__init__(side)
        self._side, self._panel = side, panel
        self._shown: Setup | None = None
        self._left: QWidget | None = None
        self.setAutoFillBackground(True)
        self.setFrameShape(QFrame.Shape.StyledPanel)
        self.words = Label()
        self.words.setForegroundRole(ACCENT)
        self.words.setMinimumWidth(1)
        in_row((self.words, 1), of=self, margins=(12, 2, 12, 2))
        side.installEventFilter(self)
        self.hide()

    def tell(self, other: Setup | None) -> None:
        """Name the other set-up whose numbers are shown; go with None."""
        if other is self._shown:
            return
        before, self._shown = self._shown, other
        if other is not None:
            said = self.tr("Seen now: {}").format(other.called or tr("unnamed"))
            self.words.setText(said)
            self.setAccessibleName(said)
            announce(self, said)
        if (before is None) == (other is None):
            return
        self._rest(other is not None)
        self._place()
        self.setVisible(other is not None)
        self.raise_()

    def _rest(self, rest: bool) -> None:
        """Let the controls rest, or take up again what the keyboard was on."""
        controls, now = self._panel.widget() or self._panel, QApplication.focusWidget()
        if rest:
            self._left = now if now is not None and controls.isAncestorOf(now) else None
            if self._left is not None:
                self._panel.setFocus(Qt.FocusReason.OtherFocusReason)
        controls.setEnabled(not rest)
        if not rest and self._left is not None and now is self._panel:
            self._left.setFocus(Qt.FocusReason.OtherFocusReason)

    def _place(self) -> None:
        self.setGeometry(0, 0, self._side.width(), HEIGHT)

    def eventFilter(self, _side: QObject, event: QEvent) -> bool:  # noqa: N802
        """Stay over the upper edge."""
        if event.type() == QEvent.Type.Resize:
            self._place()
        return False
