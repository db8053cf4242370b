"""A picture is enough to get the set-up back: from the window, the command line, a drop."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtGui import QGuiApplication, QImage
from pytestqt.qtbot import QtBot

from app.__main__ import main
from app.drawing.theme import LIGHT
from app.features.paper.snapshot import png_bytes, snapshot_image
from app.files.png_setup import setup_in_png
from app.files.resources import SHARED
from app.files.storage import Document, bytes_of, document_in, opened, save
from app.frame import frame
from app.rider.setup import edited
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
