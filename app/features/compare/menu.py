"""Comparing the set-up in hand with another: a ghost behind it, a bar, a window side by side."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QElapsedTimer, QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QMainWindow, QToolBar, QToolButton

from app.features.paper.pictures import PictureMenu, Shown
from app.files.file_kinds import OPEN_FILTER
from app.files.safe_files import FileError
from app.frame import Frame, frame
from app.qt.controls.elided import Elided
from app.qt.controls.keyed_menu import KeyedMenu
from app.qt.literal import show_tip
from app.qt.questions import asked_which, tell
from app.qt.sizes import px
from app.rider.setup import Setup
from app.stance.findings import Limits
from app.words.lengths import Lengths
from app.work import paper_of

if TYPE_CHECKING:
    from app.features.compare.beside import CompareWindow

HOLD_KEY: Final = Qt.Key.Key_F8
"""Shows the other set-up: for as long as it is held, or after a tap until the next one."""
TAP_MS: Final = 350
"""A press that is shorter than this is a tap (engineering choice, no source)."""


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
        self._latched = self._leaving = False
        self._pressed = QElapsedTimer()
        self.bar = CompareBar(window)
        self._beside: CompareWindow | None = None
        self._add_entries()
        self._connect()

    def _add_entries(self) -> None:
        menu = self.menu
        keep = menu.entry(self.tr("Keep this set-up to compare"), self.keep, QKeySequence("Ctrl+K"))
        show_tip(keep, self.tr("Its outline stays behind everything that you try from now on"))
        menu.entry(
            self.tr("Compare with a file…"), self.ask_and_compare, QKeySequence("Ctrl+Shift+K")
        )
        self._side_by_side = menu.entry(
            self.tr("Side by side…"), self.show_beside, QKeySequence("Ctrl+B")
        )
        self._see = menu.entry(self.tr("See the other set-up"), self.tap)
        show_tip(self._see, self.tr("Until you ask again or change something"))
        # Only to be shown: the key is heard below, for it can be held too.
        self._see.setShortcutContext(Qt.ShortcutContext.WidgetShortcut)
        self._see.setShortcut(QKeySequence(HOLD_KEY))
        self._stop = menu.entry(self.tr("Stop comparing"), self.stop, QKeySequence("Ctrl+Shift+B"))
        self._show_state()

    def _connect(self) -> None:
        self._window.installEventFilter(self)
        self.bar.swap.pressed.connect(self._press)
        self.bar.swap.released.connect(self._release)
        self.bar.beside.clicked.connect(self.show_beside)
        self.bar.stop.clicked.connect(self.stop)

    @property
    def beside(self) -> CompareWindow:
        """The window side by side, made when it is first wanted."""
        if self._beside is None:
            from app.features.compare.beside import CompareWindow  # noqa: PLC0415

            self._beside = CompareWindow(self._window, self._pictures)
        return self._beside

    @property
    def is_beside(self) -> bool:
        """Whether the window side by side is open."""
        return self._beside is not None and self._beside.isVisible()

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
        self.swapped = self._latched = False
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
        self._see.setEnabled(comparing)
        self.bar.show_swapped(self.swapped)
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
        self._tell(live, other, dragging=dragging)
        # Not before there is something to compare: the window is there the sooner.
        from app.features.compare.model import ghosted  # noqa: PLC0415

        return ghosted(other, live) if self.swapped else ghosted(live, other)

    def _tell(self, live: Frame, other: Frame, *, dragging: bool) -> None:
        from app.features.compare.model import names_of, sentence_of  # noqa: PLC0415

        if self.swapped:
            seen = self.tr("This is {}, until you ask again or change something.")
            held = self.tr("This is {}, as long as you hold.")
            words = (seen if self._latched else held).format(names_of(live, other)[1])
        else:
            words = sentence_of(live, other)
        self.bar.tell(words, settled=not dragging)
        if dragging:
            return
        if self._beside is not None and self.is_beside:
            self._beside.drawing.show_pair(live, other)

    def show_beside(self) -> None:
        """Show both side by side in a window of their own, which follows every change."""
        shown = self._shown()
        if shown is not None and self.other_frame is not None:
            self.beside.drawing.show_pair(shown.frame, self.other_frame)
            self.beside.show()
            self.beside.activateWindow()

    # Swapping

    @property
    def seen(self) -> Setup | None:
        """The other set-up while that is shown in place of the live one."""
        return self.other if self.swapped else None

    def swap(self, swapped: bool, *, latched: bool = False) -> None:
        """Show the other set-up in place of the live one, or the live one again.

        Args:
            swapped: whether the other one is to be shown.
            latched: whether it stays without being held.
        """
        swapped = swapped and self.other is not None
        before, self._latched = (self.swapped, self._latched), swapped and latched
        if (swapped, self._latched) != before:
            self.swapped = swapped
            self.changed.emit()
        self.bar.show_swapped(swapped)

    def tap(self) -> None:
        """Show the other set-up until this is asked again."""
        self.swap(not self.swapped, latched=True)

    def come_back(self) -> None:
        """Show the live set-up again, which was changed."""
        if self.swapped:
            self.swap(False)

    def _press(self) -> None:
        self._leaving = self._latched
        self._pressed.start()
        if not self._latched:
            self.swap(True)

    def _release(self) -> None:
        """After a tap it stays, unless the tap was to leave."""
        tapped = self._pressed.isValid() and self._pressed.elapsed() < TAP_MS
        self.swap(tapped and self.swapped and not self._leaving, latched=True)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802
        """Swap by the key; what is held, never longer than the window has the keyboard."""
        kind = event.type()
        if kind == QEvent.Type.WindowDeactivate:
            self.swap(self._latched and self.swapped, latched=True)
        elif isinstance(event, QKeyEvent) and event.key() == HOLD_KEY:
            if kind == QEvent.Type.KeyPress and not event.isAutoRepeat():
                self._press()
            elif kind == QEvent.Type.KeyRelease and not event.isAutoRepeat():
                self._release()
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
        self.text = self._tip = ""
        # A line that gives way where there is no room; its tool tip has the whole.
        self._said = Elided(told=True)
        self._said.setContentsMargins(px(6), 0, px(6), 0)
        self.addWidget(self._said)
        keys = QKeySequence(HOLD_KEY).toString(QKeySequence.SequenceFormat.NativeText)
        self.swap = self._button(
            self.tr("See it"),
            self.tr("Show the other set-up: a click leaves it there, holding shows it ({})").format(
                keys
            ),
        )
        self.swap.setCheckable(True)
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

    def tell(self, sentence: str, *, settled: bool) -> None:
        """Say how the set-up in hand fares; the tool tip follows once that is settled."""
        if sentence != self.text:
            self.text = sentence
            self._said.setText(sentence)
        if settled and sentence != self._tip:
            self._tip = sentence
            show_tip(self._said, sentence)

    def show_swapped(self, swapped: bool) -> None:
        """Show whether the other set-up is seen."""
        self.swap.setChecked(swapped)
