"""Places of holes as they are typed: what is taken, what is refused and how, and no drift."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.features.wedge.hole_spots import SpotError, spots_in, spots_text
from app.features.wedge.units import PartLengths
from app.rider.wedge import HOLE_SPOT, MOST_HOLES
from app.words.units import LENGTH_UNITS

MM, INCH = PartLengths("mm").unit, PartLengths("in").unit
place = st.floats(HOLE_SPOT.low, HOLE_SPOT.high).map(lambda value: round(value, 6) + 0.0)
spots = st.lists(st.tuples(place, place), max_size=MOST_HOLES).map(tuple)


@pytest.mark.parametrize(
    "text",
    [
        "20.5 -30",
        "20,5 −30",
        "20,5, -30",
        "20.5,-30 mm".replace(",", ", "),
        "20,5; −30",
        "(20.5, − 30)",
        "20.5\t-30",
        "  20.5   –30  ",
        "2.05 cm  -3 cm",
        "20.5mm, -30mm",
    ],
)
def test_both_decimal_signs_all_minus_signs_and_units_mean_the_same_hole(text: str) -> None:
    assert spots_in(text, MM) == ((20.5, -30.0),)


def test_every_line_is_a_hole_and_empty_lines_are_none() -> None:
    assert spots_in("\n20 20\n\n  \n-20 0\n", MM) == ((20.0, 20.0), (-20.0, 0.0))
    assert spots_in(" \n", MM) == ()


def test_numbers_without_a_unit_are_in_the_unit_shown() -> None:
    assert spots_in("1, −0.5", INCH) == ((25.4, -12.7),)
    assert spots_in("40 mm, 1", INCH) == ((40.0, 25.4),)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("0 0\n20", "hole 2, “20”, has one number only: type two with a blank between"),
        ("20,5", "hole 1, “20,5”, has one number, for its comma is a decimal sign"),
        ("1 2 3", "hole 1, “1 2 3”, has 3 numbers: type two, and every hole on a line"),
        ("20 ,5", "hole 1, “20 ,5”, can mean 0.5 or 5: type one of them"),
        ("a b", "hole 1, “a b”, has one number only"),
        ("20 3x0", "cannot be read: “3x0” is not a number; type a number in millimetres"),
        ("20 30°", "“30°” is not in millimetres"),
        ("20 1e3", "“1e3” is not"),
        ("0 0\n1 1\n5000 0", "hole 3, “5000 0”, is too far out with 5000 mm: .* −300 to 300 mm"),
        ("20,30,40 1", "“20,30,40” is not a number"),
    ],
)
def test_nonsense_is_told_with_its_hole_and_what_to_do(text: str, words: str) -> None:
    with pytest.raises(SpotError, match=words):
        spots_in(text, MM)


def test_too_many_holes_are_told() -> None:
    with pytest.raises(SpotError, match="25 holes are too many: leave some out, 24 at most"):
        spots_in("1 1\n" * (MOST_HOLES + 1), MM)


def test_a_decimal_comma_parts_the_numbers_by_a_semicolon(monkeypatch: pytest.MonkeyPatch) -> None:
    def with_comma(value: float, _unit: object) -> str:
        return f"{value:.1f}".replace(".", ",")

    monkeypatch.setattr("app.features.wedge.hole_spots.figure", with_comma)
    assert spots_text(((20.5, -30.0),), MM) == "20,5; -30,0"


@given(spots, st.sampled_from(LENGTH_UNITS))
def test_what_is_shown_reads_back_exactly_in_any_unit(
    there: tuple[tuple[float, float], ...], name: str
) -> None:
    unit = PartLengths(name).unit
    assert spots_in(spots_text(there, unit), unit, there) == there


def test_a_hole_that_is_typed_anew_leaves_the_others_and_its_other_number_exact() -> None:
    there = ((28.284271, 0.0), (0.0, 28.284271))
    assert spots_text(there, INCH) == "1.114, 0.000\n0.000, 1.114"
    found = spots_in("1, 1\n1.114, 0.000\n0.5, 1.114", INCH, there)
    assert found == ((25.4, 25.4), there[0], (12.7, 28.284271))
