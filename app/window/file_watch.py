"""Notices when another program writes the file that is open."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from PySide6.QtCore import QFileSystemWatcher, QObject, Signal

from app.qt.settling import Settling

SAVED_MS: Final = 200
"""A save takes several steps; only what stands there afterwards is of interest."""


class FileWatch(QObject):
    """Watches one file at a time, through its being replaced, removed and made again."""

    changed_on_disk = Signal()
    """Something was done to the file, or in its folder."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._path: Path | None = None
        self._watcher = QFileSystemWatcher(self)
        self._settling = Settling(self, self._look, SAVED_MS)
        self._watcher.fileChanged.connect(self._settling.start)
        self._watcher.directoryChanged.connect(self._settling.start)

    def watch(self, path: Path | None) -> None:
        """Watch another file from now on, or none."""
        if path == self._path:
            return
        self._path = path
        self._settling.stop()
        watched = [*self._watcher.files(), *self._watcher.directories()]
        if watched:
            self._watcher.removePaths(watched)
        self._add()

    def _add(self) -> None:
        """Watch file and folder; a file that was replaced is no longer watched by itself."""
        if self._path is None:
            return
        watched = {*self._watcher.files(), *self._watcher.directories()}
        missing = [
            str(path)
            for path in (self._path, self._path.parent)
            if path.exists() and str(path) not in watched
        ]
        if missing:
            self._watcher.addPaths(missing)

    def _look(self) -> None:
        self._add()
        self.changed_on_disk.emit()
