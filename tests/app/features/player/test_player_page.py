"""Playing sweeps and movements in the window, by keys and by mouse."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from app.features.bend.page import BendPage
from app.features.map.page import MapPage
from app.features.player.page import PlayerPage
from app.features.player.player import BACK, LOOP, ONCE
from app.frame import Frame
from app.qt.controls.slider_face import x_of
from app.qt.motion import set_reduced
from app.rider.instead import Instead
from app.rider.movement import Movement
from app.rider.setup import DEMO, edited
from app.window.window import Window
from tests.helpers.opened_pages import overfull, type_and_enter
from tests.helpers.shown_windows import shown_window


@pytest.fixture
def window(qtbot: QtBot) -> Window:
    window = shown_window(qtbot, active=True)
    set_reduced(True)  # so that nothing moves but by a test
    return window


@pytest.fixture
def page(window: Window) -> PlayerPage:
    page = window.tray.open_page("Motion")
    assert isinstance(page, PlayerPage)
    QApplication.processEvents()
    return page


def key(window: Window, *keys: Qt.Key) -> None:
    """Press keys where the keyboard is."""
    for each in keys:
        focus = QApplication.focusWidget()
        assert focus is not None
        QTest.keyClick(focus, each)
    window._refresh()


def chosen(page: PlayerPage, kind: str) -> None:
    """Choose what is played, by the keys of the box."""
    page.kind.setFocus()
    at = page.kind.findData(kind)
    for _ in range(page.kind.count()):
        QTest.keyClick(page.kind, Qt.Key.Key_Up)
    for _ in range(at):
        QTest.keyClick(page.kind, Qt.Key.Key_Down)
    page.strip.slider.setFocus()


def click(widget: QWidget, at: QPoint | None = None) -> None:
    QTest.mouseClick(widget, Qt.MouseButton.LeftButton, pos=at or widget.rect().center())


def shown(window: Window) -> Frame:
    frame = window.sheet._frame
    assert frame is not None
    return frame


def bend(window: Window) -> float:
    return shown(window).setup.inputs.knee_bend_deg


def test_space_plays_and_pauses_and_playing_goes_at_its_speed(
    page: PlayerPage, window: Window, qtbot: QtBot
) -> None:
    assert not page.player.on
    key(window, Qt.Key.Key_Space)
    assert page.player.playing
    qtbot.waitUntil(lambda: bend(window) not in {25.0, 45.0})
    key(window, Qt.Key.Key_Space)
    assert not page.player.playing
    still = page.player.phase
    QTest.qWait(50)
    assert page.player.phase == still


def test_a_second_at_full_speed_is_a_second_and_four_at_a_quarter(page: PlayerPage) -> None:
    # The movement takes 1.0 s.
    page.player.set_repeat(ONCE)
    page.player.seek(0.0)
    for speed in (1.0, 0.5, 0.25):
        page.player.set_speed(speed)
        page.player.seek(0.0)
        page.player._advance(0.2 * speed / page.player.seconds)
        assert page.player.phase == pytest.approx(0.2 * speed)


def test_arrows_go_a_frame_and_home_and_end_to_the_ends(page: PlayerPage, window: Window) -> None:
    key(window, Qt.Key.Key_End)
    assert bend(window) == 80.0
    key(window, Qt.Key.Key_Left)
    assert page.player.phase == pytest.approx(29 / 30)
    key(window, Qt.Key.Key_Left, Qt.Key.Key_Left, Qt.Key.Key_Right)
    assert page.player.phase == pytest.approx(28 / 30)
    key(window, Qt.Key.Key_Home)
    assert bend(window) == 25.0
    QTest.keyClick(page.strip.slider, Qt.Key.Key_Right, Qt.KeyboardModifier.ControlModifier)
    assert page.player.phase == pytest.approx(10 / 30)


def test_between_two_frames_an_arrow_goes_to_the_nearer_one_that_way(page: PlayerPage) -> None:
    page.player.seek(10.4 / 30)
    page.player.step(1)
    assert page.player.phase == pytest.approx(11 / 30)
    page.player.seek(10.4 / 30)
    page.player.step(-1)
    assert page.player.phase == pytest.approx(10 / 30)


def test_a_map_opened_meanwhile_gets_its_lines(
    page: PlayerPage, window: Window, qtbot: QtBot
) -> None:
    page.player.play()
    assert page.player.on
    opened = window.tray.open_page("Stance map")
    assert isinstance(opened, MapPage)
    qtbot.waitUntil(lambda: opened._lines is not None, timeout=20_000)


def test_what_is_compared_gives_way_to_what_is_played(page: PlayerPage, window: Window) -> None:
    page.player.stop()
    window.compare.keep()
    window.session.edit(front_angle_deg=20.0)
    QApplication.processEvents()
    window.compare.swap(True, latched=True)
    page.player.play()
    QApplication.processEvents()
    assert not window.compare.swapped
    assert not window.whose.isVisible()


def test_the_way_is_looked_through_anew_only_where_it_can_be_seen(
    page: PlayerPage, window: Window
) -> None:
    player = page.player
    key(window, Qt.Key.Key_Escape)
    before = player.track
    window.tray.open_page("Notes")
    window.session.edit(stance_length_mm=440.0)
    QApplication.processEvents()
    assert player.track is before, "nobody sees it"
    window.tray.open_page("Motion")
    QApplication.processEvents()
    assert player.track is not before
    assert player.track is not None
    assert {each.inputs.stance_length_mm for each in player.track.moments} == {440.0}


def test_escape_brings_back_the_set_up_in_hand_and_nothing_is_in_the_history(
    page: PlayerPage, window: Window
) -> None:
    before, steps = window.session.setup, window.session.steps
    usual = shown(window).setup
    for kind in ("crouch", "bump", "turns", "sweep"):
        chosen(page, kind)
        key(window, Qt.Key.Key_End, Qt.Key.Key_Left, Qt.Key.Key_Space, Qt.Key.Key_Space)
        assert shown(window).setup != usual
        key(window, Qt.Key.Key_Escape)
        assert shown(window).setup is usual is before
    assert window.session.setup is before
    assert window.session.steps == steps
    assert not window.undo.isEnabled()
    assert not window.documents.work.modified


def test_the_scale_of_the_views_never_changes_while_it_plays(
    page: PlayerPage, window: Window
) -> None:
    for kind in ("turns", "sweep"):
        chosen(page, kind)
        key(window, Qt.Key.Key_Home)
        windows = dict(window.sheet._windows)
        for i in range(41):
            page.player.seek(i / 40)
            assert window.sheet._windows == windows
        for scene in shown(window).scenes.values():
            assert scene.window == windows[scene.key]


def test_the_keys_rule_unless_a_foot_is_selected(page: PlayerPage, window: Window) -> None:
    sheet = window.sheet
    sheet.setFocus(Qt.FocusReason.OtherFocusReason)
    key(window, Qt.Key.Key_Right)
    assert page.player.phase == pytest.approx(1 / 30)
    angle = window.session.inputs.front_angle_deg
    key(window, Qt.Key.Key_Space)
    assert page.player.playing
    assert not sheet._selected
    key(window, Qt.Key.Key_Space)
    phase = page.player.phase
    # Coming by Tab selects the front foot: the keys are its own then.
    window.panel.setFocus()
    sheet.setFocus(Qt.FocusReason.TabFocusReason)
    key(window, Qt.Key.Key_Left)
    assert window.session.inputs.front_angle_deg == angle + 1.0
    assert page.player.phase == phase
    assert page.player.on
    key(window, Qt.Key.Key_Space, Qt.Key.Key_Space)  # the rear foot, and none again
    assert not sheet._selected
    assert not page.player.playing
    key(window, Qt.Key.Key_Left)
    assert page.player.phase != phase


def test_what_is_swept_is_not_taken_from_a_foot_but_all_else_is(
    page: PlayerPage, window: Window
) -> None:
    chosen(page, "sweep")
    key(window, Qt.Key.Key_End)
    before = window.session.inputs
    window.sheet.setFocus(Qt.FocusReason.TabFocusReason)
    key(window, Qt.Key.Key_Left)
    assert window.session.inputs == before
    key(window, Qt.Key.Key_Space, Qt.Key.Key_Left)
    assert window.session.inputs.rear_angle_deg == before.rear_angle_deg + 1.0
    assert shown(window).setup.inputs.rear_angle_deg == before.rear_angle_deg + 1.0
    assert shown(window).setup.inputs.front_angle_deg == page._sweep.end


def test_typing_and_pressing_keep_their_keys(page: PlayerPage, window: Window) -> None:
    chosen(page, "sweep")
    key(window, Qt.Key.Key_Home)
    page.sweep_row.start.setFocus()
    key(window, Qt.Key.Key_Right, Qt.Key.Key_End)
    assert page.player.phase == 0.0
    page.strip.traces.setFocus()
    key(window, Qt.Key.Key_Space)
    assert not page.player.traces
    assert not page.player.playing


def test_the_slider_scrubs(page: PlayerPage, window: Window) -> None:
    slider = page.strip.slider
    y = slider.height() // 2
    at = [QPoint(round(x_of(slider.scale, share, slider.width())), y) for share in (0.3, 0.5)]
    QTest.mousePress(slider, Qt.MouseButton.LeftButton, pos=at[0])
    assert page.player.phase == pytest.approx(0.3, abs=0.02)
    QTest.mouseMove(slider, at[1])
    QTest.mouseRelease(slider, Qt.MouseButton.LeftButton, pos=at[1])
    assert page.player.phase == pytest.approx(0.5, abs=0.02)
    # Halfway by minimum jerk is halfway.
    assert bend(window) == pytest.approx(52.5, abs=3.0)
    assert page.strip.readout.text() == f"{page.player.phase:.2f} s"


def test_the_plots_are_clicked_along(page: PlayerPage) -> None:
    chosen(page, "sweep")
    plot = page.plots["boot_flex"]
    box = plot._box
    left = plot.mapFromScene(box.mapToScene(box.rect().topLeft()))
    right = plot.mapFromScene(box.mapToScene(box.rect().bottomRight()))
    click(plot.viewport(), QPoint((left.x() + right.x()) // 2, (left.y() + right.y()) // 2))
    assert page.player.phase == pytest.approx(0.5, abs=0.02)


def test_again_and_again_there_and_back_or_once(page: PlayerPage) -> None:
    player = page.player
    for repeat, phases in (
        (LOOP, [0.6, 0.2, 0.8]),
        (BACK, [0.6, 0.8, 0.2, 0.4]),
        (ONCE, [0.6, 1.0]),
    ):
        player.set_repeat(repeat)
        player.seek(0.0)
        player.play()
        found = []
        for _ in phases:
            player._advance(0.6)
            found.append(player.phase)
        assert found == pytest.approx(phases), repeat
        assert player.playing == (repeat != ONCE)
        player.pause()


def test_what_ends_as_it_begins_goes_again_and_again_and_all_else_there_and_back(
    page: PlayerPage,
) -> None:
    found = {}
    for kind in ("turns", "crouch", "bump", "sweep"):
        chosen(page, kind)
        found[kind] = page.player.repeat
    assert found == {"turns": LOOP, "crouch": BACK, "bump": LOOP, "sweep": BACK}


def test_the_page_starts_by_itself_unless_motion_is_to_be_reduced(qtbot: QtBot) -> None:
    window = shown_window(qtbot, active=True)
    click(tab := window.tray.tabs[[t.text() for t in window.tray.tabs].index("Motion")])
    page = window.tray.current
    assert isinstance(page, PlayerPage)
    assert page.player.playing
    click(page.strip.stop)
    assert not page.player.on
    click(tab)
    set_reduced(True)
    window.playing.follow_motion()
    click(tab)
    assert not page.player.on
    assert page.strip.isVisible()
    click(page.strip.play)
    assert page.player.playing
    page.player.pause()


def test_the_strip_stays_while_another_page_is_open_and_goes_with_the_stop(
    page: PlayerPage, window: Window
) -> None:
    key(window, Qt.Key.Key_End)
    window.tray.open_page("Notes")
    assert page.strip.isVisible()
    assert bend(window) == 80.0
    click(page.strip.stop)
    assert not page.strip.isVisible()
    assert bend(window) == DEMO.inputs.knee_bend_deg


@pytest.mark.parametrize("title", ["Stance map", "Through the bend", "All round"])
def test_the_maps_dot_the_plots_and_the_legs_all_round_move_along_and_come_back(
    page: PlayerPage, window: Window, title: str
) -> None:
    chosen(page, "sweep")
    other = window.tray.open_page(title)
    place: Callable[[], object] = {
        "Stance map": lambda: isinstance(other, MapPage) and other.plot._dot.pos().x(),
        "Through the bend": lambda: (
            isinstance(other, BendPage) and other.plots["knee_bend_deg"]._dots["front"].pos().y()
        ),
        "All round": lambda: other.view.scene.marks,  # type: ignore[attr-defined]
    }[title]
    usual = place()
    # What plays goes on playing while another page is open.
    page.player.seek(0.5)
    window.sheet.setFocus(Qt.FocusReason.OtherFocusReason)
    key(window, Qt.Key.Key_Home)
    start = place()
    key(window, Qt.Key.Key_End)
    assert len({usual, start, place()}) == 3
    key(window, Qt.Key.Key_Escape)
    assert place() == usual


def test_what_is_shown_in_place_of_the_set_up_stops_the_player(
    page: PlayerPage, window: Window
) -> None:
    key(window, Qt.Key.Key_Space)
    other = edited(DEMO, knee_bend_deg=70.0)
    window.session.show_instead(Instead(other))
    window._refresh()
    assert not page.player.on
    assert bend(window) == 70.0
    page.player.seek(1.0)
    assert bend(window) == 70.0
    window.session.show_instead(None)
    page.player.stop()
    window._refresh()
    assert bend(window) == DEMO.inputs.knee_bend_deg


def test_a_sweep_is_typed_and_one_without_way_is_refused(
    page: PlayerPage, window: Window, qtbot: QtBot
) -> None:
    chosen(page, "sweep")
    row = page.sweep_row
    type_and_enter(qtbot, row.start, "50")
    type_and_enter(qtbot, row.end, "40")
    assert page._sweep[1:3] == (50.0, 40.0)
    page.player.seek(0.5)
    assert shown(window).setup.inputs.front_angle_deg == 45.0
    type_and_enter(qtbot, row.end, "50")
    assert "two values that differ" in page.problem.text()
    assert page._sweep[1:3] == (50.0, 40.0)
    type_and_enter(qtbot, row.end, "120")
    assert "“120” was not taken" in page.problem.text()


def test_a_sweep_through_legs_that_cannot_be_says_so_and_plays_nothing(
    page: PlayerPage, window: Window
) -> None:
    row = page.sweep_row
    chosen(page, "sweep")
    row.asked.emit(page._sweep._replace(name="hip_height_mm", start=880.0, end=420.0))
    assert page.player.track is None
    assert "Knee height is 490 mm" in page.problem.text()
    key(window, Qt.Key.Key_Space)
    assert not page.player.on
    assert bend(window) == DEMO.inputs.knee_bend_deg
    row.asked.emit(page._sweep._replace(name="hip_height_mm", start=880.0, end=900.0))
    assert not page.problem.text()
    assert page.player.track is not None


def test_an_own_movement_is_made_typed_over_and_kept_as_steps_of_the_set_up(
    page: PlayerPage, window: Window, qtbot: QtBot
) -> None:
    chosen(page, "own")
    assert page.player.track is None
    assert not window.session.setup.movement.postures
    chosen(page, "bump")
    click(page.copy)
    window._refresh()
    own = window.session.setup.movement
    assert len(own.postures) == 3
    assert page._kind == "own"
    click(page.more)
    window._refresh()
    assert len(window.session.setup.movement.postures) == 4
    QApplication.processEvents()
    cell = page.table.cells[1]["knee_bend_deg"]
    type_and_enter(qtbot, cell, "95")
    window._refresh()
    assert window.session.setup.movement.postures[1].knee_bend_deg == 95.0
    assert window.documents.work.modified
    page.player.seek(0.5 / 1.5)
    assert bend(window) == pytest.approx(95.0)
    click(page.table.removers[3])
    window._refresh()
    assert len(page.table.cells) == 3
    for _ in range(4):
        window.undo.trigger()
    window._refresh()
    assert window.session.setup.movement == Movement()
    assert "none yet" in page.about.text()


def test_the_worst_moment_stands_behind_and_traces_are_left_where_they_are_wanted(
    page: PlayerPage, window: Window
) -> None:
    def roles() -> set[str]:
        return {mark.role for scene in shown(window).scenes.values() for mark in scene.marks}

    key(window, Qt.Key.Key_Home)
    assert "ghost" in roles()
    assert "front.path" not in roles()
    page.player.seek(0.7)
    assert {"front.path", "rear.path"} <= roles()
    click(page.strip.traces)
    click(page.strip.ghost)
    assert not {"front.path", "ghost"} & roles()


def test_the_strip_says_that_nothing_was_measured_and_where_it_is_worst(
    page: PlayerPage,
) -> None:
    said = page.strip.said.text()
    assert said.startswith("Example movement, not measured.")
    assert "The rear boot goes 12.9° past its front stop at the lowest point." in said
    assert "not measured" in page.about.text()


def test_the_words_of_the_page_have_room(page: PlayerPage) -> None:
    for kind in ("turns", "sweep", "own"):
        chosen(page, kind)
        QApplication.processEvents()
        assert overfull(page) == []
        assert overfull(page.strip) == [] or page.strip.said.width() > 400
