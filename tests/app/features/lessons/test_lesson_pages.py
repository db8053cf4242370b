"""The pages of a lesson, read back by an independent library (pypdf): asked first, told last."""

from __future__ import annotations

import io
from dataclasses import replace

import pypdf
import pytest
from PySide6.QtCore import QRectF

from app.features.lessons.handout import Group, Piece, lesson_pdf, paged
from app.features.lessons.handout_text import LessonText, lesson_text
from app.features.lessons.model import ASK, Going, stages_of
from app.features.lessons.words import answer_words
from app.features.paper.pages import Block
from app.files.lesson_file import lesson_opened
from app.files.resources import ASSETS, lessons
from app.qt.painting.lettering import load_fonts
from app.rider.lessons import NO_LESSON, Lesson, Step, Text
from app.rider.setup import DEMO
from app.stance.findings import IN_A_LINE
from app.words.lengths import Lengths

DAY = "2026-01-31"
OURS = {path.stem: lesson_opened(path).lesson for path in lessons()}
HOSTILE = "</b><script>alert(1)</script> & <a href='file:///etc/passwd'>x</a> %s {0} {x.y}"


@pytest.fixture(autouse=True)
def drafting_face(qapp: object) -> None:
    assert load_fonts(ASSETS / "fonts")


def pages(going: Going, paper: str = "A4", *, young: bool = False) -> list[str]:
    """The letters of each page, without blanks, which a reader of PDF has to guess."""
    data = lesson_pdf(going, paper, DAY, young=young)
    return [letters(page.extract_text()) for page in pypdf.PdfReader(io.BytesIO(data)).pages]


def letters(text: str) -> str:
    return "".join(text.split())


def all_words(text: LessonText) -> list[str]:
    said = [text.title, text.about]
    for task in text.tasks:
        said += [task.heading, task.words, *task.options, *task.ends]
    for solution in text.solutions:
        said += [solution.heading, solution.right, solution.words]
        said += [case.words for case in solution.cases]
    return said


@pytest.mark.parametrize("name", OURS)
@pytest.mark.parametrize("young", [False, True])
def test_all_that_a_lesson_tells_stands_on_its_pages_with_caution_and_date_on_each(
    name: str, young: bool
) -> None:
    going = Going(OURS[name])
    read = pages(going, young=young)
    whole = "".join(read)
    for said in all_words(lesson_text(going, DAY, young=young)):
        assert letters(said) in whole, said
    for number, page in enumerate(read, 1):
        assert letters(f"{DAY} · page {number} of {len(read)}") in page
        assert letters(IN_A_LINE) in page


@pytest.mark.parametrize("name", OURS)
def test_what_is_right_stands_on_no_page_up_to_the_last_question(name: str) -> None:
    going = Going(OURS[name])
    read = pages(going)
    text = lesson_text(going, DAY)
    answers = next(i for i, page in enumerate(read) if letters("Answers") in page)
    asked = [i for i, page in enumerate(read) if letters("Because:") in page]
    assert len(asked) == len(text.solutions) == sum(s.part == ASK for s in stages_of(OURS[name]))
    # One question to a page: what comes next shows what was right.
    assert len(set(asked)) == len(asked)
    assert max(asked) < answers
    for solution in text.solutions:
        assert not any(letters(solution.words) in page for page in read[:answers])
        assert any(letters(solution.right) in page for page in read[answers:])


def test_a_question_is_drawn_over_the_state_before_it_and_answered_by_the_model() -> None:
    going = Going(OURS["wide-stance"])
    text = lesson_text(going, DAY)
    asked = next(task for task in text.tasks if task.leg)
    assert asked.shown.setup.inputs.stance_length_mm == 380.0
    assert asked.shown.behind is None
    assert text.solutions[0].shown.setup.inputs.stance_length_mm == 540.0
    assert text.solutions[0].right == answer_words(going, 1)
    assert len(text.solutions[0].cases) == 2
    slid = next(task for task in text.tasks if task.ends)
    assert slid.ends == ("no cant", "12.0° inward cant")
    chosen = next(task for task in text.tasks if task.options)
    assert len(chosen.options) == 3


def test_hostile_words_are_plain_words_and_nothing_runs() -> None:
    text = Text((("", HOSTILE),))
    lesson = Lesson(text, text, DEMO.inputs, (Step(text), Step(text, text)))
    data = lesson_pdf(Going(lesson), "A4", DAY)
    reader = pypdf.PdfReader(io.BytesIO(data))
    read = letters("".join(page.extract_text() for page in reader.pages))
    assert letters("<script>alert(1)</script> & <a href=") in read
    assert "{x.y}" in read
    assert not any(page.annotations for page in reader.pages)
    assert not {"/OpenAction", "/AA"} & reader.trailer["/Root"].keys()
    assert b"/JavaScript" not in data


@pytest.mark.parametrize("words", ["word " * 4000, "x" * 9000, "a\n" * 5000])
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_words_of_any_length_leave_the_foot_of_each_page_free(words: str, paper: str) -> None:
    whole = OURS["natural-spacing"]
    asked = next(step for step in whole.steps if step.question and step.question.options)
    question = asked.question
    assert question is not None
    long = Text((("", words),))
    options = tuple(replace(each, say=long) for each in question.options)
    step = replace(asked, say=long, question=replace(question, ask=long, options=options))
    read = pages(Going(replace(whole, title=long, about=long, steps=(step, step))), paper)
    assert all(letters("Kneeline · 2026-01-31") in page for page in read)
    assert 4 <= len(read) <= 9


def test_a_lesson_without_steps_is_refused() -> None:
    with pytest.raises(ValueError, match="no steps"):
        lesson_pdf(Going(NO_LESSON), "A4", DAY)


@pytest.mark.usefixtures("in_german")
def test_it_speaks_the_users_language_and_unit() -> None:
    read = "".join(pages(Going(OURS["wide-stance"], lengths=Lengths("cm"))))
    assert letters("54,0 cm") in read
    assert letters("Antworten") in read
    assert letters("Because:") not in read


# Filling pages


def piece(height: float, grows: float = 0.0) -> Piece:
    return Piece(Block(height, lambda _easel, _area: None), grows)


def heights(groups: list[Group]) -> list[list[float]]:
    pages = paged(groups, QRectF(0.0, 0.0, 100.0, 100.0))
    return [[block.height for block in page] for page in pages]


def test_what_stands_together_is_not_parted_where_a_page_has_room_for_it() -> None:
    groups = [Group([piece(60.0)]), Group([piece(30.0), piece(30.0)])]
    assert heights(groups) == [[60.0], [30.0, 30.0]]
    tall = Group([piece(60.0), piece(60.0)])
    assert heights([Group([piece(30.0)]), tall]) == [[30.0, 60.0], [60.0]]


def test_a_page_ends_after_what_is_not_to_be_seen_with_the_next() -> None:
    groups = [Group([piece(20.0)], ends_page=True), Group([piece(20.0)]), Group([piece(20.0)])]
    assert heights(groups) == [[20.0], [20.0, 20.0]]


def test_drawings_take_what_a_page_has_left_up_to_their_most() -> None:
    groups = [Group([piece(20.0, 50.0), piece(20.0), piece(20.0, 10.0)])]
    assert heights(groups) == [[40.0, 20.0, 30.0]]
