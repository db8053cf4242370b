"""The map of stances, its lines and the place of a stance on it."""

from __future__ import annotations

import math

import numpy as np
import pytest
from fit_riders import LENGTH, NEUTRAL, demo, practice, rad, stance_of

from geometry.fitting.contours import contour
from geometry.fitting.fit import fit_of
from geometry.fitting.inputs import PostureInputs
from geometry.fitting.stance_map import map_place, stance_map_of, zero_crossings

ANGLES = np.radians(np.linspace(0.0, 80.0, 41))
RATIOS = np.linspace(1.0, 2.6, 81)


def test_the_map_holds_the_fit_of_every_stance() -> None:
    setup = demo()
    cants = stance_map_of(setup, ANGLES, RATIOS)
    body, boots, _, crouch = setup
    single = fit_of(body, boots, stance_of(40.0, 40.0, NEUTRAL * RATIOS[50]), crouch)
    assert cants.front[50, 20] == pytest.approx(single.front.full_cant, abs=1e-12)
    assert cants.cant[50, 20] == pytest.approx(single.rear.full_cant, abs=1e-9)


def test_on_the_no_cant_line_no_cant_is_needed() -> None:
    setup = demo()
    line = stance_map_of(setup, ANGLES, RATIOS).no_cant
    for column in np.flatnonzero(~np.isnan(line))[::8]:
        angle = math.degrees(ANGLES[column])
        stance = stance_of(angle, angle, NEUTRAL * line[column])
        fit = fit_of(setup.body, setup.boots, stance, setup.crouch)
        assert math.degrees(fit.front.full_cant) == pytest.approx(0.0, abs=2e-3)


def test_the_straight_leg_line_is_the_secant_of_the_angle() -> None:
    # Secants: Abramowitz & Stegun, AMS 55, Table 4.6 (any printed table).
    secants = {0.0: 1.0, 15.0: 1.03527618, 45.0: 1.41421356, 55.0: 1.74344680, 65.0: 2.36620158}
    line = stance_map_of(demo(), np.radians(list(secants)), RATIOS).straight_leg
    assert line == pytest.approx(list(secants.values()), abs=1e-8)


def test_at_60_deg_twice_the_neutral_spacing_lies_near_the_no_cant_line() -> None:
    # Common practice, no source: no cant at 60/60 with stance length 540, N 270.
    line = stance_map_of(practice(60.0, 60.0), np.radians([60.0]), RATIOS).no_cant
    assert line[0] == pytest.approx(2.0, abs=0.1)


def test_a_stance_of_two_angles_stands_at_their_mean_and_says_so() -> None:
    place = map_place(demo().body, stance_of(45.0, 40.0), {})
    assert math.degrees(place.angle) == pytest.approx(42.5)
    assert place.ratio == LENGTH / NEUTRAL
    assert place.is_mean
    assert not map_place(demo().body, stance_of(45.0, 45.0), {}).is_mean


def test_the_ellipse_is_as_wide_as_drawn_stances_scatter() -> None:
    spreads = {"front_angle": rad(1.0), "rear_angle": rad(0.5)}
    spreads |= {"stance_length": 4.0, "neutral_spacing": 6.0}
    place = map_place(demo().body, demo().stance, spreads)
    draws = np.random.default_rng(7)
    lengths, spacings = draws.normal(LENGTH, 4.0, 20_000), draws.normal(NEUTRAL, 6.0, 20_000)
    means = 0.5 * (draws.normal(0.0, rad(1.0), 20_000) + draws.normal(0.0, rad(0.5), 20_000))
    assert place.ratio_error == pytest.approx(np.std(lengths / spacings), rel=0.03)
    assert place.angle_error == pytest.approx(np.std(means), rel=0.03)


def test_an_unreachable_corner_of_the_map_is_nan_and_the_rest_is_not() -> None:
    body, boots, stance, crouch = demo()
    cants = stance_map_of(
        PostureInputs(body, boots, stance, crouch), ANGLES, np.array([2.0, 7.5])
    ).cant
    assert not np.isnan(cants[0]).any()
    assert np.isnan(cants[1]).all()


def test_zero_crossings_are_found_where_a_column_passes_zero() -> None:
    places = np.array([1.0, 2.0, 4.0])
    values = np.array([[-1.0, 3.0, 1.0, np.nan], [1.0, 1.0, 0.0, 1.0], [2.0, -3.0, -1.0, 2.0]])
    assert zero_crossings(places, values) == pytest.approx([1.5, 2.5, 2.0, np.nan], nan_ok=True)


def test_a_contour_of_a_cone_is_a_circle() -> None:
    grid = np.linspace(-2.0, 2.0, 201)
    cone = np.hypot(grid, grid[:, np.newaxis])
    ends = contour(grid, grid, cone, 1.5)
    ends = ends[~np.isnan(ends[:, 0])]
    np.testing.assert_allclose(np.hypot(ends[:, 0], ends[:, 1]), 1.5, atol=2e-4)


def test_the_pieces_of_a_contour_are_as_long_as_the_circle() -> None:
    grid = np.linspace(-2.0, 2.0, 201)
    pieces = contour(grid, grid, np.hypot(grid, grid[:, np.newaxis]), 1.5).reshape(-1, 3, 2)
    lengths = np.hypot(*(pieces[:, 1] - pieces[:, 0]).T)
    assert lengths.sum() == pytest.approx(3.0 * math.pi, rel=1e-3)


def test_a_level_outside_the_values_has_no_contour() -> None:
    grid = np.linspace(0.0, 1.0, 5)
    slope = np.broadcast_to(grid, (5, 5))
    assert len(contour(grid, grid, slope, 2.0)) == 0
    assert len(contour(grid, grid, slope, 0.4)) == 3 * 8


def test_a_contour_stops_where_the_value_is_not_known() -> None:
    grid = np.linspace(0.0, 1.0, 5)
    slope = np.broadcast_to(grid, (5, 5)).copy()
    slope[2, 2] = np.nan
    heights = contour(grid, grid, slope, 0.4)[:, 1]
    # Three of the eight triangles on the line's way have their corner at (0.5, 0.5).
    assert len(heights) == 3 * 5
    assert not np.any((heights > 0.4) & (heights < 0.6))
