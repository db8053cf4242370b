"""What somebody else wrote meanwhile is never replaced unasked, however close the two come."""

from __future__ import annotations

import errno
import os
import subprocess
import sys
from pathlib import Path

import pytest

from app.files import file_locks, safe_files
from app.files.safe_files import (
    ChangedError,
    FileError,
    fingerprint_at,
    fingerprint_of,
    write_atomically,
)

fcntl = pytest.importorskip("fcntl")
ROOT = Path(__file__).parents[3]
TIMES = 40


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs a Unix system")
@pytest.mark.parametrize("file", ["old", "new"])
def test_of_three_that_save_at_the_same_instant_one_saves_and_two_are_asked(tmp_path, file):
    path = tmp_path / "a.json"
    script = ROOT / "tests" / "helpers" / "rival_saves.py"
    done = subprocess.run(
        [sys.executable, script, path, str(TIMES), file],
        env={**os.environ, "PYTHONPATH": str(ROOT)}, capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert int(done.stdout) == TIMES
    assert os.listdir(tmp_path) == ["a.json"]


def test_what_another_program_wrote_is_told_and_stays(tmp_path):
    path = tmp_path / "a.json"
    path.write_bytes(b"theirs")
    for over in ("", fingerprint_of(b"mine")):
        with pytest.raises(ChangedError, match="another program wrote it meanwhile") as changed:
            write_atomically(path, b"new", over=over)
        assert changed.value.found == fingerprint_of(b"theirs")
        assert path.read_bytes() == b"theirs"
        assert os.listdir(tmp_path) == ["a.json"]
    write_atomically(path, b"new", over=fingerprint_of(b"theirs"))
    assert path.read_bytes() == b"new"


@pytest.mark.parametrize("over", ["", fingerprint_of(b"mine"), None])
def test_a_file_that_has_gone_is_written_again(tmp_path, over):
    write_atomically(tmp_path / "a.json", b"new", over=over)
    assert (tmp_path / "a.json").read_bytes() == b"new"
    assert os.listdir(tmp_path) == ["a.json"]


def test_a_name_that_is_taken_just_before_a_new_file_gets_it_is_left(tmp_path, monkeypatch):
    path, real = tmp_path / "a.json", os.link

    def beaten(part, target):
        path.write_bytes(b"theirs")
        real(part, target)

    monkeypatch.setattr("app.files.safe_files.os.link", beaten)
    with pytest.raises(ChangedError) as changed:
        write_atomically(path, b"new", over="")
    assert changed.value.found == fingerprint_of(b"theirs")
    assert os.listdir(tmp_path) == ["a.json"]


def test_a_new_file_that_comes_between_two_looks_is_left(tmp_path, monkeypatch):
    path, real = tmp_path / "a.json", safe_files.fingerprint_at
    looks = []

    def seen_too_early(target):
        looks.append(real(target))
        if len(looks) == 1:
            path.write_bytes(b"theirs")
        return looks[-1]

    monkeypatch.setattr(safe_files, "fingerprint_at", seen_too_early)
    with pytest.raises(ChangedError):
        write_atomically(path, b"new", over="")
    assert path.read_bytes() == b"theirs"


def test_a_disk_without_hard_links_takes_new_files_all_the_same(tmp_path, monkeypatch):
    def none(*_):
        raise OSError(errno.EPERM, "Operation not permitted")

    monkeypatch.setattr("app.files.safe_files.os.link", none)
    write_atomically(tmp_path / "a.json", b"new", over="")
    assert (tmp_path / "a.json").read_bytes() == b"new"


def test_a_file_that_another_program_holds_for_long_is_told_and_stays(tmp_path, monkeypatch):
    monkeypatch.setattr(file_locks, "LONGEST_WAIT_S", 0.05)
    path = tmp_path / "a.json"
    path.write_bytes(b"old")
    with path.open("rb") as theirs:
        fcntl.flock(theirs, fcntl.LOCK_EX)
        with pytest.raises(FileError, match="another program is writing it just now; try again"):
            write_atomically(path, b"new")
    assert path.read_bytes() == b"old"
    assert os.listdir(tmp_path) == ["a.json"]
    write_atomically(path, b"new")


def test_a_disk_that_knows_no_locks_is_written_all_the_same(tmp_path, monkeypatch):
    def none(_descriptor):
        raise OSError(errno.ENOLCK, "No locks available")

    monkeypatch.setattr(file_locks, "hold", none)
    path = tmp_path / "a.json"
    path.write_bytes(b"old")
    write_atomically(path, b"new", over=fingerprint_of(b"old"))
    with pytest.raises(ChangedError):
        write_atomically(path, b"newer", over=fingerprint_of(b"old"))


def test_what_is_no_file_or_cannot_be_read_has_no_fingerprint(tmp_path, monkeypatch):
    os.mkfifo(tmp_path / "pipe")
    assert fingerprint_at(tmp_path / "pipe") is None
    assert fingerprint_at(tmp_path) is None
    assert fingerprint_at(tmp_path / "none") == ""
