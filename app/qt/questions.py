"""What the program asks before anything could get lost, and what it tells when it cannot."""

from __future__ import annotations

import os
from enum import Enum, auto
from pathlib import Path
from typing import Any, Final, TypeAlias

from PySide6.QtWidgets import QFileDialog, QMessageBox, QWidget

from app.files.safe_files import with_suffix
from app.qt.literal import message_box
from app.words.language import tr
from app.words.sentences import as_sentence, day_and_time

Button = QMessageBox.StandardButton
Role = QMessageBox.ButtonRole


class Answer(Enum):
    """What a user can want."""

    SAVE = auto()
    COPY = auto()
    DISCARD = auto()
    OPEN = auto()
    CANCEL = auto()


Offers: TypeAlias = dict[Answer, tuple[Any, ...]]
"""The buttons by their answers: one of Qt's own, or a text and a role."""
_GO_BACK: Final[Offers] = {Answer.CANCEL: (Button.Cancel,)}


def asked_to_save(parent: QWidget, title: str, *, copy: bool) -> Answer:
    """Whether to save, discard or go back: :attr:`Answer.SAVE`, DISCARD or CANCEL.

    Args:
        parent: the window concerned.
        title: what it calls the work.
        copy: whether only a copy can be saved.
    """
    box = _box(
        parent,
        tr("Unsaved changes"),
        tr("Save the changes to {}?").format(title),
        tr("It can be saved as a copy only: its file was made by a newer version.")
        if copy
        else tr("Otherwise they are lost once the window is closed."),
    )
    offers: Offers = {Answer.SAVE: (Button.Save,), Answer.DISCARD: (Button.Discard,), **_GO_BACK}
    return _answer(box, offers)


def asked_about_changed_file(parent: QWidget, title: str) -> Answer:
    """What to do when somebody else wrote the file: SAVE over it, save a COPY, or CANCEL."""
    box = _box(
        parent,
        tr("The file has changed"),
        tr("{} was changed by another program or window in the meantime.").format(title),
        tr("Saving over it would lose what stands in it now."),
    )
    copy, over = tr("Save a copy…"), tr("Save over it")
    offers = {Answer.COPY: (copy, Role.AcceptRole), Answer.SAVE: (over, Role.DestructiveRole)}
    return _answer(box, {**offers, **_GO_BACK})


def asked_what_to_carry(parent: QWidget) -> str:
    """What pictures carry from now on: "whole", "stance" without the rider, or "" for neither."""
    box = _box(
        parent,
        tr("What pictures carry"),
        tr("A picture carries its set-up, which opens from it again. Shall the rider go along?"),
        tr(
            "Without the rider there are no name, notes, trials and measures of the body in it, "
            "and it opens on the demo rider’s legs. The drawing stays as it is. This is asked "
            "once; the menu Picture has it."
        ),
    )
    whole, stance = tr("Carry everything"), tr("Without the rider")
    offers: Offers = {
        Answer.SAVE: (whole, Role.AcceptRole),
        Answer.COPY: (stance, Role.AcceptRole),
        **_GO_BACK,
    }
    return {Answer.SAVE: "whole", Answer.COPY: "stance"}.get(_answer(box, offers), "")


def asked_to_replace(parent: QWidget, title: str) -> bool:
    """Whether a file that stands there already may be replaced."""
    box = _box(parent, tr("Replace the file?"), tr("{} is there already.").format(title))
    offers = {Answer.SAVE: (tr("Replace"), Role.DestructiveRole), **_GO_BACK}
    return _answer(box, offers, by_return=Answer.CANCEL) is Answer.SAVE


def asked_where(
    parent: QWidget, title: str, suggested: Path | str, kinds: str, *endings: str
) -> Path | None:
    """The file that the user chose to write to; None when nothing is to be written.

    Args:
        parent: the window concerned.
        title: of the dialog.
        suggested: the file with which it begins.
        kinds: the files that it shows.
        endings: that the file may have, as ".png"; the first is added where it has none of them.
    """
    # The dialog would ask about the name as it was typed only, and in rich text.
    unasked = QFileDialog.Option.DontConfirmOverwrite
    chosen, _ = QFileDialog.getSaveFileName(parent, title, str(suggested), kinds, "", unasked)
    if not chosen:
        return None
    path = with_suffix(Path(chosen), endings)
    there = os.path.lexists(path)
    return None if there and not asked_to_replace(parent, path.name) else path


