"""The menu of what can leave the program to be looked at."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import date
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Final, NamedTuple

from PySide6.QtCore import QLocale, Qt, Signal
from PySide6.QtGui import QAction, QActionGroup, QGuiApplication, QImage, QKeySequence
from PySide6.QtWidgets import QMainWindow

from app.files.file_kinds import SUFFIX
from app.files.safe_files import FileError, file_errors, write_atomically
from app.files.settings import SettingsStore
from app.frame import Frame
from app.qt.controls.keyed_menu import KeyedMenu, Keys
from app.qt.drafts import settle
from app.qt.literal import show_tip
from app.qt.questions import (
    asked_for_folder,
    asked_to_replace,
    asked_what_to_carry,
    asked_where,
    tell,
    told_not_saved,
)
from app.qt.themes import current_theme
from app.rider.setup import Setup
from app.rider.sharing import tells_of_rider, without_rider
from app.stance.findings import Limits
from app.words.language import msgid
from app.work import Work, file_name_for

if TYPE_CHECKING:
    from app.features.paper.fit_page import FitSheet
    from app.features.player.model import Sweep

SCALES: Final = {
    1.0: msgid("Small"),
    2.0: msgid("Usual"),
    3.0: msgid("Large"),
    4.0: msgid("Huge"),
}
"""Pixels of a picture per logical pixel, with what they are called."""
CARRIED: Final = {
    "whole": (
        msgid("Everything"),
        msgid("Opening the picture brings the whole set-up back."),
    ),
    "stance": (
        msgid("The stance without its rider"),
        msgid(
            "No name, notes, trials and measures of the body; it opens on the demo rider’s legs."
        ),
    ),
}
"""What pictures can carry, by the setting: what that is called, and what it means."""
PAPERS: Final = {"A4": "Ctrl+Shift+E", "Letter": "Ctrl+Shift+L"}
"""Papers of the fit sheet."""
KINDS: Final = {
    ".png": msgid("PNG picture (*.png)"),
    ".pdf": msgid("PDF document (*.pdf)"),
    ".html": msgid("Web page (*.html)"),
}
"""What can be saved, by the ending of its file."""
USUAL: Final = 2.0


class Shown(NamedTuple):
    """What a window shows at one moment, and how.

    Attributes:
        frame: the stance.
        limits: by which knees are judged.
        draw: solves and draws another set-up in the same way.
    """

    frame: Frame
    limits: Limits
    draw: Callable[[Setup], Frame]


class PictureMenu(KeyedMenu):
    """Saves, copies and prints what the window shows.

    Args:
        window: hears the keys, whether or not the menu is open.
        work: knows the document that a picture carries.
        settings: know the folder in which files are suggested, and what pictures carry.
        shown: gives what to make a picture of; None while there is nothing.
    """

    done = Signal(str)
    """What was done that shows nowhere else, in words."""

    def __init__(
        self,
        window: QMainWindow,
        work: Work,
        settings: SettingsStore,
        shown: Callable[[], Shown | None],
    ) -> None:
        super().__init__(window)
        self._work = work
        self._settings = settings
        self._shown = shown
        save = self.entry(self.tr("Save picture…"), self.save_picture, QKeySequence("Ctrl+E"))
        show_tip(save, self.tr("Opening the picture brings back what it carries"))
        copy = self.tr("Copy picture")
        self.entry(copy, self.copy_picture, QKeySequence("Ctrl+Shift+C"))
        self.sizes = self._size_menu()
        self._add_carried()
        self.addSeparator()
        for paper, keys in PAPERS.items():
            text = self.tr("Fit sheet as PDF, {}…").format(paper)
            action = self.entry(text, partial(self.save_sheet, paper), QKeySequence(keys))
            show_tip(action, self.tr("One page with everything, to take along"))
        self.entry(self.tr("Print fit sheet…"), self.print_sheet, Keys.Print)
        self.addSeparator()
        out = self.entry(
            self.tr("Handout as PDF…"), self.save_handout, QKeySequence("Ctrl+Shift+H")
        )
        show_tip(out, self.tr("What to begin with, why and how, in large type to take home"))
        clip = self.entry(self.tr("Clip…"), self.save_clip, QKeySequence("Ctrl+Shift+M"))
        show_tip(clip, self.tr("A sweep or a movement as a picture that moves"))
        views = self.entry(self.tr("Views as SVG…"), self.save_views, QKeySequence("Ctrl+Shift+V"))
        show_tip(views, self.tr("Each view as a drawing of its own, into a folder"))

    def _size_menu(self) -> QActionGroup:
        """The sizes of pictures, one of which is chosen."""
        self.size_chosen = USUAL
        menu, group = self.addMenu(self.tr("Size of the picture")), QActionGroup(self)
        for size, name in SCALES.items():
            action = menu.addAction(self.tr(name))
            action.triggered.connect(partial(self._choose_size, size))
            action.setCheckable(True)
            action.setChecked(size == USUAL)
            group.addAction(action)
        return group

    def _add_carried(self) -> None:
        """What pictures carry, one way of which is chosen."""
        menu, group = self.addMenu(self.tr("What pictures carry")), QActionGroup(self)
        menu.setToolTipsVisible(True)
        for key, (words, help_text) in CARRIED.items():
            action = menu.addAction(self.tr(words))
            show_tip(action, self.tr(help_text))
            action.triggered.connect(partial(self._settings.change, pictures=key))
            action.setCheckable(True)
            group.addAction(action)
            menu.aboutToShow.connect(partial(self._mark_carried, action, key))

    def _mark_carried(self, action: QAction, key: str) -> None:
        action.setChecked(self._settings.now.pictures == key)

    @property
    def rider(self) -> bool:
        """Whether the rider goes along in pictures."""
        session = self._work.session
        chosen = self._settings.now.pictures
        return chosen != "stance" or not tells_of_rider(session.setup, session.start)

    def _may_carry(self) -> bool:
        """Whether a picture may be made: it is known whether the rider goes along."""
        settle(self._window)
        session, settings = self._work.session, self._settings
        if settings.now.pictures == "ask" and tells_of_rider(session.setup, session.start):
            chosen = asked_what_to_carry(self._window)
            if not chosen:
                return False
            settings.change(pictures=chosen)
        return True

    def _choose_size(self, size: float) -> None:
        self.size_chosen = size

    # Pictures

    def save_picture(self) -> None:
        """Ask for a file and write the picture there."""
        self.save(self.tr("Save picture"), ".png", self.picture)

    def picture(self) -> bytes | None:
        """The picture as a PNG file with its set-up inside; None while there is nothing."""
        shown = self._shown()
        if shown is None:
            return None
        # Not before a picture is wanted: the window is there the sooner.
        from app.features.paper.snapshot import snapshot_image  # noqa: PLC0415

        image = snapshot_image(
            shown.frame, current_theme(), self.size_chosen, date.today(), rider=self.rider
        )
        return self.carrying(image, shown.frame.setup)

    def copy_picture(self) -> None:
        """Put the picture on the clipboard, its set-up inside."""
        with self._told(partial(tell, self._window, self.tr("Not copied"))):
            picture = self.picture() if self._may_carry() else None
            if picture is not None:
                # Read back from PNG, the image has the set-up among its texts.  Mime data made
                # here would carry it too, but crash Qt at exit while it is on the clipboard.
                QGuiApplication.clipboard().setImage(QImage.fromData(picture))
                self.done.emit(self.tr("Picture copied"))

    def carrying(self, image: QImage, setup: Setup) -> bytes:
        """A picture as a PNG file that carries the document with a set-up of its own.

        Raises:
            RefusalError: the set-up could not be opened again.
        """
        from app.features.paper.snapshot import png_bytes  # noqa: PLC0415

        return self._work.inside(png_bytes(image), setup, rider=self.rider)

    # Fit sheet

    def save_sheet(self, paper: str) -> None:
        """Ask for a file and write the fit sheet there."""
        self.save(self.tr("Save fit sheet"), ".pdf", partial(self._sheet_pdf, paper))

    def _sheet_pdf(self, paper: str) -> bytes | None:
        from app.features.paper.fit_sheet import fit_sheet_pdf  # noqa: PLC0415

        shown = self._shown()
        return None if shown is None else fit_sheet_pdf(_sheet(shown), paper)

    def print_sheet(self) -> None:
        """Ask for a printer and print the fit sheet there."""
        from app.features.paper.fit_sheet import asked_and_printed  # noqa: PLC0415

        shown = self._shown()
        if shown is not None:
            with self._told(partial(tell, self._window, self.tr("Not printed"))):
                where = asked_and_printed(self._window, _sheet(shown), self._file_name(""))
                if where:
                    self.done.emit(where)

    # To take home

    def save_handout(self) -> None:
        """Ask what is to stand on the handout, and for a file, and write it there."""
        from app.features.paper.handout_dialog import HandoutDialog  # noqa: PLC0415

        setup = self._work.session.setup
        asked = HandoutDialog(self._window, has_name=bool(setup.name), has_notes=bool(setup.notes))
        if asked.exec() == HandoutDialog.DialogCode.Accepted:
            made = partial(self.handout, named=asked.named, notes=asked.notes)
            self.save(self.tr("Save handout"), ".pdf", made)

    def handout(self, *, named: bool = False, notes: bool = False) -> bytes | None:
        """The handout as a PDF file; None while there is nothing."""
        from app.features.paper.fit_sheet import usual_paper  # noqa: PLC0415
        from app.features.paper.handout import handout_of, handout_pdf  # noqa: PLC0415

        shown = self._shown()
        if shown is None:
            return None
        handout = handout_of(shown.frame, date.today(), named=named, notes=notes)
        return handout_pdf(handout, usual_paper(QLocale.system()))

    def save_clip(self, kind: str = "", sweep: Sweep | None = None) -> None:
        """Open the dialog of clips.

        Args:
            kind: what is to move, a key of the page Motion; the usual where empty.
            sweep: the input that moves, where it is one.
        """
        from app.features.clip.dialog import ClipDialog  # noqa: PLC0415
        from app.features.clip.wish import Subject, wish_of  # noqa: PLC0415

        shown = self._shown()
        if shown is None:
            return
        frame = shown.frame
        subject = Subject(frame.setup, shown.draw, current_theme(), frame.lengths)
        dialog = ClipDialog(
            self._window,
            subject,
            wish_of(frame.setup, kind, sweep),
            lambda: self._settings.folder,
            self.tr("clip"),
        )
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.wrote.connect(self._work.session.wrote)
        dialog.open()

    # Views

    def save_views(self) -> None:
        """Ask for a folder and write each view there."""
        folder = asked_for_folder(
            self._window, self.tr("Folder for the views"), self._settings.folder
        )
        if folder is not None:
            self.write_views(folder)

    def write_views(self, folder: Path) -> None:
        """Write each view to an SVG file in a folder, or say why that cannot be."""
        from app.features.paper.view_svg import view_svgs  # noqa: PLC0415

        shown = self._shown()
        if shown is None:
            return
        drawn = view_svgs(shown.frame, current_theme())
        paths = {key: folder / self._file_name(f" {key.replace('_', ' ')}.svg") for key in drawn}
        there = [path.name for path in paths.values() if path.exists()]
        if there and not asked_to_replace(self._window, ", ".join(there)):
            return
        with self._told(partial(self._offer, self.save_views)):
            for key, data in drawn.items():
                write_atomically(paths[key], data)
            self._work.session.wrote.emit(folder)

    # Asking and telling

    def save(
        self,
        title: str,
        ending: str,
        made: Callable[[], bytes | None],
        called: str | None = None,
    ) -> None:
        """Ask for a file and write there what is made then.

        Args:
            title: of the dialog.
            ending: of the file, a key of :data:`KINDS`; added where the user gives another.
            made: gives what is to be written; None while there is nothing.
            called: what the file is to be called; None for as the set-up in hand.
        """
        if ending == ".png" and not self._may_carry():
            return
        name = self._file_name(ending) if called is None else called + ending
        suggested, kinds = Path(self._settings.folder) / name, self.tr(KINDS[ending])
        path = asked_where(self._window, title, suggested, kinds, ending)
        if path is not None:
            self.write(path, made, partial(self.save, title, ending, made, called))

    def write(
        self, path: Path, made: Callable[[], bytes | None], again: Callable[[], object]
    ) -> None:
        """Write what is made to a file, or say why that cannot be.

        Args:
            path: of the file.
            made: gives what is to be written; None while there is nothing.
            again: asks for another file and saves there, should the user want that.
        """
        with self._told(partial(self._offer, again)):
            with file_errors("save", path):
                data = made()
            if data is not None:
                write_atomically(path, data)
                self._work.know_picture(data)
                self._work.session.wrote.emit(path)

    def _file_name(self, ending: str) -> str:
        """A file name to suggest, after the set-up in hand, or after what a picture carries."""
        setup = self._work.session.setup
        named = without_rider(setup) if ending == ".png" and not self.rider else setup
        return file_name_for(named).removesuffix(SUFFIX) + ending

    @contextmanager
    def _told(self, say: Callable[[str], object]) -> Iterator[None]:
        """Say to the user what goes wrong inside, in one message."""
        try:
            yield
        except (FileError, OSError, ValueError, MemoryError) as error:
            say(str(error))

    def _offer(self, again: Callable[[], object], why_not: str) -> None:
        if told_not_saved(self._window, why_not):
            again()


def _sheet(shown: Shown) -> FitSheet:
    # What only a sheet needs is not worth waiting for when the window opens.
    from app.features.paper.fit_sheet import fit_sheet  # noqa: PLC0415
    from app.features.paper.fit_sheet_text import parts_under  # noqa: PLC0415

    parts = parts_under(shown.frame.setup)
    return fit_sheet(shown.frame, date.today(), shown.limits, parts)
