"""What waits until changes settle."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QObject
from pytestqt.qtbot import QtBot
from shiboken6 import isValid

from app.qt.settling import SETTLE_MS, Settling


class Page(QObject):
    def __init__(self) -> None:
        super().__init__()
        self.done = 0
        self.settling = Settling(self, self.act)

    def act(self) -> None:
        self.done += 1


@pytest.fixture
def page(qtbot: QtBot) -> Page:
    return Page()


def test_many_changes_make_one_answer_after_the_last(page: Page, qtbot: QtBot) -> None:
    for _ in range(5):
        page.settling.follow(stale=True)
        qtbot.wait(SETTLE_MS // 5)
    assert page.done == 0
    qtbot.waitUntil(lambda: page.done > 0)
    qtbot.wait(SETTLE_MS + 50)
    assert page.done == 1


@pytest.mark.parametrize("over", [{"stale": False}, {"stale": True, "dragging": True}])
def test_nothing_is_done_in_a_drag_or_for_what_is_right_again(
    page: Page, qtbot: QtBot, over: dict[str, bool]
) -> None:
    page.settling.follow(stale=True)
    page.settling.follow(**over)
    qtbot.wait(SETTLE_MS + 50)
    assert page.done == 0


def test_what_was_never_shown_comes_at_the_next_turn(page: Page, qtbot: QtBot) -> None:
    page.settling.follow(stale=True, at_once=True)
    assert page.done == 0
    qtbot.wait(1)
    assert page.done == 1
    page.settling.follow(stale=True)
    assert page.settling.remainingTime() > 0
    assert page.done == 1


def test_its_page_takes_it_along(page: Page, qtbot: QtBot) -> None:
    page.settling.follow(stale=True)
    page.deleteLater()
    qtbot.waitUntil(lambda: not isValid(page))
    qtbot.wait(SETTLE_MS + 50)
    assert page.done == 0
