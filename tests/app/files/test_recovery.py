"""Work left by a program that was killed is offered once, and never that of one that runs."""

import json
import os
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from app.files import recovery
from app.files.recovery import Recovery, Unsaved
from app.files.safe_files import LARGEST, FileError
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
    monkeypatch.setattr(recovery, "hold", no_locks)
    with pytest.raises(FileError, match="no file can be locked there"):
        Recovery(folder).keep(WORK)
    assert names(folder) == []


def rights(folder):
    return {stat.S_IMODE(path.stat().st_mode) for path in folder.iterdir()}


@pytest.mark.skipif(sys.platform == "win32", reason="needs Unix permissions")
@pytest.mark.parametrize("mask", [0o000, 0o022, 0o077])
def test_only_its_owner_can_look_at_what_is_kept(folder, mask):
    before = os.umask(mask)
    try:
        crashed(folder)
    finally:
        os.umask(before)
    assert stat.S_IMODE(folder.stat().st_mode) == 0o700
    assert rights(folder) == {0o600}


@pytest.mark.skipif(sys.platform == "win32", reason="needs Unix permissions")
def test_what_an_earlier_version_left_open_to_all_is_closed(folder):
    crashed(folder)
    folder.chmod(0o755)
    for path in folder.iterdir():
        path.chmod(0o644)
    Recovery(folder).tidy()
    assert stat.S_IMODE(folder.stat().st_mode) == 0o700
    assert rights(folder) == {0o600}
    folder.chmod(0o755)
    crashed(folder)
    assert stat.S_IMODE(folder.stat().st_mode) == 0o700


def test_the_largest_work_that_a_file_can_hold_and_some_more_is_kept_and_comes_back(folder):
    for size in (LARGEST - 5_000, LARGEST, LARGEST + 2_000_000):
        work = Unsaved(Document(Setup(notes="n" * size)), Path("/riders/" + "long" * 500), "f")
        crashed(folder, work)
        assert found(folder) == [work]
        for path in folder.iterdir():
            path.unlink()


def test_work_that_could_not_come_back_is_told_and_what_was_kept_stays(folder, mine):
    mine.keep(WORK)
    huge = Unsaved(Document(Setup(notes="n" * 3 * LARGEST)))
    with pytest.raises(FileError, match=r"unsaved work cannot be kept: .* larger than 10 MB"):
        mine.keep(huge)
    mine._lock.release()
    assert found(folder) == [WORK]


def test_a_copy_without_its_lock_stays_until_there_is_another(folder, mine, monkeypatch):
    mine.keep(WORK)
    (lock,) = folder.glob("*.lock")
    lock.unlink()
    later = Unsaved(Document(Setup(name="Later")))
    with monkeypatch.context() as patch:
        patch.setattr(recovery, "write_atomically", full)
        for _ in range(2):
            with pytest.raises(FileError):
                mine.keep(later)
    assert found(folder) == [WORK]
    mine.keep(later)
    assert found(folder) == []
    assert names(folder).count(".json") == 1
    mine.forget()
    assert ".json" not in names(folder)


def test_a_copy_that_goes_as_soon_as_it_is_written_does_not_count_as_standing(
    folder, mine, monkeypatch
):
    real = recovery.write_atomically

    def gone_at_once(path, *args, **named):
        real(path, *args, **named)
        path.unlink()

    with monkeypatch.context() as patch:
        patch.setattr(recovery, "write_atomically", gone_at_once)
        mine.keep(WORK)
    assert not mine.stands
    mine.keep(WORK)
    assert mine.stands


def full(*_args, **_named):
    raise FileError("the disk takes no more")


def test_work_with_many_unknown_keys_is_kept_whole(folder):
    later = {f"k{i}": [[i]] for i in range(40_000)}
    crashed(folder, Unsaved(Document(Setup(), unknown_keys={"later": later})))
    (work,) = found(folder)
    assert (work.document.unknown_keys["later"] == later) is True  # an answer, not its picture
