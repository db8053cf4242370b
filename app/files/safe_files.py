"""Files that are read without waiting and written whole or not at all."""

from __future__ import annotations

import errno
import os
import stat
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Final

from app.files.disk_words import disk_words
from app.files.file_locks import held
from app.files.file_marks import EVERYBODYS, OWNERS_ONLY, give_marks, other_names
from app.words.language import msgid, tr

LARGEST: Final = 5_000_000
"""Bytes beyond which a file is refused; a set-up takes about two thousand."""

ABANDONED_AFTER: Final = 3600.0
"""Seconds after which a half-written file has nobody writing it any more."""

_PART: Final = ".kneeline-{}.part"
_NEVER_WAIT: Final = getattr(os, "O_NONBLOCK", 0)
_NO_TRANSLATION: Final = getattr(os, "O_BINARY", 0)

_NO_LINKS: Final = frozenset({errno.EPERM, errno.EACCES, errno.ENOSYS, errno.EOPNOTSUPP})
"""What disks answer that know no hard links."""

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


class ChangedError(FileError):
    """A file that another program wrote meanwhile, and that was left as it is.

    Attributes:
        found: fingerprint of what stands there now; None where it cannot be read.
    """

    def __init__(self, path: Path, found: str | None) -> None:
        super().__init__(
            tr(_CANNOT["save"], file=shown(path), reason=tr("another program wrote it meanwhile"))
        )
        self.found = found


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


def fingerprint_of(data: bytes) -> str:
    """A text that differs where the bytes of two files do; never empty."""
    import hashlib  # noqa: PLC0415 - its library is the largest of those that a start can spare

    return hashlib.sha256(data).hexdigest()


def fingerprint_at(path: Path) -> str | None:
    """The fingerprint of what stands in a file.

    Returns:
        "" where there is no such file; None where it cannot be read, or is no file.
    """
    import hashlib  # noqa: PLC0415

    try:
        if not stat.S_ISREG(os.stat(path).st_mode):
            return None
        descriptor = os.open(path, os.O_RDONLY | _NEVER_WAIT | _NO_TRANSLATION)
        with open(descriptor, "rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest()
    except FileNotFoundError:
        return ""
    except OSError:
        return None


def write_atomically(
    path: Path, data: bytes, *, over: str | None = None, private: bool = False
) -> int:
    """Put a file in place whole, or leave whatever is there as it is.

    The bytes go into a new file beside the old one, are forced to the disk,
    read back and compared; only then does the new file take the old one's name.
    A symbolic link stays, and the file that it points to is replaced.  Owner, group,
    permissions and attributes stay as far as the system allows, and so do hard links
    within the folder.

    Args:
        path: the file.
        data: its bytes.
        over: fingerprint of what may be replaced, "" for nothing; None for whatever
            stands there.  A file that is gone is written again in any case.
        private: whether a new file is for its owner alone; else the user's mask decides.

    Returns:
        How many other names of the file, in other folders, still hold what it held before.

    Raises:
        ChangedError: something else stands there than ``over``.
        FileError: anything went wrong; the old file, if any, is untouched.
    """
    with file_errors("save", path):
        target = Path(os.path.realpath(path))
        old = target if _is_there(target) else None
        part = _part_beside(target)
        try:
            _write(part, data, old, OWNERS_ONLY if private or old else EVERYBODYS)
            if part.read_bytes() != data:
                raise RefusalError(tr("the disk did not keep what was written"))
            left = _put_in_place(part, target, over)
        except BaseException:
            with suppress(OSError):
                part.unlink()
            raise
        settle(target.parent)
        sweep(target.parent)
        return left


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


def _is_there(target: Path) -> bool:
    """Whether there is a file to replace, which may be replaced."""
    try:
        mode = target.stat().st_mode
    except FileNotFoundError:
        return False
    _require_plain(mode)
    # The folder's permissions alone decide a replacement, so ask the file's too.
    if not os.access(target, os.W_OK):
        raise RefusalError(tr("it is protected against writing"))
    return True


def _part_beside(target: Path) -> Path:
    return target.with_name(_PART.format(os.urandom(8).hex()))


def _write(part: Path, data: bytes, old: Path | None, mode: int) -> None:
    """Write every byte of a new file that looks like the old one, and force all to the disk."""
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | _NO_TRANSLATION
    descriptor = os.open(part, flags, mode)
    try:
        left = memoryview(data)
        while left:
            taken = os.write(descriptor, left)
            if taken == 0:
                raise RefusalError(tr("the disk takes no more"))
            left = left[taken:]
        if old is not None:
            give_marks(part, old)
        os.fsync(descriptor)
    finally:
        os.close(descriptor)


def _put_in_place(part: Path, target: Path, over: str | None) -> int:
    """Give the new file its name, and the old one's other names; how many of these it lacks."""
    with held(target):
        if over is not None:
            found = fingerprint_at(target)
            if found not in ("", over):
                raise ChangedError(target, found)
            if found == "":
                _name(part, target)
                return 0
        elif not target.exists():
            os.replace(part, target)
            return 0
        names, elsewhere = other_names(target)
        os.replace(part, target)
    return elsewhere + sum(not _renamed(name, target) for name in names)


def _name(part: Path, target: Path) -> None:
    """Give a new file a name that is free, unless another program takes it just now."""
    try:
        os.link(part, target)
    except FileExistsError:
        raise ChangedError(target, fingerprint_at(target)) from None
    except OSError as error:
        if error.errno not in _NO_LINKS:
            raise
        os.replace(part, target)
        return
    part.unlink()


def _renamed(name: Path, target: Path) -> bool:
    """Whether a name of the old file could be made one of the new file."""
    part = _part_beside(target)
    try:
        os.link(target, part)
        os.replace(part, name)
    except OSError:
        with suppress(OSError):
            part.unlink()
        return False
    return True


def settle(folder: Path) -> None:
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
    return disk_words(error) if isinstance(error, OSError) else str(error)
