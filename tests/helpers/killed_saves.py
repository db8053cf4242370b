"""Saves or keeps work over and over in a child that is killed at any moment.

A program of its own, since a process with threads must not fork; run by test_killed_saves.
"""

from __future__ import annotations

import os
import random
import signal
import sys
import time
from collections.abc import Callable
from pathlib import Path

from app.files import recovery as recovering
from app.files.recovery import Recovery, Unsaved
from app.files.safe_files import write_atomically
from app.files.storage import Document, bytes_of
from app.rider.setup import Setup

VERSIONS = (b"first " * 40_000, b"second" * 30_000)
WORKS = tuple(Unsaved(Document(Setup(notes=each.decode()))) for each in VERSIONS)


def save_for_ever(path: Path) -> None:
    while True:
        for version in VERSIONS:
            write_atomically(path, version)


def is_saved(path: Path) -> bool:
    return path.read_bytes() in VERSIONS


def keep_for_ever(folder: Path) -> None:
    recovery = Recovery(folder)
    while True:
        for work in WORKS:
            recovery.keep(work)


def make_ready() -> None:
    """Else nearly all kills would hit the JSON, which is made before anything is written."""
    ready = {work.document.setup.notes: bytes_of(work.document) for work in WORKS}
    recovering.bytes_of = lambda document, _largest: ready[document.setup.notes]


def is_kept(folder: Path) -> bool:
    """Whether exactly one of both is offered, or none yet; takes away what there is."""
    recovery = Recovery(folder)
    recovery.tidy()
    found = list(recovery.left_behind())
    for left in found:
        left.lock.remove()
    broken = list(folder.glob("*.json"))
    return not broken and all(left.unsaved in WORKS for left in found) and len(found) < 2


def killed_once(child_does: Callable[[Path], None], path: Path, after: float) -> None:
    child = os.fork()
    if child == 0:
        child_does(path)
    time.sleep(after)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)


def main(path: Path, times: int, what: str) -> None:
    """Print after how many of the kills all is whole."""
    if what == "saved":
        child_does, holds, longest = save_for_ever, is_saved, 0.01
        write_atomically(path, VERSIONS[0])
    else:
        child_does, holds, longest = keep_for_ever, is_kept, 0.02
        make_ready()
    moments = random.Random(4)
    whole = 0
    for _ in range(times):
        killed_once(child_does, path, moments.uniform(0.001, longest))
        whole += holds(path)
    print(whole)


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]), sys.argv[3])
