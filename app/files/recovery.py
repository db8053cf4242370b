"""Work that was not saved when the program or the power went, brought back once.

Each running program keeps its unsaved set-up in a file of its own in the
user's state folder, beside a lock file that it holds as long as it runs.  The
system lets go of a lock when its holder ends, however it ends; so a set-up
whose lock can be had was left behind, and one whose lock cannot belongs to a
window that is still open.
"""

from __future__ import annotations

import os
import stat
import sys
from collections.abc import Generator
from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path
from typing import IO, Any, Final

from app.files.disk_words import disk_words
from app.files.drafts import Draft, drafts_as_json, drafts_in
from app.files.file_locks import hold
from app.files.file_marks import OWNERS_ONLY
from app.files.safe_files import (
    LARGEST,
    FileError,
    file_errors,
    settle,
    sweep,
    write_atomically,
)
from app.files.storage import Document, as_copy, bytes_of, opened
from app.words.language import tr

LARGEST_KEPT: Final = 2 * LARGEST
"""Bytes of a recovery file: what no file can hold has to be kept all the same."""

_OWNERS_FOLDER: Final = 0o700

_TRIES: Final = 3
"""A fresh name is held by another only in the moment in which that one tidies up."""

_KEY: Final = "recovery"
"""Where a recovery file says which file the set-up was opened from, and what was typed."""


@dataclass(frozen=True, slots=True)
class Unsaved:
    """A set-up that was not saved.

    Attributes:
        document: as it was last kept.
        path: the file that it belongs to; None for a new set-up.
        fingerprint: of that file when it was last opened or saved; empty for a new one.
        typed: what stood in fields and was not entered.
    """

    document: Document
    path: Path | None = None
    fingerprint: str = ""
    typed: tuple[Draft, ...] = ()


class Recovery:
    """The recovery file of one running program.

    Args:
        folder: where the recovery files of all running programs stand.

    Nothing is written before the first :meth:`keep`.
    """

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._lock: Lock | None = None
        # Locks that somebody removed, whose copies stay until there is a new one.
        self._former: list[Lock] = []
        self._written: tuple[int, ...] | None = None

    def keep(self, unsaved: Unsaved) -> None:
        """Write the work to the disk, in place of what was kept before.

        Where folder, lock or copy have been removed they are made anew.

        Raises:
            FileError: it cannot be written; what was kept before is still there.
        """
        lock = self._lock
        if lock is None or not lock.stands:
            self._lock = _new_lock(self._folder)
            if lock is not None:
                self._former.append(lock)
            lock = self._lock
        kept = lock.kept
        try:
            with file_errors("save", kept):
                data = bytes_of(_with_origin(unsaved), LARGEST_KEPT)
            write_atomically(kept, data, private=True)
        except FileError as error:
            raise FileError(tr("unsaved work cannot be kept: {reason}", reason=error)) from error
        self._written = _look_of(kept)
        while self._former:
            self._former.pop().forsake()

    @property
    def stands(self) -> bool:
        """Whether the copy stands on the disk as it was last written, and nobody else's."""
        lock = self._lock
        if lock is None or not lock.stands:
            return False
        now = _look_of(lock.kept)  # which may have gone before it was looked at first
        return now is not None and now == self._written

    def forget(self) -> None:
        """Remove what was kept: it is saved, or no longer wanted."""
        while self._former:
            self._former.pop().forsake()
        if self._lock is not None:
            self._lock.remove()
            self._lock = None

    def left_behind(self) -> Generator[LeftBehind, None, None]:
        """Work of programs that ended without saving it, the latest first.

        Each is locked while it is looked at: a second program that starts now is
        not offered the same.  What cannot be read stays: another version may.
        """
        for kept in sorted(_those_in(self._folder, ".json"), key=_written_at, reverse=True):
            lock = _lock_at(kept.with_suffix(".lock"))
            if lock is None:
                continue
            try:
                unsaved = _without_origin(opened(kept, LARGEST_KEPT))
            except FileError:
                lock.release()
                continue
            yield LeftBehind(unsaved, _written_at(kept), lock)

    def tidy(self) -> None:
        """Let nobody else look in, and remove locks that guard nothing and half-written files."""
        _close_to_others(self._folder)
        sweep(self._folder)
        for path in _those_in(self._folder, ".lock"):
            lock = None if path.with_suffix(".json").exists() else _lock_at(path)
            if lock is not None:
                lock.remove()


@dataclass(frozen=True, slots=True)
class LeftBehind:
    """Work found after a crash.

    Attributes:
        unsaved: the work.
        time: when it was kept (seconds since 1970).
        lock: to be removed where the work is in hand or not wanted, else released
            for the next start.
    """

    unsaved: Unsaved
    time: float
    lock: Lock


