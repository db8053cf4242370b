"""The fit sheet on paper, its text read back by an independent library (pypdf)."""

from __future__ import annotations

import io
import itertools
import re
from dataclasses import replace
from datetime import date
from pathlib import Path

import pypdf
import pytest
from PySide6.QtCore import QLocale, QRectF
from PySide6.QtGui import QColor, QImage, QPageSize, QPainter
from PySide6.QtPrintSupport import QPrinter

from app.features.paper.fit_page import FitSheet
from app.features.paper.fit_sheet import (
    fit_sheet,
    fit_sheet_pdf,
    page_layout,
    paint_on_page,
    print_fit_sheet,
    usual_paper,
)
from app.features.paper.fit_sheet_text import PartsOfFoot, PartsUnder
from app.files.resources import ASSETS
from app.frame import frame
from app.qt.painting.lettering import load_fonts
from app.qt.painting.page_painting import SIZES
from app.rider.setup import Setup, edited, estimated
from app.rider.trials import entry_of
from app.stance.findings import CAUTION

DAY = date(2026, 1, 31)
POINTS = {"A4": (595, 842), "Letter": (612, 792)}
"""Sizes in points of 1/72 inch: ISO 216 (210 by 297 mm), and 8.5 by 11 inches."""
PARTS = PartsUnder(
    (
        PartsOfFoot("front", ("Turn the 3° round wedge so that its high side stands at the toe.",)),
        PartsOfFoot("rear", ("Mount the binding flat, without any part.",)),
    )
)


@pytest.fixture(autouse=True)
def drafting_face(qapp: object) -> None:
    assert load_fonts(ASSETS / "fonts")


def sheet_of(setup: Setup, **more: object) -> FitSheet:
    return fit_sheet(frame(setup), DAY, **more)  # type: ignore[arg-type]


def full() -> FitSheet:
    setup = edited(estimated(Setup(name="Kim"), stature_mm=1745.0), front_cant_deg=2.5)
    trials = tuple(
        entry_of(setup.inputs, f"2026-01-{day:02}", ("even", "bow-legged"), ("even",) * 2, "icy")
        for day in range(10, 17)
    )
    return sheet_of(replace(setup, trials=trials), parts=PARTS)


def read_back(pdf: bytes) -> tuple[pypdf.PageObject, str]:
    """The only page and its text, line ends as spaces."""
    (page,) = pypdf.PdfReader(io.BytesIO(pdf)).pages
    return page, " ".join(page.extract_text().split())


@pytest.mark.parametrize("paper", SIZES)
def test_one_page_of_the_paper_asked_for(paper: str) -> None:
    page, text = read_back(fit_sheet_pdf(full(), paper))
    assert (round(page.mediabox.width), round(page.mediabox.height)) == POINTS[paper]
    assert paper in text


@pytest.mark.parametrize("paper", SIZES)
def test_every_word_of_the_sheet_can_be_searched(paper: str) -> None:
    sheet = full()
    _, text = read_back(fit_sheet_pdf(sheet, paper))
    words = sheet.text
    rows = (*words.measures, *words.mounts, *words.stance, *words.boots, *words.posture)
    wanted = [words.title, words.day, words.lead_foot, " ".join(CAUTION.split())]
    wanted += [cell for row in rows for cell in row]
    wanted += [cell for pair in words.findings for cell in pair]
    wanted += [*words.trials, "and 3 earlier, in the set-up's file."]
    wanted += [step for foot in words.parts.feet for step in foot.steps]
    assert [each for each in wanted if each not in text] == []


def test_titles_of_all_views_and_their_scales_are_text() -> None:
    _, text = read_back(fit_sheet_pdf(full(), "A4"))
    for scene in full().frame.scenes.values():
        assert f"{scene.title}, 1 : " in text
    assert "Through the bend" in text


def test_drawings_are_vectors_and_the_typeface_is_inside() -> None:
    page, _ = read_back(fit_sheet_pdf(full(), "A4"))
    assert not page.images
    fonts = [font.get_object() for font in page["/Resources"]["/Font"].values()]  # type: ignore[index]
    assert fonts
    for font in fonts:
        (descendant,) = font["/DescendantFonts"]
        assert "KneelineDrafting" in font["/BaseFont"]
        assert "/FontFile2" in descendant.get_object()["/FontDescriptor"].get_object()


def heights(page: pypdf.PageObject) -> dict[str, float]:
    """How far down the page each text begins, in the page's own unit."""
    found: dict[str, float] = {}
    page.extract_text(visitor_text=lambda text, _cm, tm, *_: found.setdefault(text.strip(), tm[5]))
    return found


@pytest.mark.parametrize("paper", SIZES)
def test_sections_follow_each_other_and_no_line_runs_into_the_next(paper: str) -> None:
    sheet = full()
    page, _ = read_back(fit_sheet_pdf(sheet, paper))
    at = heights(page)
    below = [
        *("From above, 1 : ", "Rider's measures, with standard errors", "Knee tracking"),
        *(
            "Through the bend: how far out of its plane",
            "mean knee bend",
            "Trials, the latest first",
        ),
        *sheet.text.trials,
        *("and 3 earlier, in the set-up's file.", "Begin with", "Front foot: ", "Cant 2.5° inward"),
        *("Parts, and how to set them", "Front foot"),
        *(PARTS.feet[0].steps[0], CAUTION[:50], "Fit sheet", sheet.text.title),
    ]
    beside = [
        *("Stance, lift and cant", "Sole thickness", "Boot ramp"),
        *("Knees in the posture shown, and flags", "Front leg: ", "Rear leg: "),
    ]
    for column in (below, beside):
        places = [next(y for text, y in at.items() if text.startswith(each)) for each in column]
        # Type is up to 12.5 of these units high in the body of the page.
        assert all(b - a > 12.5 for a, b in itertools.pairwise(places))


