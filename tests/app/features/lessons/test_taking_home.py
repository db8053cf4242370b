"""Taking a lesson home from its page, by real clicks: as a clip, and as pages."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pypdf
import pytest
from PIL import Image
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog
from pytestqt.qtbot import QtBot
from shiboken6 import isValid
from shown_windows import shown_window

from app.features.clip.dialog import ClipDialog
from app.features.lessons.page import LessonsPage
from app.rider.lessons import Lesson, Step, Text
from app.rider.setup import DEMO
from app.window.window import Window

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def window(qtbot: QtBot) -> Window:
    return shown_window(qtbot, active=True)


@pytest.fixture
def page(window: Window) -> LessonsPage:
    opened = window.tray.open_page("Lessons")
    assert isinstance(opened, LessonsPage)
    return opened


def short_lesson() -> Lesson:
    steps = (
        Step(Text((("", "Look."),))),
        Step(Text((("", "It bends."),)), set=(("knee_bend_deg", 60.0),)),
    )
    return Lesson(Text((("", "Bend <b>it</b>"),)), Text(), DEMO.inputs, steps)


@pytest.fixture
def dialog(window: Window, page: LessonsPage, qtbot: QtBot) -> Iterator[ClipDialog]:
    window.session.take("Opened", replace(window.session.setup, lesson=short_lesson()))
    page._choose("carried")
    page.take_home.ways.actions()[0].trigger()
    made = window.findChild(ClipDialog)
    assert isinstance(made, ClipDialog)
    qtbot.waitUntil(made.save.isEnabled, timeout=20_000)
    yield made
    if isValid(made):
        made.reject()


def choose(monkeypatch: pytest.MonkeyPatch, path: Path) -> None:
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(path), ""))


def test_a_lesson_is_filmed_and_its_size_told_before(
    window: Window, dialog: ClipDialog, qtbot: QtBot, tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:  # fmt: skip
    assert dialog.foretold.text().startswith("19 pictures of 1000 × ")
    assert dialog.kind.currentText() == "Bend <b>it</b>"
    # It is as long as its words, and nobody's own.
    for each in (dialog.sweep, dialog.seconds, dialog.back, dialog.named):
        assert not each.isVisible()
    before, steps = window.session.setup, window.session.steps
    choose(monkeypatch, tmp_path / "bend.webp")
    dialog.ending.chosen.emit(".webp")
    qtbot.waitUntil(dialog.save.isEnabled, timeout=20_000)
    QTest.mouseClick(dialog.save, LEFT)
    qtbot.waitUntil((tmp_path / "bend.webp").exists, timeout=20_000)
    with Image.open(tmp_path / "bend.webp") as file:
        assert file.n_frames == 19
    qtbot.waitUntil(lambda: "bend.webp" in window.documents.notices.text)
    assert (window.session.setup, window.session.steps) == (before, steps)


def test_a_lesson_without_steps_says_why_there_is_no_clip(
    window: Window, page: LessonsPage, qtbot: QtBot
) -> None:
    empty = replace(short_lesson(), steps=())
    window.session.take("Opened", replace(window.session.setup, lesson=empty))
    page._choose("carried")
    made = page.take_home.open_clip()
    qtbot.waitUntil(lambda: bool(made.problem.text()), timeout=20_000)
    assert "no steps" in made.problem.text()
    assert not made.save.isEnabled()
    made.reject()


@pytest.mark.parametrize(("place", "width"), [(1, 595), (2, 612)])
def test_pages_are_saved_on_either_paper(
    page: LessonsPage, window: Window, tmp_path: Path, monkeypatch: pytest.MonkeyPatch,
    place: int, width: int,
) -> None:  # fmt: skip
    choose(monkeypatch, tmp_path / "lesson")
    page.take_home.ways.actions()[place].trigger()
    reader = pypdf.PdfReader(tmp_path / "lesson.pdf")
    assert round(float(reader.pages[0].mediabox.width)) == width
    assert "natural spacing" in reader.pages[0].extract_text()
    assert "lesson.pdf" in window.documents.notices.text


def test_pages_that_cannot_be_written_are_told_and_another_place_asked_for(
    page: LessonsPage, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    said: list[str] = []
    answers = iter([True, False])

    def told(_: object, why: str) -> bool:
        said.append(why)
        return next(answers)

    monkeypatch.setattr("app.features.lessons.taking_home.told_not_saved", told)
    choose(monkeypatch, tmp_path / "none" / "lesson.pdf")
    page.take_home.save_pages("A4")
    assert len(said) == 2
    assert "there is no such folder" in said[0]


def test_children_take_home_what_they_were_told(
    page: LessonsPage, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    choose(monkeypatch, tmp_path / "grown")
    page.take_home.save_pages("A4")
    page.young.click()
    choose(monkeypatch, tmp_path / "young")
    page.take_home.save_pages("A4")
    grown, young = (pypdf.PdfReader(tmp_path / f"{name}.pdf") for name in ("grown", "young"))
    text = letters("".join(each.extract_text() for each in young.pages))
    step = next(each for each in page.player.going.lesson.steps if each.child.said)
    assert letters(step.child.said.partition("{")[0]) in text
    assert letters(step.say.said.partition("{")[0]) not in text
    assert len(young.pages) < len(grown.pages)


def letters(text: str) -> str:
    return "".join(text.split())
