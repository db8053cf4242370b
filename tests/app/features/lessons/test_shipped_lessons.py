"""The six lessons, gone through without a window: what they say and ask holds in the model.

What is expected of each answer stands in the table here, and its reason was worked out from
the geometry alone, by `solve`: the page's own code is checked against it.
"""

from __future__ import annotations

from functools import cache
from math import degrees
from pathlib import Path

import pytest

from app.features.lessons.model import (
    ASK,
    REVEAL,
    Going,
    Stage,
    is_right,
    knee_moves,
    right_options,
    right_region,
    stages_of,
)
from app.features.lessons.words import verdict
from app.files.lesson_file import lesson_opened
from app.files.resources import ASSETS, lessons
from app.rider.inputs import Inputs, changed, model
from app.rider.lessons import texts_of
from app.stance.quantities import QUANTITIES, named_in
from app.words import language
from app.words.language import NAMES
from geometry import solve

STEMS = [path.stem for path in lessons()]
RIGHT_OPTION = {
    ("natural-spacing", 2): 0,
    ("wide-stance", 2): 0,
    ("no-cant-needed", 1): 0,
    ("inward-outward", 1): 1,
    ("lift-and-boots", 1): 1,
    ("lift-and-boots", 2): 1,
    ("one-depth-only", 1): 1,
    ("one-depth-only", 3): 1,
}
"""Place of the right answer by lesson and step."""
KNEE_GOES_OUT = {("wide-stance", 1), ("inward-outward", 2)}
"""Where a knee is to be dragged, it goes outward."""
WORDS_A_MINUTE = 130.0
"""How fast a text that explains is read with its picture (from memory)."""


@cache
def going(stem: str) -> Going:
    path = next(each for each in lessons() if each.stem == stem)
    return Going(lesson_opened(path).lesson)


def questions(kind: str) -> list[tuple[str, int]]:
    return [
        (stem, i)
        for stem in STEMS
        for i, step in enumerate(going(stem).lesson.steps)
        if step.question is not None and step.question.kind == kind
    ]


def off_plane_deg(inputs: Inputs, end: str = "front") -> float:
    """Straight from the geometry."""
    return degrees(float(getattr(solve(*model(inputs)), end).off_plane))


def boot_flex_deg(inputs: Inputs, end: str) -> float:
    return degrees(float(getattr(solve(*model(inputs)), end).boot_flex))


def test_there_is_an_expected_answer_for_every_choice_and_every_knee() -> None:
    assert {*questions("choice")} == {*RIGHT_OPTION}
    assert {*questions("knee")} == KNEE_GOES_OUT


@pytest.mark.parametrize("stem", STEMS)
def test_each_stage_is_a_stance_that_can_be_stood_in_and_says_all_it_names(stem: str) -> None:
    gone = going(stem)
    for young in (False, True):
        for stage in stages_of(gone.lesson, young=young):
            solved = solve(*model(gone.inputs_at(stage)))
            assert solved.exists, stage
            said = gone.said_at(stage, young=young)
            assert said, stage
            assert "{" not in said, stage
            assert "–" not in said, stage
            assert "nan" not in said, stage
            for option in gone.options_at(stage) if stage.part == ASK else ():
                assert "{" not in option


@pytest.mark.parametrize(("stem", "i"), questions("choice"))
def test_one_answer_of_a_choice_is_right_and_it_is_the_expected_one(stem: str, i: int) -> None:
    gone = going(stem)
    expected = RIGHT_OPTION[stem, i]
    assert right_options(gone, i) == (expected,)
    question = gone.step(i).question
    assert question is not None
    for place in range(len(question.options)):
        assert is_right(gone, i, place) == (place == expected)


def test_the_expected_answers_follow_from_the_geometry_alone() -> None:
    def ends(stem: str, i: int) -> tuple[Inputs, Inputs]:
        return going(stem).before(i), going(stem).after(i)

    _, apart = ends("natural-spacing", 2)
    assert abs(off_plane_deg(apart)) < 0.05
    across, turned = ends("no-cant-needed", 1)
    assert off_plane_deg(across) < off_plane_deg(turned) < 0.0
    assert off_plane_deg(ends("inward-outward", 1)[1]) > 1.0
    for stem, better, worse in (
        ("wide-stance", "one", "two"),
        ("inward-outward", "two", "one"),
    ):
        by = {part: abs(off_plane_deg(going(stem).case(2, part))) for part in (better, worse)}
        assert by[better] < by[worse] - 5.0
    _, forward = ends("lift-and-boots", 1)
    assert boot_flex_deg(forward, "rear") > 33.0
    assert boot_flex_deg(forward, "front") < 3.0
    toe, heel = (going("lift-and-boots").case(2, part) for part in ("one", "two"))
    assert boot_flex_deg(toe, "rear") > boot_flex_deg(heel, "rear") + 10.0
    assert off_plane_deg(ends("one-depth-only", 1)[1]) < -1.0
    assert off_plane_deg(ends("one-depth-only", 3)[1]) > 1.0


