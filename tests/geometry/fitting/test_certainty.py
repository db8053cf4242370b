"""How sure the answer is, against answers drawn at random."""

from __future__ import annotations

import numpy as np
import pytest
from fit_riders import demo, practice, rad
from refused import refused

from geometry.fitting.answer import Mounts, Terms, answer_of
from geometry.fitting.certainty import RANGE, certainty_of
from geometry.fitting.inputs import PostureInputs, shifted

TERMS = Terms()
# Standard errors of a rider who was measured once (invented).
SPREADS = {
    "hip_height": 8.0,
    "knee_height": 6.0,
    "hip_spacing": 8.0,
    "neutral_spacing": 8.0,
    "knee_tracking": rad(1.5),
    "hip_shift": 15.0,
    "side_give": rad(1.0),
    "front_cuff_offset": rad(1.0),
    "rear_cuff_offset": rad(1.0),
}
TOGETHER = {("hip_height", "knee_height"): 0.6}
RIDERS = {
    "demo": demo(),
    "straight": practice(0.0, 0.0),
    "duck": practice(15.0, -15.0),
    "along": practice(90.0, 90.0),
}


def drawn_ranges(asked: PostureInputs, draws: int) -> np.ndarray:
    """Ends of the likely lifts and cants over riders drawn at random (deg), shape (2, 2, 2)."""
    names = list(SPREADS)
    matrix = np.eye(len(names))
    i, j = names.index("hip_height"), names.index("knee_height")
    matrix[i, j] = matrix[j, i] = 0.6
    errors = np.random.default_rng(77).normal(size=(len(names), draws))
    together = np.linalg.cholesky(matrix) @ errors
    shifts = {name: SPREADS[name] * each for name, each in zip(names, together, strict=True)}
    found = answer_of(shifted(asked, shifts), TERMS)
    ends = [np.nanquantile(values, RANGE, axis=1).T for values in (found.lift, found.cant)]
    return np.degrees(ends)


@pytest.mark.parametrize("asked", RIDERS.values(), ids=RIDERS)
def test_the_range_is_that_of_riders_drawn_at_random(asked: PostureInputs) -> None:
    sure = certainty_of(asked, TERMS, SPREADS, TOGETHER)
    ours = np.degrees([sure.lift_range, sure.cant_range])
    # 1,500 draws leave about 0.05 deg to chance; the range itself is within 0.15 deg.
    assert ours == pytest.approx(drawn_ranges(asked, 1500), abs=0.2)


def test_an_answer_at_flat_is_not_called_certain() -> None:
    sure = certainty_of(demo(), TERMS, SPREADS)
    assert np.degrees(sure.answer.cant[0, 0]) == pytest.approx(0.0, abs=0.01)
    low, high = np.degrees(sure.cant_range[0])
    assert low == 0.0
    assert high > 0.3


def test_nothing_uncertain_leaves_the_answer_alone() -> None:
    sure = certainty_of(demo(), TERMS, {})
    assert sure.cant_range == pytest.approx(np.repeat(sure.answer.cant, 2, axis=1))
    assert sure.sources(1) == ()


def test_the_largest_error_is_named_as_the_one_that_carries_most() -> None:
    small = {name: spread / 20.0 for name, spread in SPREADS.items()}
    for name in ("neutral_spacing", "hip_shift", "side_give"):
        sure = certainty_of(practice(0.0, 0.0), TERMS, {**small, name: SPREADS[name]})
        assert sure.sources(0)[0] == sure.sources(1)[0] == name


def test_the_shares_of_all_measurements_make_a_whole() -> None:
    sure = certainty_of(demo(0.0, 0.0), TERMS, SPREADS, TOGETHER)
    assert sure.cant_shares.sum(axis=1) == pytest.approx([1.0, 1.0])


def test_what_is_held_is_certain() -> None:
    held = Mounts(np.array([[np.nan], [0.0]]), np.array([[np.nan], [rad(1.0)]]))
    sure = certainty_of(demo(), TERMS, SPREADS, held=held)
    assert np.degrees(sure.cant_range[1]) == pytest.approx([1.0, 1.0])
    assert sure.cant_range[0, 1] > sure.cant_range[0, 0]


def test_a_wider_error_makes_a_wider_range() -> None:
    asked = practice(0.0, 0.0)
    less, more = (certainty_of(asked, TERMS, {"hip_shift": spread}) for spread in (5.0, 15.0))
    assert np.ptp(more.cant_range, axis=1) == pytest.approx(
        3.0 * np.ptp(less.cant_range, axis=1), rel=0.1
    )


def test_an_unknown_measurement_is_refused() -> None:
    with refused("there is no input 'shoe'"):
        certainty_of(demo(), TERMS, {"shoe": 1.0})
