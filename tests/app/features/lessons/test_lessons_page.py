"""The page of lessons by its keys: predict, see, go on; made by a coach; nothing touched."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLabel, QLineEdit
from pytestqt.qtbot import QtBot
from shown_windows import shown_window

from app.features.lessons.model import ASK, ONE, REVEAL, TELL
from app.features.lessons.page import CARRIED, LessonsPage
from app.features.lessons.player import LessonPlayer
from app.files.lesson_file import lesson_opened
from app.files.resources import lessons
from app.files.storage import Document, bytes_of, document_in
from app.rider.lessons import NO_LESSON, Lesson, Question, Step, Text
from app.rider.setup import DEMO
from app.session import Session
from app.window.window import Window


@pytest.fixture
def session() -> Session:
    made = Session()
    made.edit(stance_length_mm=520.0)
    return made


@pytest.fixture
def window(qtbot: QtBot, session: Session) -> Window:
    return shown_window(qtbot, session, active=True)


@pytest.fixture
def page(window: Window) -> LessonsPage:
    opened = window.tray.open_page("Lessons")
    assert isinstance(opened, LessonsPage)
    return opened


@pytest.fixture
def press(qtbot: QtBot, window: Window) -> Callable[[Qt.Key, int], None]:
    """Keys where the keyboard is, as a person has it."""

    def press(key: Qt.Key, times: int = 1) -> None:
        for _ in range(times):
            at = QApplication.focusWidget()
            assert at is not None
            QTest.keyClick(at, key)
            qtbot.wait(1)

    return press


def part(player: LessonPlayer) -> str:
    return player.stage.part if player.stage is not None else ""


def shown_length(session: Session) -> float:
    assert session.instead is not None
    return session.instead.setup.inputs.stance_length_mm


def test_the_controls_say_that_their_numbers_are_those_of_the_lesson(
    page: LessonsPage, window: Window, qtbot: QtBot
) -> None:
    page.player.begin()
    qtbot.wait(1)
    assert window.whose.words.text() == "Seen now: the lesson's rider"
    assert window.whose.words.isEnabled()
    assert not window.panel.isEnabled()


def test_a_whole_lesson_is_gone_through_by_keys_alone_and_touches_nothing(
    page: LessonsPage, session: Session, press: Callable[..., None]
) -> None:
    before, steps, player = session.setup, session.steps, page.player
    page.player.next.setFocus()
    press(Qt.Key.Key_Space)
    assert shown_length(session) == 250.0
    press(Qt.Key.Key_Right, 2)
    assert part(player) == ASK
    # It waits for a prediction.
    press(Qt.Key.Key_Right)
    assert part(player) == ASK
    assert shown_length(session) == 250.0
    press(Qt.Key.Key_2)
    press(Qt.Key.Key_Right)
    assert part(player) == REVEAL
    assert shown_length(session) == 325.0
    assert player.verdict.text().startswith("You expected: The knees")
    press(Qt.Key.Key_Right)
    assert part(player) == ONE
    press(Qt.Key.Key_Left)
    assert part(player) == REVEAL
    press(Qt.Key.Key_Right, 3)
    assert part(player) == ASK
    # The slider takes the arrows while it has the keyboard, and the drawings wait.
    press(Qt.Key.Key_Right, 12)
    assert part(player) == ASK
    assert shown_length(session) == 250.0
    press(Qt.Key.Key_Tab)
    while QApplication.focusWidget() is not player.next:
        press(Qt.Key.Key_Tab)
    press(Qt.Key.Key_Space)
    assert part(player) == REVEAL
    assert player.verdict.text() == "You set 310 mm. It takes 320 mm to 370 mm."
    assert shown_length(session) == 345.0
    # Now it may be tried.
    player.sliding.take_keys()
    press(Qt.Key.Key_Right, 2)
    assert shown_length(session) == 355.0
    player.next.setFocus()
    press(Qt.Key.Key_Right, 4)
    assert player.stage is None
    assert session.instead is None
    assert session.setup == before
    assert session.steps == steps


def test_a_knee_is_dragged_or_moved_by_arrows_and_then_the_real_one_shown(
    page: LessonsPage, press: Callable[..., None], qtbot: QtBot
) -> None:
    page._choose("wide-stance")
    player = page.player
    player.begin()
    player.go_on()
    assert part(player) == ASK
    assert QApplication.focusWidget() is player.knee
    press(Qt.Key.Key_Right, 4)
    qtbot.waitExposed(page.window())
    assert player._answers == {1: 20.0}
    fit = player.knee._fit()
    assert fit is not None
    at = player.knee.rect().center()
    QTest.mousePress(player.knee, Qt.MouseButton.LeftButton, pos=at)
    QTest.mouseMove(player.knee, at + QPoint(round(40.0 * fit.scale), 0))
    QTest.mouseRelease(player.knee, Qt.MouseButton.LeftButton)
    assert player._answers[1] == pytest.approx(60.0, abs=1.0 / fit.scale)
    assert "outward" in player.knee.accessibleName()
    player.go_on()
    assert player.verdict.text().endswith("That is right.")
    press(Qt.Key.Key_Right)
    assert part(player) == ONE


def test_the_other_leg_in_front_mirrors_what_is_dragged(page: LessonsPage) -> None:
    lesson = page._lessons["wide-stance"]
    mirrored = replace(lesson, inputs=replace(lesson.inputs, lead_foot="right"))
    player = page.player
    player.take(mirrored, young=False)
    player.begin()
    player.go_on()
    QTest.keyClick(player.knee, Qt.Key.Key_Left)
    assert player._answers == {1: 5.0}


def test_the_drawings_come_back_when_the_page_is_left(
    page: LessonsPage, window: Window, session: Session
) -> None:
    page.player.begin()
    assert session.instead is not None
    window.tray.open_page("Notes")
    assert session.instead is None
    assert page.player.stage is None


def test_children_are_told_before_they_are_asked(page: LessonsPage) -> None:
    player = page.player
    grown = len(player._stages)
    page.young.click()
    assert len(player._stages) < grown
    player.begin()
    while player._stages[player._at + 1].part != ASK:
        player.go_on()
    assert part(player) == TELL
    told = player.words.text()
    player.go_on()
    QTest.keyClick(QApplication.focusWidget() or player, Qt.Key.Key_1)
    player.go_on()
    assert part(player) == REVEAL
    assert player.words.text() == told


def test_children_hear_all_of_a_lesson_that_has_no_words_for_them(page: LessonsPage) -> None:
    plain = Lesson(steps=(Step(Text((("", "One."),))), Step(Text((("", "Two."),)))))
    page.player.take(plain, young=True)
    page.player.begin()
    assert page.player.words.text() == "One."
    page.player.go_on()
    assert page.player.words.text() == "Two."


def test_hostile_words_are_shown_letter_for_letter(page: LessonsPage, tmp_path: Path) -> None:
    hostile = '<img src="file:///etc/hostname"><b>{before.rear_knee.__class__}</b> &amp; {}'
    whole = json.loads(lessons()[0].read_text("utf-8"))
    whole["title"] = whole["about"] = hostile
    whole["steps"][2]["question"]["ask"] = hostile
    whole["steps"][2]["question"]["options"][0]["say"] = hostile
    file = tmp_path / "hostile.json"
    file.write_text(json.dumps(whole))
    page.open_file(file)
    player = page.player
    assert player.head.text() == hostile
    player.begin()
    player.skip()
    player.skip()
    assert player.words.text() == hostile
    for label in page.findChildren(QLabel):
        assert label.textFormat() == Qt.TextFormat.PlainText


def test_a_broken_file_is_told_and_the_lesson_in_hand_stays(
    page: LessonsPage, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    told: list[str] = []
    monkeypatch.setattr("app.features.lessons.page.tell", lambda *said: told.append(said[-1]))
    file = tmp_path / "broken.json"
    file.write_text('{"schema": 1, "title": "x", "steps": [')
    chosen = page._chosen
    page.open_file(file)
    assert "not valid JSON" in told[0]
    assert page._chosen == chosen


# Making one


@pytest.fixture
def making(page: LessonsPage) -> LessonsPage:
    page.make.click()
    return page


def test_one_key_records_each_state_and_each_can_be_undone(
    making: LessonsPage, session: Session, window: Window
) -> None:
    QTest.keyClick(window, Qt.Key.Key_F9)
    session.edit(front_angle_deg=30.0)
    QTest.keyClick(window, Qt.Key.Key_F9)
    lesson = session.setup.lesson
    assert lesson.inputs.stance_length_mm == 520.0
    assert [step.set for step in lesson.steps] == [(), (("front_angle_deg", 30.0),)]
    assert making.recorder.steps.item(1).text() == "2  Front binding angle 30.0°"
    session.undo()
    assert len(session.setup.lesson.steps) == 1
    assert making.recorder.steps.count() == 1


def test_words_order_question_and_removal_go_through_the_session(
    making: LessonsPage, session: Session, qtbot: QtBot
) -> None:
    recorder = making.recorder
    for length in (400.0, 600.0):
        session.edit(stance_length_mm=length)
        recorder.add()
    recorder.words.setFocus()
    QTest.keyClicks(recorder.words, "Wide: {rear_knee}")
    recorder.ask.chosen.emit("choice.rear")
    assert session.setup.lesson.steps[1].say.said == "Wide: {rear_knee}"
    asked = session.setup.lesson.steps[1].question
    assert asked is not None
    assert asked.ask.said == "Stance length {then.stance_length_mm}: how does the rear knee fare?"
    assert recorder.steps.item(1).text() == "2  asks: Wide: {rear_knee}"
    recorder.sooner.click()
    assert session.setup.lesson.steps[0].say.said == "Wide: {rear_knee}"
    recorder.later.click()
    back = document_in(bytes_of(Document(session.setup))).setup
    assert back.lesson == session.setup.lesson

    recorder.go.click()
    player = making.player
    assert making._chosen == CARRIED
    assert part(player) == TELL
    player.go_on()
    assert part(player) == ASK
    assert player.words.text() == "Stance length 600 mm: how does the rear knee fare?"
    QTest.keyClick(QApplication.focusWidget() or player, Qt.Key.Key_3)
    player.go_on()
    assert player.verdict.text() == "You expected: It goes further out. That is right."
    assert player.words.text().startswith("Wide: ")
    assert "out of its plane" in player.words.text()
    player.end()
    making.make.click()
    recorder.look_at(1)
    recorder.remove.click()
    assert len(session.setup.lesson.steps) == 1
    recorder.clear.click()
    assert session.setup.lesson == NO_LESSON


def test_a_lesson_is_saved_to_a_file_of_its_own(
    making: LessonsPage, session: Session, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    target = tmp_path / "mine.json"
    monkeypatch.setattr("app.features.lessons.recorder.asked_where", lambda *_: target)
    making.recorder.add()
    making.recorder.save.click()
    assert lesson_opened(target).lesson == session.setup.lesson


def test_a_set_up_that_brings_a_lesson_offers_it_and_takes_it_along(
    page: LessonsPage, session: Session
) -> None:
    mine = Lesson(Text((("", "Mine"),)), Text(), DEMO.inputs, (Step(Text((("", "Look."),))),))
    session.take("Opened", replace(session.setup, lesson=mine))
    assert page._lessons[CARRIED] == mine
    page._choose(CARRIED)
    page.player.begin()
    assert page.player.words.text() == "Look."
    session.undo()
    assert CARRIED not in page._lessons
    assert page.player.stage is None


def test_while_presented_figures_choose_answers_and_the_large_slider_is_gone(
    page: LessonsPage, window: Window, session: Session, qtbot: QtBot
) -> None:
    before = session.setup
    window.present.setChecked(True)
    player = page.player
    player.begin()
    player.skip()
    player.skip()
    assert part(player) == ASK
    qtbot.waitUntil(lambda: not window.presenting.slider.isVisible())
    picked = window.presenting.slider.name
    QTest.keyClick(QApplication.focusWidget() or player, Qt.Key.Key_3)
    assert player._answers == {2: 2}
    assert window.presenting.slider.name == picked
    player.end()
    qtbot.waitUntil(window.presenting.slider.isVisible)
    assert session.setup == before


# Asking with a slider


@pytest.fixture
def sliding(making: LessonsPage, session: Session) -> LessonsPage:
    """A lesson of two states, the second of which asks for a value."""
    session.edit(stance_length_mm=520.0, front_angle_deg=20.0, rear_angle_deg=20.0)
    making.recorder.add()
    session.edit(front_cant_deg=0.0, rear_cant_deg=0.0, knee_bend_deg=50.0)
    making.recorder.add()
    choose_in(making.recorder.ask, "Ask for a value on a slider")
    return making


def choose_in(box: QComboBox, words: str) -> None:
    """Choose by keys, as a hand does."""
    assert box.isVisible()
    box.setFocus()
    there = box.findText(words)
    assert there >= 0, [box.itemText(i) for i in range(box.count())]
    box.setCurrentIndex(0)
    if there == 0:
        box.activated.emit(0)
    for _ in range(there):
        QTest.keyClick(box, Qt.Key.Key_Down)


def type_in(field: QLineEdit, text: str) -> None:
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Return)


def asked_last(session: Session) -> Question:
    question = session.setup.lesson.steps[-1].question
    assert question is not None
    return question


def test_a_coach_asks_with_a_slider_and_is_told_what_is_right(
    sliding: LessonsPage, session: Session
) -> None:
    recorder, row = sliding.recorder, sliding.recorder.slide
    assert asked_last(session).inputs == ("knee_bend_deg",)
    assert row.isVisible()
    choose_in(row.input, "Front cant + Rear cant")
    type_in(row.low, "0")
    type_in(row.high, "9")
    question = asked_last(session)
    assert question.inputs == ("front_cant_deg", "rear_cant_deg")
    assert (question.low, question.high) == (0.0, 9.0)
    # The words are ours and follow what is set.
    assert question.ask.said == (
        "Front cant + Rear cant: from where on are both knees in their planes?"
    )
    told = recorder.right.text()
    assert told.startswith("It takes ")
    type_in(row.within, "3")
    assert recorder.right.text() != told
    assert {each.other for each in asked_last(session).until} == {3.0}
    choose_in(row.goal, "until the front knee is in its plane")
    assert [each.one for each in asked_last(session).until] == ["then.front_knee"]
    steps = len(session.steps)
    session.undo()
    assert [each.one for each in asked_last(session).until] == ["then.front_knee", "then.rear_knee"]
    assert len(session.steps) == steps


def test_words_that_a_coach_wrote_stay_as_they_are(sliding: LessonsPage, session: Session) -> None:
    recorder = sliding.recorder
    type_in(recorder.question, "How deep may one go?")
    type_in(recorder.slide.within, "2.5")
    question = asked_last(session)
    assert question.ask.said == "How deep may one go?"
    assert question.until[0].other == 2.5


def test_ends_that_are_no_slider_are_told_and_the_former_stay(
    sliding: LessonsPage, session: Session
) -> None:
    row = sliding.recorder.slide
    before = asked_last(session)
    type_in(row.low, str(int(before.high)))
    assert asked_last(session) == before
    assert "from less to more" in sliding.recorder.right.text()
    type_in(row.high, "5000")
    assert asked_last(session) == before
    assert "5000" in sliding.recorder.right.text()
    row.high.forget()


def test_a_slider_that_was_made_is_rehearsed_by_keys_and_saved_with_the_set_up(
    sliding: LessonsPage, session: Session, qtbot: QtBot, tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:  # fmt: skip
    recorder = sliding.recorder
    choose_in(recorder.slide.input, "Front cant + Rear cant")
    back = document_in(bytes_of(Document(session.setup))).setup
    assert back.lesson == session.setup.lesson
    target = tmp_path / "mine.json"
    monkeypatch.setattr("app.features.lessons.recorder.asked_where", lambda *_: target)
    QTest.mouseClick(recorder.save, Qt.MouseButton.LeftButton)
    assert lesson_opened(target).lesson == session.setup.lesson
    QTest.mouseClick(recorder.go, Qt.MouseButton.LeftButton)
    player = sliding.player
    player.go_on()
    assert part(player) == ASK
    assert player.sliding.isVisible()
    slider = player.sliding.slider
    assert QApplication.focusWidget() is slider
    for _ in range(8):
        QTest.keyClick(slider, Qt.Key.Key_Right)
    player.go_on()
    assert part(player) == REVEAL
    assert player.verdict.text().startswith("You set 4.0° inward cant. ")


def test_a_slider_out_of_a_file_says_what_the_file_says_until_it_is_changed(
    making: LessonsPage, session: Session
) -> None:
    whole = next(each for key, each in making._lessons.items() if key == "no-cant-needed")
    place = next(i for i, s in enumerate(whole.steps) if s.question and s.question.kind == "slider")
    session.take("Opened", replace(session.setup, lesson=whole))
    recorder = making.recorder
    recorder.steps.setCurrentRow(place)
    before = whole.steps[place].question
    assert before is not None
    assert recorder.slide.goal.currentText() == "as the file says"
    assert not recorder.slide.within.isEnabled()
    choose_in(recorder.slide.goal, "until both knees are in their planes")
    step = session.setup.lesson.steps[place]
    assert step.question is not None
    assert step.question.until != before.until
    assert step.question.ask == before.ask


def test_a_ghost_knee_is_asked_for_and_rehearsed_too(making: LessonsPage, session: Session) -> None:
    for length in (380.0, 540.0):
        session.edit(stance_length_mm=length)
        making.recorder.add()
    choose_in(making.recorder.ask, "Ask where the front knee goes")
    assert not making.recorder.slide.isVisible()
    assert asked_last(session).leg == "front"
    QTest.mouseClick(making.recorder.go, Qt.MouseButton.LeftButton)
    making.player.go_on()
    assert QApplication.focusWidget() is making.player.knee
    QTest.keyClick(making.player.knee, Qt.Key.Key_Right)
    assert making.player._answers == {1: 5.0}


def test_a_state_that_contradicts_itself_is_told_and_not_recorded(
    making: LessonsPage, session: Session, window: Window
) -> None:
    session.edit(hip_height_mm=400.0)
    QTest.keyClick(window, Qt.Key.Key_F9)
    assert session.setup.lesson == NO_LESSON
    assert "hip height" in making.recorder.right.text()
    session.edit(hip_height_mm=880.0)
    QTest.keyClick(window, Qt.Key.Key_F9)
    assert len(session.setup.lesson.steps) == 1
    assert making.recorder.right.text() == ""


def test_a_question_is_followed_by_both_states_where_a_coach_wants_them(
    making: LessonsPage, session: Session
) -> None:
    recorder = making.recorder
    for length in (380.0, 540.0):
        session.edit(stance_length_mm=length)
        recorder.add()
    assert not recorder.contrast.isVisible()
    choose_in(recorder.ask, "Ask where the front knee goes")
    QTest.mouseClick(recorder.contrast, Qt.MouseButton.LeftButton, pos=QPoint(8, 8))
    lesson = session.setup.lesson
    assert [case.set for case in lesson.steps[1].cases] == [(), (("stance_length_mm", 540.0),)]
    assert recorder.contrast.isChecked()
    back = document_in(bytes_of(Document(session.setup))).setup
    assert back.lesson == lesson
    QTest.mouseClick(recorder.go, Qt.MouseButton.LeftButton)
    player = making.player
    for _ in range(3):
        player.skip()
    assert part(player) == ONE
    assert player.words.text().startswith("Before: the front knee is ")
    player.skip()
    assert player.words.text().startswith("After: the front knee is ")
    assert session.instead is not None
    assert session.instead.behind is not None
    making.make.click()
    recorder.steps.setCurrentRow(1)
    choose_in(recorder.ask, "Tell")
    assert session.setup.lesson.steps[1].cases == ()
