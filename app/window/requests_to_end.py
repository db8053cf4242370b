"""Requests to end that come from outside the window: Ctrl+C in the terminal, a logout.

A program that waits for events runs no Python, and so never sees a signal.  The
interpreter writes a byte to a socket for each, which wakes the event loop.
"""

from __future__ import annotations

import signal
import socket
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Final

from PySide6.QtCore import QSocketNotifier

SIGNALS: Final = tuple(
    getattr(signal, name) for name in ("SIGINT", "SIGTERM", "SIGHUP") if hasattr(signal, name)
)


@contextmanager
def quit_on_signals(end: Callable[[], object]) -> Iterator[None]:
    """Calls ``end`` for each request to end, while the event loop runs inside."""
    reading, writing = socket.socketpair()
    with reading, writing:
        reading.setblocking(False)
        writing.setblocking(False)
        notifier = QSocketNotifier(reading.fileno(), QSocketNotifier.Type.Read)
        notifier.activated.connect(lambda: reading.recv(64))
        before = {each: signal.signal(each, lambda *_: end()) for each in SIGNALS}
        earlier = signal.set_wakeup_fd(writing.fileno())
        try:
            yield
        finally:
            signal.set_wakeup_fd(earlier)
            for each, handler in before.items():
                signal.signal(each, handler)
            notifier.setEnabled(False)
