"""Texts in another language, and what happens where one is missing."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.files.resources import ASSETS
from app.numbers import numbers
from app.rider.inputs import FIELD, Inputs, changed
from app.rider.setup import Setup
from app.stance.findings import MOVEMENTS, REMEDY, USUAL_LIMITS, findings_of
from app.stance.settled import settled
from app.words.language import best_of, choose, in_english, msgid, ntr, spoken, tr
from app.words.sentences import plain
from app.words.sentences import spoken as in_words
from app.words.units import DEGREES, amount, fixed, reading, span
from geometry.joints import AAOS_MOVEMENTS

TEXTS = ASSETS / "texts"


@pytest.fixture
def german():
    choose("de", TEXTS)
    yield
    choose("en", TEXTS)


def test_english_needs_no_file(tmp_path):
    assert choose("en", tmp_path / "nowhere") == "en"
    assert tr("from {low} to {high}", low="1", high="2") == "from 1 to 2"


def test_the_words_follow_the_language_chosen(german):
    assert FIELD["stance_length_mm"].label == "Bindungsabstand"
    assert in_words(FIELD["front_lift_deg"], -6.0) == "6,0° Fersenlift"
    assert in_words(FIELD["front_cant_deg"], 0.0) == "kein Cant"


def test_figures_take_the_decimal_mark_of_the_language(german):
    assert (plain(-7.25, 2), fixed(3.0, 1), amount(7.5, DEGREES)) == ("−7,25", "3,0", "7,5°")
    assert span(-60.0, 12.5, DEGREES) == "−60 bis 12,5°"


@given(value=st.floats(-90.0, 90.0).map(lambda each: round(each, 2)))
def test_what_is_shown_in_german_is_read_as_the_same_value(value):
    choose("de", TEXTS)
    try:
        assert reading(amount(value, DEGREES), DEGREES) == value
    finally:
        choose("en", TEXTS)


def test_findings_are_whole_german_sentences(german):
    inputs = Inputs(front_angle_deg=20.0, rear_angle_deg=5.0)
    front = findings_of(settled(inputs), USUAL_LIMITS).legs["front"]
    assert front.spoken.endswith("aus der Ebene, O-Bein")
    assert " auseinander, dein natürlicher Abstand ist " in front.sentence
    assert front.sentence.endswith(": Das Knie wird nach außen gedrückt.")


def test_what_is_data_stays_english_in_any_language(german):
    assert numbers(Setup())["front"]["state"] in {"in plane", "a little out", "out of plane"}


def test_every_movement_of_a_joint_has_a_text() -> None:
    assert {movement.name for movement in AAOS_MOVEMENTS} == set(MOVEMENTS)


def test_what_stays_english_is_written_in_english_and_german_goes_on_after_it(german):
    with in_english():
        assert (tr("in its plane"), fixed(3.5, 1), spoken()) == ("in its plane", "3.5", "en")
    assert (tr("in its plane"), fixed(3.5, 1), spoken()) == ("in der Ebene", "3,5", "de")


def test_a_leg_that_cannot_reach_says_so_in_german(german):
    inputs = changed(Inputs(), stance_length_mm=800, knee_bend_deg=5, hip_height_mm=600)
    front = findings_of(settled(inputs), USUAL_LIMITS).legs["front"]
    assert front.sentence.endswith(tr(REMEDY))
    assert front.sentence.startswith("Das ")
    assert tr(REMEDY) != REMEDY


def test_a_text_without_a_translation_stays_english(german):
    assert tr("no such text {here}", here=1) == "no such text 1"
    assert tr("") == ""


def test_counts_choose_their_form():
    assert ntr("{count} foot", "{count} feet", 1) == "1 foot"
    assert ntr("{count} foot", "{count} feet", 0) == "0 feet"


def test_a_missing_catalogue_leaves_english(tmp_path):
    assert choose("de", tmp_path) == "en"
    assert (spoken(), tr("flat"), plain(0.5)) == ("en", "flat", "0.5")


def test_a_language_that_is_not_spoken_is_english():
    assert choose("tlh", TEXTS) == "en"


@pytest.mark.parametrize("end", [0, 1, 3, 4, 20, 27, 28, 40, 999, 4001])
def test_a_catalogue_cut_short_never_keeps_the_program_from_speaking(tmp_path: Path, end: int):
    (tmp_path / "de.mo").write_bytes((TEXTS / "de.mo").read_bytes()[:end])
    assert choose("de", tmp_path) == "en"
    assert tr("{low} to {high}", low=1, high=2) == "1 to 2"


@given(data=st.binary(max_size=200))
def test_no_bytes_in_a_catalogue_keep_the_program_from_speaking(tmp_path_factory, data):
    folder = tmp_path_factory.getbasetemp() / "texts"
    folder.mkdir(exist_ok=True)
    # Behind a sound beginning, so that the reader goes on.
    (folder / "de.mo").write_bytes((TEXTS / "de.mo").read_bytes()[:28] + data)
    choose("de", folder)
    said = tr("flat")
    choose("en", TEXTS)
    assert isinstance(said, str)


def test_a_translation_with_a_wrong_place_gives_way_to_english(monkeypatch, german):
    monkeypatch.setattr("app.words.language._translated", lambda *_: "bis {nowhere}")
    assert tr("{low} to {high}", low=1, high=2) == "1 to 2"


@pytest.mark.parametrize(
    ("wanted", "code"),
    [
        (["de-AT", "en"], "de"),
        (["de_DE.UTF-8"], "de"),
        (["fr-FR", "de"], "de"),
        (["en-GB", "de"], "en"),
        (["C"], "en"),
        ([], "en"),
    ],
)
def test_the_best_liked_language_that_is_spoken_is_taken(wanted, code):
    assert best_of(wanted) == code


def test_a_mark_leaves_the_text_as_it_is(german):
    assert msgid("flat") == "flat"
