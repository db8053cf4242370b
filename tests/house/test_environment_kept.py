"""An environment that works is kept whatever happens: real Python, venv, pip and kill -9.

Tried by hand with the real packages besides, see the README's table.
"""

from __future__ import annotations

import os
import signal
import subprocess
from pathlib import Path

import pytest
from checkouts import CLOSED, Checkout, SilentIndex, add_package, end


def started(answer: subprocess.CompletedProcess[str], *words: str) -> bool:
    """Whether the program started with these words and nothing else was said."""
    return (answer.returncode, answer.stderr) == (0, "") and answer.stdout.startswith(
        " ".join(("started", *words)) + "\n"
    )


def test_the_first_start_makes_an_environment_and_starts_the_program_in_it(
    first_start: tuple[Checkout, str, str],
) -> None:
    checkout, out, err = first_start
    assert out.startswith("started rider.json --numbers\n")
    assert "some minutes" in err
    assert checkout.environments() == ["1"]
    assert {path.name for path in checkout.home.iterdir()} >= {"current", "install.log"}


def test_a_second_start_says_nothing_and_changes_nothing(checkout: Checkout) -> None:
    before = {path: path.stat().st_mtime_ns for path in checkout.home.rglob("*")}
    assert started(checkout.start("a b", "*", **CLOSED), "a b", "*")
    assert {path: path.stat().st_mtime_ns for path in checkout.home.rglob("*")} == before


def test_the_program_s_exit_code_is_that_of_the_start(checkout: Checkout) -> None:
    assert checkout.start("fail").returncode == 7


def test_what_does_not_concern_packages_asks_for_no_network(checkout: Checkout) -> None:
    checkout.declare("line-length = 100", "line-length = 99")
    checkout.declare('    "pytest>=8",', '    "pytest>=99",')
    assert started(checkout.start(**CLOSED))


def test_a_requirement_that_is_met_already_asks_for_no_network(checkout: Checkout) -> None:
    checkout.declare("numpy>=1.26", "numpy>=1.2")
    assert started(checkout.start(**CLOSED))
    assert checkout.environments() == ["1"]


def test_without_the_network_what_is_lacking_is_named_and_the_old_environment_kept(
    checkout: Checkout,
) -> None:
    checkout.needs("newcomer>=2")
    checkout.declare("ezdxf>=1.3", "ezdxf>=1.4")
    answer = checkout.start(**CLOSED)
    assert answer.returncode == 2
    assert "look at the network" in answer.stderr
    assert "newcomer>=2, ezdxf>=1.4 (1.3 is installed)" in answer.stderr
    checkout.declare('    "newcomer>=2",\n    "ezdxf>=1.4', '    "ezdxf>=1.3')
    assert started(checkout.start(**CLOSED))
    assert checkout.environments() == ["1"]


def test_only_what_is_lacking_is_fetched(checkout: Checkout, tmp_path: Path) -> None:
    checkout.needs("newcomer")
    checkout.index = tmp_path / "one"
    checkout.index.mkdir()
    add_package(checkout.index, "newcomer")
    answer = checkout.start()
    assert answer.stdout.startswith("started\n")
    assert checkout.environments() == ["2"]
    assert checkout.has("newcomer")
    assert checkout.has("numpy")


def test_a_start_that_is_interrupted_leaves_all_as_it_was(checkout: Checkout) -> None:
    checkout.needs("newcomer")
    with SilentIndex() as index:
        process = checkout.popen(**index.settings)
        index.take_a_call()
        code, err = end(process, signal.SIGINT)
    assert code == 130
    assert "interrupted" in err
    assert checkout.environments() == ["1"]


def test_after_a_start_that_was_killed_the_next_one_makes_all_whole(checkout: Checkout) -> None:
    checkout.needs("newcomer")
    with SilentIndex() as index:
        process = checkout.popen(**index.settings)
        index.take_a_call()
        os.killpg(process.pid, signal.SIGKILL)
        process.communicate()
    assert checkout.environments() == ["1", "2"]
    add_package(checkout.index, "newcomer")
    assert checkout.start().stdout.startswith("started\n")
    assert len(checkout.environments()) == 1
    assert checkout.has("newcomer")


