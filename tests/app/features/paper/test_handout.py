"""The handout, its text read back by an independent library (pypdf)."""

from __future__ import annotations

import io
from datetime import date

import pypdf
import pytest
from PySide6.QtCore import QLocale

from app.features.paper.fit_sheet import usual_paper
from app.features.paper.fit_sheet_text import begin_with
from app.features.paper.handout import SIZES, handout_of, handout_pdf
from app.features.paper.handout_text import LONGEST_WORD, HandoutText, handout_text, with_answer_on
from app.features.paper.pages import EDGE
from app.features.paper.sheet_alone import handout_alone
from app.files.resources import ASSETS, SHARED
from app.files.storage import opened
from app.frame import Frame, frame
from app.qt.painting.lettering import load_fonts, text_width
from app.qt.painting.page_painting import PER_INCH
from app.rider.setup import LONGEST_NOTES, Setup, edited
from app.stance.answer import answer_of
from app.stance.answer_words import bench_steps, boot_words, both_words, knee_words, why_words
from app.stance.findings import CAUTION, IN_A_LINE
from app.words.lengths import Lengths

DAY = date(2026, 1, 31)
HOSTILE = "</b><script>alert(1)</script> & <a href='file:///etc/passwd'>x</a> \u202e %s {0}"
RIDERS = {path.stem: opened(path).setup for path in sorted(SHARED.glob("*.json"))
          if not path.stem.startswith("parts")}  # fmt: skip


@pytest.fixture(autouse=True)
def drafting_face(qapp: object) -> None:
    assert load_fonts(ASSETS / "fonts")


def pages(shown: Frame, paper: str = "A4", **asked: bool) -> list[str]:
    """The text of each page, on one line."""
    data = handout_pdf(handout_of(shown, DAY, **asked), paper)
    return [one_line(page.extract_text()) for page in pypdf.PdfReader(io.BytesIO(data)).pages]


def one_line(text: str) -> str:
    return " ".join(text.split())


def letters(text: str) -> str:
    """A text without its blanks, which a reader of PDF has to guess."""
    return "".join(text.split())


def all_words(text: HandoutText) -> list[str]:
    feet = [said for foot in text.feet for said in (foot.foot, foot.mount, foot.sure, foot.why)]
    return [*feet, text.drawing, *text.steps, *text.watch, text.caution]


@pytest.mark.parametrize("name", RIDERS)
def test_all_that_it_tells_stands_on_two_pages_with_caution_and_date_on_each(name: str) -> None:
    shown = frame(RIDERS[name])
    read = pages(shown)
    assert len(read) == 2
    whole = letters(" ".join(read))
    for said in all_words(handout_text(shown, DAY)):
        assert letters(said) in whole, said
    for number, page in enumerate(read, 1):
        assert f"2026-01-31 · page {number} of 2" in page
        assert IN_A_LINE in page
    assert letters(CAUTION) in letters(read[1])


@pytest.mark.parametrize("name", RIDERS)
def test_it_says_what_the_answer_and_the_fit_sheet_say_in_the_same_words(name: str) -> None:
    shown = frame(RIDERS[name])
    text, answer = handout_text(shown, DAY), answer_of(shown.setup, shown.limits)
    for told, foot, sheet in zip(text.feet, answer.feet, begin_with(shown), strict=True):
        assert told.mount == both_words(foot.begin) == sheet.mount
        assert told.sure in sheet.text
        assert told.why == why_words(foot, answer, shown.setup.inputs) in sheet.text
        assert any(knee_words(foot.then, answer) in said for said in text.watch)
        assert any(boot_words(foot.then, answer) in said for said in text.watch)
    assert text.steps == tuple(bench_steps(answer, shown.setup.inputs)) or len(text.steps) == 1


