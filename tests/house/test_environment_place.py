"""Where an environment goes, how much room it wants, and what a start says of both."""

from __future__ import annotations

import errno
import os
import pty
import subprocess
import sys
from pathlib import Path

import pytest
from checkouts import CLOSED, Checkout, bare_checkout

from app.start.checkout import environments, making, words

ROOT = Path(__file__).parents[2]
PLAN = environments.Environment(ROOT, "1", "", (), frozenset())


@pytest.fixture
def shut(checkout: Checkout, user_folder: Path) -> tuple[Checkout, Path]:
    """A checkout whose own home cannot be written, and the one in the user's cache.

    There is an environment in the cache already, so that nothing has to be made.  The link
    goes where nobody may write, the one who runs everything included.
    """
    checkout.root = checkout.root.rename(checkout.root.with_name("Blå 雪"))
    shown = f"import sys; sys.path.insert(0, {str(checkout.root)!r}); "
    question = shown + "from app.start.checkout.environments import spare_home; print(spare_home())"
    answer = subprocess.run([sys.executable, "-c", question], capture_output=True, check=True)
    spare = Path(os.fsdecode(answer.stdout.strip()))
    spare.parent.mkdir(parents=True)
    checkout.home.rename(spare)
    text = (spare / "current").read_text().replace("numpy>=1.26", "numpy")
    (spare / "current").write_text(text)
    checkout.home.symlink_to("/proc/kneeline-env")
    return checkout, spare


@pytest.mark.parametrize("locale", ["POSIX", "C.UTF-8"])
def test_beside_a_checkout_that_cannot_be_written_the_user_s_cache_is_used(
    shut: tuple[Checkout, Path], user_folder: Path, locale: str
) -> None:
    checkout, spare = shut
    assert spare.is_relative_to(user_folder / "xdg_cache_home" / "kneeline")
    first, second = (checkout.start(**CLOSED, LC_ALL=locale) for _ in range(2))
    assert first.stdout.startswith("started\n")
    assert "cannot be written" in first.stderr
    assert (second.stdout, second.stderr) == (first.stdout, "")
    assert Path(second.stdout.splitlines()[1]) == checkout.root / "app" / "__main__.py"


def test_where_neither_can_be_written_both_are_named(shut: tuple[Checkout, Path]) -> None:
    checkout, _ = shut
    answer = checkout.start(**CLOSED, XDG_CACHE_HOME="/proc/kneeline")
    assert answer.returncode == 2
    assert str(checkout.home) in answer.stderr
    assert "/proc/kneeline/kneeline/environments/" in answer.stderr


def test_a_disk_without_room_is_told_before_anything_is_made(tmp_path: Path) -> None:
    checkout = bare_checkout(tmp_path)
    file = checkout.root / "app" / "start" / "checkout" / "making.py"
    file.write_text(file.read_text("utf-8").replace("ROOM_MB, ROOM_WITH", "_, ROOM_WITH", 1))
    with file.open("a") as end:
        end.write("\nROOM_MB = 10**9\n")
    answer = checkout.start()
    assert answer.returncode == 2
    assert f"{checkout.home} has " in answer.stderr
    assert "takes about 1000000000 MB" in answer.stderr
    assert checkout.environments() == []


def test_a_disk_that_fills_meanwhile_is_told_with_its_place_and_what_is_needed(
    tmp_path: Path,
) -> None:
    full = OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), str(tmp_path / "any file"))
    sentence = making.reason_of(full, PLAN._replace(home=tmp_path))
    assert f"{tmp_path} has " in sentence
    assert f"about {making.ROOM_MB} MB" in sentence


def test_what_the_system_refuses_otherwise_is_told_with_the_file(tmp_path: Path) -> None:
    refused = PermissionError(errno.EACCES, "Permission denied", str(tmp_path))
    assert making.reason_of(refused, PLAN) == f"{tmp_path}: Permission denied"


def test_a_damaged_declaration_is_told(checkout: Checkout) -> None:
    checkout.declare("[project]", "<<<<<<< HEAD\n[project]")
    answer = checkout.start(**CLOSED)
    assert answer.returncode == 2
    assert f"{checkout.root / 'pyproject.toml'} is damaged" in answer.stderr


@pytest.mark.parametrize("damage", ["", "{", "[]", '{"name": "1"}', "\udcff"])
def test_a_damaged_note_of_what_is_in_force_counts_as_none(tmp_path: Path, damage: str) -> None:
    (tmp_path / "current").write_bytes(os.fsencode(damage))
    assert environments.current_in(tmp_path) is None


def test_what_an_earlier_version_left_goes_when_a_new_environment_is_in_force(
    tmp_path: Path,
) -> None:
    for name in ("bin", "lib", "1", "2"):
        (tmp_path / name).mkdir()
    for name in ("pyvenv.cfg", "ready", "current", "lock"):
        (tmp_path / name).touch()
    (tmp_path / "lib64").symlink_to("lib")
    kept = environments.Environment(tmp_path, "2", "", (), frozenset())
    environments.remove_others(tmp_path, kept)
    assert {path.name for path in tmp_path.iterdir()} == {"2", "current", "lock"}


def test_a_line_on_the_terminal_moves_while_one_waits(tmp_path: Path) -> None:
    (tmp_path / "half a package").write_bytes(bytes(3_000_000))
    code = (
        "from pathlib import Path; from app.start.checkout.running import run; import sys; "
        "run(['sh', '-c', 'echo Collecting; sleep 1.3'], filling=Path(sys.argv[1]))"
    )
    ours, theirs = pty.openpty()
    command = [sys.executable, "-c", code, str(tmp_path)]
    with subprocess.Popen(command, cwd=ROOT, stderr=theirs) as process:
        os.close(theirs)
        process.wait()
    *shown, last = os.read(ours, 65536).decode().split("\r\033[K")
    os.close(ours)
    lines = {line for line in shown if line.endswith(", 3 MB  Collecting")}
    assert lines >= {"0:00, 3 MB  Collecting"}
    assert len(lines) >= 2
    assert last == ""


NO_NETWORK = (
    "WARNING: Retrying (Retry(total=0)) after connection broken by 'NewConnectionError(': Failed "
    "to establish a new connection: [Errno -3] Temporary failure in name resolution')': /simple/\n"
    "ERROR: Could not find a version that satisfies the requirement hatchling>=1.25\n"
)
BROKEN_ARCHIVE = (
    "Collecting numpy\n"
    "ERROR: Wheel 'numpy' located at /tmp/numpy.whl is invalid.\n"
    "\n"
    "[notice] A new release of pip is available\n"
)


def test_a_missing_network_is_said_in_words() -> None:
    assert "look at the network" in words.why_not_installed(NO_NETWORK)


def test_any_other_failure_is_told_with_its_last_complaint() -> None:
    assert words.why_not_installed(BROKEN_ARCHIVE).endswith("/tmp/numpy.whl is invalid.")
