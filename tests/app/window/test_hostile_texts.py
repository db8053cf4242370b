"""A file from anybody is shown letter for letter, and opens nothing.

Every text that a file can hold names a picture in a folder that the system watches for us:
whoever opens it, Qt's rich text in a label, a tool tip or a message included, is told.
"""

import io
import sys
import tempfile
from dataclasses import replace
from datetime import date
from html import unescape
from pathlib import Path
from xml.etree import ElementTree

import pytest
from modal import answered
from pypdf import PdfReader
from PySide6.QtCore import QAbstractListModel, QEvent, QPoint, Qt
from PySide6.QtGui import QAction, QHelpEvent, QImage
from PySide6.QtWidgets import (
    QAbstractItemView,
    QApplication,
    QComboBox,
    QLabel,
    QMenu,
    QMessageBox,
    QToolTip,
    QWidget,
)
from watched import watched

from app.drawing.theme import LIGHT
from app.features.clip.dialog import ClipDialog
from app.features.clip.making import Look, Studio
from app.features.compare.beside import comparison_pdf
from app.features.compare.painting import Pair
from app.features.lessons.film import lesson_strip
from app.features.lessons.handout import lesson_pdf
from app.features.lessons.model import Going
from app.features.lessons.page import CARRIED
from app.features.paper.fit_sheet import fit_sheet, fit_sheet_pdf
from app.features.paper.snapshot import snapshot_image
from app.features.paper.view_svg import view_svgs
from app.features.riders.dialog import RidersDialog
from app.files.drafts import Draft
from app.files.recovery import Recovery, Unsaved
from app.files.storage import Document, save
from app.files.user_folders import recovery_folder
from app.frame import frame
from app.qt.questions import (
    agreed_to_go_on,
    asked_about_changed_file,
    asked_to_recover,
    asked_to_replace,
    asked_to_save,
    tell,
    told_not_saved,
)
from app.rider.lessons import Case, Condition, Lesson, Option, Question, Step, Text
from app.rider.parts import PartEntry, Parts
from app.rider.setup import Setup
from app.rider.trials import entry_of
from app.stance.findings import USUAL_LIMITS
from app.window.registry import entries

pytestmark = [
    pytest.mark.skipif(sys.platform != "linux", reason="needs inotify"),
    pytest.mark.qt_log_ignore(r"This plugin does not support", extend=True),
]

DAY = date(2026, 1, 31)


@pytest.fixture
def trap():
    """A folder with a picture that nobody has a reason to open."""
    with tempfile.TemporaryDirectory(prefix="k", dir="/tmp") as folder:
        image = QImage(4, 4, QImage.Format.Format_RGB32)
        image.fill(0)
        image.save(str(Path(folder) / "c.png"))
        yield Path(folder)


def hostile(trap, mark):
    """What a text of a file can be at its worst; short enough to be shown whole in a name."""
    return f'<img src="{trap}/c.png"><b>{mark}</b> &amp; &y </a>'


@pytest.fixture
def evil(trap):
    """A set-up with such a text wherever one can stand."""
    setup = Setup(name=hostile(trap, "name"), notes=hostile(trap, "notes"))
    felt = (("even", "knock-kneed"), ("even", "inside"))
    trial = entry_of(setup.inputs, "2026-01-31", *felt, hostile(trap, "trial"))
    kinds = ("turnable", "along", "across")
    entries = [PartEntry(hostile(trap, kind), kind, 3.0, 6.0, count=4) for kind in kinds]
    parts = Parts(name=hostile(trap, "list"), parts=tuple(entries))
    return replace(setup, trials=(trial, trial), parts=parts, lesson=hostile_lesson(trap))


def hostile_lesson(trap):
    """A lesson with such a text wherever one can stand."""

    def text(mark):
        return Text((("", hostile(trap, mark)),))

    options = tuple(Option(text(f"option {i}"), ()) for i in range(2))
    steps = (
        Step(text("say")),
        Step(text("reveal"), set=(("knee_bend_deg", 60.0),), mark=(hostile(trap, "mark"),),
             question=Question("choice", text("ask"), options=options),
             cases=(Case(text("one"), ()), Case(text("two"), ()))),
        Step(text("knee"), question=Question("knee", text("where"), leg="front")),
    )  # fmt: skip
    return Lesson(text("title"), text("about"), Setup().inputs, steps)


