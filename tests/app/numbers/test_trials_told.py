"""The trials among the numbers.

Hard boots, neutral spacing 270, hip height 950, stance length 540, bend 45: 6 and 4
degrees felt too much and too little at 0/0, 5 felt even (common practice, no source);
it is tried twice here.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from math import degrees, radians
from typing import Any

import pytest

from app.numbers import numbers
from app.numbers.question import question_of
from app.rider.inputs import changed
from app.rider.parts import PartEntry, Parts
from app.rider.setup import Setup, estimated
from app.rider.trials import Entry, entry_of
from geometry.fitting.shares import settled_share
from geometry.fitting.trials import Tried, Verdict

# The known lengths leave knee and ankle estimated; the hip is measured.
RIDER = replace(
    estimated(Setup(), stature_mm=1800.0),
    inputs=changed(
        estimated(Setup(), stature_mm=1800.0).inputs,
        hip_height_mm=950.0, neutral_spacing_mm=270.0, stance_length_mm=540.0,
        front_angle_deg=0.0, rear_angle_deg=0.0,
    ),
)  # fmt: skip
FELT = (
    (6.0, Verdict.KNOCK_KNEED),
    (4.0, Verdict.BOW_LEGGED),
    (5.0, Verdict.EVEN),
    (5.0, Verdict.EVEN),
)


def tried(cant: float, felt: Verdict, day: int) -> Entry:
    inputs = changed(RIDER.inputs, front_cant_deg=cant, rear_cant_deg=cant)
    return entry_of(inputs, f"2026-01-{day:02}", (felt.value, felt.value), ("even", "even"), "")


@cache
def told(count: int, **asked: Any) -> dict[str, Any]:
    entries = [tried(cant, felt, day) for day, (cant, felt) in enumerate(FELT, 1)]
    setup = replace(RIDER, trials=tuple(entries[:count]))
    trials: dict[str, Any] = numbers(setup, question_of(frozenset(), asked, None))["trials"]
    return trials


def test_after_too_much_and_too_little_the_middle_is_to_be_tried() -> None:
    found = told(2)["front"]
    assert found["bracket_cants_deg"] == pytest.approx([4.0, 6.0])
    assert (found["next_cant_deg"], found["settled"]) == (5.0, False)


def test_what_felt_even_twice_settles_it() -> None:
    found = told(4)["rear"]
    assert (found["next_cant_deg"], found["settled"], found["trials"]) == (5.0, True, 4)
    assert found["comfortable_cant_deg"] == pytest.approx(5.0, abs=1.0)
    assert found["comfortable_cant_margin_deg"] > 0.0


def test_the_settled_share_is_the_geometrys() -> None:
    full = told(4)["front"]["full_cant_deg"]
    log = [Tried(radians(cant), radians(full), felt) for cant, felt in FELT]
    found, expected = told(4)["front"], settled_share(log)
    assert found["settled_share"] == pytest.approx(expected.share, abs=1e-9)
    assert found["settled_share_error"] == pytest.approx(expected.error, abs=1e-9)
    assert found["comfortable_cant_deg"] == pytest.approx(degrees(expected.share * radians(full)))
    assert found["says_little"] == expected.says_little


def test_without_trials_there_is_no_share_and_the_reason_says_where_to_start() -> None:
    found = told(0)
    assert found["logged"] == 0
    assert found["front"]["settled_share"] is found["front"]["bracket_shares"] is None
    assert found["front"]["reason"] == "no trial tells anything yet: begin here"


def test_the_step_asked_for_is_the_step_to_try_in() -> None:
    assert told(1)["front"]["next_cant_deg"] == 4.0
    assert told(1, cant_step_deg=3.0)["front"]["next_cant_deg"] == 3.0


def test_the_step_is_that_of_the_listed_parts_unless_it_is_asked_for() -> None:
    wedges = Parts(parts=(PartEntry("wedge", "across", 1.5, 5.0, 8),), largest_stack=4)
    setup = replace(RIDER, parts=wedges, trials=(tried(6.0, Verdict.KNOCK_KNEED, 1),))
    alone, asked = (
        numbers(setup, question_of(frozenset(), named, None))["trials"]
        for named in ({}, {"cant_step_deg": 2.0})
    )
    assert (alone["cant_step_deg"], alone["cant_step_from"]) == (1.5, "parts")
    assert alone["front"]["next_cant_deg"] == 4.5
    assert (asked["cant_step_deg"], asked["cant_step_from"]) == (2.0, "asked")
    assert told(1)["cant_step_from"] == "usual"


def test_beyond_full_cant_nothing_is_to_be_tried_without_consent() -> None:
    full = numbers(RIDER)["front"]["full_cant_deg"]
    twice = [tried(full + 0.1, Verdict.BOW_LEGGED, day) for day in (1, 2)]
    setup = replace(RIDER, trials=tuple(twice))
    alone, agreed = (
        numbers(setup, question_of(frozenset(), {"beyond_full_cant": legs}, None))["trials"]
        for legs in ("neither", "front")
    )
    assert alone["front"]["next_cant_deg"] is None
    assert alone["front"]["asks_consent"]
    assert agreed["front"]["next_cant_deg"] > full
    assert agreed["rear"]["next_cant_deg"] is None
