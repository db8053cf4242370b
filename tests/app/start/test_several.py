"""Several set-ups at once: a line for each, in their order, whatever happens to one of them."""

from __future__ import annotations

import io
import json
import os
import pickle
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest

from app.__main__ import main
from app.files.storage import SCHEMA, Document, bytes_of, save
from app.numbers import numbers
from app.numbers.question import Question
from app.rider.setup import Setup, edited
from app.start import several
from app.start.helpers import Helpers
from app.start.reading import Changes, Source

ROOT = Path(__file__).parents[3]
UNIX = pytest.mark.skipif(sys.platform == "win32", reason="needs Unix signals")
RIDERS = [edited(Setup(name=f"Rider {i}"), knee_bend_deg=30.0 + 2 * i) for i in range(5)]


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with some riders in it, from where the program is started."""
    (tmp_path / "riders").mkdir()
    for i, setup in enumerate(RIDERS):
        save(tmp_path / "riders" / f"r{i}.json", Document(setup))
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def alone(monkeypatch: pytest.MonkeyPatch) -> None:
    """Everything in this process, as on one core."""
    monkeypatch.setattr(several, "cores", lambda: 1)


def lines(capsys: pytest.CaptureFixture[str], *arguments: str, code: int = 0) -> list[Any]:
    assert main(["--numbers", "--only", "pelvis", *arguments]) == code
    return [json.loads(line) for line in capsys.readouterr().out.splitlines()]


def test_processes_tell_what_one_alone_tells_in_the_order_given(
    folder: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(several, "cores", lambda: 2)
    files = [f"riders/r{i}.json" for i in (3, 0, 4, 1, 2)]
    told = lines(capsys, *files)
    assert [each["file"] for each in told] == [str(Path(file)) for file in files]
    expected = numbers(RIDERS[3], Question(only=frozenset({"pelvis"})))
    assert {**told[0]} == {"file": str(Path(files[0])), **expected}
    monkeypatch.setattr(several, "cores", lambda: 1)
    assert lines(capsys, *files) == told


def test_a_file_that_cannot_be_read_costs_its_own_line_and_code_1(
    folder: Path, alone: None, capsys: pytest.CaptureFixture[str]
) -> None:
    Path("broken.json").write_text("{")
    told = lines(capsys, "riders/r0.json", "broken.json", "none.json", "riders/r1.json", code=1)
    assert [sorted(each) for each in told[::3]] == [["file", "pelvis"]] * 2
    assert told[1]["error"].startswith("cannot open broken.json: ")
    assert told[2]["error"] == "cannot open none.json: there is no such file"


def test_how_many_failed_is_said_beside_the_lines(
    folder: Path, alone: None, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["--numbers", "--only", "pelvis", "none.json", "riders/r0.json"]) == 1
    assert capsys.readouterr().err == "kneeline: 1 file has no results; see error there\n"


def test_a_fault_of_the_program_costs_one_line_too(
    folder: Path, alone: None, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def numbers_but_for_one(setup: Setup, question: Question) -> dict[str, Any]:
        if setup.name == "Rider 1":
            raise KeyError("x")
        return {}

    monkeypatch.setattr("app.numbers.numbers", numbers_but_for_one)
    told = lines(capsys, "riders", code=1)
    assert [sorted(each) for each in told].count(["file"]) == len(RIDERS) - 1
    assert told[1]["error"].endswith("should be reported: KeyError: 'x'")


def test_a_folder_stands_for_its_set_ups_and_other_files_of_ours_are_passed_over(
    folder: Path, alone: None, capsys: pytest.CaptureFixture[str]
) -> None:
    (folder / "riders" / "parts.json").write_text('{"schema": 1, "name": "", "parts": []}')
    (folder / "riders" / "broken.json").write_text("{")
    told = lines(capsys, "riders", code=1)
    files = [Path(each["file"]).name for each in told]
    assert files == ["broken.json", *(f"r{i}.json" for i in range(5))]
    # Named by itself it is a mistake, and the line says where it belongs.
    (line,) = lines(capsys, "--lines", "riders/parts.json", code=1)
    assert line["error"].endswith(f"build from it with --parts {Path('riders/parts.json')}")


def test_a_folder_of_other_files_only_is_a_mistake(
    folder: Path, alone: None, capsys: pytest.CaptureFixture[str]
) -> None:
    (folder / "lists").mkdir()
    (folder / "lists" / "parts.json").write_text('{"schema": 1, "name": "", "parts": []}')
    assert lines(capsys, "lists", code=2) == []


def test_changes_and_parts_are_those_of_every_file(
    folder: Path, alone: None, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["riders", "--numbers", "--only", "inputs", "--set", "knee_bend_deg=41"]) == 0
    told = [json.loads(line) for line in capsys.readouterr().out.splitlines()]
    assert {each["inputs"]["knee_bend_deg"] for each in told} == {41.0}


def test_a_remark_names_the_file_that_it_is_about(
    folder: Path, alone: None, capsys: pytest.CaptureFixture[str]
) -> None:
    newer = json.loads(bytes_of(Document(RIDERS[0]))) | {"schema": SCHEMA + 1}
    Path("newer.json").write_text(json.dumps(newer))
    save(Path("own.json"), Document(edited(Setup(), knee_height_mm=444.0)))
    known = ["--set", "stature_mm=1700"]
    assert main(["newer.json", "own.json", "--numbers", "--only", "pelvis", *known]) == 0
    said = capsys.readouterr().err.splitlines()
    assert said[0].startswith("kneeline: newer.json was made by a newer version")
    assert said[1] == "kneeline: own.json: stays as it was measured: knee height"


@pytest.mark.parametrize("arguments", [["riders/r0.json"], ["-"], []])
def test_lines_are_told_of_a_single_file_too_where_they_are_asked_for(
    folder: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
    arguments: list[str],
) -> None:
    data = io.BytesIO(bytes_of(Document(RIDERS[0])))
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(data))
    (told,) = lines(capsys, "--lines", *arguments)
    assert told["file"] == (str(Path(arguments[0])) if arguments else None)
    (one,) = lines(capsys, "--lines", "riders/r0.json")
    assert (told["pelvis"] == one["pelvis"]) == bool(arguments)


@pytest.mark.skipif(sys.platform != "linux", reason="needs file names of any bytes")
def test_a_file_name_that_is_no_text_is_found_again(
    folder: Path, alone: None, capsys: pytest.CaptureFixture[str]
) -> None:
    name = os.fsdecode(b"\xffrider.json")
    save(Path(name), Document(RIDERS[0]))
    (told,) = lines(capsys, "--lines", name)
    assert told["file"] == name


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (["riders"], "a window opens on one FILE, and here are several; --numbers tells of them"),
        (["riders", "--sheet", "a.pdf"], "--sheet writes of one FILE, and here are several"),
        (["riders", "--numbers", "--last-season", "x.json"], "--last-season is of one rider"),
        (["riders", "--numbers", "--also", "x.json"], "--also is about the parts of one FILE"),
        (["riders", "--numbers", "--parts", "none.json"], "cannot open none.json: there is no"),
        (["empty", "--numbers"], "there is no set-up in the folder empty"),
        (["-", "-", "--numbers"], "standard input can be read once only; give - once"),
    ],
)
def test_what_several_files_cannot_have_is_refused_in_one_line(
    folder: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
    arguments: list[str],
    message: str,
) -> None:
    (folder / "empty").mkdir()
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(b"")))
    assert main(arguments) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith(f"kneeline: {message}")
    assert err.count("\n") == 1


def started(folder: Path, *arguments: str) -> subprocess.Popen[bytes]:
    """The program with processes beside it, in a group of its own."""
    many = ["riders"] * 40
    return subprocess.Popen(
        [sys.executable, "-m", "app", *many, "--numbers", "--only", "front", *arguments],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        start_new_session=True,
    )


def group_is_gone(group: int) -> bool:
    """Whether every process of a group ends soon."""
    until = time.monotonic() + 20.0
    while time.monotonic() < until:
        try:
            os.killpg(group, 0)
        except ProcessLookupError:
            return True
        time.sleep(0.02)
    return False


@UNIX
@pytest.mark.parametrize("end", ["interrupted", "reader gone", "killed"])
def test_however_it_ends_nothing_is_said_and_no_process_is_left(folder: Path, end: str) -> None:
    program = started(folder)
    assert program.stdout is not None
    assert json.loads(program.stdout.readline())["front"]
    if end == "interrupted":
        os.killpg(program.pid, signal.SIGINT)
    elif end == "reader gone":
        program.stdout.close()
        program.stdout = None
    else:
        program.kill()
    _, err = program.communicate(timeout=30)
    assert program.returncode == {"interrupted": 130, "reader gone": 0, "killed": -9}[end]
    assert err == b""
    assert group_is_gone(program.pid)


def killed_by_two(task: list[int], thing: int) -> int:
    """Stands for work for which there is not enough memory."""
    if thing == 2:
        os._exit(9)
    return thing * task[0]


def test_a_process_that_is_killed_costs_one_result() -> None:
    with Helpers(2, killed_by_two, [10]) as helpers:
        assert list(helpers.done(range(5), lambda thing: -thing)) == [0, 10, -2, 30, 40]


def test_a_source_whose_process_was_killed_has_a_line_that_says_so() -> None:
    line = several._given_up(Source(Path("a.json")))
    assert json.loads(line.text)["file"] == "a.json"
    assert "want of memory" in json.loads(line.text)["error"]
    assert line.failed


def test_a_task_can_be_sent_to_another_process() -> None:
    task = several.Task(Changes({"knee_bend_deg": 40.0}), Question(only=frozenset({"front"})))
    assert pickle.loads(pickle.dumps(task)) == task
