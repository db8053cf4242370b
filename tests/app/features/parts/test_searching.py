"""A search beside the window: its progress, its end, its rest and its being stopped."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from threading import Event
from threading import enumerate as threads
from typing import Any

import pytest
from PySide6.QtCore import QObject
from pytestqt.qtbot import QtBot

from app.features.parts.searching import SearchThread
from app.files.resources import ROOT


@dataclass(frozen=True)
class Told:
    done: float
    result: Any = None


def steps(many: int, taken: list[int], gate: Event | None = None) -> Iterator[Told]:
    """A search of some steps that writes down which it took; it may wait after the first."""
    for i in range(many):
        taken.append(i)
        yield Told(i / many)
        if gate is not None:
            gate.wait(10.0)
    yield Told(1.0, "found")


@pytest.fixture
def searching(qtbot: QtBot) -> Iterator[SearchThread]:
    owner = QObject()
    made = SearchThread(owner)
    yield made
    made.stop()


def test_a_search_tells_how_far_it_is_and_what_it_found(
    qtbot: QtBot, searching: SearchThread
) -> None:
    gate, shares = Event(), []
    searching.progressed.connect(shares.append)
    searching.start(lambda: steps(4, [], gate))
    qtbot.waitSignal(searching.progressed).wait()
    with qtbot.waitSignal(searching.done, timeout=5000) as done:
        gate.set()
    assert done.args == ["found"]
    assert shares[0] == 0.0
    assert not searching.busy


def test_a_stopped_search_takes_no_further_step_and_tells_nothing(
    qtbot: QtBot, searching: SearchThread
) -> None:
    gate, taken = Event(), []
    searching.start(lambda: steps(1000, taken, gate))
    qtbot.waitSignal(searching.progressed).wait()
    with qtbot.assertNotEmitted(searching.done), qtbot.waitSignal(searching.stopped):
        searching.stop()
    gate.set()
    qtbot.waitUntil(lambda: not any("_work" in each.name for each in threads()))
    assert len(taken) <= 2


def test_a_search_rests_while_it_is_held(qtbot: QtBot, searching: SearchThread) -> None:
    taken: list[int] = []
    searching.hold(True)
    searching.start(lambda: steps(5, taken))
    qtbot.waitSignal(searching.progressed).wait()
    with qtbot.assertNotEmitted(searching.done, wait=150):
        pass
    assert taken == [0]
    with qtbot.waitSignal(searching.done, timeout=5000):
        searching.hold(False)
    assert taken == [0, 1, 2, 3, 4]


def test_why_nothing_can_be_found_is_told(qtbot: QtBot, searching: SearchThread) -> None:
    def nothing() -> Iterator[Told]:
        raise ValueError("no stance lies there")
        yield Told(0.0)

    with qtbot.waitSignal(searching.failed, timeout=5000) as failed:
        searching.start(nothing)
    assert str(failed.args[0]) == "no stance lies there"


def test_a_newer_search_takes_the_place_of_the_former(
    qtbot: QtBot, searching: SearchThread
) -> None:
    gate, former = Event(), []
    searching.start(lambda: steps(1000, former, gate))
    qtbot.waitSignal(searching.progressed).wait()
    with qtbot.waitSignal(searching.done, timeout=5000) as done:
        searching.start(lambda: steps(2, []))
    gate.set()
    assert done.args == ["found"]
    assert len(former) <= 2


def test_a_search_ends_with_what_asked_for_it(qtbot: QtBot) -> None:
    owner = QObject()
    searching, gate, taken = SearchThread(owner), Event(), []
    searching.start(lambda: steps(1000, taken, gate))
    qtbot.waitSignal(searching.progressed).wait()
    owner.deleteLater()
    qtbot.waitSignal(owner.destroyed).wait()
    gate.set()
    qtbot.waitUntil(lambda: not any("_work" in each.name for each in threads()))
    assert len(taken) <= 2


ENDING = """
from itertools import count
from PySide6.QtCore import QCoreApplication, QTimer
from app.features.parts.searching import SearchThread
class Told:
    done, result = 0.5, None
app = QCoreApplication([])
searching = SearchThread(app)
searching.start(lambda: (Told() for _ in count()))
QTimer.singleShot(100, app.quit)
app.exec()
print("ended")
"""


def test_a_program_ends_in_the_middle_of_a_search() -> None:
    command = [sys.executable, "-W", "error", "-c", ENDING]
    ended = subprocess.run(
        command, check=False, cwd=ROOT, capture_output=True, text=True, timeout=30
    )
    assert (ended.returncode, ended.stdout, ended.stderr) == (0, "ended\n", "")
