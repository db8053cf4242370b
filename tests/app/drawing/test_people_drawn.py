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
def test_in_the_middle_of_the_bend_on_the_answer_everyone_is_drawn_and_nothing_is_flagged(
    person: str, kind: str
) -> None:
    setup = setup_of(person, kind)
    middle = 0.5 * (setup.inputs.bend_from_deg + setup.inputs.bend_to_deg)
    setup = edited(setup, knee_bend_deg=middle)
    made = frame(with_mounts(setup, answer_of(setup).mounts))
    for leg in made.findings.legs.values():
        assert (leg.state, leg.boot, leg.flags) == (IN_PLANE, BOOT_IN, ())
    assert spread_of(made) > 0.5 * setup.inputs.left.hip_height_mm


@pytest.mark.parametrize("kind", STANCES)
@pytest.mark.parametrize("person", PEOPLE)
def test_flat_on_the_board_a_flag_is_raised_just_where_a_boot_is_at_its_stop_or_past_it(
    person: str, kind: str
) -> None:
    setup = setup_of(person, kind)
    made, inputs = frame(setup), setup.inputs
    assert isfinite(spread_of(made))
    for leg in made.findings.legs.values():
        away = abs(leg.boot_flex_deg - inputs.left.forward_lean_deg)
        left = inputs.left.flex_range_deg - away
        assert leg.state == USUAL_LIMITS.state(leg.off_plane_deg)
        # A boot with less than 1 degree to its stop, as it is shown, is at it.
        assert bool(leg.flags) == (left < 0.95)
        assert (leg.boot != BOOT_OUT) == (left >= -0.05)