def asked_which(parent: QWidget, title: str, folder: str, kinds: str) -> Path | None:
    """The file that the user chose to open; None for none."""
    chosen, _ = QFileDialog.getOpenFileName(parent, title, folder, kinds)
    return Path(chosen) if chosen else None


def asked_for_folder(parent: QWidget, title: str, folder: str) -> Path | None:
    """The folder that the user chose; None for none."""
    chosen = QFileDialog.getExistingDirectory(parent, title, folder)
    return Path(chosen) if chosen else None


def asked_to_recover(parent: QWidget, title: str, time: float) -> Answer:
    """What to do with work left behind: OPEN, DISCARD, or CANCEL: ask again.

    Args:
        parent: the window that would show it.
        title: what it is called.
        time: when it was kept (seconds since 1970).
    """
    when = day_and_time(time)
    box = _box(
        parent,
        tr("Unsaved work"),
        tr("The program ended before {} was saved. It was kept as of {}.").format(title, when),
        tr("Opening it changes no file until you save."),
    )
    offers = {
        Answer.OPEN: (tr("Open it"), Role.AcceptRole),
        Answer.CANCEL: (tr("Ask at the next start"), Role.RejectRole),
        Answer.DISCARD: (tr("Delete it"), Role.DestructiveRole),
    }
    return _answer(box, offers)


def told_not_saved(parent: QWidget, text: str) -> bool:
    """Tell why something was not saved; whether it is to be saved under another name.

    Args:
        parent: the window concerned.
        text: why, as :func:`tell` takes it.
    """
    box = _box(parent, tr("Not saved"), as_sentence(text))
    box.setIcon(QMessageBox.Icon.Warning)
    offers = {Answer.SAVE: (tr("Save as…"), Role.AcceptRole), **_GO_BACK}
    return _answer(box, offers) is Answer.SAVE


def tell(parent: QWidget, title: str, text: str) -> None:
    """Tell what could not be done, and why; capital and full stop come by themselves."""
    _tell(_box(parent, title, as_sentence(text)), QMessageBox.Icon.Warning)


def inform(parent: QWidget, title: str, text: str) -> None:
    """Tell what is worth knowing."""
    _tell(_box(parent, title, text), QMessageBox.Icon.Information)


def _tell(box: QMessageBox, icon: QMessageBox.Icon) -> None:
    box.setIcon(icon)
    box.addButton(Button.Ok)
    box.exec()


def _answer(box: QMessageBox, offers: Offers, by_return: Answer | None = None) -> Answer:
    """What the user answered; the return key presses the first button unless told otherwise."""
    buttons = {answer: box.addButton(*offer) for answer, offer in offers.items()}
    box.setDefaultButton(buttons[by_return or next(iter(offers))])
    box.exec()
    pressed = (answer for answer, button in buttons.items() if button is box.clickedButton())
    return next(pressed, Answer.CANCEL)


def _box(parent: QWidget, title: str, text: str, details: str = "") -> QMessageBox:
    box = message_box(parent, title, text, details)
    box.setIcon(QMessageBox.Icon.Question)
    return box


def agreed_to_go_on(parent: QWidget, text: str, details: str) -> bool:
    """Whether to go on with something that wants a second thought."""
    box = _box(parent, tr("Go on?"), text, details)
    on = box.addButton(tr("Put it on"), Role.AcceptRole)
    box.addButton(Button.Cancel)
    box.exec()
    return box.clickedButton() is on


def agreed_to_leave_out(parent: QWidget, what: str) -> bool:
    """Whether what is typed and not entered may be lost with the work that is left.

    Args:
        parent: the window concerned.
        what: is typed, in words.
    """
    box = _box(
        parent,
        tr("Not entered yet"),
        tr("Typed, but not entered: {}").format(what),
        tr("It is in no file, and is lost if you go on."),
    )
    offers: Offers = {
        Answer.CANCEL: (tr("Go back to it"), Role.RejectRole),
        Answer.DISCARD: (tr("Leave it out"), Role.DestructiveRole),
    }
    return _answer(box, offers) is Answer.DISCARD
