"""What suits the whole bend, as the window says it."""

from __future__ import annotations

from dataclasses import asdict
from math import isnan

import numpy as np
import pytest

from app.features.bend.model import bend_of
from app.features.needs.model import range_needs_of, range_needs_steps
from app.rider.setup import Setup, edited
from app.stance.needs import with_mounts
from geometry.fitting.steps import finished

DUCK = edited(
    Setup(), front_angle_deg=15.0, rear_angle_deg=-12.0, forward_lean_deg=10.0,
    flex_range_deg=20.0, side_give_deg=8.0,
)  # fmt: skip


def test_the_best_mounts_make_the_worst_of_the_bend_smaller() -> None:
    found = range_needs_of(Setup())
    for then, now in zip(found.worst_then_deg, found.worst_now_deg, strict=True):
        assert then < 0.7 * now


def test_with_the_best_mounts_on_the_worst_is_what_was_promised() -> None:
    found = range_needs_of(DUCK)
    then = range_needs_of(with_mounts(DUCK, found.mounts))
    assert then.worst_now_deg == pytest.approx(found.worst_then_deg, abs=0.5)
    assert then.mounts == found.mounts


def test_the_mounts_are_the_best_ones_in_half_degrees() -> None:
    found = range_needs_of(Setup())
    for exact, seen in zip(found.best, found.mounts, strict=True):
        assert seen % 0.5 == 0.0
        assert abs(seen - exact) <= 0.5


def test_the_range_goes_from_standing_tall_to_the_deepest_crouch_with_turned_hips() -> None:
    found = range_needs_of(Setup())
    assert 0.0 < found.tallest_deg < 30.0
    assert (found.deepest_deg, found.turn_deg) == (pytest.approx(90.0), pytest.approx(20.0))


def test_with_the_hips_as_they_are_the_bend_alone_is_told() -> None:
    turned = edited(Setup(), hips_turned_deg=8.0)
    alone, straight = (range_needs_of(each, turning=False) for each in (turned, Setup()))
    assert alone.turn_deg == 0.0
    assert alone.best != straight.best
    for name in ("front_lift_deg", "front_cant_deg", "rear_cant_deg"):
        assert getattr(straight.best, name) < getattr(range_needs_of(Setup()).best, name)


def test_the_worst_of_the_bend_alone_is_that_of_its_curve() -> None:
    setup = edited(Setup(), hips_turned_deg=8.0)
    curve = bend_of(setup.inputs).over_bend.off_plane
    worst = range_needs_of(setup, turning=False).worst_now_deg
    # The curve begins where the mounts in hand let one stand, and is finer.
    assert worst == pytest.approx(np.nanmax(np.abs(curve), axis=1), abs=0.5)


def test_the_answer_comes_in_steps_too() -> None:
    assert asdict(finished(range_needs_steps(DUCK))) == asdict(range_needs_of(DUCK))


def test_without_a_posture_there_is_no_best() -> None:
    far = {"stance_length_mm": 800.0, "hip_height_mm": 500.0, "knee_height_mm": 230.0}
    found = range_needs_of(edited(Setup(), **far, ankle_height_mm=100.0))
    assert isnan(found.best.front_lift_deg)
    assert isnan(found.worst_then_deg[0])
