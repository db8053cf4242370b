"""A picture is enough to get the set-up back: from the window, the command line, a drop."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from modal import answered
from PySide6.QtGui import QGuiApplication, QImage
from PySide6.QtWidgets import QFileDialog
from pytestqt.qtbot import QtBot

from app.__main__ import main
from app.drawing.theme import LIGHT
from app.features.paper.snapshot import png_bytes, snapshot_image, summary
from app.files.png_setup import setup_in_png
from app.files.resources import SHARED
from app.files.storage import Document, bytes_of, document_in, opened, save
from app.frame import frame
from app.rider.inputs import changed
from app.rider.lessons import Lesson, Step, Text
from app.rider.setup import DEMO, edited
from app.rider.sharing import tells_of_rider, without_rider
from app.rider.trials import entry_of
from app.session import Session
from app.window.window import Window, prepared_application
from app.work import Work, paper_of

ROOT = Path(__file__).parents[4]
DUCK = SHARED / "soft-boots-duck.json"


@pytest.fixture
def window(qtbot: QtBot) -> Window:
    prepared_application()
    made = Window(Session())
    qtbot.addWidget(made)
    made.documents.settings.change(pictures="whole")
    return made


def tried(document: Document) -> Document:
    trial = entry_of(document.setup.inputs, "2026-01-31", ("even", "bow-legged"), ("even",) * 2, "")
    setup = replace(
        edited(document.setup, front_cant_deg=2.5),
        name="Ærø",
        notes="line\nand line",
        trials=(trial,),
    )
    return replace(document, setup=setup, unknown_keys={"colour": [1, "two"]})


def test_a_picture_reopens_byte_for_byte_with_notes_trials_and_unknown_keys(
    window: Window, tmp_path: Path
) -> None:
    save(tmp_path / "a.json", tried(opened(DUCK)))
    assert window.documents.open_path(tmp_path / "a.json")
    window._show()
    pictures = window.pictures
    pictures.write(tmp_path / "a.png", pictures.picture, pictures.save_picture)
    carried = setup_in_png((tmp_path / "a.png").read_bytes())
    assert carried == (tmp_path / "a.json").read_bytes()
    assert bytes_of(opened(tmp_path / "a.png")) == carried


def test_the_picture_looks_the_same_with_its_set_up_inside(window: Window, tmp_path: Path) -> None:
    pictures = window.pictures
    pictures.write(tmp_path / "a.png", pictures.picture, pictures.save_picture)
    plain = snapshot_image(frame(window.session.setup), LIGHT, 2.0, date.today())
    assert QImage(str(tmp_path / "a.png")).convertToFormat(plain.format()) == plain


def test_a_picture_opened_brings_the_stance_back_and_is_not_saved_over(
    window: Window, tmp_path: Path
) -> None:
    before = edited(window.session.setup, rear_angle_deg=-12.0)
    window.session.take("turn", before)
    window._show()
    pictures = window.pictures
    pictures.write(tmp_path / "a.png", pictures.picture, pictures.save_picture)
    window.session.undo()
    assert window.documents.open_path(tmp_path / "a.png")
    assert window.session.setup == before
    assert window.documents.work.paper.path is None
    assert not window.documents.work.modified


def test_the_command_line_writes_and_opens_pictures_that_carry_their_set_up(
    tmp_path: Path, qapp: object
) -> None:
    first, second = str(tmp_path / "a.png"), str(tmp_path / "b.png")
    assert main([str(DUCK), "--set", "rear_cant_deg=1.5", "--snapshot", first]) == 0
    wanted = replace(opened(DUCK), setup=edited(opened(DUCK).setup, rear_cant_deg=1.5))
    assert opened(Path(first)) == wanted
    assert main([first, "--snapshot", second]) == 0
    assert setup_in_png(Path(second).read_bytes()) == bytes_of(wanted)


def test_the_copied_picture_carries_the_set_up_too(window: Window) -> None:
    window.session.rename("Ærø −3°")
    window._show()
    window.pictures.copy_picture()
    pasted = png_bytes(QGuiApplication.clipboard().image())
    assert setup_in_png(pasted) == bytes_of(window.documents.work.document)


def choose(patch: pytest.MonkeyPatch, path: Path) -> list[str]:
    """The file dialog answers with a path; gives back the names that it suggests."""
    suggested: list[str] = []

    def answer(_parent: object, _title: str, name: str, *_: object) -> tuple[str, str]:
        suggested.append(Path(name).name)
        return str(path), ""

    patch.setattr(QFileDialog, "getSaveFileName", answer)
    return suggested


def test_a_picture_with_everything_in_it_counts_as_saved_until_the_next_change(
    window: Window, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    window.session.rename("Ærø")
    choose(monkeypatch, tmp_path / "a.png")
    assert window.isWindowModified()
    window.pictures.save_picture()
    work = window.documents.work
    assert (window.isWindowModified(), work.is_kept, work.unsaved) == (False, True, None)
    window.session.edit(front_angle_deg=12.0)
    assert window.isWindowModified()
    assert not work.is_kept


def test_a_picture_does_not_stand_for_the_file_that_the_work_belongs_to(
    window: Window, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    save(tmp_path / "a.kneeline", opened(DUCK))
    assert window.documents.open_path(tmp_path / "a.kneeline")
    window.session.edit(front_angle_deg=12.0)
    choose(monkeypatch, tmp_path / "a.png")
    window.pictures.save_picture()
    assert window.isWindowModified()


def test_what_pictures_carry_is_asked_once_and_a_bare_stance_tells_nothing_of_its_rider(
    window: Window, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    window.documents.settings.change(pictures="ask")
    window.session.take("all", tried(opened(DUCK)).setup)
    window.session.edit(left_hip_height_mm=903.0)
    suggested = choose(monkeypatch, tmp_path / "a.png")
    with answered("Esc"):
        window.pictures.save_picture()
    assert (suggested, window.documents.settings.now.pictures) == ([], "ask")
    with answered("Without the rider", "Replace"):
        window.pictures.save_picture()
        window.pictures.save_picture()
    assert suggested == ["Stance without its rider.png"] * 2
    carried = setup_in_png((tmp_path / "a.png").read_bytes())
    assert not any(each in carried for each in ("Ærø".encode(), b"and line", b"903", b"2026-01"))
    setup = document_in(carried).setup
    assert not tells_of_rider(setup)
    for name in ("front_cant_deg", "front_angle_deg", "stance_length_mm", "left_forward_lean_deg"):
        assert setup.inputs.value(name) == window.session.inputs.value(name)
    assert window.isWindowModified(), "the rider stands in no file yet"


def test_the_demo_rider_is_nobody_who_would_be_asked_about(
    window: Window, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    window.documents.settings.change(pictures="ask")
    window.session.edit(front_angle_deg=12.0)
    choose(monkeypatch, tmp_path / "a.png")
    window.pictures.save_picture()
    assert opened(tmp_path / "a.png").setup == window.session.setup


def test_a_lesson_recorded_on_somebody_is_asked_about_and_stays_out_without_the_rider(
    window: Window, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    window.documents.settings.change(pictures="ask")
    body = changed(DEMO.inputs, hip_height_mm=913.0)
    lesson = Lesson(Text((("", "Bea's knees"),)), Text(), body, (Step(Text((("", "Look."),))),))
    window.session.take("Recorded", replace(DEMO, lesson=lesson))
    assert tells_of_rider(window.session.setup)
    choose(monkeypatch, tmp_path / "a.png")
    with answered("Without the rider"):
        window.pictures.save_picture()
    carried = setup_in_png((tmp_path / "a.png").read_bytes())
    assert not any(each in carried for each in (b"Bea", b"913", b"Look."))
    assert not tells_of_rider(document_in(carried).setup)


def test_the_command_line_leaves_the_rider_out_when_told_so(tmp_path: Path, qapp: object) -> None:
    save(tmp_path / "a.kneeline", tried(opened(DUCK)))
    out = tmp_path / "a.png"
    assert main([str(tmp_path / "a.kneeline"), "--snapshot", str(out), "--without-rider"]) == 0
    setup = opened(out).setup
    assert setup == without_rider(tried(opened(DUCK)).setup)
    assert not tells_of_rider(setup)
    assert main([str(out), "--save", str(tmp_path / "b.json"), "--without-rider"]) == 2


def test_the_header_of_a_bare_stance_tells_no_measure_of_the_body() -> None:
    inputs = opened(DUCK).setup.inputs
    assert "hip" in summary(inputs)
    assert not any(word in summary(inputs, body=False) for word in ("hip", "knee", "natural"))


def test_a_picture_left_on_the_clipboard_does_not_crash_the_end_of_the_program() -> None:
    code = (
        "from app.session import Session; from app.window.window import *\n"
        "app = prepared_application(); window = Window(Session())\n"
        "window.pictures.copy_picture(); window.close()"
    )
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, check=False, timeout=60)
    assert done.returncode == 0


def test_a_picture_that_went_through_another_program_says_that_it_lost_the_set_up(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], qapp: object
) -> None:
    (tmp_path / "a.png").write_bytes(png_bytes(QImage(4, 4, QImage.Format.Format_RGB32)))
    assert main([str(tmp_path / "a.png"), "--numbers"]) == 2
    assert "carries no set-up" in capsys.readouterr().err


def test_the_part_of_a_newer_file_that_is_known_goes_into_the_picture(qapp: object) -> None:
    session = Session(opened(DUCK).setup)
    newer = replace(opened(DUCK), schema=99, unknown_keys={"wings": 2})
    work = Work(session, replace(paper_of(DUCK), document=newer))
    image = png_bytes(snapshot_image(frame(session.setup), LIGHT, 0.5, date(2026, 1, 31)))
    carried = document_in(work.inside(image, session.setup))
    assert (carried.setup, carried.read_only, carried.unknown_keys) == (session.setup, False, {})
