"""Tells where something was saved, and leads there."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from app.qt.desktop import opened_by_desktop
from app.window.notices import Notice, NoticeBar, Offer
from app.words.language import tr


def tell_saved(notices: NoticeBar, path: Path, *, opens: bool = True) -> Notice:
    """Say that a file was saved and where, with ways to it; what is said.

    Args:
        notices: of the window.
        path: the file, or a folder in which several were saved.
        opens: whether another program may open it; a set-up in hand is open already.
    """
    path = path.absolute()
    several = path.is_dir()
    folder = path if several else path.parent
    text = (
        tr("Saved in {folder}.", folder=str(folder))
        if several
        else tr("Saved: {file}, in {folder}.", file=path.name, folder=str(folder))
    )
    offers = [Offer(tr("Show in folder"), partial(_open, notices, folder))]
    if opens and not several:
        offers.insert(0, Offer(tr("Open it"), partial(_open, notices, path)))
    return notices.tell_news(text, *offers)


def _open(notices: NoticeBar, path: Path) -> None:
    """Have the desktop open a file or a folder, or say that it cannot."""
    if not path.exists():
        notices.tell_news(tr("{path} is no longer there.", path=str(path)))
    elif not opened_by_desktop(path):
        notices.tell_news(
            tr("The desktop has no program that opens it. It is here: {path}", path=str(path))
        )
