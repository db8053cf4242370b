"""People of every size are solved, fitted and drawn, without a flag that is not true."""

from __future__ import annotations

from math import isfinite, nan

import numpy as np
import pytest
from people import EIGHT, PEOPLE

from app.drawing.marks import Dot
from app.frame import Frame, frame
from app.rider.setup import Setup, edited
from app.stance.answer import answer_of
from app.stance.findings import BOOT_IN, BOOT_OUT, IN_PLANE, USUAL_LIMITS
from app.stance.needs import with_mounts

NAMES = ("hip_height_mm", "knee_height_mm", "ankle_height_mm", "foot_length_mm")
SOFT = {
    "sole_thickness_mm": 20.0, "forward_lean_deg": 10.0, "flex_range_deg": 20.0,
    "side_give_deg": 8.0,
}  # fmt: skip
STANCES = {
    "hard": (45.0, 40.0, 1.9, {}),
    "hard forward": (60.0, 58.0, 1.9, {}),
    "soft forward": (21.0, 3.0, 2.0, SOFT),
    "soft duck": (15.0, -12.0, 2.0, SOFT),
}


def setup_of(person: str, kind: str) -> Setup:
    """A person in a stance, the stance length by their neutral spacing (invented)."""
    front, rear, ratio, boots = STANCES[kind]
    heights = dict(zip(NAMES, PEOPLE[person], strict=True))
    # Hip spacing: 0.72 of 238 mm for grown-ups (Augustine 2018, doi 10.1002/ca.23273);
    # for children 2 (8 + 0.086 leg length) (Hara 2016, Sci Rep 6:37707).
    hips = 2.0 * (8.0 + 0.086 * 0.47 * 1320.0) if person in EIGHT else 171.0
    neutral = hips + 0.09 * heights["hip_height_mm"]
    return edited(
        Setup(), **heights, **boots, hip_spacing_mm=hips, neutral_spacing_mm=neutral,
        stance_length_mm=ratio * neutral, front_angle_deg=front, rear_angle_deg=rear,
    )  # fmt: skip


def spread_of(made: Frame) -> float:
    """How far apart the dots of all views lie (mm); nan where one has no place."""
    dots = [m.at for scene in made.scenes.values() for m in scene.marks if isinstance(m, Dot)]
    places = np.array(dots)
    return float(np.ptp(places, axis=0).max()) if np.isfinite(places).all() else nan


@pytest.mark.parametrize("kind", STANCES)
@pytest.mark.parametrize("person", PEOPLE)
def test_on_what_to_begin_with_everyone_is_drawn_and_what_is_enough_is_not_flagged(
    person: str, kind: str
) -> None:
    setup = setup_of(person, kind)
    answer = answer_of(setup)
    middle = 0.5 * sum(answer.bend)
    made = frame(edited(with_mounts(setup, answer.mounts), knee_bend_deg=middle))
    for foot in answer.feet:
        leg = made.findings.legs[foot.name]
        assert leg.state == IN_PLANE or not foot.enough
        assert leg.flags == () or not foot.boot_enough
    assert any(foot.enough for foot in answer.feet)
    assert spread_of(made) > 0.5 * setup.inputs.left.hip_height_mm


@pytest.mark.parametrize("kind", STANCES)
@pytest.mark.parametrize("person", PEOPLE)
def test_flat_on_the_board_a_flag_is_raised_just_where_something_is_beyond_its_limit(
    person: str, kind: str
) -> None:
    setup = setup_of(person, kind)
    made, inputs = frame(setup), setup.inputs
    assert isfinite(spread_of(made))
    for leg in made.findings.legs.values():
        beyond = abs(leg.boot_flex_deg - inputs.left.forward_lean_deg) > inputs.left.flex_range_deg
        assert leg.state == USUAL_LIMITS.state(leg.off_plane_deg)
        # A boot at its stop is told too.
        assert bool(leg.flags) == (leg.boot != BOOT_IN)
        assert leg.boot == BOOT_OUT or not beyond or leg.boot_left_deg > -0.05
