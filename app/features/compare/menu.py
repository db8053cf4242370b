"""Comparing the set-up in hand with another: a ghost behind it, a bar, a window side by side."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QMainWindow, QSizePolicy, QToolBar, QToolButton

from app.features.paper.pictures import PictureMenu, Shown
from app.files.file_kinds import OPEN_FILTER
from app.files.safe_files import FileError
from app.frame import Frame, frame
from app.qt.controls.keyed_menu import KeyedMenu
from app.qt.literal import Label, show_tip
from app.qt.questions import asked_which, tell
from app.rider.setup import Setup
from app.stance.findings import Limits
from app.words.lengths import Lengths
from app.work import paper_of

if TYPE_CHECKING:
    from app.features.compare.beside import CompareWindow

HOLD_KEY: Final = Qt.Key.Key_F8
"""Shows the other set-up for as long as it is held."""


class Compare(QObject):
    """Keeps the other set-up, and puts its ghost behind what the window shows.

    Args:
        window: hears the key; gets the bar.
        pictures: save what is shown side by side.
        shown: gives what the window shows.
        folder: gives the folder in which to look for files.
    """

    changed = Signal()
    """Something else is to be shown now."""

    def __init__(
        self,
        window: QMainWindow,
        pictures: PictureMenu,
        shown: Callable[[], Shown | None],
        folder: Callable[[], str],
    ) -> None:
        super().__init__(window)
        self._window = window
        self.menu = KeyedMenu(window)
        self._pictures = pictures
        self._shown = shown
        self._folder = folder
        self._solved: tuple[Setup, str, Limits, Lengths] | None = None
        self.other: Setup | None = None
        self.other_frame: Frame | None = None
        self.swapped = False
        self.bar = CompareBar(window)
        self._beside: CompareWindow | None = None
        self._add_entries()
        self._connect()

    def _add_entries(self) -> None:
        menu = self.menu
        keep = menu.entry(self.tr("Keep this set-up to compare"), self.keep, QKeySequence("Ctrl+K"))
        show_tip(keep, self.tr("Its outline stays behind everything that you try from now on"))
        menu.entry(self.tr("Compare with a file…"), self.ask_and_compare)
        self._side_by_side = menu.entry(
            self.tr("Side by side…"), self.show_beside, QKeySequence("Ctrl+B")
        )
        self._stop = menu.entry(self.tr("Stop comparing"), self.stop)
        self._show_state()

    def _connect(self) -> None:
        self._window.installEventFilter(self)
        self.bar.swap.pressed.connect(lambda: self.swap(True))
        self.bar.swap.released.connect(lambda: self.swap(False))
        self.bar.beside.clicked.connect(self.show_beside)
        self.bar.stop.clicked.connect(self.stop)

    @property
    def beside(self) -> CompareWindow:
        """The window side by side, made when it is first wanted."""
        if self._beside is None:
            from app.features.compare.beside import CompareWindow  # noqa: PLC0415

            self._beside = CompareWindow(self._window, self._pictures)
        return self._beside

    # Choosing

    def keep(self) -> None:
        """Compare everything from now on with the set-up in hand."""
        shown = self._shown()
        if shown is not None:
            self.compare_with(shown.frame.setup)

    def ask_and_compare(self) -> None:
        """Ask for a file and compare with the set-up in it."""
        title = self.tr("Compare with")
        path = asked_which(self._window, title, self._folder(), self.tr(OPEN_FILTER))
        if path is not None:
            self.compare_with_file(path)

    def compare_with_file(self, path: Path) -> None:
        """Compare with the set-up in a file, or say why that cannot be."""
        try:
            setup = paper_of(path).document.setup
        except FileError as error:
            tell(self._window, self.tr("Not opened"), str(error))
            return
        self.compare_with(setup)

    def compare_with(self, setup: Setup | None) -> None:
        """Compare with a set-up from now on; with none to stop."""
        self.other = setup
        self.other_frame = None
        self._solved = None
        self.swapped = False
        if setup is None and self._beside is not None:
            self._beside.hide()
        self._show_state()
        self.changed.emit()

    def stop(self) -> None:
        """Compare with nothing any more."""
        self.compare_with(None)

    def _show_state(self) -> None:
        comparing = self.other is not None
        self.bar.setVisible(comparing)
        self._side_by_side.setEnabled(comparing)
        self._stop.setEnabled(comparing)

    # Showing

    def dressed(self, live: Frame, look: str, limits: Limits, *, dragging: bool) -> Frame:
        """What the drawings show of a live frame: with the ghost, or the other way round.

        Args:
            live: the set-up in hand.
            look: how the front view looks.
            limits: where a knee counts as drifting and as out of plane.
            dragging: whether a drag is going on, in which the bar is left alone.
        """
        if self.other is None:
            return live
        asked = (self.other, look, limits, live.lengths)
        if self._solved != asked:
            self._solved = asked
            self.other_frame = frame(*asked)
        other = self.other_frame
        if other is None:
            return live
        if not dragging:
            self._tell(live, other)
        # Not before there is something to compare: the window is there the sooner.
        from app.features.compare.model import ghosted  # noqa: PLC0415

        return ghosted(other, live) if self.swapped else ghosted(live, other)

    def _tell(self, live: Frame, other: Frame) -> None:
        from app.features.compare.model import comparison_of  # noqa: PLC0415

        said = comparison_of(live, other)
        seen = self.tr("This is {}, as long as you hold.").format(said.other)
        self.bar.tell(seen if self.swapped else said.sentence)
        if self._beside is not None and self._beside.isVisible():
            self._beside.drawing.show_pair(live, other)

    def show_beside(self) -> None:
        """Show both side by side in a window of their own, which follows every change."""
        shown = self._shown()
        if shown is not None and self.other_frame is not None:
            self.beside.drawing.show_pair(shown.frame, self.other_frame)
            self.beside.show()
            self.beside.activateWindow()

    # Swapping

    def swap(self, swapped: bool) -> None:
        """Show the other set-up in place of the live one, or the live one again."""
        swapped = swapped and self.other is not None
        if swapped != self.swapped:
            self.swapped = swapped
            self.changed.emit()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802
        """Swap while the key is held, and never longer than the window has the keyboard."""
        kind = event.type()
        if kind == QEvent.Type.WindowDeactivate:
            self.swap(False)
        elif isinstance(event, QKeyEvent) and event.key() == HOLD_KEY:
            if kind in {QEvent.Type.KeyPress, QEvent.Type.KeyRelease} and not event.isAutoRepeat():
                self.swap(kind == QEvent.Type.KeyPress)
            return kind != QEvent.Type.ShortcutOverride
        return super().eventFilter(watched, event)


class CompareBar(QToolBar):
    """Says what the other set-up is and how the knees fare against it; hidden without one.

    Attributes:
        text: what is said.
    """

    def __init__(self, window: QMainWindow) -> None:
        super().__init__(window)
        self.setWindowTitle(self.tr("Comparison"))
        self.setMovable(False)
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.PreventContextMenu)
        self.text = ""
        # A line that gives way where there is no room; its tool tip has the whole.
        self._said = Label()
        self._said.setMinimumWidth(80)
        self._said.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self._said.setContentsMargins(6, 0, 6, 0)
        self.addWidget(self._said)
        keys = QKeySequence(HOLD_KEY).toString(QKeySequence.SequenceFormat.NativeText)
        self.swap = self._button(
            self.tr("Hold to see it"), self.tr("Show the other set-up while held ({})").format(keys)
        )
        self.beside = self._button(self.tr("Side by side…"), self.tr("Both in a window (Ctrl+B)"))
        self.stop = self._button(self.tr("Stop"), self.tr("Compare with nothing any more"))
        window.addToolBarBreak()
        window.addToolBar(self)
        self.hide()

    def _button(self, text: str, help_text: str) -> QToolButton:
        button = QToolButton()
        button.setText(text)
        show_tip(button, help_text)
        button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.addWidget(button)
        return button

    def tell(self, sentence: str) -> None:
        """Say how the set-up in hand fares."""
        if sentence != self.text:
            self.text = sentence
            self._said.setText(sentence)
            show_tip(self._said, sentence)
