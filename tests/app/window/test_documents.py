"""Files in the window: nothing is opened, saved or closed behind the user's back."""

from __future__ import annotations

import errno
import json
import os
import shutil
from collections.abc import Callable
from contextlib import AbstractContextManager
from pathlib import Path

import pytest
from dropping import drop
from modal import answered
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QLineEdit, QPlainTextEdit, QWidget
from pytestqt.qtbot import QtBot

from app.files import safe_files
from app.files.resources import SHARED, starting_points
from app.files.storage import SCHEMA, Document, opened, save
from app.qt.questions import Answer
from app.rider.setup import Setup
from app.window import documents
from app.window.program import Program

CTRL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier
Choose = Callable[[Path | str], None]


LAYOUTS = Path(__file__).parents[2] / "cases" / "layouts"
"""Files written by the versions of their time."""


def turn(program: Program, degrees: float) -> None:
    program.window.session.edit(front_angle_deg=degrees)


def press(program: Program, key: Qt.Key, keys: Qt.KeyboardModifier = CTRL) -> None:
    # Without a window system nobody gives the keyboard back after a dialog.
    program.window.activateWindow()
    QApplication.processEvents()
    QTest.keyClick(program.window, key, keys)
    QApplication.processEvents()


def title(program: Program) -> str:
    star = "*" if program.window.isWindowModified() else ""
    return program.window.windowTitle().replace("[*]", star)


def test_the_title_has_a_star_while_something_is_unsaved(
    program: Program, choose: Choose, tmp_path: Path
) -> None:
    assert title(program) == "Demo rider – Kneeline"
    turn(program, 30)
    assert title(program) == "Demo rider* – Kneeline"
    choose(tmp_path / "walk")
    press(program, Qt.Key.Key_S)
    assert title(program) == "walk.kneeline – Kneeline"
    assert opened(tmp_path / "walk.kneeline").setup == program.window.session.setup
    press(program, Qt.Key.Key_Z)
    assert title(program) == "walk.kneeline* – Kneeline"


def test_a_file_is_opened_by_key_and_saved_back_with_its_notes(
    program: Program, choose: Choose, anna: Path
) -> None:
    choose(anna)
    press(program, Qt.Key.Key_O)
    assert title(program) == "anna.json – Kneeline"
    turn(program, 12)
    press(program, Qt.Key.Key_S)
    assert opened(anna).setup.notes == "left knee first"
    assert opened(anna).setup.inputs.front_angle_deg == 12.0


def test_cancelling_a_file_dialog_changes_nothing(program: Program, choose: Choose) -> None:
    turn(program, 30)
    choose("")
    press(program, Qt.Key.Key_S)
    press(program, Qt.Key.Key_O)
    assert title(program) == "Demo rider* – Kneeline"


@pytest.mark.parametrize(
    ("button", "open_still"), [("Cancel", True), ("Esc", True), ("Discard", False), ("Save", False)]
)
def test_closing_asks_once_and_does_as_told(
    program: Program, choose: Choose, tmp_path: Path, button: str, open_still: bool
) -> None:
    turn(program, 30)
    choose(tmp_path / "a.json")
    with answered(button) as said:
        program.window.close()
    assert said[0].startswith("Save the changes to Demo rider?")
    assert program.window.isVisible() is open_still
    assert (tmp_path / "a.json").exists() is (button == "Save")


def test_closing_without_changes_asks_nothing(program: Program) -> None:
    with answered():
        assert program.window.close()


def test_a_save_that_fails_on_closing_keeps_the_window_and_the_work(
    program: Program, choose: Choose, tmp_path: Path
) -> None:
    turn(program, 30)
    choose(tmp_path / "gone" / "a.json")
    with answered("Save", "Cancel") as said:
        program.window.close()
    assert "there is no such folder" in said[1]
    assert "still in hand" in said[1]
    assert program.window.isVisible()
    assert title(program) == "Demo rider* – Kneeline"


def test_after_a_save_that_failed_another_place_is_offered_at_once(
    program: Program, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    places = [tmp_path / "gone" / "a.json", tmp_path / "b.json"]
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(places.pop(0)), ""))
    turn(program, 30)
    with answered("Save as…"):
        assert program.documents.save()
    assert opened(tmp_path / "b.json").setup == program.window.session.setup
    assert not program.window.isWindowModified()


def test_a_parts_list_dropped_on_the_window_is_told_where_it_opens(program: Program) -> None:
    with answered("OK") as said:
        drop(program.window, SHARED / "parts-board-discs.json")
    assert "it is a parts list, not a set-up; open it on the page Parts" in said[0]
    assert title(program) == "Demo rider – Kneeline"


