"""Lessons as files: read strictly, written whole, nothing lost, never taken for something else."""

from __future__ import annotations

import json
from copy import deepcopy
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from app.files.lesson_file import LessonDocument, lesson_in, lesson_opened, save_lesson
from app.files.parts_file import parts_in
from app.files.resources import SHARED, lessons
from app.files.safe_files import FileError, RefusalError
from app.files.storage import Document, bytes_of, document_in
from app.rider.lessons import Lesson, Step, Text, recorded
from app.rider.setup import Setup


def raw(path: Path) -> dict[str, Any]:
    whole: dict[str, Any] = json.loads(path.read_text("utf-8"))
    return whole


def read(whole: dict[str, Any]) -> LessonDocument:
    return lesson_in(json.dumps(whole).encode())


@pytest.mark.parametrize("path", lessons(), ids=lambda path: path.stem)
def test_a_lesson_of_ours_stands_in_its_file_as_the_program_writes_it(
    path: Path, tmp_path: Path
) -> None:
    save_lesson(tmp_path / "again.json", lesson_opened(path))
    assert (tmp_path / "again.json").read_bytes() == path.read_bytes()


def test_every_file_of_a_lesson_is_offered() -> None:
    assert {*(SHARED / "lessons").glob("*.json")} == {*lessons()}


def test_unknown_keys_are_kept_at_every_level(tmp_path: Path) -> None:
    whole = raw(lessons()[0])
    asked = next(step for step in whole["steps"] if "options" in step.get("question", {}))
    places = [
        whole,
        whole["inputs"],
        whole["inputs"]["left"],
        asked,
        asked["question"],
        asked["question"]["options"][1],
        asked["cases"][1],
    ]
    for number, place in enumerate(places):
        place["of tomorrow"] = {"number": number}
    whole["title"]["xx"] = "words of a language to come"
    save_lesson(tmp_path / "kept.json", read(whole))
    assert raw(tmp_path / "kept.json") == whole


@pytest.mark.parametrize("path", lessons()[:1], ids=["one"])
def test_a_set_up_carries_a_lesson_and_loses_none_of_it(path: Path) -> None:
    lesson = lesson_opened(path).lesson
    whole = json.loads(bytes_of(Document(Setup(lesson=lesson))))
    whole["lesson"]["of tomorrow"] = 1
    document = document_in(json.dumps(whole).encode())
    assert document.setup.lesson == lesson
    assert json.loads(bytes_of(document)) == whole
    assert json.loads(bytes_of(Document(Setup())))["lesson"] == {}


CASES = {
    "a text that is a number": ("title", 7, "title is 7; it must be text in quotes"),
    "a step that is no group": ("steps.0", 7, "steps.1 is 7; it must be a group of values"),
    "steps that are no list": ("steps", {}, "steps is {}; it must be a list"),
    "an input that there is not": ("steps.2.set", {"wings": 1}, "names wings, which is no input"),
    "a value out of range": ("steps.2.set", {"stance_length_mm": 9000}, "between 0 and 800"),
    "a kind that there is not": ("steps.2.question.kind", "essay", "one of choice, slider, knee"),
    "no answers": ("steps.2.question.options", None, "steps.3.question.options is null"),
    "a quantity that there is not": (
        "steps.2.question.options.0.when.0.0",
        "then.happiness",
        '"then.happiness"; that is no quantity of a stance',
    ),
    "a state that there is not": (
        "steps.2.question.options.0.when.0.0",
        "now.front_knee",
        "no quantity of a stance",
    ),
    "a sign that there is not": (
        "steps.2.question.options.0.when.0.1",
        "≈",
        "it must be one of <, <=, =, >=, >",
    ),
    "a condition of two": (
        "steps.2.question.options.0.when.0",
        ["then.front_knee", "<"],
        "a row of quantity, sign",
    ),
    "a slider without ends": (
        "steps.3.question.high",
        100.0,
        "low and high must lie in the range of stance_length_mm",
    ),
    "a state that no rider can be in": (
        "steps.2.set",
        {"hip_height_mm": 400.0},
        "steps.3: knee height is 478 mm; it must be less",
    ),
    "a slider on whose way no rider is possible": (
        "steps.3.question",
        {
            "kind": "slider",
            "ask": "?",
            "inputs": ["hip_height_mm"],
            "low": 400.0,
            "high": 900.0,
            "until": [],
        },
        "steps.4: knee height is 478 mm; it must be less",
    ),
    "a leg that there is not": ("steps.2.question.leg", "middle", "one of front, rear"),
    "a look that there is not": ("steps.2.look", "behind", "one of"),
}


