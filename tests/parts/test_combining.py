"""Combinations in the rider's units: numbers, sentences, and what turning a binding does."""

from __future__ import annotations

from dataclasses import replace
from math import atan, cos, degrees, radians, sin, tan

import numpy as np
import pytest
from refused import refused

from app.features.parts.combining import (
    TURNS_DEG,
    Combinations,
    band_words,
    combinations_of,
    mounts_of,
    row_texts,
    setting_words,
    turned,
    turned_words,
    wanted_words,
)
from app.files.parts_file import parts_opened
from app.files.resources import SHARED
from app.rider.parts import PartEntry, Parts
from app.rider.setup import Setup, edited
from app.stance.needs import Mounts, needs_of

SIX = PartEntry("wedge", "turnable", 6.0, 11.0, bearing_step_deg=10.0)
ONE_SORT = Parts("One sort", (SIX,), largest_stack=1)
STRAIGHT = edited(Setup(), front_angle_deg=0.0, rear_angle_deg=0.0)


def built(wanted: Mounts, parts: Parts = ONE_SORT, setup: Setup = STRAIGHT) -> Combinations:
    return combinations_of(replace(setup, parts=parts), wanted)


def test_a_six_degree_part_at_sixty_degrees_gives_about_five_of_cant_and_three_of_lift() -> None:
    # Common practice, no source: the compound angles of a 6° part turned by 60°.
    best = built(Mounts(3.0, 5.2, -3.0, 5.2)).ranked[0]
    mounts = mounts_of(best.front, best.rear)
    assert mounts == pytest.approx((3.0, 5.2, -3.0, 5.2), abs=0.02)
    assert row_texts(1, best) == (
        "1",
        "3.0° toe, 5.2° in",
        "3.0° heel, 5.2° in",
        "0°",
        *row_texts(1, best)[4:],
    )
    assert row_texts(1, best)[5] == "11 · 11 mm"


def test_what_to_set_stands_in_a_sentence_for_each_foot() -> None:
    found = built(Mounts(3.0, 5.2, -3.0, 5.2))
    best = found.ranked[0]
    said = dict(setting_words((best.front, best.rear), found.parts))
    assert said["front"] == (
        "3.0° toe, 5.2° in. Turn the 6° wedge so that its high side stands 60° outside the toe."
    )
    assert said["rear"].endswith("its high side stands 120° outside the toe.")


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


def test_wanting_what_it_needs_comes_within_the_bands_of_both_feet() -> None:
    setup = replace(STRAIGHT, parts=parts_opened(SHARED / "parts-round-wedges.json").parts)
    found = combinations_of(setup)
    mounts = mounts_of(found.ranked[0].front, found.ranked[0].rear)
    needs = needs_of(setup)
    for foot, cant in ((needs.front, mounts.front_cant_deg), (needs.rear, mounts.rear_cant_deg)):
        assert foot.least_cant.deg - 0.25 <= cant <= foot.full_cant.deg + 0.25
    assert not found.shortfall


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
        knee_bend_deg=5.0,
    )
    with refused(r"the front cant: the .* leg cannot reach"):
        combinations_of(replace(far, parts=ONE_SORT))


@pytest.mark.parametrize(
    ("band", "said"),
    [
        ((0.0, 4.5), "0 to 4.5° in"),
        ((-4.5, -1.0), "1 to 4.5° out"),
        ((5.0, 5.0), "5° in"),
        ((0.1, -0.1), "0°"),
        ((-1.0, 2.0), "1° out to 2° in"),
    ],
)
def test_bands_are_told_in_half_degrees(band: tuple[float, float], said: str) -> None:
    assert band_words((radians(band[0]), radians(band[1])), ("in", "out")) == said


def test_what_is_wanted_is_told_for_both_feet() -> None:
    found = built(Mounts(3.0, 5.0, -3.0, 5.0))
    assert wanted_words(found.wanted) == (
        "Front: lift 3° toe, cant 5° in. Rear: lift 3° heel, cant 5° in."
    )
