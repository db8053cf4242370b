"""Wishes that cannot be met are told in words, never raised in mid-drag."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from fit_riders import demo

from app.words.reasons import reason_phrase
from geometry.fitting.fit import fit_of, fit_reasons
from geometry.fitting.margins import margins_of
from geometry.fitting.smallest_mounts import STEEPEST
from geometry.fitting.sweep import riding_range


def too_wide() -> tuple:
    return demo(0.0, 0.0, length=2000.0)


def test_a_stance_that_no_leg_reaches_has_no_fit_and_says_why() -> None:
    fit = fit_of(*too_wide())
    assert math.isnan(fit.front.full_cant)
    assert math.isnan(fit.rear.least_lift)
    front, rear, lift = fit_reasons(fit)
    assert "leg cannot reach" in reason_phrase(front.item())
    assert "leg cannot reach" in reason_phrase(rear.item())
    assert reason_phrase(lift.item()) == "no posture settles on soles without lift"


def test_a_stance_that_is_reached_has_no_reasons() -> None:
    assert [words.item() for words in fit_reasons(fit_of(*demo()))] == ["", "", ""]


def test_a_cant_steeper_than_any_mount_is_no_answer() -> None:
    # Straight legs 880 mm long could just about span this with soles on edge.
    fit = fit_of(*demo(0.0, 0.0, length=1700.0))
    assert fit.cants_settle
    assert math.isnan(fit.front.full_cant)
    assert reason_phrase(fit_reasons(fit)[0].item()) == "more than 60° would be needed"
    assert math.degrees(STEEPEST) == pytest.approx(60.0)


def test_margins_of_no_fit_are_nan() -> None:
    setup = too_wide()
    margins = margins_of(setup, fit_of(*setup), {"hip_height": 5.0})
    assert math.isnan(margins.front.full_cant)
    assert math.isnan(margins.front.least_lift)


def test_in_an_array_only_the_impossible_stance_is_nan() -> None:
    body, boots, stance, crouch = demo(0.0, 0.0)
    fit = fit_of(body, boots, replace(stance, length=np.array([500.0, 2000.0, 600.0])), crouch)
    assert np.isnan(fit.front.full_cant).tolist() == [False, True, False]
    assert np.isnan(fit.front.start_cant).tolist() == [False, True, False]
    assert [bool(words) for words in fit_reasons(fit)[0]] == [False, True, False]


def test_a_range_of_postures_that_do_not_exist_is_nan_throughout() -> None:
    setup = too_wide()
    over = riding_range(*setup)
    assert np.isnan(over.bends).all()
