"""What the README tells to type runs, and what it says of the numbers is so."""

from __future__ import annotations

import io
import json
import os
import re
import shlex
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from app.__main__ import main
from app.features.clip.painting import HEIGHT, WIDTH
from app.files.resources import SHARED
from app.numbers import numbers
from app.numbers.question import CHOICES, NUMBERS, SECTIONS, USUAL_GROUPS, Question
from app.rider.setup import Setup
from app.start.commands import understood

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text("utf-8")
CHAPTER = README.split("## Command line\n")[1].split("\n## ")[0]
COMMANDS = re.findall(r"^    kneeline (.*?)(?:  .*)?$", CHAPTER, re.MULTILINE)
FILES = {
    "rider.kneeline": "hard-boots.json",
    "last-winter.kneeline": "neutral.json",
    "parts.json": "parts-round-wedges.json",
    "other-board.kneeline": "soft-boots-duck.json",
}
"""What the README calls a rider's own files, and what stands in for them."""


@pytest.fixture
def at_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with the files that the README speaks of."""
    for name, source in FILES.items():
        shutil.copy(SHARED / source, tmp_path / name)
    (tmp_path / "riders").mkdir()
    for name in ("monoski.json", "in-line.json", "parts-none.json"):
        shutil.copy(SHARED / name, tmp_path / "riders" / name)
    monkeypatch.chdir(tmp_path)
    return tmp_path


def typed(command: str) -> list[str]:
    """What the program gets of a command, a redirection being the shell's."""
    return shlex.split(re.split(" [<>] ", command)[0])


def printed(capsys: pytest.CaptureFixture[str], command: str) -> str:
    assert main(typed(command)) == 0
    out, err = capsys.readouterr()
    assert err == ""
    return out


def test_the_readme_has_a_command_of_every_kind() -> None:
    wanted = (
        *("--numbers", "--parts", "--with", "--ask", "--last-season", "--also"),
        *("--snapshot", "--set", "--save", "--sheet", "--wedge", "--only", "- --", "riders/"),
        *("--handout", "--clip", "--over", "--seconds", "--web", "--lesson"),
    )
    assert all(any(option in command for command in COMMANDS) for option in wanted)


PICTURES = [
    *re.findall(r"!\[(?P<alt>.*?)\]\((?P<file>.*?)\)", README),
    *((alt, file) for file, alt in re.findall(r'<img src="(.*?)".*? alt="(.*?)">', README)),
]


def test_every_picture_is_there_and_is_told_to_those_who_do_not_see_it() -> None:
    named = {file for _, file in PICTURES}
    there = {str(path.relative_to(ROOT)) for path in (ROOT / "assets").glob("screenshot-*")}
    assert named == there
    assert all(len(alt) > 30 for alt, _ in PICTURES)


def test_one_picture_moves_and_is_a_small_clip_of_ours_and_one_is_of_a_phone() -> None:
    (clip,) = (ROOT / "assets").glob("screenshot-*.gif")
    assert clip.stat().st_size <= 1_500_000
    with Image.open(clip) as moving:
        assert (moving.n_frames, moving.size) == (70, (WIDTH, HEIGHT))
    with Image.open(ROOT / "assets" / "screenshot-phone.png") as phone:
        assert phone.size == (2 * 390, 2 * 844)


NUMBERS_OF_ONE = [each for each in COMMANDS if re.match("(- |rider.kneeline )?--numbers", each)]
NUMBERS_OF_MORE = [each for each in COMMANDS if "--numbers" in each and each not in NUMBERS_OF_ONE]
WRITES = "--(sheet|wedge|save|web|handout|clip) "
FILES_WRITTEN = [each for each in COMMANDS if re.search(WRITES, each)]


@pytest.mark.parametrize("command", NUMBERS_OF_ONE)
def test_every_command_for_numbers_prints_them_and_what_it_asks_for(
    at_home: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
    command: str,
) -> None:
    rider = io.BytesIO((at_home / "rider.kneeline").read_bytes())
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(rider))
    told = json.loads(printed(capsys, command))
    assert understood(typed(command)).sections == set(told) & set(SECTIONS)
    assert ("--parts" in command) == (told["parts"]["reason"] is None)
    assert ("--last-season" in command) == (told["growth"]["last_season"] is not None)


