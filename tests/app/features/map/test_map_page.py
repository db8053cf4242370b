"""The page of the stance map, driven by mouse and keys as in the window."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from typing import Any

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QAccessible, QFontMetricsF, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot
from shiboken6 import isValid

from app.drawing.theme import DARK
from app.features.map import page as map_page
from app.features.map.lines import MapLines
from app.features.map.page import MapPage
from app.frame import frame
from app.qt.painting.palette import SMALL_PX, typeface
from app.qt.settling import SETTLE_MS
from app.qt.sizes import set_text_percent
from app.qt.themes import set_theme
from app.rider.inputs import DEFAULTS
from app.rider.setup import Setup, edited
from app.session import Session
from app.window.window import prepared_application

LEFT = Qt.MouseButton.LeftButton
SHIFT = Qt.KeyboardModifier.ShiftModifier
NO_KEY = Qt.KeyboardModifier.NoModifier


@pytest.fixture
def session() -> Session:
    return Session()


@pytest.fixture
def page(qtbot: QtBot, session: Session) -> Iterator[MapPage]:
    """The page on its session, shown frames as the window shows them."""
    prepared_application()
    page = MapPage(session)

    def show() -> None:
        page.show_frame(frame(session.setup), dragging=session.dragging)

    session.changed.connect(show)
    session.drag_ended.connect(show)
    qtbot.addWidget(page)
    page.resize(956, 300)
    page.show()
    page.activateWindow()
    qtbot.waitExposed(page)
    show()
    settled(qtbot, page)
    yield page
    page.close()


def settled(qtbot: QtBot, page: MapPage) -> None:
    """Wait for the lines of the set-up in hand."""
    qtbot.waitUntil(lambda: page._shown == page._wanted, timeout=10_000)
    QApplication.processEvents()


def dot(page: MapPage) -> QPoint:
    """Where the dot is, on the plot's viewport."""
    return page.plot.mapFromScene(page.plot._box.mapToScene(page.plot._dot.pos()))


def drag(page: MapPage, by: QPoint, keys: Qt.KeyboardModifier = NO_KEY) -> None:
    """Take the dot along in steps, and let it go."""
    port, start = page.plot.viewport(), dot(page)
    QTest.mousePress(port, LEFT, keys, start)
    for i in range(1, 5):
        QTest.mouseMove(port, start + by * i / 4)
        QApplication.processEvents()
    QTest.mouseRelease(port, LEFT, keys, start + by)


def angles(session: Session) -> tuple[float, float]:
    return session.inputs.front_angle_deg, session.inputs.rear_angle_deg


def test_a_drag_turns_both_bindings_and_sets_the_length_in_one_step(
    page: MapPage, session: Session
) -> None:
    drag(page, QPoint(64, -40))
    front, rear = angles(session)
    assert front - rear == 5.0
    assert front > 50.0
    assert session.inputs.stance_length_mm > 550.0
    assert session.undo_name.startswith("Stance on the map: ")
    session.undo()
    assert (session.inputs, session.undo_name) == (DEFAULTS, "")


def test_the_dot_stays_under_the_mouse(page: MapPage) -> None:
    start = dot(page) + QPoint(5, -4)
    QTest.mousePress(page.plot.viewport(), LEFT, NO_KEY, start)
    QTest.mouseMove(page.plot.viewport(), start + QPoint(-120, 30))
    away = dot(page) + QPoint(5, -4) - (start + QPoint(-120, 30))
    QTest.mouseRelease(page.plot.viewport(), LEFT, NO_KEY, start + QPoint(-120, 30))
    # Half a degree and half of 5 mm are 3 px and 2 px here.
    assert abs(away.x()) <= 4
    assert abs(away.y()) <= 3


@pytest.mark.parametrize(("away", "taken"), [(12, True), (20, False)])
def test_the_dot_can_be_taken_from_24_pixels_across(
    page: MapPage, session: Session, away: int, taken: bool
) -> None:
    QTest.mousePress(page.plot.viewport(), LEFT, NO_KEY, dot(page) + QPoint(away, 0))
    assert session.dragging == taken
    QTest.mouseRelease(page.plot.viewport(), LEFT, NO_KEY, dot(page) + QPoint(away, 0))
    assert not session.dragging


def test_a_drag_back_to_where_it_began_leaves_no_step(page: MapPage, session: Session) -> None:
    port, start = page.plot.viewport(), dot(page)
    QTest.mousePress(port, LEFT, NO_KEY, start)
    QTest.mouseMove(port, start + QPoint(50, 20))
    assert session.inputs != DEFAULTS
    QTest.mouseMove(port, start)
    QTest.mouseRelease(port, LEFT, NO_KEY, start)
    assert session.undo_name == ""


