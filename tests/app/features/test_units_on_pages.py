"""The unit of lengths on the pages: followed at once, typed exactly, and never stored."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import product

import pytest
from opened_pages import type_and_enter
from PySide6.QtCore import QObject, Qt
from PySide6.QtWidgets import QLabel, QLineEdit, QListWidget, QTableView, QWidget
from pytestqt.qtbot import QtBot

from app.features.board.page import BoardPage
from app.features.growing.page import GrowthPage
from app.features.measuring.model import GUIDES, with_repeat
from app.features.measuring.page import MeasurePage
from app.features.parts.page import PartsPage
from app.features.trials.model import with_trial
from app.features.trials.page import TrialsPage
from app.qt.controls.number_field import NumberField
from app.qt.settling import SETTLE_MS
from app.rider.inputs import DEFAULTS, changed
from app.rider.parts import PartEntry, Parts
from app.rider.setup import Setup
from app.rider.trials import entry_of
from app.session import Session
from app.window.registry import entries
from app.window.window import Window, prepared_application
from app.words.lengths import Lengths

TITLES = tuple(entry.title for entry in entries())
WITH_LENGTHS = {
    "Motion",
    "Why",
    "Stance map",
    "Parts",
    "Printed wedge",
    "Board",
    "Trials",
    "Measuring",
    "Growing",
}
WEDGES = Parts("Two", (PartEntry("wedge", "across", 4.0, 8.0),), largest_stack=1)
EVEN = ("even", "even")
PARTS_IN_MM = {"20 mm", "8 mm", "2° 6 mm; 4° 8 mm"}
"""Insert grid, thickness, and how parts to get are typed: sold in millimetres everywhere."""
MILLIMETRES = re.compile(r"[\d–]\s?mm\b")


@pytest.fixture
def session() -> Session:
    """A set-up whose lengths are round in no unit, measured, ridden and built."""
    inputs = changed(DEFAULTS, stance_length_mm=501.23456789, hip_shift_mm=12.3)
    setup = Setup(inputs=inputs, parts=replace(WEDGES, shortest_stance_mm=410.1234567))
    for reading in (880.123, 884.7, 897.3):
        setup = with_repeat(setup, "hip_height_mm", reading)
    board = replace(setup.board, plate_height_mm=20.0 / 3.0, boot_sole_length_mm=301.7)
    trial = entry_of(setup.inputs, "2026-01-02", EVEN, EVEN, "")
    return Session(with_trial(replace(setup, board=board), trial))


@pytest.fixture
def window(qtbot: QtBot, session: Session) -> Window:
    prepared_application()
    made = Window(session)
    qtbot.addWidget(made)
    made.resize(made.minimumSize())
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    return made


def opened(window: Window, title: str) -> QWidget:
    window.tray.toggle(TITLES.index(title))
    page = window.tray.current
    assert page is not None
    return page


def in_unit(qtbot: QtBot, window: Window, unit: str) -> None:
    """Choose a unit, and wait until the window has been painted in it."""
    window.show_lengths(Lengths(unit))

    def drawn() -> bool:
        shown = window.shown()
        return shown is not None and shown.frame.lengths == Lengths(unit)

    qtbot.waitUntil(drawn)


def written(page: QWidget) -> list[str]:
    """All that is written on a page or said of it."""
    said: list[str] = []
    for each in page.findChildren(QObject):
        if isinstance(each, QLabel):
            said.append(each.text())
        elif isinstance(each, QLineEdit):
            said += [each.text(), each.placeholderText()]
        elif isinstance(each, QListWidget):
            said += [each.item(i).text() for i in range(each.count())]
        elif isinstance(each, QTableView):
            rows = each.model()
            cells = product(range(rows.rowCount()), range(rows.columnCount()))
            said += [str(rows.index(*cell).data() or "") for cell in cells]
        if isinstance(each, QWidget):
            said += [each.accessibleDescription(), each.toolTip()]
    return said


HIP_HEIGHT = 1 + [guide.name for guide in GUIDES].index("hip_height_mm")
"""The row of a length on the measuring page, which begins with the cuffs."""
RANGES = re.compile("[01] to 100 mm")
"""What is sold by its size on the page of parts: inserts, parts and how high they may stand."""


def in_millimetres(page: QWidget) -> set[str]:
    """What of it tells a length in mm, but for the ranges of insert grids and of heights."""
    found = {words for words in written(page) if MILLIMETRES.search(words)}
    return {words for words in found if not RANGES.search(words)}


@pytest.mark.parametrize("title", TITLES)
def test_no_length_stays_in_millimetres_but_sizes_of_the_trade(
    window: Window, qtbot: QtBot, title: str
) -> None:
    page = opened(window, title)
    if isinstance(page, GrowthPage):
        page.age.number.committed.emit(12.0)
    if isinstance(page, MeasurePage):
        page.dimensions.setCurrentRow(HIP_HEIGHT)
    trade = PARTS_IN_MM if isinstance(page, PartsPage) else set()
    assert bool(in_millimetres(page) - trade) == (title in WITH_LENGTHS)
    for unit in ("cm", "in"):
        in_unit(qtbot, window, unit)
        qtbot.waitUntil(lambda: in_millimetres(page) == trade)
    # Nor does any come back once the page has settled.
    qtbot.wait(SETTLE_MS + 50)
    assert in_millimetres(page) == trade


@pytest.mark.parametrize("title", TITLES)
def test_switching_units_and_visiting_every_field_changes_nothing(
    window: Window, session: Session, qtbot: QtBot, title: str
) -> None:
    page, before = opened(window, title), session.setup
    for unit in ("mm", "in", "cm", "in", "mm"):
        in_unit(qtbot, window, unit)
        for field in page.findChildren(NumberField):
            field.setFocus(Qt.FocusReason.TabFocusReason)
            qtbot.keyClick(field, Qt.Key.Key_Return)
    assert session.setup == before
    assert session.undo_name == ""


def test_what_is_typed_counts_in_the_unit_shown_and_is_stored_exactly(
    window: Window, session: Session, qtbot: QtBot
) -> None:
    page = opened(window, "Board")
    assert isinstance(page, BoardPage)
    in_unit(qtbot, window, "in")
    type_and_enter(qtbot, page.rows["plate_height_mm"].number, "1.5")
    assert session.setup.board.plate_height_mm == 38.1
    assert session.undo_name == "Plate height: 1.50 in"
    in_unit(qtbot, window, "cm")
    assert page.rows["plate_height_mm"].number.text() == "3.81 cm"
    in_unit(qtbot, window, "mm")
    assert session.setup.board.plate_height_mm == 38.1


def test_a_refusal_names_the_range_in_the_unit_shown(window: Window, qtbot: QtBot) -> None:
    page = opened(window, "Board")
    assert isinstance(page, BoardPage)
    in_unit(qtbot, window, "in")
    type_and_enter(qtbot, page.rows["plate_height_mm"].number, "20")
    assert "“20” was not taken: 0 to 7.87 in only." in page.words.flags.text()


def test_a_side_cut_is_typed_in_metres_whichever_unit_is_chosen(
    window: Window, session: Session, qtbot: QtBot
) -> None:
    page = opened(window, "Board")
    assert isinstance(page, BoardPage)
    in_unit(qtbot, window, "in")
    type_and_enter(qtbot, page.rows["sidecut_radius_mm"].number, "8.5")
    assert session.setup.board.sidecut_radius_mm == 8500.0
    assert page.rows["sidecut_radius_mm"].number.text() == "8.5 m"


def test_an_insert_grid_is_typed_in_millimetres_and_the_stances_that_it_allows_in_inches(
    window: Window, session: Session, qtbot: QtBot
) -> None:
    page = opened(window, "Parts")
    assert isinstance(page, PartsPage)
    in_unit(qtbot, window, "in")
    type_and_enter(qtbot, page.editor.rows["insert_grid_mm"].number, "40")
    type_and_enter(qtbot, page.editor.rows["longest_stance_mm"].number, "25")
    parts = session.setup.parts
    assert (parts.insert_grid_mm, parts.longest_stance_mm) == (40.0, 635.0)
    assert page.editor.rows["insert_grid_mm"].number.text() == "40 mm"


def test_a_reading_of_the_tape_is_typed_and_told_in_inches(
    window: Window, session: Session, qtbot: QtBot
) -> None:
    page = opened(window, "Measuring")
    assert isinstance(page, MeasurePage)
    page.dimensions.setCurrentRow(HIP_HEIGHT)
    in_unit(qtbot, window, "in")
    assert "lie 0.67 in apart, more than 0.39 in" in page.finding.text()
    type_and_enter(qtbot, page.number, "35")
    assert dict(session.setup.repeats)["left_hip_height_mm"][-1] == 889.0
    assert page.repeats.item(3).text() == "35.00\N{NO-BREAK SPACE}in"


def test_the_log_of_trials_follows_without_letting_go_of_the_trial_in_hand(
    window: Window, qtbot: QtBot
) -> None:
    page = opened(window, "Trials")
    assert isinstance(page, TrialsPage)
    page.table.selectRow(0)
    in_unit(qtbot, window, "in")
    assert "43°/38°, 19.73 in" in written(page)
    assert page.table.row_chosen == 0


@pytest.mark.parametrize("title", TITLES)
def test_every_page_ends_within_the_smallest_window(
    window: Window, qtbot: QtBot, title: str
) -> None:
    page = opened(window, title)
    if title == "Motion":  # the strip of the player takes of its room, so it scrolls there
        page = window.tray

    def within() -> bool:
        return page.mapTo(window, page.rect().bottomLeft()).y() < window.height()

    qtbot.waitUntil(within, timeout=2000)
