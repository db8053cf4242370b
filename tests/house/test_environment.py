"""The door of the set-up, and the packages of the system, with apt-get played by the tests.

The real apt-get was tried in bare Debian 12 and 13 roots that held git and python3 only.
"""

from __future__ import annotations

import ast
import os
import subprocess
import sys
from pathlib import Path

import pytest
from checkouts import CLOSED, Checkout

from app.start import display
from app.start.checkout import system_packages
from app.start.checkout.words import SetUpError

ROOT = Path(__file__).parents[2]
DOOR = ROOT / "app" / "start" / "environment.py"
OLD_PYTHON = """#!/bin/sh
# Is asked as python3 is, and runs the file it is given as Python 3.4.2 would.
shift
exec {python} -I -c '
import runpy, sys
sys.argv.pop(0)
sys.version_info = (3, 4, 2, "final", 0)
runpy.run_path(sys.argv[0], run_name="__main__")
' "$@"
"""
NEWER_PYTHON = """#!/bin/sh
case $2 in -c) exit {code} ;; esac
echo newer "$@"
"""


def script(path: Path, text: str) -> None:
    path.unlink(missing_ok=True)
    path.write_text(text)
    path.chmod(0o755)


@pytest.fixture
def old(checkout: Checkout, tmp_path: Path) -> Checkout:
    """A checkout on a machine whose python3 is too old."""
    checkout.commands = tmp_path / "bin"
    checkout.commands.mkdir()
    script(checkout.commands / "python3", OLD_PYTHON.format(python=sys.executable))
    for name in ("readlink", "dirname"):
        (checkout.commands / name).symlink_to(f"/usr/bin/{name}")
    return checkout


def test_the_door_can_be_read_by_a_python_that_is_far_too_old() -> None:
    tree = ast.parse(DOOR.read_text("utf-8"), feature_version=(3, 4))
    newer = (ast.JoinedStr, ast.AnnAssign, ast.NamedExpr)
    assert not [node for node in ast.walk(tree) if isinstance(node, newer)]
    imported = [node.module for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)]
    assert imported == ["app.start.checkout.starting"]


def test_a_python_that_is_too_old_says_where_a_newer_one_comes_from(old: Checkout) -> None:
    answer = old.start(PATH=str(old.commands))
    assert answer.returncode == 2
    assert answer.stderr.startswith("kneeline: Python 3.4 is too old: 3.11 or newer is needed")
    assert "install python3.11 " in answer.stderr


def test_a_newer_python_beside_it_goes_on(old: Checkout) -> None:
    script(old.commands / "python3.13", NEWER_PYTHON.format(code=1))
    script(old.commands / "python3.12", NEWER_PYTHON.format(code=0))
    answer = old.start("a b", PATH=str(old.commands))
    door = old.root / "app" / "start" / "environment.py"
    assert answer.stdout == f"newer -I {door} run a b\n"


def test_without_python3_one_line_says_so(tmp_path: Path) -> None:
    start = ["/bin/sh", str(ROOT / "app" / "start.sh")]
    answer = subprocess.run(
        start, env={"PATH": str(tmp_path)}, capture_output=True, text=True, check=False
    )
    assert answer.returncode == 2
    assert answer.stderr.startswith("kneeline: python3 is missing")


def test_the_interpreter_is_told_to_the_scripts_that_test(checkout: Checkout) -> None:
    door = checkout.root / "app" / "start" / "environment.py"
    command = [sys.executable, "-I", str(door), "python"]
    answer = subprocess.run(
        command, env=checkout.machine(**CLOSED), capture_output=True, check=True
    )
    assert Path(os.fsdecode(answer.stdout.strip())) == checkout.home / "1" / "bin" / "python"


@pytest.mark.parametrize("name", ["app/start.sh", "tests/run.sh", "tests/texts.sh", ".ci/run"])
def test_each_script_can_be_executed(name: str) -> None:
    assert os.access(ROOT / name, os.X_OK)


@pytest.mark.parametrize(("tools", "start"), [({"apt-get", "sudo"}, "sudo "), ({"apt-get"}, "")])
def test_who_may_not_install_packages_is_told_the_line_to_run(
    tools: set[str], start: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(system_packages, "missing_packages", lambda _more: ["libegl1", "libgl1"])
    monkeypatch.setattr(system_packages, "root_prefix", lambda: None)
    monkeypatch.setattr("shutil.which", lambda name: name if name in tools else None)
    line = f"\n{start}apt-get update && {start}apt-get install libegl1 libgl1$"
    with pytest.raises(SetUpError, match=line):
        system_packages.bring_system_packages()


def test_a_system_without_apt_is_told_what_is_missing(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(system_packages, "missing_packages", lambda _more: ["libegl1"])
    monkeypatch.setattr("shutil.which", lambda name: None)
    with pytest.raises(SetUpError, match=r"counterparts of .* libegl1$"):
        system_packages.bring_system_packages()


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere Qt brings its libraries along")
def test_a_library_that_cannot_be_loaded_is_missed(monkeypatch: pytest.MonkeyPatch) -> None:
    libraries = {**display.QT_LIBRARIES, "libnone-such.so.9": "libnone-such9"}
    monkeypatch.setattr(system_packages, "LIBRARIES", libraries)
    assert system_packages.missing_packages() == ["libnone-such9"]