@pytest.mark.parametrize("case", CASES, ids=str)
def test_what_is_wrong_is_named_with_its_place(case: str) -> None:
    path, value, said = CASES[case]
    whole = raw(lessons()[0])
    *way, last = (int(key) if key.isdigit() else key for key in path.split("."))
    there: Any = whole
    for key in way:
        there = there[key]
    there[last] = value
    with pytest.raises(RefusalError) as caught:
        read(whole)
    assert said in str(caught.value)
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize("key", ["inputs", "steps", "schema"])
def test_a_lesson_without_what_it_cannot_do_without_is_refused(key: str) -> None:
    whole = raw(lessons()[0])
    del whole[key]
    with pytest.raises(RefusalError):
        read(whole)


def test_each_kind_of_file_says_where_the_other_opens() -> None:
    lesson, setup = lessons()[0].read_bytes(), (SHARED / "hard-boots.json").read_bytes()
    parts = (SHARED / "parts-round-wedges.json").read_bytes()
    for opens, data, said in (
        (document_in, lesson, "open it on the page Lessons"),
        (parts_in, lesson, "open it on the page Lessons"),
        (lesson_in, setup, "it is a set-up, not a lesson"),
        (lesson_in, parts, "it is a parts list, not a lesson"),
    ):
        with pytest.raises(RefusalError, match=said):
            opens(data)


def test_a_file_of_a_newer_version_is_read_but_not_written_over(tmp_path: Path) -> None:
    whole = deepcopy(raw(lessons()[0])) | {"schema": 9}
    document = read(whole)
    assert document.lesson == lesson_opened(lessons()[0]).lesson
    target = tmp_path / "there.json"
    target.write_text("before")
    with pytest.raises(FileError, match="newer version"):
        save_lesson(target, document)
    assert target.read_text() == "before"


def test_a_recorded_lesson_with_any_text_comes_back_letter_for_letter(tmp_path: Path) -> None:
    hostile = '<img src="file:///etc/passwd">&{0.__class__}\n{rear_off_plane}\u202e'
    lesson = recorded(Lesson(title=Text((("", hostile),))), Setup().inputs)
    lesson = Lesson(lesson.title, Text((("", ""),)), lesson.inputs, (Step(Text((("", hostile),))),))
    save_lesson(tmp_path / "it.json", LessonDocument(lesson))
    back = lesson_opened(tmp_path / "it.json").lesson
    assert back.title.said == hostile
    assert back.steps[0].say.said == hostile


def test_what_says_nothing_but_must_be_there_is_written_too(tmp_path: Path) -> None:
    whole = raw(lessons()[0])
    asked = next(step for step in whole["steps"] if "options" in step.get("question", {}))
    asked["question"]["options"][0]["when"] = []
    asked["cases"] = [{"say": "", "set": {}}, {"say": "x", "set": {}}]
    slid = next(step for step in whole["steps"] if "until" in step.get("question", {}))
    slid["question"]["until"] = []
    document = read(whole)
    save_lesson(tmp_path / "a.json", document)
    assert lesson_opened(tmp_path / "a.json") == document
    carried = Document(replace(Setup(), lesson=document.lesson))
    assert document_in(bytes_of(carried)).setup.lesson == document.lesson
