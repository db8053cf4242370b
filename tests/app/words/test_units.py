"""Amounts as they are written and read."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.rider.inputs import FIELD, FIELDS
from app.words.lengths import Lengths
from app.words.scale import COARSE, FINE, PLAIN, scale_of
from app.words.sentences import in_words, spoken
from app.words.units import LENGTH_UNITS, ReadingError, amount, reading, span, unit_of

DEG, MM, CM, IN = unit_of("deg"), unit_of("mm"), unit_of("mm", "cm"), unit_of("mm", "in")


@pytest.mark.parametrize(
    "text", ["7.5", "7,5", " 7.50 ", "+7,5", "7.5°", "7,5 deg", "07,5 Degrees"]
)
def test_both_decimal_marks_mean_the_same(text: str) -> None:
    assert reading(text, DEG) == 7.5


@pytest.mark.parametrize("minus", list("-−–—‐"))
def test_every_kind_of_minus_is_taken(minus: str) -> None:
    assert reading(f"{minus}12,25°", DEG) == -12.25


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("500", 500.0),
        ("50 cm", 500.0),
        ("50cm", 500.0),
        ("0,5 m", 500.0),
        ("20 in", 508.0),
        ('20"', 508.0),
        ("20″", 508.0),
        ("5'11\"", 1803.4),
        ("5 ft 11 in", 1803.4),
        ("6′", 1828.8),
        (".5 m", 500.0),
        ("-0", 0.0),
    ],
)
def test_a_typed_unit_wins_over_the_one_shown(text: str, mm: float) -> None:
    assert reading(text, MM) == mm


def test_a_number_alone_counts_in_the_unit_shown() -> None:
    assert (reading("50", CM), reading("20", IN)) == (500.0, 508.0)


@pytest.mark.parametrize(
    "text", ["", "°", "abc", "1.2.3", "1,234.5", "7 5", "1e3", "nan", "inf", "--3"]
)
def test_what_is_no_number_is_refused(text: str) -> None:
    with pytest.raises(ReadingError, match="not a number"):
        reading(text, MM)


def test_a_unit_of_the_wrong_kind_is_refused() -> None:
    with pytest.raises(ReadingError, match="not in degrees"):
        reading("12 mm", DEG)
    with pytest.raises(ReadingError, match="not in inches"):
        reading("12°", IN)


def test_amounts_have_as_many_decimals_as_they_need() -> None:
    angles = [amount(value, DEG) for value in (6.0, 6.25, -7.5, 6.123, -0.001)]
    assert angles == ["6.0°", "6.25°", "−7.5°", "6.12°", "0.0°"]
    lengths = [amount(500.0, MM), amount(500.5, MM), amount(500.0, CM), amount(500.0, IN)]
    assert lengths == ["500 mm", "500.5 mm", "50.0 cm", "19.69 in"]


def test_ranges_are_written_without_needless_decimals() -> None:
    assert span(-60.0, 90.0, DEG) == "−60 to 90°"
    assert span(0.0, 800.0, IN) == "0 to 31.5 in"


def test_an_unknown_length_unit_is_named() -> None:
    with pytest.raises(ValueError, match="'ell'"):
        Lengths("ell")


@given(st.floats(-2000.0, 2000.0), st.sampled_from([DEG, MM, CM]))
def test_what_is_written_reads_back_to_a_hundredth(value: float, unit: object) -> None:
    assert reading(amount(value, unit), unit) == pytest.approx(value, abs=0.0051)  # type: ignore[arg-type]


@pytest.mark.parametrize("field", FIELDS, ids=lambda field: field.name)
@pytest.mark.parametrize("length_unit", LENGTH_UNITS)
def test_steps_go_out_and_back_without_drift(field: object, length_unit: str) -> None:
    scale = scale_of(field, Lengths(length_unit))  # type: ignore[arg-type]
    start = 0.5 * (scale.low + scale.high)
    for kind in (FINE, PLAIN, COARSE):
        assert scale.stepped(start, 1, kind) > start
        assert scale.stepped(scale.stepped(start, 1, kind), -1, kind) == start
    assert scale.stepped(start, 10_000, COARSE) == scale.high


def test_inches_step_by_round_parts_of_an_inch() -> None:
    scale = scale_of(FIELD["stance_length_mm"], Lengths("in"))
    assert [scale.stepped(508.0, 1, kind) for kind in (FINE, PLAIN, COARSE)] == [
        pytest.approx(508.0 + 25.4 * inches) for inches in (0.02, 0.2, 1.0)
    ]


@given(st.sampled_from(FIELDS), st.floats(0.0, 1.0), st.sampled_from([FINE, PLAIN, COARSE]))
def test_what_snaps_stays_on_the_scale(field: object, share: float, kind: int) -> None:
    scale = scale_of(field)  # type: ignore[arg-type]
    value = scale.low + share * (scale.high - scale.low)
    snapped = scale.snapped(value, kind)
    assert scale.low <= snapped <= scale.high
    assert abs(snapped - value) <= 0.5 * scale.steps[kind] + 1e-6


def test_signs_are_spoken() -> None:
    lift, cant = FIELD["front_lift_deg"], FIELD["rear_cant_deg"]
    assert [spoken(lift, value) for value in (-6.0, 0.0, 2.25)] == [
        "6.0° heel lift",
        "no lift",
        "2.25° toe lift",
    ]
    assert [spoken(cant, value) for value in (4.5, -0.001)] == ["4.5° inward cant", "no cant"]
    assert spoken(FIELD["hip_shift_mm"], -25.4, Lengths("in")) == "1.00 in to the rear leg"
    assert spoken(FIELD["stance_length_mm"], 500.0) == "500 mm"
    assert in_words(FIELD["hips_turned_deg"], -4.0) == "to the tail"
