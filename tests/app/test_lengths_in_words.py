"""Lengths in sentences, in the unit that the rider chose."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.features.board.model import flags, overhang_of
from app.features.measuring.model import agreement_words, with_repeat
from app.features.paper.snapshot import summary
from app.frame import frame
from app.rider.board import BOARD_FIELDS
from app.rider.inputs import DEFAULTS, FIELD, changed, model
from app.rider.setup import Setup, edited
from app.session import Session
from app.stance.causes import Pelvis, cause
from app.words.scale import scale_of
from app.words.sentences import length_pair, length_words, retold
from app.words.units import LENGTH_UNITS, ReadingError, unit_of
from geometry import solve

BOARD = {field.name: field for field in BOARD_FIELDS}


def test_a_length_is_told_no_finer_than_it_is_known() -> None:
    assert [length_words(497.26, unit) for unit in LENGTH_UNITS] == [
        "497.3 mm",
        "49.73 cm",
        "19.58 in",
    ]
    assert [length_words(497.26, unit, 0) for unit in LENGTH_UNITS] == [
        "497 mm",
        "49.7 cm",
        "19.57 in",
    ]


def test_of_two_lengths_the_unit_is_written_once() -> None:
    assert length_pair(497.26, " ± ", 5.08, "in") == "19.58 ± 0.20 in"
    assert length_pair(497.26, " ± ", 5.08, "mm", 0) == "497 ± 5 mm"


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("it is 254 mm; it must lie between 25.4 and 508 mm", "10.00 in; it must lie between "
         "1.00 and 20.00 in"),
        ("from 508 to 254 mm, one every 20 mm", "from 20.00 to 10.00 in, one every 0.79 in"),
        ("the hips hang −25.4 mm; -50.8 mm", "−1.00 in; −2.00 in"),
        ("lie between 3000 and 1e+06 mm", "118.11 and 39370.08 in"),
    ],
)  # fmt: skip
def test_what_the_geometry_says_of_millimetres_is_retold(said: str, told: str) -> None:
    assert retold(said, "in").endswith(told)
    assert retold(said, "mm") == said


def test_what_the_geometry_says_of_angles_and_counts_stays() -> None:
    said = "2 legs: 60 deg is more than 45°, after 3 mm"
    assert retold(said, "cm") == "2 legs: 60 deg is more than 45°, after 0.3 cm"


def test_a_real_refusal_of_the_geometry_is_retold_whole() -> None:
    with pytest.raises(ValueError, match="mm") as refused:
        model(replace(DEFAULTS, knee_height_mm=1100.0))
    assert "mm" not in retold(str(refused.value), "in")
    assert "43.31 in" in retold(str(refused.value), "in")


@pytest.mark.parametrize("length_unit", LENGTH_UNITS)
@pytest.mark.parametrize("field", [*BOARD_FIELDS, FIELD["stance_length_mm"]], ids=lambda f: f.name)
def test_the_ends_of_a_range_are_taken_as_they_are_written(field: object, length_unit: str) -> None:
    scale = scale_of(field, length_unit)  # type: ignore[arg-type]
    for end in (scale.low, scale.high):
        assert scale.text(scale.read(scale.text(end))) == scale.text(end)


def test_just_beyond_the_end_of_a_range_nothing_is_taken() -> None:
    scale = scale_of(BOARD["boot_sole_width_mm"], "in")
    assert (scale.read("1.57"), scale.read("9.84")) == (40.0, 249.936)
    for beyond in ("1.56", "9.85"):
        with pytest.raises(ReadingError, match=r"1\.57 to 9\.84 in only"):
            scale.read(beyond)


def test_sizes_of_the_trade_keep_their_unit() -> None:
    kept = [[unit_of(kind, unit).suffix for unit in LENGTH_UNITS] for kind in ("size", "radius")]
    assert kept == [[" mm"] * 3, [" m"] * 3]


def test_the_history_names_a_length_in_the_unit_of_the_time() -> None:
    session = Session()
    session.length_unit = "in"
    session.edit(stance_length_mm=508.0)
    assert session.undo_name == "Stance length: 20.00 in"


def test_a_shifted_hip_is_named_as_a_cause_in_the_unit_chosen() -> None:
    inputs = changed(DEFAULTS, stance_length_mm=250.0, front_angle_deg=0.0, rear_angle_deg=0.0,
                     hip_shift_mm=101.6)  # fmt: skip
    settled = solve(*model(inputs))
    pelvis = Pelvis(float(settled.depth), float(settled.height))
    assert cause("front", 9.0, inputs, pelvis, "in").startswith("The hips hang 4.00 in ")


def test_pictures_sum_the_stance_up_in_the_unit_chosen() -> None:
    said = summary(changed(DEFAULTS, stance_length_mm=508.0, across_spacing_mm=25.4), "in")
    assert "stance length 20.00 in · across 1.00 in" in said
    assert "mm" not in said


@pytest.mark.parametrize("unit", ["cm", "in"])
def test_drawings_are_described_without_millimetres(unit: str) -> None:
    shown = frame(edited(Setup(), stance_length_mm=508.0, hip_shift_mm=30.0), length_unit=unit)
    texts = [scene.text for scene in shown.scenes.values()]
    assert f"stance length {length_words(508.0, unit)}" in texts[0]
    assert not any(" mm" in text for text in texts)


def test_a_plate_is_said_to_be_too_low_by_no_less_than_it_is() -> None:
    tilted = edited(Setup(), front_angle_deg=0.0, front_lift_deg=15.0)
    deep = -float(overhang_of(tilted).boots["front"].reach.clearance)
    (found,) = (each for each in flags(overhang_of(tilted, "in")) if "raise" in each)
    raised = float(found.split(" by ")[1].removesuffix(" in.")) * 25.4
    assert deep <= raised < deep + 0.26


def test_repeats_are_told_in_the_unit_chosen() -> None:
    setup = with_repeat(Setup(), "hip_spacing_mm", 254.0)
    told = " ".join(agreement_words(setup, "hip_spacing_mm", "in")).replace("\u00a0", " ")
    assert told.startswith("Mean 10.00 in Hip spacing 7.20 in")
