"""A rider's own movement in the file of a set-up."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

from app.files.storage import Document, as_copy, document_in, opened, save
from app.rider.movement import NO_MOVEMENT, KeyPosture, Movement, with_posture
from app.rider.setup import Setup

OWN = Movement((
    KeyPosture(0.0, 30.0, 5.0, -10.0, 20.0),
    KeyPosture(0.8, 75.5, 0.0, 0.0, 45.0),
    KeyPosture(2.0, 30.0, 5.0, -10.0, 20.0),
))  # fmt: skip


def test_a_movement_comes_back_as_it_was_saved(tmp_path: Path) -> None:
    document = Document(Setup(movement=OWN))
    save(tmp_path / "a.json", document)
    assert opened(tmp_path / "a.json") == document


def test_a_file_from_before_movements_opens_without_one(tmp_path: Path) -> None:
    save(tmp_path / "a.json", Document(Setup(movement=OWN)))
    raw = json.loads((tmp_path / "a.json").read_text("utf-8"))
    del raw["movement"]
    assert document_in(json.dumps(raw).encode()).setup.movement == NO_MOVEMENT


def test_unknown_keys_of_a_movement_and_of_a_posture_stay_when_the_posture_is_changed(
    tmp_path: Path,
) -> None:
    path = tmp_path / "a.json"
    save(path, Document(Setup(movement=OWN)))
    raw = json.loads(path.read_text("utf-8"))
    raw["movement"]["music"] = ["of", {"tomorrow": 1}]
    raw["movement"]["postures"][1]["edge"] = "toe side"
    document = document_in(json.dumps(raw).encode())
    moved = document.setup.movement
    deeper = with_posture(moved, 1, replace(moved.postures[1], knee_bend_deg=90.0))
    save(path, replace(document, setup=replace(document.setup, movement=deeper)))
    raw["movement"]["postures"][1]["knee_bend_deg"] = 90.0
    assert json.loads(path.read_text("utf-8")) == raw


def test_a_copy_goes_without_what_this_version_does_not_know() -> None:
    own = Movement((replace(OWN.postures[0], unknown_keys='{"edge": 1}'), OWN.postures[1]))
    copy = as_copy(Document(Setup(movement=own), unknown_keys={"movement": {"music": 1}}))
    assert copy == Document(Setup(movement=Movement(OWN.postures[:2])))
