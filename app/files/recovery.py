"""Work that was not saved when the program or the power went, brought back once.

Each running program keeps its unsaved set-up in a file of its own in the
user's state folder, beside a lock file that it holds as long as it runs.  The
system lets go of a lock when its holder ends, however it ends; so a set-up
whose lock can be had was left behind, and one whose lock cannot belongs to a
window that is still open.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Generator
from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path
from typing import IO, Any, Final

from app.files.drafts import Draft, drafts_as_json, drafts_in
from app.files.safe_files import FileError, sweep
from app.files.storage import Document, as_copy, opened, save
from app.words.language import tr

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl

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

    def keep(self, unsaved: Unsaved) -> None:
        """Write the work to the disk, in place of what was kept before.

        Raises:
            FileError: it cannot be written; what was kept before is still there.
        """
        if self._lock is None:
            self._lock = _new_lock(self._folder)
        save(self._lock.kept, _with_origin(unsaved))

    def forget(self) -> None:
        """Remove what was kept: it is saved, or no longer wanted."""
        if self._lock is not None:
            self._lock.remove()
            self._lock = None

    def left_behind(self) -> Generator[LeftBehind, None, None]:
        """Work of programs that ended without saving it, the latest first.

        Each is locked while it is looked at: a second program that starts now is
        not offered the same.  What cannot be read stays: another version may.
        """
        found = sorted(self._folder.glob("*.json"), key=_written_at, reverse=True)
        for kept in found:
            lock = _lock_at(kept.with_suffix(".lock"))
            if lock is None:
                continue
            try:
                unsaved = _without_origin(opened(kept))
            except FileError:
                lock.release()
                continue
            yield LeftBehind(unsaved, _written_at(kept), lock)

    def tidy(self) -> None:
        """Remove locks that guard nothing, and what interrupted writing left."""
        sweep(self._folder)
        for path in self._folder.glob("*.lock"):
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

    def release(self) -> None:
        """Let others have it."""
        self._file.close()

    def remove(self) -> None:
        """Remove both files, the guarded one first."""
        with suppress(OSError):
            self.kept.unlink()
        with suppress(OSError):
            if sys.platform != "win32":  # where an open file cannot be removed
                self._path.unlink()
        self._file.close()
        with suppress(OSError):
            self._path.unlink()


def _new_lock(folder: Path) -> Lock:
    """A lock of a name that nobody else has.

    Raises:
        FileError: the folder cannot be made or written.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise FileError(_cannot_keep(folder, str(error.strerror))) from error
    for _ in range(_TRIES):
        path = folder / f"{os.getpid()}-{os.urandom(6).hex()}.lock"
        lock = _lock_at(path)
        if lock is not None:
            return lock
        with suppress(OSError):
            path.unlink()
    raise FileError(_cannot_keep(folder, tr("no file can be locked there")))


def _cannot_keep(folder: Path, reason: str) -> str:
    return tr("cannot keep unsaved work in {folder}: {reason}", folder=folder, reason=reason)


def _lock_at(path: Path) -> Lock | None:
    """The lock of that name; None where another program holds it, or none can be had."""
    try:
        # The lock lasts as long as the file is open.
        file = open(path, "ab", opener=_at_once)  # noqa: SIM115
    except OSError:
        return None
    with suppress(OSError):
        _hold(file.fileno())
        # A file removed between opening and locking guards nothing that others would see.
        if os.path.samestat(path.stat(), os.fstat(file.fileno())):
            return Lock(path, file)
    file.close()
    return None


def _at_once(path: str, flags: int) -> int:
    """Open a file and never wait, as one does for a pipe of its name."""
    return os.open(path, flags | getattr(os, "O_NONBLOCK", 0), 0o600)


def _hold(descriptor: int) -> None:
    """Lock an open file, or raise OSError where another program has it."""
    if sys.platform == "win32":
        msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)
    else:
        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)


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
