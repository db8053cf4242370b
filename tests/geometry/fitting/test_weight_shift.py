"""The weight moved along the line between the feet, until the front one has its share."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from fit_riders import demo, many_riders
from scipy.optimize import fsolve

from geometry import Posture, PostureInputs, solve
from geometry.fitting.weight_shift import WeightMoved, weight_at_share


def moved(asked: PostureInputs, there: WeightMoved) -> Posture:
    body, boots, stance, crouch = asked
    ahead, shift = map(np.nan_to_num, there)
    return solve(body, boots, stance, replace(crouch, weight_ahead=ahead, hip_shift=shift))


@pytest.mark.parametrize("angles", [(43.0, 38.0), (0.0, 0.0), (90.0, 90.0)])
@pytest.mark.parametrize("share", [0.4, 0.5, 0.6])
def test_the_weight_is_where_a_root_finder_puts_it(
    angles: tuple[float, float], share: float
) -> None:
    body, boots, stance, crouch = asked = demo(*angles)
    stood = solve(*asked).mass_centre

    def off(at: np.ndarray) -> list[float]:
        posture = solve(body, boots, stance, replace(crouch, weight_ahead=at[0], hip_shift=at[1]))
        # The bindings lie along x, so the weight keeps its place along y.
        return [100.0 * (float(posture.front_share) - share), posture.mass_centre[1] - stood[1]]

    ahead, shift = fsolve(off, [0.0, 0.0])
    found = weight_at_share(asked, share)
    assert (found.ahead[0], found.hip_shift[0]) == pytest.approx((ahead, shift), abs=0.05)


def test_the_share_is_met_for_nearly_all_riders_whichever_way_their_feet_point() -> None:
    asked = many_riders(300, seed=3)
    found = weight_at_share(asked, 0.6)
    share = np.asarray(moved(asked, found).front_share)
    known = ~np.isnan(found.ahead)
    assert known.mean() > 0.97
    assert share[known] == pytest.approx(np.full(known.sum(), 0.6), abs=1e-3)


def test_the_share_that_the_weight_has_moves_nothing() -> None:
    asked = demo(15.0, -9.0)
    found = weight_at_share(asked, float(solve(*asked).front_share))
    assert np.abs(found).max() < 1e-6


def test_bindings_at_one_place_have_no_share() -> None:
    assert np.isnan(weight_at_share(demo(0.0, 0.0, length=0.0), 0.6)).all()
