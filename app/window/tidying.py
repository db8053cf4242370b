"""Looks for garbage in the window's own thread, and in no other.

Left to itself, Python looks in whatever thread happens to make a thing.  A search
beside the window would then take apart what is connected to the window's signals
while the window uses them, and Qt crashes.
"""

from __future__ import annotations

import gc
from typing import Final

from PySide6.QtCore import QObject, QTimer

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
        self._look = QTimer(self)
        self._look.setInterval(LOOK_EVERY_MS)
        self._look.timeout.connect(self._tidy)
        self._look.start()

    def _tidy(self) -> None:
        if gc.get_count()[0] >= MANY:
            gc.collect()
