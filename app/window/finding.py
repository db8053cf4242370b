"""Finding what the window can do: a field that finds commands, and the way to the keys."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtGui import QKeySequence

from app.qt.literal import show_tip

if TYPE_CHECKING:
    from app.window.window import Window


class Finding(QObject):
    """Two entries at the end of the menu of files.

    Args:
        window: whose commands are found.
    """

    def __init__(self, window: Window) -> None:
        super().__init__(window)
        self._window = window
        files = window.files
        keys = QKeySequence("Ctrl+J")
        find = files.entry(self.tr("Find a command…"), self.find, keys, files.last)
        show_tip(find, self.tr("Every command, page and control, by a few letters"))
        files.entry(self.tr("Keys…"), window.helping.show_keys, QKeySequence("F1"), files.last)
        files.insertSeparator(files.last)

    def find(self) -> None:
        """Let a command, a page or a control be found, and do it."""
        from app.window.commands import commands_of  # noqa: PLC0415
        from app.window.finder import Finder  # noqa: PLC0415

        window = self._window
        dialog = Finder(commands_of(window), self.tr("Find a command"), window)
        dialog.exec()
        wanted = dialog.wanted
        dialog.deleteLater()
        if wanted is not None and wanted.run is not None:
            wanted.run()
