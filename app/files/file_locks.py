"""Locks on files, which the system lets go of when their holder ends, however it ends."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Final

from app.words.language import tr

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl

LONGEST_WAIT_S: Final = 3.0
"""A save holds a file for some milliseconds."""
_PAUSE_S: Final = 0.01


def hold(descriptor: int) -> None:
    """Lock an open file until it is closed.

    Raises:
        BlockingIOError: another program has it (on Windows another OSError).
        OSError: the disk knows no locks.
    """
    if sys.platform == "win32":
        msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)
    else:
        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)


@contextmanager
def held(path: Path) -> Iterator[None]:
    """Nobody else who asks for it replaces the file of this name meanwhile.

    Where there is no such file, where the disk knows no locks, and on Windows, where an
    open file cannot be replaced, it is not held.

    Raises:
        TimeoutError: another program holds it for longer than a save takes.
        OSError: it may not be written.
    """
    descriptor = None if sys.platform == "win32" else _locked(path)
    try:
        yield
    finally:
        if descriptor is not None:
            os.close(descriptor)


def _locked(path: Path) -> int | None:
    """The file of this name, open and locked; None where it cannot be."""
    until = time.monotonic() + LONGEST_WAIT_S
    while True:
        try:
            descriptor = os.open(path, os.O_RDWR | getattr(os, "O_NONBLOCK", 0))
        except FileNotFoundError:
            return None
        try:
            hold(descriptor)
            # Whoever held it may have put another file in its place.
            if os.path.samestat(os.stat(path), os.fstat(descriptor)):
                return descriptor
        except BlockingIOError:
            if time.monotonic() > until:
                os.close(descriptor)
                raise TimeoutError(
                    tr("another program is writing it just now; try again")
                ) from None
            time.sleep(_PAUSE_S)
        except OSError:
            os.close(descriptor)
            return None
        with suppress(OSError):
            os.close(descriptor)
