"""What the running application asks of Qt: its language, first paint, garbage and the end.

A program that waits for events runs no Python, and so never sees a signal.  The
interpreter writes a byte to a socket for each, which wakes the event loop.

Left to itself, Python looks for garbage in whatever thread happens to make a thing.
A search beside the window would then take apart what is connected to the window's
signals while the window uses them, and Qt crashes.
"""

from __future__ import annotations

import gc
import signal
import socket
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Final

from PySide6.QtCore import (
    QCoreApplication,
    QEvent,
    QLibraryInfo,
    QLocale,
    QObject,
    QSocketNotifier,
    QTimer,
    QTranslator,
)
from PySide6.QtWidgets import QWidget

from app.files.resources import ASSETS
from app.words.language import SOURCE, best_of, choose, tr

SYSTEM = "system"
"""Speak as the desktop does."""


class Translator(QTranslator):
    """Answers ``self.tr`` and its like from the program's catalogue, whatever their class."""

    def isEmpty(self) -> bool:  # noqa: N802
        return False

    def translate(
        self,
        _context: str,
        source: str,
        /,
        disambiguation: str | None = None,
        _n: int = -1,
    ) -> str | None:
        """The translation; None, which lets Qt look further, where there is none."""
        said = tr(source, disambiguation or "")
        return None if said == source else said


def speak(app: QCoreApplication, wanted: str) -> str:
    """Show all texts made from now on in a language; what is shown already stays as it is.

    Args:
        app: the running application.
        wanted: a code of :data:`app.words.language.NAMES`, or :data:`SYSTEM`.

    Returns:
        The language in force.
    """
    liked = QLocale.system().uiLanguages() if wanted == SYSTEM else [wanted]
    code = choose(best_of(liked), ASSETS / "texts")
    for former in app.findChildren(QTranslator):
        app.removeTranslator(former)
        former.deleteLater()
    if code != SOURCE:
        app.installTranslator(_buttons(app, code))
        app.installTranslator(Translator(app))
    return code


def _buttons(app: QCoreApplication, code: str) -> QTranslator:
    """The texts of Qt's own dialogs; empty where this Qt came without them."""
    texts = QTranslator(app)
    texts.load(f"qtbase_{code}", QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath))
    return texts


def once_painted(widget: QWidget, do: Callable[[], object]) -> None:
    """Do something once, as soon as a widget with all in it has been painted."""
    _Watch(widget, do)


class _Watch(QObject):
    """Sees the first paint of its parent."""

    def __init__(self, widget: QWidget, do: Callable[[], object]) -> None:
        super().__init__(widget)
        self._do = do
        widget.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802
        """Let every event through, and see the first paint."""
        if event.type() == QEvent.Type.Paint:
            watched.removeEventFilter(self)
            # The widgets in it are painted after it, before the next event.
            QTimer.singleShot(0, watched, self._do)
            self.deleteLater()
        return False


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


LOOK_EVERY_MS: Final = 2000
MANY: Final = 10_000
"""Things made and not gone again after which garbage is looked for: less than a MB."""


class WindowThreadGC(QObject):
    """Looks for what goes in circles, seldom, and not among what has stood since the start.

    A step of a drag makes some thousand small things, hardly one of which goes in a circle.
    """

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        gc.disable()
        gc.freeze()
        self._look = QTimer(self, interval=LOOK_EVERY_MS)
        self._look.timeout.connect(self._tidy)
        self._look.start()

    def _tidy(self) -> None:
        if gc.get_count()[0] >= MANY:
            gc.collect()
