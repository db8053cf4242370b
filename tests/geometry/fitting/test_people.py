"""People of every size solve and fit, and start without a flag that is not true."""

from __future__ import annotations

import math

import pytest
from fit_riders import HARD, body_of, boots_of, rad
from people import EIGHT, PEOPLE

from geometry import Crouch, Mount, Stance, solve
from geometry.fitting.fit import fit_of, start_mounts
from geometry.fitting.inputs import PostureInputs
from geometry.fitting.smallest_mounts import canted, lifted

SOFT = boots_of(20.0, 10.0, 20.0, 8.0)
STANCES = {
    "hard forward": (HARD, 60.0, 58.0, 1.9),
    "hard": (HARD, 45.0, 40.0, 1.9),
    "soft forward": (SOFT, 21.0, 3.0, 2.0),
    "soft duck": (SOFT, 15.0, -12.0, 2.0),
}


def setup_of(person: str, kind: str) -> PostureInputs:
    hip, knee, ankle, foot = PEOPLE[person]
    boots, front, rear, ratio = STANCES[kind]
    # Hip joint spacing: 0.72 of 238 mm for grown-ups (Bell, Brand & Pedersen 1989,
    # Human Movement Science 8:3-16; Augustine 2018, doi 10.1002/ca.23273), and by
    # leg length for children (Hara 2016, Sci Rep 6:37707).
    spacing = 2.0 * (8.0 + 0.086 * 650.0) if person in EIGHT else 171.0
    neutral = spacing + 0.09 * hip
    stance = Stance(Mount(rad(front)), Mount(rad(rear)), ratio * neutral)
    body = body_of(hip, knee, ankle, foot, hips=spacing, neutral=neutral)
    return PostureInputs(body, boots, stance, Crouch(rad(45.0)))


@pytest.mark.parametrize("kind", STANCES)
@pytest.mark.parametrize("person", PEOPLE)
def test_everyone_is_fitted_within_what_mounts_can_do(person: str, kind: str) -> None:
    fit = fit_of(*setup_of(person, kind))
    for foot in (fit.front, fit.rear):
        assert abs(foot.full_cant) < rad(12.0)
        assert abs(foot.least_cant) <= abs(foot.full_cant)
        assert abs(foot.least_lift) <= abs(foot.full_lift) < rad(30.0)


@pytest.mark.parametrize("kind", STANCES)
@pytest.mark.parametrize("person", PEOPLE)
def test_on_the_start_values_every_knee_is_in_its_plane_and_every_boot_in_its_range(
    person: str, kind: str
) -> None:
    body, boots, stance, crouch = setup = setup_of(person, kind)
    fit = fit_of(*setup)
    start = start_mounts(*setup)
    on = lifted(stance, start.front_lift, start.rear_lift)
    mounted = canted(on, fit.front.start_cant, fit.rear.start_cant)
    legs = solve(body, boots, mounted, crouch).legs
    for leg, boot in zip(legs, boots.both, strict=True):
        assert math.degrees(leg.off_plane) == pytest.approx(0.0, abs=1e-6)
        assert abs(leg.boot_flex - boot.forward_lean) <= boot.flex_range + 1e-8
        assert rad(20.0) < leg.knee_flexion < rad(70.0)
