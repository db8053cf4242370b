"""Combinations in the rider's units: numbers, sentences, and what turning a binding does."""

from __future__ import annotations

import re
from dataclasses import replace
from math import atan, cos, degrees, radians, sin, tan

import numpy as np
import pytest
from refused import refused

from app.features.parts.asked import limits_words
from app.features.parts.combining import (
    TURNS_DEG,
    Combinations,
    combinations_of,
    mounts_of,
    row_texts,
    setting_words,
    span_words,
    turned,
    turned_words,
    wanted_words,
)
from app.files.parts_file import parts_opened
from app.files.resources import SHARED
from app.rider.parts import PartEntry, Parts
from app.rider.setup import Setup, edited
from app.stance.answer import Answer, answer_of
from app.stance.findings import Limits
from app.stance.needs import Mounts

SIX = PartEntry("wedge", "turnable", 6.0, 11.0, bearing_step_deg=10.0)
ONE_SORT = Parts("One sort", (SIX,), largest_stack=1)
ROUND = parts_opened(SHARED / "parts-round-wedges.json").parts
STRAIGHT = edited(Setup(), front_angle_deg=0.0, rear_angle_deg=0.0)


def built(wanted: Mounts, parts: Parts = ONE_SORT, setup: Setup = STRAIGHT) -> Combinations:
    return combinations_of(replace(setup, parts=parts), wanted)


def test_a_six_degree_part_at_sixty_degrees_gives_about_five_of_cant_and_three_of_lift() -> None:
    # Common practice, no source: the compound angles of a 6° part turned by 60°.
    best = built(Mounts(3.0, 5.2, -3.0, 5.2)).ranked[0]
    mounts = mounts_of(best.front, best.rear)
    assert mounts == pytest.approx((3.0, 5.2, -3.0, 5.2), abs=0.02)
    assert row_texts(1, best)[:6] == (
        "1",
        "3.0° toe, 5.2° in",
        "3.0° heel, 5.2° in",
        "0°",
        "11 · 11 mm",
        "2",
    )


def test_what_to_set_stands_in_a_sentence_for_each_foot() -> None:
    found = built(Mounts(3.0, 5.2, -3.0, 5.2))
    best = found.ranked[0]
    said = dict(setting_words((best.front, best.rear), found.setup))
    assert said["front"] == (
        "3.0° toe, 5.2° in. Turn the 6° wedge so that its high side lies to the outside of the "
        "toe, 60° from straight ahead (10 o'clock). True to ±\xa00.2° of lift and ±\xa00.2° of "
        "cant."
    )
    assert "the outside of the heel, 60° from straight back (4 o'clock)." in said["rear"]


def test_the_error_is_the_angle_between_the_normals_of_the_soles() -> None:
    wanted = Mounts(0.0, 8.0, 0.0, 8.0)
    best = built(wanted).ranked[0]
    one, other = (
        np.array([0.0, -tan(radians(cant)), 1.0])
        for cant in (mounts_of(best.front, best.rear)[1], 8.0)
    )
    angle = degrees(np.arccos(one @ other / np.linalg.norm(one) / np.linalg.norm(other)))
    assert degrees(best.error) == pytest.approx(angle, abs=1e-6)
    assert angle == pytest.approx(2.0)


def test_wanting_what_it_needs_keeps_boots_in_range_and_knees_in_plane() -> None:
    setup = replace(STRAIGHT, parts=parts_opened(SHARED / "parts-round-wedges.json").parts)
    best = combinations_of(setup).ranked[0]
    mounts = mounts_of(best.front, best.rear)
    on = edited(setup, **mounts._asdict())
    for foot, cant in zip(answer_of(on).feet, (mounts[1], mounts[3]), strict=True):
        low, high = foot.in_plane
        assert low - 0.1 <= cant <= high + 0.1
        assert foot.now.in_plane
        assert foot.now.boot_left_deg >= 0.0


def test_a_growing_rider_is_built_no_more_than_three_degrees() -> None:
    setup = replace(STRAIGHT, parts=parts_opened(SHARED / "parts-fixed-slopes.json").parts)
    found = combinations_of(replace(setup, growing=True))
    for each in found.ranked:
        mounts = mounts_of(each.front, each.rear)
        assert max(map(abs, mounts)) <= 3.05
    # What is kept back is told as on the page.
    assert found.held_back.startswith("Front foot: A growing rider begins with no more than 3.0°")


@pytest.mark.parametrize(
    ("changes", "most_lift", "most_cant"),
    [
        ({"largest_cant_deg": 2.0}, 9.0, 2.0),
        ({"stance_length_mm": 600.0}, 9.0, 6.0),
        ({"largest_lift_deg": 1.0, "front_angle_deg": 60.0, "rear_angle_deg": 60.0}, 1.0, 6.0),
    ],
)
def test_nothing_is_built_beyond_what_is_allowed_and_one_begins_with(
    changes: dict[str, float], most_lift: float, most_cant: float
) -> None:
    parts = replace(ROUND, parts=(*ROUND.parts, PartEntry("block", "along", 1.0, 6.0)))
    setup = replace(edited(STRAIGHT, **changes), parts=parts)
    found = combinations_of(setup)
    for each in found.ranked:
        lifts, cants = mounts_of(each.front, each.rear)[::2], mounts_of(each.front, each.rear)[1::2]
        assert max(map(abs, lifts)) <= most_lift + 0.05
        assert max(map(abs, cants)) <= most_cant + 0.05
    said = f"at most {most_lift:.0f}° of lift and {most_cant:.0f}° of cant to begin with"
    assert said in limits_words(setup)
    # What the limit keeps out is no fault of the parts.
    assert "Add a part" not in found.shortfall


