"""What riders and fitters know: common practice, no source.

Hard boots, hip 950, knee 527, ankle 75, foot 275, hip spacing 175, neutral spacing
270, stance length 540.
"""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np
import pytest
from fit_riders import practice, rad

from geometry import Crouch, solve
from geometry.fitting.fit import fit_of
from geometry.fitting.next_angle import next_angle
from geometry.fitting.shares import angle_from_share, settled_share
from geometry.fitting.smallest_mounts import canted, lifted
from geometry.fitting.trials import Tried, Verdict

HALF_DEGREE = rad(0.5)
ONE_DEGREE = rad(1.0)


class Found(NamedTuple):
    """Mounts found by feel (deg), and the worst off-plane angle that they may leave (deg)."""

    angles: tuple[float, float]
    cant: float
    lifts: tuple[float, float]
    left: float
    left_to_60: float


# Common practice, no source: the mounts, and that they suit over bends of 30 to 75 deg
# with the hips turned up to 20 deg either way.
FOUND_BY_FEEL = {
    "0/0": Found((0.0, 0.0), 5.0, (0.0, 0.0), 4.8, 2.9),
    "15/-15": Found((15.0, -15.0), 5.0, (3.0, 3.0), 0.0, 0.0),
    "60/60": Found((60.0, 60.0), 0.0, (6.0, -6.0), 0.0, 0.0),
    "90/90": Found((90.0, 90.0), -5.0, (6.0, -6.0), 1.8, 1.8),
}


def worst_left(found: Found, deepest: float) -> float:
    """The worst off-plane angle of either leg over the bend and the turns (deg)."""
    body, boots, stance, _ = practice(*found.angles)
    on = lifted(stance, *(rad(lift) for lift in found.lifts))
    mounted = canted(on, rad(found.cant), rad(found.cant))
    bends = np.radians(np.arange(30.0, deepest + 0.1, 1.0))[:, np.newaxis]
    turns = np.radians(np.arange(-20.0, 20.1, 1.0))
    posture = solve(body, boots, mounted, Crouch(bends, turns))
    assert posture.exists.all()
    return math.degrees(max(np.abs(leg.off_plane).max() for leg in posture.legs))


@pytest.mark.parametrize("found", FOUND_BY_FEEL.values(), ids=FOUND_BY_FEEL)
def test_mounts_found_by_feel_leave_next_to_nothing_over_bend_and_turn(found: Found) -> None:
    assert worst_left(found, 75.0) <= found.left + 1e-9
    assert worst_left(found, 60.0) <= found.left_to_60 + 1e-9


def test_the_full_lift_of_a_duck_stance_is_a_little_toe_lift_on_both_feet() -> None:
    fit = fit_of(*practice(15.0, -15.0))
    lifts = [math.degrees(foot.full_lift) for foot in (fit.front, fit.rear)]
    assert lifts == pytest.approx([2.2, 2.2], abs=0.05)


def settled_at_straight_angles() -> tuple[list[Tried], float]:
    """The log at 0/0: 6 deg felt too much, 4 deg too little, 5 deg even."""
    full = fit_of(*practice(0.0, 0.0)).front.full_cant
    verdicts = {6.0: Verdict.KNOCK_KNEED, 4.0: Verdict.BOW_LEGGED, 5.0: Verdict.EVEN}
    return [Tried(rad(cant), full, verdict) for cant, verdict in verdicts.items()], full


def test_at_straight_angles_5_deg_inward_lies_in_the_band() -> None:
    foot = fit_of(*practice(0.0, 0.0)).front
    assert foot.least_cant - HALF_DEGREE <= rad(5.0) <= foot.full_cant


def test_along_the_board_about_5_deg_outward_lies_in_the_band() -> None:
    foot = fit_of(*practice(90.0, 90.0)).front
    assert foot.full_cant <= rad(-5.0) <= foot.least_cant + HALF_DEGREE


def test_at_60_deg_no_cant_is_needed() -> None:
    fit = fit_of(*practice(60.0, 60.0))
    assert fit.front.least_cant == fit.rear.least_cant == 0.0


@pytest.mark.parametrize("angle", [60.0, 90.0])
def test_along_the_board_6_deg_of_toe_and_heel_lift_lie_between_none_and_full(
    angle: float,
) -> None:
    fit = fit_of(*practice(angle, angle))
    assert 0.0 < rad(6.0) < fit.front.full_lift
    assert fit.rear.full_lift < rad(-6.0) < 0.0
    # What is needed at the least lies within a few degrees of what was found.
    assert fit.front.least_lift == pytest.approx(rad(6.0), abs=rad(3.0))
    assert fit.rear.least_lift == pytest.approx(rad(-6.0), abs=rad(3.0))


def test_the_straight_leg_estimate_is_8_deg_either_way() -> None:
    inward = fit_of(*practice(0.0, 0.0)).front.straight_leg_cant
    outward = fit_of(*practice(90.0, 90.0)).front.straight_leg_cant
    assert math.degrees(inward) == pytest.approx(8.0, abs=0.5)
    assert outward == pytest.approx(-inward, abs=1e-12)


def test_after_6_was_too_much_and_4_too_little_the_log_asks_for_5() -> None:
    log, full = settled_at_straight_angles()
    asked = next_angle(log[:2], full, step=ONE_DEGREE)
    assert math.degrees(asked.angle) == pytest.approx(5.0)
    assert next_angle([*log, log[-1]], full, step=ONE_DEGREE).settled


def test_the_share_from_straight_angles_predicts_the_cant_along_the_board() -> None:
    log, _ = settled_at_straight_angles()
    along = fit_of(*practice(90.0, 90.0)).front.full_cant
    cant, _ = angle_from_share(settled_share(log), along)
    assert cant == pytest.approx(rad(-5.0), abs=ONE_DEGREE)