@pytest.mark.parametrize(("stem", "i"), questions("slider"))
def test_a_slider_is_right_just_within_its_ends_and_nowhere_else(stem: str, i: int) -> None:
    gone = going(stem)
    question = gone.step(i).question
    region = right_region(gone, i)
    assert question is not None
    assert region.exists
    assert question.low <= region.low <= region.shown <= region.high <= question.high
    # It takes a guess: less than half of the scale is right, or its ends are told apart.
    assert (region.low, region.high) != (question.low, question.high)
    for value, right in (
        (region.low, True),
        (region.shown, True),
        (region.high, True),
        (region.low - 6.0, False),
        (region.high + 6.0, False),
    ):
        if question.low <= value <= question.high:
            assert is_right(gone, i, value) == right, value


@pytest.mark.parametrize(("stem", "i"), questions("slider"))
def test_what_is_shown_as_right_is_so_by_the_geometry_alone(stem: str, i: int) -> None:
    gone = going(stem)
    before, after = gone.before(i), gone.after(i)
    if stem == "lift-and-boots":
        assert boot_flex_deg(before, "front") < 3.0
        assert boot_flex_deg(after, "front") >= 3.95
        return
    for end in ("front", "rear"):
        assert abs(off_plane_deg(after, end)) < 2.05
    if stem != "natural-spacing":
        assert abs(off_plane_deg(before)) > 3.0
    if stem == "no-cant-needed":
        axes = QUANTITIES["long_axes_apart"].number(gone.state(after))
        assert axes == pytest.approx(after.neutral_spacing_mm, abs=30.0)


@pytest.mark.parametrize(("stem", "i"), questions("knee"))
def test_a_knee_goes_where_the_lesson_says(stem: str, i: int) -> None:
    gone = going(stem)
    moves = knee_moves(gone, i)
    assert moves > 20.0
    assert is_right(gone, i, moves)
    assert is_right(gone, i, 0.7 * moves)
    assert not is_right(gone, i, -moves)
    assert not is_right(gone, i, 0.0)
    assert "outward" in verdict(gone, i, moves)


@pytest.mark.parametrize("stem", STEMS)
def test_no_number_is_typed_into_a_text_and_every_language_is_there(stem: str) -> None:
    for text in texts_of(going(stem).lesson):
        said = dict(text.by_language)
        if not said:
            continue  # children are not told everything
        assert said.keys() == NAMES.keys()
        for words in said.values():
            assert not any(letter.isdigit() for letter in words), words
            for state, name in named_in(words):
                assert name in QUANTITIES, words
                assert state in ("", "before", "then", "one", "two"), words
        places = [sorted(named_in(words)) for words in said.values()]
        assert all({*each} == {*places[0]} for each in places), said


@pytest.mark.parametrize("stem", STEMS)
def test_a_lesson_takes_two_to_four_minutes_and_children_less(stem: str) -> None:
    gone = going(stem)

    def minutes(young: bool) -> float:
        stages = stages_of(gone.lesson, young=young)
        words = sum(len(gone.said_at(each, young=young).split()) for each in stages)
        asked = sum(each.part == ASK for each in stages)
        # A third of a minute to think about each question (engineering choice).
        return words / WORDS_A_MINUTE + asked / 3.0

    assert 2.0 <= minutes(young=False) <= 4.0
    assert minutes(young=True) <= 0.8 * minutes(young=False)


@pytest.mark.parametrize("stem", STEMS)
def test_grown_ups_predict_first_and_children_are_told_first(stem: str) -> None:
    lesson = going(stem).lesson
    asked = [i for i, step in enumerate(lesson.steps) if step.question is not None]
    grown, young = stages_of(lesson), stages_of(lesson, young=True)
    assert asked
    for i in asked:
        assert [each.part for each in grown if each.step == i][:2] == [ASK, REVEAL]
        parts = [each.part for each in young if each.step == i]
        assert parts in ([], ["tell", ASK, REVEAL])
    assert any(each.part == ASK for each in young)


def test_what_is_said_follows_the_rider_and_not_the_file() -> None:
    gone = going("wide-stance")
    wider = Going(gone.lesson.__class__(
        gone.lesson.title,
        gone.lesson.about,
        changed(gone.lesson.inputs, neutral_spacing_mm=400.0),
        gone.lesson.steps,
    ))  # fmt: skip
    stage = Stage(1, REVEAL)
    assert gone.said_at(stage) != wider.said_at(stage)


@pytest.mark.parametrize("code", [code for code in NAMES if code != language.SOURCE])
def test_the_other_languages_are_spoken(code: str) -> None:
    gone = going("natural-spacing")
    english = gone.said_at(Stage(2, ASK))
    language.choose(code, Path(ASSETS) / "texts")
    try:
        assert gone.said_at(Stage(2, ASK)) != english
        assert verdict(gone, 2, 0) != "You expected"
    finally:
        language.choose(language.SOURCE, Path(ASSETS) / "texts")
