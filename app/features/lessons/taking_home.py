"""What a student takes home of a lesson: a clip to watch again, or pages to fill in."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QMenu, QPushButton

from app.features.lessons.making import file_name
from app.features.lessons.model import Going
from app.files.safe_files import FileError, file_errors, write_atomically
from app.qt.drafts import settle
from app.qt.literal import button_text, show_tip
from app.qt.painting.page_painting import SIZES
from app.qt.questions import asked_where, told_not_saved
from app.qt.themes import current_theme
from app.session import Session
from app.words.language import msgid

if TYPE_CHECKING:
    from app.features.clip.dialog import ClipDialog

FILTER: Final = msgid("PDF document (*.pdf)")


class TakeHome(QPushButton):
    """A button from which the ways to take a lesson home hang; keeps the folder chosen last.

    Args:
        session: hears what was written.
        going: gives the lesson, under the limits and in the unit in force.
        young: gives whether it is told the way it is told to children.
    """

    def __init__(
        self, session: Session, going: Callable[[], Going], young: Callable[[], bool]
    ) -> None:
        super().__init__()
        self._session, self._going, self._young = session, going, young
        self._folder = ""
        self.setText(self.tr("Take home"))
        show_tip(self, self.tr("This lesson as a clip, or as pages with room for the answers"))
        self.ways = QMenu(self)
        self.ways.addAction(self.tr("Clip…")).triggered.connect(self.open_clip)
        for paper in SIZES:
            save = self.ways.addAction(button_text(self.tr("Handout as PDF, {}…").format(paper)))
            save.triggered.connect(partial(self.save_pages, paper))
        self.setMenu(self.ways)

    @property
    def _name(self) -> str:
        """Of a file to suggest, without its ending."""
        return file_name(self._going().lesson.title.said)

    def open_clip(self, _checked: bool = False) -> ClipDialog:
        """Open the dialog of clips on the lesson."""
        # What only a clip needs is not worth waiting for when the page opens.
        from app.features.clip.dialog import ClipDialog  # noqa: PLC0415
        from app.features.clip.wish import TOLD, Subject, Told, wish_of  # noqa: PLC0415
        from app.features.lessons.film import lesson_strip  # noqa: PLC0415
        from app.features.lessons.words import title_words  # noqa: PLC0415
        from app.frame import frame  # noqa: PLC0415

        settle(self)
        setup, going = self._session.setup, self._going()
        told = Told(title_words(going.lesson), partial(lesson_strip, going, young=self._young()))
        dialog = ClipDialog(
            self.window(),
            Subject(setup, frame, current_theme(), going.lengths, told),
            wish_of(setup, TOLD),
            lambda: self._folder,
            self._name,
        )
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.wrote.connect(self._session.wrote)
        dialog.open()
        return dialog

    def save_pages(self, paper: str, _checked: bool = False) -> None:
        """Ask for a file and write the pages there."""
        settle(self)
        suggested = Path(self._folder) / f"{self._name}.pdf"
        path = asked_where(self, self.tr("Save handout"), suggested, self.tr(FILTER), ".pdf")
        if path is None:
            return
        self._folder = str(path.parent)
        try:
            write_atomically(path, self.pages(path, paper))
        except FileError as error:
            if told_not_saved(self, str(error)):
                self.save_pages(paper)
            return
        self._session.wrote.emit(path)

    def pages(self, path: Path, paper: str) -> bytes:
        """The pages as the bytes of a PDF file, to be written to a path.

        Raises:
            FileError: there are none, with the reason.
        """
        from app.features.lessons.handout import lesson_pdf  # noqa: PLC0415

        with file_errors("save", path):
            today = date.today().isoformat()
            return lesson_pdf(self._going(), paper, today, young=self._young())
