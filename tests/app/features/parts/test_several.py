"""Parts for several set-ups, in words and from the command line."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from refused import refused

from app.__main__ import main
from app.features.parts.several import (
    Named,
    counted_words,
    kits_of,
    row_texts,
    served_words,
    to_get_in,
)
from app.files.resources import SHARED
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
    assert row_texts(1, best, kits) == ("1", "2 × 6° wedge", "none", "11 mm")
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
