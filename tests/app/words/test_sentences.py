"""Numbers and lists as people say them."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from app.files.resources import ASSETS
from app.rider.inputs import FIELD
from app.words.field import IN_OUT, TOE_HEEL
from app.words.language import choose
from app.words.sentences import as_sentence, in_words, listed, plain, spoken, tilt_words


@pytest.fixture
def german() -> Iterator[None]:
    choose("de", ASSETS / "texts")
    yield
    choose("en", ASSETS / "texts")


@pytest.mark.parametrize(
    ("value", "decimals", "text"),
    [(4.0, 1, "4"), (4.25, 1, "4.2"), (-4.5, 1, "−4.5"), (-0.04, 1, "0"),
     (-0.4, 0, "0"), (100.0, 0, "100")],
)  # fmt: skip
def test_a_plain_number_has_no_needless_decimals_and_nothing_has_no_sign(
    value: float, decimals: int, text: str
) -> None:
    assert plain(value, decimals) == text


@pytest.mark.parametrize(
    ("name", "zero"),
    [("front_lift_deg", "no lift"), ("rear_cant_deg", "no cant"), ("hip_shift_mm", "in the middle"),
     ("hips_turned_deg", "with the feet"), ("knee_tracking_deg", "over the toes")],
)  # fmt: skip
def test_what_is_shown_as_zero_is_called_zero_from_either_side(name: str, zero: str) -> None:
    for nothing in (-0.004, 0.0, 0.004):
        assert spoken(FIELD[name], nothing) == in_words(FIELD[name], nothing) == zero
    for little in (-0.6, 0.6):
        assert zero not in spoken(FIELD[name], little)


def test_in_german_zero_is_zero_too_with_its_decimal_comma(german: None) -> None:
    assert (
        spoken(FIELD["front_lift_deg"], 0.004)
        == spoken(FIELD["front_lift_deg"], 0.0)
        == "kein Lift"
    )
    assert plain(-4.5) == "−4,5"


def test_a_tilt_in_short_has_a_side_and_no_sign() -> None:
    said = [tilt_words(signs, tilt) for signs in (TOE_HEEL, IN_OUT) for tilt in (3.0, -4.0)]
    assert said == ["3.0° toe", "4.0° heel", "3.0° in", "4.0° out"]


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("the rear leg cannot reach", "The rear leg cannot reach."),
        ("3 mm of Anna's plate", "3 mm of Anna's plate."),
        ("what now?", "What now?"),
        ("stop!", "Stop!"),
        ("and so on…", "And so on…"),
        ("", ""),
    ],
)
def test_a_sentence_begins_large_and_ends_once(text: str, sentence: str) -> None:
    assert as_sentence(text) == sentence


def test_words_in_a_row_are_parted_by_commas_and_one_and() -> None:
    assert listed(["lift"]) == "lift"
    assert listed(["lift", "cant"]) == "lift and cant"
    assert listed(["lift", "cant", "length"]) == "lift, cant and length"
