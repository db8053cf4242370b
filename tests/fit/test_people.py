"""People of every size solve and fit, and start without a flag that is not true."""

from __future__ import annotations

import math

import pytest
from fit_riders import rad

from geometry import Body, Boots, Crouch, Mount, Stance, solve
from geometry.fitting.fit import fit_of
from geometry.fitting.inputs import Setup
from geometry.fitting.smallest_mounts import canted, lifted

# Hip, knee, ankle height and foot length, 5th, 50th and 95th percentile, mm.
# ANSUR II: Gordon et al. 2014, NATICK/TR-15/007, from its public data.
ADULTS = {
    "man 5": (824.0, 449.0, 64.0, 250.0),
    "man 50": (899.0, 491.0, 73.0, 271.0),
    "man 95": (985.0, 537.0, 83.0, 293.0),
    "woman 5": (774.0, 422.0, 54.0, 226.0),
    "woman 50": (844.0, 465.0, 63.0, 246.0),
    "woman 95": (919.0, 511.0, 71.0, 268.0),
}
# Boy of 8: stature 1328 mm (Fredriks et al. 2000, Pediatr Res 47:316-323); heights
# by the segment ratios of Drillis & Contini 1966 (Winter, Biomechanics and Motor
# Control of Human Movement, 4th ed. 2009, Fig. 4.1): hip 0.530, knee 0.285, ankle
# 0.039, foot 0.152 of stature.
PEOPLE = {**ADULTS, "boy of 8": (703.8, 378.5, 51.8, 201.9)}

HARD = Boots(25.0, rad(18.0), rad(15.0), rad(4.0))
SOFT = Boots(20.0, rad(10.0), rad(20.0), rad(8.0))
STANCES = {
    "hard forward": (HARD, 60.0, 58.0, 1.9),
    "hard": (HARD, 45.0, 40.0, 1.9),
    "soft forward": (SOFT, 21.0, 3.0, 2.0),
    "soft duck": (SOFT, 15.0, -12.0, 2.0),
}


def setup_of(person: str, kind: str) -> Setup:
    hip, knee, ankle, foot = PEOPLE[person]
    boots, front, rear, ratio = STANCES[kind]
    # Hip joint spacing: 0.72 of 238 mm for grown-ups (Bell, Brand & Pedersen 1989,
    # Human Movement Science 8:3-16; Augustine 2018, doi 10.1002/ca.23273), and by
    # leg length for the child (Hara 2016, Sci Rep 6:37707).
    spacing = 2.0 * (8.0 + 0.086 * 650.0) if "boy" in person else 171.0
    neutral = spacing + 0.09 * hip
    stance = Stance(Mount(rad(front)), Mount(rad(rear)), ratio * neutral)
    return Setup(Body(hip, knee, ankle, spacing, neutral, foot), boots, stance, Crouch(rad(45.0)))


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
    mounted = canted(
        lifted(stance, fit.front.start_lift), fit.front.start_cant, fit.rear.start_cant
    )
    for leg in solve(body, boots, mounted, crouch).legs:
        assert math.degrees(leg.off_plane) == pytest.approx(0.0, abs=1e-6)
        assert abs(leg.boot_flex - boots.forward_lean) <= boots.flex_range + 1e-8
        assert rad(20.0) < leg.knee_flexion < rad(70.0)
