"""Children's stature and leg length against the table of the growth study.

Dutch 1997 growth study: Fredriks et al. 2000, Pediatr Res 47:316-323; 2005, Arch Dis
Child 90:807-812.
"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from refused import refused

from geometry.riders.growth import growth

# Age, stature (SD) in cm, leg length over stature.
STUDY = {
    "boys": [(6, 120.1, 4.9, 0.459), (10, 143.2, 6.6, 0.481), (18, 182.6, 7.2, 0.487)],
    "girls": [(6, 118.7, 5.0, 0.459), (12, 155.3, 6.8, 0.485), (18, 169.8, 6.5, 0.476)],
}
CASES = [(children, *row) for children, rows in STUDY.items() for row in rows]


@pytest.mark.parametrize(("children", "age", "stature_cm", "deviation_cm", "share"), CASES)
def test_at_the_studys_ages_the_study_is_told(
    children: str, age: float, stature_cm: float, deviation_cm: float, share: float
) -> None:
    child = growth(float(age), children)
    assert child.stature == pytest.approx((10.0 * stature_cm, 10.0 * deviation_cm))
    assert child.leg_length.value == pytest.approx(share * 10.0 * stature_cm)


@given(st.floats(6.0, 17.9), st.sampled_from(["boys", "girls", "either"]))
def test_children_grow(age: float, children: str) -> None:
    now, later = growth(age, children), growth(age + 0.1, children)
    assert later.stature.value > now.stature.value
    assert later.leg_length.value > now.leg_length.value


def test_half_way_between_two_ages_is_half_way() -> None:
    assert growth(7.0, "boys").stature.value == pytest.approx(0.5 * (1201.0 + 1328.0))
    assert growth(7.0, "boys").stature.standard_error == pytest.approx(0.5 * (49.0 + 58.0))


def test_either_lies_between_girls_and_boys_and_is_less_sure() -> None:
    boys, girls, either = (growth(14.0, who).stature for who in ("boys", "girls", "either"))
    assert either.value == pytest.approx(0.5 * (boys.value + girls.value))
    assert either.standard_error > max(boys.standard_error, girls.standard_error) - 5.0
    assert either.standard_error**2 == pytest.approx(
        0.5 * (boys.standard_error**2 + girls.standard_error**2)
        + (0.5 * (boys.value - girls.value)) ** 2
    )


def test_arrays_of_ages_grow_one_by_one() -> None:
    ages = np.array([6.0, 9.5, 18.0])
    together = growth(ages, "girls")
    alone = [growth(float(age), "girls").leg_length.value for age in ages]
    assert together.leg_length.value == pytest.approx(alone)


@pytest.mark.parametrize("age", [5.0, 19.0])
def test_an_age_outside_the_study_is_refused_in_words(age: float) -> None:
    with refused(rf"age is {age:g} years; it must lie between 6 and 18"):
        growth(age)
