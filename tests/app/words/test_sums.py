"""Sums typed where a number is wanted: what they come to, and what is refused."""

from __future__ import annotations

from math import isnan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.words.units import DEGREES, ReadingError, reading, unit_of

MM, IN = unit_of("mm"), unit_of("mm", "in")


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("480+20", 500.0),
        ("500-12.5", 487.5),
        ("500 − 12,5", 487.5),
        ("1 + 2 × 3 - 4/2", 5.0),
        ("-5 + 3", -2.0),
        ("5--3", 8.0),
        ("0-0", 0.0),
        ("50 cm - 1 in", 474.6),
        ("480 mm + 2 mm", 482.0),
        ("480 mm+20", 500.0),
        ("2*24 cm", 480.0),
        ("5'10\" + 2 cm", 1798.0),
    ],
)
def test_a_sum_comes_to_what_it_says(text: str, value: float) -> None:
    assert reading(text, MM) == value


def test_parts_of_an_inch_are_read() -> None:
    assert reading("3/4", IN) == reading("3/4 in", MM) == 19.05


def test_angles_are_added_too() -> None:
    assert reading("15° + 7,5", DEGREES) == 22.5


@pytest.mark.parametrize(
    "text",
    [
        *("+", "5+", "*5", "5 10", "--5", "5 + + + 5", "(1+2)", "2**3", "1/0", "2 mm * 3 mm"),
        *("__import__('os')", "5'-10\"", "3x0", "1e3", "9" * 400 + "-" + "9" * 400),
    ],
)
def test_what_is_no_sum_is_refused(text: str) -> None:
    with pytest.raises(ReadingError):
        reading(text, MM)


@pytest.mark.parametrize("text", ["480+20 mm", "5 cm + 3"])
def test_a_number_whose_unit_can_only_be_guessed_is_refused(text: str) -> None:
    with pytest.raises(ReadingError, match="type a unit with each number"):
        reading(text, IN)


@given(st.text("0123456789.,+-*/×÷−°' \"incmft", max_size=24))
def test_whatever_is_typed_is_a_number_or_refused(text: str) -> None:
    try:
        value = reading(text, MM)
    except ReadingError:
        return
    assert not isnan(value)
