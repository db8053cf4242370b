"""Which files of a folder anybody opens, as the system tells it."""

from __future__ import annotations

import ctypes
import os
import struct
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Final

_OPENED: Final = 0x20
"""IN_OPEN of inotify(7)."""
_HEAD: Final = struct.Struct("iIII")


class Watch:
    """Tells which files of a folder were opened, by this program or another."""

    def __init__(self, folder: Path) -> None:
        system = ctypes.CDLL(None, use_errno=True)
        self._queue = system.inotify_init1(os.O_NONBLOCK)
        assert self._queue >= 0, os.strerror(ctypes.get_errno())
        assert system.inotify_add_watch(self._queue, os.fsencode(folder), _OPENED) >= 0

    def opened(self) -> set[str]:
        """Names of the files that were opened since last asked; "" is the folder."""
        try:
            told = os.read(self._queue, 1_000_000)
        except BlockingIOError:
            return set()
        names, at = set(), 0
        while at < len(told):
            *_, length = _HEAD.unpack_from(told, at)
            at += _HEAD.size
            names.add(os.fsdecode(told[at : at + length].rstrip(b"\0")))
            at += length
        return names

    def close(self) -> None:
        """Watch no more."""
        os.close(self._queue)


@contextmanager
def watched(folder: Path) -> Iterator[Watch]:
    """A watch over a folder, as long as the context lasts."""
    watch = Watch(folder)
    try:
        yield watch
    finally:
        watch.close()
