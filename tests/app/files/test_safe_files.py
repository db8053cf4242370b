"""A file is written whole, or the old one stays as it was."""

import errno
import os
import stat
import sys

import pytest

from app.files.resources import ASSETS
from app.files.safe_files import FileError, write_atomically
from app.words.language import speaking

OLD, NEW = b"old and whole", b"new " * 1000

posix_only = pytest.mark.skipif(sys.platform == "win32", reason="needs a Unix file system")


@pytest.fixture
def old(tmp_path):
    path = tmp_path / "a.json"
    path.write_bytes(OLD)
    return path


def refusal(path):
    """The message of a failed save that left the old file, and nothing beside it."""
    with pytest.raises(FileError) as refused:
        write_atomically(path, NEW)
    assert path.read_bytes() == OLD
    assert os.listdir(path.parent) == [path.name]
    return str(refused.value)


def failing(number):
    def fail(*_args, **_named):
        raise OSError(number, os.strerror(number))

    return fail


def test_a_file_is_made_and_made_anew(tmp_path):
    path = tmp_path / "a.json"
    for data in (OLD, NEW, b""):
        write_atomically(path, data)
        assert path.read_bytes() == data
    assert os.listdir(tmp_path) == ["a.json"]


@pytest.mark.parametrize("call", ["write", "fsync", "replace", "open"])
@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EIO, errno.EACCES, errno.EROFS])
def test_the_old_file_outlives_an_error_at_any_step(old, monkeypatch, call, number):
    monkeypatch.setattr(f"app.files.safe_files.os.{call}", failing(number))
    assert refusal(old).startswith(f"cannot save {old}: ")


ANSWERS = {
    errno.EDQUOT: "dein Anteil",
    errno.EISDIR: "Ordner",
    errno.ENAMETOOLONG: "zu lang",
    errno.ENOSPC: "voll",
    errno.EROFS: "nur gelesen",
}


@pytest.mark.parametrize("number", ANSWERS)
def test_what_the_disk_answers_is_said_in_the_language_of_the_program(old, monkeypatch, number):
    monkeypatch.setattr("app.files.safe_files.os.fsync", failing(number))
    english = refusal(old)
    assert os.strerror(number) not in english
    with speaking("de", ASSETS / "texts"):
        german = refusal(old)
    assert german != english
    assert english.startswith("cannot save ")
    assert os.strerror(number) not in german
    assert ANSWERS[number] in german


def test_an_answer_without_words_here_keeps_those_of_the_system(old, monkeypatch):
    monkeypatch.setattr("app.files.safe_files.os.fsync", failing(errno.EPROTO))
    assert refusal(old).endswith(f": the system refuses it ({os.strerror(errno.EPROTO)})")


def test_the_old_file_outlives_a_disk_that_fills_up_in_mid_write(old, monkeypatch):
    real, calls = os.write, []

    def half(descriptor, data):
        calls.append(len(data))
        if len(calls) > 1:
            raise OSError(errno.ENOSPC, "No space left on device")
        return real(descriptor, data[: len(data) // 2])

    monkeypatch.setattr("app.files.safe_files.os.write", half)
    assert refusal(old).endswith(": the disk is full")
    assert calls == [len(NEW), len(NEW) // 2]


def test_short_writes_are_continued(old, monkeypatch):
    real = os.write
    monkeypatch.setattr("app.files.safe_files.os.write", lambda fd, data: real(fd, data[:7]))
    write_atomically(old, NEW)
    assert old.read_bytes() == NEW


def test_a_disk_that_takes_nothing_is_not_asked_for_ever(old, monkeypatch):
    monkeypatch.setattr("app.files.safe_files.os.write", lambda *_: 0)
    assert refusal(old).endswith(": the disk takes no more")


def test_a_disk_that_loses_bytes_silently_is_found_out(old, monkeypatch):
    real = os.write
    monkeypatch.setattr(
        "app.files.safe_files.os.write", lambda fd, data: real(fd, bytes(len(data))) and len(data)
    )
    assert refusal(old).endswith(": the disk did not keep what was written")


@posix_only
def test_the_old_file_outlives_the_systems_own_limit_on_file_size(old):
    resource = pytest.importorskip("resource")
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (len(NEW) // 2, hard))
    try:
        message = refusal(old)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
    assert message.endswith(": the disk takes no file so large")


def test_an_interrupted_save_leaves_the_old_file(old, monkeypatch):
    def interrupted(_descriptor):
        raise KeyboardInterrupt

    monkeypatch.setattr("app.files.safe_files.os.fsync", interrupted)
    with pytest.raises(KeyboardInterrupt):
        write_atomically(old, NEW)
    assert old.read_bytes() == OLD
    assert os.listdir(old.parent) == ["a.json"]


def test_a_protected_file_is_not_replaced(old, monkeypatch):
    monkeypatch.setattr("app.files.safe_files.os.access", lambda *_: False)
    assert refusal(old).endswith(": it is protected against writing")


def test_a_folder_that_is_not_there_is_said_not_to_be(tmp_path):
    with pytest.raises(FileError, match="there is no such folder"):
        write_atomically(tmp_path / "none" / "a.json", NEW)


def test_a_folder_is_not_replaced_by_a_file(tmp_path):
    with pytest.raises(FileError, match="it is a folder"):
        write_atomically(tmp_path, NEW)


@posix_only
def test_a_pipe_is_not_replaced_by_a_file(tmp_path):
    os.mkfifo(tmp_path / "a.json")
    with pytest.raises(FileError, match="it is a pipe or a device"):
        write_atomically(tmp_path / "a.json", NEW)


@posix_only
def test_permissions_stay_and_new_files_follow_the_users_mask(old, tmp_path):
    old.chmod(0o640)
    write_atomically(old, NEW)
    assert stat.S_IMODE(old.stat().st_mode) == 0o640
    mask = os.umask(0o027)
    try:
        write_atomically(tmp_path / "b.json", NEW)
    finally:
        os.umask(mask)
    assert stat.S_IMODE((tmp_path / "b.json").stat().st_mode) == 0o640


@posix_only
def test_a_link_stays_a_link_and_its_file_is_replaced(old, tmp_path):
    link = tmp_path / "link.json"
    link.symlink_to(old.name)
    write_atomically(link, NEW)
    assert link.is_symlink()
    assert old.read_bytes() == NEW