def test_opening_and_starting_anew_ask_before_changes_go(
    program: Program, choose: Choose, anna: Path
) -> None:
    turn(program, 30)
    before = program.window.session.setup
    choose(anna)
    with answered("Cancel", "Esc"):
        press(program, Qt.Key.Key_O)
        program.window.documents.start_from(starting_points()[1])
    assert program.window.session.setup == before
    with answered("Discard"):
        program.window.documents.start_from(starting_points()[1])
    assert not program.window.isWindowModified()
    press(program, Qt.Key.Key_Z)
    assert program.window.session.setup == before


def test_a_file_dropped_on_the_window_is_opened(program: Program, anna: Path) -> None:
    assert drop(program.window, anna)
    assert title(program) == "anna.json – Kneeline"


def test_a_broken_file_that_the_desktop_opened_is_told_in_the_window(
    program: Program, tmp_path: Path
) -> None:
    (tmp_path / "broken.kneeline").write_text("{")
    with answered("OK") as said:
        program.begin(tmp_path / "broken.kneeline")
    assert "broken.kneeline: it is not valid JSON" in said[0]
    assert title(program) == "Demo rider – Kneeline"


@pytest.mark.parametrize("name", ["anna.kneeline", "anna.json"])
def test_a_set_up_of_either_ending_opens_keeps_it_and_is_among_the_recent_ones(
    program: Program, choose: Choose, anna: Path, name: str
) -> None:
    path = anna.rename(anna.with_name(name))
    assert drop(program.window, path)
    assert program.documents.settings.now.recent[0] == str(path)
    turn(program, 12)
    press(program, Qt.Key.Key_S)
    choose(path)
    with answered("Replace"):
        press(program, Qt.Key.Key_S, CTRL | SHIFT)
    assert [each.name for each in path.parent.iterdir() if each.is_file()] == [name]
    assert opened(path).setup.inputs.front_angle_deg == 12.0


def test_a_broken_file_is_told_and_leaves_the_work(program: Program, tmp_path: Path) -> None:
    (tmp_path / "broken.json").write_text("{")
    with answered("OK") as said:
        drop(program.window, tmp_path / "broken.json")
    assert "broken.json: it is not valid JSON" in said[0]
    assert title(program) == "Demo rider – Kneeline"


def test_text_fields_do_not_swallow_dropped_files(program: Program) -> None:
    assert not any(field.acceptDrops() for field in program.window.findChildren(QLineEdit))


def test_fields_of_pages_made_later_do_not_swallow_them_either(program: Program) -> None:
    tray = program.window.tray
    for tab in tray.tabs:
        tab.click()
        assert tray.current is not None
        for kind in (QLineEdit, QPlainTextEdit):
            fields = tray.current.findChildren(kind)
            assert not any(field.acceptDrops() for field in fields)
    page = tray.open_page("Notes")
    assert page.findChildren(QPlainTextEdit)


def test_a_newer_file_opens_for_reading_and_only_a_copy_is_saved(
    program: Program, choose: Choose, anna: Path
) -> None:
    raw = json.loads(anna.read_text("utf-8")) | {"schema": SCHEMA + 1}
    anna.write_text(json.dumps(raw), "utf-8")
    before = anna.read_bytes()
    drop(program.window, anna)
    assert title(program) == "anna.json (read only) – Kneeline"
    assert "newer version" in program.documents.notices.text
    turn(program, 12)
    choose(anna)
    with answered("Replace", "Cancel") as said:
        press(program, Qt.Key.Key_S)
    assert "anna.json is there already" in said[0]
    assert "save a copy instead" in said[1]
    choose(anna.with_name("copy.json"))
    press(program, Qt.Key.Key_S)
    assert anna.read_bytes() == before
    assert title(program) == "copy.json – Kneeline"
    assert program.documents.notices.text.startswith("Saved: ")


def test_a_file_changed_on_disk_is_noticed_and_can_be_opened_again(
    program: Program, qtbot: QtBot, anna: Path
) -> None:
    drop(program.window, anna)
    save(anna, Document(Setup(name="Written elsewhere")))
    notices = program.documents.notices
    qtbot.waitUntil(lambda: "changed on disk" in notices.text)
    offer = next(action for action in notices.actions() if action.text() == "Open it again")
    QTest.mouseClick(notices.widgetForAction(offer), Qt.MouseButton.LeftButton)
    assert program.window.session.setup.name == "Written elsewhere"
    assert notices.text == ""


