"""Keeps unsaved work on the disk while it is edited, and when something goes wrong."""

from __future__ import annotations

import sys
import traceback
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from types import TracebackType
from typing import Final

from PySide6.QtCore import QObject, QTimer, Signal

from app.files.recovery import Recovery, Unsaved
from app.files.safe_files import FileError
from app.words.language import tr
from app.work import Work

LATEST_MS: Final = 1500
"""From a change to the moment at which it is being written: with the writing
itself, no more than two seconds of work can get lost."""
LONGEST_WRITE_S: Final = 10.0


class Keeper(QObject):
    """Writes the unsaved work soon after each change, outside the window's thread.

    Forcing bytes to the disk takes longer than a drag can wait.

    Args:
        work: what is in hand.
        recovery: where it is kept.
    """

    failed = Signal(str)
    """Why work cannot be kept; said once."""

    def __init__(self, work: Work, recovery: Recovery, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._work = work
        self._recovery = recovery
        self._kept: Unsaved | None = None
        self._told = False
        self._writer = ThreadPoolExecutor(1)
        self._due = QTimer(self, singleShot=True, interval=LATEST_MS)
        self._due.timeout.connect(self._keep)
        work.session.changed.connect(self.stir)

    def stir(self) -> None:
        """Something changed: keep it before long."""
        # Not started again by later changes, since a long drag must be kept too.
        if not self._due.isActive():
            self._due.start()

    def keep_now(self) -> bool:
        """Keep the work before doing anything else; whether it is on the disk."""
        self._due.stop()
        try:
            return self._keep().result(LONGEST_WRITE_S)
        except (TimeoutError, RuntimeError):
            return False

    def end(self, *, forget: bool) -> None:
        """Stop; what was kept stays for the next start unless it may be forgotten."""
        self._due.stop()
        if not forget:
            self._keep()
        self._writer.shutdown(wait=True)
        if forget:
            self._recovery.forget()

    def _keep(self) -> Future[bool]:
        return self._writer.submit(self._write, self._work.unsaved)

    def _write(self, unsaved: Unsaved | None) -> bool:
        """Write or remove the recovery file; runs in the writer's thread."""
        if unsaved == self._kept:
            return True
        try:
            if unsaved is None:
                self._recovery.forget()
            else:
                self._recovery.keep(unsaved)
        except FileError as error:
            if not self._told:
                self._told = True
                self.failed.emit(str(error))
            return False
        self._kept = unsaved
        return True


Hook = Callable[[type[BaseException], BaseException, TracebackType | None], object]


def crash_hook(keeper: Keeper, tell: Callable[[str], object]) -> Hook:
    """What to do about an error that nothing else took: save first, then one message.

    Args:
        keeper: keeps the work.
        tell: shows a message; called once, however many errors follow.
    """
    told: list[BaseException] = []

    def hook(kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
        kept = keeper.keep_now()
        traceback.print_exception(kind, error, trace, file=sys.stderr)
        if not told:
            told.append(error)
            tell(_message(error, kept))

    return hook


def _message(error: BaseException, kept: bool) -> str:
    wrong = tr(
        "Something went wrong inside the program ({error}).",
        error=f"{type(error).__name__}: {error}",
    )
    safe = (
        tr("The set-up in hand is kept, and is offered at the next start should the window go.")
        if kept
        else tr("The set-up in hand could not be kept: save it now.")
    )
    return f"{wrong}\n\n{safe}"
