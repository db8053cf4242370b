"""A reading of the tape that waits stays one of its dimension, whatever happens meanwhile."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hands import LEFT
from programs import killed_and_started
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.features.measuring.model import (
    CUFFS_ENTRY,
    names_measured,
    reading_label,
    reading_scale,
    readings,
)
from app.features.measuring.page import MeasurePage
from app.files.drafts import Draft, drafts_as_json, drafts_in
from app.files.storage import Document
from app.rider.inputs import FIELD, default_of, side_and_name
from app.rider.setup import Setup, with_sides
from app.window.program import Program


def measuring(program: Program) -> MeasurePage:
    page = program.window.tray.open_page("Measuring")
    assert isinstance(page, MeasurePage)
    return page


def click(page: MeasurePage, name: str) -> None:
    """Click on a dimension in the list, and let what follows from it happen."""
    item = page.dimensions.item(page._names.index(name))
    page.dimensions.scrollToItem(item)
    where = page.dimensions.visualItemRect(item).center()
    QTest.mouseClick(page.dimensions.viewport(), LEFT, pos=where)
    QApplication.processEvents()


def wait_in(page: MeasurePage, text: str) -> None:
    """Type a reading and leave it in its field."""
    page.number.setFocus()
    page.number.selectAll()
    QTest.keyClicks(page.number, text)


def sound(name: str) -> str:
    """A reading that fits the demo rider's other lengths, as one types it."""
    scale, value = reading_scale(name), default_of(FIELD[name])
    near = scale.stepped(value, 1 if value < scale.high else -1, 1)
    return scale.text(near).replace("−", "-").replace("°", "")


def stands_at(page: MeasurePage, name: str) -> bool:
    """Whether a dimension is asked for, drawn, current in the list, and alone selected there."""
    rows = [index.row() for index in page.dimensions.selectedIndexes()]
    row = page._names.index(name)
    drawn = page.picture.accessibleName() == FIELD[side_and_name(name)[1]].label
    asked = page.reading.text() == reading_label(name)
    return (asked, drawn, page.dimensions.currentRow(), rows) == (True, True, row, [row])


@pytest.fixture
def apart(started: Callable[..., Program]) -> Program:
    """A program with legs and boots each for itself, so that every dimension has two rows."""
    setup = with_sides(with_sides(Setup(), "legs", apart=True), "boots", apart=True)
    return started(Document(setup))


def entered(program: Program, name: str) -> None:
    """The reading that waits enters with the return key, as one of its dimension and no other."""
    page = measuring(program)
    assert stands_at(page, name), name
    assert page.number.isVisible()
    assert page.number.draft == sound(name), name
    QTest.keyClick(page.number, Qt.Key.Key_Return)
    setup = program.window.session.setup
    assert readings(setup, name) == pytest.approx((reading_scale(name).read(sound(name)),)), name
    assert [each for each, _ in setup.repeats] == [name]


@pytest.mark.parametrize("name", ["left_cuff_offset_deg", "right_hip_height_mm"])
def test_a_reading_comes_back_to_its_dimension_after_a_crash_and_enters_there(
    apart: Program, started: Callable[..., Program], name: str
) -> None:
    page = measuring(apart)
    click(page, name)
    wait_in(page, sound(name))
    entered(killed_and_started(apart, started), name)


def test_a_reading_of_every_dimension_comes_back_to_it_from_what_a_file_holds(
    apart: Program,
) -> None:
    page, window = measuring(apart), apart.window
    names = names_measured(window.session.setup)
    assert len(names) > 12
    for name in names:
        click(page, name)
        wait_in(page, sound(name))
        kept = drafts_in(drafts_as_json(apart.documents.desk.drafts))
        apart.documents.desk.forget()
        click(page, CUFFS_ENTRY)
        window.resume(kept)
        entered(apart, name)
        window.session.undo()
        window._refresh()


