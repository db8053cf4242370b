"""Keeps work on a disk that fills up, is freed, swept and taken away; run by test_lasting_copies.

A program of its own, in a namespace of its own, where it may unmount the disk.
"""

from __future__ import annotations

import shutil
import subprocess
import sys
import time
from pathlib import Path

from PySide6.QtCore import QCoreApplication

from app.files.recovery import Recovery
from app.files.storage import opened
from app.session import Session
from app.window import keeping
from app.work import Work

keeping.LATEST_MS = keeping.BEAT_MS = 20
LONGEST_S = 20.0
SOME_BEATS_S = 0.3


class Kept:
    """A keeper at work on a disk, and what it tells."""

    def __init__(self, disk: Path) -> None:
        self.app = QCoreApplication([])
        self.session = Session()
        self.folder = disk / "state" / "recovery"
        self.keeper = keeping.Keeper(Work(self.session), Recovery(self.folder))
        self.told: list[str] = []
        self.keeper.failed.connect(self.told.append)
        self.keeper.kept_again.connect(lambda: self.told.append("kept again"))

    def copies(self) -> list[float]:
        """The angle by which each copy in the folder is told."""
        found = self.folder.glob("*.json")
        return [opened(path).setup.inputs.front_angle_deg for path in found]

    def turn(self, degrees: float) -> None:
        self.session.edit(front_angle_deg=degrees)

    def wait_for(self, *copies: float) -> None:
        self.go_on_until(lambda: self.copies() == list(copies))

    def go_on_until(self, holds) -> None:
        end = time.monotonic() + LONGEST_S
        while not holds():
            self.app.processEvents()
            assert time.monotonic() < end, (self.told, self.copies())
            time.sleep(0.005)


def fills_up_and_is_freed(kept: Kept, disk: Path) -> None:
    kept.turn(11.0)
    kept.wait_for(11.0)
    filler = disk / "filler"
    fill(filler)
    kept.session.write_notes("n" * 40_000)
    kept.turn(12.0)
    kept.go_on_until(lambda: kept.told)
    beats_end = time.monotonic() + SOME_BEATS_S
    kept.go_on_until(lambda: time.monotonic() > beats_end)
    assert kept.copies() == [11.0]
    filler.unlink()
    kept.wait_for(12.0)
    kept.go_on_until(lambda: kept.told[-1] == "kept again")


def is_swept_by_a_cleaner(kept: Kept) -> None:
    for what in ("*.json", "*.lock", "*"):
        for path in kept.folder.glob(what):
            path.unlink()
        kept.go_on_until(lambda: len(list(kept.folder.glob("*.lock"))) == 1)
        kept.wait_for(12.0)
    shutil.rmtree(kept.folder.parent)
    kept.wait_for(12.0)


def is_taken_away(kept: Kept, disk: Path) -> None:
    subprocess.run(["umount", "-l", disk], check=True)
    kept.wait_for(12.0)
    kept.turn(13.0)
    kept.wait_for(13.0)


def fill(path: Path) -> None:
    with path.open("wb", buffering=0) as file:
        try:
            while True:
                file.write(bytes(4096))
        except OSError:
            return


def main(disk: Path) -> None:
    kept = Kept(disk)
    fills_up_and_is_freed(kept, disk)
    is_swept_by_a_cleaner(kept)
    is_taken_away(kept, disk)
    kept.keeper.end(forget=True)
    assert not kept.copies()
    print(*kept.told, sep="\n")


if __name__ == "__main__":
    main(Path(sys.argv[1]))
