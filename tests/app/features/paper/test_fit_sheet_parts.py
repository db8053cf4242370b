"""The parts on the fit sheet: those that make the mounts in hand, or none."""

from __future__ import annotations

from dataclasses import replace
from math import degrees, radians

import pytest

from app.features.paper.fit_sheet_text import NO_PARTS_UNDER, parts_under
from app.files.parts_file import parts_opened
from app.files.resources import SHARED
from app.rider.inputs import model
from app.rider.parts import model as parts_model
from app.rider.setup import Setup, edited
from geometry.fitting.answer import USUAL_TERMS
from geometry.hardware.combinations import Wanted, nearest_combinations

WEDGES = parts_opened(SHARED / "parts-round-wedges.json").parts
OWNER = replace(Setup(), parts=WEDGES)


def test_without_parts_nothing_is_said() -> None:
    assert parts_under(Setup()) == NO_PARTS_UNDER


def test_a_part_that_the_owner_has_none_of_is_no_part() -> None:
    none = replace(WEDGES, parts=tuple(replace(part, count=0) for part in WEDGES.parts))
    assert parts_under(replace(OWNER, parts=none)) == NO_PARTS_UNDER


def test_flat_mounts_need_no_part() -> None:
    flat = ("Screw the binding on flat, without any part.",)
    assert [each.steps for each in parts_under(OWNER).feet] == [flat, flat]


@pytest.mark.parametrize(("lift", "where"), [(2.0, "at the toe"), (-2.0, "at the heel")])
def test_a_wedge_with_its_high_side_at_the_toe_lifts_the_toe(lift: float, where: str) -> None:
    front, rear = parts_under(edited(OWNER, front_lift_deg=lift)).feet
    assert (front.foot, rear.foot) == ("front", "rear")
    assert len(front.steps) == 1
    assert "2° round wedge" in front.steps[0]
    assert where in front.steps[0]
    assert "flat" in rear.steps[0]


def test_mounts_taken_from_a_combination_are_known_again() -> None:
    wish = Wanted(radians(2.0), radians(4.0))
    solved, parts = model(OWNER.inputs), parts_model(WEDGES)
    built = nearest_combinations(solved, USUAL_TERMS, parts, (wish, wish))[0].front
    lift, cant = (round(degrees(float(angle)), 2) for angle in (built.lift, built.cant))
    front, _ = parts_under(edited(OWNER, front_lift_deg=lift, front_cant_deg=cant)).feet
    assert len(front.steps) == len(built.settings)


def test_of_mounts_that_these_parts_cannot_make_one_says_so_and_where_to_look() -> None:
    under = parts_under(edited(OWNER, front_cant_deg=1.5, rear_lift_deg=2.0, rear_cant_deg=-4.0))
    assert under.feet == ()
    assert under.instead == (
        "On the bindings are: front 1.5° inward, no lift; "
        "rear 4.0° outward, 2.0° toe lift. "
        "No combination of the parts list “Round wedges” makes them; "
        "those that come nearest stand on the page Parts, under Combinations."
    )


def test_of_parts_with_too_many_ways_to_stack_one_says_that_nothing_is_known() -> None:
    fine = replace(WEDGES.parts[0], bearing_step_deg=1.0, count=9)
    many = tuple(replace(fine, name=f"wedge {i}") for i in range(8))
    crowded = replace(WEDGES, parts=many, largest_stack=3)
    under = parts_under(replace(OWNER, parts=crowded))
    assert under.feet == ()
    assert under.instead.startswith("Which parts make these lifts and cants is not known: ")
