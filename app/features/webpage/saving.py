"""The page from the menu of pictures: what it may tell is asked first, then where it goes."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import partial
from typing import Final

from PySide6.QtCore import QObject
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QCheckBox, QDialog, QDialogButtonBox, QMainWindow, QWidget

from app.features.paper.pictures import PictureMenu, Shown
from app.features.webpage.telling import NAME, NOTES, TRIALS
from app.qt.controls.layout import in_column
from app.qt.controls.page_words import note
from app.qt.literal import show_tip
from app.qt.sizes import px
from app.rider.setup import Setup
from app.words.language import msgid

ENDING: Final = ".html"
_QUESTIONS: Final = {
    NAME: msgid("Tell the name of the set-up"),
    NOTES: msgid("Tell the notes"),
    TRIALS: msgid("Tell the trials"),
}
_WIDTH: Final = 440
"""Of the question (px)."""


class PrivacyQuestion(QDialog):
    """Asks what a page may tell of the user's own.

    Args:
        setup: what there is to be told; what is empty is not asked about.

    Attributes:
        telling: what was agreed to.
    """

    def __init__(self, setup: Setup, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.telling: frozenset[str] = frozenset()
        self.setObjectName("privacy")
        self.setWindowTitle(self.tr("Web page"))
        self.setMinimumWidth(px(_WIDTH))
        there = {NAME: setup.name, NOTES: setup.notes.strip(), TRIALS: setup.trials}
        self.boxes = {key: self._box(key) for key, content in there.items() if content}
        buttons = QDialogButtonBox()
        self.save = buttons.addButton(self.tr("Save…"), QDialogButtonBox.ButtonRole.AcceptRole)
        buttons.addButton(QDialogButtonBox.StandardButton.Cancel)
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        about = note(
            self.tr(
                "One file that opens in any browser, on a phone too, without a network. It shows "
                "the stance, moves when its sliders are moved, and tells what to begin with."
            )
        )
        inside = note(
            self.tr(
                "Whoever gets the file can read the measures of legs and boots in it: the page "
                "needs them to solve the stance. Of the rest it tells only what you choose here."
            )
        )
        column = in_column(about, inside, *self.boxes.values(), buttons, of=self, spacing=10)
        column.setContentsMargins(px(14), px(14), px(14), px(14))
        # Of itself it would be as high as its words are in a narrower one.
        self.resize(px(_WIDTH), self.heightForWidth(px(_WIDTH)))

    def _box(self, key: str) -> QCheckBox:
        box = QCheckBox(self.tr(_QUESTIONS[key]))
        box.toggled.connect(partial(self._agree, key))
        return box

    def _agree(self, key: str, agreed: bool) -> None:
        self.telling = self.telling | {key} if agreed else self.telling - {key}


class WebPage(QObject):
    """Adds the page to the menu of pictures.

    Args:
        window: the window concerned.
        pictures: the menu; saves the page.
        shown: gives what to make the page of; None while there is nothing.
    """

    def __init__(
        self, window: QMainWindow, pictures: PictureMenu, shown: Callable[[], Shown | None]
    ) -> None:
        super().__init__(window)
        self._window, self._pictures, self._shown = window, pictures, shown
        keys = QKeySequence("Ctrl+Shift+W")
        entry = pictures.entry(self.tr("Web page…"), self.ask_and_save, keys)
        show_tip(entry, self.tr("One file to open on a phone, with sliders to move"))

    def ask_and_save(self) -> None:
        """Ask what the page may tell, then for a file, and write it there."""
        shown = self._shown()
        if shown is None:
            return
        question = PrivacyQuestion(shown.frame.setup, self._window)
        agreed = question.exec() == QDialog.DialogCode.Accepted
        telling = question.telling
        question.deleteLater()
        if agreed:
            made = partial(_made, shown, telling)
            # The name of a file is told as well.
            called = None if NAME in telling else self.tr("Stance")
            self._pictures.save(self.tr("Save web page"), ENDING, made, called)


def _made(shown: Shown, telling: frozenset[str]) -> bytes:
    # Not before a page is wanted: the window is there the sooner.
    from app.features.webpage.document import web_page  # noqa: PLC0415

    setup, lengths = shown.frame.setup, shown.frame.lengths
    return web_page(setup, date.today(), limits=shown.limits, lengths=lengths, telling=telling)
