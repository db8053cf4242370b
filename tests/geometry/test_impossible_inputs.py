"""Impossible inputs are refused at the door, by name, value and range."""

from __future__ import annotations

import math
import re
from typing import Any

import numpy as np
import pytest
from refused import refused
from riders import demo

# What is wrong, in mm and degrees, and the whole message.
IMPOSSIBLE = [
    ("hip_height", 100.0, "hip height is 100 mm; it must lie between 200 and 1500 mm"),
    ("knee_height", 20.0, "knee height is 20 mm; it must lie between 80 and 1000 mm"),
    ("ankle_height", -1.0, "ankle height is -1 mm; it must lie between 0 and 200 mm"),
    ("hip_spacing", 500.0, "hip spacing is 500 mm; it must lie between 0 and 400 mm"),
    ("neutral_spacing", -5.0, "natural spacing is -5 mm; it must lie between 0 and 1000 mm"),
    ("foot_length", 10.0, "foot length is 10 mm; it must lie between 50 and 450 mm"),
    ("knee_tracking", 75.0, "knee tracking is 75 deg; it must lie between -60 and 60 deg"),
    ("sole_thickness", -2.0, "sole thickness is -2 mm; it must lie between 0 and 200 mm"),
    ("forward_lean", 80.0, "forward lean is 80 deg; it must lie between -45 and 60 deg"),
    ("flex_range", -1.0, "flex range is -1 deg; it must lie between 0 and 90 deg"),
    ("side_give", 50.0, "side give is 50 deg; it must lie between 0 and 45 deg"),
    ("front_angle", 200.0, "binding angle is 200 deg; it must lie between -180 and 180 deg"),
    ("rear_lift", 70.0, "lift is 70 deg; it must lie between -60 and 60 deg"),
    ("front_cant", -70.0, "cant is -70 deg; it must lie between -60 and 60 deg"),
    ("stance_length", -10.0, "stance length is -10 mm; it must lie between 0 and 2000 mm"),
    ("across_spacing", 1200.0, "across spacing is 1200 mm; it must lie between -1000 and 1000 mm"),
    ("knee_bend", -5.0, "knee bend is -5 deg; it must lie between 0 and 170 deg"),
    ("hips_turned", 190.0, "hips turned is 190 deg; it must lie between -180 and 180 deg"),
    ("cuff_offset", 50.0, "cuff offset is 50 deg; it must lie between -45 and 45 deg"),
    ("back_lean", 100.0, "back lean is 100 deg; it must lie between -90 and 90 deg"),
    ("weight_ahead", 600.0, "weight ahead is 600 mm; it must lie between -500 and 500 mm"),
    ("rear_knee_height", 20.0, "knee height is 20 mm; it must lie between 80 and 1000 mm"),
    ("front_side_give", 50.0, "side give is 50 deg; it must lie between 0 and 45 deg"),
    ("hip_shift", 1500.0, "hip shift is 1500 mm; it must lie between -1000 and 1000 mm"),
]
NAMES = [name for name, _, _ in IMPOSSIBLE]


@pytest.mark.parametrize(("name", "value", "words"), IMPOSSIBLE, ids=NAMES)
def test_a_value_out_of_range_is_named_with_its_range(name: str, value: float, words: str) -> None:
    with refused(f"^{re.escape(words)}$"):
        demo(**{name: value})


@pytest.mark.parametrize(("name", "value", "words"), IMPOSSIBLE, ids=NAMES)
def test_of_an_array_the_first_bad_value_is_named(name: str, value: float, words: str) -> None:
    usual = {"hip_height": 900.0, "knee_height": 480.0, "foot_length": 250.0}
    good = usual.get(name.removeprefix("rear_"), 0.0)
    with refused(f"^{re.escape(words)}$"):
        demo(**{name: np.array([good, value, 9.0 * value])})


@pytest.mark.parametrize("name", NAMES)
def test_not_a_number_is_refused(name: str) -> None:
    with refused(r" is nan (mm|deg); it must lie between "):
        demo(**{name: math.nan})


ORDER = [
    ({"knee_height": 900.0}, "knee height is 900 mm; it must be less than the hip height, 880 mm"),
    ({"ankle_height": 95.0, "knee_height": 90.0}, "ankle height is 95 mm; it must be less than"),
    ({"hip_height": np.array([880.0, 450.0])}, "knee height is 490 mm; it must be less than"),
]


@pytest.mark.parametrize(("changes", "words"), ORDER)
def test_joints_out_of_order_are_refused_with_both_heights(
    changes: dict[str, Any], words: str
) -> None:
    with refused(re.escape(words)):
        demo(**changes)


@pytest.mark.parametrize("degrees", [-180.0, 180.0])
def test_the_ends_of_a_range_belong_to_it(degrees: float) -> None:
    assert demo(front_angle=degrees).stance.front.angle == math.radians(degrees)
