"""Why something is refused or has no answer, said in the user's language and unit."""

from __future__ import annotations

import ast
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from itertools import product
from math import nan
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.features.growing.model import ahead_of
from app.features.measuring.model import with_repeat
from app.features.parts.editing import RefusedError, refusal_words, with_cell
from app.features.parts.reaching import count_of, usual_wishes
from app.features.wedge.model import Slopes, part_of
from app.files.resources import ASSETS
from app.numbers.hardware import wedge_numbers
from app.rider.inputs import DEFAULTS, changed, model
from app.rider.parts import PartEntry, Parts
from app.rider.parts import model as parts_model
from app.rider.setup import Setup
from app.words.language import NAMES as LANGUAGES
from app.words.language import choose, tr
from app.words.lengths import Lengths
from app.words.reasons import NAMES, SENTENCES, reason_phrase, reason_sentence
from app.words.units import LENGTH_UNITS
from geometry import posture_reasons, solve
from geometry.fitting.fit import fit_of, fit_reasons
from geometry.fitting.next_angle import next_angle
from geometry.fitting.trials import Tried, Verdict
from geometry.hardware.stacks import stacks_of
from geometry.reasons import ImpossibleError
from geometry.riders.repeats import repeats_finding, repeats_of

ROOT = Path(__file__).parents[3]
PLATE = PartEntry("10 mm plate", "turnable", 3.0, 7.0)
PLATES = Parts(parts=(PLATE,))
LEG = replace(DEFAULTS.left, knee_height_mm=950.0)
HEIGHTS = replace(DEFAULTS, left=LEG, right=LEG)
FAR_APART = changed(DEFAULTS, stance_length_mm=800, knee_bend_deg=5, hip_height_mm=600)


@contextmanager
def speaking(language: str) -> Iterator[None]:
    assert choose(language, ASSETS / "texts") == language
    try:
        yield
    finally:
        choose("en", ASSETS / "texts")


@pytest.fixture
def german() -> Iterator[None]:
    with speaking("de"):
        yield


def refused(ask: Callable[[], object]) -> ImpossibleError:
    with pytest.raises(ImpossibleError) as caught:
        ask()
    return caught.value


def plates_with(**changes: float | str) -> Callable[[], object]:
    return lambda: parts_model(replace(PLATES, parts=(replace(PLATE, **changes),)))


def many_stacks() -> object:
    """More ways to stack parts than can be gone through."""
    fine = tuple(replace(PLATE, name=name, bearing_step_deg=1.0) for name in "abcd")
    return stacks_of(parts_model(Parts(parts=fine, largest_stack=4)))


def wishes_with(**changes: float) -> Callable[[], object]:
    setup = replace(Setup(), parts=PLATES)
    return lambda: count_of(setup, replace(usual_wishes(setup.inputs), **changes))


SPLAY = wishes_with(splay_least=1.0, splay_most=2.0)
BETWEEN_INSERTS = wishes_with(stance_length_least=481.0, stance_length_most=499.0)
ALIKE = lambda: parts_model(replace(PLATES, parts=(PLATE, PLATE)))  # noqa: E731

# What each says in English, to the letter, as files and the command line have it.
REFUSED = [
    (lambda: model(HEIGHTS), "knee height is 950 mm; it must be less than the hip height, 880 mm"),
    (plates_with(slope_deg=60.0),
     "slope of 10 mm plate is 60 deg; it must lie between 0.1 and 45 deg"),
    (plates_with(thickness_mm=120.0),
     "thickness of 10 mm plate is 120 mm; it must lie between 0 and 100 mm"),
    (plates_with(bearing_step_deg=7.0),
     "step of bearing of 10 mm plate is 7 deg; a full turn must be a whole number of steps"),
    (plates_with(count=-1),
     "count of 10 mm plate is -1; it must be a whole number from 0 to 100"),
    (ALIKE, "two parts are called 10 mm plate and slope 3°; give each its own name"),
    (wishes_with(front_angle_least=80.0),
     "the least front binding angle, 80 deg, is more than the most, 52 deg"),
    (BETWEEN_INSERTS, "the inserts allow no stance length from 481 to 499 mm; "
     "they allow 400 to 600 mm, one every 20 mm"),
    (SPLAY, "no pair of binding angles in steps of 3° lies within the limits of front angle, "
     "rear angle and splay"),
    (many_stacks, "the parts can be stacked in more than the 1,000,000 ways that can be gone "
     "through; take a wider step of bearing, fewer parts or a lower stack"),
    (lambda: ahead_of(Setup(), 30.0, 1.0, "boys"),
     "age is 30 years; it must lie between 6 and 18 years"),
]  # fmt: skip


