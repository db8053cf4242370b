"""Parts lists survive their files, and bad ones are refused in one sentence."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from parts_lists import parts_lists_of_any_kind

from app.files.parts_file import PartsDocument, parts_in, parts_opened, save_parts
from app.files.resources import SHARED, parts_lists, starting_points
from app.files.safe_files import FileError, RefusalError
from app.rider.parts import LIST_FIELDS, PART_FIELDS, PartEntry, Parts, model

ROUND = SHARED / "parts-round-wedges.json"
BROKEN = Path(__file__).parents[2] / "cases" / "broken"


def raw_list(**changes: Any) -> dict[str, Any]:
    raw: dict[str, Any] = json.loads(ROUND.read_text("utf-8"))
    return raw | changes


def raw_part(**changes: Any) -> dict[str, Any]:
    raw = raw_list()
    raw["parts"][1] |= changes
    return raw


def refusal(raw: Any) -> str:
    with pytest.raises(RefusalError) as refused:
        parts_in(json.dumps(raw).encode())
    return str(refused.value)


@settings(max_examples=60)
@given(parts=parts_lists_of_any_kind(), notes=st.text())
def test_every_valid_list_comes_back_as_it_was_saved(
    tmp_path_factory: pytest.TempPathFactory, parts: Parts, notes: str
) -> None:
    path = tmp_path_factory.getbasetemp() / "parts.json"
    document = PartsDocument(parts, notes)
    save_parts(path, document)
    assert parts_opened(path) == document


@pytest.mark.parametrize("path", [point.path for point in parts_lists()], ids=lambda p: p.stem)
def test_a_list_that_comes_with_the_program_is_named_noted_and_saved_unchanged(
    path: Path, tmp_path: Path
) -> None:
    document = parts_opened(path)
    assert document.parts.name
    assert document.notes.endswith(".")
    save_parts(tmp_path / "again.json", document)
    assert (tmp_path / "again.json").read_bytes() == path.read_bytes()


def test_every_list_among_the_shared_files_is_offered() -> None:
    offered = {point.path for point in parts_lists()}
    assert offered == set(SHARED.glob("parts-*.json"))
    assert offered.isdisjoint(point.path for point in starting_points())


def test_unknown_keys_stay_where_they_stood_while_their_part_stays() -> None:
    raw = raw_part(colour="red") | {"of tomorrow": [1, {"a": None}]}
    document = parts_in(json.dumps(raw).encode())
    assert document.unknown_keys == {
        "of tomorrow": [1, {"a": None}],
        "parts": {"2° round wedge": {}, "4.5° round wedge": {"colour": "red"}},
    }


def test_unknown_keys_are_written_back(tmp_path: Path) -> None:
    raw = raw_part(colour="red") | {"of tomorrow": 1}
    save_parts(tmp_path / "a.json", parts_in(json.dumps(raw).encode()))
    assert json.loads((tmp_path / "a.json").read_text("utf-8")) == raw


def test_the_model_is_in_radians_and_mm() -> None:
    parts = model(parts_opened(ROUND).parts)
    assert parts.parts[1].slope == pytest.approx(0.07853981633974483, abs=1e-16)
    assert len(parts.parts[1].bearings) == 36
    assert parts.inserts.lengths[:3] == (420.0, 440.0, 460.0)


@pytest.mark.parametrize(
    ("raw", "words"),
    [
        ([], "it holds [], not a parts list"),
        ({}, "it is not a parts list: it has no schema number"),
        (raw_list(schema=0), "schema is 0; it must be a whole number from 1 up"),
        (raw_list(parts={}), "parts is {}; it must be a list of parts"),
        (raw_list(parts=["wedge"]), 'part 1 is "wedge"; it must be a group of values in braces'),
        (raw_list(parts=[{}]), "name of part 1 is missing"),
        (
            raw_list(parts=raw_list()["parts"] * 26),
            "it lists 52 sorts of parts; at most 50 will do",
        ),
        (
            raw_list(parts=raw_list()["parts"] * 2),
            "two parts are called round wedge and slope 2°; give each its own name",
        ),
        (raw_part(name=7), "name of part 2 is 7; it must be text in quotes"),
        (raw_part(name=" "), "a part has no name; give it one"),
        (
            raw_part(kind="round"),
            'kind of part 2 is "round"; it must be one of turnable, along, across',
        ),
        (raw_part(kind=[]), "kind of part 2 is []; it must be one of turnable, along, across"),
        (raw_part(slope_deg=0), "slope_deg of part 2 is 0; it must lie between 0.1 and 20"),
        (raw_part(slope_deg=True), "slope_deg of part 2 is true; it must be a number"),
        (raw_part(slope_deg="6"), 'slope_deg of part 2 is "6"; it must be a number'),
        (raw_part(count=1.5), "count of part 2 is 1.5; it must be a whole number"),
        (
            raw_part(bearing_step_deg=7),
            "step of bearing of round wedge is 7 deg; a full turn must be a whole number of steps",
        ),
        (raw_list(largest_stack=9), "largest_stack is 9; it must lie between 0 and 4"),
        (raw_list(turns_with_binding=1), "turns_with_binding is 1; it must be true or false"),
        (
            raw_list(longest_stance_mm=100),
            "longest stance length is 100 mm; it must lie between 420 and 2000 mm",
        ),
    ],
)
def test_a_bad_list_is_refused_with_the_one_sentence_that_helps(raw: Any, words: str) -> None:
    assert refusal(raw) == words


LATER = ("highest_mm", "slope_within_deg", "bearing_within_deg")
FIRST = [field.name for field in LIST_FIELDS if field.name not in LATER]


def test_a_list_from_before_tolerances_and_heights_is_read() -> None:
    raw = {key: value for key, value in raw_list().items() if key not in LATER}
    parts = parts_in(json.dumps(raw).encode()).parts
    assert (parts.highest_mm, parts.slope_within_deg, parts.bearing_within_deg) == (0.0, 0.2, 1.0)


@pytest.mark.parametrize("key", ["parts", "turns_with_binding", *FIRST])
def test_a_missing_value_is_not_filled_in(key: str) -> None:
    raw = raw_list()
    del raw[key]
    assert refusal(raw) == f"{key} is missing"


@pytest.mark.parametrize("key", ["name", "kind", *(f.name for f in PART_FIELDS)])
def test_a_missing_value_of_a_part_is_not_filled_in(key: str) -> None:
    raw = raw_list()
    del raw["parts"][1][key]
    assert refusal(raw) == f"{key} of part 2 is missing"


def test_a_fixed_slope_needs_no_step_of_turning() -> None:
    raw = raw_part(kind="along")
    del raw["parts"][1]["bearing_step_deg"]
    assert parts_in(json.dumps(raw).encode()).parts.parts[1].kind == "along"


def test_a_set_up_is_not_taken_for_a_parts_list() -> None:
    with pytest.raises(FileError, match=r"neutral\.json: it is a set-up, not a parts list"):
        parts_opened(SHARED / "neutral.json")


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("settings.json", "it holds the program's settings, not a parts list"),
        ("numbers.json", "it holds results that were printed, not a parts list"),
        ("picture-without-set-up.png", "it is a picture, not a parts list"),
    ],
)
def test_other_files_of_the_program_are_told_from_a_parts_list(name: str, said: str) -> None:
    with pytest.raises(FileError, match=said):
        parts_opened(BROKEN / name)


def test_a_newer_list_is_read_but_not_written_over(tmp_path: Path) -> None:
    newer = parts_in(json.dumps(raw_list(schema=2)).encode())
    assert newer.read_only
    with pytest.raises(FileError, match="newer version of Kneeline; save a copy instead"):
        save_parts(tmp_path / "a.json", newer)
    assert not (tmp_path / "a.json").exists()


def test_a_newer_list_that_cannot_be_read_says_why() -> None:
    words = refusal(raw_list(schema=2, parts=7))
    assert words.startswith("it was made by a newer version of Kneeline")
    assert words.endswith("parts is 7; it must be a list of parts")


def test_a_list_that_contradicts_itself_is_not_saved(tmp_path: Path) -> None:
    twice = Parts(parts=(PartEntry("block", "along", 3.0, 6.0),) * 2)
    with pytest.raises(FileError, match="two parts are called block"):
        save_parts(tmp_path / "a.json", PartsDocument(twice))
    assert not (tmp_path / "a.json").exists()
