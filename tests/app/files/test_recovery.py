"""Work left by a program that was killed is offered once, and never that of one that runs."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from app.files import recovery
from app.files.recovery import Recovery, Unsaved
from app.files.safe_files import FileError
from app.files.storage import SCHEMA, Document, opened
from app.rider.setup import Setup

ROOT = Path(__file__).parents[3]
WORK = Unsaved(
    Document(Setup(name="Anna"), unknown_keys={"colour": "red"}), Path("/riders/anna.json"), "abc"
)
CHILD = """
import sys
from pathlib import Path
from app.files.recovery import Recovery, Unsaved
from app.rider.setup import Setup
from app.files.storage import Document
recovery = Recovery(Path(sys.argv[1]))
for i in range(3):
    recovery.keep(Unsaved(Document(Setup(name=f"step {i}"))))
print("kept", flush=True)
sys.stdin.read()
"""


def no_locks(_descriptor: int) -> None:
    raise OSError("no file can be locked here")


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "state" / "recovery"


@pytest.fixture
def mine(folder):
    mine = Recovery(folder)
    yield mine
    mine.forget()


def found(folder):
    """What a program that starts now would be offered."""
    work = []
    for left in Recovery(folder).left_behind():
        work.append(left.unsaved)
        left.lock.release()
    return work


def names(folder):
    return sorted(path.suffix for path in folder.iterdir())


def crashed(folder, unsaved=WORK):
    """What a program leaves that ends without a word."""
    gone = Recovery(folder)
    gone.keep(unsaved)
    gone._lock.release()


def test_work_of_a_program_is_offered_after_it_was_killed_and_not_before(folder):
    child = subprocess.Popen(
        [sys.executable, "-c", CHILD, str(folder)],
        cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE,
    )  # fmt: skip
    with child:
        assert child.stdout.readline() == b"kept\n"
        assert found(folder) == []
        child.kill()
    assert found(folder) == [Unsaved(Document(Setup(name="step 2")))]


def test_what_comes_back_is_what_was_kept_with_its_file(folder):
    crashed(folder)
    assert found(folder) == [WORK]


def test_two_programs_that_start_at_once_are_not_offered_the_same(folder):
    crashed(folder)
    first, second = Recovery(folder).left_behind(), Recovery(folder).left_behind()
    left = next(first)
    assert list(second) == []
    left.lock.release()
    assert found(folder) == [WORK]


def test_work_that_was_taken_or_deleted_is_gone_with_its_lock(folder):
    crashed(folder)
    (left,) = Recovery(folder).left_behind()
    left.lock.remove()
    assert names(folder) == []


def test_the_latest_comes_first(folder):
    for i in range(3):
        crashed(folder, Unsaved(Document(Setup(name=str(i)))))
        for path in folder.glob("*.json"):
            os.utime(path, (1000 + i, 1000 + i)) if opened(path).setup.name == str(i) else None
    assert [work.document.setup.name for work in found(folder)] == ["2", "1", "0"]


def test_a_clean_end_leaves_nothing(folder, mine):
    mine.keep(WORK)
    assert names(folder) == [".json", ".lock"]
    mine.forget()
    assert names(folder) == []
    mine.forget()


def test_a_second_window_keeps_its_own(folder, mine):
    mine.keep(WORK)
    second = Recovery(folder)
    second.keep(WORK)
    second.forget()
    assert names(folder) == [".json", ".lock"]


def test_what_another_version_left_is_neither_offered_nor_lost(folder):
    crashed(folder)
    (path,) = folder.glob("*.json")
    path.write_text("of tomorrow")
    assert found(folder) == []
    assert path.read_text() == "of tomorrow"


def test_work_on_a_newer_file_comes_back_without_its_file(folder):
    crashed(folder, Unsaved(Document(Setup(), schema=SCHEMA + 1), Path("/riders/newer.json"), "f"))
    assert found(folder) == [Unsaved(Document(Setup()))]


def test_a_recovery_file_is_a_set_up_that_every_version_can_open(folder):
    crashed(folder)
    (path,) = folder.glob("*.json")
    assert json.loads(path.read_text("utf-8"))["recovery"]["path"] == "/riders/anna.json"
    assert opened(path).setup == WORK.document.setup


@pytest.mark.parametrize("origin", [3, [], {}, {"path": 5}, {"path": None}])
def test_a_spoilt_origin_costs_only_the_origin(folder, origin):
    crashed(folder)
    (path,) = folder.glob("*.json")
    path.write_text(json.dumps(json.loads(path.read_text("utf-8")) | {"recovery": origin}))
    assert found(folder) == [Unsaved(WORK.document)]


def test_locks_that_guard_nothing_are_tidied_away_and_those_held_are_not(folder, mine):
    mine.keep(WORK)
    (folder / "7-abandoned.lock").touch()
    Recovery(folder).tidy()
    assert names(folder) == [".json", ".lock"]


def test_a_folder_that_is_not_there_yet_holds_nothing(folder):
    Recovery(folder).tidy()
    assert found(folder) == []


def test_a_folder_that_cannot_be_made_is_said(tmp_path):
    (tmp_path / "file").touch()
    with pytest.raises(FileError, match="cannot keep unsaved work in"):
        Recovery(tmp_path / "file" / "recovery").keep(WORK)


def test_a_disk_that_knows_no_locks_is_said_and_not_littered(folder, monkeypatch):
    monkeypatch.setattr(recovery, "_hold", no_locks)
    with pytest.raises(FileError, match="no file can be locked there"):
        Recovery(folder).keep(WORK)
    assert names(folder) == []
