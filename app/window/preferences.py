"""Brings the settings into the window, and what is switched there back into the settings."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QAction, QGuiApplication, QKeySequence
from shiboken6 import isValid

from app.drawing.theme import BY_NAME, Theme, name_of
from app.files.settings import TEXT_PERCENT, SettingsStore, WindowPlace
from app.qt.literal import name_command
from app.qt.motion import set_reduced
from app.qt.placing import placed
from app.qt.sizes import STEP_PERCENT, USUAL_PERCENT
from app.qt.themes import current_theme, set_theme
from app.window.window import Window
from app.words.lengths import Lengths

if TYPE_CHECKING:
    from app.window.settings_dialog import SettingsDialog


def theme_of(choice: str) -> Theme:
    """The colours that a choice of :data:`app.files.settings.THEMES` stands for now."""
    return BY_NAME[_as_the_system() if choice == "system" else choice]


def _as_the_system() -> str:
    """The theme that goes with what the desktop asks for."""
    hints = QGuiApplication.styleHints()
    dark = hints.colorScheme() == Qt.ColorScheme.Dark
    contrast = Qt.ContrastPreference.HighContrast
    if hints.accessibility().contrastPreference() == contrast:
        return "contrast_dark" if dark else "contrast"
    return "dark" if dark else "light"


class Preferences(QObject):
    """Keeps a window and the settings in step.

    Args:
        window: to be kept in step.
        settings: in force from now on.

    Attributes:
        dialog_left: the setting at which the dialog was left for the window to be made anew,
            and is to be opened again; None for no dialog.
    """

    rebuild_wanted = Signal()
    """Something was chosen for which the window is to be made anew."""

    def __init__(self, window: Window, settings: SettingsStore) -> None:
        super().__init__(window)
        self._dialog: SettingsDialog | None = None
        self.dialog_left: str | None = None
        self._window = window
        self._settings = settings
        now = settings.now
        self._apply({"unit": now.unit, "limits": now.limits, "motion": now.motion})
        window.tray.set_height(settings.now.page_height)
        self._add_keys()
        # What the bar switches is remembered like what the dialog does.
        window.unit.chosen.connect(lambda unit: settings.change(unit=unit))
        window.dark.triggered.connect(self._remember_theme)
        window.tray.pulled.connect(lambda height: settings.change(page_height=height))
        hints = QGuiApplication.styleHints()
        hints.colorSchemeChanged.connect(self._follow_system)
        hints.accessibility().contrastPreferenceChanged.connect(self._follow_system)
        window.installEventFilter(self)

    def _add_keys(self) -> None:
        """Larger and smaller letters by the keys that people know."""
        for text, keys, step in (
            (self.tr("Larger letters"), ["Ctrl++", "Ctrl+="], STEP_PERCENT),
            (self.tr("Smaller letters"), ["Ctrl+-"], -STEP_PERCENT),
            (self.tr("Letters of the usual size"), ["Ctrl+0"], 0),
        ):
            action = QAction(self)
            name_command(action, text)
            action.setShortcuts([QKeySequence(each) for each in keys])
            action.triggered.connect(lambda _=False, step=step: self._step_text(step))
            self._window.addAction(action)

    def _step_text(self, step: int) -> None:
        least, most = TEXT_PERCENT
        wanted = self._settings.now.text_percent + step if step else USUAL_PERCENT
        self._change({"text_percent": min(max(wanted, least), most)})

    def show_dialog(self, at: str = "") -> None:
        """Let the user choose; every choice shows at once.

        Args:
            at: the setting that has the keyboard first.
        """
        from app.window.settings_dialog import SettingsDialog  # noqa: PLC0415

        dialog = self._dialog = SettingsDialog(self._settings.now, self._window)
        dialog.asked.connect(self._change)
        dialog.go_to(at)
        dialog.exec()
        # Made anew, the window has taken the dialog along.
        if isValid(dialog):
            dialog.deleteLater()
        if isValid(self):
            self._dialog = None

    def _change(self, changes: dict[str, Any]) -> None:
        before = self._settings.now
        self._settings.change(**changes)
        self._apply(changes)
        now = self._settings.now
        if (before.language, before.text_percent) != (now.language, now.text_percent):
            if self._dialog is not None:
                # Without it having been agreed to: what is typed there is still to be mended.
                self.dialog_left = next(iter(changes))
                self._dialog.hide()
            self.rebuild_wanted.emit()

    def _apply(self, changes: dict[str, Any]) -> None:
        if "unit" in changes:
            self._window.show_lengths(Lengths(changes["unit"]))
        if "theme" in changes:
            set_theme(theme_of(changes["theme"]))
        if "motion" in changes:
            set_reduced(changes["motion"] == "reduced")
            self._window.playing.follow_motion()
        if "limits" in changes:
            self._window.set_limits(changes["limits"])

    def _remember_theme(self) -> None:
        self._settings.change(theme=name_of(current_theme()))

    def _follow_system(self) -> None:
        if self._settings.now.theme == "system":
            set_theme(theme_of("system"))

    # The window's place

    def put_in_place(self) -> None:
        areas = [screen.availableGeometry() for screen in QGuiApplication.screens()]
        place = self._settings.now.place
        if place is None:  # the first start: the window system knows where, if not how large
            first = placed(self._place(), areas[:1])
            self._window.resize(first.width, first.height)
            return
        place = placed(place, areas)
        self._window.setGeometry(place.x, place.y, place.width, place.height)
        if place.maximised:
            self._window.setWindowState(Qt.WindowState.WindowMaximized)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802
        """Remember where the window stood when it goes."""
        if event.type() == QEvent.Type.Hide and not event.spontaneous():
            self._settings.change(place=self._place())
        return super().eventFilter(watched, event)

    def _place(self) -> WindowPlace:
        window = self._window
        # While it fills the screen: where it goes back to.
        filling = window.isMaximized() or window.isFullScreen()
        where = window.normalGeometry() if filling else window.geometry()
        return WindowPlace(
            where.x(), where.y(), where.width(), where.height(), maximised=window.isMaximized()
        )
