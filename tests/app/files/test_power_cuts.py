"""Whatever moment the power goes in, what was saved or kept is there, old or new and whole."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from itertools import count
from pathlib import Path
from shutil import rmtree

import pytest
from power_cuts import Recorder, lay_out

from app.files.recovery import Recovery, Unsaved
from app.files.safe_files import FileError
from app.files.storage import Document, opened, save
from app.rider.setup import Setup
from app.session import Session
from app.work import Work

pytestmark = pytest.mark.skipif(os.name != "posix", reason="plays a Unix file system")

OLD, NEW = Setup(name="Old"), Setup(name="New")


@pytest.fixture
def disk(tmp_path: Path) -> Path:
    folder = tmp_path / "disk"
    folder.mkdir()
    return folder


@pytest.fixture
def recorded(disk: Path) -> Recorder:
    return Recorder(disk)


@pytest.fixture
def after_each_cut(recorded: Recorder, tmp_path: Path) -> Callable[[], Iterator]:
    """The promises given before each cut, and the folder as it is found after it."""

    def cuts() -> Iterator[tuple[list[str], Path]]:
        number = count()
        for promised, state in recorded.cuts():
            found = tmp_path / f"cut-{next(number)}"
            found.mkdir()
            lay_out(state, found)
            yield promised, found
            rmtree(found)
        # A recording of nothing would prove nothing.
        assert next(number) > 10

    return cuts


def name_in(path: Path) -> str | None:
    """The name of the set-up in a file that is whole; None where there is no file."""
    return opened(path).setup.name if path.exists() else None


def kept_in(folder: Path) -> set[str]:
    """The names of the set-ups that a program which starts now is offered."""
    recovery, names = Recovery(folder / "state" / "recovery"), set()
    recovery.tidy()
    for left in recovery.left_behind():
        names.add(left.unsaved.document.setup.name)
        left.lock.release()
    # What is there and is not offered is broken.
    assert len(names) == len(list((folder / "state" / "recovery").glob("*.json")))
    return names


def working_on(setup: Setup) -> Work:
    work = Work(Session())
    work.session.take("Edit", setup)
    return work


def test_a_save_over_a_file_leaves_the_old_one_or_the_new_one_under_each_name(
    disk, recorded, after_each_cut
):
    save(disk / "a.json", Document(OLD))
    os.link(disk / "a.json", disk / "b.json")
    work = working_on(NEW)
    with recorded.recording():
        work.save(disk / "a.json")
        recorded.mark("saved")
    for promised, found in after_each_cut():
        for name in ("a.json", "b.json"):
            assert name_in(found / name) in ({"New"} if promised else {"Old", "New"})


def test_a_save_under_a_new_name_leaves_nothing_or_the_whole(disk, recorded, after_each_cut):
    work = working_on(NEW)
    with recorded.recording():
        work.save(disk / "a.json", over="")
        recorded.mark("saved")
    for promised, found in after_each_cut():
        assert name_in(found / "a.json") in ({"New"} if promised else {None, "New"})


def test_work_that_is_kept_outlasts_a_cut_from_the_first_copy_to_the_save(
    disk, recorded, after_each_cut
):
    recovery = Recovery(disk / "state" / "recovery")
    with recorded.recording():
        recovery.keep(Unsaved(Document(OLD)))
        recorded.mark("kept Old")
        recovery.keep(Unsaved(Document(NEW)))
        recorded.mark("kept New")
        working_on(NEW).save(disk / "a.json", over="")
        recorded.mark("saved New")
        recovery.forget()
        recorded.mark("forgotten")
    allowed = [{"Old", None}, {"Old", "New"}, {"New"}, {"New"}, {"New"}]
    for promised, found in after_each_cut():
        kept, saved = kept_in(found), name_in(found / "a.json")
        assert {*kept, saved} - {None} <= allowed[len(promised)] - {None}
        if None not in allowed[len(promised)]:
            assert kept or saved


@pytest.mark.parametrize("gone", ["*.json", "*.lock", "*"])
def test_work_that_a_cleaner_took_is_kept_again_before_the_rest_of_it_goes(
    disk, after_each_cut, recorded, gone
):
    recovery = Recovery(disk / "state" / "recovery")
    with recorded.recording():
        recovery.keep(Unsaved(Document(OLD)))
        recorded.mark("kept Old")
        for path in (disk / "state" / "recovery").glob(gone):
            path.unlink()
        recovery.keep(Unsaved(Document(NEW)))
        recorded.mark("kept New")
    for promised, found in after_each_cut():
        kept = kept_in(found)
        assert kept <= {"Old", "New"}
        assert "New" in kept or len(promised) < 2
        assert kept or not promised or gone != "*.lock"
    recovery.forget()


@pytest.mark.parametrize("forgotten", ["file", "folder"])
def test_the_replay_finds_a_save_that_forces_too_little_to_the_disk(
    disk, recorded, after_each_cut, monkeypatch, forgotten
):
    work = working_on(NEW)
    with recorded.recording():
        monkeypatch.setattr(os, "fsync", forgetful_over(os.fsync, forgotten))
        work.save(disk / "a.json")
        recorded.mark("saved")
    broken = lost = 0
    for promised, found in after_each_cut():
        try:
            lost += name_in(found / "a.json") is None and bool(promised)
        except FileError:
            broken += 1
    assert (broken > 0) is (forgotten == "file")
    assert (lost > 0) is (forgotten == "folder")


def forgetful_over(real: Callable[[int], None], forgotten: str) -> Callable[[int], None]:
    def forgetful(descriptor: int) -> None:
        folder = os.path.isdir(os.readlink(f"/proc/self/fd/{descriptor}"))
        if folder is not (forgotten == "folder"):
            real(descriptor)

    return forgetful