@pytest.mark.parametrize("chosen", [{"language": "de"}, {"text_percent": 125}])
def test_a_reading_stays_at_its_dimension_when_the_window_is_made_anew(
    apart: Program, chosen: dict[str, object]
) -> None:
    program = apart
    name = "right_knee_height_mm"
    page = measuring(program)
    click(page, name)
    wait_in(page, sound(name))
    program._settings.change(**chosen)
    program.rebuild()
    again = measuring(program)
    assert again is not page
    assert again.dimensions.currentRow() == again._names.index(name)
    assert again.number.draft == sound(name)
    QTest.keyClick(again.number, Qt.Key.Key_Return)
    assert [each for each, _ in program.window.session.setup.repeats] == [name]
    program._settings.change(language="en", text_percent=100)
    program.rebuild()


def test_a_refused_reading_is_refused_again_at_its_dimension_in_the_new_window(
    program: Program,
) -> None:
    page = measuring(program)
    click(page, "hip_height_mm")
    wait_in(page, "5000")
    QTest.keyClick(page.number, Qt.Key.Key_Return)
    program.rebuild()
    again = measuring(program)
    assert stands_at(again, "hip_height_mm")
    assert again.problem.text() == "“5000” was not taken: 400 to 1150 mm only"
    (draft,) = program.documents.desk.drafts
    assert draft.label == "Hip height: one more repeat"
    wait_in(again, "880")
    QTest.keyClick(again.number, Qt.Key.Key_Return)
    click(again, "knee_height_mm")
    assert stands_at(again, "knee_height_mm")
    assert readings(program.window.session.setup, "hip_height_mm") == (880.0,)


@pytest.mark.parametrize("detail", ["", CUFFS_ENTRY, "stature_mm"])
def test_a_reading_of_nobody_knows_what_is_told_and_put_nowhere(
    program: Program, detail: str
) -> None:
    page = measuring(program)
    program.window.resume((Draft("Measuring/reading", "Hip height", "0.5", "", detail),))
    assert (page.number.draft, page.number.text()) == (None, "")
    told = program.documents.notices.text
    assert told == "Typed and not entered before, for a field that is gone: Hip height: “0.5”"


def test_what_waits_for_both_legs_is_told_as_of_the_leg_in_its_place(program: Program) -> None:
    page = measuring(program)
    click(page, "hip_height_mm")
    wait_in(page, "5000")
    session = program.window.session
    session.take("apart", with_sides(session.setup, "legs", apart=True))
    program.window._refresh()
    (draft,) = program.documents.desk.drafts
    assert (page.reading.text(), draft.detail) == ("Hip height left", "left_hip_height_mm")
    assert draft.label == "Hip height left: one more repeat"


@pytest.mark.parametrize("way", ["click", "key", "next"])
def test_a_refused_reading_holds_the_list_at_its_dimension_and_says_so(
    program: Program, way: str
) -> None:
    page = measuring(program)
    click(page, "hip_height_mm")
    wait_in(page, "5000")
    if way == "click":
        click(page, "knee_height_mm")
    elif way == "key":
        page.dimensions.setFocus()
        QTest.keyClick(page.dimensions, Qt.Key.Key_Down)
    else:
        QTest.mouseClick(page.onward, LEFT)
    QApplication.processEvents()
    assert stands_at(page, "hip_height_mm")
    assert page.problem.text() == "“5000” was not taken: 400 to 1150 mm only"
    notices = program.documents.notices
    assert notices.text == (
        "Not entered, and left where it is: Hip height: one more repeat: “5000” "
        "(400 to 1150 mm only)"
    )
    notices._take_offer(0)
    assert page.number.hasFocus()
    wait_in(page, "880")
    QTest.keyClick(page.number, Qt.Key.Key_Return)
    assert page.problem.text() == ""
    assert [name for name, _ in program.window.session.setup.repeats] == [
        "left_hip_height_mm",
        "right_hip_height_mm",
    ]
    click(page, "knee_height_mm")
    assert stands_at(page, "knee_height_mm")


def test_a_sound_reading_is_entered_where_it_was_typed_before_another_is_chosen(
    program: Program,
) -> None:
    page = measuring(program)
    click(page, "hip_height_mm")
    wait_in(page, "880")
    click(page, "knee_height_mm")
    assert stands_at(page, "knee_height_mm")
    setup = program.window.session.setup
    assert readings(setup, "hip_height_mm") == (880.0,)
    assert readings(setup, "knee_height_mm") == ()
