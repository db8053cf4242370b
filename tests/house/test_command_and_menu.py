"""The command ``kneeline``, the menu entry and the file type: made on request, offered once."""

from __future__ import annotations

import configparser
import os
import pty
import subprocess
from pathlib import Path
from typing import NamedTuple
from xml.etree import ElementTree

import pytest
from checkouts import CLOSED, Checkout

from app.files.file_kinds import SUFFIX
from app.start.checkout import desktop

ASKED = "make the command kneeline and an entry in the desktop's menu? [y/N]"


class Places(NamedTuple):
    """A checkout, and where its command, its menu entry and its file type go."""

    checkout: Checkout
    command: Path
    entry: Path
    file_type: Path

    def start(self, *words: str, **settings: str) -> subprocess.CompletedProcess[str]:
        home = str(self.command.parents[2])
        return self.checkout.start(*words, **CLOSED, HOME=home, **settings)


@pytest.fixture
def places(checkout: Checkout, tmp_path: Path, user_folder: Path) -> Places:
    checkout.root = checkout.root.rename(tmp_path / 'Blå fjäll $1 `50 %` "x" \\\\')
    data = user_folder / "xdg_data_home"
    entry, file_type = data / "applications/kneeline.desktop", data / "mime/packages/kneeline.xml"
    return Places(checkout, tmp_path / "home" / ".local" / "bin" / "kneeline", entry, file_type)


def exec_words(entry: Path) -> list[str]:
    """The command of an entry, read by the rules of the Desktop Entry Specification 1.5.

    Strings first: two backslashes are one.  Then Exec: what is quoted as a shell does, and
    two percent signs are one.
    """
    parser = configparser.ConfigParser(interpolation=None)
    parser.read(entry, "utf-8")
    line = parser["Desktop Entry"]["Exec"].replace("\\\\", "\\")
    shell = ["/bin/sh", "-c", f"printf '%s\\n' {line}"]
    words = subprocess.run(shell, capture_output=True, encoding="utf-8", check=True).stdout
    return words.replace("%%", "%").splitlines()


def test_the_command_starts_the_checkout_from_anywhere(places: Places, tmp_path: Path) -> None:
    assert places.start("--install").returncode == 0
    around = tmp_path / "link to the link"
    around.symlink_to(os.path.relpath(places.command, tmp_path))
    for command in (places.command, around):
        answer = subprocess.run(
            [command, "rider.json"],
            cwd="/",
            env=places.checkout.machine(**CLOSED),
            capture_output=True,
            text=True,
            check=True,
        )
        assert answer.stdout.startswith("started rider.json\n")


def test_the_menu_entry_starts_the_checkout_with_the_file_that_was_dropped_on_it(
    places: Places,
) -> None:
    places.start("--install")
    *command, file = exec_words(places.entry)
    assert file == "%f"
    answer = subprocess.run(
        [*command, "a rider.json"],
        env=places.checkout.machine(**CLOSED),
        capture_output=True,
        text=True,
        check=True,
    )
    assert answer.stdout.startswith("started a rider.json\n")


def test_the_file_type_is_that_of_set_ups_and_the_entry_opens_it(places: Places) -> None:
    places.start("--install")
    described = ElementTree.parse(places.file_type).getroot()
    spaces = {"": "http://www.freedesktop.org/standards/shared-mime-info"}
    (kind,) = described.findall("mime-type", spaces)
    assert [each.get("pattern") for each in kind.findall("glob", spaces)] == [f"*{SUFFIX}"]
    assert f"MimeType={kind.get('type')};\n" in places.entry.read_text("utf-8")


def test_the_desktop_is_told_of_the_type_when_it_comes_and_when_it_goes(
    places: Places, tmp_path: Path
) -> None:
    tellers = [places.checkout.commands / f"update-{kind}-database" for kind in ("mime", "desktop")]
    for teller in tellers:
        teller.write_text(f'#!/bin/sh\necho "$0 $1" >>{tmp_path}/told\n')
        teller.chmod(0o755)
    places.start("--install")
    places.start("--uninstall")
    for teller in tellers:
        teller.unlink()
    folders = (places.file_type.parents[1], places.entry.parent)
    lines = [f"{teller} {folder}" for teller, folder in zip(tellers, folders, strict=True)]
    assert (tmp_path / "told").read_text().splitlines() == [*lines, *lines]