class Lock:
    """A lock file that is held, and the recovery file that it guards."""

    def __init__(self, path: Path, file: IO[bytes]) -> None:
        self._path = path
        self._file = file

    @property
    def kept(self) -> Path:
        """The recovery file."""
        return self._path.with_suffix(".json")

    @property
    def stands(self) -> bool:
        """Whether others can see that it is held: nobody has removed it."""
        try:
            return os.path.samestat(self._path.stat(), os.fstat(self._file.fileno()))
        except (OSError, ValueError):  # it has gone, or is not held any more
            return False

    def release(self) -> None:
        """Let others have it."""
        self._file.close()

    def forsake(self) -> None:
        """Remove the guarded file, but not the lock: it may be another's by now."""
        with suppress(OSError):
            self.kept.unlink()
        self._file.close()

    def remove(self) -> None:
        """Remove both files, the guarded one first."""
        if not self.stands:
            self.forsake()
            return
        with suppress(OSError):
            self.kept.unlink()
        if sys.platform == "win32":  # where an open file cannot be removed
            self._file.close()
        with suppress(OSError):
            self._path.unlink()
        self._file.close()


def _new_lock(folder: Path) -> Lock:
    """A lock of a name that nobody else has.

    Raises:
        FileError: the folder cannot be made or written.
    """
    try:
        _make(folder)
    except OSError as error:
        raise FileError(_cannot_keep(folder, disk_words(error))) from error
    for _ in range(_TRIES):
        path = folder / f"{os.getpid()}-{os.urandom(6).hex()}.lock"
        lock = _lock_at(path)
        if lock is not None:
            return lock
        with suppress(OSError):
            path.unlink()
    raise FileError(_cannot_keep(folder, tr("no file can be locked there")))


def _make(folder: Path) -> None:
    """Make a folder for its owner alone, and what leads to it, to outlast a power cut."""
    missing = [each for each in (folder, *folder.parents) if not each.is_dir()]
    for each in reversed(missing):
        each.mkdir(_OWNERS_FOLDER, exist_ok=True)
        settle(each.parent)
    _narrow(folder, _OWNERS_FOLDER)


def _close_to_others(folder: Path) -> None:
    """Let only the owner look into a folder and its files."""
    _narrow(folder, _OWNERS_FOLDER)
    for path in (*_those_in(folder, ".json"), *_those_in(folder, ".lock")):
        _narrow(path, OWNERS_ONLY)


def _narrow(path: Path, mode: int) -> None:
    with suppress(OSError):
        if path.stat().st_mode & 0o077:
            path.chmod(mode)


def _those_in(folder: Path, ending: str) -> list[Path]:
    """The files of a folder with that ending; none where it cannot be read."""
    with suppress(OSError):
        return [path for path in folder.iterdir() if path.suffix == ending]
    return []


def _look_of(path: Path) -> tuple[int, ...] | None:
    """What shows that a file is another one or was written; None where there is none."""
    try:
        now = path.stat()
    except OSError:
        return None
    return now.st_ino, now.st_mtime_ns, now.st_size


def _cannot_keep(folder: Path, reason: str) -> str:
    return tr("cannot keep unsaved work in {folder}: {reason}", folder=folder, reason=reason)


def _lock_at(path: Path) -> Lock | None:
    """The lock of that name; None where another program holds it, or none can be had."""
    try:
        # Never waiting, as one does for a pipe of its name.
        flags = os.O_RDWR | os.O_CREAT | getattr(os, "O_NONBLOCK", 0)
        descriptor = os.open(path, flags, OWNERS_ONLY)
    except OSError:
        return None
    if not stat.S_ISREG(os.fstat(descriptor).st_mode):
        os.close(descriptor)  # a pipe of that name
        return None
    file = os.fdopen(descriptor, "r+b")  # the lock lasts as long as it is open
    with suppress(OSError):
        hold(file.fileno())
        # A file removed between opening and locking guards nothing that others would see.
        if os.path.samestat(path.stat(), os.fstat(file.fileno())):
            return Lock(path, file)
    file.close()
    return None


def _written_at(path: Path) -> float:
    try:
        return path.stat().st_mtime
    except OSError:
        return 0.0


def _with_origin(unsaved: Unsaved) -> Document:
    """The document as it is kept: what this version knows of it, and where it comes from."""
    document, origin = unsaved.document, dict[str, Any]()
    if document.read_only:
        document = as_copy(document)  # which must never be saved over the newer file
    elif unsaved.path is not None:
        origin = {"path": str(unsaved.path.absolute()), "fingerprint": unsaved.fingerprint}
    if unsaved.typed:
        origin["typed"] = drafts_as_json(unsaved.typed)
    if not origin:
        return document
    return replace(document, unknown_keys={**document.unknown_keys, _KEY: origin})


def _without_origin(document: Document) -> Unsaved:
    unknown_keys = dict(document.unknown_keys)
    origin: Any = unknown_keys.pop(_KEY, None)
    document = replace(document, unknown_keys=unknown_keys)
    if not isinstance(origin, dict):
        return Unsaved(document)
    typed = drafts_in(origin.get("typed"))
    if not isinstance(origin.get("path"), str):
        return Unsaved(document, typed=typed)
    return Unsaved(document, Path(origin["path"]), str(origin.get("fingerprint", "")), typed)