@pytest.fixture
def file(trap, evil, tmp_path):
    """The set-up in a file whose path reads as a tag too."""
    path = tmp_path / '<img src="' / str(trap)[1:] / 'c.png"> &amp; &y.json'
    path.parent.mkdir(parents=True)
    save(path, Document(evil, unknown_keys={hostile(trap, "key"): hostile(trap, "value")}))
    return path


def hover(root):
    """Ask everything in a window for its tool tip, and have it painted."""
    for widget in (root, *root.findChildren(QWidget)):
        middle = widget.rect().center()
        ask(widget, middle)
        for cell in cells(widget):
            ask(widget.viewport(), widget.visualRect(cell).topLeft() + QPoint(3, 3))
    for menu in root.findChildren(QMenu):
        menu.aboutToShow.emit()
        for action in menu.actions():
            QToolTip.showText(QPoint(), action.toolTip(), root)
    QToolTip.hideText()


def cells(widget):
    """The first cells of a list or a table; none of anything else."""
    model = widget.model() if isinstance(widget, QAbstractItemView) else None
    if model is None:
        return []
    columns = 1 if isinstance(model, QAbstractListModel) else model.columnCount()
    rows = min(model.rowCount(), 4)
    return [model.index(row, column) for row in range(rows) for column in range(columns)]


def ask(widget, at):
    help_wanted = QHelpEvent(QEvent.Type.ToolTip, at, widget.mapToGlobal(at))
    QApplication.sendEvent(widget, help_wanted)


def said_in(root):
    """Every tool tip of a window's things, and every text of its labels."""
    for widget in (root, *root.findChildren(QWidget)):
        yield widget.toolTip()
        if isinstance(widget, QLabel) and widget.objectName() != "qtooltip_label":
            assert widget.textFormat() != Qt.TextFormat.AutoText or not widget.text()
            if widget.textFormat() == Qt.TextFormat.RichText:
                yield widget.text()
        yield from (str(cell.data(Qt.ItemDataRole.ToolTipRole) or "") for cell in cells(widget))
    yield from (action.toolTip() for action in root.findChildren(QAction))


def look_at(root):
    """Show a window and everything in it; its texts, of which none may hold a tag of a file."""
    root.show()
    QApplication.processEvents()
    root.grab()
    hover(root)
    said = [each for each in said_in(root) if each]
    assert not [each for each in said if "<img" in each]
    return [unescape(each) for each in said]


def test_the_watch_sees_what_a_label_that_guesses_opens(qtbot, trap):
    label = QLabel(hostile(trap, "guessed"))
    qtbot.addWidget(label)
    with watched(trap) as watch:
        label.show()
        label.grab()
        assert "c.png" in watch.opened()
        QToolTip.showText(QPoint(), hostile(trap, "guessed"), label)
        QApplication.processEvents()
        assert "c.png" in watch.opened()
        QToolTip.hideText()
        assert watch.opened() == set()


def test_no_page_tip_or_menu_opens_what_a_text_of_a_file_names(started, trap, evil, file):
    with watched(trap) as watch:
        program = started(Document(evil), file)
        window, session = program.window, program.window.session
        session.take(hostile(trap, "step"), replace(evil, notes=evil.notes + "."))
        program.documents.notices.tell(hostile(trap, "notice"), hostile(trap, "offer"))
        window.compare.compare_with_file(file)
        assert look_at(window)
        for title in (entry.title for entry in entries()):
            page = window.tray.open_page(title)
            if title == "Growing":
                page.compare_with(file)
            if title == "Trials":
                page.table.selectRow(0)
                said = look_at(page)
                assert any(hostile(trap, "trial") in each for each in said)
            if title == "Lessons":
                look_at_lesson(page)
            for box in page.findChildren(QComboBox):
                box.view().grab()
            look_at(page)
            assert watch.opened() == set(), title
        assert file.name in window.windowTitle()
        window.compare.show_beside()
        look_at(window.compare.beside)
        assert hostile(trap, "name") in window.compare.beside.drawing.accessibleDescription()
        window.compare.beside.hide()
        window.compare.stop()
        assert watch.opened() == set()
        program.documents.work.save(file)  # nothing to ask at the end


