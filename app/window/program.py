"""A window as a program: settings, work kept against crashes, and questions before it closes."""

from __future__ import annotations

import sys
from functools import partial
from pathlib import Path

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QKeySequence

from app.files.recovery import LeftBehind, Recovery
from app.files.safe_files import FileError
from app.files.settings import create_settings
from app.files.storage import Document
from app.files.user_folders import recovery_folder
from app.qt.questions import Answer, asked_to_recover, tell
from app.qt.sizes import set_text_percent, text_percent
from app.qt.themes import current_theme, set_theme
from app.session import Session
from app.window.documents import Documents
from app.window.keeping import Keeper, crash_hook
from app.window.lifecycle import WindowThreadGC, once_painted, quit_on_signals, speak
from app.window.preferences import Preferences, theme_of
from app.window.rebuilding import Left
from app.window.window import Window, prepared_application
from app.words.language import tr
from app.words.sentences import as_sentence
from app.work import Paper, paper_of

INTERRUPTED = 130
"""Exit code of a program that was stopped in its terminal."""


def open_window(document: Document, path: Path | None, refused: Path | None = None) -> int:
    """Open the window on a document and stay until it is closed; the exit code.

    Args:
        document: what the file holds, with the changes asked for.
        path: the file; None for a new set-up.
        refused: a file that could not be opened; the window tries again, and tells why not.
    """
    app = prepared_application()
    program = Program(document, path)
    hook, sys.excepthook = sys.excepthook, program.hook
    program.window.show()
    QTimer.singleShot(0, lambda: program.begin(refused))
    once_painted(program.window, _settle)
    with quit_on_signals(lambda: app.exit(INTERRUPTED)):
        code = app.exec()
    program.end()
    sys.excepthook = hook
    # Qt may crash when windows outlive their application.
    program.window.deleteLater()
    app.processEvents()
    return code


def _settle() -> None:
    """Do what the first paint did not have to wait for."""
    import numpy  # noqa: F401, PLC0415

    WindowThreadGC(prepared_application())


