"""The way from who is riding to the log of trials: which step is next in which state."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.features.measuring.model import things_to_measure, with_repeat
from app.rider.inputs import FIELD, changed
from app.rider.parts import KINDS, PartEntry, Parts
from app.rider.setup import BOOTS, DEMO, Setup, edited, estimated
from app.rider.trials import Entry
from app.window.next_steps import STEPS, Known, finished, measured, next_step, words_of

ESTIMATED = estimated(DEMO, stature_mm=1780.0)


def all_measured(setup: Setup) -> Setup:
    """Everything read off once."""
    for name in things_to_measure(setup)[1:]:
        setup = with_repeat(setup, name, setup.inputs.value(name))
    return setup


MEASURED = all_measured(ESTIMATED)
STANDING = edited(MEASURED, front_angle_deg=47.0)
LIFTED = edited(STANDING, front_lift_deg=1.0)
WITH_PARTS = replace(LIFTED, parts=Parts(parts=(PartEntry("slope", KINDS[0], 3.0, 10.0),)))
TRIAL = Entry(
    "2026-01-31", "left", (47.0, 38.0), 505.0, 0.0, (1.0, 0.0), (0.0, 0.0), ("even", "even")
)
TRIED = replace(WITH_PARTS, trials=(TRIAL,))

STATES = [
    ("who", Known(DEMO, DEMO)),
    ("measure", Known(ESTIMATED, DEMO)),
    ("stance", Known(MEASURED, DEMO)),
    ("answer", Known(STANDING, DEMO)),
    ("parts", Known(LIFTED, DEMO)),
    ("try", Known(WITH_PARTS, DEMO)),
    ("log", Known(TRIED, DEMO)),
    ("save", Known(TRIED, DEMO, enough=True)),
]


@pytest.mark.parametrize(("key", "known"), STATES, ids=[key for key, _ in STATES])
def test_each_state_leads_to_its_step(key: str, known: Known) -> None:
    step = next_step(finished(known))
    assert step is not None
    assert step.key == key
    assert words_of(step, known.setup)


def test_the_table_has_a_state_for_every_step() -> None:
    assert [key for key, _ in STATES] == [step.key for step in STEPS]


def test_nothing_is_next_once_all_is_done_and_saved() -> None:
    assert next_step(finished(Known(TRIED, DEMO, saved=True, enough=True))) is None


def test_a_stance_that_needs_nothing_asks_for_no_parts() -> None:
    seen = finished(Known(STANDING, DEMO, left={"Begin with"}))
    step = next_step(seen)
    assert step is not None
    assert step.key == "try"


def test_what_was_measured_is_counted_of_all_there_is_to_measure() -> None:
    done, count = measured(DEMO)
    assert (done, count) == (1, len(things_to_measure(DEMO)))  # the cuffs are seen to
    assert measured(replace(DEMO, cuffs=""))[0] == 0
    assert measured(MEASURED) == (count, count)
    apart = replace(MEASURED, apart=frozenset({BOOTS}))
    assert measured(apart)[1] > count


def test_a_boots_number_that_was_set_by_hand_counts_as_seen_to() -> None:
    lean = FIELD["forward_lean_deg"]
    other = replace(DEMO, inputs=changed(DEMO.inputs, forward_lean_deg=lean.high))
    assert measured(other)[0] == measured(DEMO)[0] + 1
