"""Files that are read without waiting and written whole or not at all."""

from __future__ import annotations

import os
import stat
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Final

from app.words.language import msgid, tr

LARGEST: Final = 5_000_000
"""Bytes beyond which a file is refused; a set-up takes about two thousand."""

ABANDONED_AFTER: Final = 3600.0
"""Seconds after which a half-written file has nobody writing it any more."""

_PART: Final = ".kneeline-{}.part"
_NEVER_WAIT: Final = getattr(os, "O_NONBLOCK", 0)
_NO_TRANSLATION: Final = getattr(os, "O_BINARY", 0)

_CANNOT: Final = {
    "open": msgid("cannot open {file}: {reason}"),
    "save": msgid("cannot save {file}: {reason}"),
}
_NOT_THERE: Final = {
    "open": msgid("there is no such file"),
    "save": msgid("there is no such folder"),
}
_NOT_ALLOWED: Final = {
    "open": msgid("you may not read it"),
    "save": msgid("you may not write there"),
}


class RefusalError(ValueError):
    """Why something cannot be taken: half a sentence, without the file's name."""


class FileError(Exception):
    """A file that cannot be read or written, said in one sentence to the user."""


@contextmanager
def file_errors(doing: str, path: Path) -> Iterator[None]:
    """Turn what goes wrong inside into a sentence about one file.

    Args:
        doing: "open" or "save", for the sentence.
        path: the file.

    Raises:
        FileError: in place of every OSError and :class:`RefusalError`.
    """
    try:
        yield
    except (OSError, ValueError) as error:
        raise FileError(
            tr(_CANNOT[doing], file=shown(path), reason=_reason(error, doing))
        ) from error


def shown(path: Path) -> str:
    """A file's name fit for one line of a message."""
    name = str(path)
    return name if name.isprintable() else ascii(name)


def contents(path: Path, largest: int = LARGEST) -> bytes:
    """All bytes of a plain file.

    Never waits: a pipe that nobody writes to is refused like any other thing
    that is not a file.

    Raises:
        FileError: there is no such file, it is a folder, a pipe or a device,
            it may not be read, or it is larger than ``largest`` bytes.
    """
    with file_errors("open", path):
        _require_plain(os.stat(path).st_mode)
        # Should a pipe take the file's place just now, opening must not wait either.
        descriptor = os.open(path, os.O_RDONLY | _NEVER_WAIT | _NO_TRANSLATION)
        with open(descriptor, "rb") as file:
            _require_plain(os.fstat(descriptor).st_mode)
            data = file.read(largest + 1)
        if data is None:  # some files of the system have something to read at times only
            raise RefusalError(tr("there is nothing to read in it now"))
        if len(data) > largest:
            raise RefusalError(tr("it is larger than {size} MB", size=f"{largest / 1e6:g}"))
        return data


def with_suffix(path: Path, endings: Sequence[str]) -> Path:
    """The path with an ending of a kind of files; the first is added where it has none of them.

    "Anna S. 2" has what looks like one, and so nothing is ever cut off.
    """
    known = path.suffix.lower() in endings
    return path if known else path.with_name(path.name + endings[0])


def write_atomically(path: Path, data: bytes) -> None:
    """Put a file in place whole, or leave whatever is there as it is.

    The bytes go into a new file beside the old one, are forced to the disk,
    read back and compared; only then does the new file take the old one's name.
    A symbolic link stays, and the file that it points to is replaced.

    Raises:
        FileError: anything went wrong; the old file, if any, is untouched.
    """
    with file_errors("save", path):
        target = Path(os.path.realpath(path))
        mode = _mode_of(target)
        part = target.with_name(_PART.format(os.urandom(8).hex()))
        try:
            _write(part, data)
            if mode is not None:
                part.chmod(mode)
            if part.read_bytes() != data:
                raise RefusalError(tr("the disk did not keep what was written"))
            os.replace(part, target)
        except BaseException:
            with suppress(OSError):
                part.unlink()
            raise
        _settle(target.parent)
        sweep(target.parent)


def sweep(folder: Path) -> None:
    """Remove what saves that were killed left in a folder, once nobody can be writing it."""
    with suppress(OSError):
        for part in folder.glob(_PART.format("?" * 16)):
            with suppress(OSError):
                # A time to come is that of a clock that was wrong.
                if abs(time.time() - part.stat().st_mtime) > ABANDONED_AFTER:
                    part.unlink()


def _require_plain(mode: int) -> None:
    if stat.S_ISDIR(mode):
        raise RefusalError(tr("it is a folder"))
    if not stat.S_ISREG(mode):
        raise RefusalError(tr("it is a pipe or a device, not a file"))


def _mode_of(target: Path) -> int | None:
    """Permissions of the file to replace; None where there is none yet."""
    try:
        mode = target.stat().st_mode
    except FileNotFoundError:
        return None
    _require_plain(mode)
    # The folder's permissions alone decide a replacement, so ask the file's too.
    if not os.access(target, os.W_OK):
        raise RefusalError(tr("it is protected against writing"))
    return stat.S_IMODE(mode)


def _write(part: Path, data: bytes) -> None:
    """Write every byte of a new file and force them to the disk."""
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | _NO_TRANSLATION
    descriptor = os.open(part, flags, 0o666)
    try:
        left = memoryview(data)
        while left:
            taken = os.write(descriptor, left)
            if taken == 0:
                raise RefusalError(tr("the disk takes no more"))
            left = left[taken:]
        os.fsync(descriptor)
    finally:
        os.close(descriptor)


def _settle(folder: Path) -> None:
    """Force a folder's list of names to the disk, on systems that can."""
    with suppress(OSError):
        descriptor = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)


def _reason(error: OSError | ValueError, doing: str) -> str:
    """What went wrong, as the second half of a sentence."""
    if isinstance(error, FileNotFoundError):
        return tr(_NOT_THERE[doing])
    if isinstance(error, PermissionError):
        return tr(_NOT_ALLOWED[doing])
    if isinstance(error, OSError) and error.strerror:
        return error.strerror[0].lower() + error.strerror[1:]
    return str(error)
