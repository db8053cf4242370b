"""Every broken file is refused with the one sentence that helps.

The files stand in tests/cases/broken, their messages in messages.txt there.
"""

import os
import sys
from pathlib import Path

import pytest

from app.files.safe_files import LARGEST, FileError
from app.files.storage import opened

BROKEN = Path(__file__).parents[2] / "cases" / "broken"
MESSAGES = dict(
    line.split(": ", 1) for line in (BROKEN / "messages.txt").read_text("utf-8").splitlines()
)

posix_only = pytest.mark.skipif(sys.platform == "win32", reason="needs a Unix file system")


def refusal(path):
    with pytest.raises(FileError) as refused:
        opened(path)
    message = str(refused.value)
    assert message.isprintable()
    return message


def test_every_broken_file_has_its_message_and_every_message_its_file():
    assert set(MESSAGES) == {path.name for path in BROKEN.iterdir()} - {"messages.txt"}
    assert len(MESSAGES) >= 60


@pytest.mark.parametrize("name", sorted(MESSAGES))
def test_a_broken_file_is_refused_with_its_message(name):
    assert refusal(BROKEN / name) == f"cannot open {BROKEN / name}: {MESSAGES[name]}"


def test_a_file_that_is_not_there_is_said_not_to_be(tmp_path):
    assert refusal(tmp_path / "a.json").endswith("a.json: there is no such file")
    assert refusal(tmp_path / "none" / "a.json").endswith("there is no such file")


def test_a_folder_is_refused(tmp_path):
    assert refusal(tmp_path).endswith(": it is a folder")


@posix_only
def test_a_pipe_is_refused_without_waiting_for_anyone_to_write(tmp_path):
    os.mkfifo(tmp_path / "pipe.json")
    assert refusal(tmp_path / "pipe.json").endswith(": it is a pipe or a device, not a file")


@posix_only
def test_a_pipe_put_in_the_files_place_meanwhile_is_not_waited_for_either(tmp_path, monkeypatch):
    pipe = tmp_path / "pipe.json"
    os.mkfifo(pipe)
    plain, real = os.stat(__file__), os.stat

    def meanwhile(path, **how):
        return plain if path == pipe else real(path, **how)

    monkeypatch.setattr("app.files.safe_files.os.stat", meanwhile)
    assert refusal(pipe).endswith(": it is a pipe or a device, not a file")


@posix_only
def test_a_device_is_refused():
    assert refusal(Path("/dev/zero")).endswith(": it is a pipe or a device, not a file")


@posix_only
def test_a_link_in_a_circle_is_refused(tmp_path):
    (tmp_path / "a.json").symlink_to("a.json")
    assert "lead round in a circle" in refusal(tmp_path / "a.json")


def test_a_huge_file_is_refused(tmp_path):
    with open(tmp_path / "a.json", "wb") as file:
        file.truncate(LARGEST + 1)
    assert refusal(tmp_path / "a.json").endswith(": it is larger than 5 MB")


def test_a_file_that_may_not_be_read_is_refused(tmp_path, monkeypatch):
    (tmp_path / "a.json").write_text("{}")

    def forbidden(*_):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("app.files.safe_files.os.open", forbidden)
    assert refusal(tmp_path / "a.json").endswith(": you may not read it")


def test_a_name_that_no_file_can_have_is_refused_in_one_line():
    assert refusal(Path("a\0\n.json")).startswith(r"cannot open 'a\x00\n.json': ")
