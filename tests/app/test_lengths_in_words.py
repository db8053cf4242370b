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
from app.stance.causes import cause
from app.stance.settled import settled
from app.words.lengths import Lengths
from app.words.reasons import reason_phrase
from app.words.scale import scale_of
from app.words.units import LENGTH_UNITS, ReadingError
from geometry.reasons import ImpossibleError

BOARD = {field.name: field for field in BOARD_FIELDS}


def test_a_length_is_told_no_finer_than_it_is_known() -> None:
    assert [Lengths(unit).text(497.26) for unit in LENGTH_UNITS] == [
        "497.3 mm",
        "49.73 cm",
        "19.58 in",
    ]
    assert [Lengths(unit).text(497.26, 0) for unit in LENGTH_UNITS] == [
        "497 mm",
        "49.7 cm",
        "19.57 in",
    ]


def test_of_two_lengths_the_unit_is_written_once() -> None:
    assert Lengths("in").pair(497.26, " ± ", 5.08) == "19.58 ± 0.20 in"


def test_a_refusal_of_the_geometry_is_told_in_the_unit_chosen() -> None:
    with pytest.raises(ImpossibleError) as caught:
        model(replace(DEFAULTS, left=replace(DEFAULTS.left, knee_height_mm=1100.0)))
    assert reason_phrase(caught.value, Lengths("in")) == (
        "knee height is 43.31 in; it must lie between 3.15 and 39.37 in"
    )


@pytest.mark.parametrize("length_unit", LENGTH_UNITS)
@pytest.mark.parametrize("field", [*BOARD_FIELDS, FIELD["stance_length_mm"]], ids=lambda f: f.name)
def test_the_ends_of_a_range_are_taken_as_they_are_written(field: object, length_unit: str) -> None:
    scale = scale_of(field, Lengths(length_unit))  # type: ignore[arg-type]
    for end in (scale.low, scale.high):
        assert scale.text(scale.read(scale.text(end))) == scale.text(end)


def test_just_beyond_the_end_of_a_range_nothing_is_taken() -> None:
    scale = scale_of(BOARD["boot_sole_width_mm"], Lengths("in"))
    assert (scale.read("1.57"), scale.read("9.84")) == (40.0, 249.936)
    for beyond in ("1.56", "9.85"):
        with pytest.raises(ReadingError, match=r"1\.57 to 9\.84 in only"):
            scale.read(beyond)


def test_sizes_of_the_trade_keep_their_unit() -> None:
    kept = [
        [Lengths(unit).unit_of(kind).suffix for unit in LENGTH_UNITS] for kind in ("size", "radius")
    ]
    assert kept == [[" mm"] * 3, [" m"] * 3]


def test_the_history_names_a_length_in_the_unit_of_the_time() -> None:
    session = Session()
    session.lengths = Lengths("in")
    session.edit(stance_length_mm=508.0)
    assert session.undo_name == "Stance length: 20.00 in"


def test_a_shifted_hip_is_named_as_a_cause_in_the_unit_chosen() -> None:
    inputs = changed(DEFAULTS, stance_length_mm=250.0, front_angle_deg=0.0, rear_angle_deg=0.0,
                     hip_shift_mm=101.6)  # fmt: skip
    assert cause("front", 9.0, settled(inputs), Lengths("in")).startswith(
        "The hips are held 4.00 in "
    )


def test_pictures_sum_the_stance_up_in_the_unit_chosen() -> None:
    said = summary(changed(DEFAULTS, stance_length_mm=508.0, across_spacing_mm=25.4), Lengths("in"))
    assert "stance length 20.00 in · across 1.00 in" in said
    assert "mm" not in said


@pytest.mark.parametrize("unit", ["cm", "in"])
def test_drawings_are_described_without_millimetres(unit: str) -> None:
    shown = frame(edited(Setup(), stance_length_mm=508.0, hip_shift_mm=30.0), lengths=Lengths(unit))
    texts = [scene.text for scene in shown.scenes.values()]
    assert f"stance length {Lengths(unit).text(508.0)}" in texts[0]
    assert not any(" mm" in text for text in texts)


def test_a_plate_is_said_to_be_too_low_by_no_less_than_it_is() -> None:
    tilted = edited(Setup(), front_angle_deg=0.0, front_lift_deg=15.0)
    deep = -float(overhang_of(tilted).boots["front"].reach.clearance)
    (found,) = (each for each in flags(overhang_of(tilted, Lengths("in"))) if "raise" in each)
    raised = float(found.split(" by ")[1].removesuffix(" in.")) * 25.4
    assert deep <= raised < deep + 0.26


def test_repeats_are_told_in_the_unit_chosen() -> None:
    setup = with_repeat(Setup(), "hip_spacing_mm", 254.0)
    told = " ".join(agreement_words(setup, "hip_spacing_mm", Lengths("in"))).replace("\u00a0", " ")
    assert told.startswith("Mean 10.00 in Hip spacing 7.20 in")
