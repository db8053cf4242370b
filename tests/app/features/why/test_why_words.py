"""What is said of a number: sentences at two levels, formulas that hold, and sources."""

from __future__ import annotations

import math
import re
from dataclasses import replace

import pytest

from app.features.why.words import NAMES, TERMS, Reasoning, reasoning_of, value_of
from app.frame import Frame, frame
from app.rider.inputs import changed
from app.rider.setup import DEMO, Setup
from app.stance.answer import answer_of
from app.stance.topics import OF_ANSWER, OF_BOTH, TOPICS, Asked
from app.words.lengths import Lengths
from app.words.terms import TERM_OF

STANCES = (
    {},
    {"front_angle_deg": 15.0, "rear_angle_deg": -15.0, "stance_length_mm": 540.0},
    {"front_angle_deg": 90.0, "rear_angle_deg": 90.0, "stance_length_mm": 0.0,
     "across_spacing_mm": 200.0},
    {"front_angle_deg": 30.0, "rear_angle_deg": 20.0, "right_cuff_offset_deg": -2.5,
     "front_cant_deg": 5.0, "rear_cant_deg": -3.0, "knee_bend_deg": 60.0},
)  # fmt: skip
SETUPS = [replace(DEMO, inputs=changed(DEMO.inputs, **stance)) for stance in STANCES]
EVERY = [Asked(leg, topic) for leg in ("front", "rear") for topic in TOPICS]


def told(setup: Setup, asked: Asked) -> Reasoning:
    answer = answer_of(setup) if asked.topic in OF_ANSWER else None
    return reasoning_of(frame(setup), asked, answer)


def worked_out(formula: str) -> tuple[float, float, float]:
    """What stands before an equals sign comes to, what stands behind it, and how finely.

    Lengths in whole millimetres and angles to a tenth are what the reader has to go by, so
    each number may be off by half of its last digit.
    """
    left, _, right = formula.rpartition(" = ")
    shares = right.endswith("%")
    stated = float(re.sub(r"[^\d.−-]", "", right).replace("−", "-")) / (100.0 if shares else 1.0)
    python = left.replace("−", "-").replace("·", "*").replace("²", "**2").replace("½", "0.5")
    python = re.sub(r"\|([^|]+)\|", r"abs(\1)", python).replace(" mm", "").replace("°", "")
    python = re.sub(r"(cos|sin) (-?[\d.]+)", r"\1(\2)", python)
    names = {
        "cos": lambda deg: math.cos(math.radians(deg)),
        "sin": lambda deg: math.sin(math.radians(deg)),
        "atan": lambda x: math.degrees(math.atan(x)),
        "asin": lambda x: math.degrees(math.asin(x)),
        "acos": lambda x: math.degrees(math.acos(x)),
        "abs": abs,
    }
    value = eval(python, {"__builtins__": {}}, names)
    slack = 0.006 if shares else 1.2 if right.endswith("mm") else 0.35
    return float(value), stated, slack


@pytest.mark.parametrize("asked", EVERY)
@pytest.mark.parametrize("setup", SETUPS)
def test_each_formula_comes_to_what_is_said_behind_it(setup: Setup, asked: Asked) -> None:
    for step in told(setup, asked).steps:
        if " = " in step.filled and "…" not in step.filled:
            value, stated, slack = worked_out(step.filled)
            assert value == pytest.approx(stated, abs=slack), step.filled


@pytest.mark.parametrize("asked", EVERY)
def test_each_formula_has_values_and_a_source(asked: Asked) -> None:
    steps = told(DEMO, asked).steps
    assert len(steps) >= 2
    for step in steps:
        assert step.said
        assert bool(step.formula) <= bool(step.filled and step.source), step
    assert any(step.joints and step.joints != step.said for step in steps)


@pytest.mark.parametrize("asked", EVERY)
def test_the_title_bears_the_number_that_its_key_shows(asked: Asked) -> None:
    shown, answer = frame(DEMO), answer_of(DEMO)
    title = reasoning_of(shown, asked, answer).title
    assert title.endswith(value_of(shown, asked, answer))
    assert ("leg" in title) == (asked.topic not in OF_BOTH)


def test_the_numbers_are_those_of_the_findings() -> None:
    shown = frame(DEMO)
    rear = shown.findings.legs["rear"]
    assert value_of(shown, Asked("rear", "knee"), None) == rear.number == "2.6°"
    assert "= −2.6°" in told(DEMO, Asked("rear", "knee")).steps[5].filled
    assert rear.spoken in told(DEMO, Asked("rear", "knee")).steps[6].said
    assert "0.6°" in told(DEMO, Asked("rear", "boot")).steps[2].filled


def test_lengths_are_written_in_the_unit_chosen() -> None:
    shown = frame(DEMO, lengths=Lengths("in"))
    steps = reasoning_of(shown, Asked("front", "spacing"), None).steps
    assert " in · cos" in steps[0].filled
    assert "mm" not in " ".join(" ".join(step) for step in steps)


def test_without_a_posture_the_reason_is_told_and_the_straight_triangles_stay() -> None:
    shown: Frame = frame(replace(DEMO, inputs=changed(DEMO.inputs, stance_length_mm=800.0,
                                                      knee_bend_deg=5.0)))  # fmt: skip
    assert not shown.settled.posture.exists
    for topic in TOPICS:
        if topic in OF_ANSWER:
            continue
        steps = reasoning_of(shown, Asked("front", topic), None).steps
        if topic in {"spacing", "rule"}:
            assert len(steps) == 3
        else:
            assert [step.said for step in steps] == [shown.findings.legs["front"].sentence]


def test_what_is_not_known_yet_says_so() -> None:
    steps = reasoning_of(frame(DEMO), Asked("front", "cant"), None).steps
    assert len(steps) == 1
    assert value_of(frame(DEMO), Asked("front", "cant"), None) == "…"


def test_an_own_cant_from_trials_is_told_as_such() -> None:
    answer = answer_of(DEMO)
    own = replace(answer, rear=replace(answer.rear, trials=3, lift_trials=2))
    for topic in OF_ANSWER:
        steps = reasoning_of(frame(DEMO), Asked("rear", topic), own).steps
        assert any("your own" in step.said and "trials" in step.source for step in steps)


def test_each_topic_has_a_name_and_a_term() -> None:
    assert set(NAMES) == set(TERMS) == set(TOPICS)
    assert {"cant", "lift"} <= set(TERM_OF.values())