def test_what_hinders_a_start_from_the_menu_is_told_on_the_desktop(
    places: Places, tmp_path: Path
) -> None:
    places.start("--install")
    places.checkout.needs("newcomer")
    teller = places.checkout.commands / "notify-send"
    teller.write_text(f'#!/bin/sh\necho "$@" >>{tmp_path}/told\n')
    teller.chmod(0o755)
    *command, _ = exec_words(places.entry)
    answer = subprocess.run(command, env=places.checkout.machine(**CLOSED), check=False)
    teller.unlink()
    assert answer.returncode == 2
    assert "lacks what this version needs: newcomer" in (tmp_path / "told").read_text()


def test_whoever_installs_is_told_what_was_made_and_what_path_lacks(places: Places) -> None:
    told = places.start("--install").stderr
    assert f"made {places.command}\n" in told
    assert f"made {places.entry}\n" in told
    assert f"made {places.file_type}\n" in told
    assert f"add {places.command.parent} to PATH" in told


def test_installing_again_after_the_checkout_has_moved_mends_both(
    places: Places, tmp_path: Path
) -> None:
    places.start("--install")
    places.checkout.root = places.checkout.root.rename(tmp_path / "elsewhere")
    assert places.start("--install").returncode == 0
    assert places.command.resolve() == tmp_path / "elsewhere" / "app" / "start.sh"
    assert exec_words(places.entry)[3] == str(tmp_path / "elsewhere" / "app" / "start.sh")


def test_uninstalling_removes_all(places: Places) -> None:
    places.start("--install")
    assert places.start("--uninstall").returncode == 0
    assert not os.path.lexists(places.command)
    assert not places.entry.exists()
    assert not places.file_type.exists()


@pytest.mark.parametrize("which", ["command", "entry", "file_type"])
def test_what_others_put_there_is_neither_replaced_nor_removed(places: Places, which: str) -> None:
    foreign: Path = getattr(places, which)
    foreign.parent.mkdir(parents=True)
    foreign.write_text("another program")
    answer = places.start("--install")
    assert (answer.returncode, f"{foreign} is something else" in answer.stderr) == (2, True)
    places.start("--uninstall")
    assert foreign.read_text() == "another program"
    assert not (os.path.lexists(places.command) and places.entry.exists())


def test_without_a_terminal_the_command_that_installs_is_told_once(places: Places) -> None:
    (places.checkout.home / "offered").unlink()
    assert desktop.BY_HAND in places.start().stderr
    assert places.start().stderr == ""
    assert not os.path.lexists(places.command)


@pytest.mark.parametrize(("answer", "made"), [("y", True), ("", False), ("n", False)])
def test_at_a_terminal_one_is_asked_once(places: Places, answer: str, made: bool) -> None:
    (places.checkout.home / "offered").unlink()
    assert ASKED in at_a_terminal(places, f"{answer}\n")
    assert os.path.lexists(places.command) == places.entry.exists() == made
    assert ASKED not in at_a_terminal(places, "")


def at_a_terminal(places: Places, typed: str) -> str:
    """What a start at a terminal shows when this is typed."""
    ours, theirs = pty.openpty()
    os.write(ours, typed.encode())
    with subprocess.Popen(
        ["/bin/sh", places.checkout.root / "app" / "start.sh"],
        env=places.checkout.machine(**CLOSED, HOME=str(places.command.parents[2])),
        stdin=theirs,
        stdout=subprocess.DEVNULL,
        stderr=theirs,
        start_new_session=True,
    ):
        pass
    os.write(theirs, b"the end")
    os.close(theirs)
    shown = os.read(ours, 65536).decode()
    os.close(ours)
    return shown


def test_whoever_has_the_command_is_not_asked(places: Places) -> None:
    places.start("--install")
    (places.checkout.home / "offered").unlink()
    assert places.start().stderr == ""