def look_at_lesson(page):
    """Go through the lesson in hand, and see it made."""
    page._choose(CARRIED)
    seen = ""
    page.player.begin()
    while page.player.stage is not None:
        look_at(page)
        seen += page.player.words.text()
        page.player.skip()
    assert all(f"<b>{each}</b>" in seen for each in ("say", "reveal", "ask", "one", "two", "where"))
    page.make.setChecked(True)
    for row in range(3):
        page.recorder.steps.setCurrentRow(row)
        look_at(page)
    page.make.setChecked(False)


def test_nothing_of_a_lesson_taken_home_opens_what_is_named_in_it(qtbot, trap):
    going = Going(hostile_lesson(trap))
    with watched(trap) as watch:
        studio = Studio(lesson_strip(going), Look(), DAY)
        for place in sorted(studio.strip.cuts):
            assert not studio.picture(place).isNull()
        pages = lesson_pdf(going, "A4", DAY.isoformat())
        assert watch.opened() == set()
    read = "".join(page.extract_text() for page in PdfReader(io.BytesIO(pages)).pages)
    read = "".join(read.split())
    for mark in ("title", "about", "say", "reveal", "ask", "option0", "one", "two", "where"):
        assert f"<b>{mark}</b>" in read, mark


def asking_lesson(trap):
    """A lesson with such a text wherever one can stand, and every way of asking."""

    def text(mark):
        return Text((("", hostile(trap, mark)),))

    right = (Condition("front_off_plane", "<", 90.0),)
    options = tuple(Option(text(f"option {i}"), right) for i in range(2))
    bent = (("knee_bend_deg", 50.0),)
    questions = (
        Question("choice", text("choice"), options),
        Question("knee", text("knee"), leg="rear"),
        Question("slider", text("slider"), inputs=("knee_bend_deg",), low=20.0, high=60.0),
    )
    cases = tuple(Case(text(f"case {i}"), bent) for i in range(2))
    steps = (Step(text("told"), text("child"), bent, "", (), each, cases) for each in questions)
    return Lesson(text("title"), text("about"), steps=tuple(steps))


def shown_in(root):
    """What the labels say that can be seen."""
    return {label.text() for label in root.findChildren(QLabel) if label.isVisible()}


@pytest.mark.parametrize("young", [False, True])
def test_no_lesson_opens_what_is_named_in_it(started, trap, evil, young):
    seen = set()
    with watched(trap) as watch:
        program = started(Document(replace(evil, lesson=asking_lesson(trap))))
        page = program.window.tray.open_page("Lessons")
        page.young.setChecked(young)
        page._choose("carried")
        look_at(page)
        seen.update(shown_in(page.player))
        page.player.begin()
        while page.player.stage is not None:
            look_at(program.window)
            seen.update(shown_in(page.player))
            assert watch.opened() == set()
            page.player.skip()
        page.make.setChecked(True)
        look_at(page)
        page.recorder.steps.setCurrentRow(0)
        look_at(page)
        assert watch.opened() == set()
    marks = ["title", "about", "choice", "knee", "slider", "option 1"]
    for mark in (*marks, *(["child"] if young else ["told", "case 1"])):
        assert any(hostile(trap, mark) in each for each in seen), mark
    program.documents.desk.forget()


def test_no_clip_opens_what_is_named_in_it(started, qtbot, trap, evil):
    with watched(trap) as watch:
        program = started(Document(evil))
        program.window.pictures.save_clip()
        dialog = program.window.findChild(ClipDialog)
        dialog.named.setChecked(True)
        qtbot.waitUntil(dialog.save.isEnabled)
        dialog.grab()
        hover(dialog)
        reel = dialog.subject.reel(replace(dialog.wish, seconds=1.0, scale=0.5))
        assert len(list(reel)) > 1
        assert watch.opened() == set()
        dialog.close()


