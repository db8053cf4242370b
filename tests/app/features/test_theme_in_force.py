"""One theme for everything on the screen, whenever it was made."""

from __future__ import annotations

import gc
import weakref

import pytest
from opened_pages import opened_page
from PySide6.QtCore import QEvent
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QApplication, QLabel, QWidget
from pytestqt.qtbot import QtBot
from shiboken6 import isValid

from app.drawing.theme import DARK, LIGHT
from app.features.trials.model import with_trial
from app.qt.painting.palette import LEG, QUIET, colour
from app.qt.themes import current_theme, follow_theme, set_theme
from app.rider.parts import PartEntry, Parts
from app.rider.setup import Setup
from app.rider.trials import entry_of
from app.session import Session
from app.window.registry import entries
from app.window.tray import Entry
from app.window.window import Window, prepared_application

EVEN = ("even", "even")
WEDGES = Parts("Two", (PartEntry("wedge", "across", 4.0, 8.0),), largest_stack=1)


class Follower(QWidget):
    """Keeps the colour of paper."""

    def __init__(self) -> None:
        super().__init__()
        follow_theme(self.take)

    def take(self) -> None:
        self.paper = current_theme().paper


@pytest.fixture
def setup() -> Setup:
    """With a trial and a part, so that tables have rows."""
    bare = Setup(parts=WEDGES)
    return with_trial(bare, entry_of(bare.inputs, "2026-01-02", EVEN, EVEN, ""))


def picture(page: QWidget) -> QImage:
    if page.focusWidget() is not None:
        page.focusWidget().clearFocus()
    QApplication.processEvents()
    return page.grab().toImage()


@pytest.mark.parametrize("entry", entries(), ids=lambda entry: entry.title)
def test_a_page_that_turns_dark_looks_like_one_made_in_the_dark(
    qtbot: QtBot, setup: Setup, entry: Entry
) -> None:
    turned = opened_page(qtbot, entry.make, Session(setup))
    light = picture(turned)
    set_theme(DARK)
    made = opened_page(qtbot, entry.make, Session(setup))
    qtbot.waitUntil(lambda: picture(turned) == picture(made), timeout=10_000)
    assert picture(made) != light


@pytest.mark.parametrize("entry", entries(), ids=lambda entry: entry.title)
def test_a_page_comes_up_in_the_theme_in_force_and_turns_back(
    qtbot: QtBot, setup: Setup, entry: Entry
) -> None:
    set_theme(DARK)
    turned = opened_page(qtbot, entry.make, Session(setup))
    set_theme(LIGHT)
    made = opened_page(qtbot, entry.make, Session(setup))
    qtbot.waitUntil(lambda: picture(turned) == picture(made), timeout=10_000)


def test_a_new_window_shows_that_it_is_dark(qtbot: QtBot) -> None:
    prepared_application()
    set_theme(DARK)
    window = Window(Session())
    qtbot.addWidget(window)
    assert window.dark.isChecked()
    window.dark.trigger()
    assert current_theme() is LIGHT


def test_a_role_writes_in_the_theme_and_paler_of_a_moment_ago(qtbot: QtBot) -> None:
    prepared_application()
    label = QLabel("20.0° inward")
    qtbot.addWidget(label)
    for theme in (DARK, LIGHT):
        set_theme(theme)
        assert label.palette().color(QUIET) == colour(theme.quiet)
        for leg, role in LEG.items():
            assert label.palette().color(role) == colour(theme.leg_text(leg))
    plain = label.palette().color(LEG["rear"])
    label.setEnabled(False)
    assert label.palette().color(LEG["rear"]).lightness() > plain.lightness()


def test_who_follows_is_told_at_once_and_again(qtbot: QtBot) -> None:
    follower = Follower()
    qtbot.addWidget(follower)
    assert follower.paper == LIGHT.paper
    set_theme(DARK)
    assert follower.paper == DARK.paper


def test_following_keeps_no_widget_alive(qapp: QApplication) -> None:
    follower = Follower()
    gone = weakref.ref(follower)
    del follower
    gc.collect()
    assert gone() is None
    set_theme(DARK)


def test_a_widget_that_is_gone_is_not_told(qapp: QApplication) -> None:
    follower = Follower()
    follower.deleteLater()
    QApplication.sendPostedEvents(follower, QEvent.Type.DeferredDelete)
    assert not isValid(follower)
    set_theme(DARK)
    assert follower.paper == LIGHT.paper
