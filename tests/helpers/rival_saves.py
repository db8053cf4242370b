"""Saves the same file from several processes at the same instant; run by test_rival_saves.

A program of its own, since a process with threads must not fork.  Prints how often exactly
one of all got through, in which case the file must hold what that one wrote.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path

from app.files.safe_files import ChangedError, fingerprint_at, write_atomically

RIVALS = 3
SAVED, ASKED, FAILED = 0, 1, 2


def save(path: Path, number: int, over: str, gate: int) -> int:
    """What became of a save that begins when the gate is opened: an exit code."""
    os.read(gate, 1)
    try:
        write_atomically(path, b"of %d " % number * 5_000, over=over)
    except ChangedError:
        return ASKED
    except BaseException:
        return FAILED
    return SAVED


def only_one_got_through(path: Path) -> bool:
    over = fingerprint_at(path)
    waiting, gate = os.pipe()
    children = []
    for number in range(RIVALS):
        child = os.fork()
        if child == 0:
            os.close(gate)
            os._exit(save(path, number, over, waiting))
        children.append(child)
    os.close(waiting)
    os.close(gate)  # all see its end at once
    codes = [os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) for child in children]
    if sorted(codes) != [SAVED] + [ASKED] * (RIVALS - 1):
        return False
    return path.read_bytes() == b"of %d " % codes.index(SAVED) * 5_000


def main(path: Path, times: int, *, new: bool) -> None:
    alone = 0
    for _ in range(times):
        if new:
            path.unlink(missing_ok=True)
        else:
            write_atomically(path, os.urandom(1_000))
        alone += only_one_got_through(path)
    print(alone)


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]), new=sys.argv[3] == "new")
