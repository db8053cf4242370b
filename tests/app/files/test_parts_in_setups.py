"""A set-up carries its parts list, and its file keeps it in the words of a parts file."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from parts_lists import parts_lists_of_any_kind

from app.files.parts_file import parts_in, parts_opened
from app.files.resources import SHARED
from app.files.safe_files import RefusalError
from app.files.storage import Document, document_in, opened, save
from app.rider.parts import Parts
from app.rider.setup import Setup

ROUND = parts_opened(SHARED / "parts-round-wedges.json").parts


def saved(path: Path, document: Document) -> dict[str, Any]:
    save(path, document)
    raw: dict[str, Any] = json.loads(path.read_text("utf-8"))
    return raw


@settings(max_examples=40)
@given(parts=parts_lists_of_any_kind())
def test_every_parts_list_comes_back_with_its_setup(
    tmp_path_factory: pytest.TempPathFactory, parts: Parts
) -> None:
    path = tmp_path_factory.getbasetemp() / "with-parts.json"
    save(path, Document(Setup(parts=parts)))
    assert opened(path).setup.parts == parts


def test_a_setup_from_before_parts_lists_has_none(tmp_path: Path) -> None:
    raw = saved(tmp_path / "a.json", Document(Setup(parts=ROUND)))
    del raw["parts"]
    assert document_in(json.dumps(raw).encode()).setup.parts == Parts()


def test_unknown_keys_of_the_list_and_of_a_part_are_written_back(tmp_path: Path) -> None:
    raw = saved(tmp_path / "a.json", Document(Setup(parts=ROUND)))
    raw["parts"]["of tomorrow"] = [1]
    raw["parts"]["parts"][1]["colour"] = "red"
    document = document_in(json.dumps(raw).encode())
    fewer = replace(ROUND, parts=ROUND.parts[1:])
    kept = saved(tmp_path / "b.json", replace(document, setup=Setup(parts=fewer)))["parts"]
    assert kept["of tomorrow"] == [1]
    assert [part.get("colour") for part in kept["parts"]] == ["red"]


def test_a_bad_part_in_a_setup_is_refused_with_its_place(tmp_path: Path) -> None:
    raw = saved(tmp_path / "a.json", Document(Setup(parts=ROUND)))
    raw["parts"]["parts"][0]["slope_deg"] = 99
    with pytest.raises(RefusalError, match="the parts list: slope_deg of part 1 is 99"):
        document_in(json.dumps(raw).encode())


def test_a_setup_is_not_opened_as_a_parts_list(tmp_path: Path) -> None:
    raw = saved(tmp_path / "a.json", Document(Setup(parts=ROUND)))
    with pytest.raises(RefusalError, match="it is a set-up, not a parts list"):
        parts_in(json.dumps(raw).encode())
