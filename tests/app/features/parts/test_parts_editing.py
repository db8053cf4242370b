"""Typing into a parts list: what is taken, and what is refused in words."""

from __future__ import annotations

from dataclasses import replace

import pytest
from refused import refused

from app.features.parts.editing import (
    COLUMNS,
    RefusedError,
    can_be_typed,
    cell,
    list_words,
    refusal_words,
    step_words,
    with_cell,
    with_part_added,
    with_values,
    without_part,
)
from app.files.parts_file import MOST_PARTS, PartsDocument, parts_opened, save_parts
from app.files.resources import SHARED
from app.rider.parts import NO_PARTS, PartEntry, Parts
from geometry.reasons import ImpossibleError

ROUND = parts_opened(SHARED / "parts-round-wedges.json").parts
SIDE = PartEntry("side wedge", "across", 2.0, 4.0)
BOTH = replace(ROUND, parts=(*ROUND.parts, SIDE))


@pytest.mark.parametrize(
    ("name", "typed", "value"),
    [
        ("name", "  red disc ", "red disc"),
        ("kind", "along the foot", "along"),
        ("slope_deg", "4,5", 4.5),
        ("slope_deg", "4.5°", 4.5),
        ("bearing_step_deg", "15", 15.0),
        ("thickness_mm", "1.2 cm", 12.0),
        ("count", "0", 0),
    ],
)
def test_what_is_typed_is_taken(name: str, typed: str, value: object) -> None:
    changed = with_cell(ROUND, 1, name, typed)
    assert getattr(changed.parts[1], name) == value
    assert changed.parts[0] == ROUND.parts[0]


@pytest.mark.parametrize(
    ("name", "typed", "why"),
    [
        ("name", " ", "cannot be told from others"),
        ("slope_deg", "steep", "“steep” was not taken: not a number"),
        ("slope_deg", "25", "0.1 to 20° only"),
        ("slope_deg", "2", "two parts are called round wedge and slope 2°"),
        ("bearing_step_deg", "7", "a full turn must be a whole number of steps"),
        ("count", "1.5", "a whole number from 0 to 20 only"),
        ("count", "21", "a whole number from 0 to 20 only"),
        ("thickness_mm", "5°", "not in millimetres"),
    ],
)
def test_what_cannot_be_is_refused_with_the_reason(name: str, typed: str, why: str) -> None:
    with pytest.raises((RefusedError, ImpossibleError)) as refusal:
        with_cell(ROUND, 1, name, typed)
    assert why in refusal_words(refusal.value)


def test_a_part_that_cannot_be_turned_has_no_step_of_turning() -> None:
    fixed = with_cell(with_cell(ROUND, 0, "bearing_step_deg", "15"), 0, "kind", "across the foot")
    assert cell(fixed.parts[0], "bearing_step_deg") == "–"
    assert not can_be_typed(fixed.parts[0], "bearing_step_deg")


def test_an_edited_list_is_the_same_after_saving(tmp_path_factory: pytest.TempPathFactory) -> None:
    path = tmp_path_factory.mktemp("lists") / "mine.json"
    edited = with_cell(with_cell(ROUND, 0, "bearing_step_deg", "15"), 0, "kind", "across the foot")
    save_parts(path, PartsDocument(edited))
    assert parts_opened(path).parts == edited


def test_parts_can_be_added_until_the_list_is_full_and_are_told_apart() -> None:
    parts = NO_PARTS
    for _ in range(MOST_PARTS):
        parts = with_part_added(parts)
    assert len({entry.title for entry in parts.parts}) == MOST_PARTS
    with pytest.raises(RefusedError, match="50 sorts of parts at most"):
        with_part_added(parts)


def test_the_first_part_takes_from_the_list_the_name_of_one_without_parts() -> None:
    assert with_part_added(NO_PARTS).name == "My parts"
    named = with_values(NO_PARTS, name="Club van")
    assert with_part_added(named).name == "Club van"


def test_a_longest_stance_below_the_shortest_is_refused() -> None:
    with refused("longest stance length is 300 mm"):
        with_values(ROUND, longest_stance_mm=300.0)


@pytest.mark.parametrize(
    ("parts", "said"),
    [
        (NO_PARTS, "There are no parts on the list"),
        (replace(ROUND, largest_stack=0), "The largest stack is 0"),
        (with_cell(replace(ROUND, parts=ROUND.parts[:1]), 0, "count", "0"), "There are none of"),
        (ROUND, ""),
    ],
)
def test_a_list_that_allows_nothing_says_so(parts: Parts, said: str) -> None:
    words = list_words(parts)
    assert words.startswith(said)
    assert bool(words) == bool(said)


@pytest.mark.parametrize(
    ("after", "said"),
    [
        (with_part_added(BOTH), "Part added: 3° new part"),
        (without_part(BOTH, 0), "Part removed: 2° round wedge"),
        (with_cell(BOTH, 2, "slope_deg", "5"), "2° side wedge: slope 5.0°"),
        (with_values(BOTH, largest_stack=3), "Largest stack: 3"),
        (with_values(BOTH, insert_grid_mm=40.0), "Insert grid: 40 mm"),
        (with_values(BOTH, turns_with_binding=False), "Parts turn with the binding: no"),
        (with_values(BOTH, name="Mine"), "Name of the parts list: Mine"),
    ],
)
def test_the_history_says_what_was_changed(after: Parts, said: str) -> None:
    assert step_words(BOTH, after) == said


def test_the_table_shows_every_value_with_its_unit() -> None:
    assert [cell(ROUND.parts[1], name) for name in COLUMNS] == [
        "round wedge",
        "can be turned",
        "4.5°",
        "10.0°",
        "11 mm",
        "2",
    ]
