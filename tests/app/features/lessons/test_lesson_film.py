"""A lesson as a clip: its stages in order, long enough to be read, legs going between states."""

from __future__ import annotations

import io
from dataclasses import replace
from datetime import date
from itertools import pairwise

import pytest
from PIL import Image

from app.features.clip.encoding import ENDINGS
from app.features.clip.making import Look, Studio
from app.features.clip.model import MOST_FRAMES, Shot, Strip
from app.features.clip.painting import HEIGHT
from app.features.lessons.film import (
    LETTERS_PER_S,
    MOVED_MS,
    THOUGHT_S,
    lesson_strip,
    slides_of,
)
from app.features.lessons.model import ASK, REVEAL, Going, Stage, right_options, stages_of
from app.features.lessons.words import (
    LONGEST,
    MOST_LINES,
    answer_words,
    heading_of,
    place_words,
    question_words,
    readable,
)
from app.files.lesson_file import lesson_opened
from app.files.resources import ASSETS, lessons
from app.frame import frame
from app.qt.painting.lettering import load_fonts
from app.rider.lessons import NO_LESSON, Lesson, Step, Text
from app.rider.setup import DEMO
from app.stance.findings import CAUTION
from app.words.lengths import Lengths
from geometry.fitting.steps import finished

DAY = date(2026, 1, 31)
OURS = {path.stem: lesson_opened(path).lesson for path in lessons()}


def going(name: str) -> Going:
    return Going(OURS[name])


def rests(strip: Strip) -> list[tuple[Shot, int]]:
    """The last picture of each stage, in which it rests, and how long (ms)."""
    ends = [*sorted(strip.cuts - {0}), len(strip.shots)]
    return [(strip.shots[end - 1], strip.durations_ms[end - 1]) for end in ends]


@pytest.fixture(scope="module")
def strips() -> dict[str, Strip]:
    return {name: lesson_strip(going(name)) for name in OURS}


@pytest.mark.parametrize("name", OURS)
def test_every_stage_is_shown_in_order_with_its_own_state_words_and_marks(
    strips: dict[str, Strip], name: str
) -> None:
    its, stages = going(name), stages_of(OURS[name])
    cover, *shown = rests(strips[name])
    assert cover[0].words == OURS[name].about.said
    assert len(shown) == len(stages)
    for at, (stage, (shot, _)) in enumerate(zip(stages, shown, strict=True)):
        assert shot.frame.setup.inputs == its.inputs_at(stage)
        assert shot.said == heading_of(stage)
        assert shot.place == place_words(at, len(stages))
        assert shot.title == OURS[name].title.said
        assert shot.lit == frozenset(its.step(stage.step).mark)
        assert its.said_at(stage) in shot.words
        if stage.part == REVEAL:
            assert answer_words(its, stage.step) in shot.words
        if stage.part == ASK:
            assert shot.words == question_words(its, stage)
            assert answer_words(its, stage.step) not in shot.words


@pytest.mark.parametrize("name", OURS)
@pytest.mark.parametrize("young", [False, True])
def test_each_is_there_as_long_as_it_takes_to_be_read_and_all_take_two_to_four_minutes(
    name: str, young: bool
) -> None:
    strip = lesson_strip(going(name), young=young)
    slides = slides_of(going(name), young=young)
    for slide, (shot, lasts) in zip(slides, rests(strip), strict=True):
        least = 1000.0 * len(shot.words) / LETTERS_PER_S
        assert lasts >= least + (1000.0 * THOUGHT_S if slide.asks else 0.0)
    assert all(time % 10 == 0 for time in strip.durations_ms)
    assert len(strip.shots) <= MOST_FRAMES
    minutes = sum(strip.durations_ms) / 60_000.0
    assert (1.0 if young else 2.0) <= minutes <= 4.0


def test_the_legs_go_from_the_state_asked_over_to_the_one_after_it(
    strips: dict[str, Strip],
) -> None:
    strip = strips["wide-stance"]
    lengths = [shot.frame.setup.inputs.stance_length_mm for shot in strip.shots]
    first = next(i for i, shot in enumerate(strip.shots) if shot.said == heading_of(Stage(0, ASK)))
    way = [first, *range(first + 1, sorted(strip.cuts)[3 + 1])]
    seen = [lengths[i] for i in way]
    assert (seen[0], seen[-1]) == (380.0, 540.0)
    assert all(a < b for a, b in pairwise(seen))
    assert len(seen) > 5
    assert {strip.durations_ms[i] for i in way[1:-1]} == {MOVED_MS}
    # The state before stands behind it all the way.
    ghosts = [
        any(mark.role == "ghost" for mark in strip.shots[i].frame.scenes["front"].marks)
        for i in way[1:]
    ]
    assert all(ghosts)


