"""Buttons that put mounts on, or say why they cannot, and how they do so."""

from __future__ import annotations

from PySide6.QtWidgets import QPushButton, QWidget

from app.features.answer.model import beyond_tried
from app.features.answer.words import mounts_words, why_not
from app.qt.literal import say_about, show_tip
from app.qt.questions import agreed_to_go_on
from app.rider.setup import Setup
from app.session import Session
from app.stance.findings import IN_A_LINE
from app.stance.needs import Mounts
from app.words.language import tr


def update_apply_button(
    button: QPushButton, mounts: Mounts, setup: Setup, brings: str = ""
) -> None:
    """Let a button put mounts on, or say why it cannot.

    Args:
        button: that puts them on.
        mounts: the lifts and cants.
        setup: on which.
        brings: what they do, in a sentence.
    """
    reason = why_not(mounts, setup)
    button.setEnabled(not reason)
    words = reason or " ".join(filter(None, (f"{mounts_words(mounts)}.", brings, tr(IN_A_LINE))))
    show_tip(button, words[:1].upper() + words[1:])
    say_about(button, words)


def put_on(widget: QWidget, session: Session, what: str, after: Setup, mounts: Mounts) -> None:
    """Put lifts and cants on, ask before where they go far beyond what was tried, and say so.

    Args:
        widget: over which is asked.
        session: with the set-up before.
        what: for the history.
        after: the set-up with them on.
        mounts: the lifts and cants.
    """
    before = session.setup
    if beyond_tried(before, mounts) and not agreed_to_go_on(
        widget, tr("This goes more than 2° beyond what was tried."), mounts_words(mounts)
    ):
        return
    session.take(what, after)
    session.put_on.emit(tr("On the bindings now: {}.").format(mounts_words(mounts)), before)