@pytest.mark.parametrize("command", NUMBERS_OF_MORE)
def test_every_command_for_several_files_prints_a_line_for_each(
    at_home: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
    command: str,
) -> None:
    # In this process, which has loaded all that is needed.
    monkeypatch.setattr("app.start.several.cores", lambda: 1)
    told = [json.loads(line) for line in printed(capsys, command).splitlines()]
    of_folder = [str(Path("riders", name)) for name in ("in-line.json", "monoski.json")]
    expected = of_folder if "riders/" in command else ["rider.kneeline", "other-board.kneeline"]
    assert [each["file"] for each in told] == expected
    groups = understood(typed(command)).only or {*USUAL_GROUPS}
    assert all(set(each) == {"file", *groups} for each in told)


@pytest.mark.parametrize("command", FILES_WRITTEN)
def test_every_command_that_writes_writes_its_files(
    at_home: Path, capsys: pytest.CaptureFixture[str], command: str
) -> None:
    # Of a rider who has put nothing on, a wedge is a flat plate, which is remarked on.
    put_on = " --set front_lift_deg=3 --set rear_cant_deg=2" * ("--wedge" in command)
    assert printed(capsys, command + put_on) == ""
    for paths in understood(typed(command)).outputs.values():
        assert all((at_home / path).stat().st_size > 1000 for path in paths)


def test_the_command_for_help_prints_it(capsys: pytest.CaptureFixture[str]) -> None:
    assert "--help" in COMMANDS
    assert printed(capsys, "--help").startswith("usage: kneeline")


def test_the_command_for_a_picture_writes_it_without_a_screen(at_home: Path) -> None:
    (command,) = (each for each in COMMANDS if "--snapshot" in each)
    hidden = {"DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"}
    bare = {name: value for name, value in os.environ.items() if name not in hidden}
    python = [sys.executable, "-m", "app", *shlex.split(command)]
    subprocess.run(python, env={**bare, "PYTHONPATH": str(ROOT)}, check=True, timeout=60)
    assert (at_home / "rider.png").read_bytes().startswith(b"\x89PNG")


def test_every_other_command_opens_a_window(at_home: Path) -> None:
    others = [
        each
        for each in COMMANDS
        if not {"--numbers", "--snapshot", "--help"} & {*each.split()} and each not in FILES_WRITTEN
    ]
    assert others == ["rider.kneeline"]
    assert understood(shlex.split(others[0])).wants_window


def test_the_example_is_what_is_printed(at_home: Path, capsys: pytest.CaptureFixture[str]) -> None:
    command, example = CHAPTER.split("`kneeline ")[-1].split("`", 1)
    lines = [line.strip() for line in example.splitlines() if line.startswith("    ")]
    out = [line.strip() for line in printed(capsys, command).splitlines()]
    parts = iter(out[out.index('"combinations": [') :])
    assert len(lines) > 5
    assert all(line in parts for line in lines if line != "…")


def test_the_table_of_groups_names_each_group_and_nothing_else() -> None:
    rows = re.findall(r"^\| (`[^|]*) \|", CHAPTER, re.MULTILINE)
    named = [name for row in rows for name in re.findall(r"`(\w+)`", row)]
    told = numbers(Setup(), Question(frozenset(SECTIONS)))
    assert set(named) == set(told)
    assert len(named) == len(told)


def test_the_words_and_names_that_the_table_tells_to_ask_are_understood() -> None:
    asked = re.findall(r"(\w+)=([\w.]+)", " ".join(re.findall(r"`([^`]*)`", CHAPTER)))
    for name, value in ((name, value) for name, value in asked if name in {*CHOICES, *NUMBERS}):
        command: Any = understood(["--numbers", "--ask", f"{name}={value}"])
        assert name in command.asked
    assert {name for name, _ in asked} <= {*CHOICES, *NUMBERS}
