from __future__ import annotations

import math

import pytest
from refused import refused

from app.words.reasons import reason_phrase
from geometry.riders.repeats import repeats_finding, repeats_of


def test_repeats_give_mean_spread_and_standard_error() -> None:
    # By hand: mean 884, squared deviations 16 + 4 + 4 + 16, spread sqrt(40/3).
    repeats = repeats_of([880.0, 882.0, 886.0, 888.0])
    assert repeats.mean == 884.0
    assert repeats.spread == pytest.approx(math.sqrt(40.0 / 3.0))
    assert repeats.standard_error == pytest.approx(math.sqrt(40.0 / 3.0) / 2.0)
    assert repeats.gap == 8.0


def test_one_measurement_has_a_mean_and_no_known_spread() -> None:
    repeats = repeats_of([490.0])
    assert repeats.mean == 490.0
    assert math.isnan(repeats.spread)
    assert math.isnan(repeats.standard_error)
    assert not repeats.far_apart


@pytest.mark.parametrize(("lengths", "told"), [([880.0, 890.0], False), ([880.0, 890.1], True)])
def test_repeats_more_than_10_mm_apart_are_pointed_out(lengths: list[float], told: bool) -> None:
    finding = reason_phrase(repeats_finding(repeats_of(lengths)))
    assert ("more than 10 mm" in finding) is told
    assert bool(finding) is told


def test_no_measurement_at_all_is_refused() -> None:
    with refused("at least 1 is needed"):
        repeats_of([])


def test_a_measurement_in_metres_or_below_zero_is_refused_with_its_value() -> None:
    with refused("measurement is -3 mm"):
        repeats_of([880.0, -3.0])


def test_angles_may_be_negative_and_lie_5_degrees_apart_at_most() -> None:
    angles = repeats_of([math.radians(-2.0), math.radians(3.0)], "deg")
    assert math.degrees(angles.mean) == pytest.approx(0.5)
    assert not angles.far_apart
    wide = repeats_of([math.radians(-2.0), math.radians(4.0)], "deg")
    assert "6° apart, more than 5°" in reason_phrase(repeats_finding(wide))
