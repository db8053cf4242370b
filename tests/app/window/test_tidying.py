"""Garbage goes, and only in the thread of the window."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from threading import Thread, get_ident
from weakref import finalize

import pytest
from PySide6.QtCore import QObject
from pytestqt.qtbot import QtBot

from app.window import lifecycle
from app.window.lifecycle import WindowThreadGC


@pytest.fixture(autouse=True)
def _soon(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    monkeypatch.setattr(lifecycle, "LOOK_EVERY_MS", 20)
    gc.enable()
    yield
    gc.unfreeze()


class Circle:
    """Goes only when garbage is looked for."""

    def __init__(self, gone: list[int]) -> None:
        self.me = self
        finalize(self, lambda: gone.append(get_ident()))


def test_garbage_made_in_a_thread_goes_in_the_window_s(qtbot: QtBot) -> None:
    owner = QObject()
    WindowThreadGC(owner)
    gone: list[int] = []
    many = 2 * lifecycle.MANY
    maker = Thread(target=lambda: [Circle(gone) for _ in range(many)])
    maker.start()
    maker.join()
    assert gone == []
    qtbot.waitUntil(lambda: len(gone) == many)
    assert set(gone) == {get_ident()}


def test_a_little_garbage_is_let_lie(qtbot: QtBot) -> None:
    owner = QObject()
    gc.collect()
    WindowThreadGC(owner)
    gone: list[int] = []
    Circle(gone)
    qtbot.wait(100)
    assert gone == []