class Program:
    """One window and what surrounds it.

    Args:
        document: to begin with.
        path: the file that it belongs to; None for a new set-up.
    """

    def __init__(self, document: Document, path: Path | None) -> None:
        if path is not None:
            path = _lasting(path)
        settings = create_settings()
        # First of all: what is made before would speak English for good.
        speak(prepared_application(), settings.now.language)
        session = Session(document.setup)
        set_text_percent(settings.now.text_percent)
        set_theme(theme_of(settings.now.theme))
        self._settings = settings
        self.window = Window(session, settings, _paper(document, path))
        self.recovery = Recovery(recovery_folder())
        self.keeper = Keeper(self.documents.work, self.recovery)
        self.keeper.failed.connect(self._tell_not_kept)
        self.keeper.kept_again.connect(self._tell_kept_again)
        self._surround()
        self.preferences.put_in_place()
        prepared_application().commitDataRequest.connect(self._keep_at_once)
        self.hook = crash_hook(self.keeper, self._tell)
        self._agreed = False
        if path is not None:
            settings.used(path)

    @property
    def documents(self) -> Documents:
        """The document side of the window."""
        return self.window.documents

    def _surround(self) -> None:
        """Connect the window, as it was made, with what is around it."""
        documents = self.documents
        self.window.presenting.resize_wanted.connect(
            self._resize, Qt.ConnectionType.QueuedConnection
        )
        self.preferences = Preferences(self.window, self._settings)
        self.preferences.rebuild_wanted.connect(self.rebuild, Qt.ConnectionType.QueuedConnection)
        documents.saved.connect(self.keeper.stir)
        documents.desk.changed.connect(self.keeper.stir)
        documents.closing.connect(self._agree)
        documents.guard()
        self._add_entries()

    def _resize(self) -> None:
        """Write as large as it is presented, or as large as usual again."""
        if self.window.presenting.percent(self._settings.now.text_percent) != text_percent():
            self.rebuild()

    def rebuild(self) -> None:
        """Make the window anew in its place, in the language and the size of letters chosen."""
        window, chosen = self.window, self._settings.now
        left, dialog = Left(window), self.preferences.dialog_left
        window.setUpdatesEnabled(False)
        try:
            speak(prepared_application(), chosen.language)
            percent = window.presenting.percent(chosen.text_percent)
            set_text_percent(percent, held=window.presenting.on)
            set_theme(current_theme())
            window.rebuild()
            self._surround()
            left.bring_back(window)
        finally:
            window.setUpdatesEnabled(True)
        if dialog is None:
            left.tell_lost(window)
        else:
            QTimer.singleShot(0, partial(left.bring_back_typed, window))
            QTimer.singleShot(0, partial(left.tell_lost, window))
            self.preferences.show_dialog(dialog)

    def _add_entries(self) -> None:
        """What only a whole program can do goes into the menu of files."""
        files = self.window.files
        riders = QKeySequence("Ctrl+Shift+O")
        files.entry(tr("Folder of riders…"), self.show_riders, riders, files.after_opening)
        settings = QKeySequence("Ctrl+,")
        files.entry(tr("Settings…"), self.preferences.show_dialog, settings, files.last)
        files.insertSeparator(files.last)

    def show_riders(self) -> None:
        """List the set-ups of a folder and open the one that is chosen."""
        from app.features.riders.dialog import RidersDialog  # noqa: PLC0415

        store = self.documents.settings
        folder = Path(store.folder)
        dialog = RidersDialog(folder, store.now.limits, self.window)
        dialog.chosen.connect(self.documents.open_path)
        dialog.moved.connect(lambda other: store.change(folder=str(other)))
        dialog.save_wanted.connect(self.documents.save_in)
        dialog.exec()
        dialog.deleteLater()

    def begin(self, wanted: Path | None) -> None:
        """Offer what a crash left, then open a file that is wanted besides."""
        self.offer_left_behind()
        if wanted is not None:
            self.documents.open_path(wanted)

    def offer_left_behind(self) -> None:
        """Offer what a crash left, the latest first, until the user opens one."""
        self.recovery.tidy()
        found = self.recovery.left_behind()
        for left in found:
            if _safe_already(left):
                left.lock.remove()
                continue
            if self._offer(left):
                break
        found.close()
        self.window.guide.ask_at_first()

    def _offer(self, left: LeftBehind) -> bool:
        """Whether the user wants it opened, and it is."""
        title = left.unsaved.path.name if left.unsaved.path else left.unsaved.document.setup.called
        answer = asked_to_recover(self.window, title, left.time)
        if answer is Answer.OPEN:
            self.documents.recover(left.unsaved)
            self.window.resume(left.unsaved.typed)
        # What was left goes only once it is kept anew, under this window's name.
        gone = answer is Answer.DISCARD or (answer is Answer.OPEN and self.keeper.keep_now())
        left.lock.remove() if gone else left.lock.release()
        return answer is Answer.OPEN

    def end(self) -> None:
        """Stop keeping; work that nobody agreed to lose stays for the next start."""
        if not self._agreed:
            self.documents.desk.settle()
        self.keeper.end(forget=self._agreed or not self.documents.work.at_risk)

    def _keep_at_once(self) -> None:
        """The session of the user ends, and nobody can be asked: keep all, typed texts too."""
        self.documents.desk.settle()
        self.keeper.keep_now()

    def _agree(self) -> None:
        self._agreed = True

    def _tell_not_kept(self, why: str) -> None:
        """Say that a crash would cost the unsaved work, and offer to save it."""
        words = tr("{reason} Save often.", reason=as_sentence(why))
        self.documents.notices.tell(words, tr("Save"), self.documents.save)

    def _tell_kept_again(self) -> None:
        self.documents.notices.tell(tr("Unsaved work is kept again."))

    def _tell(self, text: str) -> None:
        tell(self.window, tr("Error"), text)


def _lasting(path: Path) -> Path:
    """The path whatever becomes of the folder in which the program was started."""
    try:
        return path.absolute()
    except OSError:  # which has gone already
        return path


def _paper(document: Document, path: Path | None) -> Paper | None:
    """What is known of the file that the window begins with."""
    if path is None:
        return None
    try:
        return paper_of(path)
    except FileError:  # it has gone since it was read
        return Paper(document, None, path)


def _safe_already(left: LeftBehind) -> bool:
    """Whether the file holds all that was kept: it was saved just before the crash."""
    if left.unsaved.path is None or left.unsaved.typed:
        return False
    try:
        return paper_of(left.unsaved.path).document.setup == left.unsaved.document.setup
    except FileError:
        return False