def test_nothing_that_was_typed_and_kept_opens_what_is_named_in_it(started, trap, evil):
    left, program = Recovery(recovery_folder()), None
    typed, gone = hostile(trap, "typed"), hostile(trap, "gone")
    places = "panel/front_angle_deg", "Trials", "Measuring/reading", "Parts/list/cells", "Notes/no"
    said = hostile(trap, "label"), typed, hostile(trap, "why"), hostile(trap, "detail")
    drafts = (*(Draft(place, *said) for place in places), Draft(gone, *said))
    left.keep(Unsaved(Document(evil), typed=drafts))
    left._lock.release()
    with watched(trap) as watch:
        program = started()
        with answered("Open it"):
            program.offer_left_behind()
        notices = program.documents.notices
        assert hostile(trap, "label") in notices.text
        look_at(program.window)
        field = program.window.panel.rows["front_angle_deg"].number
        assert field.draft == typed
        program.documents.desk.settle()
        look_at(program.window)
        with answered("Go back to it") as asked:
            program.window.close()
        assert "<b>typed</b>" in asked[0] or "<img" in asked[0]
        program.documents.desk.drop(program.window)
        look_at(program.window)
        assert watch.opened() == set()
    boxes = program.window.findChildren(QMessageBox)
    assert all(box.textFormat() == Qt.TextFormat.PlainText for box in boxes)


def test_no_message_opens_what_is_named_in_it(qtbot, trap):
    over, text = QWidget(), hostile(trap, "told")
    qtbot.addWidget(over)
    asking = [
        ("Esc", lambda: asked_to_save(over, text, copy=True)),
        ("Esc", lambda: asked_about_changed_file(over, text)),
        ("Esc", lambda: asked_to_replace(over, text)),
        ("Esc", lambda: asked_to_recover(over, text, 0.0)),
        ("Esc", lambda: agreed_to_go_on(over, text, text)),
        ("Esc", lambda: told_not_saved(over, text)),
        ("OK", lambda: tell(over, text, text)),
    ]
    with watched(trap) as watch:
        for button, ask_it in asking:
            with answered(button) as said:
                ask_it()
            assert text in said[0]
        assert watch.opened() == set()
    boxes = over.findChildren(QMessageBox)
    assert all(box.textFormat() == Qt.TextFormat.PlainText for box in boxes)


def test_no_list_of_riders_opens_what_is_named_in_it(qtbot, trap, file):
    (file.parent / "broken.json").write_text(f'{{"schema": "{trap}"}}')
    with watched(trap) as watch:
        dialog = RidersDialog(file.parent, USUAL_LIMITS)
        qtbot.addWidget(dialog)
        qtbot.waitUntil(lambda: dialog.riders.rowCount() == 2)
        said = look_at(dialog)
        assert any(hostile(trap, "notes") in each for each in said)
        assert watch.opened() == set()


def test_no_offer_of_work_left_behind_opens_what_it_is_called(started, trap, evil):
    left = Recovery(recovery_folder())
    left.keep(Unsaved(Document(evil)))
    left._lock.release()
    program = started()
    with watched(trap) as watch:
        with answered("Delete it") as said:
            program.offer_left_behind()
        assert hostile(trap, "name") in said[0]
        assert watch.opened() == set()


def test_no_picture_sheet_or_drawing_opens_what_is_named_on_it(qtbot, trap, evil):
    shown = frame(evil)
    with watched(trap) as watch:
        svgs = view_svgs(shown, LIGHT)
        snapshot_image(shown, LIGHT, 1.0, DAY)
        sheet = fit_sheet(shown, DAY)
        pages = [fit_sheet_pdf(sheet, "A4"), comparison_pdf(Pair(shown, shown), "A4", DAY)]
        assert all(page.startswith(b"%PDF") for page in pages)
        assert watch.opened() == set()
    for drawn in svgs.values():
        root = ElementTree.fromstring(drawn)
        assert hostile(trap, "name") in "".join(root.itertext())
        assert not list(root.iter("{http://www.w3.org/2000/svg}image"))
