"""The menu of what can leave the program to be looked at."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from typing import Final

from PySide6.QtCore import QMimeData
from PySide6.QtGui import QAction, QActionGroup, QGuiApplication, QImage, QKeySequence
from PySide6.QtWidgets import QFileDialog, QMainWindow, QMenu, QMessageBox

from app.frame import Frame
from app.safe_files import FileError, put_in_place, told
from app.theme import Theme
from app.widgets.documents import Documents
from app.widgets.questions import asked_to_replace
from app.widgets.snapshot import png_bytes, snapshot_image
from app.work import file_name_for

SIZES: Final = {1.0: "small", 2.0: "usual", 3.0: "large", 4.0: "huge"}
"""Pixels of a picture per logical pixel, with what they are called."""
USUAL: Final = 2.0


class PictureMenu(QMenu):
    """Saves and copies pictures of what the window shows.

    Args:
        window: hears the keys, whether or not the menu is open.
        documents: know the document that a picture carries.
        shown: gives the frame to make a picture of; None while there is none.
        theme: gives the colours.
    """

    def __init__(
        self,
        window: QMainWindow,
        documents: Documents,
        shown: Callable[[], Frame | None],
        theme: Callable[[], Theme],
    ) -> None:
        super().__init__(window)
        self._window = window
        self._documents = documents
        self._shown = shown
        self._theme = theme
        self.setToolTipsVisible(True)
        save = self.entry("Save picture…", self.save_picture, QKeySequence("Ctrl+E"))
        save.setToolTip(self.tr("Opening the picture brings the whole set-up back"))
        self.entry("Copy picture", self.copy_picture, QKeySequence("Ctrl+Shift+C"))
        self.sizes = self._size_menu()

    def entry(
        self, text: str, slot: Callable[[], object], keys: QKeySequence | None = None
    ) -> QAction:
        """A new entry at the end of the menu, reached by keys too."""
        action = self.addAction(self.tr(text))
        action.triggered.connect(slot)
        if keys is not None:
            action.setShortcut(keys)
            self._window.addAction(action)
        return action

    def _size_menu(self) -> QActionGroup:
        """The sizes of pictures, one of which is chosen."""
        menu, group = self.addMenu(self.tr("Size of the picture")), QActionGroup(self)
        for size, name in SIZES.items():
            action = menu.addAction(self.tr(name).capitalize())
            action.setData(size)
            action.setCheckable(True)
            action.setChecked(size == USUAL)
            group.addAction(action)
        return group

    @property
    def size_chosen(self) -> float:
        """Pixels of a picture per logical pixel."""
        chosen = self.sizes.checkedAction()
        return float(chosen.data()) if chosen is not None else USUAL

    # Pictures

    def save_picture(self) -> None:
        """Ask for a file and write the picture there."""
        path = self.asked_for("Save picture", ".png", "PNG picture (*.png)")
        if path is not None:
            self.write_picture(path)

    def write_picture(self, path: Path) -> None:
        """Write the picture to a file, or say why that cannot be."""
        shown = self._shown()
        if shown is not None:
            with self.told_if_not_saved():
                with told("save", path):
                    data = self._picture(shown)
                put_in_place(path, data)

    def copy_picture(self) -> None:
        """Put the picture on the clipboard, its set-up inside."""
        shown = self._shown()
        if shown is None:
            return
        with self.told_if_not_saved():
            data, copied = self._picture(shown), QMimeData()
            copied.setImageData(self._image(shown))
            copied.setData("image/png", data)
            QGuiApplication.clipboard().setMimeData(copied)

    def _image(self, shown: Frame) -> QImage:
        return snapshot_image(shown, self._theme(), self.size_chosen, date.today())

    def _picture(self, shown: Frame) -> bytes:
        """The picture as a PNG file that carries its document."""
        return self._documents.work.inside(png_bytes(self._image(shown)), shown.setup)

    # Asking and telling

    def asked_for(self, title: str, ending: str, kinds: str) -> Path | None:
        """The file that the user chose to write to; None when nothing is to be written.

        Args:
            title: of the dialog.
            ending: of the file, as ".png"; added where the user gives another or none.
            kinds: the files that the dialog shows.
        """
        documents = self._documents
        name = Path(file_name_for(documents.work.session.setup)).stem + ending
        chosen, _ = QFileDialog.getSaveFileName(
            self._window,
            self.tr(title),
            str(Path(documents.settings.now.folder) / name),
            self.tr(kinds),
        )
        if not chosen:
            return None
        path = Path(chosen)
        if path.suffix.lower() == ending:
            return path
        # The dialog has asked about the name as it was typed only.
        path = path.with_name(path.name + ending)
        return None if path.exists() and not asked_to_replace(self._window, path.name) else path

    @contextmanager
    def told_if_not_saved(self) -> Iterator[None]:
        """Say to the user what goes wrong inside, in one message."""
        try:
            yield
        except (FileError, OSError, ValueError, MemoryError) as error:
            QMessageBox.warning(self._window, self.tr("Not saved"), str(error))
