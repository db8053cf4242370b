"""The page of the whole bend, by real events in the window."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot
from shown_windows import clicked_open, shown_window

from app.drawing.theme import DARK, LIGHT, Theme
from app.features.bend.ground import Band, Ground, Note, apart
from app.features.bend.page import BOOT_FLEX, BendPage
from app.features.bend.plot import BendPlot
from app.qt.themes import set_theme
from app.rider.setup import Setup, edited
from app.session import Session
from app.stance.answer import answer_of
from app.window.window import Window

LEFT = Qt.MouseButton.LeftButton
DUCK = edited(Setup(), front_angle_deg=15.0, rear_angle_deg=-15.0)
FAR = edited(Setup(), stance_length_mm=800.0, hip_height_mm=600.0, knee_height_mm=330.0)

NOWHERE = edited(FAR, hip_height_mm=450.0, knee_height_mm=250.0, ankle_height_mm=100.0)


@pytest.fixture
def setup() -> Setup:
    return Setup()


@pytest.fixture
def window(qtbot: QtBot, setup: Setup) -> Window:
    return shown_window(qtbot, Session(setup))


@pytest.fixture
def page(qtbot: QtBot, window: Window) -> BendPage:
    opened = clicked_open(window, "Through the bend", BendPage)
    qtbot.waitUntil(opened.isVisible)
    QApplication.processEvents()
    return opened


def bend_plot(page: BendPage) -> BendPlot:
    return page.plots["knee_bend_deg"]


def test_a_click_in_the_plot_bends_the_knees_that_far_in_one_step(
    window: Window, page: BendPage
) -> None:
    plot = bend_plot(page)
    QTest.mouseClick(plot.viewport(), LEFT, pos=QPoint(plot.width() // 2, 80))
    QApplication.processEvents()
    bent = window.session.inputs.knee_bend_deg
    assert bent != 45.0
    assert bent == round(bent)
    window.undo.trigger()
    assert window.session.setup == Setup()


def test_a_drag_along_the_turn_is_one_step(window: Window, page: BendPage) -> None:
    plot = page.plots["hips_turned_deg"]
    viewport, middle = plot.viewport(), plot.width() // 2
    QTest.mousePress(viewport, LEFT, pos=QPoint(middle, 80))
    for x in range(middle, middle + 60, 10):
        QTest.mouseMove(viewport, QPoint(x, 80))
        QApplication.processEvents()
    QTest.mouseRelease(viewport, LEFT, pos=QPoint(middle + 60, 80))
    assert window.session.inputs.hips_turned_deg > 0.0
    window.undo.trigger()
    assert window.session.setup == Setup()


def test_the_arrow_keys_go_step_by_step(window: Window, page: BendPage) -> None:
    plot = bend_plot(page)
    plot.setFocus()
    QTest.keyClick(plot, Qt.Key.Key_Right)
    QApplication.processEvents()
    assert window.session.inputs.knee_bend_deg == 46.0
    QTest.keyClick(plot, Qt.Key.Key_Left, Qt.KeyboardModifier.ShiftModifier)
    QApplication.processEvents()
    assert window.session.inputs.knee_bend_deg == pytest.approx(45.9)
    QTest.keyClick(plot, Qt.Key.Key_Left, Qt.KeyboardModifier.ControlModifier)
    assert window.session.inputs.knee_bend_deg == pytest.approx(40.9)


def test_the_curves_follow_a_drag_of_any_control(window: Window, page: BendPage) -> None:
    before, words = bend_plot(page).grab().toImage(), page.most.text()
    window.session.begin_drag()
    window.session.edit(front_cant_deg=4.0)
    QApplication.processEvents()
    assert bend_plot(page).grab().toImage() != before
    assert not page.most.isEnabled(), "the worst of a moment ago"
    window.session.end_drag()
    QApplication.processEvents()
    assert page.most.isEnabled()
    assert page.most.text() != words


def test_the_plots_do_not_zoom_in_during_a_drag(window: Window, page: BendPage) -> None:
    window.session.edit(front_cant_deg=15.0, knee_bend_deg=105.0)
    QApplication.processEvents()
    box = bend_plot(page).getPlotItem().getViewBox()
    wide = box.viewRange()
    window.session.begin_drag()
    window.session.edit(front_cant_deg=0.0, knee_bend_deg=45.0)
    QApplication.processEvents()
    assert box.viewRange() == wide
    window.session.end_drag()
    QApplication.processEvents()
    assert box.viewRange() != wide


def test_the_wheel_changes_nothing(window: Window, page: BendPage) -> None:
    plot = bend_plot(page)
    shown = plot.getPlotItem().getViewBox().viewRange()
    at = plot.viewport().rect().center()
    QTest.wheelEvent(
        window.windowHandle(), plot.viewport().mapTo(window, at), QPoint(0, 240), QPoint()
    )
    QApplication.processEvents()
    assert plot.getPlotItem().getViewBox().viewRange() == shown
    assert window.session.setup == Setup()


def test_boot_flex_is_shown_instead_when_it_is_chosen(page: BendPage) -> None:
    before = bend_plot(page).grab().toImage()
    QTest.mouseClick(page.segments[BOOT_FLEX], LEFT)
    QApplication.processEvents()
    assert bend_plot(page).grab().toImage() != before
    assert page.most.text().startswith("boot flex over the bend: front −13°")


def best_is_known(qtbot: QtBot, page: BendPage) -> None:
    qtbot.waitUntil(page.foot.put.isEnabled, timeout=20_000)


def test_what_to_begin_with_stands_under_it_and_one_click_puts_it_on(
    qtbot: QtBot, window: Window, page: BendPage
) -> None:
    best_is_known(qtbot, page)
    answer = answer_of(Setup())
    said = page.foot.lines["rear"].text()
    assert said.startswith("1.5° inward, no lift; knee pushed outward 3.2° at 55°")
    QTest.mouseClick(page.foot.put, LEFT)
    assert window.session.inputs.rear_cant_deg == answer.rear.begin.cant_deg
    assert window.session.undo_name == "To begin with"


@pytest.mark.parametrize("setup", [DUCK])
def test_in_a_drag_the_best_is_that_of_a_moment_ago_and_cannot_be_put_on(
    qtbot: QtBot, window: Window, page: BendPage
) -> None:
    best_is_known(qtbot, page)
    before = page.foot.lines["front"].text()
    window.session.begin_drag()
    window.session.edit(stance_length_mm=450.0)
    QTest.qWait(300)
    assert page.foot.lines["front"].text() == before
    assert not page.foot.put.isEnabled()
    window.session.end_drag()
    qtbot.waitUntil(page.foot.lines["front"].isEnabled, timeout=20_000)
    assert page.foot.lines["front"].text() != before


def test_both_plots_are_told_in_words(page: BendPage) -> None:
    said = bend_plot(page).accessibleDescription()
    assert "of knee bend: the front knee is out of its plane, 3.8° bow-legged" in said
    assert bend_plot(page).accessibleName() == "Knee bend"


@pytest.mark.parametrize("setup", [FAR])
def test_a_stance_no_leg_reaches_at_this_bend_still_shows_those_that_it_does(
    window: Window, page: BendPage
) -> None:
    window.session.edit(knee_bend_deg=5.0)
    QApplication.processEvents()
    assert page.most.text().startswith("at most as you ride, from 30° to 55°: front ")
    bend_plot(page).grab()
    window.session.edit(hip_height_mm=450.0, knee_height_mm=250.0, ankle_height_mm=100.0)
    QApplication.processEvents()
    assert page.most.text() == "no posture settles from 30° to 55°"
    bend_plot(page).grab()


@pytest.mark.parametrize("setup", [NOWHERE])
def test_where_no_posture_settles_that_stands_in_place_of_an_answer(
    qtbot: QtBot, page: BendPage
) -> None:
    front, rear = (page.foot.lines[leg] for leg in ("front", "rear"))
    qtbot.waitUntil(lambda: front.text() != "…", timeout=20_000)
    assert front.text() == "The rear leg cannot reach, so no posture settles."
    assert rear.text() == "The rear leg cannot reach."
    assert not page.foot.put.isEnabled()


@pytest.mark.parametrize("setup", [DUCK])
@pytest.mark.parametrize("size", [(1280, 800), (1024, 700)])
@pytest.mark.parametrize("theme", [LIGHT, DARK])
def test_nothing_is_cut_off(
    qtbot: QtBot, window: Window, page: BendPage, size: tuple[int, int], theme: Theme
) -> None:
    set_theme(theme)
    window.resize(*size)
    best_is_known(qtbot, page)
    QApplication.processEvents()
    for line in page.foot.lines.values():
        assert line.width() >= line.fontMetrics().horizontalAdvance(line.text())
        assert line.height() >= line.fontMetrics().height()
    assert page.foot.rect().contains(page.foot.put.geometry())
    for part in (page.key, *page.segments.values(), *page.plots.values()):
        assert part.width() >= part.minimumSizeHint().width()
        assert page.rect().contains(part.geometry())
    assert not page.most.isVisible() or (
        page.most.width() >= page.most.fontMetrics().horizontalAdvance(page.most.text())
        and page.most.x() > page.key.geometry().right()
    )


def test_words_at_the_side_that_would_run_into_each_other_are_left_out() -> None:
    bands = Band(-3.0, 3.0, False), Band(-1.0, 1.0, True)
    notes = Note(0.0, "in plane"), Note(2.0, "drifting"), Note(90.0, "outside")
    near = Ground(-10.0, 10.0, "up", "down", bands, notes, signed=False)
    far = near._replace(low=-40.0, high=40.0)
    assert apart(near) == list(notes[:2])
    assert apart(far) == list(notes[:1])
