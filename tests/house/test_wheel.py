"""The wheel, built as pip builds it and run from where it was unpacked."""

from __future__ import annotations

import configparser
import json
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def unpacked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder that holds what the wheel would install."""
    folder = tmp_path_factory.mktemp("wheel")
    build = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)]
    subprocess.run(build, cwd=ROOT, check=True, capture_output=True)
    (wheel,) = folder.glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(folder / "site")
    return folder / "site"


@pytest.mark.parametrize("folder", ["assets", "shared"])
def test_the_wheel_brings_every_file_that_comes_with_the_program(
    folder: str, unpacked: Path
) -> None:
    files = {path for path in (ROOT / folder).rglob("*") if path.is_file()}
    there = {path.relative_to(ROOT) for path in files if not path.match("screenshot-*")}
    brought = {path.relative_to(unpacked / "app") for path in (unpacked / "app").rglob("*")}
    assert there
    assert there <= brought


def test_the_wheel_leaves_out_what_only_a_checkout_can_use(unpacked: Path) -> None:
    start = ("app/start.sh", "app/start/environment.py", "app/start/checkout")
    left_out = (*start, "app/package.sh", "app/start/standalone", "tests")
    assert all((ROOT / name).exists() and not (unpacked / name).exists() for name in left_out)


def test_the_wheel_leaves_out_the_pictures_of_the_readme(unpacked: Path) -> None:
    assert list((ROOT / "assets").glob("screenshot-*.gif"))
    assert not list(unpacked.rglob("screenshot-*"))


def test_the_wheel_has_a_command_for_the_console_and_one_without(unpacked: Path) -> None:
    (file,) = unpacked.glob("*.dist-info/entry_points.txt")
    ways = configparser.ConfigParser()
    ways.read_string(file.read_text("utf-8"))
    assert dict(ways["console_scripts"]) == {"kneeline": "app.__main__:main"}
    assert dict(ways["gui_scripts"]) == {"kneeline-window": "app.__main__:main"}


def test_the_unpacked_wheel_opens_a_set_up_of_its_own(unpacked: Path) -> None:
    setup = unpacked / "app" / "shared" / "hard-boots.json"
    command = [sys.executable, "-m", "app", str(setup), "--numbers"]
    answer = subprocess.run(command, cwd=unpacked, check=True, capture_output=True, text=True)
    assert {"front", "rear"} <= json.loads(answer.stdout).keys()


def test_the_unpacked_wheel_finds_its_own_assets(unpacked: Path) -> None:
    question = "from app.files.resources import ASSETS; print(ASSETS)"
    command = [sys.executable, "-c", question]
    answer = subprocess.run(command, cwd=unpacked, check=True, capture_output=True, text=True)
    assert Path(answer.stdout.strip()) == unpacked / "app" / "assets"
