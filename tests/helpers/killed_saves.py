"""Saves over and over in a child that is killed at any moment; run by test_killed_saves.

A program of its own, since a process with threads must not fork.
"""

from __future__ import annotations

import os
import random
import signal
import sys
import time
from pathlib import Path

from app.files.safe_files import write_atomically

VERSIONS = (b"first " * 40_000, b"second" * 30_000)


def save_for_ever(path: Path) -> None:
    while True:
        for version in VERSIONS:
            write_atomically(path, version)


def killed_once(path: Path, after: float) -> bool:
    """Whether the file is whole after a child that was saving it has been killed."""
    child = os.fork()
    if child == 0:
        save_for_ever(path)
    time.sleep(after)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return path.read_bytes() in VERSIONS


def main(path: Path, times: int) -> None:
    write_atomically(path, VERSIONS[0])
    moments = random.Random(4)
    whole = sum(killed_once(path, moments.uniform(0.001, 0.01)) for _ in range(times))
    print(whole)


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]))