def test_a_file_that_vanishes_with_its_folder_can_be_saved_elsewhere(
    program: Program, qtbot: QtBot, tmp_path: Path, choose: Callable[[Path | str], None]
) -> None:
    folder, other = tmp_path / "stick", tmp_path / "other.kneeline"
    folder.mkdir()
    gone = folder / "anna.kneeline"
    save(gone, Document(Setup(name="Anna")))
    assert program.documents.open_path(gone)
    shutil.rmtree(folder)
    notices = program.documents.notices
    told = f"anna.kneeline is no longer there, nor is its folder: {folder}"
    qtbot.waitUntil(lambda: notices.text == told)
    choose(other)
    offer = next(action for action in notices.actions() if action.text() == "Save as…")
    QTest.mouseClick(notices.widgetForAction(offer), Qt.MouseButton.LeftButton)
    assert opened(other).setup.name == "Anna"
    assert not folder.exists()
    assert notices.text.startswith("Saved: other.kneeline")


def test_a_file_that_vanishes_is_noticed_and_one_save_brings_it_back(
    program: Program, qtbot: QtBot, anna: Path
) -> None:
    drop(program.window, anna)
    anna.unlink()
    qtbot.waitUntil(lambda: "no longer there" in program.documents.notices.text)
    press(program, Qt.Key.Key_S)
    assert opened(anna).setup.name == "Anna"
    assert program.documents.notices.text.startswith("Saved: ")


@pytest.mark.parametrize("button", ["Save over it", "Save a copy…", "Cancel"])
def test_what_another_program_wrote_is_not_overwritten_unasked(
    program: Program, choose: Choose, anna: Path, button: str
) -> None:
    drop(program.window, anna)
    save(anna, Document(Setup(name="Written elsewhere")))
    turn(program, 12)
    choose(anna.with_name("copy.json"))
    with answered(button):
        press(program, Qt.Key.Key_S)
    assert opened(anna).setup.name == ("Anna" if button == "Save over it" else "Written elsewhere")
    assert anna.with_name("copy.json").exists() is (button == "Save a copy…")
    assert program.window.isWindowModified() is (button == "Cancel")


def test_an_ending_added_to_the_name_never_replaces_a_file_unasked(
    program: Program, choose: Choose, anna: Path
) -> None:
    turn(program, 12)
    anna = anna.rename(anna.with_suffix(".kneeline"))
    choose(anna.with_suffix(""))
    with answered("Esc"):
        press(program, Qt.Key.Key_S)
    assert opened(anna).setup.name == "Anna"
    with answered("Replace"):
        press(program, Qt.Key.Key_S)
    assert opened(anna).setup.name == "Demo rider"


@pytest.mark.parametrize("call", ["open", "write", "fsync", "replace"])
@pytest.mark.parametrize(
    "number", [errno.ENOSPC, errno.EIO, errno.EACCES, errno.EROFS, errno.EDQUOT]
)
def test_whatever_the_disk_refuses_the_old_file_is_whole_and_the_work_in_hand(
    program: Program, choose: Choose, anna: Path, call: str, number: int
) -> None:
    drop(program.window, anna)
    turn(program, 12)
    before = anna.read_bytes()
    with pytest.MonkeyPatch.context() as patch, answered("Cancel") as said:
        patch.setattr(f"app.files.safe_files.os.{call}", failing(number, os.open))
        press(program, Qt.Key.Key_S)
    assert "anna.json: " in said[0]
    assert anna.read_bytes() == before
    assert title(program) == "anna.json* – Kneeline"
    press(program, Qt.Key.Key_S)
    assert opened(anna).setup.inputs.front_angle_deg == 12.0


def failing(number: int, real_open: Callable[..., int]) -> Callable[..., int]:
    """A call of the system that fails; reading goes on."""

    def fail(*args: object, **_named: object) -> int:
        if len(args) > 1 and isinstance(args[1], int) and args[1] & os.O_ACCMODE == os.O_RDONLY:
            return real_open(*args)
        raise OSError(number, os.strerror(number))

    return fail


def test_recent_files_are_offered_and_those_that_are_gone_go(program: Program, anna: Path) -> None:
    drop(program.window, anna)
    program.window.documents.start_from(starting_points()[0])
    menu = program.window.files
    menu.aboutToShow.emit()
    recent = menu.actions()[1].menu().actions()
    assert [action.text() for action in recent] == ["anna.json"]
    recent[0].trigger()
    assert title(program) == "anna.json – Kneeline"
    anna.unlink()
    with answered("OK"):
        recent[0].trigger()
    menu.aboutToShow.emit()
    assert not menu.actions()[1].menu().actions()


def test_the_list_of_steps_goes_back_and_forth(program: Program) -> None:
    for degrees in (10.0, 20.0, 30.0):
        turn(program, degrees)
    menu = program.window.bar.widgetForAction(program.window.undo.face).menu()
    menu.aboutToShow.emit()
    names = [action.text() for action in menu.actions()]
    assert names == [f"Front binding angle: {n}.0°" for n in (30, 20, 10)] + ["Start"]
    menu.actions()[2].trigger()
    assert program.window.session.inputs.front_angle_deg == 10.0
    menu.aboutToShow.emit()
    assert menu.actions()[0].text().endswith("(taken back)")
    assert menu.actions()[2].isChecked()
    menu.actions()[0].trigger()
    assert program.window.session.inputs.front_angle_deg == 30.0


