"""Processes beside this one that share its work, and end with it whatever ends it.

Each has a pipe to this process and works on one thing at a time.  A pool of the standard
library would give out everything at once, would lose all when one process is killed, and
would leave its processes behind when this one is.
"""

from __future__ import annotations

import os
import signal
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from multiprocessing import get_context
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess
from typing import Any, Final, Generic, TypeVar

from app.start.mistakes import CommandError

ONE_THREAD: Final = ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS")
"""Ask numpy's libraries to leave the other cores to the other processes."""

_Thing = TypeVar("_Thing")
_Result = TypeVar("_Result")


class Helpers(Generic[_Thing, _Result]):
    """Some processes, begun with the first work and ended when the block is left."""

    def __init__(self, count: int, work: Callable[[Any, _Thing], _Result], task: Any) -> None:
        """Prepare them.

        Args:
            count: how many.
            work: makes a result of the task and a thing; of a module, as all that is sent.
            task: what is the same for all things.
        """
        self._count, self._work, self._task = count, work, task
        self._processes: list[BaseProcess] = []
        self._unset: list[str] = []
        # A copy of this process might lack what its threads hold.
        self._context = get_context("spawn")

    def __enter__(self) -> Helpers[_Thing, _Result]:
        self._unset = [name for name in ONE_THREAD if name not in os.environ]
        os.environ.update(dict.fromkeys(self._unset, "1"))
        return self

    def __exit__(self, *raised: object) -> None:
        for name in self._unset:
            del os.environ[name]
        # Who has read enough, or interrupts, waits for nobody.
        for process in self._processes:
            process.terminate()
        for process in self._processes:
            process.join()

    def done(
        self, things: Sequence[_Thing], given_up: Callable[[_Thing], _Result]
    ) -> Iterator[_Result]:
        """What comes of some things, in their order, each as soon as it is known.

        Args:
            things: to work on.
            given_up: makes the result of a thing whose process was killed.

        Raises:
            CommandError: no process can be started.
        """
        waiting = iter(range(len(things)))
        busy: dict[Connection, int] = {}
        known: dict[int, _Result] = {}
        told = 0

        def give(pipe: Connection | None) -> None:
            """Let a process work on the next thing; a new one where None is free."""
            which = next(waiting, None)
            if which is None:
                return
            pipe = pipe or self._begun()
            with suppress(OSError):
                pipe.send(things[which])
            busy[pipe] = which

        for _ in range(self._count):
            give(None)
        while busy:
            ready = wait([*busy])
            for pipe in [each for each in busy if each in ready]:
                which = busy.pop(pipe)
                try:
                    known[which] = pipe.recv()
                    give(pipe)
                except (EOFError, OSError):
                    pipe.close()
                    known[which] = given_up(things[which])
                    give(None)
            while told in known:
                yield known.pop(told)
                told += 1

    def _begun(self) -> Connection:
        """The pipe to a new process."""
        own, its = self._context.Pipe()
        process = self._context.Process(
            target=_serve, args=(its, self._work, self._task), daemon=True
        )
        try:
            with _unheard(signal.SIGINT):
                process.start()
        except OSError as error:
            raise CommandError(
                f"cannot start a process to share the work: {error.strerror}"
            ) from error
        # So that only the process itself holds it, and reading fails once that is gone.
        its.close()
        self._processes.append(process)
        return own


def _serve(pipe: Connection, work: Callable[[Any, Any], Any], task: Any) -> None:
    """Work on what comes until nothing comes any more."""
    # Interruptions are the first process's business.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    with suppress(EOFError, OSError):
        while True:
            thing = pipe.recv()
            pipe.send(work(task, thing))


@contextmanager
def _unheard(number: signal.Signals) -> Iterator[None]:
    """Keep a signal waiting; a process begun meanwhile never hears it."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {number})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)
