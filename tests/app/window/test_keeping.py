"""Unsaved work reaches the disk by itself, and comes back after a crash."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from itertools import count
from pathlib import Path

import pytest
from modal import answered
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.files.recovery import Recovery, Unsaved
from app.files.storage import Document, opened
from app.files.user_folders import recovery_folder
from app.rider.setup import Setup
from app.window.keeping import LATEST_MS, crash_hook
from app.window.program import Program
from app.work import Work, paper_of

ROOT = Path(__file__).parents[3]
PROMISED_MS = 2000
CRASHING = """
import os, signal, sys
from PySide6.QtCore import QTimer
from app.rider.setup import Setup
from app.files.storage import Document
from app.files.user_folders import recovery_folder
from app.window import keeping, program
keeping.LATEST_MS = 60
def die_once_it_is_kept():
    if any(recovery_folder().glob("*.json")):
        os.kill(os.getpid(), signal.SIGKILL)
    QTimer.singleShot(10, die_once_it_is_kept)
class Doomed(program.Program):
    def offer_left_behind(self):
        self.window.session.edit(front_angle_deg=17.0)
        self.window.session.edit(rear_angle_deg=3.0)
        die_once_it_is_kept()
program.Program = Doomed
program.open_window(Document(Setup(name="Doomed")), None)
"""


def no_locks(_descriptor: int) -> None:
    raise OSError("no file can be locked here")


def kept() -> list[Setup]:
    """What stands in the recovery folder."""
    return [opened(path).setup for path in recovery_folder().glob("*.json")]


def left_behind(unsaved: Unsaved) -> None:
    """What a program leaves that ends without a word."""
    gone = Recovery(recovery_folder())
    gone.keep(unsaved)
    assert gone._lock is not None
    gone._lock.release()


@pytest.fixture
def soon(monkeypatch: pytest.MonkeyPatch) -> None:
    """Work is kept so soon after a change that no test has to wait."""
    monkeypatch.setattr("app.window.keeping.LATEST_MS", 60)


def test_no_more_than_two_seconds_of_work_can_get_lost() -> None:
    assert LATEST_MS < PROMISED_MS


def test_work_reaches_the_disk_by_itself(
    soon: None, started: Callable[..., Program], qtbot: QtBot
) -> None:
    session = started().window.session
    session.edit(front_angle_deg=30.0)
    assert kept() == []
    qtbot.waitUntil(lambda: kept() == [session.setup], timeout=20_000)


def test_a_drag_that_goes_on_is_kept_while_it_goes_on(
    soon: None, started: Callable[..., Program], qtbot: QtBot
) -> None:
    session, angles = started().window.session, count(10)
    session.begin_drag()

    def kept_while_moving() -> bool:
        session.edit(front_angle_deg=10.0 + next(angles) % 2)
        return bool(kept())

    qtbot.waitUntil(kept_while_moving, timeout=20_000)
    assert session.dragging
    session.end_drag()


def test_saved_work_is_no_longer_kept(
    program: Program, choose: Callable[[Path], None], tmp_path: Path
) -> None:
    program.window.session.edit(front_angle_deg=30.0)
    assert program.keeper.keep_now()
    assert len(kept()) == 1
    choose(tmp_path / "a.json")
    program.documents.save()
    assert program.keeper.keep_now()
    assert kept() == []


def test_a_clean_end_leaves_nothing_even_when_changes_are_discarded(program: Program) -> None:
    program.window.session.edit(front_angle_deg=30.0)
    program.keeper.keep_now()
    with answered("Discard"):
        program.window.close()
    program.end()
    assert list(recovery_folder().iterdir()) == []


def test_a_program_that_is_ended_from_outside_leaves_its_work(program: Program) -> None:
    program.window.session.edit(front_angle_deg=30.0)
    program.end()
    assert kept() == [program.window.session.setup]
    program.recovery.forget()


def test_a_whole_program_that_is_killed_offers_its_work_at_the_next_start(
    started: Callable[..., Program], qtbot: QtBot
) -> None:
    killed = subprocess.run(
        [sys.executable, "-c", CRASHING], cwd=ROOT, env=os.environ, timeout=60, check=False
    )
    assert killed.returncode == -9
    program = started()
    with answered("Open it") as said:
        program.offer_left_behind()
    assert "before Doomed was saved" in said[0]
    setup = program.window.session.setup
    assert (setup.inputs.front_angle_deg, setup.inputs.rear_angle_deg) == (17.0, 3.0)
    assert program.window.isWindowModified()
    assert kept() == [setup]
    with answered():
        started().offer_left_behind()


def test_recovered_work_knows_its_file_and_saves_there(program: Program, anna: Path) -> None:
    paper = paper_of(anna)
    changed = replace(paper.document, setup=replace(paper.document.setup, name="Anna, crashed"))
    left_behind(Unsaved(changed, anna, paper.fingerprint))
    with answered("Open it") as said:
        program.offer_left_behind()
    assert "anna.json" in said[0]
    assert program.documents.save()
    assert opened(anna) == changed


@pytest.mark.parametrize(("button", "stays"), [("Esc", 1), ("Delete it", 0)])
def test_work_that_is_not_opened_stays_unless_it_is_deleted(
    program: Program, button: str, stays: int
) -> None:
    left_behind(Unsaved(Document(Setup(name="Left"))))
    with answered(button):
        program.offer_left_behind()
    assert len(kept()) == stays
    assert program.window.session.setup == Setup()
    for path in recovery_folder().iterdir():
        path.unlink()


def test_work_that_had_just_been_saved_is_not_offered(program: Program, anna: Path) -> None:
    paper = paper_of(anna)
    left_behind(Unsaved(paper.document, anna, paper.fingerprint))
    with answered():
        program.offer_left_behind()
    assert kept() == []


def test_work_that_cannot_be_kept_is_told_once(
    program: Program, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("app.files.recovery.hold", no_locks)
    for angle in (30.0, 31.0):
        program.window.session.edit(front_angle_deg=angle)
        assert not program.keeper.keep_now()
        QApplication.processEvents()
        told = program.documents.notices.text
        assert told.startswith("Cannot keep unsaved work") is (angle == 30.0)
        program.documents.notices.clear_notice()


class TestAnErrorThatNothingElseTook:
    def test_is_answered_by_saving_first_and_one_message(
        self, program: Program, capsys: pytest.CaptureFixture[str]
    ) -> None:
        told: list[str] = []
        hook = crash_hook(program.keeper, told.append)
        program.window.session.edit(front_angle_deg=30.0)
        for _ in range(3):
            error = ValueError("nobody expected this")
            hook(ValueError, error, None)
        assert kept() == [program.window.session.setup]
        assert len(told) == 1
        assert "nobody expected this" in told[0]
        assert "is kept" in told[0]
        assert capsys.readouterr().err.count("ValueError") == 3

    def test_says_when_the_work_could_not_be_kept(
        self, program: Program, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        monkeypatch.setattr("app.files.recovery.hold", no_locks)
        told: list[str] = []
        program.window.session.edit(front_angle_deg=30.0)
        crash_hook(program.keeper, told.append)(OSError, OSError("gone"), None)
        assert "save it now" in told[0]

    def test_is_told_even_when_nobody_knows_what_is_unsaved(
        self, program: Program, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        def broken(_work: Work) -> None:
            raise ZeroDivisionError("broken too")

        told: list[str] = []
        with monkeypatch.context() as patch:
            patch.setattr(Work, "unsaved", property(broken))
            crash_hook(program.keeper, told.append)(OSError, OSError("gone"), None)
        assert "save it now" in told[0]


ASKED_TO_END = """
import os, signal, sys
from PySide6.QtCore import QTimer
from app.rider.setup import Setup
from app.files.storage import Document
from app.window import program
class Asked(program.Program):
    def offer_left_behind(self):
        self.window.session.edit(front_angle_deg=17.0)
        print("ready", flush=True)
program.Program = Asked
sys.exit(program.open_window(Document(Setup(name="Asked")), None))
"""


@pytest.mark.skipif(sys.platform == "win32", reason="needs Unix signals")
@pytest.mark.parametrize("name", ["SIGINT", "SIGTERM", "SIGHUP"])
def test_a_program_asked_to_end_from_outside_keeps_its_work_first(
    user_folder: Path, name: str
) -> None:
    command = [sys.executable, "-c", ASKED_TO_END]
    with subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE) as asked:
        assert asked.stdout is not None
        assert asked.stdout.readline() == b"ready\n"
        asked.send_signal(getattr(signal, name))
        assert asked.wait(30) == 130
    assert [setup.inputs.front_angle_deg for setup in kept()] == [17.0]
