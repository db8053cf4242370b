"""Parts for several set-ups, in words and from the command line."""

from __future__ import annotations

import json
from dataclasses import replace
from math import degrees
from pathlib import Path

import pytest
from refused import refused

from app.__main__ import main
from app.features.parts.several import (
    Named,
    counted_words,
    kits_of,
    not_listed_words,
    row_texts,
    served_words,
    to_get_in,
)
from app.files.resources import SHARED
from app.rider.inputs import changed
from app.rider.parts import PartEntry, Parts
from app.rider.setup import Setup, edited

OWN = Parts("Own", (PartEntry("wedge", "turnable", 6.0, 11.0),), largest_stack=1)
STRAIGHT = edited(Setup(parts=OWN), front_angle_deg=0.0, rear_angle_deg=0.0)
DUCK = edited(Setup(), front_angle_deg=15.0, rear_angle_deg=-15.0)
BOTH = [Named("straight", STRAIGHT), Named("duck", DUCK)]


def test_slopes_and_thicknesses_are_read_as_they_are_written() -> None:
    read = to_get_in("2° 6 mm; 3,5:7;4 x 8;; 2° 6 mm")
    assert [(each.slope_deg, each.thickness_mm) for each in read] == [(2, 6), (3.5, 7), (4, 8)]
    assert {each.kind for each in read} == {"turnable"}
    assert to_get_in("  ") == ()


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("six degrees", "“six degrees” is not a slope and a thickness: type them as 4° 8 mm"),
        ("4° 8 mm, 5° 9 mm", "is not a slope and a thickness"),
        ("30° 8 mm", "Slope 30 in “30° 8 mm” must lie between 0.1 and 20"),
        ("4° 80 mm", "Thickness 80 in “4° 80 mm” must lie between 0 and 60"),
    ],
)
def test_what_cannot_be_got_is_refused_in_words(typed: str, words: str) -> None:
    with refused(words):
        to_get_in(typed)


def test_the_parts_of_the_first_set_up_serve_all() -> None:
    kits = kits_of(BOTH)
    best = kits.found[0]
    assert row_texts(1, best, kits) == ("1", "2 × 6° wedge", "none", "2", "11 mm")
    assert [served_words(each) for each in best.combinations] == [
        "Boots in range, knees in plane."
    ] * 2


def test_what_is_got_is_told_apart_from_what_is_there() -> None:
    none = [each._replace(setup=Setup(inputs=each.setup.inputs)) for each in BOTH]
    kits = kits_of(none, to_get_in("5.5° 9 mm; 2° 6 mm"))
    assert row_texts(1, kits.found[0], kits)[1:3] == ("none", "2 × 5.5° new wedge")


def test_what_no_part_mends_is_told_for_each_set_up() -> None:
    flat = [Named("straight", Setup(inputs=STRAIGHT.inputs))]
    combination = kits_of(flat).found[0].combinations[0]
    assert served_words(combination).startswith("A cant is outside of what keeps the knee in plane")


def test_a_set_up_without_an_answer_is_named() -> None:
    far = edited(Setup(), stance_length_mm=800.0, hip_height_mm=600.0, knee_height_mm=330.0)
    with refused("there is no answer for the long one: the "):
        kits_of([*BOTH, Named("the long one", far)])


def test_each_set_up_is_served_within_its_own_limits() -> None:
    held = replace(DUCK, inputs=changed(DUCK.inputs, largest_cant_deg=2.0))
    kits = kits_of([BOTH[0], Named("held", held)], to_get_in("2° 6 mm; 4° 8 mm"))
    for kit in kits.found:
        for built in (kit.combinations[1].front, kit.combinations[1].rear):
            assert abs(degrees(built.cant)) <= 2.05
    grown = kits_of([Named("grows", replace(STRAIGHT, growing=True))], to_get_in("6° 8 mm"))
    assert grown.held_back[0].startswith("Front foot: A growing rider begins with no more than")
    assert all(abs(degrees(each.combinations[0].front.cant)) <= 3.05 for each in grown.found)


def test_kits_stand_in_the_order_that_their_columns_tell() -> None:
    kits = kits_of(BOTH, to_get_in("2° 6 mm; 3.5° 7 mm; 5.5° 9 mm"))
    told = [
        (sum(kit.to_get), int(row[3]), float(row[4].split()[0]))
        for kit, row in ((each, row_texts(1, each, kits)) for each in kits.found)
    ]
    assert len(told) > 1
    assert told == sorted(told)


def test_a_folder_of_very_many_set_ups_lists_the_first_and_says_so() -> None:
    assert not_listed_words(200) == ""
    assert not_listed_words(20_000).startswith("The folder holds 20,000 set-ups; the first 200 ")


def test_more_set_ups_than_can_be_served_are_refused() -> None:
    with refused("at most 12 set-ups are served together"):
        kits_of(BOTH * 7)


def test_none_of_any_part_is_told() -> None:
    assert counted_words([0, 0], OWN.parts * 2) == "none"


def test_set_ups_named_beside_the_first_are_served_by_one_kit(
    capsys: pytest.CaptureFixture[str],
) -> None:
    file, also = SHARED / "hard-boots.json", SHARED / "soft-boots-duck.json"
    options = ["--numbers", "--also", str(also), "--ask", "can_get=4° 8 mm; 6° 11 mm"]
    assert main([str(file), *options]) == 0
    told = json.loads(capsys.readouterr().out)["kits"]
    assert [each["name"] for each in told["kits"][0]["set_ups"]] == told["set_ups"]
    assert told["set_ups"][1] == Path(also).stem
    assert told["kits"][0]["to_get"] == told["kits"][0]["parts"]


def test_a_line_that_cannot_be_read_is_told_in_one_line(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--numbers", "--ask", "can_get=wedges"]) != 0
    assert "“wedges” is not a slope and a thickness" in capsys.readouterr().err
