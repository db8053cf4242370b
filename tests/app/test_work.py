"""The work in hand, its file and its history, without a window."""

import json
from dataclasses import replace
from pathlib import Path

import pytest

from app.files.file_kinds import SUFFIXES
from app.files.recovery import Unsaved
from app.files.safe_files import FileError, with_suffix
from app.files.storage import SCHEMA, Document, opened, save
from app.rider.setup import Setup
from app.session import Session
from app.work import Paper, Work, file_name_for, paper_of


@pytest.fixture
def work():
    return Work(Session())


@pytest.fixture
def anna(tmp_path):
    path = tmp_path / "anna.json"
    save(
        path, Document(Setup(name="Anna", notes="left knee first"), unknown_keys={"colour": "red"})
    )
    return path


def turn(work, degrees):
    work.session.edit(front_angle_deg=float(degrees))


def test_work_is_modified_while_it_differs_from_what_was_saved(work, tmp_path):
    assert not work.modified
    turn(work, 30)
    assert work.modified
    work.save(tmp_path / "a.json")
    assert not work.modified
    turn(work, 31)
    work.session.undo()
    assert not work.modified
    work.session.undo()
    assert work.modified


def test_opening_is_a_step_that_can_be_taken_back_with_its_file(work, anna, tmp_path):
    turn(work, 30)
    work.save(tmp_path / "first.json")
    turn(work, 31)
    work.open(anna, "Open anna.json")
    assert (work.title, work.modified) == ("anna.json", False)
    work.session.undo()
    assert (work.title, work.modified) == ("first.json", True)
    work.session.redo()
    assert work.document == opened(anna)


def test_a_file_that_cannot_be_opened_leaves_the_work_as_it_was(work, tmp_path):
    turn(work, 30)
    before = work.session.steps
    with pytest.raises(FileError, match="there is no such file"):
        work.open(tmp_path / "none.json", "Open")
    assert work.session.steps == before


def test_saving_keeps_notes_and_what_this_version_does_not_know(work, anna):
    work.open(anna, "Open")
    turn(work, 12)
    work.save(anna)
    raw = json.loads(anna.read_text("utf-8"))
    assert (raw["notes"], raw["colour"]) == ("left knee first", "red")
    assert raw["inputs"]["front_angle_deg"] == 12.0


def test_a_failed_save_leaves_the_work_in_hand_and_modified(work, tmp_path, monkeypatch):
    turn(work, 30)
    with pytest.raises(FileError, match="there is no such folder"):
        work.save(tmp_path / "gone" / "a.json")
    assert work.modified
    assert work.paper.path is None
    assert work.session.inputs.front_angle_deg == 30.0


def test_a_file_changed_meanwhile_is_noticed_by_its_bytes_not_its_date(work, anna):
    work.open(anna, "Open")
    anna.touch()
    assert not work.changed_on_disk
    save(anna, Document(Setup(name="Somebody else's")))
    assert work.changed_on_disk
    work.save(anna)
    assert not work.changed_on_disk


def test_a_file_that_is_gone_is_written_again(work, anna):
    work.open(anna, "Open")
    anna.unlink()
    assert not work.changed_on_disk
    work.save(anna)
    assert opened(anna).setup.name == "Anna"


def test_an_earlier_document_of_the_same_file_knows_what_it_holds_now(work, anna):
    work.open(anna, "Open")
    work.open(anna, "Open again")
    turn(work, 12)
    work.save(anna.parent / "." / "anna.json")
    work.session.go_to(1)
    assert work.modified
    assert not work.changed_on_disk


def test_a_newer_file_is_never_overwritten_but_a_copy_can_be_saved(work, anna):
    raw = json.loads(anna.read_text("utf-8")) | {"schema": SCHEMA + 1}
    anna.write_text(json.dumps(raw), "utf-8")
    before = anna.read_bytes()
    work.open(anna, "Open")
    turn(work, 12)
    with pytest.raises(FileError, match="save a copy instead"):
        work.save(anna)
    assert anna.read_bytes() == before
    work.save(anna.with_name("copy.json"))
    assert not work.read_only
    assert (work.title, work.modified) == ("copy.json", False)


def test_what_is_begun_from_a_file_does_not_belong_to_it(work, anna):
    work.begin_from(anna, "Start from Anna")
    assert work.paper.path is None
    assert not work.modified
    assert work.title == "Anna"


def test_recovered_work_is_modified_until_it_is_saved(work, anna):
    document = opened(anna)
    work.recover(Unsaved(document, anna, paper_of(anna).fingerprint), "Recovered")
    assert work.modified
    assert not work.changed_on_disk
    work.save(anna)
    assert not work.modified


def test_what_is_kept_is_the_latest_that_a_file_can_hold(work):
    assert work.unsaved is None
    turn(work, 30)
    work.session.edit(hip_height_mm=500.0, knee_height_mm=600.0)
    kept = work.unsaved
    assert kept is not None
    assert kept.document.setup.inputs.front_angle_deg == 30.0
    assert kept.document.setup.inputs.left.hip_height_mm == 880.0


def test_a_first_set_up_that_differs_from_its_file_is_modified(anna):
    paper = paper_of(anna)
    session = Session(replace(paper.document.setup, name="Changed on the command line"))
    assert Work(session, paper).modified
    assert not Work(session, Paper(Document(session.setup), session.setup)).modified


@pytest.mark.parametrize(
    ("name", "suggested"),
    [
        ("Anna", "Anna.kneeline"),
        ("a/b:c*?", "a b c.kneeline"),
        ("", "setup.kneeline"),
        ("Größe 3", "Größe 3.kneeline"),
        ("..", "setup.kneeline"),
        ("x" * 300, "x" * 60 + ".kneeline"),
    ],
)
def test_a_name_is_suggested_that_every_system_takes(name, suggested):
    assert file_name_for(Setup(name=name)) == suggested


@pytest.mark.parametrize("name", ["anna", "Anna S. 2", "anna.txt", "."])
def test_a_file_gets_the_ending_of_set_ups_and_loses_nothing(name):
    assert with_suffix(Path("/r") / f"a{name}", SUFFIXES) == Path(f"/r/a{name}.kneeline")


@pytest.mark.parametrize("name", ["b.kneeline", "b.JSON"])
def test_a_file_that_has_an_ending_of_set_ups_keeps_it(name):
    assert with_suffix(Path("/r") / name, SUFFIXES) == Path("/r") / name
