"""What the geometry refuses, taken apart and said in another language."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

import pytest

from app.features.growing.model import ahead_of
from app.features.measuring.model import with_repeat
from app.features.parts.reaching import count_of, usual_wishes
from app.files.resources import ASSETS
from app.rider.inputs import model
from app.rider.parts import PartEntry, Parts
from app.rider.parts import model as parts_model
from app.rider.setup import Setup
from app.words.language import choose
from app.words.lengths import Lengths
from app.words.reasons import told
from app.words.refusals import refusal
from geometry.hardware.stacks import stacks_of
from geometry.riders.repeats import repeats_finding, repeats_of

WEDGE = PartEntry("round wedge", "turnable", 3.0, 7.0)
ROUND = Parts(parts=(WEDGE,))
HEIGHTS = replace(Setup().inputs, knee_height_mm=950.0)


@pytest.fixture
def german() -> Iterator[None]:
    choose("de", ASSETS / "texts")
    yield
    choose("en", ASSETS / "texts")


def refused(ask: Callable[[], object]) -> str:
    with pytest.raises(ValueError) as caught:  # noqa: PT011
        ask()
    return str(caught.value)


def parts_with(**changes: float) -> Callable[[], object]:
    return lambda: parts_model(replace(ROUND, parts=(replace(WEDGE, **changes),)))


def many_stacks() -> object:
    """More ways to stack parts than can be gone through."""
    fine = tuple(replace(WEDGE, name=name, bearing_step_deg=1.0) for name in "abcd")
    return stacks_of(parts_model(Parts(parts=fine, largest_stack=4)))


def wishes_with(parts: Parts = ROUND, **changes: float) -> Callable[[], object]:
    setup = replace(Setup(), parts=parts)
    return lambda: count_of(setup, replace(usual_wishes(setup.inputs), **changes))


@pytest.mark.parametrize(
    ("ask", "said"),
    [
        (lambda: model(HEIGHTS), "Kniehöhe 950 mm: das muss kleiner sein als Hüfthöhe, 880 mm"),
        (parts_with(slope_deg=60.0), "Neigung von round wedge 60 Grad: möglich sind 0,1 bis 45"),
        (parts_with(bearing_step_deg=7.0), "Drehschritt von round wedge 7 Grad: eine volle"),
        (parts_with(count=-1), "Anzahl von round wedge -1: möglich sind ganze Zahlen von 0 bis"),
        (lambda: parts_model(replace(ROUND, parts=(WEDGE, WEDGE))), "zwei Teile heißen round "),
        (wishes_with(front_angle_least=80.0), "Bindungswinkel vorn: das Kleinste, 80 Grad, ist"),
        (wishes_with(stance_length_least=481.0, stance_length_most=499.0), "die Inserts erlaub"),
        (wishes_with(splay_least=1.0, splay_most=2.0), "kein Paar von Bindungswinkeln in Schri"),
        (many_stacks, "die Teile lassen sich auf mehr als die 1.000.000 Arten stapeln, die dur"),
        (lambda: ahead_of(Setup(), 30.0, 1.0, "boys"), "Alter 30 Jahre: möglich sind 6 bis 18 "),
    ],
)
def test_a_refusal_is_said_in_german(german: None, ask: Callable[[], object], said: str) -> None:
    assert refusal(refused(ask)).startswith(said)


def test_lengths_of_a_refusal_are_told_in_the_unit_chosen(german: None) -> None:
    said = told(refused(lambda: model(HEIGHTS)), Lengths("cm"))
    assert said == "Kniehöhe 95,0 cm: das muss kleiner sein als Hüfthöhe, 88,0 cm."


def test_repeats_that_do_not_agree_are_told_in_german(german: None) -> None:
    said = told(repeats_finding(repeats_of((880.0, 950.0))), Lengths("in"))
    assert said.startswith("Die Wiederholungen liegen 2,76 in auseinander, mehr als 0,39 in: ")


def test_a_measurement_that_contradicts_others_says_what_to_begin_with(german: None) -> None:
    short = replace(Setup(), inputs=replace(Setup().inputs, hip_height_mm=600.0))
    said = told(refused(lambda: with_repeat(short, "knee_height_mm", 620.0)))
    assert said.endswith("600 mm; Hüfthöhe noch nicht gemessen, beginne damit.")


def test_in_english_the_geometry_speaks_for_itself() -> None:
    for said in (refused(lambda: model(HEIGHTS)), refused(many_stacks), "of another kind, 5 mm"):
        assert refusal(said) == said