def test_what_a_killed_start_began_is_waited_for(checkout: Checkout) -> None:
    checkout.needs("newcomer")
    with SilentIndex() as index:
        process = checkout.popen(**index.settings)
        index.take_a_call()
        process.kill()
        process.wait()
        follower = checkout.popen(**CLOSED)
        assert follower.stderr
        assert "another start is setting up" in follower.stderr.readline()
        index.hang_up()
    follower.communicate(timeout=60)
    process.communicate()
    assert follower.returncode == 2
    assert checkout.environments() == ["1"]


def test_two_starts_at_once_make_one_environment(checkout: Checkout) -> None:
    checkout.needs("newcomer")
    add_package(checkout.index, "newcomer")
    pair = [checkout.popen(str(number)) for number in (1, 2)]
    answers = [process.communicate(timeout=60) for process in pair]
    assert [out.splitlines()[0] for out, _ in answers] == ["started 1", "started 2"]
    assert sum("bringing" in err for _, err in answers) == 1
    assert checkout.environments() == ["2"]


def test_an_environment_in_which_a_program_runs_is_removed_after_its_end(
    checkout: Checkout,
) -> None:
    running = checkout.popen("wait")
    assert running.stdout
    assert running.stdout.readline() == "started wait\n"
    checkout.needs("newcomer")
    add_package(checkout.index, "newcomer")
    assert checkout.start().returncode == 0
    assert checkout.environments() == ["1", "2"]
    running.communicate()
    assert started(checkout.start(**CLOSED))
    assert checkout.environments() == ["2"]


def test_a_copy_runs_its_own_program_and_so_does_the_original(
    checkout: Checkout, tmp_path: Path
) -> None:
    copy = checkout.copied(tmp_path / "copy")
    for each in (copy, checkout):
        answer = each.start(**CLOSED)
        assert started(answer)
        assert Path(answer.stdout.splitlines()[1]) == each.root / "app" / "__main__.py"


@pytest.mark.parametrize("locale", ["POSIX", "C.UTF-8"])
def test_a_folder_moved_to_a_name_beyond_ascii_goes_on_without_the_network(
    checkout: Checkout, tmp_path: Path, locale: str
) -> None:
    checkout.root = checkout.root.rename(tmp_path / "Blå fjäll, 雪")
    assert started(checkout.start(**CLOSED, LC_ALL=locale))


def test_an_environment_whose_python_has_gone_is_made_anew(checkout: Checkout) -> None:
    python = checkout.home / "1" / "bin" / "python"
    python.unlink()
    python.symlink_to("/nowhere/python3")
    assert checkout.start().stdout.startswith("started\n")
    assert checkout.environments() == ["2"]


def test_an_environment_that_is_damaged_is_not_handed_on(checkout: Checkout) -> None:
    (module,) = checkout.home.glob("1/lib/*/site-packages/numpy.py")
    module.unlink()
    checkout.needs("newcomer")
    add_package(checkout.index, "newcomer")
    assert checkout.start().stdout.startswith("started\n")
    assert checkout.has("numpy")
    assert checkout.has("newcomer")


def test_an_environment_that_an_earlier_version_made_is_taken_over(checkout: Checkout) -> None:
    for path in (checkout.home / "1").iterdir():
        path.rename(checkout.home / path.name)
    (checkout.home / "1").rmdir()
    (checkout.home / "current").unlink()
    (checkout.home / "ready").write_text("3.11 /usr /elsewhere\ndigest\n")
    (site,) = checkout.home.glob("lib/*/site-packages")
    (site / "kneeline.pth").unlink()
    (site / "_editable_impl_kneeline.pth").write_text("/somewhere else, Höhe", "utf-8")
    assert started(checkout.start(**CLOSED, LC_ALL="POSIX"))
    assert checkout.current()["name"] == "."