@pytest.mark.parametrize(("ask", "said"), REFUSED)
def test_a_refusal_is_said_in_english(ask: Callable[[], object], said: str) -> None:
    assert reason_phrase(refused(ask)) == said


@pytest.mark.parametrize(
    ("ask", "said"),
    [
        (lambda: model(HEIGHTS), "Kniehöhe 950 mm: das muss kleiner sein als Hüfthöhe, 880 mm"),
        (plates_with(slope_deg=60.0), "Neigung von 10 mm plate 60 Grad: möglich sind 0,1 bis 45"),
        (plates_with(bearing_step_deg=7.0), "Drehschritt von 10 mm plate 7 Grad: eine volle"),
        (plates_with(count=-1), "Anzahl von 10 mm plate -1: möglich sind ganze Zahlen von 0 bis"),
        (ALIKE, "zwei Teile heißen 10 mm plate "),
        (wishes_with(front_angle_least=80.0), "Bindungswinkel vorn: das Kleinste, 80 Grad, ist"),
        (BETWEEN_INSERTS, "die Inserts erlaub"),
        (SPLAY, "kein Paar von Bindungswinkeln in Schri"),
        (many_stacks, "die Teile lassen sich auf mehr als die 1.000.000 Arten stapeln, die dur"),
        (lambda: ahead_of(Setup(), 30.0, 1.0, "boys"), "Alter 30 Jahre: möglich sind 6 bis 18 "),
    ],
)
def test_a_refusal_is_said_in_german(german: None, ask: Callable[[], object], said: str) -> None:
    assert reason_phrase(refused(ask)).startswith(said)


def test_lengths_of_a_refusal_are_told_in_the_unit_chosen(german: None) -> None:
    said = reason_sentence(refused(lambda: model(HEIGHTS)), Lengths("cm"))
    assert said == "Kniehöhe 95,0 cm: das muss kleiner sein als Hüfthöhe, 88,0 cm."


def test_repeats_that_do_not_agree_are_told_in_german(german: None) -> None:
    said = reason_sentence(repeats_finding(repeats_of((880.0, 950.0))), Lengths("in"))
    assert said.startswith("Die Wiederholungen liegen 2,76 in auseinander, mehr als 0,39 in: ")


def test_a_measurement_that_contradicts_others_says_what_to_begin_with(german: None) -> None:
    short = replace(Setup(), inputs=changed(DEFAULTS, hip_height_mm=600))
    said = reason_sentence(
        refused(lambda: with_repeat(short, "knee_height_mm", 620.0)), Lengths("in")
    )
    assert said.endswith("23,62 in; Hüfthöhe noch nicht gemessen, beginne damit.")


# What a rider calls a part


FAULTS = [{"slope_deg": 60.0}, {"thickness_mm": 120.0}, {"count": -1}, {"bearing_step_deg": 7.0},
          {"bearing_step_deg": 0.5}]  # fmt: skip


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("unit", LENGTH_UNITS)
def test_a_part_keeps_its_name_whatever_is_wrong_with_it(language: str, unit: str) -> None:
    with speaking(language):
        said = [reason_sentence(refused(plates_with(**fault)), Lengths(unit)) for fault in FAULTS]
        said.append(reason_sentence(refused(ALIKE), Lengths(unit)))
    assert all("10 mm plate" in each for each in said)


NAMED = st.text(min_size=1).filter(str.strip)


@given(NAMED, st.sampled_from(FAULTS), st.sampled_from(LENGTH_UNITS))
def test_whatever_a_part_is_called_stands_in_the_sentence_as_it_is(
    name: str, fault: dict[str, float], unit: str
) -> None:
    error = refused(plates_with(name=name, **fault))
    for language in LANGUAGES:
        with speaking(language):
            assert name in reason_phrase(error, Lengths(unit))


def test_what_is_sold_by_its_size_is_told_in_millimetres_beside_inches() -> None:
    thick = reason_phrase(refused(plates_with(thickness_mm=120.0)), Lengths("in"))
    assert thick == "thickness of 10 mm plate is 120 mm; it must lie between 0 and 100 mm"
    lengths = reason_phrase(refused(BETWEEN_INSERTS), Lengths("in"))
    assert lengths.endswith("from 18.94 to 19.65 in; they allow 15.75 to 23.62 in, one every 20 mm")