@pytest.mark.parametrize("paper", SIZES)
def test_notes_are_on_the_page_and_long_ones_are_cut_and_said_to_be(paper: str) -> None:
    noted = replace(full().frame.setup, notes="Left knee first.\nNew liners.")
    page, text = read_back(fit_sheet_pdf(sheet_of(noted), paper))
    at = heights(page)
    assert at["mean knee bend"] < at["Notes"] < at["Trials, the latest first"]
    assert "Left knee first. New liners." in text
    words = " ".join(f"word{i}" for i in range(300))
    _, text = read_back(fit_sheet_pdf(sheet_of(replace(noted, notes=words), parts=PARTS), paper))
    assert "word0 word1 word2" in text
    assert "word299" not in text
    assert re.search(r"word\d+ … and more in the set-up's file\.", text)


def test_without_notes_there_is_no_section_of_notes() -> None:
    assert "Notes" not in heights(read_back(fit_sheet_pdf(full(), "A4"))[0])


def test_without_parts_there_is_no_section_of_parts() -> None:
    _, text = read_back(fit_sheet_pdf(sheet_of(Setup()), "Letter"))
    assert "Parts, and how to set them" not in text
    assert "None yet." in text


@pytest.mark.parametrize("paper", SIZES)
def test_parts_that_do_not_make_the_mounts_are_said_in_one_paragraph(paper: str) -> None:
    words = "The mounts are: front flat; rear 1.5° inward. " + "They are made otherwise. " * 12
    page, text = read_back(fit_sheet_pdf(sheet_of(Setup(), parts=PartsUnder((), words)), paper))
    assert words.strip() in text
    at = heights(page)
    under = next(y for said, y in at.items() if said.startswith("The mounts are"))
    assert at["Parts, and how to set them"] + 12.5 < under
    assert "Front foot" not in at


def test_the_file_is_named_after_the_set_up_inside() -> None:
    information = pypdf.PdfReader(io.BytesIO(fit_sheet_pdf(full(), "A4"))).metadata
    assert information is not None
    assert information.title == "Fit sheet: Kim"


@pytest.mark.parametrize("paper", SIZES)
@pytest.mark.parametrize(
    "setup",
    [
        Setup(name="A very long name " * 20, notes="word " * 900),
        Setup(notes="unbroken" * 900),
        edited(Setup(), stance_length_mm=800.0, front_angle_deg=90.0, rear_angle_deg=-60.0),
        edited(Setup(), forward_lean_deg=0.0, flex_range_deg=0.0, knee_bend_deg=110.0),
        edited(Setup(), across_spacing_mm=600.0, front_angle_deg=-60.0, rear_angle_deg=90.0),
    ],
)
def test_nothing_is_painted_outside_the_frame(setup: Setup, paper: str) -> None:
    image = painted(sheet_of(setup, parts=PARTS), paper)
    edge = round(10.0 / 25.4 * 60.0) - 3
    for strip in (
        QRectF(0, 0, image.width(), edge),
        QRectF(0, 0, edge, image.height()),
        QRectF(image.width() - edge, 0, edge, image.height()),
        QRectF(0, image.height() - edge, image.width(), edge),
    ):
        assert colours(image.copy(strip.toRect())) == {QColor("white").rgb()}


def painted(sheet: FitSheet, paper: str) -> QImage:
    """The sheet at 60 dots to the inch."""
    page = page_layout(paper).fullRectPixels(60)
    image = QImage(page.size(), QImage.Format.Format_RGB32)
    image.fill(QColor("white"))
    with QPainter(image) as painter:
        paint_on_page(painter, sheet, QRectF(page), 60.0, paper)
    return image


def colours(image: QImage) -> set[int]:
    return {image.pixel(x, y) for x in range(image.width()) for y in range(image.height())}


@pytest.mark.parametrize("size", ["A5", "A3"])
def test_other_papers_of_a_printer_are_filled_from_corner_to_corner(
    size: str, tmp_path: Path
) -> None:
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFileName(str(tmp_path / "a.pdf"))
    printer.setPageSize(QPageSize(getattr(QPageSize.PageSizeId, size)))
    print_fit_sheet(full(), printer)
    page, text = read_back((tmp_path / "a.pdf").read_bytes())
    assert size in text
    assert "Kim" in text
    # ISO 216: A5 is 148 mm wide, A3 is 297 mm.
    wide_mm = float(page.mediabox.width) / 72.0 * 25.4
    assert wide_mm == pytest.approx({"A5": 148.0, "A3": 297.0}[size], abs=0.5)


@pytest.mark.qt_log_ignore("QPainter::begin")
def test_a_printer_that_takes_no_page_is_said(tmp_path: Path) -> None:
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFileName(str(tmp_path / "no such folder" / "a.pdf"))
    with pytest.raises(OSError, match="takes no page"):
        print_fit_sheet(full(), printer)


def test_the_usual_paper_is_that_of_the_country() -> None:
    assert usual_paper(QLocale("en_US")) == "Letter"
    assert usual_paper(QLocale("de_CH")) == "A4"
