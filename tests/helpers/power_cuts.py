"""Records what a piece of the program asks of the disk, and plays every power cut in it.

The disk is a harsh one.  Of what was written to a file and not forced out (fsync of the
file), a cut leaves all, nothing, half, or zeros; of names that were made, moved or removed
and not forced out (fsync of the folder), it leaves any of them and not the others, so that
an order holds only where it was forced.  ext4 with data=writeback or data=ordered keeps
more than that: its journal brings names to the disk in their order
(kernel.org, Documentation/filesystems/ext4/journal.rst).
"""

from __future__ import annotations

import os
import stat
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from itertools import combinations
from pathlib import Path
from typing import NamedTuple

import pytest

FOLDER = -1
"""Stands for a folder where the number of a file is asked."""

LITTLE = 700
"""Bytes that the disk takes in one call."""

Spoilt = Callable[[bytes, bytes], bytes]
LEFT_OF_WRITES: tuple[Spoilt, ...] = (
    lambda forced, since: forced + since,
    lambda forced, since: forced,
    lambda forced, since: forced + since[: len(since) // 2],
    lambda forced, since: forced + bytes(len(since)),
)


class Call(NamedTuple):
    """One call: what it does, in which folder, to which file, with which data or names."""

    what: str
    name: str = ""
    other: str = ""
    file: int = 0
    data: bytes = b""


State = tuple[tuple[str, bytes | None], ...]
"""What a disk holds: its names in order, with their bytes; None for a folder."""


@dataclass
class Disk:
    """What is on the disk for sure, and what has been asked of it since."""

    forced: dict[int, bytes] = field(default_factory=dict)
    since: dict[int, bytes] = field(default_factory=dict)
    names: dict[str, int] = field(default_factory=dict)
    moves: list[Call] = field(default_factory=list)

    def copy(self) -> Disk:
        return Disk(dict(self.forced), dict(self.since), dict(self.names), list(self.moves))

    def take(self, call: Call) -> None:
        if call.what == "write":
            self.since[call.file] = self.since.get(call.file, b"") + call.data
        elif call.what == "force":
            self.forced[call.file] = self._bytes(call.file, LEFT_OF_WRITES[0])
            self.since.pop(call.file, None)
        elif call.what == "force folder":
            here = [move for move in self.moves if os.path.dirname(move.name) == call.name]
            self.names = moved(self.names, here)
            self.moves = [move for move in self.moves if move not in here]
        else:
            self.moves.append(call)

    def _bytes(self, file: int, left: Spoilt) -> bytes:
        return left(self.forced.get(file, b""), self.since.get(file, b""))

    def after_a_cut(self) -> Iterator[State]:
        """Every state in which the disk can be found."""
        for count in range(len(self.moves) + 1):
            for some in combinations(self.moves, count):
                names = moved(self.names, list(some))
                for left in LEFT_OF_WRITES:
                    yield tuple(
                        (name, None if names[name] == FOLDER else self._bytes(names[name], left))
                        for name in sorted(names)
                        if _reachable(name, names)
                    )


def moved(names: dict[str, int], moves: list[Call]) -> dict[str, int]:
    """The names after these moves."""
    names = dict(names)
    for move in moves:
        if move.what == "remove":
            names.pop(move.name, None)
        else:
            names[move.name] = move.file
        if move.what == "rename":
            names.pop(move.other, None)
    return names


def _reachable(name: str, names: dict[str, int]) -> bool:
    folder = os.path.dirname(name)
    return not folder or (folder in names and _reachable(folder, names))


class Recorder:
    """The calls made below a folder, each of which writes little at a time."""

    def __init__(self, root: Path) -> None:
        self.root = root
        self.calls: list[Call] = []
        self.start = Disk()
        self._files: dict[str, int] = {}
        self._open: dict[int, tuple[str, int]] = {}
        self._next = 0

    def _take_stock(self) -> None:
        """What stands there now is on the disk for sure."""
        for path in sorted(self.root.rglob("*")):
            name = str(path.relative_to(self.root))
            number = self._number(name, FOLDER if path.is_dir() else None)
            self.start.names[name] = number
            if number != FOLDER:
                self.start.forced[number] = path.read_bytes()

    def mark(self, what: str) -> None:
        """Remember that something was promised here."""
        self.calls.append(Call("mark", what))

    @contextmanager
    def recording(self) -> Iterator[Recorder]:
        self._take_stock()
        little = os.write
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(os, "write", lambda file, data: little(file, data[:LITTLE]))
            for name in ("open", "write", "fsync", "replace", "link", "unlink", "mkdir"):
                patch.setattr(os, name, self._recorded(getattr(os, name), getattr(self, name)))
            yield self

    def cuts(self) -> Iterator[tuple[list[str], State]]:
        """What had been promised before a cut, and what the disk then holds; each state once."""
        disk, promised, seen = self.start.copy(), [], set()
        for call in [*self.calls, None]:
            for state in disk.after_a_cut():
                if (len(promised), state) not in seen:
                    seen.add((len(promised), state))
                    yield list(promised), state
            if call is None:
                return
            if call.what == "mark":
                promised.append(call.name)
            else:
                disk.take(call)

    @staticmethod
    def _recorded(real: Callable, note: Callable) -> Callable:
        def call(*args, **named):
            answer = real(*args, **named)
            note(answer, *args)
            return answer

        return call

    def _number(self, name: str, number: int | None = None) -> int:
        if number is None:
            self._next += 1
            number = self._next
        self._files[name] = number
        return number

    def _name(self, path: object) -> str | None:
        """A path from the root; None for one elsewhere."""
        whole = os.path.abspath(os.fspath(path))
        inside = os.path.relpath(whole, self.root)
        if inside.startswith(".."):
            return None
        return "" if inside == "." else inside

    # What each call does, once it is done

    def open(self, descriptor: int, path: object, *_flags: int) -> None:
        self._open.pop(descriptor, None)
        name = self._name(path)
        if name is None:
            return
        if stat.S_ISDIR(os.fstat(descriptor).st_mode):
            self._open[descriptor] = name, FOLDER
            return
        if name not in self._files:
            self.calls.append(Call("make", name, file=self._number(name)))
        self._open[descriptor] = name, self._files[name]

    def write(self, taken: int, descriptor: int, data: bytes) -> None:
        if descriptor in self._open:
            file = self._open[descriptor][1]
            self.calls.append(Call("write", file=file, data=bytes(data[:taken])))

    def fsync(self, _answer: None, descriptor: int) -> None:
        if descriptor in self._open:
            name, file = self._open[descriptor]
            folder = file == FOLDER
            self.calls.append(Call("force folder" if folder else "force", name, file=file))

    def replace(self, _answer: None, source: object, target: object) -> None:
        old, new = self._name(source), self._name(target)
        if old is not None and new is not None:
            self._files[new] = self._files.pop(old)
            self.calls.append(Call("rename", new, old, self._files[new]))

    def link(self, _answer: None, source: object, target: object) -> None:
        old, new = self._name(source), self._name(target)
        if old is not None and new is not None:
            self._files[new] = self._files[old]
            self.calls.append(Call("name", new, file=self._files[new]))

    def unlink(self, _answer: None, path: object) -> None:
        name = self._name(path)
        if name is not None:
            self._files.pop(name, None)
            self.calls.append(Call("remove", name))

    def mkdir(self, _answer: None, path: object, *_mode: int) -> None:
        name = self._name(path)
        if name is not None:
            self.calls.append(Call("folder", name, file=self._number(name, FOLDER)))


def lay_out(state: State, folder: Path) -> None:
    """Make what a disk holds."""
    for name, data in state:
        path = folder / name
        path.mkdir() if data is None else path.write_bytes(data)
