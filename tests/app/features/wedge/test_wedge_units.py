"""Lengths of a wedge in the unit chosen, as fine as a wedge is made."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.features.wedge.units import PartLengths
from app.rider.wedge import WEDGE_FIELDS
from app.words.scale import scale_of
from app.words.units import LENGTH_UNITS
from geometry.reasons import Amount


@pytest.mark.parametrize(
    ("unit", "figure", "size", "amount"),
    [("mm", "20.0", "20", "20.0 mm"), ("cm", "2.00", "2.0", "2.00 cm"),
     ("in", "0.787", "0.787", "0.787 in")],
)  # fmt: skip
def test_computed_figures_show_a_tenth_of_a_millimetre_or_finer(
    unit: str, figure: str, size: str, amount: str
) -> None:
    lengths = PartLengths(unit)
    assert (lengths.figure(20.0), lengths.size(20.0), lengths.amount(20.0)) == (
        figure,
        size,
        amount,
    )


@given(st.floats(0.1, 300.0), st.sampled_from(LENGTH_UNITS))
def test_what_is_rounded_up_in_a_sentence_is_enough_and_down_is_no_more(
    length: float, unit: str
) -> None:
    lengths = PartLengths(unit)
    low, high = (
        float(lengths.in_reason(Amount(length, "mm", toward)).removesuffix(lengths.unit.suffix))
        * lengths.unit.size
        for toward in (-1, 1)
    )
    # A millionth of the last figure is what floats may leave of a round number.
    assert low - 1e-3 <= length <= high + 1e-3
    assert high - low <= 1.01 * lengths.unit.size / 10.0**lengths.decimals + 1e-9


def test_a_volume_is_in_the_cube_of_the_unit() -> None:
    # 10 in by 1 in by 1 in; an inch is 25.4 mm by definition.
    assert PartLengths("in").volume(10.0 * 25.4**3) == "10.00\N{NO-BREAK SPACE}in³"
    assert PartLengths("cm").volume(198000.0) == "198.0\N{NO-BREAK SPACE}cm³"


def test_a_drawing_is_in_inches_or_in_millimetres() -> None:
    assert [PartLengths(unit).drawn.name for unit in ("mm", "cm", "in")] == ["mm", "mm", "in"]


@pytest.mark.parametrize("field", WEDGE_FIELDS, ids=lambda field: field.name)
@pytest.mark.parametrize("unit", LENGTH_UNITS)
def test_every_step_of_a_number_shows(field, unit) -> None:
    scale = scale_of(field, PartLengths(unit))
    middle = scale.snapped(0.5 * (field.low + field.high), 1)
    for kind in (0, 1, 2):
        assert scale.text(scale.stepped(middle, 1, kind)) != scale.text(middle)


def test_a_hole_of_six_and_a_half_millimetres_is_not_blurred_by_inches() -> None:
    (hole,) = (field for field in WEDGE_FIELDS if field.name == "hole_mm")
    scale = scale_of(hole, PartLengths("in"))
    assert scale.text(6.5) == "0.256 in"
    assert scale.read("0.256") == pytest.approx(6.5, abs=0.0127)
    assert scale.read("6.5 mm") == 6.5