def test_the_scale_stays_while_the_front_view_looks_the_same_way(
    strips: dict[str, Strip],
) -> None:
    for strip in strips.values():
        windows: dict[str, set[object]] = {}
        for shot in strip.shots:
            look = shot.frame.scenes["front"].title
            views = tuple(sorted((key, each.window) for key, each in shot.frame.scenes.items()))
            windows.setdefault(look, set()).add(views)
        assert all(len(each) == 1 for each in windows.values())
        for shot in strip.shots[:: len(strip.shots) // 5]:
            own = frame(shot.frame.setup)
            room = shot.frame.scenes["side"].window
            assert room.joined(own.scenes["side"].window) == room


def test_the_right_answer_is_the_models_own() -> None:
    its = going("natural-spacing")
    asks = [stage for stage in stages_of(its.lesson) if stage.part == ASK]
    place = right_options(its, asks[0].step)[0]
    option = its.options_at(Stage(asks[0].step, REVEAL))[place]
    assert answer_words(its, asks[0].step) == f"It is this: {option}."
    assert answer_words(its, asks[1].step) == "It takes 320 mm to 370 mm."
    knee = going("wide-stance")
    assert answer_words(knee, 1) == "The knee goes 73 mm outward."
    inches = Going(knee.lesson, lengths=Lengths("in"))
    assert answer_words(inches, 1) == "The knee goes 2.87 in outward."


def test_children_are_told_first_in_the_film_too() -> None:
    its = going("wide-stance")
    parts = [stage.part for stage in stages_of(its.lesson, young=True)]
    said = [slide.words for slide in slides_of(its, young=True)[1:]]
    asked = parts.index(ASK)
    assert said[asked - 1] in said[asked + 1]
    assert said[asked - 1] not in said[asked]


def test_a_lesson_without_steps_cannot_be_filmed_and_it_is_said_why() -> None:
    with pytest.raises(ValueError, match="no steps"):
        lesson_strip(Going(NO_LESSON))


def test_a_text_of_any_length_is_cut_to_what_can_be_read_at_a_time() -> None:
    for text in ("x" * 100_000, "a\n" * 5_000, "word " * 5_000):
        said = readable(text)
        assert len(said) < 1.2 * LONGEST
        assert said.count("\n") < MOST_LINES
        assert max(map(len, said.split())) <= 45
    assert readable("One.\n\n  Two  words. ") == "One.\nTwo words."


HOSTILE = "</b><script>alert(1)</script> & %s {0} {before.rear_knee.__class__} \u202e"


@pytest.fixture(scope="module")
def hostile_studio(qapp: object) -> Studio:
    assert load_fonts(ASSETS / "fonts")
    step = Step(Text((("", HOSTILE),)))
    lesson = Lesson(Text((("", HOSTILE),)), Text((("", HOSTILE),)), DEMO.inputs, (step,))
    return Studio(lesson_strip(Going(lesson)), Look(), DAY)


def test_hostile_words_are_painted_letter_for_letter_and_are_not_in_the_file(
    hostile_studio: Studio, monkeypatch: pytest.MonkeyPatch
) -> None:
    passages: list[str] = []
    paragraph = "app.features.clip.painting.paragraph"
    monkeypatch.setattr(paragraph, lambda _easel, _area, text, _look: passages.append(text))
    hostile_studio.picture(1)
    assert passages == [HOSTILE.strip(), CAUTION]
    monkeypatch.undo()
    reel = finished(hostile_studio.reel())
    for ending in ENDINGS:
        assert b"script" not in reel.file(ending)


def test_its_pictures_are_higher_by_its_words_all_alike_and_its_size_is_foretold(
    qapp: object, strips: dict[str, Strip]
) -> None:
    assert load_fonts(ASSETS / "fonts")
    strip = strips["no-cant-needed"]
    short = strip._replace(
        shots=strip.shots[:40],
        durations_ms=strip.durations_ms[:40],
        cuts=frozenset(cut for cut in strip.cuts if cut < 40),
    )
    studio = Studio(short, Look(), DAY)
    sizes = {(picture.width(), picture.height()) for picture in map(studio.picture, (0, 5, 39))}
    assert len(sizes) == 1
    assert sizes.pop()[1] > HEIGHT
    data = finished(studio.reel()).file(".gif")
    assert finished(studio.foretold(".gif")) == pytest.approx(len(data), rel=0.25)
    with Image.open(io.BytesIO(data)) as read:
        shown = []
        for place in range(read.n_frames):
            read.seek(place)
            shown.append(read.info["duration"])
    assert tuple(shown) == short.durations_ms


@pytest.mark.usefixtures("in_german")
@pytest.mark.parametrize("name", OURS)
def test_it_speaks_the_language_in_force(name: str) -> None:
    strip = lesson_strip(going(name))
    assert "Was erwartest du?" in {shot.said for shot in strip.shots}
    titles = dict(OURS[name].title.by_language)
    assert {shot.title for shot in strip.shots} == {titles["de"]}


def test_a_lesson_of_the_most_steps_has_no_more_pictures_than_stages() -> None:
    steps = tuple(
        Step(Text((("", str(i)),)), set=(("knee_bend_deg", 30.0 + i % 7),)) for i in range(60)
    )
    strip = lesson_strip(Going(replace(NO_LESSON, inputs=DEMO.inputs, steps=steps)))
    assert len(strip.cuts) == 61
    assert 61 < len(strip.shots) <= MOST_FRAMES