def test_the_drawings_show_the_answer_on() -> None:
    shown = frame(edited(Setup(), front_angle_deg=15.0, rear_angle_deg=-9.0))
    handout = handout_of(shown, DAY)
    answer = answer_of(shown.setup, shown.limits)
    drawn = handout.drawn.setup.inputs
    assert drawn != shown.setup.inputs
    for name, value in answer.mounts._asdict().items():
        assert getattr(drawn, name) == value
    assert handout.text.drawing == "Drawn with both on, at 45° of bend."


def test_once_it_is_on_nothing_is_left_to_do_at_the_bench() -> None:
    setup = with_answer_on(Setup(), answer_of(Setup()))
    assert handout_text(frame(setup), DAY).steps == (
        "Nothing is to be changed: this is on the bindings now.",
    )


def test_name_and_notes_stand_on_it_only_when_asked() -> None:
    shown = frame(Setup(name="Kimberley", notes="sore on the left\nafter two runs"))
    bare = " ".join(pages(shown))
    assert "Kimberley" not in bare
    assert "sore" not in bare
    whole = pages(shown, named=True, notes=True)
    assert "Kimberley" in whole[0]
    assert "sore on the left" in whole[1]
    assert b"Kimberley" not in handout_alone(shown.setup, DAY)


def test_hostile_words_are_plain_words() -> None:
    shown = frame(Setup(name=HOSTILE[:60], notes=HOSTILE))
    data = handout_pdf(handout_of(shown, DAY, named=True, notes=True), "A4")
    reader = pypdf.PdfReader(io.BytesIO(data))
    read = letters(" ".join(page.extract_text() for page in reader.pages))
    assert "<script>alert(1)</script>" in read
    assert "file:///etc/passwd" in read
    # Nothing to click on, and nothing that runs.
    assert not any(page.annotations for page in reader.pages)
    assert not {"/OpenAction", "/AA"} & reader.trailer["/Root"].keys()
    assert b"/JavaScript" not in data


@pytest.mark.parametrize("notes", ["word " * 400, "x" * LONGEST_NOTES, "a\n" * 1000])
def test_notes_of_any_length_leave_it_at_two_pages(notes: str) -> None:
    shown = frame(Setup(name="n" * 80, notes=notes))
    data = handout_pdf(handout_of(shown, DAY, named=True, notes=True), "Letter")
    read = pypdf.PdfReader(io.BytesIO(data)).pages
    assert len(read) == 2
    assert letters(CAUTION) in letters(read[1].extract_text())
    longest = handout_text(shown, DAY, notes=True).notes.split()
    assert max(map(len, longest)) <= LONGEST_WORD
    # So long a word of the widest letters is no wider than the text of a page.
    room = PER_INCH * 8.5 - 2.0 * EDGE
    assert text_width("W" * LONGEST_WORD, SIZES[0], 400) <= room


def test_where_there_is_no_answer_it_says_why_and_gives_no_steps() -> None:
    setup = edited(Setup(), stance_length_mm=700.0, hip_height_mm=700.0)
    shown = frame(setup)
    assert not answer_of(setup).exists
    text = handout_text(shown, DAY)
    assert text.steps == ()
    assert {foot.mount for foot in text.feet} == {"Nothing to begin with"}
    assert all(foot.why for foot in text.feet)
    read = pages(shown)
    assert "At the bench" not in " ".join(read)
    assert text.drawing.startswith("Drawn as it stands now")


@pytest.mark.usefixtures("in_german")
def test_it_speaks_the_users_language_and_unit() -> None:
    read = pages(frame(Setup(), lengths=Lengths("cm")))
    assert "An der Werkbank" in read[1]
    assert "50,5 cm" in read[0]
    assert "At the bench" not in read[1]


def test_it_is_on_the_paper_that_is_usual_here() -> None:
    data = handout_alone(Setup(), DAY)
    width = float(pypdf.PdfReader(io.BytesIO(data)).pages[0].mediabox.width)
    assert round(width) == {"A4": 595, "Letter": 612}[usual_paper(QLocale.system())]
