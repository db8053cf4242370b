"""Whole bodies estimated, against 400 bodies of the survey that the lines come from."""

from __future__ import annotations

import math
from itertools import product

import numpy as np
import pytest
from refused import refused
from survey_sample import sample

from geometry.riders.bodies import EstimatedBody, estimated_body
from geometry.riders.estimates import (
    Estimate,
    Figures,
    KnownLengths,
    estimated_ankle_height,
    estimated_foot_length,
    estimated_hip_height,
    estimated_hip_spacing,
    estimated_knee_height,
    estimated_neutral_spacing,
)

BODIES = sample()
DIMENSIONS = {
    "hip_height": estimated_hip_height,
    "knee_height": estimated_knee_height,
    "ankle_height": estimated_ankle_height,
    "foot_length": estimated_foot_length,
}
STATURE = KnownLengths(stature=BODIES["stature"])
KNOWN = {
    "stature": STATURE,
    "stature and inseam": STATURE._replace(inseam=BODIES["inseam"]),
    "all three": KnownLengths(BODIES["stature"], BODIES["inseam"], BODIES["sitting_knee"]),
}


def errors_over_told(name: str, known: KnownLengths, figures: Figures) -> np.ndarray:
    """How far each body is from its estimate, in standard errors."""
    value, error = DIMENSIONS[name](known, figures)
    return (BODIES[name] - value) / error


@pytest.mark.parametrize("known", KNOWN)
@pytest.mark.parametrize("name", DIMENSIONS)
def test_the_stated_errors_hold_two_thirds_within_one_and_nearly_all_within_two(
    name: str, known: str
) -> None:
    off = np.abs(errors_over_told(name, KNOWN[known], "either"))
    assert 0.64 <= np.mean(off <= 1.0) <= 0.75
    assert 0.93 <= np.mean(off <= 2.0) <= 0.97


def seen_correlation(figures: Figures, known: KnownLengths, one: str, other: str) -> float:
    of_group = {"men": BODIES["is_man"], "women": ~BODIES["is_man"]}
    which = of_group.get(figures, np.full(400, True))
    off = (errors_over_told(name, known, figures) + np.zeros(400) for name in (one, other))
    return float(np.corrcoef(*(each[which] for each in off))[0, 1])


def told(body: EstimatedBody, one: str, other: str) -> float:
    return body.correlations.get((one, other), 0.0)


@pytest.mark.parametrize("figures", ["men", "women", "either"])
@pytest.mark.parametrize(
    ("known", "like"),
    [(STATURE, KnownLengths(1700.0)), (KnownLengths(), KnownLengths())],
    ids=["stature", "nothing"],
)
def test_hip_and_knee_are_wrong_together_as_much_as_told(
    figures: Figures, known: KnownLengths, like: KnownLengths
) -> None:
    seen = seen_correlation(figures, known, "hip_height", "knee_height")
    # 200 bodies tell a correlation to a tenth or so.
    assert told(estimated_body(like, figures), "hip_height", "knee_height") == pytest.approx(
        seen, abs=0.16
    )


def test_from_all_three_lengths_hip_and_knee_are_wrong_on_their_own() -> None:
    body = estimated_body(KnownLengths(1756.2, 845.9, 554.2), "men")
    assert told(body, "hip_height", "knee_height") == 0.0
    assert abs(seen_correlation("men", KNOWN["all three"], "hip_height", "knee_height")) < 0.15


@pytest.mark.parametrize("figures", ["men", "women", "either"])
@pytest.mark.parametrize(
    "known",
    [KnownLengths(), KnownLengths(1650.0), KnownLengths(1650.0, 790.0), KnownLengths(inseam=800.0)],
)
def test_correlations_are_those_of_some_errors(figures: Figures, known: KnownLengths) -> None:
    body = estimated_body(known, figures)
    names = list(body.lengths)
    matrix = np.eye(len(names))
    for i, j in product(range(len(names)), repeat=2):
        if i < j:
            matrix[i, j] = matrix[j, i] = told(body, names[i], names[j])
    assert np.linalg.eigvalsh(matrix).min() > -1e-9


def test_a_measured_length_stands_and_shares_its_error_with_what_follows_from_it() -> None:
    measured = {"hip_height": Estimate(901.0, 8.0)}
    body = estimated_body(KnownLengths(1756.2), "men", measured)
    assert body.lengths["hip_height"] == (901.0, 8.0)
    assert told(body, "hip_height", "knee_height") == 0.0
    # 0.172 of the hip's error, beside 7.6 mm of the line's own.
    inherited = 2.0 * 0.086 * 8.0
    spacing = body.lengths["hip_spacing"]
    assert spacing.standard_error == pytest.approx(math.hypot(7.6, inherited))
    assert told(body, "hip_height", "hip_spacing") == pytest.approx(
        inherited / spacing.standard_error
    )


def test_a_measured_spacing_is_not_estimated_again() -> None:
    measured = {"hip_spacing": Estimate(150.0, 3.0), "neutral_spacing": Estimate(240.0, 5.0)}
    body = estimated_body(KnownLengths(1756.2), "men", measured)
    assert body.lengths["neutral_spacing"] == (240.0, 5.0)
    assert told(body, "hip_height", "hip_spacing") == 0.0


def test_a_grown_up_s_spacings_come_out_usual_and_a_child_s_smaller() -> None:
    # ASIS distance 238 mm in grown-ups (Augustine 2018, doi 10.1002/ca.23273) makes 171.
    grown = estimated_body(KnownLengths(), "men").lengths
    assert grown["hip_spacing"].value == pytest.approx(171.0, abs=1.0)
    child = estimated_hip_spacing(hip_height=700.0)
    assert child.value == pytest.approx(2.0 * (8.0 + 0.086 * 700.0))


def test_a_leg_that_was_measured_lying_wins_over_the_hip_height() -> None:
    both = estimated_hip_spacing(leg_length=860.0, hip_height=900.0)
    assert both == estimated_hip_spacing(leg_length=860.0)


def test_the_guess_at_the_neutral_spacing_gives_the_demo_rider_what_he_has() -> None:
    assert estimated_neutral_spacing(170.0, 880.0, 70.0) == pytest.approx((260.0, 25.0), abs=0.1)
    with refused("ankle height is 900 mm; it must be less than"):
        estimated_neutral_spacing(170.0, 880.0, 900.0)
