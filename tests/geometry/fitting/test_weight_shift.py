"""The hip shift that puts a share of the weight on the front foot."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from fit_riders import demo, many_riders
from scipy.optimize import brentq

from geometry import solve
from geometry.fitting.weight_shift import shift_for_share


@pytest.mark.parametrize("share", [0.4, 0.5, 0.6])
def test_the_shift_is_that_of_a_root_finder(share: float) -> None:
    body, boots, stance, crouch = asked = demo()

    def off(shift: float) -> float:
        posture = solve(body, boots, stance, replace(crouch, hip_shift=shift))
        return float(posture.front_share) - share

    assert shift_for_share(asked, share)[0] == pytest.approx(brentq(off, -200.0, 200.0), abs=0.05)


def test_the_share_is_met_for_many_riders() -> None:
    asked = many_riders(300, seed=3)
    shift = shift_for_share(asked, 0.6)
    body, boots, stance, crouch = asked
    shifted = replace(crouch, hip_shift=np.nan_to_num(shift))
    share = solve(body, boots, stance, shifted).front_share
    known = ~np.isnan(shift)
    # Where the feet point along the board, sideways is hardly toward the front foot.
    assert known[np.degrees(stance.front.angle) < 70.0].mean() > 0.98
    assert share[known] == pytest.approx(np.full(known.sum(), 0.6), abs=1e-4)


def test_bindings_at_one_place_have_no_share() -> None:
    assert np.isnan(shift_for_share(demo(0.0, 0.0, length=0.0), 0.6)).all()
