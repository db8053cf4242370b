"""The finest step of cant that parts make."""

from __future__ import annotations

from math import degrees, isnan, radians, sin, tan

import numpy as np
import pytest

from app.features.trials.model import source_words
from app.rider.parts import PartEntry, Parts, model
from app.stance.own import Step, parts_step_deg, trial_step
from geometry.hardware.cant_step import finest_cant_step, smallest_cant
from geometry.hardware.stacks import stacks_of


def across(slope: float, count: int = 2) -> PartEntry:
    return PartEntry(f"wedge {slope}", "across", slope, 5.0, count)


def turnable(slope: float, step: float) -> PartEntry:
    return PartEntry(f"disc {slope}", "turnable", slope, 5.0, 2, step)


def parts(*entries: PartEntry, stack: int = 2) -> Parts:
    return Parts(parts=entries, largest_stack=stack)


@pytest.mark.parametrize(
    ("given", "step"),
    [
        (parts(across(1.5, 4), stack=4), 1.5),
        (parts(across(1.0), across(2.5)), 0.5),
        (parts(across(1.0), across(2.5), stack=1), 1.0),
        (parts(across(6.0)), 6.0),
        (parts(across(0.3)), 0.5),
        (parts(across(1.7)), 1.5),
        (parts(across(6.0), across(6.0001)), 6.0),
        (parts(turnable(6.0, 15.0)), 1.5),
        (parts(turnable(6.0, 90.0)), 6.0),
    ],
)
def test_the_step_is_the_smallest_difference_of_the_cants_made(given: Parts, step: float) -> None:
    assert parts_step_deg(given) == step


@pytest.mark.parametrize(
    "given",
    [
        parts(),
        parts(across(3.0, 0)),
        parts(across(3.0), stack=0),
        parts(PartEntry("toe wedge", "along", 3.0, 5.0)),
        parts(turnable(6.0, 180.0)),
        parts(PartEntry(" ", "across", 3.0, 5.0)),
    ],
)
def test_parts_that_make_no_cant_have_no_step(given: Parts) -> None:
    assert parts_step_deg(given) is None
    assert trial_step(given) == Step(0.5, "usual")


def test_a_turned_part_counts_with_its_first_step_from_flat() -> None:
    # tan cant = tan slope times the sine of the bearing: exact for one part.
    disc = model(parts(turnable(6.0, 15.0))).parts[0]
    assert tan(smallest_cant(disc)) == pytest.approx(tan(radians(6.0)) * sin(radians(15.0)))


def test_every_stack_of_fixed_slopes_stands_on_the_steps() -> None:
    given = model(parts(across(1.0, 4), across(2.5, 4), across(4.0, 4), stack=3))
    _, cants = stacks_of(given).soles(0.0, 1.0)
    apart = np.diff(np.unique(np.round(np.degrees(cants), 6)))
    assert degrees(finest_cant_step(given)) == pytest.approx(apart.min())


def test_a_step_that_is_asked_for_wins_over_the_parts() -> None:
    given = parts(across(1.5))
    assert trial_step(given) == Step(1.5, "parts")
    assert trial_step(given, 2.0) == Step(2.0, "asked")


def test_the_words_say_where_the_step_comes_from() -> None:
    assert source_words(None, 1.0) == ""
    assert source_words(1.5, None) == "In steps of 1.5°, as your parts make them."
    assert source_words(1.5, 2.0) == "In steps of 2.0°, chosen by hand; your parts make 1.5°."


def test_no_part_at_all_gives_no_number() -> None:
    assert isnan(finest_cant_step(model(parts())))