def test_a_drag_far_over_the_edge_stops_at_it(page: MapPage, session: Session) -> None:
    drag(page, QPoint(4000, -4000))
    assert angles(session) == (90.0, 85.0)
    assert session.inputs.stance_length_mm == 690.0


@pytest.mark.parametrize(
    ("key", "keys", "expected"),
    [
        (Qt.Key.Key_Right, NO_KEY, (44.0, 39.0, 505.0)),
        (Qt.Key.Key_Left, SHIFT, (42.9, 37.9, 505.0)),
        (Qt.Key.Key_Up, NO_KEY, (43.0, 38.0, 510.0)),
        (Qt.Key.Key_Down, Qt.KeyboardModifier.ControlModifier, (43.0, 38.0, 480.0)),
        (Qt.Key.Key_PageUp, NO_KEY, (43.0, 38.0, 530.0)),
    ],
)
def test_arrow_keys_move_the_dot(
    page: MapPage, session: Session, key: Qt.Key, keys: Any, expected: tuple[float, ...]
) -> None:
    page.plot.setFocus()
    QTest.keyClick(page.plot, key, keys)
    assert (*angles(session), session.inputs.stance_length_mm) == expected


def test_the_lines_are_left_alone_while_only_the_dot_moves(
    page: MapPage, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[object] = []
    monkeypatch.setattr(page._background, "submit", asked.append)
    drag(page, QPoint(30, 10))
    QTest.qWait(SETTLE_MS + 50)
    assert asked == []


def test_lines_follow_at_the_end_of_a_drag_and_not_before(
    qtbot: QtBot, page: MapPage, session: Session
) -> None:
    before = page._lines
    session.begin_drag()
    session.edit(knee_bend_deg=80.0)
    QTest.qWait(SETTLE_MS + 50)
    assert page._lines is before
    assert page.plot._ground.opacity() < 1.0
    session.end_drag()
    settled(qtbot, page)
    assert page._lines is not before
    assert page.plot._ground.opacity() == 1.0


def test_of_changes_in_quick_succession_only_the_last_is_computed(
    qtbot: QtBot, page: MapPage, session: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    computed: list[float] = []

    def counted(inputs: Any, extent: Any) -> MapLines:
        computed.append(inputs.left.hip_height_mm)
        return map_lines(inputs, extent)

    map_lines = map_page.map_lines
    monkeypatch.setattr(map_page, "map_lines", counted)
    for height in range(890, 920, 5):
        session.edit(hip_height_mm=float(height))
    settled(qtbot, page)
    assert computed == [915.0]


def test_an_answer_for_an_older_set_up_is_not_taken_for_the_present_one(
    qtbot: QtBot, page: MapPage, session: Session
) -> None:
    session.edit(knee_bend_deg=70.0)
    page._compute()
    session.edit(knee_bend_deg=30.0)
    page._compute()
    settled(qtbot, page)
    assert page._shown is not None
    assert page._shown[0].knee_bend_deg == 30.0
    # Being told and being free again are two events of the thread.
    qtbot.waitUntil(lambda: not page._background.busy)


@pytest.mark.parametrize(
    "changes",
    [
        {},
        {"knee_bend_deg": 20.0, "hips_turned_deg": 20.0},
        {"knee_bend_deg": 80.0, "front_angle_deg": 15.0, "rear_angle_deg": -15.0},
        {"front_angle_deg": -40.0, "rear_angle_deg": -50.0, "stance_length_mm": 800.0},
        {"neutral_spacing_mm": 50.0, "across_spacing_mm": 300.0},
    ],
)
@pytest.mark.parametrize("size", [(956, 300), (700, 300), (1590, 300)])
def test_labels_never_overlap_each_other_or_the_dot_and_stay_inside(
    qtbot: QtBot, page: MapPage, session: Session, changes: dict[str, float], size: tuple[int, int]
) -> None:
    page.resize(*size)
    session.take("Test", edited(Setup(), **changes))
    settled(qtbot, page)
    ground = page.plot._ground
    boxes = [word.box for word in ground.words] + page.plot._taken()
    assert len(boxes) > 4
    for one, other in combinations(boxes, 2):
        across = min(one.right, other.right) - max(one.left, other.left)
        assert across <= 0.0 or min(one.bottom, other.bottom) <= max(one.top, other.top)
    for box in boxes[:-1]:
        assert box.left >= 0.0
        assert box.right <= ground.scale.width
        assert box.top >= 0.0
        assert box.bottom <= ground.scale.height


def test_a_label_makes_way_for_the_dot_once_it_is_let_go(page: MapPage) -> None:
    word = next(word for word in page.plot._ground.words if word.text == "6° inward")
    target = page.plot.mapFromScene(page.plot._box.mapToScene(word.area.center()))
    drag(page, target - dot(page))
    assert (dot(page) - target).manhattanLength() < 8
    (taken,) = page.plot._taken()
    for other in page.plot._ground.words:
        across = min(taken.right, other.box.right) - max(taken.left, other.box.left)
        down = min(taken.bottom, other.box.bottom) - max(taken.top, other.box.top)
        assert across <= 0.0 or down <= 0.0


def test_a_stance_off_the_usual_map_widens_it_and_stays_in_sight(
    qtbot: QtBot, page: MapPage, session: Session
) -> None:
    session.edit(front_angle_deg=-20.0, rear_angle_deg=-30.0, stance_length_mm=780.0)
    settled(qtbot, page)
    assert page.plot.viewport().rect().contains(dot(page))
    labels = [text for _, text in page.plot.getAxis("bottom")._tickLevels[0]]
    assert "−30°" in labels


def test_the_dot_stays_in_sight_while_a_slider_takes_it_off_the_map(
    page: MapPage, session: Session
) -> None:
    session.begin_drag()
    session.edit(stance_length_mm=790.0)
    QApplication.processEvents()
    assert page.plot.viewport().rect().contains(dot(page))
    session.end_drag()


def test_the_map_is_told_in_words_and_announced_after_a_key(
    page: MapPage, monkeypatch: pytest.MonkeyPatch
) -> None:
    said: list[str] = []
    monkeypatch.setattr(QAccessible, "updateAccessibility", lambda e: said.append(e.message()))
    assert page.plot.accessibleName() == "Stance map"
    assert "the mean of 43.0° and 38.0°" in page.plot.accessibleDescription()
    assert "arrow keys" in page.plot.accessibleDescription()
    QTest.keyClick(page.plot, Qt.Key.Key_Right)
    QApplication.processEvents()
    assert len(said) == 1
    assert said[0].startswith("41.5°, the mean of 44.0° and 39.0°")


def test_words_have_the_room_they_need(qtbot: QtBot, page: MapPage, session: Session) -> None:
    page.resize(700, 300)
    session.edit(hip_shift_mm=40.0, front_angle_deg=15.0, rear_angle_deg=-15.0)
    session.edit(knee_bend_deg=35.0)
    settled(qtbot, page)
    assert "lines show their mean" in page.words.text()
    for label in (page.heading, page.words):
        assert label.height() >= label.heightForWidth(label.width())


def test_the_wheel_changes_nothing(page: MapPage, session: Session) -> None:
    at = QPointF(dot(page))
    event = QWheelEvent(
        at, page.plot.viewport().mapToGlobal(at), QPoint(), QPoint(0, 120),
        Qt.MouseButton.NoButton, NO_KEY, Qt.ScrollPhase.NoScrollPhase, False,
    )  # fmt: skip
    extent = page.plot._box.viewRange()
    QApplication.sendEvent(page.plot.viewport(), event)
    assert session.inputs == DEFAULTS
    assert page.plot._box.viewRange() == extent


def test_dark_colours_reach_everything(page: MapPage) -> None:
    def corner_and_mean() -> tuple[int, float]:
        image = page.plot.grab().toImage()
        step = 7
        greys = [
            image.pixelColor(x, y).lightness()
            for x in range(0, image.width(), step)
            for y in range(0, image.height(), step)
        ]
        return image.pixelColor(1, 1).lightness(), sum(greys) / len(greys)

    assert min(corner_and_mean()) > 215
    set_theme(DARK)
    QApplication.processEvents()
    assert max(corner_and_mean()) < 60


def test_a_page_may_go_in_the_middle_of_a_sum(qtbot: QtBot, session: Session) -> None:
    page = MapPage(session)
    page.show_frame(frame(session.setup), dragging=False)
    page._compute()
    sums = page._background._running
    page.deleteLater()
    qtbot.waitUntil(lambda: not isValid(page))
    assert sums is not None
    sums.result(timeout=10.0)
    QTest.qWait(50)


@pytest.mark.parametrize("percent", [100, 150, 200])
def test_labels_are_as_high_as_their_letters(qtbot: QtBot, session: Session, percent: int) -> None:
    prepared_application()
    set_text_percent(percent)
    try:
        page = MapPage(session)
        qtbot.addWidget(page)
        page.resize(1400, 600)
        page.show()
        page.show_frame(frame(session.setup), dragging=False)
        settled(qtbot, page)
        letters = QFontMetricsF(typeface(SMALL_PX)).height()
        words = page.plot._ground.words
        assert words
        assert min(word.area.height() for word in words) > 0.9 * letters
    finally:
        set_text_percent(100)
