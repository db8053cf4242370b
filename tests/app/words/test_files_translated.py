"""Whatever is told of files, and where texts only pass through, has gone through the catalogue."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtWidgets import QApplication
from shown_texts import left_english, texts_of

from app.features.paper.snapshot import summary
from app.features.riders.dialog import RidersDialog
from app.features.riders.model import rider_in
from app.files.parts_file import parts_in
from app.files.png_setup import SIGNATURE, setup_in_png, with_setup
from app.files.recovery import Recovery, Unsaved
from app.files.safe_files import FileError, RefusalError
from app.files.storage import Document, bytes_of, document_in, newer_notice, opened, save
from app.rider.inputs import Inputs
from app.rider.setup import Setup, edited
from app.session import Session
from app.stance.findings import USUAL_LIMITS
from app.window.keeping import _message

NEWER = Document(Setup(), schema=99)
WHOLE: dict[str, Any] = json.loads(bytes_of(Document(Setup())))
PART = {"name": "W", "kind": "turnable", "slope_deg": 900.0}
PARTS = WHOLE["parts"]
SETUPS_REFUSED: tuple[dict[str, Any], ...] = (
    {"schema": 0},
    {"schema": 99, "inputs": {}},
    {"name": 5},
    {"known": 5},
    {"known": {"figures": "x"}},
    {"inputs": {}},
    {"inputs": WHOLE["inputs"] | {"lead_foot": 5}},
    {"inputs": WHOLE["inputs"] | {"knee_bend_deg": "x"}},
    {"inputs": WHOLE["inputs"] | {"knee_bend_deg": 999}},
    {
        "inputs": WHOLE["inputs"]
        | {"left": WHOLE["inputs"]["left"] | {"knee_height_mm": 650, "hip_height_mm": 600}}
    },
    {"measured": 5},
    {"measured": [5]},
    {"repeats": {"left_hip_height_mm": []}},
    {"trials": 5},
    {"trials": [5]},
    {"trials": [{}]},
    {"wedge": {"hole_spots_mm": 5}},
    {"wedge": {"hole_spots_mm": [5]}},
    {"wedge": {"hole_spots_mm": [[0, 0]] * 99}},
    {"wedge": {"foot": 5}},
    {"parts": {"name": 5}},
)
LISTS_REFUSED: tuple[dict[str, Any], ...] = (
    {"inputs": {}, "parts": {}},
    {"schema": 99, "parts": 5},
    {"parts": 5},
    {"parts": [5] * 99},
    {"parts": [5]},
    {"parts": [{}]},
    {"parts": [{"name": 5}]},
    {"parts": [PART]},
    {"turns_with_binding": 5},
)
BYTES_REFUSED = (
    b"",
    b"\xff",
    b"5",
    b"{",
    b"{}",
    b"[" * 99,
    b"NaN",
    b"1e999",
    b"9" * 500,
    b'{"a": 1, "a": 2}',
    b"GIF89a",
    SIGNATURE,
    SIGNATURE + bytes(8),
)


def refusal(attempt: Callable[[], object]) -> str:
    """What is told of an attempt that is refused."""
    with pytest.raises((RefusalError, FileError)) as refused:
        attempt()
    return str(refused.value)


@pytest.mark.parametrize("changes", SETUPS_REFUSED)
def test_why_a_set_up_is_refused_is_told_in_translation(
    bracketed: None, changes: dict[str, Any]
) -> None:
    told = refusal(lambda: document_in(json.dumps(WHOLE | changes).encode()))
    assert not left_english(iter([told]))


@pytest.mark.parametrize("changes", LISTS_REFUSED)
def test_why_a_parts_list_is_refused_is_told_in_translation(
    bracketed: None, changes: dict[str, Any]
) -> None:
    raw = {"schema": 1, **PARTS, **changes}
    assert not left_english(iter([refusal(lambda: parts_in(json.dumps(raw).encode()))]))


@pytest.mark.parametrize("data", BYTES_REFUSED)
def test_why_bytes_are_refused_is_told_in_translation(bracketed: None, data: bytes) -> None:
    assert not left_english(iter([refusal(lambda: document_in(data))]))


def test_why_a_picture_is_refused_is_told_in_translation(bracketed: None) -> None:
    whole = with_setup(SIGNATURE + bytes(25) + b"\0\0\0\0IEND\xaeB`\x82", b"{}")
    damaged = whole.replace(b"{}", b"{ ", 1)
    for data in (b"", damaged, whole[:40]):
        assert not left_english(iter([refusal(lambda data=data: setup_in_png(data))]))


def test_what_the_disk_refuses_is_told_in_translation(bracketed: None, tmp_path: Path) -> None:
    nowhere = Path("/1/2")
    refused = [
        lambda: opened(nowhere),
        lambda: opened(Path("/")),
        lambda: opened(Path("/dev/null")),
        lambda: save(nowhere, Document(Setup())),
        lambda: save(nowhere, NEWER),
        lambda: Recovery(Path("/dev/null/1")).keep(Unsaved(Document(Setup()))),
    ]
    said = [refusal(attempt) for attempt in refused]
    assert not left_english(text.replace("/dev/null", "") for text in said)
    assert not left_english(iter([newer_notice(nowhere, NEWER)]))


def test_the_steps_of_the_history_are_named_in_translation(bracketed: None) -> None:
    session = Session()
    session.edit(lead_foot="right")
    session.edit(front_cant_deg=-3.0)
    assert not left_english(iter([step.name for step in session.steps]))


@pytest.mark.parametrize("kept", [True, False])
def test_what_is_told_after_an_error_is_translated(bracketed: None, kept: bool) -> None:
    said = _message(ValueError("x"), kept).replace("ValueError", "")
    assert not left_english(iter([said]))


@pytest.mark.parametrize("changes", [{}, {"lead_foot": "right", "front_lift_deg": 2.0}])
def test_the_stance_in_one_line_is_translated(
    bracketed: None, changes: dict[str, float | str]
) -> None:
    line = summary(replace(Inputs(), across_spacing_mm=50.0, **changes))  # type: ignore[arg-type]
    assert not left_english(iter([line]))


def test_the_list_of_riders_is_translated(bracketed: None, tmp_path: Path) -> None:
    save(tmp_path / "1.json", Document(edited(replace(Setup(), name="1"), front_cant_deg=9.0)))
    (tmp_path / "2.json").write_text("{")
    dialog = RidersDialog(Path("/1"), USUAL_LIMITS)
    riders = [rider_in(path, USUAL_LIMITS) for path in sorted(tmp_path.iterdir())]
    dialog.riders.append(riders)
    assert not left_english(text.replace(".json", "") for text in texts_of(dialog))
    dialog.deleteLater()
    QApplication.processEvents()
