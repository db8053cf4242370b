"""Keeps unsaved work on the disk while it is edited, and when something goes wrong."""

from __future__ import annotations

import sys
import time
import traceback
from collections import deque
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
BEAT_MS: Final = 5000
"""How often the copy is looked for, and tried again where it could not be written."""
LONGEST_WRITE_S: Final = 10.0
"""After which a disk that does not answer is told of."""
_LOOK_MS: Final = 50


class Keeper(QObject):
    """Writes the unsaved work soon after each change, outside the window's thread.

    Forcing bytes to the disk takes longer than a drag can wait.  While there is unsaved
    work, its copy is looked for at every beat: what could not be written is tried again,
    and what was removed is written anew.

    Args:
        work: what is in hand.
        recovery: where it is kept.
    """

    failed = Signal(str)
    """Why work cannot be kept; said once, until it can be kept again."""
    kept_again = Signal()
    """What had failed has been made up for."""

    def __init__(self, work: Work, recovery: Recovery, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._work = work
        self._recovery = recovery
        self._kept: Unsaved | None = None
        self._told = False
        self._writer = ThreadPoolExecutor(1)
        self._running: deque[Future[str]] = deque()
        self._since = 0.0
        self._due = QTimer(self, singleShot=True, interval=LATEST_MS)
        self._due.timeout.connect(self._keep)
        self._beat = QTimer(self, interval=BEAT_MS)
        self._beat.timeout.connect(self._look_after)
        # The thread knows nothing of Qt: its answer is fetched.
        self._look = QTimer(self, interval=_LOOK_MS)
        self._look.timeout.connect(self._fetch)
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
            why = self._keep().result(LONGEST_WRITE_S)
        except Exception:  # it is asked when something is wrong already
            return False
        self._fetch()
        return not why

    def end(self, *, forget: bool) -> None:
        """Stop; what was kept stays for the next start unless it may be forgotten."""
        for timer in (self._due, self._beat, self._look):
            timer.stop()
        if not forget:
            self._keep()
        self._look.stop()
        self._writer.shutdown(wait=True)
        if forget:
            self._recovery.forget()

    def _keep(self) -> Future[str]:
        unsaved = self._work.unsaved
        writing = self._writer.submit(self._write, unsaved)
        if not self._running:
            self._since = time.monotonic()
        self._running.append(writing)
        self._look.start()
        self._beat.start() if unsaved is not None else self._beat.stop()
        return writing

    def _look_after(self) -> None:
        """Keep what is not kept, unless a disk that does not answer is waited for."""
        if not self._running:
            self._keep()

    def _fetch(self) -> None:
        """Tell what became of the writing."""
        while self._running and self._running[0].done():
            self._tell(self._running.popleft().result())
            self._since = time.monotonic()
        if not self._running:
            self._look.stop()
        elif time.monotonic() - self._since > LONGEST_WRITE_S:
            self._tell(tr("unsaved work cannot be kept: the disk does not answer"))

    def _tell(self, why: str) -> None:
        if bool(why) == self._told:
            return
        self._told = bool(why)
        self.failed.emit(why) if why else self.kept_again.emit()

    def _write(self, unsaved: Unsaved | None) -> str:
        """Write or remove the copy: why not, or ""; runs in the writer's thread."""
        try:
            if unsaved is None:
                self._recovery.forget()
            elif unsaved != self._kept or not self._recovery.stands:
                self._recovery.keep(unsaved)
        except FileError as error:
            return str(error)
        except Exception as error:  # whatever it is, nobody may think that work is kept
            traceback.print_exc()
            what = f"{type(error).__name__}: {error}"
            return tr("unsaved work cannot be kept: {reason}", reason=what)
        self._kept = unsaved
        return ""


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