def test_a_file_named_like_a_tag_or_a_star_is_shown_as_it_is_named(
    program: Program, tmp_path: Path
) -> None:
    path = tmp_path / "<b>a[*]&.json"
    save(path, Document(Setup()))
    drop(program.window, path)
    assert program.window.windowTitle() == "<b>a[*][*]&.json[*] – Kneeline"


def test_the_command_lines_changes_to_a_file_count_as_unsaved(
    started: Callable[..., Program], anna: Path
) -> None:
    document = Document(Setup(name="Changed there"))
    program = started(document, anna)
    assert title(program) == "anna.json* – Kneeline"


def test_a_file_of_the_first_model_is_told_once_and_no_more_once_it_is_saved(
    program: Program, tmp_path: Path
) -> None:
    old = tmp_path / "old.json"
    old.write_bytes((LAYOUTS / "layout-1.json").read_bytes())
    program.documents.open_path(old)
    assert "its results differ now" in program.documents.notices.text
    program.documents.save()
    assert program.documents.notices.text.startswith("Saved: ")


def test_starting_points_offer_my_legs_once_they_are_mine(program: Program) -> None:
    window, point = program.window, starting_points()[2]
    window.session.edit(hip_height_mm=905.0)
    window.documents.stand_as(point)
    assert window.session.inputs.left.hip_height_mm == 905.0
    assert window.session.undo_name == f"Stand as {point.title}"
    QApplication.processEvents()
    tick = window.panel.rows["stance_length_mm"].slider.scale.default
    assert tick == window.session.start.inputs.stance_length_mm


class TestTwoWindowsThatSaveTheSameFile:
    """What the second one meant to replace is not what stands there any more."""

    @pytest.fixture
    def others(self, monkeypatch: pytest.MonkeyPatch) -> Callable[[Path], None]:
        """Has another window save a file in the instant in which this one does."""

        def just_before_replacing(path: Path) -> None:
            real, once = safe_files.held, [path]

            def beaten(target: Path) -> AbstractContextManager[None]:
                if once:
                    theirs = Document(Setup(name="Theirs"))
                    save(once.pop(), theirs)
                return real(target)

            monkeypatch.setattr(safe_files, "held", beaten)

        return just_before_replacing

    @pytest.mark.parametrize("button", ["Save over it", "Cancel"])
    def test_at_the_same_instant_the_second_is_asked(
        self, program: Program, anna: Path, others: Callable[[Path], None], button: str
    ) -> None:
        drop(program.window, anna)
        turn(program, 12)
        others(anna)
        with answered(button) as said:
            press(program, Qt.Key.Key_S)
        assert "anna.json was changed by another program or window in the meantime" in said[0]
        assert opened(anna).setup.name == ("Anna" if button == "Save over it" else "Theirs")
        assert program.window.isWindowModified() is (button == "Cancel")

    def test_under_a_name_that_was_free_a_moment_ago_the_second_is_asked(
        self, program: Program, choose: Choose, tmp_path: Path, others: Callable[[Path], None]
    ) -> None:
        new = tmp_path / "new.json"
        turn(program, 12)
        choose(new)
        others(new)
        with answered("Cancel"):
            press(program, Qt.Key.Key_S)
        assert opened(new).setup.name == "Theirs"
        assert program.window.isWindowModified()

    def test_who_saves_over_it_is_asked_again_when_it_changed_once_more(
        self, program: Program, anna: Path
    ) -> None:
        drop(program.window, anna)
        turn(program, 12)
        save(anna, Document(Setup(name="Theirs")))
        names = iter(("Theirs again", "And again"))

        def meanwhile() -> None:
            save(anna, Document(Setup(name=next(names))))

        with pytest.MonkeyPatch.context() as patch, answered("Save over it", "Cancel"):
            ask = documents.asked_about_changed_file

            def asked(window: QWidget, name: str) -> Answer:
                answer = ask(window, name)
                meanwhile()
                return answer

            patch.setattr(documents, "asked_about_changed_file", asked)
            press(program, Qt.Key.Key_S)
        assert opened(anna).setup.name == "And again"


def test_a_name_in_another_folder_that_keeps_the_former_state_is_told(
    program: Program, anna: Path
) -> None:
    (anna.parent / "club").mkdir()
    os.link(anna, anna.parent / "club" / "anna.json")
    drop(program.window, anna)
    turn(program, 12)
    press(program, Qt.Key.Key_S)
    assert "another name in another folder" in program.documents.notices.text
    turn(program, 13)
    press(program, Qt.Key.Key_S)
    assert opened(anna.parent / "club" / "anna.json").setup.inputs.front_angle_deg != 12.0
