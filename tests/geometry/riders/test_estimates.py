"""Leg estimates against the figures of the survey that they come from."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from refused import refused

from geometry.riders.estimates import (
    Estimate,
    KnownLengths,
    estimated_ankle_height,
    estimated_foot_length,
    estimated_hip_height,
    estimated_hip_spacing,
    estimated_knee_height,
)

DIMENSIONS = {
    "hip": estimated_hip_height,
    "knee": estimated_knee_height,
    "ankle": estimated_ankle_height,
    "foot": estimated_foot_length,
}

# ANSUR II: Gordon et al. 2014, NATICK/TR-15/007, statistics from its public data.
# A straight line through a survey passes through its means (mm).
MEANS = {
    "men": {
        **{"stature": 1756.2, "inseam": 845.9, "sitting": 554.2},
        **{"hip": 900.9, "knee": 491.7, "ankle": 72.9, "foot": 271.2},
    },
    "women": {
        **{"stature": 1628.5, "inseam": 782.3, "sitting": 511.3},
        **{"hip": 845.4, "knee": 465.9, "ankle": 62.8, "foot": 246.3},
    },
}
# Percentiles 5 and 95 of the same survey: stature, and hip height (mm).
TAILS = {"men": [(1648, 824), (1870, 985)], "women": [(1525, 774), (1740, 919)]}


def known(figures: str, *names: str) -> KnownLengths:
    mean = MEANS[figures]
    return KnownLengths(
        stature=mean["stature"] if "stature" in names else None,
        inseam=mean["inseam"] if "inseam" in names else None,
        sitting_knee_height=mean["sitting"] if "sitting" in names else None,
    )


@pytest.mark.parametrize("figures", MEANS)
@pytest.mark.parametrize("dimension", DIMENSIONS)
@pytest.mark.parametrize("names", [("stature",), ("stature", "inseam"), ("sitting",), ()])
def test_the_average_person_is_estimated_as_average(
    figures: str, dimension: str, names: tuple[str, ...]
) -> None:
    estimate = DIMENSIONS[dimension](known(figures, *names), figures)
    # Slopes printed to four digits leave up to 0.2 mm.
    assert estimate.value == pytest.approx(MEANS[figures][dimension], abs=0.25)


@pytest.mark.parametrize("figures", TAILS)
def test_a_short_and_a_tall_persons_hips_are_where_the_survey_has_them(figures: str) -> None:
    for stature, hip in TAILS[figures]:
        estimate = estimated_hip_height(KnownLengths(stature), figures)
        # By stature alone an estimate leans to the mean, by less than its own error.
        assert abs(estimate.value - hip) < estimate.standard_error


@pytest.mark.parametrize("figures", ["men", "women", "either"])
def test_every_further_measurement_makes_the_knee_surer(figures: str) -> None:
    mean = known("men", "stature", "inseam", "sitting")
    errors = [
        estimated_knee_height(length, figures).standard_error
        for length in (
            KnownLengths(),
            KnownLengths(stature=mean.stature),
            KnownLengths(stature=mean.stature, inseam=mean.inseam),
            mean,
        )
    ]
    assert errors == sorted(errors, reverse=True)
    assert len(set(errors)) == 4


# The same table: the line with the smallest standard error, and that error (mm).
SUREST = [
    ("men", KnownLengths(1800.0), 0.6098 * 1800.0 - 169.9, 25.9),
    ("men", KnownLengths(1800.0, 870.0), 0.1649 * 1800.0 + 0.7643 * 870.0 - 35.2, 18.4),
    ("women", KnownLengths(None, 790.0), 0.9352 * 790.0 + 113.7, 15.9),
    ("women", KnownLengths(1650.0, 790.0), 0.1610 * 1650.0 + 0.7386 * 790.0 + 5.4, 15.0),
]


@pytest.mark.parametrize(("figures", "lengths", "value", "error"), SUREST)
def test_the_surest_line_of_the_table_speaks(
    figures: str, lengths: KnownLengths, value: float, error: float
) -> None:
    assert estimated_hip_height(lengths, figures) == pytest.approx((value, error))


def test_the_share_of_the_spread_that_stature_explains_is_the_surveys() -> None:
    # Correlation of hip height with stature 0.850 and 0.858; SD 49.2 and 44.7 (same
    # survey): the standard error is what the correlation leaves of the spread.
    for figures, correlation, deviation in (("men", 0.850, 49.2), ("women", 0.858, 44.7)):
        error = estimated_hip_height(KnownLengths(1700.0), figures).standard_error
        left = deviation * math.sqrt(1.0 - correlation**2)
        assert error == pytest.approx(left, abs=0.1)


def test_either_is_the_even_mixture_of_men_and_women() -> None:
    lengths = KnownLengths(1700.0)
    men, women = (estimated_hip_height(lengths, figures) for figures in ("men", "women"))
    draws = np.random.default_rng(3).normal(size=(2, 200_000))
    both = np.concatenate(
        [men.value + men.standard_error * draws[0], women.value + women.standard_error * draws[1]]
    )
    either = estimated_hip_height(lengths)
    assert either.value == pytest.approx(both.mean(), abs=0.3)
    assert either.standard_error == pytest.approx(both.std(), abs=0.3)


@given(st.floats(1200.0, 2100.0), st.sampled_from(["either", "men", "women"]))
def test_joints_come_in_order_whatever_the_stature(stature: float, figures: str) -> None:
    lengths = KnownLengths(stature)
    heights = [DIMENSIONS[name](lengths, figures).value for name in ("ankle", "knee", "hip")]
    assert heights == sorted(heights)
    assert heights[2] < stature


def test_arrays_of_riders_are_estimated_one_by_one() -> None:
    statures, inseams = np.array([1600.0, 1900.0]), np.array([740.0, 910.0])
    together = estimated_hip_height(KnownLengths(statures, inseams))
    for i in range(2):
        alone = estimated_hip_height(KnownLengths(float(statures[i]), float(inseams[i])))
        assert (together.value[i], together.standard_error[i]) == pytest.approx(alone)


def test_of_arrays_the_surer_estimate_is_chosen_element_by_element() -> None:
    # By stature men and women differ by a lot at one end, by inseam at the other.
    statures, inseams = np.array([1500.0, 1500.0]), np.array([700.0, 300.0])
    either = estimated_knee_height(KnownLengths(statures, inseams)).standard_error
    by_one = [
        estimated_knee_height(KnownLengths(stature=statures)).standard_error,
        estimated_knee_height(KnownLengths(inseam=inseams)).standard_error,
    ]
    assert either == pytest.approx(np.fmin(*by_one))


def test_hip_spacing_of_an_unknown_rider_is_the_usual_one() -> None:
    # 0.72 x 238 +- 20 (Bell 1989; Augustine 2018).
    usual = estimated_hip_spacing()
    assert usual == pytest.approx((170.0, 0.72 * 20.0))
    assert usual.value == pytest.approx(0.72 * 238.0, abs=1.5)


# Bell 1989: 0.72 ASIS. Harrington 2007: 2 (0.28 PD + 0.16 PW + 7.9). Hara 2016:
# 2 (8 + 0.086 leg length) (mm).
SPACINGS = [
    ({"front_points_apart": 238.0}, 171.36),
    ({"front_points_apart": 240.0, "pelvis_depth": 150.0}, 2 * (42.0 + 38.4 + 7.9)),
    ({"leg_length": 880.0}, 2 * (8.0 + 75.68)),
]


@pytest.mark.parametrize(("measured", "spacing"), SPACINGS)
def test_hip_spacing_follows_the_published_lines(
    measured: dict[str, float], spacing: float
) -> None:
    estimate = estimated_hip_spacing(**measured)
    assert estimate.value == pytest.approx(spacing)
    assert estimate.standard_error < estimated_hip_spacing().standard_error


def test_of_all_spacings_the_surest_is_taken() -> None:
    everything = estimated_hip_spacing(
        front_points_apart=240.0, pelvis_depth=150.0, leg_length=880.0
    )
    assert everything == estimated_hip_spacing(front_points_apart=240.0, pelvis_depth=150.0)


def test_the_average_man_s_hip_is_30_mm_lower_than_fixed_shares_of_stature_say() -> None:
    # Hip 0.530 of stature: Drillis & Contini 1966, in Winter, Biomechanics and Motor
    # Control of Human Movement, 4th ed. 2009, Fig. 4.1.
    hip, _ = estimated_hip_height(KnownLengths(stature=1756.2), "men")
    assert 0.530 * 1756.2 - hip == pytest.approx(30.0, abs=1.0)


IMPOSSIBLE = [
    (KnownLengths(stature=300.0), r"stature is 300 mm; it must lie between 500 and 2600 mm"),
    (KnownLengths(inseam=2000.0), r"inseam is 2000 mm; it must lie between 150 and 1400 mm"),
    (KnownLengths(sitting_knee_height=-1.0), r"sitting knee height is -1 mm"),
    (KnownLengths(stature=math.nan), r"stature is nan mm"),
    (KnownLengths(900.0, 950.0), r"inseam is 950 mm; it must be less than the stature, 900 mm"),
]


@pytest.mark.parametrize(("lengths", "words"), IMPOSSIBLE)
@pytest.mark.parametrize("dimension", DIMENSIONS)
def test_impossible_measurements_are_refused_in_words(
    lengths: KnownLengths, words: str, dimension: str
) -> None:
    with refused(words):
        DIMENSIONS[dimension](lengths)


@pytest.mark.parametrize(
    ("measured", "words"),
    [
        ({"front_points_apart": 20.0}, "front hip-bone points apart is 20 mm"),
        ({"pelvis_depth": 500.0}, "pelvis depth is 500 mm"),
        ({"leg_length": 0.0}, "leg length is 0 mm"),
    ],
)
def test_an_impossible_pelvis_is_refused_in_words(measured: dict[str, float], words: str) -> None:
    with refused(words):
        estimated_hip_spacing(**measured)


def test_an_estimate_unpacks_into_value_and_error() -> None:
    value, error = estimated_ankle_height(KnownLengths(), "women")
    assert Estimate(value, error) == (62.8, 5.1)
