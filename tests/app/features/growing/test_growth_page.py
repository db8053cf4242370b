"""The page of growing riders by mouse and keyboard."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from opened_pages import opened_page, overfull, type_and_enter
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog
from pytestqt.qtbot import QtBot

from app.features.growing.page import GrowthPage
from app.files.storage import Document, save
from app.qt.settling import SETTLE_MS
from app.rider.inputs import DEFAULTS, changed
from app.rider.setup import LEG_NAMES, Setup
from app.session import Session

LEFT = Qt.MouseButton.LeftButton
THEN = Setup(
    inputs=changed(DEFAULTS, hip_height_mm=760.0, knee_height_mm=420.0),
    measured=frozenset(LEG_NAMES),
    name="Winter before",
)
NOW = replace(THEN, inputs=changed(THEN.inputs, hip_height_mm=790.0), name="This winter")


@pytest.fixture
def session() -> Session:
    return Session(NOW)


@pytest.fixture
def page(qtbot: QtBot, session: Session) -> GrowthPage:
    return opened_page(qtbot, GrowthPage, session, (700, 304))


@pytest.fixture
def former(tmp_path: Path) -> Path:
    path = tmp_path / "then.json"
    save(path, Document(THEN))
    return path


def choose(page: GrowthPage, path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Click on the button and answer the dialog with a file."""
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(path), ""))
    QTest.mouseClick(page.choose, LEFT)


def row(page: GrowthPage, label: str) -> list[str]:
    for i in range(page.table.rowCount()):
        cells = [page.table.item(i, column).text() for column in range(page.table.columnCount())]
        if cells[0] == label:
            return cells[1:]
    raise AssertionError(label)


def test_a_former_set_up_stands_beside_the_present_one(
    page: GrowthPage, session: Session, former: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    choose(page, former, monkeypatch)
    assert page.former.text() == "Winter before"
    assert row(page, "Hip height") == ["760 mm", "790 mm", "+30 ± 7 mm", ""]
    assert session.setup == NOW
    assert session.undo_name == ""


def test_a_file_that_is_no_set_up_is_refused_in_words_and_the_former_one_stays(
    page: GrowthPage, former: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    choose(page, former, monkeypatch)
    (former.parent / "other.json").write_text("[1, 2]")
    choose(page, former.parent / "other.json", monkeypatch)
    assert page.problem.text().endswith("it holds [1, 2], not a set-up.")
    assert page.problem.isVisible()
    assert row(page, "Hip height")[0] == "760 mm"


def test_a_dialog_that_is_closed_changes_nothing(
    page: GrowthPage, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: ("", ""))
    QTest.mouseClick(page.choose, LEFT)
    assert row(page, "Hip height")[0] == ""


def test_with_an_age_there_is_a_forecast_marked_as_one(page: GrowthPage, qtbot: QtBot) -> None:
    assert row(page, "Hip height")[3] == ""
    type_and_enter(qtbot, page.age.number, "9,5")
    assert page.table.horizontalHeaderItem(4).text() == "Forecast at 10.5"
    assert "±" in row(page, "Hip height")[3]
    assert page.words.text().startswith("Forecast for the age of 10.5: measure before mounting.")


def test_an_age_beyond_the_growth_figures_is_refused(page: GrowthPage, qtbot: QtBot) -> None:
    type_and_enter(qtbot, page.age.number, "40")
    assert page.age.remark == "6 to 18 only"
    assert row(page, "Hip height")[3] == ""


def test_emptying_the_age_takes_the_forecast_away(page: GrowthPage, qtbot: QtBot) -> None:
    type_and_enter(qtbot, page.age.number, "9")
    page.age.number.selectAll()
    qtbot.keyClick(page.age.number, Qt.Key.Key_Delete)
    qtbot.keyClick(page.age.number, Qt.Key.Key_Return)
    assert row(page, "Hip height")[3] == ""
    assert page.words.text() == "Say the age to have a forecast."


def test_arrows_step_through_age_and_years_ahead(page: GrowthPage, qtbot: QtBot) -> None:
    page.age.number.setFocus()
    for _ in range(3):
        qtbot.keyClick(page.age.number, Qt.Key.Key_Up)
    assert page.age.number.text() == "8"
    page.ahead.number.setFocus()
    qtbot.keyClick(page.ahead.number, Qt.Key.Key_Up)
    assert page.table.horizontalHeaderItem(4).text() == "Forecast at 10"


def test_boys_and_girls_grow_by_figures_of_their_own(page: GrowthPage, qtbot: QtBot) -> None:
    type_and_enter(qtbot, page.age.number, "12")
    told = []
    for segment in page.children_of.segments:
        QTest.mouseClick(segment, LEFT)
        told.append(row(page, "Hip height")[3])
    assert len(set(told)) == 3


def test_a_length_that_shrank_is_pointed_out_and_measured_again_it_is_not(
    page: GrowthPage, session: Session, former: Path, monkeypatch: pytest.MonkeyPatch, qtbot: QtBot
) -> None:
    choose(page, former, monkeypatch)
    session.edit(hip_height_mm=740.0)
    qtbot.waitUntil(lambda: "Hip height shrank" in page.problem.text())
    session.edit(hip_height_mm=790.0)
    qtbot.waitUntil(lambda: not page.problem.isVisible())


def test_nothing_is_compared_during_a_drag(
    page: GrowthPage, session: Session, qtbot: QtBot
) -> None:
    session.begin_drag()
    session.edit(hip_height_mm=800.0)
    qtbot.wait(SETTLE_MS + 50)
    assert row(page, "Hip height")[1] == "790 mm"
    session.end_drag()
    qtbot.waitUntil(lambda: row(page, "Hip height")[1] == "800 mm")


@pytest.mark.parametrize("size", [(698, 304), (952, 304)])
def test_no_words_are_cut_off(
    qtbot: QtBot, session: Session, former: Path, size: tuple[int, int]
) -> None:
    page = opened_page(qtbot, GrowthPage, session, size)
    page.compare_with(former)
    type_and_enter(qtbot, page.age.number, "9.5")
    QTest.qWait(0)
    assert overfull(page) == []
    header = page.table.horizontalHeader()
    wanted = [header.sectionSizeFromContents(i).width() for i in range(header.count())]
    assert all(header.sectionSize(i) >= width for i, width in enumerate(wanted))
