"""What is said of two set-ups, and the ghost of one behind the other, by its marks."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.drawing.marks import Area, Line
from app.features.compare.model import Row, comparison_of, ghosted, input_rows, names_of
from app.features.compare.scene import ROLE, with_ghost
from app.files.resources import SHARED
from app.files.storage import opened
from app.frame import Frame, frame
from app.rider.inputs import FIELDS, default_of
from app.rider.setup import Setup, edited
from app.words.lengths import Lengths

DEMO = frame(Setup())
CANTED = frame(edited(replace(Setup(), name="Canted"), rear_cant_deg=3.0, stance_length_mm=480.0))
NOWHERE = frame(
    edited(Setup(), across_spacing_mm=600.0, stance_length_mm=800.0, hip_height_mm=560.0)
)


def ghosts(shown: Frame, view: str) -> dict[str, Line]:
    return {m.key: m for m in shown.scenes[view].marks if m.role == ROLE and isinstance(m, Line)}


def test_only_inputs_that_differ_are_listed_with_words_and_signed_change() -> None:
    rows = comparison_of(DEMO, CANTED).inputs
    assert rows == (
        Row("Stance length", "505 mm", "480 mm", "+25 mm"),
        Row("Rear cant", "no cant", "3.0° inward cant", "−3.0°"),
    )


def test_lengths_are_compared_in_the_unit_that_the_user_reads() -> None:
    assert comparison_of(DEMO._replace(lengths=Lengths("cm")), CANTED).inputs[0] == Row(
        "Stance length", "50.5 cm", "48.0 cm", "+2.5 cm"
    )


def test_another_foot_in_front_comes_first() -> None:
    other = edited(Setup(), lead_foot="right", foot_length_mm=260.0)
    rows = input_rows(Setup().inputs, other.inputs)
    assert [row.what for row in rows] == ["Foot in front", "Foot length"]


def test_a_set_up_compared_with_itself_differs_in_nothing() -> None:
    said = comparison_of(DEMO, DEMO)
    assert said.inputs == ()
    assert {row.change for row in said.knees} == {"as near its plane", "same"}
    assert "no input differs" in said.sentence
    assert all(ghosts(ghosted(DEMO, DEMO), view) == {} for view in DEMO.scenes)


def test_what_changed_at_the_knees_is_the_difference_of_the_findings() -> None:
    rows = {row.what: row for row in comparison_of(DEMO, CANTED).knees}
    here, there = DEMO.findings.legs["rear"], CANTED.findings.legs["rear"]
    by = abs(here.off_plane_deg) - abs(there.off_plane_deg)
    assert by > 0.5
    assert rows["Rear knee"].change == f"{by:.1f}° further out"
    bend = here.knee_flexion_deg - there.knee_flexion_deg
    assert rows["Rear knee bend"].live == f"{here.knee_flexion_deg:.1f}°"
    assert rows["Rear knee bend"].change in {f"{'+' if bend > 0 else '−'}{abs(bend):.1f}°", "same"}


@settings(max_examples=15)
@given(st.floats(-8.0, 8.0), st.floats(-60.0, 90.0))
def test_seen_from_the_other_side_nearer_is_further_out(cant: float, angle: float) -> None:
    other = frame(edited(Setup(), rear_cant_deg=cant, rear_angle_deg=angle))
    turned = {"nearer its plane": "further out", "further out": "nearer its plane"}
    for there, back in zip(
        comparison_of(DEMO, other).knees, comparison_of(other, DEMO).knees, strict=True
    ):
        for words, opposite in turned.items():
            if words in there.change:
                assert back.change == there.change.replace(words, opposite)
        assert (there.live, there.other) == (back.other, back.live)


def test_where_one_has_no_posture_nothing_is_claimed() -> None:
    said = comparison_of(NOWHERE, DEMO)
    assert {row.change for row in said.knees} == {""}
    assert said.knees[0].live == "no posture"
    assert "front knee without comparison" in said.sentence


def test_two_of_one_name_are_told_apart() -> None:
    assert names_of(DEMO, DEMO) == ("Demo rider", "Demo rider, kept")
    assert names_of(DEMO, CANTED) == ("Demo rider", "Canted")


@pytest.mark.parametrize("view", list(DEMO.scenes))
def test_the_ghost_has_exactly_the_others_outlines_where_they_differ(view: str) -> None:
    theirs = {mark.key: mark for mark in CANTED.scenes[view].marks}
    live = set(DEMO.scenes[view].marks)
    for key, line in ghosts(ghosted(DEMO, CANTED), view).items():
        mark = theirs[key.removeprefix("ghost.")]
        assert mark not in live
        assert isinstance(mark, Line | Area)
        closing = (mark.points[0],) if isinstance(mark, Area) else ()
        assert line.points == mark.points + closing


def test_every_leg_that_moved_has_its_ghost() -> None:
    drawn = ghosts(ghosted(DEMO, CANTED), "front")
    assert {
        f"ghost.{leg}.{part}" for leg in ("front", "rear") for part in ("thigh", "bones")
    } <= set(drawn)


@pytest.mark.parametrize("view", list(DEMO.scenes))
def test_the_live_stance_stays_as_it_was_and_its_bones_stand_before_the_ghost(view: str) -> None:
    marks = ghosted(DEMO, CANTED).scenes[view].marks
    assert tuple(m for m in marks if m.role != ROLE) == DEMO.scenes[view].marks
    for leg in ("front", "rear"):
        bones = [i for i, m in enumerate(marks) if m.key == f"{leg}.bones"]
        drawn = [i for i, m in enumerate(marks) if m.key.startswith(f"ghost.{leg}.")]
        filled = [i for i, m in enumerate(marks) if m.role.startswith(f"{leg}.limb")]
        assert not bones or not drawn or max(filled, default=-1) < min(drawn)
        assert not bones or not drawn or max(drawn) < bones[0]


def test_all_of_the_ghost_is_in_the_window_and_it_is_told_in_words() -> None:
    duck = frame(opened(SHARED / "soft-boots-duck.json").setup)
    for key, scene in ghosted(DEMO, duck).scenes.items():
        assert scene.window == DEMO.scenes[key].window.joined(duck.scenes[key].window)
        assert duck.setup.name in scene.text


@pytest.mark.parametrize("pair", [(NOWHERE, DEMO), (DEMO, NOWHERE), (NOWHERE, NOWHERE)])
def test_a_stance_without_posture_can_be_either_of_the_two(pair: tuple[Frame, Frame]) -> None:
    live, other = pair
    for key, scene in ghosted(live, other).scenes.items():
        assert tuple(m for m in scene.marks if m.role != ROLE) == live.scenes[key].marks


def test_a_view_of_nothing_filled_takes_a_ghost_too() -> None:
    bare = DEMO.scenes["front"]._replace(marks=())
    shown = with_ghost(bare, CANTED.scenes["front"], "x")
    assert {mark.role for mark in shown.marks} == {ROLE}


def test_every_input_can_be_compared() -> None:
    for field in FIELDS:
        value = min(field.high, default_of(field) + field.step)
        other = edited(Setup(), **{field.name: value})
        assert [row.what for row in input_rows(Setup().inputs, other.inputs)] == [field.label]
