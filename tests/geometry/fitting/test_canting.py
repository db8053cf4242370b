"""A leg that cants its own sole: its slopes, on which Newton's method rests."""

from __future__ import annotations

import math

import pytest
from fit_riders import random_setups

from geometry.balance import ahead, ahead_slopes
from geometry.elementary import cos, sin
from geometry.fitting.canting import CantedPull, Footing, canted_pull
from geometry.fitting.inputs import PostureInputs
from geometry.fitting.smallest_mounts import canted
from geometry.leg import Bend, Span, bend, slopes
from geometry.pelvis import chains_of, loads_of, pelvis_of

RIDERS = random_setups(60, seed=8)
KNEE_BEND = 0.8
PLACE = (-110.0, 0.93)
"""Depth of the pelvis (mm), and its height over the hips' when standing."""


def canting_leg(setup: PostureInputs, give: float) -> CantedPull:
    """The front leg of a rider, its sole canted wherever more than a give is wanted."""
    body, boots, stance, crouch = setup
    flat = canted(stance, 0.0, 0.0)
    pelvis, chains = pelvis_of(body, flat, crouch), chains_of(body, boots, flat)
    track = cos(body.front.knee_tracking), sin(body.front.knee_tracking)
    above = body.front.ankle_height + boots.front.sole_thickness
    return canted_pull(
        chains[0],
        loads_of(body, boots, flat, chains, pelvis)[0],
        Footing(above, track, cos(stance.front.lift)),
        (pelvis.hips[0], pelvis.facing),
        (-give, give),
    )


def at(leg: CantedPull, depth: float, height: float) -> tuple[Span, Bend]:
    span = leg.spanned(depth, height)
    return span, bend(leg.links, span, KNEE_BEND)


@pytest.mark.parametrize("give_deg", [0.0, 3.0])
def test_gap_flex_and_weight_move_with_the_pelvis_as_their_slopes_say(give_deg: float) -> None:
    for setup in RIDERS:
        leg, step = canting_leg(setup, math.radians(give_deg)), 1e-3
        depth, height = PLACE[0], PLACE[1] * setup.body.front.hip_height
        span, bent = at(leg, depth, height)
        told = slopes(leg.links, span, bent)
        weight = ahead_slopes(leg.load, span, bent, told)
        for which, (x, z) in enumerate(((step, 0.0), (0.0, step))):
            near, far = (at(leg, depth + way * x, height + way * z) for way in (-1.0, 1.0))
            by_gap = (far[1].gap - near[1].gap) / (2.0 * step)
            by_flex = (far[1].boot_flex - near[1].boot_flex) / (2.0 * step)
            by_weight = (ahead(leg.load, *far) - ahead(leg.load, *near)) / (2.0 * step)
            assert by_gap == pytest.approx(told.gap[which], rel=1e-5, abs=1e-3)
            assert by_flex == pytest.approx(told.flex[which], rel=1e-5, abs=1e-9)
            assert by_weight == pytest.approx(weight[which], rel=1e-5, abs=1e-8)


def test_some_of_these_soles_turn_and_some_stay_flat() -> None:
    # Else the test above would not try both.
    cants = [
        canting_leg(setup, math.radians(3.0)).cant(PLACE[0], PLACE[1] * setup.body.front.hip_height)
        for setup in RIDERS
    ]
    assert sum(cant == 0.0 for cant in cants) > 10
    assert sum(abs(cant) > math.radians(1.0) for cant in cants) > 10
