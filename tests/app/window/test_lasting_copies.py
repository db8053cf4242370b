"""The copy of unsaved work outlives folders that go, disks that fill up, and cleaners."""

from __future__ import annotations

import errno
import json
import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from threading import Event

import pytest
from pytestqt.qtbot import QtBot

from app.files.recovery import Recovery
from app.files.storage import Document, opened
from app.files.user_folders import recovery_folder
from app.rider.setup import Setup
from app.window.program import Program

ROOT = Path(__file__).parents[3]
MOUNTED = 'mount -t tmpfs -o size=256k none "$1" && exec "$2" "$3" "$1"'
NAMESPACE = ["unshare", "--user", "--map-root-user", "--mount"]


@pytest.fixture(autouse=True)
def soon(monkeypatch: pytest.MonkeyPatch) -> None:
    """Work is kept and looked after so often that no test has to wait."""
    monkeypatch.setattr("app.window.keeping.LATEST_MS", 40)
    monkeypatch.setattr("app.window.keeping.BEAT_MS", 40)


@pytest.fixture
def told(program: Program) -> list[str]:
    """What the user is told of keeping, in its order."""
    told: list[str] = []
    program.keeper.failed.connect(told.append)
    program.keeper.kept_again.connect(lambda: told.append("kept again"))
    return told


def kept() -> list[float]:
    copies = [opened(path).setup for path in recovery_folder().glob("*.json")]
    return [copy.inputs.front_angle_deg for copy in copies]


def turn(program: Program, degrees: float) -> None:
    program.window.session.edit(front_angle_deg=degrees)


def can_mount() -> bool:
    if sys.platform != "linux" or shutil.which("unshare") is None:
        return False
    return subprocess.run([*NAMESPACE, "true"], capture_output=True, check=False).returncode == 0


@pytest.mark.skipif(not can_mount(), reason="needs a namespace in which disks can be mounted")
def test_a_disk_that_fills_up_is_swept_and_is_taken_away_costs_no_more_than_two_notices(
    tmp_path: Path,
) -> None:
    script = ROOT / "tests" / "helpers" / "small_disk.py"
    done = subprocess.run(
        [*NAMESPACE, "sh", "-c", MOUNTED, "-", tmp_path, sys.executable, script],
        env={**os.environ, "PYTHONPATH": str(ROOT)}, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    full, again = done.stdout.splitlines()
    assert full.startswith("unsaved work cannot be kept: ")
    assert full.endswith(": the disk is full")
    assert again == "kept again"


def test_work_on_a_file_given_by_a_relative_path_is_kept_after_its_folder_has_gone(
    started: Callable[..., Program], qtbot: QtBot, anna: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = anna.parent / "club"
    folder.mkdir()
    anna.rename(folder / "anna.json")
    with monkeypatch.context() as patch:
        patch.chdir(folder)
        program = started(Document(Setup(name="Anna")), Path("anna.json"))
        shutil.rmtree(folder)
        turn(program, 31.0)
        qtbot.waitUntil(lambda: kept() == [31.0], timeout=20_000)
    (copy,) = recovery_folder().glob("*.json")
    assert json.loads(copy.read_text("utf-8"))["recovery"]["path"] == str(folder / "anna.json")


def test_a_disk_that_fills_up_is_told_once_and_so_is_its_end(
    program: Program, told: list[str], qtbot: QtBot
) -> None:
    turn(program, 30.0)
    qtbot.waitUntil(lambda: kept() == [30.0], timeout=20_000)
    tries = []

    def full(*_args: object) -> int:
        tries.append(1)
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("app.files.safe_files.os.write", full)
        turn(program, 31.0)
        qtbot.waitUntil(lambda: len(tries) > 3, timeout=20_000)
        assert kept() == [30.0]
        assert "the disk is full. Save often." in program.documents.notices.text
    qtbot.waitUntil(lambda: kept() == [31.0], timeout=20_000)
    qtbot.waitUntil(lambda: len(told) == 2, timeout=20_000)
    assert told[1] == "kept again"
    assert program.documents.notices.text == "Unsaved work is kept again."


@pytest.mark.parametrize("what", ["*.json", "*.lock", "*"])
def test_a_copy_that_a_cleaner_deleted_is_written_anew_without_a_word(
    program: Program, told: list[str], qtbot: QtBot, what: str
) -> None:
    turn(program, 30.0)
    qtbot.waitUntil(lambda: kept() == [30.0], timeout=20_000)
    for path in recovery_folder().glob(what):
        path.unlink()
    qtbot.waitUntil(lambda: program.recovery.stands and kept() == [30.0], timeout=20_000)
    assert list(Recovery(recovery_folder()).left_behind()) == []
    assert told == []


def test_a_folder_that_was_put_in_the_way_is_told_and_left_when_it_goes(
    program: Program, told: list[str], qtbot: QtBot
) -> None:
    folder = recovery_folder()
    turn(program, 30.0)
    qtbot.waitUntil(lambda: kept() == [30.0], timeout=20_000)
    shutil.rmtree(folder)
    folder.write_text("a file in its place")
    qtbot.waitUntil(lambda: len(told) == 1, timeout=20_000)
    assert told[0].startswith(f"cannot keep unsaved work in {folder}")
    folder.unlink()
    qtbot.waitUntil(lambda: kept() == [30.0], timeout=20_000)
    qtbot.waitUntil(lambda: len(told) == 2, timeout=20_000)


def test_an_error_that_nobody_thought_of_is_told_and_keeping_goes_on(
    program: Program,
    told: list[str],
    qtbot: QtBot,
    monkeypatch: pytest.MonkeyPatch,
    capfd: pytest.CaptureFixture[str],
) -> None:
    with monkeypatch.context() as patch:
        patch.setattr("app.files.recovery.bytes_of", lambda *_: 1 / 0)
        turn(program, 30.0)
        qtbot.waitUntil(lambda: len(told) == 1, timeout=20_000)
    assert told[0] == "unsaved work cannot be kept: ZeroDivisionError: division by zero"
    assert "ZeroDivisionError" in capfd.readouterr().err
    qtbot.waitUntil(lambda: kept() == [30.0], timeout=20_000)
    qtbot.waitUntil(lambda: told[1:] == ["kept again"], timeout=20_000)


def test_a_disk_that_does_not_answer_is_told(
    program: Program, told: list[str], qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("app.window.keeping.LONGEST_WRITE_S", 0.1)
    real, answers = os.fsync, Event()

    def slow(descriptor: int) -> None:
        answers.wait(20.0)
        real(descriptor)

    monkeypatch.setattr("app.files.safe_files.os.fsync", slow)
    turn(program, 30.0)
    qtbot.waitUntil(lambda: len(told) == 1, timeout=20_000)
    assert told[0] == "unsaved work cannot be kept: the disk does not answer"
    answers.set()
    qtbot.waitUntil(lambda: told[1:] == ["kept again"], timeout=20_000)
    assert kept() == [30.0]