def test_what_was_typed_into_a_cell_is_quoted_as_it_was_typed() -> None:
    with pytest.raises(RefusedError) as caught:
        with_cell(PLATES, 0, "thickness_mm", "80 mm")
    assert refusal_words(caught.value, Lengths("in")) == (
        "Thickness: “80 mm” was not taken: 0 to 60 mm only."
    )


# A wedge


def test_a_wedge_that_cannot_be_meant_is_told_by_the_numbers_in_english() -> None:
    wedge = replace(Setup().wedge, slopes="mounts", length_mm=200.0, width_mm=110.5,
                    corner_radius_mm=60.55)  # fmt: skip
    assert wedge_numbers(replace(Setup(), wedge=wedge))["front"]["reason"] == (
        "corner radius is 60.55 mm; on 200 by 110.5 mm it can be 55.2 mm at most"
    )


def test_holes_so_close_that_they_are_one_are_refused() -> None:
    wedge = replace(Setup().wedge, holes="grid", grid_along_mm=0.4)
    error = refused(lambda: part_of(replace(Setup(), wedge=wedge), Slopes(3.0, 2.0)))
    said = "holes 0.4 mm apart are one hole: make it 0, or 1 mm or more"
    assert reason_phrase(error) == said


# Keys and their sentences


def texts_in(*folders: str) -> set[str]:
    """Every text in the source that is no description, but for the table of sentences."""
    return {
        node.value
        for folder in folders
        for path in (ROOT / folder).rglob("*.py")
        if path != ROOT / "app" / "words" / "reasons.py"
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }


def keys_given() -> Iterator[str]:
    """The keys that the source makes reasons of."""
    for folder in ("geometry", "app"):
        for path in (ROOT / folder).rglob("*.py"):
            for node in ast.walk(ast.parse(path.read_text("utf-8"))):
                if isinstance(node, ast.Call) and getattr(node.func, "id", "") in CALLED:
                    yield from keys_in(node.args[0])


CALLED = {"Reason", "impossible"}


def keys_in(node: ast.expr) -> Iterator[str]:
    if isinstance(node, ast.IfExp):
        yield from (*keys_in(node.body), *keys_in(node.orelse))
    elif isinstance(node, ast.Constant):
        yield str(node.value)


def test_every_key_that_is_given_has_a_sentence() -> None:
    given_ones = set(keys_given())
    assert {"out of range", "holes cut each other"} < given_ones <= set(SENTENCES)


def test_no_sentence_and_no_name_is_there_for_nothing() -> None:
    used = texts_in("geometry", "app")
    assert not set(SENTENCES) - used
    assert not set(NAMES) - texts_in("geometry")


@pytest.mark.parametrize("language", set(LANGUAGES) - {"en"})
def test_every_key_has_a_sentence_in_every_language(language: str) -> None:
    with speaking(language):
        assert not [key for key, said in SENTENCES.items() if tr(said) == said]
        assert not [name for name in NAMES if tr(name, "refused") == name]


def test_a_stance_out_of_reach_has_a_sentence_for_every_key() -> None:
    wide = [replace(FAR_APART, front_angle_deg=a, rear_angle_deg=b) for a, b in ((30, 5), (5, 30))]
    solved = [model(each) for each in (FAR_APART, *wide)]
    keys = {str(key) for each in solved for key in posture_reasons(solve(*each))}
    keys |= {str(key) for each in solved for key in fit_reasons(fit_of(*each))}
    assert len(keys) > 1
    assert keys - {""} <= set(SENTENCES)


def test_every_cant_to_try_next_has_a_sentence() -> None:
    felt = [Tried(cant, 0.1, each) for cant, each in product((0.0, 0.04, 0.08, 0.1), Verdict)]
    logs = [[], *([one] for one in felt), *([one, other] for one, other in product(felt, felt))]
    asked = product(logs, (nan, 0.0, 0.1), (0.01, 0.05, 0.07), (False, True))
    keys = {next_angle(log, full, step, beyond=on).why for log, full, step, on in asked}
    keys |= {next_angle([one] * 6, full, 0.07).why for one in felt for full in (0.1, 0.2)}
    keys |= {next_angle([one] * 6, 0.1, 0.07, most=0.02).why for one in felt}
    assert len(keys) == 14
    assert keys <= set(SENTENCES)


def test_for_programmers_a_reason_names_its_values() -> None:
    error = refused(plates_with(slope_deg=60.0))
    assert str(error) == (
        "out of range: name slope of 10 mm plate, value 60 deg, range 0.1 to 45 deg"
    )
