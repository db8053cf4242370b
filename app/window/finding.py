"""Finding what the window can do: a field that finds commands, and the page of keys."""

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
        files.entry(self.tr("Keys…"), self.show_keys, QKeySequence("Ctrl+F1"), files.last)
        files.insertSeparator(files.last)

    def find(self) -> None:
        """Let a command, a page or a control be found, and do it."""
        self._ask(self.tr("Find a command"), keys_only=False)

    def show_keys(self) -> None:
        """Show which keys there are; what they do can be done from there."""
        self._ask(self.tr("Keys"), keys_only=True)

    def _ask(self, title: str, *, keys_only: bool) -> None:
        from app.window.commands import commands_of  # noqa: PLC0415
        from app.window.finder import Finder  # noqa: PLC0415

        window = self._window
        dialog = Finder(commands_of(window), title, window, keys_only=keys_only)
        dialog.exec()
        wanted = dialog.wanted
        dialog.deleteLater()
        if wanted is not None and wanted.run is not None:
            wanted.run()