def test_another_riding_bend_asks_for_other_parts() -> None:
    shallow, deep = (
        combinations_of(replace(edited(Setup(), bend_to_deg=deepest), parts=ROUND)).ranked[0]
        for deepest in (50.0, 100.0)
    )
    assert mounts_of(shallow.front, shallow.rear) != mounts_of(deep.front, deep.rear)


def test_a_wider_limit_for_knees_asks_for_less() -> None:
    setup, wide = replace(STRAIGHT, parts=ROUND), Limits(5.0, 7.0)
    usual, eased = combinations_of(setup), combinations_of(setup, limits=wide)
    assert abs(eased.ranked[0].front.cant) < abs(usual.ranked[0].front.cant)
    assert isinstance(eased.wanted, Answer)
    assert eased.wanted.in_plane_deg == 5.0


def test_the_table_stands_in_the_order_of_its_columns() -> None:
    setup = replace(STRAIGHT, parts=parts_opened(SHARED / "parts-fixed-slopes.json").parts)
    found = combinations_of(setup)
    rows = [row_texts(i, each) for i, each in enumerate(found.ranked, 1)]
    ranks = [tuple(map(figure, row[3:])) for row in rows]
    assert ranks == sorted(ranks)
    assert len(rows[0]) == len(found.columns)


def figure(text: str) -> float:
    """What a cell comes to: the sum of its figures; a dash is nothing."""
    if text in {"–", "yes"}:
        return float(text == "yes")
    return sum(float(re.sub("[ °m]", "", each)) for each in text.split("·"))


def test_a_part_that_stays_on_the_board_changes_lift_and_cant_as_the_binding_turns() -> None:
    found = built(Mounts(0.0, 6.0, 0.0, 6.0), replace(ONE_SORT, turns_with_binding=False))
    front, rear = turned(found.ranked[0], found.parts)
    # A plane's slopes read along two lines: tan(lift) = tan(slope) cos(bearing from the toe).
    for turn, lift, cant in zip(TURNS_DEG, front.lifts_deg, front.cants_deg, strict=True):
        bearing = radians(90.0 - turn)
        assert lift == pytest.approx(degrees(atan(tan(radians(6.0)) * cos(bearing))), abs=1e-9)
        assert cant == pytest.approx(degrees(atan(tan(radians(6.0)) * sin(bearing))), abs=1e-9)
    assert rear.lifts_deg == pytest.approx([-lift for lift in front.lifts_deg], abs=1e-9)
    assert turned_words(front).startswith("Turning the front binding alone, to −10°: 1.0° heel,")


def test_a_part_that_turns_along_changes_nothing_for_the_foot() -> None:
    found = built(Mounts(0.0, 6.0, 0.0, 6.0))
    both = turned(found.ranked[0], found.parts)
    assert [each.nothing_changes for each in both] == [True, True]
    assert turned_words(both[1]) == (
        "Turning the rear binding alone changes neither its lift nor its cant."
    )


def test_an_empty_list_leaves_both_soles_flat_and_says_why() -> None:
    found = built(Mounts(3.0, 5.0, -3.0, 5.0), Parts())
    assert row_texts(1, found.ranked[0])[1:3] == ("flat", "flat")
    assert found.shortfall.startswith("The parts list is empty")


def test_a_stance_that_no_leg_reaches_has_no_needs_to_build_for() -> None:
    far = edited(
        Setup(),
        stance_length_mm=800.0,
        hip_height_mm=600.0,
        knee_height_mm=330.0,
    )
    with refused("the front foot: the rear knee would leave its hinge plane"):
        combinations_of(replace(far, parts=ONE_SORT))


@pytest.mark.parametrize(
    ("in_plane", "said"),
    [
        ((0.5, 4.5), "from 0.5° inward to 4.5° inward"),
        ((-4.4, -1.1), "from 4.0° outward to 1.5° outward"),
        ((-0.7, 2.3), "from 0.5° outward to 2.0° inward"),
        ((-0.2, 0.3), "from no cant to no cant"),
        ((1.1, 1.3), "with 1.1° inward only"),
        ((2.0, 1.0), "with no cant at every depth"),
    ],
)
def test_cants_that_do_are_told_in_half_degrees(in_plane: tuple[float, float], said: str) -> None:
    assert span_words(in_plane) == said


def test_what_is_wanted_is_told_for_both_feet() -> None:
    found = combinations_of(replace(STRAIGHT, parts=ONE_SORT))
    assert isinstance(found.wanted, Answer)
    assert wanted_words(found.wanted).startswith("Front: 5.5° inward, no lift; in plane from ")
