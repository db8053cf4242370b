"""The document side of a window: opening, saving, watching, and never losing anything."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Final

from PySide6.QtCore import QEvent, QFileSystemWatcher, QObject, Signal
from PySide6.QtGui import QDropEvent
from PySide6.QtWidgets import QMainWindow

from app.files.drafts import Draft
from app.files.file_kinds import OPEN_FILTER, SETUP_FILTER, SUFFIXES
from app.files.recovery import Unsaved
from app.files.resources import StartingPoint
from app.files.safe_files import ChangedError, FileError, fingerprint_at
from app.files.settings import SettingsStore
from app.files.storage import older_notice
from app.qt.drafts import Desk, drafts_words
from app.qt.literal import title_text
from app.qt.questions import (
    Answer,
    agreed_to_leave_out,
    asked_about_changed_file,
    asked_to_save,
    asked_where,
    asked_which,
    tell,
    told_not_saved,
)
from app.qt.settling import Settling
from app.window.notices import Notice, NoticeBar
from app.window.saved_notice import tell_saved
from app.window.tray import let_files_through
from app.words.sentences import as_sentence
from app.work import Paper, Work, file_name_for


class Documents(QObject):
    """Connects a window with the files of its set-ups.

    Args:
        window: shows the title and the questions; files can be dropped on it.
        work: what is in hand there.
        settings: remember the files.
    """

    saved = Signal()
    """The work is safe in its file, or in a picture."""
    closing = Signal()
    """The user agreed to close the window; nothing in hand is wanted any more."""

    def __init__(
        self,
        window: QMainWindow,
        work: Work,
        settings: SettingsStore,
    ) -> None:
        super().__init__(window)
        self._window = window
        session = self._session = work.session
        self._guarded = False
        self.settings = settings
        self.work = work
        self.desk = Desk(window)
        self.desk.changed.connect(self._know_typed)
        self.desk.left_out.connect(self._tell_left_out)
        self.desk.dropped.connect(self.tell_dropped)
        self._left_out: tuple[Draft, ...] = ()
        self._saved: Notice | None = None
        self.notices = NoticeBar(window)
        self._watch = FileWatch(self)
        self._watch.changed_on_disk.connect(self._look_at_file)
        self._take_drops()
        session.changed.connect(self._show_title)
        session.drag_ended.connect(self._show_title)
        session.wrote.connect(self._tell_written)
        self._shown_paper: Paper | None = None
        self._show_title()

    def _take_drops(self) -> None:
        self._window.setAcceptDrops(True)
        let_files_through(self._window)
        self._window.installEventFilter(self)

    def guard(self) -> None:
        """Ask before the window closes with unsaved changes, from now on."""
        self._guarded = True

    # Showing

    def _know_typed(self) -> None:
        self.work.typed = self.desk.drafts
        self._show_title()
        places = {draft.place for draft in self.desk.drafts}
        if self._left_out and places.isdisjoint(draft.place for draft in self._left_out):
            self._left_out = ()
            self.notices.take_back(self._told_left_out)

    def _tell_left_out(self, left: tuple[Draft, ...]) -> None:
        """Say what is typed and not entered, and lead there."""
        self._left_out = left
        self._told_left_out = self.notices.tell(
            self.tr("Not entered, and left where it is: {}").format(drafts_words(left)),
            self.tr("Go to it"),
            lambda: self.desk.go_to(left[0]),
        )

    def tell_dropped(self, dropped: tuple[Draft, ...]) -> None:
        """Say what had to be let go with its field."""
        words = self.tr("Not entered, and dropped with its field: {}")
        self.notices.tell_news(words.format(drafts_words(dropped)))

    def _tell_written(self, path: Path) -> None:
        """Say where something was written; a picture may be what the work is saved in."""
        self._show_title()
        if self.work.is_kept:
            self.saved.emit()
        tell_saved(self.notices, path)

    def _show_title(self) -> None:
        work = self.work
        name = title_text(work.title)
        extra = self.tr(" (read only)") if work.read_only else ""
        self._window.setWindowTitle(f"{name}[*]{extra} – Kneeline")
        if work.at_risk and self._saved is not None and not self._session.dragging:
            # Not in a drag: the drawings would move under the hand.
            self.notices.take_back(self._saved)
            self._saved = None
        if self._window.isWindowModified() != work.at_risk:
            self._window.setWindowModified(work.at_risk)
        if work.paper is not self._shown_paper:
            self._shown_paper = work.paper
            self._watch.watch(work.paper.path)
            self._show_notice()

    def _show_notice(self) -> None:
        """Say what is worth knowing of the document that has come into hand."""
        self.notices.clear_notice()
        if self.work.read_only:
            self.notices.tell(
                self.tr(
                    "{} was made by a newer version of Kneeline and is open for reading only: "
                    "a copy can be saved, without what this version does not know."
                ).format(self.work.title),
                self.tr("Save a copy…"),
                self.save_as,
            )
            return
        older = older_notice(self.work.title, self.work.paper.document)
        if older:
            self.notices.tell(as_sentence(older))
        self._look_at_file()

    def _look_at_file(self) -> None:
        path = self.work.paper.path
        if path is None:
            return
        if self.work.changed_on_disk:
            self.notices.tell(
                self.tr("{} was changed on disk by another program.").format(path.name),
                self.tr("Open it again"),
                lambda: self.open_path(path),
            )
        elif not path.parent.is_dir():
            self.notices.tell(
                self.tr("{} is no longer there, nor is its folder: {}").format(
                    path.name, path.parent
                ),
                self.tr("Save as…"),
                self.save_as,
            )
        elif not os.path.lexists(path):
            self.notices.tell(
                self.tr("{} is no longer there. Saving writes it again.").format(path.name),
                self.tr("Save"),
                self.save,
            )

    # Opening

    def ask_and_open(self) -> None:
        """Ask for a file and open it."""
        title = self.tr("Open a set-up")
        path = asked_which(self._window, title, self.settings.folder, self.tr(OPEN_FILTER))
        if path is not None:
            self.open_path(path)

    def open_path(self, path: Path) -> bool:
        """Make the set-up in a file the one in hand, or say why that cannot be."""
        if not self.may_leave():
            return False
        try:
            self.work.open(path, self.tr("Open {}").format(path.name))
        except FileError as error:
            self.settings.forget(str(path.absolute()))
            tell(self._window, self.tr("Not opened"), str(error))
            return False
        self.desk.forget()
        self.settings.used(path)
        return True

    def start_from(self, point: StartingPoint) -> None:
        """Begin a new document with a starting point."""
        if not self.may_leave():
            return
        try:
            self.work.begin_from(point.path, self.tr("Start from {}").format(self.tr(point.title)))
        except FileError as error:
            tell(self._window, self.tr("Not opened"), str(error))
        else:
            self.desk.forget()

    def stand_as(self, point: StartingPoint) -> None:
        """Take stance, boots and posture from a starting point, and keep the legs in hand."""
        self.desk.settle()
        what = self.tr("Stand as {}").format(self.tr(point.title))
        try:
            self.work.stand_as(point.path, what)
        except FileError as error:
            tell(self._window, self.tr("Not opened"), str(error))

    def recover(self, unsaved: Unsaved) -> None:
        """Make recovered work the one in hand."""
        self.work.recover(unsaved, self.tr("Recover unsaved work"))

    def resume(self, typed: tuple[Draft, ...]) -> None:
        """Let texts stand in their fields again, and say so; those without a field are told."""
        lost = self.desk.resume(typed)
        again = tuple(draft for draft in typed if draft not in lost)
        said = [
            words.format(drafts_words(which))
            for words, which in (
                (self.tr("Typed and not entered before, and there again: {}"), again),
                (self.tr("Typed and not entered before, for a field that is gone: {}"), lost),
            )
            if which
        ]
        if said:
            self.notices.tell(". ".join(said))

    # Saving

    def save(self) -> bool:
        """Save to the file that the work belongs to, or ask for one; whether it is saved."""
        self.desk.settle()
        work = self.work
        if work.paper.path is None or work.read_only:
            return self.save_as()
        return self._write(work.paper.path, work.paper.fingerprint)

    def save_as(self) -> bool:
        """Ask for a file and save to it; whether the work is saved."""
        path = self.work.paper.path
        there = path is not None and path.parent.is_dir()
        return self.save_in(path.parent if path and there else Path(self.settings.folder))

    def save_in(self, folder: Path) -> bool:
        """Ask for a file, in a folder to begin with, and save to it; whether that was done."""
        self.desk.settle()
        path = self.work.paper.path
        name = path.name if path is not None else file_name_for(self._session.setup)
        title, kinds = self.tr("Save the set-up"), self.tr(SETUP_FILTER)
        target = asked_where(self._window, title, folder / name, kinds, *SUFFIXES)
        return target is not None and self._write(target, fingerprint_at(target))

    def _write(self, path: Path, over: str | None) -> bool:
        """Save to a file; whether the work is saved.

        Args:
            path: the file.
            over: fingerprint of what may be replaced there.
        """
        try:
            left = self.work.save(path, over)
        except ChangedError as changed:
            answer = asked_about_changed_file(self._window, path.name)
            if answer is Answer.SAVE:
                return self._write(path, changed.found)
            return self.save_as() if answer is Answer.COPY else False
        except FileError as error:
            text = self.tr("{}.\n\nThe set-up is still in hand; save it somewhere else.")
            elsewhere = told_not_saved(self._window, text.format(error))
            return self.save_as() if elsewhere else False
        self.settings.used(path)
        self._show_title()
        if self.work.typed:
            self._tell_left_out(self.work.typed)
        elif left:
            self._tell_of_other_names(path)
        else:
            self._saved = tell_saved(self.notices, path, opens=False)
        self.saved.emit()
        return True

    def _tell_of_other_names(self, path: Path) -> None:
        self.notices.tell(
            self.tr(
                "{} is saved. It has another name in another folder (a hard link), and what "
                "stands there is still what it held before."
            ).format(path.name)
        )

    # Leaving

    def may_leave(self) -> bool:
        """Whether the work in hand may go: it is saved, or the user does not want it.

        What is typed and not entered stays where it is until the work has gone.
        """
        left = self.desk.settle()
        if left and not agreed_to_leave_out(self._window, drafts_words(left)):
            self.desk.go_to(left[0])
            return False
        if not self.work.modified:
            return True
        answer = asked_to_save(self._window, self.work.title, copy=self.work.read_only)
        return self.save() if answer is Answer.SAVE else answer is Answer.DISCARD

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802
        """Take files dropped on the window, and ask before it closes."""
        kind = event.type()
        if isinstance(event, QDropEvent) and kind in {QEvent.Type.DragEnter, QEvent.Type.Drop}:
            path = _dropped_file(event)
            if path is not None:
                event.acceptProposedAction()
                if kind == QEvent.Type.Drop:
                    self.open_path(path)
                return True
        elif kind == QEvent.Type.Close and self._guarded:
            if not self.may_leave():
                event.ignore()
                return True
            self.closing.emit()
        return super().eventFilter(watched, event)


def _dropped_file(event: QDropEvent) -> Path | None:
    """The file that is dropped; None for anything else."""
    for url in event.mimeData().urls():
        if url.isLocalFile():
            return Path(url.toLocalFile())
    return None


SAVED_MS: Final = 200
"""A save takes several steps; only what stands there afterwards is of interest."""


class FileWatch(QObject):
    """Watches one file at a time, through its being replaced, removed and made again."""

    changed_on_disk = Signal()
    """Something was done to the file, or in its folder."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._path: Path | None = None
        self._watcher = QFileSystemWatcher(self)
        self._settling = Settling(self, self._look, SAVED_MS)
        self._watcher.fileChanged.connect(self._settling.start)
        self._watcher.directoryChanged.connect(self._settling.start)

    def watch(self, path: Path | None) -> None:
        """Watch another file from now on, or none."""
        if path == self._path:
            return
        self._path = path
        self._settling.stop()
        watched = [*self._watcher.files(), *self._watcher.directories()]
        if watched:
            self._watcher.removePaths(watched)
        self._add()

    def _add(self) -> None:
        """Watch file and folder; a file that was replaced is no longer watched by itself."""
        if self._path is None:
            return
        watched = {*self._watcher.files(), *self._watcher.directories()}
        missing = [
            str(path)
            for path in (self._path, self._path.parent)
            if path.exists() and str(path) not in watched
        ]
        if missing:
            self._watcher.addPaths(missing)

    def _look(self) -> None:
        self._add()
        self.changed_on_disk.emit()
