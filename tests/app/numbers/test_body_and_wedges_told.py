"""The rider's legs and the wedges to print among the numbers."""

from __future__ import annotations

from dataclasses import replace
from math import radians, tan

import pytest
from both_sides import repeats_of_both

from app.numbers.hardware import wedge_numbers
from app.numbers.rider import body_numbers
from app.rider.setup import Setup, edited, estimated
from app.rider.wedge import WedgeInputs
from geometry.riders.estimates import KnownLengths, estimated_hip_height
from geometry.riders.repeats import repeats_of

MOUNTED = edited(
    Setup(), front_lift_deg=3.0, front_cant_deg=5.0, rear_lift_deg=-2.0, rear_cant_deg=-1.0
)
SHARP = WedgeInputs(corner_radius_mm=0.0, grid_across_mm=0.0, grid_along_mm=0.0)


def test_an_estimate_is_told_with_its_published_error_and_what_it_rests_on() -> None:
    told = body_numbers(estimated(Setup(), stature_mm=1750.0, figures="men"))
    value, error = estimated_hip_height(KnownLengths(1750.0, None, None), "men")
    hip = told["hip_height"]
    assert hip["origin"] == "estimated"
    assert hip["value_mm"] == pytest.approx(float(value), abs=0.5)
    assert hip["standard_error_mm"] == float(error)
    assert told["known"] == {
        "figures": "men", "stature_mm": 1750.0, "inseam_mm": None, "sitting_knee_mm": None,
    }  # fmt: skip


def test_repeats_tell_their_own_error_and_are_pointed_out_where_they_disagree() -> None:
    taken = (870.0, 886.0)
    setup = edited(
        replace(Setup(), repeats=repeats_of_both(hip_height_mm=taken)), hip_height_mm=878.0
    )
    hip = body_numbers(setup)["hip_height"]
    assert (hip["origin"], hip["repeats_mm"]) == ("measured", [870.0, 886.0])
    assert hip["standard_error_mm"] == repeats_of(taken).standard_error
    assert "16" in hip["remark"]


def test_an_angle_of_the_body_is_told_in_degrees() -> None:
    told = body_numbers(edited(Setup(), knee_tracking_deg=4.0))["knee_tracking"]
    assert (told["value_deg"], told["origin"], told["remark"]) == (4.0, "measured", None)


def test_repeats_of_what_boots_do_are_told_too() -> None:
    told = body_numbers(replace(Setup(), repeats=repeats_of_both(side_give_deg=(3.0, 5.0))))[
        "boots"
    ]
    assert told["side_give"] == {
        "value_deg": 4.0, "standard_error_deg": pytest.approx(1.0), "repeats_deg": [3.0, 5.0],
        "remark": None,
    }  # fmt: skip
    assert told["flex_range"]["standard_error_deg"] is None


def test_each_foot_has_the_wedge_that_makes_its_mount() -> None:
    told = wedge_numbers(replace(MOUNTED, wedge=SHARP))
    assert (told["front"]["lift_deg"], told["front"]["cant_deg"]) == pytest.approx((3.0, 5.0))
    assert (told["rear"]["lift_deg"], told["rear"]["cant_deg"]) == pytest.approx((-2.0, -1.0))


def test_the_corners_lie_in_the_plane_of_lift_and_cant_and_the_lowest_is_the_thinnest() -> None:
    wedge = wedge_numbers(replace(MOUNTED, wedge=SHARP))["front"]
    for corner in wedge["corners"]:
        rise = corner["ahead_mm"] * tan(radians(3.0)) + corner["outer_mm"] * tan(radians(5.0))
        assert corner["height_mm"] == pytest.approx(wedge["centre_mm"] + rise)
    heights = [corner["height_mm"] for corner in wedge["corners"]]
    assert min(heights) == pytest.approx(wedge["thinnest_mm"]) == pytest.approx(SHARP.smallest_mm)
    assert max(heights) == pytest.approx(wedge["thickest_mm"])


def test_a_sharp_cornered_wedge_without_holes_is_as_large_as_a_prism_of_its_middle_height() -> None:
    wedge = wedge_numbers(replace(MOUNTED, wedge=SHARP))["rear"]
    prism = SHARP.length_mm * SHARP.width_mm * wedge["centre_mm"] / 1000.0
    assert wedge["volume_cm3"] == pytest.approx(prism)
    assert wedge["holes"] == []


def test_over_each_hole_it_is_told_how_much_longer_the_screw_must_be() -> None:
    wedge = wedge_numbers(MOUNTED)["front"]
    assert len(wedge["holes"]) == 4
    for hole in wedge["holes"]:
        rise = hole["ahead_mm"] * tan(radians(3.0)) + hole["outer_mm"] * tan(radians(5.0))
        assert hole["height_mm"] == pytest.approx(wedge["centre_mm"] + rise)


def test_typed_slopes_are_those_of_one_foots_wedge_only() -> None:
    typed = replace(SHARP, foot="rear", slopes="typed", lift_deg=1.0, cant_deg=2.0)
    told = wedge_numbers(replace(MOUNTED, wedge=typed))
    assert told["rear"]["cant_deg"] == pytest.approx(2.0)
    assert told["front"]["volume_cm3"] is None
    assert told["front"]["reason"] == "the lift and cant typed are those of the rear foot's wedge"


def test_what_is_wrong_with_a_wedge_is_told_with_its_numbers() -> None:
    thin = replace(SHARP, centre_height_mm=4.0)
    told = wedge_numbers(replace(MOUNTED, wedge=thin))["front"]
    assert told["centre_mm"] == 4.0
    assert "less than the smallest thickness of 3 mm" in told["problems"][0]
