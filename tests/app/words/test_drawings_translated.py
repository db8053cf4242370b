"""Whatever stands in the drawings, and is said of a wedge, has gone through the catalogue."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication
from shown_texts import left_english, texts_in, texts_of

from app.drawing.front import LOOKS
from app.features.compare.scene import with_ghost
from app.features.wedge.hole_spots import SpotError, spots_in
from app.features.wedge.model import Slopes, measures, part_of, problems, slopes_of
from app.features.wedge.page import WedgePage
from app.features.wedge.scene import scene_wedge, scene_wedge_views
from app.features.wedge.stl_dxf import dxf_bytes, save_stl
from app.features.wedge.units import PartLengths
from app.features.wedge.words import MILLIMETRES
from app.files.resources import ASSETS
from app.files.safe_files import FileError
from app.frame import frame
from app.rider.setup import Setup, edited
from app.rider.wedge import MOST_HOLES
from app.window.window import Window
from app.words.language import choose
from app.words.reasons import reason_phrase
from app.words.units import unit_of

OUT_OF_REACH = {"stance_length_mm": 800.0, "knee_bend_deg": 5.0, "hip_height_mm": 600.0}
SIZES_AT_ODDS = (
    {"corner_radius_mm": 150.0},
    {"head_height_mm": 4.0, "head_mm": 5.0},
    {"grid_across_mm": 0.5},
    {"slopes": "start"},
)
IMPOSSIBLE = (
    {"centre_height_mm": 1.0},
    {"head_height_mm": 9.0},
    {"head_height_mm": 50.0},
    {"hole_spots_mm": ((0.0, 0.0), (0.0, 0.0), (7.0, 0.0), (0.0, 5.0), (0.0, 54.0), (0.0, 300.0))},
    {"hole_spots_mm": ((50.0, 50.5),), "centre_height_mm": 10.0},
)


@pytest.fixture
def german() -> Iterator[None]:
    choose("de", ASSETS / "texts")
    yield
    choose("en", ASSETS / "texts")


def wedge_of(**typed: object) -> Setup:
    """A set-up whose wedge is typed."""
    usual = replace(Setup().wedge, slopes="typed", lift_deg=3.0, cant_deg=-4.0)
    if "hole_spots_mm" in typed:
        typed["holes"] = "typed"
    return replace(Setup(), wedge=replace(usual, **typed))  # type: ignore[arg-type]


@pytest.mark.parametrize("look", LOOKS)
@pytest.mark.parametrize(
    "changes", [{}, {"lead_foot": "right", "across_spacing_mm": 60.0}, OUT_OF_REACH]
)
def test_the_drawings_are_all_translated(
    bracketed: None, changes: dict[str, float | str], look: str
) -> None:
    scenes = frame(edited(Setup(), **changes), look).scenes
    for scene in scenes.values():
        assert not left_english(texts_in(with_ghost(scene, scene, "Demo")))


def test_what_cannot_be_drawn_is_told_in_translation(window: Window) -> None:
    window.session.edit(hip_height_mm=600.0, knee_height_mm=610.0)
    QApplication.processEvents()
    assert window.sheet.problem
    assert not left_english(iter([window.sheet.problem]))


def test_lengths_of_a_body_that_cannot_be_are_refused_in_translation(window: Window) -> None:
    box = window.panel.height_box
    box.known.emit("stature_mm", 1700.0)
    box.known.emit("inseam_mm", 1090.0)
    assert not left_english(texts_of(box))


@pytest.mark.parametrize("holes", ["grid", "typed"])
@pytest.mark.parametrize("slopes", ["mounts", "start", "typed"])
def test_the_page_of_a_wedge_is_all_translated(window: Window, slopes: str, holes: str) -> None:
    page = window.tray.open_page("Printed wedge")
    assert isinstance(page, WedgePage)
    window.show()
    window.session.take("A wedge", wedge_of(slopes=slopes, holes=holes))
    QApplication.processEvents()
    page.rows["length_mm"].asked.emit("length_mm", 150.0)
    page.form.holes.activated.emit(0)
    page.form.foot.activated.emit(0)
    page.form.slopes.activated.emit(0)
    assert not left_english(texts_of(page))
    assert not left_english(step.name for step in window.session.steps[2:])


@pytest.mark.parametrize("slopes", [(3.0, 4.0), (3.0, -4.0), (3.0, 0.0), (-3.0, 0.0), (0.0, 0.0)])
@pytest.mark.parametrize("sizes", [{}, {"head_height_mm": 2.0}, {"hole_spots_mm": ()}])
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_the_drawing_of_a_wedge_is_all_translated(
    bracketed: None, slopes: tuple[float, float], sizes: dict[str, object], unit: str
) -> None:
    part = part_of(wedge_of(**sizes), Slopes(*slopes))
    lengths = PartLengths(unit)
    small = scene_wedge_views(part, elevations=True, lengths=lengths)
    said = [*texts_in(scene_wedge(part, lengths)), *texts_in(small), measures(part, lengths)]
    # Notes are broken into lines, and only their lines together have all of their brackets.
    assert not left_english(iter([" ".join(said)]))


@pytest.mark.parametrize("sizes", IMPOSSIBLE)
def test_why_a_wedge_cannot_be_made_is_told_in_translation(
    bracketed: None, sizes: dict[str, object]
) -> None:
    part = part_of(wedge_of(**sizes), Slopes(3.0, -4.0))
    told = problems(part)
    assert told
    assert not left_english(iter([told, " ".join(texts_in(scene_wedge(part)))]))


@pytest.mark.parametrize("sizes", SIZES_AT_ODDS)
def test_why_no_wedge_can_be_meant_is_told_in_translation(
    bracketed: None, sizes: dict[str, object]
) -> None:
    setup = wedge_of(**sizes)
    setup = replace(setup, inputs=edited(setup, **OUT_OF_REACH).inputs)
    with pytest.raises(ValueError) as refusal:  # noqa: PT011, whose words are looked at
        part_of(setup, slopes_of(setup))
    assert not left_english(iter([reason_phrase(refusal.value, MILLIMETRES)]))


@pytest.mark.parametrize(
    "typed", ["1 2 3", "1", "1,5", ",5 2", "1 2kg", "1 900", "1 2\n" * (MOST_HOLES + 1)]
)
def test_why_typed_holes_are_not_taken_is_told_in_translation(bracketed: None, typed: str) -> None:
    with pytest.raises(SpotError) as refusal:
        spots_in(typed, unit_of("mm"))
    assert not left_english(iter([str(refusal.value).replace("kg", "")]))


def test_the_notes_in_a_dxf_file_stay_english(german: None) -> None:
    part = part_of(wedge_of(), Slopes(3.0, -4.0))
    assert part.title == "Keil für den vorderen Fuß (links)"
    data = dxf_bytes(part)
    assert b"Wedge for the front foot (left)" in data
    assert b"Keil" not in data


def test_a_wedge_that_cannot_be_made_is_not_saved_and_says_so_in_german(
    german: None, tmp_path: Path
) -> None:
    part = part_of(wedge_of(centre_height_mm=1.0), Slopes(3.0, -4.0))
    with pytest.raises(FileError, match="nicht speichern: Der Keil"):
        save_stl(tmp_path / "keil.stl", part)
