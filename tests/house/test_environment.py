"""The set-up that start.sh and run.sh share, with apt-get and pip played by the tests.

The real ones were tried in bare Debian 12 and 13 roots that held git and python3 only.
"""

from __future__ import annotations

import fcntl
import os
import subprocess
from pathlib import Path

import pytest

from app.start import display, environment
from app.start.environment import SetUpError, Stamp

ROOT = Path(__file__).parents[2]
NO_NETWORK = (
    "WARNING: Retrying (Retry(total=0)) after connection broken by 'NewConnectionError(': Failed "
    "to establish a new connection: [Errno -3] Temporary failure in name resolution')': /simple/\n"
    "ERROR: Could not find a version that satisfies the requirement hatchling>=1.25\n"
)
FULL_DISK = (
    "Collecting numpy\n"
    "ERROR: Could not install packages due to an OSError: [Errno 28] No space left on device\n"
    "\n"
    "[notice] A new release of pip is available\n"
)


@pytest.fixture
def machine(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """A machine with an empty checkout, on which nothing real is run; what was done, in order."""
    done: list[str] = []
    folder = tmp_path / "env"
    monkeypatch.setattr(environment, "ENVIRONMENT", folder)
    monkeypatch.setattr(environment, "STAMP", folder / "ready")
    monkeypatch.setattr(environment, "PYTHON", Path(os.devnull))
    monkeypatch.setattr(environment, "bring_system_packages", lambda: done.append("system"))
    monkeypatch.setattr(environment, "make_environment", lambda: done.append("empty"))
    monkeypatch.setattr(environment, "install_project", lambda extras: done.append(str(extras)))
    return done


def test_a_second_start_does_nothing(
    machine: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert environment.main([]) == environment.main([]) == 0
    assert machine == ["system", "empty", "()"]
    assert capsys.readouterr().err == ""


def test_an_environment_with_the_test_tools_serves_the_program_too(machine: list[str]) -> None:
    environment.main(["test"])
    environment.main([])
    assert machine == ["system", "empty", "('test',)"]


def test_the_test_tools_come_into_the_environment_that_is_there(machine: list[str]) -> None:
    environment.main([])
    environment.main(["test"])
    assert machine == ["system", "empty", "()", "system", "('test',)"]


def test_a_changed_declaration_is_installed_with_all_that_was_there(machine: list[str]) -> None:
    environment.main(["test"])
    stamp = environment.found_stamp()
    environment.STAMP.write_text("\n".join((stamp.place, "an older one", "test")))
    environment.main([])
    assert machine[3:] == ["system", "('test',)"]


def test_an_environment_of_another_folder_or_python_is_made_anew(machine: list[str]) -> None:
    environment.main([])
    stamp = environment.found_stamp()
    environment.STAMP.write_text("\n".join(("3.99 elsewhere", stamp.project, "")))
    environment.main([])
    assert machine[3:] == ["system", "empty", "()"]


def test_an_environment_whose_python_has_gone_is_not_ready(
    machine: list[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    environment.main([])
    monkeypatch.setattr(environment, "PYTHON", tmp_path / "gone")
    assert environment.found_stamp() == Stamp()


def test_a_start_that_was_cut_short_is_begun_again(
    machine: list[str], monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def cut_short(extras: object) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as patch:
        patch.setattr(environment, "install_project", cut_short)
        assert environment.main([]) == 130
    assert "begins again" in capsys.readouterr().err
    assert environment.main([]) == 0
    assert machine == ["system", "empty", "system", "empty", "()"]


def test_two_starts_do_not_set_up_at_once(
    machine: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def held(extras: object) -> None:
        other = os.open(environment.ENVIRONMENT, os.O_RDONLY)
        with pytest.raises(BlockingIOError):
            fcntl.flock(other, fcntl.LOCK_EX | fcntl.LOCK_NB)
        os.close(other)
        machine.append("held")

    monkeypatch.setattr(environment, "install_project", held)
    assert environment.main([]) == 0
    assert machine[-1] == "held"


def test_a_checkout_that_cannot_be_written_is_named(
    machine: list[str], monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(environment, "ENVIRONMENT", Path("/proc/kneeline-env"))
    assert environment.main([]) == 2
    assert "/proc/kneeline-env" in capsys.readouterr().err
    assert machine == []


@pytest.mark.parametrize(("tools", "start"), [({"apt-get", "sudo"}, "sudo "), ({"apt-get"}, "")])
def test_who_may_not_install_packages_is_told_the_line_to_run(
    tools: set[str], start: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(environment, "missing_packages", lambda: ["libegl1", "libgl1"])
    monkeypatch.setattr(environment, "root_prefix", lambda: None)
    monkeypatch.setattr("shutil.which", lambda name: name if name in tools else None)
    line = f"\n{start}apt-get update && {start}apt-get install libegl1 libgl1$"
    with pytest.raises(SetUpError, match=line):
        environment.bring_system_packages()


def test_a_system_without_apt_is_told_what_is_missing(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(environment, "missing_packages", lambda: ["libegl1"])
    monkeypatch.setattr("shutil.which", lambda name: None)
    with pytest.raises(SetUpError, match=r"counterparts of .* libegl1$"):
        environment.bring_system_packages()


def test_a_python_that_is_too_old_says_where_a_newer_one_comes_from(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("sys.version_info", (3, 10, 12, "final", 0))
    monkeypatch.setattr("shutil.which", lambda name: None)
    with pytest.raises(SetUpError, match=r"3\.10 is too old(.|\n)*install python3\.11 "):
        environment.go_on_with_newer_python()


def test_a_missing_network_is_said_in_words() -> None:
    assert "look at the network" in environment.why_not_installed(NO_NETWORK)


def test_any_other_failure_is_told_with_its_last_complaint() -> None:
    assert environment.why_not_installed(FULL_DISK).endswith("No space left on device")


def test_the_set_up_brings_every_library_that_the_program_asks_for() -> None:
    asked = display.QT_LIBRARIES | display.X11_LIBRARIES
    assert asked.items() <= environment.LIBRARIES.items()


def test_without_python3_one_line_says_so(tmp_path: Path) -> None:
    start = ["/bin/sh", str(ROOT / "app" / "start.sh")]
    answer = subprocess.run(
        start, env={"PATH": str(tmp_path)}, capture_output=True, text=True, check=False
    )
    assert answer.returncode == 2
    assert answer.stderr.startswith("kneeline: python3 is missing")
