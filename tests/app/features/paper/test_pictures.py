"""The menu of pictures: what is asked for lands in a file, or the user is told why not."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import QFileDialog
from pytestqt.qtbot import QtBot

from app.session import Session
from app.window.window import Window, prepared_application
from app.words.lengths import Lengths


@pytest.fixture
def window(qtbot: QtBot) -> Window:
    prepared_application()
    made = Window(Session())
    qtbot.addWidget(made)
    return made


@pytest.fixture
def said(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    messages: list[str] = []
    monkeypatch.setattr(
        "app.features.paper.pictures.told_not_saved", lambda *args: messages.append(args[1])
    )
    return messages


def choose(monkeypatch: pytest.MonkeyPatch, path: Path) -> list[tuple[str, ...]]:
    """The file dialog answers with a path; gives back what it was asked."""
    asked: list[tuple[str, ...]] = []
    monkeypatch.setattr(
        QFileDialog, "getSaveFileName", lambda *args: (asked.append(args[1:]), (str(path), ""))[1]
    )
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *_: str(path))
    return asked


def trigger(window: Window, text: str) -> None:
    (action,) = [each for each in window.pictures.actions() if each.text() == text]
    action.trigger()


@pytest.mark.parametrize(
    ("entry", "ending", "begins"),
    [
        ("Save picture…", ".png", b"\x89PNG"),
        ("Fit sheet as PDF, A4…", ".pdf", b"%PDF"),
        ("Fit sheet as PDF, Letter…", ".pdf", b"%PDF"),
    ],
)
def test_each_entry_writes_its_file_named_after_the_set_up(
    window: Window, tmp_path: Path, monkeypatch: pytest.MonkeyPatch,
    entry: str, ending: str, begins: bytes,
) -> None:  # fmt: skip
    asked = choose(monkeypatch, tmp_path / "Anna S. 2")
    trigger(window, entry)
    assert (tmp_path / f"Anna S. 2{ending}").read_bytes().startswith(begins)
    assert asked[0][1].endswith(f"Demo rider{ending}")


def test_a_file_whose_name_was_not_typed_whole_is_replaced_only_when_agreed(
    window: Window, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "a.pdf").write_bytes(b"mine")
    choose(monkeypatch, tmp_path / "a")
    monkeypatch.setattr("app.qt.questions.asked_to_replace", lambda *_: False)
    trigger(window, "Fit sheet as PDF, A4…")
    assert (tmp_path / "a.pdf").read_bytes() == b"mine"


def test_the_views_land_in_a_folder_and_are_not_replaced_unasked(
    window: Window, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    choose(monkeypatch, tmp_path)
    trigger(window, "Views as SVG…")
    views = ("above", "front foot", "front", "rear foot", "side")
    assert {path.name for path in tmp_path.glob("*.svg")} == {f"Demo rider {v}.svg" for v in views}
    (tmp_path / "Demo rider above.svg").write_text("mine")
    monkeypatch.setattr("app.features.paper.pictures.asked_to_replace", lambda *_: False)
    trigger(window, "Views as SVG…")
    assert (tmp_path / "Demo rider above.svg").read_text() == "mine"


@pytest.mark.parametrize("entry", ["Save picture…", "Fit sheet as PDF, A4…", "Views as SVG…"])
def test_a_folder_that_is_not_there_is_said(
    window: Window, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, said: list[str], entry: str
) -> None:
    choose(monkeypatch, tmp_path / "none" / "a.png")
    trigger(window, entry)
    assert len(said) == 1
    assert "there is no such folder" in said[0]


def test_a_picture_that_failed_is_saved_elsewhere_when_wanted(
    window: Window, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    places = [tmp_path / "none" / "a.png", tmp_path / "b.png"]
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(places.pop(0)), ""))
    monkeypatch.setattr("app.features.paper.pictures.told_not_saved", lambda *_: True)
    trigger(window, "Save picture…")
    assert (tmp_path / "b.png").read_bytes().startswith(b"\x89PNG")


def test_printing_asks_for_a_printer_and_prints_there(
    window: Window, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def agree(dialog: QPrintDialog) -> QPrintDialog.DialogCode:
        printer = dialog.printer()
        assert isinstance(printer, QPrinter)
        printer.setOutputFileName(str(tmp_path / "printed.pdf"))
        return QPrintDialog.DialogCode.Accepted

    monkeypatch.setattr(QPrintDialog, "exec", agree)
    trigger(window, "Print fit sheet…")
    assert (tmp_path / "printed.pdf").read_bytes().startswith(b"%PDF")
    assert window.documents.notices.text == "Printed to the file printed.pdf"


def test_what_went_to_a_printer_is_said_for_a_moment(
    window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(QPrintDialog, "exec", lambda _: QPrintDialog.DialogCode.Accepted)
    monkeypatch.setattr("app.features.paper.fit_sheet.print_fit_sheet", lambda *_: None)
    monkeypatch.setattr(QPrinter, "outputFileName", lambda _: "")
    monkeypatch.setattr(QPrinter, "printerName", lambda _: "Workshop")
    trigger(window, "Print fit sheet…")
    assert window.documents.notices.text == "Sent to the printer Workshop"


def test_what_could_not_be_printed_is_said_not_to_be_printed(
    window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    def jam(*_: object) -> None:
        raise OSError("the printer takes no page")

    told: list[tuple[str, ...]] = []
    monkeypatch.setattr(QPrintDialog, "exec", lambda _: QPrintDialog.DialogCode.Accepted)
    monkeypatch.setattr("app.features.paper.fit_sheet.print_fit_sheet", jam)
    monkeypatch.setattr("app.features.paper.pictures.tell", lambda *args: told.append(args[1:]))
    trigger(window, "Print fit sheet…")
    assert told == [("Not printed", "the printer takes no page")]
    assert window.documents.notices.text == ""


def test_nothing_is_printed_when_the_user_does_not_agree(
    window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(QPrintDialog, "exec", lambda _: QPrintDialog.DialogCode.Rejected)
    printed: list[object] = []
    monkeypatch.setattr(
        "app.features.paper.fit_sheet.print_fit_sheet", lambda *a: printed.append(a)
    )
    trigger(window, "Print fit sheet…")
    assert printed == []


def test_the_fit_sheet_speaks_in_the_units_of_the_window(window: Window, qtbot: QtBot) -> None:
    window.show_lengths(Lengths("in"))
    qtbot.wait(1)  # until the one pass is made
    shown = window.shown()
    assert shown is not None
    assert shown.frame.lengths == Lengths("in")


def test_no_two_entries_listen_to_the_same_keys(window: Window) -> None:
    keys = [action.shortcut().toString() for action in window.actions()]
    keys = [each for each in keys if each]
    assert len(keys) == len(set(keys))
