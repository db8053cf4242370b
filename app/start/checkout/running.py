"""Commands run for a person who waits: a line on the terminal shows how they go on."""

from __future__ import annotations

import os
import select
import shutil
import subprocess
import sys
import time
from contextlib import suppress
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from pathlib import Path

TICK_S = 0.25
"""How often the line that shows the progress moves, at least."""


def run(
    command: Sequence[str],
    *,
    settings: Mapping[str, str] | None = None,
    kept_open: Sequence[int] = (),
    filling: Path | None = None,
    cwd: Path | None = None,
) -> tuple[int, str]:
    """Exit code and all output of a command; on a terminal a line shows how it goes on.

    Args:
        command: the program and its arguments.
        settings: environment variables besides those that are there.
        kept_open: file descriptors that the command holds as long as it runs.
        filling: a folder whose growing size tells how far the command is.
        cwd: the folder in which it runs; the present one when None.
    """
    with subprocess.Popen(
        command,
        env={**os.environ, **(settings or {})},
        pass_fds=kept_open,
        cwd=cwd,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
    ) as process:
        assert process.stdout is not None
        try:
            output = _all_said(process.stdout.fileno(), _MovingLine(filling))
        except BaseException:
            # Whoever interrupts goes on to tidy up, which must not meet a command at work.
            # One that runs as root cannot be ended, but was interrupted at the terminal as well.
            with suppress(PermissionError):
                process.terminate()
            process.wait()
            raise
    return process.returncode, output


def _all_said(pipe: int, line: _MovingLine) -> str:
    """What comes out of a pipe until it is closed."""
    said = b""
    while True:
        if select.select([pipe], [], [], TICK_S)[0]:
            more = os.read(pipe, 65536)
            if not more:
                break
            said += more
        line.show(said[-1000:])
    line.clear()
    return said.decode("utf-8", "replace")


class _MovingLine:
    """One line on a terminal: the time since it began, megabytes, and what was said last.

    Args:
        filling: folder whose size is shown; none where None.
    """

    def __init__(self, filling: Path | None) -> None:
        self._filling = filling
        self._begun_s = time.monotonic()
        self._terminal = sys.stderr.isatty()

    def show(self, said: bytes) -> None:
        if not self._terminal:
            return
        seconds = int(time.monotonic() - self._begun_s)
        size_mb = size_of(self._filling) / 1e6 if self._filling else 0.0
        amount = f", {size_mb:.0f} MB" if size_mb >= 1.0 else ""
        last = said.decode("utf-8", "replace").strip().rpartition("\n")[2].strip()
        text = f"{seconds // 60}:{seconds % 60:02}{amount}  {last}"
        self._put(text[: shutil.get_terminal_size().columns - 1])

    def clear(self) -> None:
        if self._terminal:
            self._put("")

    def _put(self, text: str) -> None:
        print(f"\r\033[K{text}", end="", file=sys.stderr, flush=True)


def size_of(folder: Path) -> int:
    """Bytes in the files of a folder; those that vanish meanwhile count nothing."""
    size = 0
    for place, _, names in os.walk(folder):
        for name in names:
            try:
                size += os.lstat(os.path.join(place, name)).st_size
            except OSError:
                continue
    return size
