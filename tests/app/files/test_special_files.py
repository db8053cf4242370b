"""Pipes, devices and odd times where files are expected: told in words, and never waited for."""

import os
import sys
import time
from pathlib import Path

import pytest

from app.__main__ import main
from app.features.riders.model import rider_in
from app.files.parts_file import parts_opened
from app.files.recovery import Recovery, Unsaved
from app.files.safe_files import ABANDONED_AFTER, FileError, contents, sweep
from app.files.settings import Settings, SettingsStore, read_settings
from app.files.storage import Document, opened
from app.files.user_folders import recovery_folder, settings_file, users_folder
from app.rider.setup import Setup
from app.stance.findings import USUAL_LIMITS
from app.words.sentences import day_and_time
from app.work import paper_of

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="needs pipes with a name")

BEYOND_9999 = 300_000_000_000.0
"""Seconds since 1970."""


@pytest.fixture
def pipe(tmp_path):
    path = tmp_path / "pipe.json"
    os.mkfifo(path)
    return path


@pytest.mark.parametrize("read", [opened, parts_opened, paper_of, contents])
def test_a_pipe_is_refused_at_once_wherever_a_file_is_opened(pipe, read):
    with pytest.raises(FileError, match="it is a pipe or a device, not a file"):
        read(pipe)


@pytest.mark.parametrize(
    "arguments",
    [
        ["{pipe}", "--numbers"],
        ["--numbers", "--parts", "{pipe}"],
        ["--numbers", "--last-season", "{pipe}"],
        ["--numbers", "--also", "{pipe}"],
        ["{pipe}", "--snapshot", "{pipe}.png"],
    ],
)
def test_a_pipe_is_refused_at_once_on_the_command_line(pipe, capsys, arguments):
    assert main([each.format(pipe=pipe) for each in arguments]) == 2
    printed = capsys.readouterr()
    assert "it is a pipe or a device, not a file" in printed.err
    assert printed.err.count("\n") == 1


def test_a_pipe_in_a_folder_of_riders_is_not_readable_and_says_why(pipe):
    assert "it is a pipe or a device" in rider_in(pipe, USUAL_LIMITS).problem


def test_a_pipe_in_place_of_the_settings_counts_as_none_and_is_kept(pipe):
    assert read_settings(pipe) == Settings()
    SettingsStore(pipe).change(unit="in")
    assert pipe.is_fifo()


@pytest.mark.parametrize("ending", [".json", ".lock"])
def test_a_pipe_among_what_was_left_behind_is_passed_over(tmp_path, ending):
    mine = Recovery(tmp_path)
    mine.keep(Unsaved(Document(Setup(name="Anna"))))
    mine._lock.release()
    os.mkfifo(tmp_path / f"pipe{ending}")
    if ending == ".lock":
        (tmp_path / "pipe.json").write_text("{}")
    Recovery(tmp_path).tidy()
    found = list(Recovery(tmp_path).left_behind())
    for left in found:
        left.lock.release()
    assert [left.unsaved.document.setup.name for left in found] == ["Anna"]


def test_a_file_with_nothing_to_read_yet_is_said_to_have_nothing(tmp_path, monkeypatch):
    # As files of the system do that are plain by their kind only.
    class Waiting:
        def read(self, _most):
            return None

        def __enter__(self):
            return self

        def __exit__(self, *_error):
            pass

    (tmp_path / "a").touch()
    monkeypatch.setattr("builtins.open", lambda *_args: Waiting())
    with pytest.raises(FileError, match="there is nothing to read in it now"):
        contents(tmp_path / "a")


def test_a_user_whom_the_system_does_not_know_has_the_root_for_a_home(monkeypatch):
    for name in ("HOME", "XDG_CONFIG_HOME", "XDG_STATE_HOME"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr("os.path.expanduser", lambda path: path)  # as it does for such a user
    assert settings_file() == Path("/.config/kneeline/settings.json")
    assert recovery_folder() == Path("/.local/state/kneeline/recovery")
    assert users_folder().is_dir()


@pytest.mark.parametrize("seconds", [BEYOND_9999, -BEYOND_9999, 1e300, float("nan")])
def test_a_time_that_no_calendar_has_is_said_to_be_unknown(seconds):
    assert day_and_time(seconds) == "an unknown time"


@pytest.mark.parametrize(("age", "swept"), [(-2.0, True), (2.0, True), (-0.5, False), (0.5, False)])
def test_what_a_killed_save_left_goes_however_its_clock_was_set(tmp_path, age, swept):
    part = tmp_path / f".kneeline-{'0' * 16}.part"
    part.touch()
    when = time.time() - age * ABANDONED_AFTER
    os.utime(part, (when, when))
    sweep(tmp_path)
    assert part.exists() is not swept
